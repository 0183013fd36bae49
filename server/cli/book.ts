/** `planish book [PATH…] -o OUT`: the job booklet, as PDF or as one web page. */
import { basename, dirname, extname, resolve, sep } from 'node:path';
import { parseArgs } from 'node:util';
import { type BookletWish, makeBooklet } from '../node-booklet.js';
import { type PaperName, papers } from '../sheets/index.js';
import { findFiles, shownPath, writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';
import { openProjects } from './projects.js';
import { didYouMean } from './words.js';

export const help = `planish book [PATH…] -o OUT

The booklet for the bench: what to buy and cut, trial strips to make first, and for every part its
sizes, mark-out, bead schedule and bends step by step, with the cautions the job calls for and what
nobody has checked. Paths are files or folders; without one, the folder stood in.

  -o, --output OUT   a file ending in .pdf or .html
      --title TEXT   of the job; else the name of the folder or file
      --owner TEXT   these stand in the data fields (ISO 7200); what is left out
      --number TEXT  is left empty, to be written by hand
      --creator TEXT
      --approver TEXT
      --revision TEXT
      --date DATE    of issue, YYYY-MM-DD; today when left out. The same files and date give
                     the same booklet
      --both-units   the other unit after every size
      --paper SIZE   a4, a3, letter or tabloid (letter for inch files, else a4)
      --seconds S    time for nesting; without it a set number of rounds is tried, and the same
                     files give the same booklet on any machine
      --seed N       another seed tries other layouts (1)

True-size patterns are files of their own: planish pattern.
`;

const numberOf = (word: string | undefined, name: string, otherwise: number, least: number, most: number): number => {
  const value = word === undefined ? otherwise : Number(word);
  if (!(value >= least && value <= most)) throw callError(`--${name} is a number from ${least} to ${most}, not ${word ?? ''}.`);
  return value;
};
const paperOf = (word: string | undefined): PaperName | undefined => {
  if (word === undefined) return undefined;
  const lower = word.toLowerCase();
  if (lower in papers) return lower as PaperName;
  throw callError(`There is no paper ${word}; say ${Object.keys(papers).join(', ')}.${didYouMean(word, Object.keys(papers))}`);
};
const dateOf = (word: string | undefined): string => {
  const date = word ?? new Date().toISOString().slice(0, 10);
  const read = new Date(`${date}T00:00:00Z`);
  // A thirtieth of February is read as a day in March.
  if (!Number.isNaN(read.getTime()) && read.toISOString().slice(0, 10) === date) return date;
  throw callError(`--date is written YYYY-MM-DD, not ${date}.`);
};

/** The folder's name when it is one folder's files, a single file's own. */
export const titleOf = (files: readonly string[]): string => {
  const [first = ''] = files;
  if (files.length === 1) return basename(first, extname(first));
  let folder = dirname(first);
  while (!files.every((file) => file.startsWith(`${folder}${sep}`)) && dirname(folder) !== folder) folder = dirname(folder);
  return basename(folder) || 'job';
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: {
      output: { type: 'string', short: 'o' },
      title: { type: 'string' },
      owner: { type: 'string' },
      number: { type: 'string' },
      creator: { type: 'string' },
      approver: { type: 'string' },
      revision: { type: 'string' },
      date: { type: 'string' },
      'both-units': { type: 'boolean', default: false },
      paper: { type: 'string' },
      seconds: { type: 'string' },
      seed: { type: 'string' },
    },
  });
  if (values.output === undefined) throw callError('Say where to write it: -o OUT.pdf or -o OUT.html.');
  const ending = extname(values.output).toLowerCase();
  if (ending !== '.pdf' && ending !== '.html')
    throw callError(`A booklet ends in .pdf or .html, not in ${ending === '' ? 'nothing' : ending}.`);
  const paper = paperOf(values.paper);
  const date = dateOf(values.date);
  const projects = openProjects(io);
  const files = await findFiles(positionals, io);
  const withParts = files.filter((file) => projects.of(file).model(file).partNames.length > 0);
  if (withParts.length === 0) {
    io.writeError('There is no part in these files, so there is nothing to write a booklet about.\n');
    return exit.findings;
  }
  const field = (name: 'owner' | 'number' | 'creator' | 'approver' | 'revision'): Record<string, string> =>
    values[name] === undefined ? {} : { [name]: values[name] };
  const bar = io.interactive ? await progressBar() : undefined;
  const wish: BookletWish = {
    title: values.title ?? titleOf(withParts),
    fields: { date, ...field('owner'), ...field('number'), ...field('creator'), ...field('approver'), ...field('revision') },
    format: ending === '.pdf' ? 'pdf' : 'html',
    bothUnits: values['both-units'],
    ...(values.seconds === undefined ? {} : { seconds: numberOf(values.seconds, 'seconds', 5, 0, 86_400) }),
    seed: Math.round(numberOf(values.seed, 'seed', 1, 0, 4_294_967_295)),
    ...(paper === undefined ? {} : { paper }),
    ...(io.stop === undefined ? {} : { stop: io.stop }),
    ...(bar === undefined ? {} : { progress: bar.show }),
  };
  const booklet = await makeBooklet(
    withParts.map((path) => ({ path, name: shownPath(path, io), project: projects.of(path) })),
    wish,
  );
  bar?.stop();
  if (booklet === undefined) {
    io.writeError('Stopped; nothing was written.\n');
    return exit.findings;
  }
  const whole = resolve(io.cwd, values.output);
  writeInPlace(whole, booklet.bytes);
  const sheets = booklet.sheets === undefined ? '' : `, ${booklet.sheets} ${booklet.sheets === 1 ? 'sheet' : 'sheets'}`;
  io.write(`${shownPath(whole, io)}: ${booklet.parts} ${booklet.parts === 1 ? 'part' : 'parts'}${sheets}\n`);
  const errors = withParts.reduce(
    (sum, file) => sum + projects.check(file).findings.filter(({ severity }) => severity === 'error').length,
    0,
  );
  if (errors === 0) return exit.fine;
  io.writeError(
    `${errors} ${errors === 1 ? 'error is' : 'errors are'} open in the files; the booklet lists ${errors === 1 ? 'it' : 'them'} on its last sheets.\n`,
  );
  return exit.findings;
};

const progressBar = async (): Promise<{ readonly show: (share: number, words: string) => void; readonly stop: () => void }> => {
  const { default: progress } = await import('cli-progress');
  const bar = new progress.SingleBar({
    format: '{bar} {percentage} %  {words}',
    clearOnComplete: true,
    hideCursor: true,
    stream: process.stderr,
  });
  bar.start(1000, 0, { words: '' });
  return { show: (share, words) => bar.update(Math.round(share * 1000), { words }), stop: () => bar.stop() };
};
