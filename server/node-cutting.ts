/**
 * A job cut under Node: from the parts of a project to nested blanks, cut lengths, the bill, and the files of it all. Gives way to other work between steps,
 * and stops when told. The command line, the editor and the booklet call it alike.
 */
import type { Part } from './model/part.js';
import { readFonts } from './node-sheets.js';
import { openSolver } from './node-solver.js';
import type { Project } from './project.js';
import {
  type Block,
  type CuttingOutcome,
  csvFile,
  cuttingBlocks,
  cuttingCsv,
  cuttingTables,
  type DisplayOptions,
  documentHtml,
  nestDxf,
  nestPage,
  numbersOf,
  type Paper,
  pageSvg,
  readType,
  setPages,
  type TitleBlock,
  type Type,
  writePdf,
} from './sheets/index.js';
import {
  billOf,
  type CuttingJob,
  cutLengthsInSteps,
  type NestProgress,
  nest,
  type PartToCut,
  pieceWork,
  type SheetJob,
  sheetPictures,
} from './stock/index.js';

export interface CuttingWish {
  /** For all sheets together, s. */
  readonly seconds: number;
  /** Rounds of improvement for each sheet; what ends first ends the search. With rounds and time enough the answer is the same on every machine. */
  readonly rounds?: number;
  readonly seed: number;
  /** Stopped early, what has been found so far is the answer. */
  readonly stop?: AbortSignal;
  /** Share of the time gone, 0 … 1, and what is being done. */
  readonly progress?: (share: number, words: string) => void;
}

/** Spaces as they are left unless told otherwise, mm: common practice for hand tools, no source. */
export const usualSpaces = (inches: boolean): { readonly kerf: number; readonly margin: number } =>
  inches ? { kerf: 25.4 / 8, margin: 25.4 / 4 } : { kerf: 3, margin: 6 };

/** `3`, `3mm`, `0.125 in`, `1/8in`, in millimetres unless it says otherwise; undefined for what is no such size, or more than 500 mm. */
export const readSpace = (word: string): number | undefined => {
  const [, whole, over, unit] = /^(\d+\.?\d*|\.\d+)(?:\/(\d+))?\s*(mm|in|")?$/.exec(word.trim()) ?? [];
  const value = (Number(whole) / Number(over ?? 1)) * (unit === 'in' || unit === '"' ? 25.4 : 1);
  return value >= 0 && value <= 500 ? value : undefined;
};

const breath = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

const stockOfPart = (part: Part): { readonly file: string } | undefined => {
  if (part.kind === 'panel' || part.kind === 'section') return part.sheet?.value;
  return part.kind === 'piece' || part.kind === 'strap' ? part.stock?.value : undefined;
};

/** What is to be cut for the parts of a file. Prices are in the money of the file that names them. */
export const partsToCut = (project: Project, path: string): readonly PartToCut[] =>
  project.parts(path).map(({ part, blank, beads }): PartToCut => {
    const work = part.kind === 'piece' || part.kind === 'strap' ? pieceWork(part, { say: String }) : undefined;
    const stock = stockOfPart(part);
    const currency = (stock === undefined ? undefined : project.model(stock.file).currency) ?? project.model(path).currency;
    return { part, blank: beads?.drawIn?.asCut ?? blank.blank, length: work?.length, mass: work?.mass, currency };
  });

const sayStep = (name: string, { sheets, utilisation }: NestProgress): string =>
  sheets === 0 ? name : `${name}: ${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}, ${(utilisation * 100).toFixed(1)} % used`;

/** Lays one sheet's pieces until the search ends, its time is up, or all is stopped. */
const nestSheet = async (
  { question, name }: SheetJob,
  milliseconds: number,
  wish: CuttingWish,
  progress: (share: number, words: string) => void,
): Promise<{ readonly result: CuttingOutcome['sheets'][number]['result']; readonly settled: boolean }> => {
  const from = performance.now();
  const steps = nest(question, { seed: wish.seed });
  let step = steps.next();
  let pause = from;
  const goesOn = (): boolean =>
    step.done !== true &&
    performance.now() - from < milliseconds &&
    wish.stop?.aborted !== true &&
    (wish.rounds === undefined || step.value.phase === 'laying out' || step.value.round < wish.rounds);
  // A layout is always finished, however short the time: half of one would leave parts out that have room.
  const unfinished = (): boolean => step.done !== true && step.value.phase === 'laying out' && wish.stop?.aborted !== true;
  while (step.done !== true && (goesOn() || unfinished())) {
    if (performance.now() - pause > 40) {
      pause = performance.now();
      const rounds = wish.rounds === undefined ? 0 : step.value.round / Math.max(1, wish.rounds);
      progress(Math.min(1, Math.max(rounds, (pause - from) / Math.max(1, milliseconds))), sayStep(name, step.value));
      await breath();
    }
    step = steps.next();
  }
  return step.done === true ? { result: step.value, settled: true } : { result: step.value.result(), settled: false };
};

/** Steps taken to the end, giving way between them. */
const worked = async <T>(steps: Generator<undefined, T>): Promise<T> => {
  let pause = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    if (performance.now() - pause < 40) continue;
    await breath();
    pause = performance.now();
  }
};

export const cutJob = async (job: CuttingJob, wish: CuttingWish): Promise<CuttingOutcome> => {
  const sheets: CuttingOutcome['sheets'][number][] = [];
  const end = performance.now() + wish.seconds * 1000;
  for (const [index, sheet] of job.sheets.entries()) {
    // What a sheet does not need of its time the others have.
    const own = Math.max(0, end - performance.now()) / (job.sheets.length - index);
    const { result, settled } = await nestSheet(sheet, own, wish, (share, words) =>
      wish.progress?.((index + share) / job.sheets.length, words),
    );
    sheets.push({ job: sheet, result, settled, pictures: sheetPictures(sheet.question, result) });
  }
  const solver = job.lengths.length === 0 ? undefined : await openSolver();
  const lengths: CuttingOutcome['lengths'][number][] = [];
  for (const own of job.lengths) {
    if (solver === undefined) break;
    wish.progress?.(0.99, own.name);
    lengths.push({ job: own, result: await worked(cutLengthsInSteps(own.question, solver)) });
  }
  wish.progress?.(1, 'done');
  return { sheets, lengths, parts: job.parts, left: job.left, bill: billOf(sheets, lengths) };
};

export const cuttingFormats = ['pdf', 'html', 'csv', 'svg', 'dxf', 'all'] as const;
/** `svg` and `dxf` are the nested sheets at true size, a file each; `all` is everything. */
export type CuttingFormat = (typeof cuttingFormats)[number];
export interface CuttingPaperwork {
  readonly title: TitleBlock;
  readonly paper: Paper;
  readonly display: DisplayOptions;
  readonly decimalComma: boolean;
}
export interface CuttingFile {
  /** Without a folder: `crs_18-1.dxf`. */
  readonly name: string;
  readonly data: string | Uint8Array;
}

/** Letters that may not stand in a file's name on some system. */
const fileName = (words: string): string => words.replace(/[\\/:*?"<>|\s]+/g, '_').replace(/[()]/g, '');

const listBlocks = (outcome: CuttingOutcome, paperwork: CuttingPaperwork, type: Type): readonly Block[] => [
  { kind: 'heading', level: 1, text: 'Cutting list' },
  ...cuttingBlocks(outcome, paperwork.paper.width - 40, paperwork.display, type),
];

/** The list as a page to read. */
export const cuttingPage = async (outcome: CuttingOutcome, paperwork: CuttingPaperwork, nonce?: string): Promise<string> => {
  const type = await readType(readFonts());
  return documentHtml(listBlocks(outcome, paperwork, type), paperwork.title, nonce === undefined ? {} : { nonce });
};

/** The files of a job in one form, the first named `NAME.ending` where there is only one. */
export const cuttingFiles = async (
  outcome: CuttingOutcome,
  format: CuttingFormat,
  name: string,
  paperwork: CuttingPaperwork,
): Promise<readonly CuttingFile[]> => {
  const type = await readType(readFonts());
  const { title, paper, display } = paperwork;
  const facts = { title: title.title, date: new Date(`${title.date}T00:00:00Z`) };
  const csv = (table: (typeof cuttingTables)[number]): string =>
    csvFile(cuttingCsv(outcome, table, { unit: display.unit, decimalComma: paperwork.decimalComma }));
  const sheets = outcome.sheets.flatMap(({ job, pictures }) =>
    pictures.map((picture, i) => ({ name: `${fileName(job.name)}-${i + 1}`, picture })),
  );
  const numbers = numbersOf(outcome);
  switch (format) {
    case 'csv':
      return [{ name: `${name}.csv`, data: csv('bill') }];
    case 'html':
      return [{ name: `${name}.html`, data: await cuttingPage(outcome, paperwork) }];
    case 'pdf':
      return [
        {
          name: `${name}.pdf`,
          data: await writePdf(setPages(listBlocks(outcome, paperwork, type), title, paper, type), facts, type.fonts),
        },
      ];
    case 'svg':
      return sheets.map((sheet) => ({ name: `${sheet.name}.svg`, data: pageSvg(nestPage(sheet.picture, display, numbers, type)) }));
    case 'dxf':
      return sheets.map((sheet) => ({ name: `${sheet.name}.dxf`, data: nestDxf(sheet.picture) }));
    case 'all': {
      const each = async (own: CuttingFormat): Promise<readonly CuttingFile[]> => cuttingFiles(outcome, own, name, paperwork);
      const plots = await Promise.all(
        sheets.map(async (sheet) => ({
          name: `${sheet.name}.pdf`,
          data: await writePdf([nestPage(sheet.picture, display, numbers, type)], { ...facts, title: sheet.name }, type.fonts),
        })),
      );
      const tables = cuttingTables
        .filter((table) => (table !== 'sheets' || outcome.sheets.length > 0) && (table !== 'lengths' || outcome.lengths.length > 0))
        .map((table) => ({ name: `${table}.csv`, data: csv(table) }));
      return [...(await each('pdf')), ...(await each('html')), ...tables, ...(await each('svg')), ...(await each('dxf')), ...plots];
    }
  }
};
