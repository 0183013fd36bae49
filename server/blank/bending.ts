/** From written steps to bends that are worked out. */
import type { Span } from '../../grammar/syntax.js';
import type { Convention, Direction, EdgeStep, FlangeEnds, FlangeStep, HemStep, JoggleStep, TabStep } from '../model/part.js';
import { type BendSums, bendSums, insideSetback } from '../trade/bends.js';
import { curlTurn, type Fold, hemFolds, joggleSlope, leastHem, rollReach, slopeAt, steepest } from '../trade/edges.js';
import { type BentFlange, type EdgeChain, type Job, remark, sayBoth } from './tree.js';
import type { BendLine } from './types.js';

/** One bend and what is flat beyond it, whichever way it was written. */
export interface Step {
  readonly bendId: string;
  readonly faceId: string;
  readonly make: BendLine['make'];
  readonly step: string;
  /** Finished length from the outside of its parent; for `straight` steps the flat itself, less what comes next. */
  readonly length: number;
  readonly lengthFar: number;
  readonly measured: 'finished' | 'straight';
  readonly lengthSpan: Span;
  readonly direction: Direction;
  readonly turn: number;
  readonly radius: number | undefined;
  readonly convention: Convention;
  readonly bare: boolean;
  /** What a size that ends here loses; undefined is by turn and radius. */
  readonly taken: { readonly outside: number; readonly inside: number } | undefined;
  /** y where the flat begins; undefined is its outside setback. */
  readonly level: number | undefined;
  readonly ends: FlangeEnds | undefined;
  readonly tabs: TabStep | undefined;
  readonly span: Span;
  readonly nested: readonly EdgeChain[];
}

/** The bends of a chain; undefined when one of them is impossible (said in the job's findings). */
export const stepsOf = (job: Job, steps: readonly EdgeStep[], convention: Convention): readonly Step[] | undefined => {
  const made: Step[] = [];
  for (const [i, step] of steps.entries()) {
    if (step.kind === 'tab') continue;
    const after = steps[i + 1];
    const own = stepOf(job, step, convention, after?.kind === 'tab' ? after : undefined);
    if (own === undefined) return undefined;
    made.push(...own);
  }
  return made;
};

/** The tabs that stand straight on an edge, when its chain begins with them. */
export const tabsFirst = (steps: readonly EdgeStep[]): TabStep | undefined => {
  const first = steps[0];
  return first?.kind === 'tab' ? first : undefined;
};

const stepOf = (
  job: Job,
  step: Exclude<EdgeStep, TabStep>,
  convention: Convention,
  tabs: TabStep | undefined,
): readonly Step[] | undefined => {
  switch (step.kind) {
    case 'flange':
      return [flangeStep(step, convention, tabs)];
    case 'hem':
      return hemSteps(job, step, convention);
    case 'curl':
      return [{ ...roundStep(step, convention, 'curl'), bare: true, turn: curlTurn(step.wire, job.thickness), radius: step.wire / 2 }];
    case 'rolled': {
      const { turn, radius } = step;
      const taken = rollReach(radius, turn, job.thickness);
      if (tabs !== undefined) tabsOnARoll(job, tabs, step.id);
      return [{ ...roundStep(step, convention, 'roll'), bare: true, turn, radius, taken }];
    }
    case 'joggle':
      return joggleSteps(job, step, convention, tabs);
  }
};

const tabsOnARoll = (job: Job, tabs: TabStep, roll: string): void =>
  remark(
    job,
    'shape/tab-off-the-edge',
    tabs.span,
    `tabs need a flat to stand on, and the end of the rolled edge ${roll} has none; leave them out, or put them on a stretch of the edge that is not rolled`,
    { features: [`face:${roll}`] },
  );

// Spelled out because it runs for every flange, and a spread costs more than all the rest of the layout.
const flangeStep = (step: FlangeStep, convention: Convention, tabs: TabStep | undefined): Step => ({
  bendId: step.id,
  faceId: step.id,
  make: 'turn',
  step: step.id,
  length: step.length,
  lengthFar: step.taper ?? step.length,
  measured: 'finished',
  lengthSpan: step.lengthSpan,
  direction: step.direction,
  turn: step.turn,
  radius: step.radius,
  convention: step.convention ?? convention,
  bare: false,
  taken: undefined,
  level: undefined,
  ends: step.ends,
  tabs,
  span: step.span,
  nested: step.edges,
});

const roundStep = (
  step: { readonly id: string; readonly span: Span; readonly direction: Direction },
  convention: Convention,
  make: BendLine['make'],
): Omit<Step, 'turn'> => ({
  bendId: step.id,
  faceId: step.id,
  make,
  step: step.id,
  length: 0,
  lengthFar: 0,
  measured: 'straight',
  lengthSpan: step.span,
  direction: step.direction,
  radius: undefined,
  convention,
  bare: false,
  taken: undefined,
  level: undefined,
  ends: undefined,
  tabs: undefined,
  span: step.span,
  nested: [],
});

/** A double hem's two folds stand one behind the other; the layer between them is what is seen, and carries the hem's name. */
const hemSteps = (job: Job, step: HemStep, convention: Convention): readonly Step[] | undefined => {
  const folds = hemFolds(step.style, step.depth, job.thickness);
  const [outer, inner] = folds ?? [];
  if (outer === undefined) return hemTooShallow(job, step);
  const at = (fold: Fold): Step => ({
    ...roundStep(step, convention, 'hem'),
    length: fold.flat,
    lengthFar: fold.flat,
    lengthSpan: step.depthSpan,
    turn: fold.turn,
    radius: fold.radius,
    level: fold.radius + job.thickness,
  });
  if (inner === undefined) return [{ ...at(outer), level: step.depth - outer.flat }];
  return [
    // Its straight is as long as it is: the fold behind it takes nothing of it.
    at(outer),
    { ...at(inner), bendId: `${step.id}.inner`, faceId: `${step.id}.inner`, taken: { outside: 0, inside: 0 } },
  ];
};

const joggleSteps = (job: Job, step: JoggleStep, convention: Convention, tabs: TabStep | undefined): readonly Step[] | undefined => {
  const { say } = job.words;
  const radius = job.sheet.bendRadius;
  if (radius === undefined) return noRadius(job, step.span);
  const middle = radius + job.thickness / 2;
  const slope = joggleSlope(step.depth, step.run, middle);
  if (slope === undefined) {
    const least = slopeAt(steepest(step.depth, middle), step.depth, middle).run;
    remark(
      job,
      'bend/joggle-impossible',
      step.span,
      `a step of ${say(step.depth)} can’t slope in ${say(step.run ?? 0)}: bent to ${say(radius)} inside it takes at least ${say(least)}; give the slope more, or the sheet a smaller bend radius`,
      { features: [`face:${step.id}`] },
    );
    return undefined;
  }
  if (slope.run > step.over - 1e-6) {
    remark(
      job,
      'bend/joggle-impossible',
      step.span,
      `the slope of this joggle takes ${say(slope.run)} of the ${say(step.over)} that it runs over, so no land is left; write more than ${say(slope.run)} after \`over\``,
      { features: [`face:${step.id}`] },
    );
    return undefined;
  }
  const both = { ...roundStep(step, convention, 'joggle'), turn: slope.turn, radius };
  const land = step.over - slope.run;
  return [
    {
      ...both,
      bendId: `${step.id}.near`,
      faceId: `${step.id}.slope`,
      bare: slope.flat === 0,
      length: slope.flat,
      lengthFar: slope.flat,
      taken: { outside: step.over, inside: step.over },
    },
    {
      ...both,
      bendId: `${step.id}.far`,
      direction: step.direction === 'up' ? 'down' : 'up',
      length: land,
      lengthFar: land,
      // The slope is as long as it is: the land's bend takes nothing of it.
      taken: { outside: 0, inside: 0 },
      level: slope.run,
      tabs,
    },
  ];
};

const hemTooShallow = (job: Job, step: HemStep): undefined => {
  const { say, write } = job.words;
  const least = leastHem(step.style, job.thickness);
  const [deep, fold] = sayBoth(job, step.depth, least - job.thickness);
  remark(
    job,
    'hem/shorter-than-its-fold',
    step.depthSpan,
    `this hem is ${deep} deep, but its fold alone takes ${fold} of that, so nothing lies back on the sheet; make it ${say(least)} or more${step.style.kind === 'closed' || step.style.kind === 'double' ? '' : ', or the fold tighter'}`,
    {
      features: [`face:${step.id}`],
      fixes: write === undefined ? [] : [{ title: `Make it ${say(least)}`, edits: [{ span: step.depthSpan, text: write(least, 'up') }] }],
    },
  );
  return undefined;
};

/** How much of a size one of its bends takes up, as the size is measured. */
export const setbackIn = (convention: Convention, bend: { readonly taken: BentFlange['taken'] }): number =>
  convention === 'flat' ? 0 : bend.taken[convention];

/** A chain of steps with its bends; undefined when nothing is bent, or when a bend can't be worked out (said in the job's findings). */
export const bentEdge = (job: Job, steps: readonly EdgeStep[], convention: Convention): BentFlange | undefined => {
  const made = stepsOf(job, steps, convention);
  return made === undefined ? undefined : bentChain(job, made);
};

/** The first bend of a chain with all that hangs on it; undefined when a bend can't be worked out (said in the job's findings). */
export const bentChain = (job: Job, steps: readonly Step[], from = 0): BentFlange | undefined => {
  const first = steps[from];
  if (first === undefined) return undefined;
  const bend = bendOf(job, first);
  const ends = endsOf(first);
  const last = from === steps.length - 1;
  const next = last ? bentEdge(job, ends.free?.steps ?? [], first.convention) : bentChain(job, steps, from + 1);
  const low = bentEdge(job, ends.low?.steps ?? [], first.convention);
  const high = bentEdge(job, ends.high?.steps ?? [], first.convention);
  if (!last && ends.free !== undefined) freeTwice(job, ends.free, first);
  if (bend === undefined || (next === undefined && !last)) return undefined;

  const taken = first.taken ?? { outside: bend.sums.setback, inside: insideSetback(bend.turn, bend.radius) };
  const own = first.measured === 'straight' ? 0 : setbackIn(first.convention, { taken });
  const lost = own + (next === undefined ? 0 : setbackIn(first.convention, next));
  const flat = first.length - lost;
  const flatFar = first.lengthFar - lost;
  if (!first.bare && Math.min(flat, flatFar) < 1e-6) {
    insideItsBend(job, first, Math.min(first.length, first.lengthFar), lost, next !== undefined);
    return undefined;
  }
  return {
    bendId: first.bendId,
    faceId: first.faceId,
    make: first.make,
    step: first.step,
    direction: first.direction,
    turn: bend.turn,
    radius: bend.radius,
    sums: bend.sums,
    taken,
    convention: first.convention,
    flat: first.bare ? 0 : flat,
    flatFar: first.bare ? 0 : flatFar,
    level: first.level ?? bend.sums.setback,
    bare: first.bare,
    ends: first.ends,
    next,
    low,
    high,
    stretches: ends.stretches,
    tabs: first.tabs ?? ends.tabs,
    span: first.span,
  };
};

const LOW = new Set(['left', 'bottom', 'start']);
const HIGH = new Set(['right', 'top', 'finish']);
export const isLow = (edge: string): boolean => LOW.has(edge);
export const isHigh = (edge: string): boolean => HIGH.has(edge);
interface Ends {
  readonly low?: EdgeChain;
  readonly high?: EdgeChain;
  readonly free?: EdgeChain;
  readonly stretches: readonly EdgeChain[];
  readonly tabs?: TabStep;
}
const NO_ENDS: Ends = { stretches: [] };
/** A whole edge hangs at once; stretches, and tabs on the flange's ends, wait until the face has its place. */
const endsOf = (step: Step): Ends => {
  if (step.nested.length === 0) return NO_ENDS;
  const whole = step.nested.filter((chain) => chain.from === undefined && chain.to === undefined && tabsFirst(chain.steps) === undefined);
  const free = whole.find((chain) => chain.edge === 'free');
  return {
    low: whole.find((chain) => LOW.has(chain.edge)),
    high: whole.find((chain) => HIGH.has(chain.edge)),
    free,
    stretches: step.nested.filter((chain) => !whole.includes(chain)),
  };
};

const freeTwice = (job: Job, chain: EdgeChain, step: Step): void =>
  remark(
    job,
    'bend/stretch-off-the-edge',
    chain.span,
    `the free edge of ${step.faceId} already carries the step written after it; write this one there too, one after the other`,
  );

const insideItsBend = (job: Job, step: Step, length: number, taken: number, between: boolean): void => {
  const { say, write } = job.words;
  const bends = between ? 'the bends at its two ends take up' : 'its bend takes up';
  const least = taken + Math.max(0.5, job.thickness);
  const fixes =
    write === undefined || step.measured === 'straight' || length !== step.length
      ? []
      : [{ title: `Make it ${say(least)}`, edits: [{ span: step.lengthSpan, text: write(least, 'up') }] }];
  const [long, gone] = sayBoth(job, length, taken);
  remark(
    job,
    'bend/flange-inside-its-bend',
    step.lengthSpan,
    `${step.faceId} is ${long}, but ${bends} ${gone} of it, so no flat is left; make it longer than ${gone} or the inside radius smaller`,
    { fixes, features: [`face:${step.faceId}`] },
  );
};

const noRadius = (job: Job, span: Span): undefined => {
  remark(
    job,
    'bend/no-radius',
    span,
    `no inside radius for this bend: write \`radius\` here, or \`bend radius …\` on sheet ${job.sheet.name} for all its bends`,
  );
  return undefined;
};

const bendOf = (job: Job, step: Step): { turn: number; radius: number; sums: BendSums } | undefined => {
  const radius = step.radius ?? job.sheet.bendRadius;
  if (radius === undefined) return noRadius(job, step.span);
  if (job.method === undefined) {
    noMethod(job, `sheet ${job.sheet.name} does not say how much a bend uses up: write \`k 0.42\` (or \`din\`) after its \`bend radius\``);
    return undefined;
  }
  const sums = closedByDin(job, step, radius) ?? bendSums(job.method, step.turn, radius, job.thickness);
  if (sums === undefined) {
    const trial = job.method.kind === 'trial' ? job.method.trial : '';
    noMethod(
      job,
      `sheet ${job.sheet.name} takes its bends from trial ${trial}, which tells nothing: put right what the trial itself is told, or write \`k 0.42\` (or \`din\`) until then`,
    );
    return undefined;
  }
  return { turn: step.turn, radius, sums };
};

/** DIN 6935 has no factor for a fold without a radius: a closed hem is reckoned along the middle of the sheet, close to the tables' allowance of its width. */
const closedByDin = (job: Job, step: Step, radius: number): BendSums | undefined => {
  if (job.method?.kind !== 'din' || radius > 1e-9) return undefined;
  const sums = bendSums({ kind: 'k', k: 0.5 }, step.turn, radius, job.thickness);
  return sums === undefined
    ? undefined
    : { ...sums, method: 'closed fold, K 0.5 (DIN 6935 has no factor for it)', source: 'plane geometry; K from common practice' };
};

const noMethod = (job: Job, message: string): void => remark(job, 'bend/no-method', job.part.sheet?.span ?? job.part.nameSpan, message);
