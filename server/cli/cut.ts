/** `planish cut [PATH…]`: blanks nested on sheets, pieces cut from lengths, the bill of materials. */
import { extname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { sayLength, saySize } from '../model/display.js';
import { cutJob } from '../node-cutting.js';
import { readFonts } from '../node-sheets.js';
import {
  billCsv,
  type CuttingOutcome,
  cuttingBlocks,
  documentHtml,
  nestDxf,
  nestPage,
  pageSvg,
  papers,
  readType,
  setPages,
  writePdf,
} from '../sheets/index.js';
import { cuttingJob, type PartToCut, pieceWork } from '../stock/index.js';
import { findFiles, shownPath, writeInPlace } from './files.js';
import { callError, exit, type Io } from './io.js';
import { openProjects } from './projects.js';
import { colours } from './words.js';

export const help = `planish cut [PATH…]

Lays every part of the files on sheets and lengths of stock, remnants first, and says what to buy.
Paths are files or folders; without one, the folder stood in.

  -o, --output OUT   a folder: the cutting list as .pdf and .html, the bill as .csv, and every
                     nested sheet at true size as .svg and .dxf. Or one file ending in .pdf,
                     .html or .csv
      --csv          the bill as comma-separated values on the screen
      --times N      how many times the whole job is made (1)
      --kerf SIZE    left between blanks on a sheet: 3, 1/8in (1/8 in for inch files, else 3 mm)
      --margin SIZE  kept free at the edge of a sheet (1/4 in, 6 mm)
      --turn DEG     step of the turns tried where the grain leaves them free (90)
      --seconds S    time for nesting (10)
      --seed N       the same seed gives the same layout in the same number of steps (1)
      --paper SIZE   a4, a3, letter or tabloid (letter for inch files, else a4)
`;

const numberOf = (word: string | undefined, name: string, otherwise: number, least: number, most: number): number => {
  const value = word === undefined ? otherwise : Number(word);
  if (!(value >= least && value <= most)) throw callError(`--${name} is a number from ${least} to ${most}, not ${word ?? ''}.`);
  return value;
};

/** `3`, `3mm`, `0.125in`, `1/8in`: millimetres unless it says otherwise. */
const sizeOf = (word: string | undefined, name: string, otherwise: number): number => {
  if (word === undefined) return otherwise;
  const [, whole, over, unit] = /^([\d.]+)(?:\/(\d+))?\s*(mm|in|")?$/.exec(word.trim()) ?? [];
  const value = (Number(whole) / Number(over ?? 1)) * (unit === 'in' || unit === '"' ? 25.4 : 1);
  if (value >= 0 && value <= 500) return value;
  throw callError(`--${name} is a size such as 3, 3mm or 1/8in, 500 mm at most, not ${word}.`);
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { values, positionals } = parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: {
      output: { type: 'string', short: 'o' },
      csv: { type: 'boolean', default: false },
      times: { type: 'string' },
      kerf: { type: 'string' },
      margin: { type: 'string' },
      turn: { type: 'string' },
      seconds: { type: 'string' },
      seed: { type: 'string' },
      paper: { type: 'string' },
    },
  });
  const files = await findFiles(positionals, io);
  const projects = openProjects(io);
  const parts = files.flatMap((file) =>
    projects
      .of(file)
      .parts(file)
      .map((result): PartToCut => {
        const { part, blank, beads } = result;
        const length = part.kind === 'piece' || part.kind === 'strap' ? pieceWork(part, { say: String }).length : undefined;
        return { part, blank: beads?.drawIn?.asCut ?? blank.blank, length };
      }),
  );
  const unit = files.map((file) => projects.of(file).model(file).units).find((each) => each !== undefined);
  const options = { unit };
  const inches = unit?.name === 'inch' || unit?.name === 'foot';
  const job = cuttingJob(parts, {
    kerf: sizeOf(values.kerf, 'kerf', inches ? 25.4 / 8 : 3),
    margin: sizeOf(values.margin, 'margin', inches ? 25.4 / 4 : 6),
    turnStep: (numberOf(values.turn, 'turn', 90, 1, 180) * Math.PI) / 180,
    times: Math.round(numberOf(values.times, 'times', 1, 1, 10_000)),
  });
  if (job.sheets.length + job.lengths.length === 0) {
    io.write('There is nothing to cut.\n');
    for (const { part, reason } of job.left) io.write(`  ${part}: ${reason}.\n`);
    return exit.fine;
  }
  const bar = io.interactive ? await progressBar() : undefined;
  const outcome = await cutJob(job, {
    seconds: numberOf(values.seconds, 'seconds', 10, 0, 86_400),
    seed: Math.round(numberOf(values.seed, 'seed', 1, 0, 4_294_967_295)),
    currency: currencyOf(files, projects),
    say: { size: (width, height) => saySize(width, height, unit), length: (mm) => sayLength(mm, unit) },
    ...(io.stop === undefined ? {} : { stop: io.stop }),
    ...(bar === undefined ? {} : { progress: bar.show }),
  });
  bar?.stop();
  if (values.csv) io.write(billCsv(outcome));
  else await print(outcome, options, io);
  if (values.output !== undefined) await writeAll(values.output, values.paper, outcome, options, io);
  return job.left.length > 0 || outcome.sheets.some(({ result }) => result.unplaced.length > 0) ? exit.findings : exit.fine;
};

const currencyOf = (files: readonly string[], projects: ReturnType<typeof openProjects>): string =>
  files.map((file) => projects.of(file).model(file).currency).find((sign) => sign !== undefined) ?? '';

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

const print = async (outcome: CuttingOutcome, options: { readonly unit: Parameters<typeof sayLength>[1] }, io: Io): Promise<void> => {
  const { default: Table } = await import('cli-table3');
  const type = await readType(readFonts());
  const paint = colours(io);
  for (const block of cuttingBlocks(outcome, 165, options, type)) {
    switch (block.kind) {
      case 'heading':
        io.write(`${paint.bold(block.text)}\n`);
        break;
      case 'paragraph':
        io.write(`${block.text}\n`);
        break;
      case 'figures':
        for (const { caption } of block.figures) if (caption !== undefined) io.write(`  ${caption}\n`);
        io.write('\n');
        break;
      case 'caution':
        io.write(`${paint.yellow(block.title)}\n${block.items.map((item) => `  ${item}\n`).join('')}\n`);
        break;
      case 'table': {
        const table = new Table({
          head: block.columns.map(({ title }) => title),
          colAligns: block.columns.map(({ align }) => (align === 'right' ? 'right' : 'left')),
          style: { head: [], border: [], compact: true },
        });
        table.push(...block.rows.map((row) => [...row]));
        io.write(`${table.toString()}\n\n`);
        break;
      }
      default:
    }
  }
  for (const { job, result } of outcome.lengths) {
    for (const cut of result.cuts) {
      const pieces = cut.pieces.map(({ id, length }) => `${id} ${sayLength(length, options.unit)}`).join(', ');
      io.write(`  ${cut.times} × ${job.stock.name}: ${pieces}\n`);
    }
  }
};

const writeAll = async (
  out: string,
  paperWord: string | undefined,
  outcome: CuttingOutcome,
  options: { readonly unit: Parameters<typeof sayLength>[1] },
  io: Io,
): Promise<void> => {
  const whole = resolve(io.cwd, out);
  const ending = extname(out).toLowerCase();
  const paperName = paperWord ?? (options.unit?.name === 'inch' ? 'letter' : 'a4');
  const paper = Object.values(papers).find(({ name }) => name === paperName);
  if (paper === undefined) throw callError(`There is no paper ${paperName}; say a4, a3, letter or tabloid.`);
  const type = await readType(readFonts());
  const title = { title: 'Cutting list', documentType: 'cutting list', date: new Date().toISOString().slice(0, 10) };
  const blocks = [{ kind: 'heading', level: 1, text: 'Cutting list' } as const, ...cuttingBlocks(outcome, paper.width - 40, options, type)];
  const write = (path: string, data: string | Uint8Array): void => {
    writeInPlace(path, data);
    io.write(`${shownPath(path, io)}\n`);
  };
  const pdf = (): Promise<Uint8Array> =>
    writePdf(setPages(blocks, title, paper, type), { title: 'Cutting list', date: new Date() }, type.fonts);
  switch (ending) {
    case '.csv':
      write(whole, billCsv(outcome));
      return;
    case '.html':
      write(whole, documentHtml(blocks, title));
      return;
    case '.pdf':
      write(whole, await pdf());
      return;
    case '': {
      write(join(whole, 'cutting-list.pdf'), await pdf());
      write(join(whole, 'cutting-list.html'), documentHtml(blocks, title));
      write(join(whole, 'bill.csv'), billCsv(outcome));
      for (const { job, pictures } of outcome.sheets) {
        for (const [index, picture] of pictures.entries()) {
          const name = `${job.sheet.name}-${index + 1}`;
          write(join(whole, `${name}.svg`), pageSvg(nestPage(picture, options, type)));
          write(join(whole, `${name}.dxf`), nestDxf(picture));
        }
      }
      return;
    }
    default:
      throw callError(`A cutting list ends in .pdf, .html or .csv, or is a folder, not ${ending}.`);
  }
};
