/**
 * The façade's memory of plans of bending, and what is said of them. Plans take up to seconds, so they are made only when somebody asks, a little at a time,
 * after all else is said. A plan is kept by the blank, which is one and the same while the text of its part and the shop are; one that was broken off goes on
 * where it stopped when it is asked for again.
 */
import type { Blank } from './blank/types.js';
import { type Plan, type Planned, planBendingInSteps, toTheEnd, withSuggestionsInSteps } from './brake/index.js';
import { inOrder, madeAbsoluteThroughout } from './findings.js';
import type { Finding, Severity } from './model/finding.js';
import type { FileModel, HomeUnit } from './model/model.js';
import type { Panel, Part, Section } from './model/part.js';
import type { PartResult } from './project.js';
import { judgePlan, type Question } from './rules/index.js';

/** What is known of the bending of a part. `nothing`: it has no bends, or the shop no brake. */
export type Bending =
  | { readonly state: 'nothing' }
  | { readonly state: 'not yet' }
  | { readonly state: 'planned'; readonly planned: Planned };

/** What a project offers beyond its first answers. */
export interface BendingAnswers {
  /** What is said at once, with what is said of the plans that are made already. */
  readonly findingsSoFar: (path: string) => readonly Finding[];
  /** All that is said of a file; makes the plans that are missing. */
  readonly findingsWithPlans: (path: string) => readonly Finding[];
  /** What is known of a part's bending, without making anything; of its last good blank while it has none now. */
  readonly bending: (result: PartResult) => Bending;
  /** The plan of a part's bending, made if it is missing. */
  readonly planned: (path: string, result: PartResult) => Planned | undefined;
  /**
   * Makes the missing plans of a file, pausing often, so that a newer edit can be taken in between; that of the part named comes first. Names each part when its
   * plan is made. Returns how many were made; undefined when a newer edit came.
   */
  readonly planInSteps: (path: string, first?: string) => Generator<string | undefined, number | undefined>;
}

/** What the façade lends for it. */
interface Needs {
  readonly partsInSteps: (path: string) => Generator<undefined, readonly PartResult[] | undefined>;
  readonly findings: (path: string) => readonly Finding[];
  readonly model: (path: string) => FileModel;
  /** The model while it is true; undefined when there is none now. */
  readonly modelNow: (path: string) => FileModel | undefined;
  readonly wordsOf: (file: FileModel) => Pick<Question, 'say' | 'sayBoth' | 'write'>;
  /** The file, and those that read it, are to be read anew. */
  readonly drop: (path: string) => void;
  readonly severities: Readonly<Record<string, Severity | 'off'>>;
}

interface Work {
  readonly steps: Generator<undefined, Planned | undefined>;
  planned: Planned | undefined;
  ended: boolean;
}
interface Wanted {
  readonly file: FileModel;
  readonly part: Part;
  readonly blank: Blank;
}

const nothing: Bending = { state: 'nothing' };
const notYet: Bending = { state: 'not yet' };

const isBendable = (part: Part, blank: Blank): part is Panel | Section =>
  (part.kind === 'panel' || part.kind === 'section') && part.sheet !== undefined && part.brakes.length > 0 && blank.bends.length > 0;

/** Changes are offered in steps that the file's unit can write: thirty-seconds of an inch, else half millimetres. mm. */
const stepOf = (unit: HomeUnit | undefined): number => (unit?.name === 'inch' ? unit.mm / 32 : 0.5);

function* planning(part: Panel | Section, blank: Blank, unit: HomeUnit | undefined): Generator<undefined, Planned | undefined> {
  const planned = yield* planBendingInSteps(part, blank);
  return planned === undefined ? undefined : yield* withSuggestionsInSteps(part, planned, stepOf(unit));
}

export const createBendingAnswers = (
  needs: Needs,
): BendingAnswers & {
  /** The plan as far as it is made, for what reads it by name; that is read again once it is. */
  readonly planNow: (file: FileModel, part: Part, blank: Blank | undefined) => Plan | undefined;
} => {
  const works = new WeakMap<Blank, Work>();
  /** Plans of a file's parts that were read by name before they were made: what read them is not decided until they are. */
  const readEarly = new WeakMap<FileModel, Map<Blank, Part>>();
  const said = new WeakMap<FileModel, { readonly plans: number; readonly findings: readonly Finding[] }>();

  const known = (part: Part, blank: Blank | undefined): Bending => {
    if (blank === undefined || !isBendable(part, blank)) return nothing;
    const work = works.get(blank);
    if (work === undefined || !work.ended) return notYet;
    return work.planned === undefined ? nothing : { state: 'planned', planned: work.planned };
  };
  const present = ({ part, blank }: PartResult): Bending => known(part, blank.blank);
  const bending = (result: PartResult): Bending => {
    if (result.blank.blank !== undefined || result.lastGood === undefined) return present(result);
    const before = works.get(result.lastGood)?.planned;
    return before === undefined ? nothing : { state: 'planned', planned: before };
  };

  const making = function* ({ file, part, blank }: Wanted): Generator<undefined, Planned | undefined> {
    if (!isBendable(part, blank)) return undefined;
    let work = works.get(blank);
    if (work === undefined) {
      work = { steps: planning(part, blank, file.units), planned: undefined, ended: false };
      works.set(blank, work);
    }
    // Another asker may have taken the same plan to its end while this one waited.
    while (!work.ended) {
      const step = work.steps.next();
      if (step.done === true && !work.ended) Object.assign(work, { planned: step.value, ended: true });
      else yield undefined;
    }
    return work.planned;
  };

  const early = (file: FileModel): readonly Wanted[] =>
    [file, ...file.brings.flatMap((path) => needs.modelNow(path) ?? [])].flatMap((read) =>
      [...(readEarly.get(read) ?? [])].map(([blank, part]) => ({ file: read, part, blank })),
    );

  const findingsSoFar = (path: string): readonly Finding[] => {
    const first = needs.findings(path);
    const file = needs.model(path);
    const results = toTheEnd(needs.partsInSteps(path)) ?? [];
    const plans = results.flatMap((result, index) => {
      const now = present(result);
      return now.state === 'planned' ? [{ ...result, plan: now.planned.plan, start: file.starts[index] ?? result.part.span.start }] : [];
    });
    const before = said.get(file);
    if (before?.plans === plans.length) return before.findings;
    const ofPlans = plans.flatMap(({ part, blank, plan, start }) =>
      judgePlan({ part, blank, plan, ...needs.wordsOf(file) }).map((finding) => madeAbsoluteThroughout(finding, start)),
    );
    // That something is not decided only because a plan is still being made is no news.
    const now = early(file).length > 0 ? first.filter(({ rule }) => rule !== 'check/not-decided') : first;
    const findings = ofPlans.length === 0 && now === first ? first : inOrder([...now, ...ofPlans], needs.severities);
    said.set(file, { plans: plans.length, findings });
    return findings;
  };

  const planInSteps: BendingAnswers['planInSteps'] = function* (path, firstOf) {
    let made = 0;
    for (;;) {
      const results = yield* needs.partsInSteps(path);
      if (results === undefined) return undefined;
      const file = needs.model(path);
      const readBefore = early(file);
      const missing = results
        .filter((result) => present(result).state === 'not yet')
        .sort((a, b) => Number(b.part.name === firstOf) - Number(a.part.name === firstOf))
        .flatMap(({ part, blank: { blank } }): Wanted[] => (blank === undefined ? [] : [{ file, part, blank }]));
      for (const wanted of [...missing, ...readBefore]) {
        const steps = making(wanted);
        for (let step = steps.next(); step.done !== true; step = steps.next()) {
          yield undefined;
          if (needs.modelNow(path) !== file) return undefined;
        }
        made++;
        yield wanted.part.name;
        if (needs.modelNow(path) !== file) return undefined;
      }
      if (readBefore.length === 0) return made;
      for (const read of new Set(readBefore.map((wanted) => wanted.file.path))) needs.drop(read);
    }
  };

  return {
    findingsSoFar,
    findingsWithPlans: (path) => {
      toTheEnd(planInSteps(path));
      return findingsSoFar(path);
    },
    bending,
    planned: (path, { part, blank: { blank } }) =>
      blank === undefined ? undefined : toTheEnd(making({ file: needs.model(path), part, blank })),
    planInSteps,
    planNow: (file, part, blank) => {
      const now = known(part, blank);
      if (now.state === 'planned') return now.planned.plan;
      if (now.state === 'not yet' && blank !== undefined) {
        const read = readEarly.get(file) ?? new Map<Blank, Part>();
        readEarly.set(file, read.set(blank, part));
      }
      return undefined;
    },
  };
};
