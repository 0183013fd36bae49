/** What changed in a file since it was committed, as a page to read. */
import { basename } from 'node:path';
import { versionsOf } from '../node-compare.js';
import { openRevision } from '../node-git.js';
import { createProject } from '../project.js';
import { compareParts, comparisonBlocks, documentHtml } from '../sheets/index.js';
import type { Ask } from './ask.js';
import type { CompareResult } from './protocol.js';
import { folderOf } from './uri.js';

/** @param nonce written on the page's style, for the policy of whoever shows it */
export const compareCommitted = (ask: Ask, nonce: string): CompareResult => {
  const { path, project } = ask;
  const name = basename(path);
  const committed = openRevision(folderOf(path), 'HEAD');
  if (typeof committed === 'string') return { reason: committed };
  if (committed.files.read(path) === undefined) return { reason: `${name} has not been committed yet.` };
  const old = createProject({ files: committed.files, root: committed.root });
  const options = { unit: project.model(path).units, denominator: ask.settings.display.denominator };
  const parts = compareParts(versionsOf(old, path, options.denominator), versionsOf(project, path, options.denominator), options);
  const blocks = comparisonBlocks([{ file: name, parts, options }], { old: 'as committed last', new: 'as it stands in the editor' });
  const date = new Date().toISOString().slice(0, 10);
  return {
    html: documentHtml(blocks, { title: name, documentType: 'comparison', date }, { nonce }),
    changed: parts.filter(({ state }) => state !== 'same').length,
  };
};
