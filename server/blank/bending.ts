/** From written steps to flanges whose bends are worked out. */

import type { Span } from '../../grammar/syntax.js';
import type { Convention, Direction, EdgeStep, FlangeStep } from '../model/part.js';
import { type BendSums, bendSums, insideSetback } from '../trade/bends.js';
import { type BentFlange, type EdgeChain, type Job, remark, sayBoth } from './tree.js';

/** One bend and the flange or leg beyond it, whichever way it was written. */
export interface Step {
  readonly bendId: string;
  readonly faceId: string;
  readonly length: number;
  readonly lengthSpan: Span;
  readonly direction: Direction;
  readonly turn: number;
  readonly radius: number | undefined;
  readonly convention: Convention;
  readonly span: Span;
  readonly nested: readonly EdgeChain[];
}

/** The flanges of a chain, up to the first step of a kind that is computed later. */
export const stepsOf = (steps: readonly EdgeStep[], convention: Convention): readonly Step[] => {
  const stop = steps.findIndex((step) => step.kind !== 'flange');
  return (stop < 0 ? steps : steps.slice(0, stop)).map((step) => stepOf(step as FlangeStep, convention));
};

const stepOf = (step: FlangeStep, convention: Convention): Step => ({
  bendId: step.id,
  faceId: step.id,
  length: step.length,
  lengthSpan: step.lengthSpan,
  direction: step.direction,
  turn: step.turn,
  radius: step.radius,
  convention: step.convention ?? convention,
  span: step.span,
  nested: step.edges,
});

/** How much of a size one of its bends takes up, as the size is measured. */
export const setbackIn = (convention: Convention, bend: { turn: number; radius: number; sums: BendSums }): number => {
  switch (convention) {
    case 'outside':
      return bend.sums.setback;
    case 'inside':
      return insideSetback(bend.turn, bend.radius);
    case 'flat':
      return 0;
  }
};

/** The first flange of a chain with all that hangs on it; undefined when a bend can't be worked out (said in the job's findings). */
export const bentChain = (job: Job, steps: readonly Step[]): BentFlange | undefined => {
  const first = steps[0];
  if (first === undefined) return undefined;
  const rest = steps.slice(1);
  const bend = bendOf(job, first);
  const ends = endsOf(first);
  const onward = rest.length > 0 ? rest : stepsOf(ends.free?.steps ?? [], first.convention);
  const next = bentChain(job, onward);
  const low = bentChain(job, stepsOf(ends.low?.steps ?? [], first.convention));
  const high = bentChain(job, stepsOf(ends.high?.steps ?? [], first.convention));
  for (const chain of first.nested) if (chain.from !== undefined || chain.to !== undefined) stretchLater(job, chain);
  if (bend === undefined || (next === undefined && onward.length > 0)) return undefined;

  const own = setbackIn(first.convention, bend);
  const taken = own + (next === undefined ? 0 : setbackIn(first.convention, next));
  const flat = first.length - taken;
  if (flat < 1e-6) {
    insideItsBend(job, first, taken, next !== undefined);
    return undefined;
  }
  return {
    bendId: first.bendId,
    faceId: first.faceId,
    direction: first.direction,
    turn: bend.turn,
    radius: bend.radius,
    sums: bend.sums,
    convention: first.convention,
    flat,
    next,
    low,
    high,
    span: first.span,
  };
};

const LOW = new Set(['left', 'bottom', 'start']);
const HIGH = new Set(['right', 'top', 'finish']);
const endsOf = (step: Step): { readonly low?: EdgeChain; readonly high?: EdgeChain; readonly free?: EdgeChain } => {
  if (step.nested.length === 0) return {};
  const whole = step.nested.filter((chain) => chain.from === undefined && chain.to === undefined);
  return {
    low: whole.find((chain) => LOW.has(chain.edge)),
    high: whole.find((chain) => HIGH.has(chain.edge)),
    free: whole.find((chain) => chain.edge === 'free'),
  };
};

const stretchLater = (job: Job, chain: EdgeChain): void =>
  remark(
    job,
    'text/not-computed-yet',
    chain.span,
    'a flange on part of a flange’s own edge is read but not laid out yet; on the outline’s edges it is',
    {
      severity: 'information',
    },
  );

const insideItsBend = (job: Job, step: Step, taken: number, between: boolean): void => {
  const { say, write } = job.words;
  const bends = between ? 'the bends at its two ends take up' : 'its bend takes up';
  const least = taken + Math.max(0.5, job.thickness);
  const fixes =
    write === undefined ? [] : [{ title: `Make it ${say(least)}`, edits: [{ span: step.lengthSpan, text: write(least, 'up') }] }];
  const [long, gone] = sayBoth(job, step.length, taken);
  remark(
    job,
    'bend/flange-inside-its-bend',
    step.lengthSpan,
    `${step.faceId} is ${long}, but ${bends} ${gone} of it, so no flat is left; make it longer than ${gone} or the inside radius smaller`,
    { fixes, features: [`face:${step.faceId}`] },
  );
};

const bendOf = (job: Job, step: Step): { turn: number; radius: number; sums: BendSums } | undefined => {
  const radius = step.radius ?? job.sheet.bendRadius;
  if (radius === undefined) {
    remark(
      job,
      'bend/no-radius',
      step.span,
      `no inside radius for this bend: write \`radius\` here, or \`bend radius …\` on sheet ${job.sheet.name} for all its bends`,
    );
    return undefined;
  }
  if (job.method === undefined) {
    noMethod(job, `sheet ${job.sheet.name} does not say how much a bend uses up: write \`k 0.42\` (or \`din\`) after its \`bend radius\``);
    return undefined;
  }
  const sums = bendSums(job.method, step.turn, radius, job.thickness);
  if (sums === undefined) {
    const trial = job.method.kind === 'trial' ? job.method.trial : '';
    noMethod(
      job,
      `sheet ${job.sheet.name} takes its bends from trial ${trial}, which is not computed yet: write \`k 0.42\` (or \`din\`) until then`,
    );
    return undefined;
  }
  return { turn: step.turn, radius, sums };
};

const noMethod = (job: Job, message: string): void => remark(job, 'bend/no-method', job.part.sheet?.span ?? job.part.nameSpan, message);
