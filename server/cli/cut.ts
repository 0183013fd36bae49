/** `planish cut [PATH…]`: blanks nested on sheets, pieces cut from lengths, the bill of materials. */
import { basename, extname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { sayLength } from '../model/display.js';
import type { HomeUnit } from '../model/model.js';
import { type CuttingFormat, type CuttingPaperwork, cutJob, cuttingFiles, partsToCut, readSpace, usualSpaces } from '../node-cutting.js';
import { readFonts } from '../node-sheets.js';
import { type Block, type CuttingOutcome, cuttingBlocks, cuttingCsv, cuttingJson, papers, readType } from '../sheets/index.js';
import { cuttingJob } from '../stock/index.js';
import { findFiles, shownPath, writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';
import { openProjects } from './projects.js';
import { colours, didYouMean } from './words.js';

export const help = `planish cut [PATH…]

Lays every part of the files on sheets and lengths of stock, remnants first, and says what to buy.
Paths are files or folders; without one, the folder stood in.

  -o, --output OUT    a folder: the cutting list as .pdf and .html, its tables as .csv, and every
                      nested sheet at true size as .svg, .dxf and .pdf. Or one file: the list as
                      .pdf or .html, the bill as .csv, the nested sheets as .svg or .dxf
      --csv           the bill as comma-separated values on the screen
      --json          for programs: schema 1, in mm, kg and degrees
      --decimal-comma .csv with commas in numbers and ; between fields
      --times N       how many times the whole job is made (1)
      --kerf SIZE     left between blanks on a sheet: 3, 1/8in (1/8 in for inch files, else 3 mm)
      --margin SIZE   kept free at the edge of a sheet (1/4 in, 6 mm)
      --turn DEG      step of the turns tried where the grain leaves them free (90)
      --seconds S     time for nesting; a first layout is made however short it is (10)
      --rounds N      rounds of improvement for each sheet: with them and time enough the layout
                      is the same on every machine
      --seed N        another seed, another search (1)
      --paper SIZE    a4, a3, letter or tabloid (letter for inch files, else a4)
`;

const numberOf = (word: string | undefined, name: string, otherwise: number, least: number, most: number): number => {
  const value = word === undefined ? otherwise : Number(word);
  if (!(value >= least && value <= most)) throw callError(`--${name} is a number from ${least} to ${most}, not ${word ?? ''}.`);
  return value;
};

const sizeOf = (word: string | undefined, name: string, otherwise: number): number => {
  if (word === undefined) return otherwise;
  const size = readSpace(word);
  if (size !== undefined) return size;
  throw callError(`--${name} is a size such as 3, 3mm or 1/8in, 500 mm at most, not ${word}.`);
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: {
      output: { type: 'string', short: 'o' },
      csv: { type: 'boolean', default: false },
      json: { type: 'boolean', default: false },
      'decimal-comma': { type: 'boolean', default: false },
      times: { type: 'string' },
      kerf: { type: 'string' },
      margin: { type: 'string' },
      turn: { type: 'string' },
      seconds: { type: 'string' },
      rounds: { type: 'string' },
      seed: { type: 'string' },
      paper: { type: 'string' },
    },
  });
  if (values.csv && values.json) throw callError('Say --csv or --json, not both.');
  const files = await findFiles(positionals, io);
  const projects = openProjects(io);
  const unit = files.map((file) => projects.of(file).model(file).units).find((each) => each !== undefined);
  const inches = unit?.name === 'inch' || unit?.name === 'foot';
  const usual = usualSpaces(inches);
  const target = values.output === undefined ? undefined : targetOf(values.output, io);
  const paperwork: CuttingPaperwork = {
    title: { title: jobName(positionals, io), documentType: 'cutting list', date: new Date().toISOString().slice(0, 10) },
    paper: paperOf(values.paper ?? (inches ? 'letter' : 'a4')),
    display: { unit },
    decimalComma: values['decimal-comma'],
  };
  const job = cuttingJob(
    files.flatMap((file) => partsToCut(projects.of(file), file)),
    {
      kerf: sizeOf(values.kerf, 'kerf', usual.kerf),
      margin: sizeOf(values.margin, 'margin', usual.margin),
      turnStep: (numberOf(values.turn, 'turn', 90, 1, 180) * Math.PI) / 180,
      times: Math.round(numberOf(values.times, 'times', 1, 1, 10_000)),
    },
  );
  const wish = {
    seconds: numberOf(values.seconds, 'seconds', 10, 0, 86_400),
    seed: Math.round(numberOf(values.seed, 'seed', 1, 0, 4_294_967_295)),
    ...(values.rounds === undefined ? {} : { rounds: Math.round(numberOf(values.rounds, 'rounds', 0, 0, 1_000_000)) }),
    ...(io.stop === undefined ? {} : { stop: io.stop }),
  };
  if (job.sheets.length + job.lengths.length === 0 && !values.json) {
    io.write('There is nothing to cut.\n');
    for (const { part, reason } of job.left) io.write(`  ${part}: ${reason}.\n`);
    return job.left.length > 0 ? exit.findings : exit.fine;
  }
  const bar = io.interactive ? await progressBar() : undefined;
  const outcome = await cutJob(job, { ...wish, ...(bar === undefined ? {} : { progress: bar.show }) });
  bar?.stop();
  if (values.csv) io.write(cuttingCsv(outcome, 'bill', { unit, decimalComma: paperwork.decimalComma }));
  else if (values.json) io.write(`${JSON.stringify(cuttingJson(outcome), undefined, 2)}\n`);
  else await print(outcome, unit, io);
  if (target !== undefined) {
    const written = await cuttingFiles(outcome, target.format, target.name, paperwork);
    for (const { name, data } of written) {
      const path = join(
        target.folder,
        target.format === 'svg' || target.format === 'dxf' ? plotName(target.name, name, written.length) : name,
      );
      writeInPlace(path, data);
      // What programs read on the screen stays clean.
      if (!values.csv && !values.json) io.write(`${shownPath(path, io)}\n`);
    }
  }
  const unplaced = [...outcome.sheets, ...outcome.lengths].some(({ result }) => result.unplaced.length > 0);
  return job.left.length > 0 || unplaced ? exit.findings : exit.fine;
};

/** What the job is called on paper: the folder or file that is cut. */
const jobName = (paths: readonly string[], io: Io): string => {
  const [only] = paths;
  return basename(resolve(io.cwd, paths.length === 1 && only !== undefined ? only : '.'), '.planish');
};

interface Target {
  readonly folder: string;
  readonly format: CuttingFormat;
  /** Without its ending. */
  readonly name: string;
}
const targetOf = (out: string, io: Io): Target => {
  const whole = resolve(io.cwd, out);
  const ending = extname(out).toLowerCase();
  if (ending === '' || out.endsWith('/') || out.endsWith('\\')) return { folder: whole, format: 'all', name: 'cutting-list' };
  const format = (['pdf', 'html', 'csv', 'svg', 'dxf'] as const).find((each) => `.${each}` === ending);
  if (format === undefined) throw callError(`A cutting list ends in .pdf, .html, .csv, .svg or .dxf, or is a folder, not ${ending}.`);
  return { folder: resolve(whole, '..'), format, name: whole.slice(resolve(whole, '..').length + 1, -ending.length) };
};
/** One nested sheet is the file that was asked for; of several each adds its own name. */
const plotName = (wanted: string, sheet: string, count: number): string =>
  count === 1 ? `${wanted}${extname(sheet)}` : `${wanted}-${sheet}`;

const paperOf = (word: string): CuttingPaperwork['paper'] => {
  const paper = Object.values(papers).find(({ name }) => name === word.toLowerCase());
  if (paper !== undefined) return paper;
  throw callError(`There is no paper ${word}; say a4, a3, letter or tabloid.${didYouMean(word, Object.keys(papers))}`);
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

const print = async (outcome: CuttingOutcome, unit: HomeUnit | undefined, io: Io): Promise<void> => {
  const { default: Table } = await import('cli-table3');
  const type = await readType(readFonts());
  const paint = colours(io);
  const printed = (block: Block): string => {
    switch (block.kind) {
      case 'heading':
        return `${paint.bold(block.text)}\n`;
      case 'paragraph':
        return `${block.text}\n`;
      case 'figures':
        return `${block.figures.flatMap(({ caption }) => (caption === undefined ? [] : [`  ${caption}\n`])).join('')}\n`;
      case 'caution':
        return `${paint.yellow(block.title)}\n${block.items.map((item) => `  ${item}\n`).join('')}\n`;
      case 'table': {
        const table = new Table({
          head: block.columns.map(({ title }) => title),
          colAligns: block.columns.map(({ align }) => (align === 'right' ? 'right' : 'left')),
          style: { head: [], border: [], compact: true },
        });
        table.push(...block.rows.map((row) => [...row]));
        return `${table.toString()}\n\n`;
      }
      default:
        return '';
    }
  };
  io.write(cuttingBlocks(outcome, 165, { unit, thorough: false }, type).map(printed).join(''));
  for (const { result } of outcome.lengths) {
    for (const cut of result.cuts) {
      const pieces = alike(cut.pieces.map(({ id, length }) => `${id} ${sayLength(length, unit)}`));
      io.write(`  ${cut.times} × ${cut.stock}: ${pieces}\n`);
    }
  }
};
/** Runs of the same thing told once: `2 × stay 19 in, post 38 in`. */
const alike = (things: readonly string[]): string => {
  const runs: { readonly thing: string; count: number }[] = [];
  for (const thing of things) {
    const last = runs[runs.length - 1];
    if (last?.thing === thing) last.count++;
    else runs.push({ thing, count: 1 });
  }
  return runs.map(({ thing, count }) => (count === 1 ? thing : `${count} × ${thing}`)).join(', ');
};
