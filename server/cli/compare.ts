/** `planish compare OLD NEW`: what changed between two versions of files, folders or git revisions. */
import { existsSync, statSync } from 'node:fs';
import { basename, extname, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { versionsOf } from '../node-compare.js';
import { projectPath } from '../node-files.js';
import { openRevision } from '../node-git.js';
import { pagePng, readFonts } from '../node-sheets.js';
import { createProject, type Project } from '../project.js';
import {
  compareParts,
  comparisonBlocks,
  documentHtml,
  overlayPage,
  type Page,
  type PartComparison,
  pageSvg,
  papers,
  readType,
  setPages,
  type Version,
  writePdf,
} from '../sheets/index.js';
import { findFiles, rootOf, shownPath, writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';
import { openProjects } from './projects.js';
import { colours } from './words.js';

export const help = `planish compare OLD [NEW]

What changed, in the designer's terms, and what follows from it. OLD and NEW are files, folders,
or git revisions written REVISION:path. Without NEW, OLD is a file or folder that is compared
with its committed version (HEAD).

  -o, --output OUT   .pdf or .html: what changed, with an overlay of each changed part, old thin
                     and dashed, new solid. .svg or .png: the overlays alone, at true size (the
                     part's name is added)
      --json         as data

  planish compare gate.planish
  planish compare HEAD~3:gate.planish gate.planish
  planish compare last-year/ this-year/
`;

/** One side: its part files by their place in the folder compared, and the project that answers for them. */
interface Side {
  readonly words: string;
  readonly files: readonly { readonly name: string; readonly path: string; readonly project: Project }[];
  /** A single file answers for another whatever it is called. */
  readonly single: boolean;
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;

const onDisk = async (path: string, io: Io): Promise<Side> => {
  const whole = projectPath(resolve(io.cwd, path));
  const folder = isFolder(whole);
  const projects = openProjects(io);
  const files = await findFiles([path], io);
  return {
    words: path,
    single: !folder,
    files: files.map((file) => ({ name: folder ? file.slice(whole.length + 1) : basename(file), path: file, project: projects.of(file) })),
  };
};

const committed = (revision: string, path: string, io: Io): Side => {
  const whole = projectPath(resolve(io.cwd, path === '' ? '.' : path));
  const opened = openRevision(io.cwd, revision);
  if (typeof opened === 'string') throw callError(opened);
  const files = opened.partFiles(whole);
  if (files.length === 0) throw callError(`${revision} holds no part file at ${path === '' ? '.' : path}.`);
  const single = files.length === 1 && files[0] === whole;
  // `with` may go as far as it may on the disk: to the top of the repository.
  const project = createProject({ files: opened.files, root: existsSync(whole) ? rootOf(whole, io) : opened.root });
  return {
    words: `${revision}:${path}`,
    single,
    files: files.map((file) => ({ name: single ? basename(file) : file.slice(whole.length + 1), path: file, project })),
  };
};

const sideOf = async (word: string, io: Io): Promise<Side> => {
  if (existsSync(resolve(io.cwd, word))) return onDisk(word, io);
  const colon = word.indexOf(':');
  if (colon > 0) return committed(word.slice(0, colon), word.slice(colon + 1), io);
  throw callError(`There is no file or folder ${word}. A git revision is written REVISION:path, as in HEAD:${word}.`);
};

const versionsIn = (file: Side['files'][number] | undefined): readonly Version[] =>
  file === undefined ? [] : versionsOf(file.project, file.path);

interface FileComparison {
  readonly file: string;
  readonly parts: readonly PartComparison[];
  readonly unit: ReturnType<Project['model']>['units'];
}

const compareSides = (old: Side, now: Side): readonly FileComparison[] => {
  const pairs =
    old.single && now.single
      ? [{ name: now.files[0]?.name ?? '', old: old.files[0], now: now.files[0] }]
      : [...new Set([...old.files, ...now.files].map(({ name }) => name))].sort().map((name) => ({
          name,
          old: old.files.find((file) => file.name === name),
          now: now.files.find((file) => file.name === name),
        }));
  return pairs.map((pair) => {
    const newest = pair.now ?? pair.old;
    const unit = newest?.project.model(newest.path).units;
    return { file: pair.name, unit, parts: compareParts(versionsIn(pair.old), versionsIn(pair.now), { unit }) };
  });
};

const print = async (comparisons: readonly FileComparison[], io: Io): Promise<void> => {
  const { default: Table } = await import('cli-table3');
  const paint = colours(io);
  let same = 0;
  for (const { file, parts } of comparisons) {
    for (const { name, state, changes } of parts) {
      if (state === 'same') {
        same++;
        continue;
      }
      io.write(`${paint.bold(name)} in ${file}${state === 'changed' ? '' : `: ${state}`}\n`);
      if (changes.length === 0) {
        io.write('\n');
        continue;
      }
      const table = new Table({ head: ['what', 'old', 'new'], style: { head: [], border: [], compact: true } });
      let follows = false;
      for (const change of changes) {
        if (change.kind === 'follows' && !follows) {
          follows = true;
          table.push([{ colSpan: 3, content: paint.dim('and so') }]);
        }
        table.push([change.what, change.old ?? '–', change.new ?? '–']);
      }
      io.write(`${table.toString()}\n\n`);
    }
  }
  const changed = comparisons.flatMap(({ parts }) => parts).filter(({ state }) => state !== 'same').length;
  io.write(
    changed === 0
      ? `Nothing changed: ${same} ${same === 1 ? 'part is' : 'parts are'} the same.\n`
      : `${changed} changed, ${same} the same.\n`,
  );
};

/** What changed, as a document to print or to read. */
const writeDocument = async (
  whole: string,
  comparisons: readonly FileComparison[],
  words: { readonly old: string; readonly new: string },
): Promise<void> => {
  const type = await readType(readFonts());
  const compared = comparisons.map(({ file, parts, unit }) => ({ file, parts, options: { unit } }));
  const blocks = comparisonBlocks(compared, words);
  const date = new Date().toISOString().slice(0, 10);
  const title = { title: basename(words.new, '.planish'), documentType: 'comparison', date };
  if (extname(whole).toLowerCase() === '.html') {
    writeInPlace(whole, documentHtml(blocks, title));
    return;
  }
  const inches = comparisons.some(({ unit }) => unit?.name === 'inch' || unit?.name === 'foot');
  const pages = setPages(blocks, title, inches ? papers.letter : papers.a4, type);
  writeInPlace(whole, await writePdf(pages, { title: 'What changed', date: new Date(`${date}T00:00:00Z`) }, type.fonts));
};

const writeOverlays = async (whole: string, comparisons: readonly FileComparison[], io: Io): Promise<void> => {
  const ending = extname(whole).toLowerCase();
  const pages = comparisons.flatMap(({ parts, unit }) =>
    parts.flatMap((part): readonly { readonly name: string; readonly page: Page }[] => {
      if (part.state === 'same') return [];
      const page = overlayPage(part, { unit });
      return page === undefined ? [] : [{ name: part.name, page }];
    }),
  );
  if (pages.length === 0) io.write('Nothing that is drawn changed, so no overlay was written.\n');
  const fonts = readFonts();
  for (const { name, page } of pages) {
    const path = pages.length === 1 ? whole : resolve(whole, '..', `${basename(whole, extname(whole))}-${name}${ending}`);
    writeInPlace(path, ending === '.svg' ? pageSvg(page) : await pagePng(page, fonts, 96));
    io.write(`${shownPath(path, io)}\n`);
  }
};

const write = async (
  out: string,
  comparisons: readonly FileComparison[],
  words: { readonly old: string; readonly new: string },
  io: Io,
): Promise<void> => {
  const whole = resolve(io.cwd, out);
  const ending = extname(out).toLowerCase();
  if (ending === '.pdf' || ending === '.html') {
    await writeDocument(whole, comparisons, words);
    io.write(`${shownPath(whole, io)}\n`);
  } else if (ending === '.svg' || ending === '.png') await writeOverlays(whole, comparisons, io);
  else throw callError(`A comparison ends in .pdf, .html, .svg or .png, not in ${ending === '' ? 'nothing' : ending}.`);
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: { json: { type: 'boolean', default: false }, output: { type: 'string', short: 'o' } },
  });
  const [first, second, ...rest] = positionals;
  if (first === undefined || rest.length > 0) throw callError('compare wants an old version and a new one: planish compare OLD NEW');
  const [old, now] =
    second === undefined ? [committed('HEAD', first, io), await onDisk(first, io)] : [await sideOf(first, io), await sideOf(second, io)];
  const comparisons = compareSides(old, now);
  if (values.json) {
    const parts = comparisons.flatMap(({ file, parts: compared }) =>
      compared.map(({ name, state, changes }) => ({
        file,
        name,
        state,
        changes: changes.map(({ what, old: before, new: after, kind }) => ({ what, old: before ?? null, new: after ?? null, kind })),
      })),
    );
    io.write(`${JSON.stringify({ schema: 1, old: old.words, new: now.words, parts }, undefined, 2)}\n`);
  } else await print(comparisons, io);
  if (values.output !== undefined) await write(values.output, comparisons, { old: old.words, new: now.words }, io);
  return exit.fine;
};
