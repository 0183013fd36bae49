/** A job's booklet under Node: files to parts, plans and cutting list, then PDF or web page. The command line and the editor call it alike. */
import { type Planned, planBendingInSteps, withSuggestionsInSteps } from './brake/index.js';
import { lineIndex } from './lines.js';
import { sayLength } from './model/display.js';
import type { Finding } from './model/finding.js';
import type { HomeUnit } from './model/model.js';
import { cutJob, partsToCut, usualSpaces } from './node-cutting.js';
import { readFonts } from './node-sheets.js';
import type { PartResult, Project } from './project.js';
import {
  type BookletFields,
  type BookletFinding,
  type BookletInput,
  type BookletPart,
  bookletBlocks,
  bookletRoom,
  bookletTitle,
  documentHtml,
  type PaperName,
  papers,
  readType,
  setPages,
  writePdf,
} from './sheets/index.js';
import { cuttingJob, pieceWork } from './stock/index.js';

export interface BookletSource {
  readonly path: string;
  /** As it is shown in the booklet. */
  readonly name: string;
  readonly project: Project;
}
export interface BookletWish {
  readonly title: string;
  readonly fields: BookletFields;
  readonly format: 'pdf' | 'html';
  /** Letter for files in inches, else A4, unless given. */
  readonly paper?: PaperName;
  readonly bothUnits: boolean;
  readonly denominator?: number;
  /** For nesting, s. Without it a set number of rounds is tried, however long they take, and the same job always comes out the same. */
  readonly seconds?: number;
  readonly seed: number;
  readonly stop?: AbortSignal;
  /** Share of the work done, 0 … 1, and what is being done. */
  readonly progress?: (share: number, words: string) => void;
}
export interface Booklet {
  readonly bytes: Uint8Array;
  /** Of a PDF. */
  readonly sheets: number | undefined;
  readonly parts: number;
}

const breath = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

const bookletFinding = (project: Project, path: string, { severity, rule, message, span }: Finding): BookletFinding => ({
  severity,
  rule,
  message,
  line: lineIndex(project.tree(path).text).position(span.start).line + 1,
});

const inInches = (unit: HomeUnit | undefined): boolean => unit?.name === 'inch' || unit?.name === 'foot';

/** Lengths that a change of the part is offered in whole steps of, mm. */
const changeStep = (unit: HomeUnit | undefined): number => (inInches(unit) ? 25.4 / 32 : 0.5);

/** Work in steps, other work let in between; undefined when it was stopped. */
const unhurried = async <T>(steps: Generator<undefined, T>, stop: AbortSignal | undefined): Promise<T | undefined> => {
  let pause = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    if (performance.now() - pause < 40) continue;
    await breath();
    if (stop?.aborted === true) return undefined;
    pause = performance.now();
  }
};

const planned = async (
  { part, blank }: PartResult,
  unit: HomeUnit | undefined,
  stop: AbortSignal | undefined,
): Promise<Planned | undefined> => {
  if ((part.kind !== 'panel' && part.kind !== 'section') || blank.blank === undefined) return undefined;
  const plan = await unhurried(planBendingInSteps(part, blank.blank), stop);
  return plan === undefined ? undefined : unhurried(withSuggestionsInSteps(part, plan, changeStep(unit)), stop);
};

const bookletPart = async (
  source: BookletSource,
  result: PartResult,
  unit: HomeUnit | undefined,
  { denominator, stop }: BookletWish,
): Promise<BookletPart> => {
  const { part, blank, folded, beads, stiffness } = result;
  return {
    file: source.name,
    part,
    blank: blank.blank,
    folded,
    beads: blank.blank === undefined ? undefined : beads,
    stiffness,
    planned: await planned(result, unit, stop),
    work: part.kind === 'piece' || part.kind === 'strap' ? pieceWork(part, { say: (mm) => sayLength(mm, unit, denominator) }) : undefined,
    findings: result.findings
      .filter(({ file }) => file === source.path)
      .map((finding) => bookletFinding(source.project, source.path, finding)),
    unit,
  };
};

/** Rounds that every sheet's layout is bettered when no time is named. */
const rounds = 12;

/** @returns undefined when it was stopped */
export const makeBooklet = async (sources: readonly BookletSource[], wish: BookletWish): Promise<Booklet | undefined> => {
  const stopped = (): boolean => wish.stop?.aborted === true;
  const parts: BookletPart[] = [];
  for (const [index, source] of sources.entries()) {
    const unit = source.project.model(source.path).units;
    for (const result of source.project.parts(source.path)) {
      wish.progress?.((0.5 * index) / sources.length, result.part.name);
      await breath();
      if (stopped()) return undefined;
      parts.push(await bookletPart(source, result, unit, wish));
      if (stopped()) return undefined;
    }
  }
  const unit = sources.map(({ project, path }) => project.model(path).units).find((each) => each !== undefined);
  const job = cuttingJob(
    sources.flatMap(({ project, path }) => partsToCut(project, path)),
    { ...usualSpaces(inInches(unit)), turnStep: Math.PI / 2, times: 1 },
  );
  const outcome =
    job.sheets.length + job.lengths.length === 0
      ? undefined
      : await cutJob(job, {
          ...(wish.seconds === undefined ? { seconds: Number.POSITIVE_INFINITY, rounds } : { seconds: wish.seconds }),
          seed: wish.seed,
          ...(wish.stop === undefined ? {} : { stop: wish.stop }),
          progress: (share, words) => wish.progress?.(0.5 + 0.3 * share, words),
        });
  if (stopped()) return undefined;
  wish.progress?.(0.8, 'drawing');
  await breath();
  const input: BookletInput = {
    title: wish.title,
    fields: wish.fields,
    parts,
    cutting: outcome,
    files: sources.map(({ path, name, project }) => ({
      name,
      findings: project.findings(path).map((finding) => bookletFinding(project, path, finding)),
    })),
  };
  const paper = papers[wish.paper ?? (inInches(unit) ? 'letter' : 'a4')];
  const type = await readType(readFonts());
  const options = {
    unit,
    bothUnits: wish.bothUnits,
    ...bookletRoom(paper),
    ...(wish.denominator === undefined ? {} : { denominator: wish.denominator }),
  };
  const blocks = bookletBlocks(input, options, type);
  const title = bookletTitle(input);
  if (wish.format === 'html') {
    const font = { regular: base64(type.fonts.regular), bold: base64(type.fonts.bold) };
    return { bytes: new TextEncoder().encode(documentHtml(blocks, title, { font })), sheets: undefined, parts: parts.length };
  }
  const pages = setPages(blocks, title, paper, type);
  const date = new Date(`${wish.fields.date}T00:00:00Z`);
  const author = wish.fields.creator;
  const bytes = await writePdf(
    pages,
    {
      title: wish.title,
      subject: 'job booklet',
      date: Number.isNaN(date.getTime()) ? new Date(0) : date,
      ...(author === undefined ? {} : { author }),
    },
    type.fonts,
  );
  return stopped() ? undefined : { bytes, sheets: pages.length, parts: parts.length };
};
const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');
