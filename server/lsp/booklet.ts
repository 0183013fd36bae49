/** The job booklet for the editor: of a file or a folder as they stand in the editor, unsaved text included. */
import { basename } from 'node:path';
import { type BookletSource, makeBooklet } from '../node-booklet.js';
import type { Working } from './longWork.js';
import type { BookletParams, BookletResult } from './protocol.js';
import { isWithin, pathOfUri } from './uri.js';
import type { Workspace } from './workspace.js';

const given = (name: 'owner' | 'creator', value: string): Readonly<Record<string, string>> => (value === '' ? {} : { [name]: value });

export const bookletOf =
  (workspace: Workspace) =>
  async ({ uri, what, format }: BookletParams, { stop, progress }: Working): Promise<BookletResult> => {
    // A file that need not be there stands for its folder.
    const { project, settings, files } = workspace.ask(what === 'folder' ? `${uri.replace(/\/+$/, '')}/.planish` : uri);
    const place = pathOfUri(uri).replace(/(?<=.)\/+$/, '');
    const name = basename(place, '.planish');
    const sources = (what === 'file' ? [place] : files().filter((file) => isWithin(place, file)))
      .filter((file) => project.model(file).partNames.length > 0)
      .map(
        (path): BookletSource => ({ path, name: what === 'file' ? basename(path) : path.slice(place.length).replace(/^\/+/, ''), project }),
      );
    if (sources.length === 0) return { reason: `There is no part in ${basename(place)}, so there is nothing to write a booklet about.` };
    const booklet = await makeBooklet(sources, {
      title: name,
      fields: {
        date: new Date().toISOString().slice(0, 10),
        ...given('owner', settings.booklet.owner),
        ...given('creator', settings.booklet.creator),
      },
      format,
      ...(settings.paper === 'roll' ? {} : { paper: settings.paper }),
      bothUnits: settings.booklet.bothUnits,
      denominator: settings.display.denominator,
      seed: 1,
      stop,
      progress,
    });
    if (booklet === undefined) return {};
    const errors = sources.reduce(
      (sum, { path }) => sum + project.findingsSoFar(path).filter(({ severity }) => severity === 'error').length,
      0,
    );
    return {
      bytes: Buffer.from(booklet.bytes).toString('base64'),
      parts: booklet.parts,
      errors,
      ...(booklet.sheets === undefined ? {} : { sheets: booklet.sheets }),
    };
  };
