/** A job's booklet under Node: files to parts, plans and cutting list, then PDF or web page. The command line and the editor call it alike. */
import { lineIndex } from './lines.js';
import { sayLength } from './model/display.js';
import type { Finding } from './model/finding.js';
import type { HomeUnit } from './model/model.js';
import { cutJob, partsToCut, usualSpaces } from './node-cutting.js';
import { readFonts } from './node-sheets.js';
import type { PartResult, Project } from './project.js';
import {
  type Block,
  type BookletFields,
  type BookletFinding,
  type BookletInput,
  type BookletOptions,
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

export const inInches = (unit: HomeUnit | undefined): boolean => unit?.name === 'inch' || unit?.name === 'foot';

/** Makes the plans of a file, other work let in between; an edit meanwhile begins them anew. @returns false when it was stopped */
export const planned = async (project: Project, path: string, stop: AbortSignal | undefined): Promise<boolean> => {
  let pause = performance.now();
  for (let steps = project.planInSteps(path); ; ) {
    const step = steps.next();
    if (step.done === true) {
      if (step.value !== undefined) return true;
      steps = project.planInSteps(path);
    }
    if (performance.now() - pause < 40) continue;
    await breath();
    if (stop?.aborted === true) return false;
    pause = performance.now();
  }
};

export const bookletPart = (
  source: BookletSource,
  result: PartResult,
  unit: HomeUnit | undefined,
  denominator: number | undefined,
): BookletPart => {
  const { part, blank, folded, beads, stiffness } = result;
  return {
    file: source.name,
    part,
    blank: blank.blank,
    folded,
    beads: blank.blank === undefined ? undefined : beads,
    stiffness,
    planned: source.project.planned(source.path, result),
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
  for (const [index, { project, path, name }] of sources.entries()) {
    wish.progress?.((0.4 * index) / sources.length, `bending: ${name}`);
    if (!(await planned(project, path, wish.stop))) return undefined;
  }
  const parts = sources.flatMap((source) => {
    const { units } = source.project.model(source.path);
    return source.project.parts(source.path).map((result) => bookletPart(source, result, units, wish.denominator));
  });
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
          progress: (share, words) => wish.progress?.(0.4 + 0.4 * share, words),
        });
  if (stopped()) return undefined;
  const input: BookletInput = {
    title: wish.title,
    fields: wish.fields,
    parts,
    cutting: outcome,
    files: sources.map(({ path, name, project }) => ({
      name,
      findings: project.findingsWithPlans(path).map((finding) => bookletFinding(project, path, finding)),
    })),
  };
  const paper = papers[wish.paper ?? (inInches(unit) ? 'letter' : 'a4')];
  const type = await readType(readFonts());
  const title = bookletTitle(input);
  const options: BookletOptions = {
    unit,
    bothUnits: wish.bothUnits,
    ...bookletRoom(paper),
    ...(wish.format === 'pdf' ? { sheets: (own: readonly Block[]) => setPages(own, title, paper, type).length } : {}),
    ...(wish.denominator === undefined ? {} : { denominator: wish.denominator }),
  };
  const blocks = await bookletBlocks(input, options, type, async (share, words) => {
    wish.progress?.(0.8 + 0.15 * share, words);
    await breath();
    return !stopped();
  });
  if (blocks === undefined) return undefined;
  if (wish.format === 'html') {
    const font = { regular: base64(type.fonts.regular), bold: base64(type.fonts.bold) };
    return {
      bytes: new TextEncoder().encode(documentHtml(blocks, title, { font, header: false })),
      sheets: undefined,
      parts: parts.length,
    };
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
