/** Blanks nested and lengths cut for the editor: a job is cut once, then read as a page and saved in any form, without being cut again. */
import { basename } from 'node:path';
import { type CuttingPaperwork, cutJob, cuttingFiles, cuttingPage, partsToCut, readSpace, usualSpaces } from '../node-cutting.js';
import { type CuttingOutcome, papers } from '../sheets/index.js';
import { cuttingJob, type PartToCut } from '../stock/index.js';
import type { Working } from './longWork.js';
import type { CutFilesParams, CutFilesResult, CutParams, CutResult } from './protocol.js';
import { nextTurn } from './publish.js';
import { isWithin, pathOfUri } from './uri.js';
import type { Workspace } from './workspace.js';

export interface Cutting {
  readonly cut: (params: CutParams, working: Working) => Promise<CutResult>;
  readonly files: (params: CutFilesParams) => Promise<CutFilesResult>;
}

/** Jobs whose pages may still stand open. */
const mostKept = 4;

interface CutJob {
  readonly name: string;
  readonly outcome: CuttingOutcome;
  readonly paperwork: CuttingPaperwork;
}

export const createCutting = (workspace: Workspace): Cutting => {
  const jobs = new Map<string, CutJob>();
  let last = 0;

  const cut = async ({ uri, what, times = 1, seconds }: CutParams, { stop, progress }: Working): Promise<CutResult> => {
    // A file that need not be there stands for its folder.
    const ask = workspace.ask(what === 'folder' ? `${uri.replace(/\/+$/, '')}/.planish` : uri);
    const { project, settings } = ask;
    const place = pathOfUri(uri).replace(/(?<=.)\/+$/, '');
    const name = basename(place, '.planish');
    const files = what === 'file' ? [place] : ask.files().filter((file) => isWithin(place, file));
    const parts: PartToCut[] = [];
    for (const file of files) {
      progress(0, basename(file));
      await nextTurn();
      if (stop.aborted) return {};
      parts.push(...partsToCut(project, file));
    }
    const unit = files.map((file) => project.model(file).units).find((each) => each !== undefined);
    const inches = unit?.name === 'inch' || unit?.name === 'foot';
    const usual = usualSpaces(inches);
    const job = cuttingJob(parts, {
      kerf: readSpace(settings.cutting.kerf) ?? usual.kerf,
      margin: readSpace(settings.cutting.margin) ?? usual.margin,
      turnStep: (settings.cutting.turnStep * Math.PI) / 180,
      times: Math.min(10_000, Math.max(1, Math.round(times))),
    });
    if (job.sheets.length + job.lengths.length === 0) {
      const why = job.left.map(({ part, reason }) => `${part}: ${reason}.`).join(' ');
      return { reason: `There is nothing to cut in ${basename(place)}. ${why}`.trim() };
    }
    const outcome = await cutJob(job, { seconds: seconds ?? settings.cutting.seconds, seed: 1, stop, progress });
    const paper = settings.paper === 'roll' ? (inches ? 'letter' : 'a4') : settings.paper;
    const id = String(++last);
    jobs.set(id, {
      name,
      outcome,
      paperwork: {
        title: {
          title: times === 1 ? name : `${name}, ${times} times`,
          documentType: 'cutting list',
          date: new Date().toISOString().slice(0, 10),
        },
        paper: papers[paper],
        display: { unit, denominator: settings.display.denominator },
        decimalComma: settings.cutting.decimalComma,
      },
    });
    for (const old of [...jobs.keys()].slice(0, -mostKept)) jobs.delete(old);
    return { id, name, settled: outcome.sheets.every(({ settled }) => settled) };
  };

  const files = async ({ id, format, nonce }: CutFilesParams): Promise<CutFilesResult> => {
    const job = jobs.get(id);
    if (job === undefined) return { files: [], reason: 'This job is no longer known; lay it out again.' };
    const { outcome, paperwork, name } = job;
    if (format === 'page') return { files: [{ name: `${name}.html`, text: await cuttingPage(outcome, paperwork, nonce) }] };
    const written = await cuttingFiles(outcome, format, format === 'all' ? 'cutting-list' : `${name}-cutting`, paperwork);
    return {
      files: written.map(({ name: file, data }) =>
        typeof data === 'string' ? { name: file, text: data } : { name: file, bytes: Buffer.from(data).toString('base64') },
      ),
    };
  };

  return { cut, files };
};
