/**
 * The order of the bends. What a step needs depends only on which bends are done, so the search goes over the sets of operations done, each with the step that came
 * last, since that says how the part lies: every order, every side under the nose, weighed exactly. Cost, the first counting most: turn-overs, turns on
 * the bed and long swings, what swings, neighbouring steps that are unlike.
 *
 * Whether a step goes is dear to find out, what it costs is cheap: so the best order is found by best-first search (best-order.ts), and most steps are never tried. Where
 * there is none, the states are walked through from the flat sheet on, for telling how far it comes. Dearest is a long look for a way into the brake and out of it: that is
 * taken only where there is no order in which everything gets past the jaw plainly.
 */
import { bestOrderOf } from './best-order.js';
import { type Chosen, costOf, stepCost } from './cost.js';
import type { Job, Way } from './job.js';
import { type InSteps, toTheEnd } from './steps.js';
import type { Cost } from './types.js';

export interface Found {
  readonly steps: readonly Chosen[];
  readonly cost: Cost;
  readonly best: boolean;
}
/** What is reached when nothing is found: largest sets of operations done. */
export interface Stuck {
  readonly reached: number;
  readonly sets: readonly number[];
  /** Every order was tried; false when the part has more states than are looked at. */
  readonly proven: boolean;
}

/** Up to so many operations all orders are weighed; beyond, one that works is looked for, depth first. */
const WEIGHED = 16;
/** And so many are looked at altogether: sets of them are numbers of 31 bits. */
const MOST_OPERATIONS = 30;

const bits = (set: number): number => {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count++;
  return count;
};

export const findOrder = (job: Job): Found | Stuck => toTheEnd(findingOrder(job));
export const isFound = (answer: Found | Stuck): answer is Found => 'steps' in answer;

/** The same, pausing after each state of the part. */
export function* findingOrder(job: Job): InSteps<Found | Stuck> {
  if (job.operations.length > MOST_OPERATIONS) return { reached: 0, sets: [0], proven: false };
  const plainly = yield* findingWith(job, testsOf(job, job.goes));
  if (isFound(plainly) || !job.refusedByJaw()) return plainly;
  // Nothing gets past the jaw plainly: then by any way that is found.
  const somehow = yield* findingWith(job, testsOf(job, job.goesSomehow));
  return isFound(somehow) || job.lookedForAll() ? somehow : { ...somehow, proven: false };
}

function* findingWith(job: Job, tests: Tests): InSteps<Found | Stuck> {
  if (job.operations.length > WEIGHED) {
    const perhaps = yield* findingAny(job, tests.mayGo);
    return isFound(perhaps) ? yield* findingAny(job, tests.goes) : perhaps;
  }
  const best = yield* findingBest(job, tests);
  if (typeof best !== 'function') return best;
  const stuck = yield* findingAny(job, best);
  return isFound(stuck) ? stuck : { ...stuck, proven: true };
}

/** @returns where there is no order, the test that no order passes */
function* findingBest(job: Job, tests: Tests): InSteps<Found | Test> {
  const finding = bestOrderOf(job);
  // The order that would be best if all that may go did: mostly it does, and little was asked. Else every step is looked at as it comes.
  const hoped = yield* finding(tests.mayGo, tests.knownNot);
  if (hoped === undefined) return tests.mayGo;
  let set = 0;
  let holds = true;
  for (const { operation, way } of hoped) {
    yield undefined;
    holds &&= way === undefined || tests.goes(way, set);
    set |= 1 << operation;
  }
  const steps = holds ? hoped : yield* finding(tests.goes, tests.knownNot);
  return steps === undefined ? tests.goes : { steps, cost: costOf(steps), best: true };
}

/** An order that gets past the jaw plainly, if there is one: nothing is found out about where it stops. */
export function* findingPlain(job: Job): InSteps<Found | undefined> {
  if (job.operations.length > MOST_OPERATIONS) return undefined;
  const tests = testsOf(job, job.goes);
  if (job.operations.length <= WEIGHED) {
    const best = yield* findingBest(job, tests);
    return typeof best === 'function' ? undefined : best;
  }
  const any = yield* findingAny(job, tests.goes);
  return isFound(any) ? any : undefined;
}

/** Whether a way of a step goes from a set: perhaps, surely, and whether it is known already that it does not. */
interface Tests {
  readonly mayGo: Test;
  readonly goes: Test;
  readonly knownNot: Test;
}
type Test = (way: Way, set: number) => boolean;
const testsOf = (job: Job, goesAtAll: Test): Tests => {
  const indices = new Map(job.ways.flat().map((way, i) => [way, i]));
  const states = 2 ** Math.min(job.operations.length, WEIGHED);
  /** Answers to one question, one byte each; of parts with very many bends, by their states. */
  const answers = (): {
    readonly get: (way: Way, set: number) => number;
    readonly set: (way: Way, set: number, answer: number) => void;
  } => {
    if (job.operations.length > WEIGHED) {
      const known = new Map<Way, Map<number, number>>(job.ways.flat().map((way) => [way, new Map()]));
      return { get: (way, set) => known.get(way)?.get(set) ?? 0, set: (way, set, answer) => known.get(way)?.set(set, answer) };
    }
    const known = new Uint8Array(indices.size * states);
    const at = (way: Way, set: number): number => (indices.get(way) ?? 0) * states + set;
    return {
      get: (way, set) => known[at(way, set)] ?? 0,
      set: (way, set, answer) => {
        known[at(way, set)] = answer;
      },
    };
  };
  const [perhaps, surely] = [answers(), answers()];
  const asked = (known: typeof perhaps, test: Test): Test => {
    return (way, set) => {
      const before = known.get(way, set);
      if (before !== 0) return before === YES;
      const answer = test(way, set);
      known.set(way, set, answer ? YES : NO);
      return answer;
    };
  };
  const mayGo = asked(perhaps, job.mayGo);
  const goes = asked(surely, (way, set) => mayGo(way, set) && goesAtAll(way, set));
  const knownNot: Test = (way, set) => way.always.length > 0 || perhaps.get(way, set) === NO || surely.get(way, set) === NO;
  return { mayGo: (way, set) => surely.get(way, set) !== NO && mayGo(way, set), goes, knownNot };
};
const [YES, NO] = [1, 2];

/** Steps looked at closely for telling which states are reached. */
const MOST_LOOKS = 200;

/** Of the states that may be reached with most done, those that are: a slow look, for telling what blocks a part. */
export const reallyReached = (job: Job, stuck: Stuck): Stuck => {
  const { goes } = testsOf(job, job.goesSomehow);
  let looks = 0;
  const dead = new Set<number>();
  const isReached = (set: number): boolean => {
    if (set === 0) return true;
    if (dead.has(set) || looks > MOST_LOOKS) return false;
    for (const [index, { make, after }] of job.operations.entries()) {
      const before = set & ~(1 << index);
      if (before === set || (after & ~before) !== 0) continue;
      const made = make === 'hand' || (job.ways[index] ?? []).some((way) => looks++ <= MOST_LOOKS && goes(way, before));
      if (made && isReached(before)) return true;
    }
    dead.add(set);
    return false;
  };
  const sets = stuck.sets.slice(0, 24).filter(isReached);
  return sets.length === 0 ? stuck : { ...stuck, sets };
};

/** States looked at before a part with very many bends is given up. */
const MOST_STATES = 30_000;

/** Depth first, the cheapest next step first, never twice from the same set. Complete unless the part has more states than are looked at. */
function* findingAny(job: Job, goes: Test): InSteps<Found | Stuck> {
  const full = 2 ** job.operations.length - 1;
  const seen = new Set<number>();
  let [reached, sets, proven] = [-1, [] as number[], true];
  const go = function* (set: number, steps: readonly Chosen[], last: Way | undefined): InSteps<readonly Chosen[] | undefined> {
    if (set === full) return steps;
    if (seen.has(set)) return undefined;
    if (seen.size >= MOST_STATES) {
      proven = false;
      return undefined;
    }
    seen.add(set);
    yield undefined;
    const made = bits(set);
    if (made > reached) [reached, sets] = [made, []];
    if (made === reached) sets.push(set);
    const options: { readonly chosen: Chosen; readonly price: number }[] = [];
    for (const [operation, { make, after }] of job.operations.entries()) {
      if ((set & (1 << operation)) !== 0 || (after & ~set) !== 0) continue;
      if (make === 'hand') options.push({ chosen: { operation, way: undefined }, price: -1 });
      for (const way of job.ways[operation] ?? []) options.push({ chosen: { operation, way }, price: stepCost(last, way) });
    }
    options.sort((a, b) => a.price - b.price);
    for (const { chosen } of options) {
      const { operation, way } = chosen;
      const target = set | (1 << operation);
      // Which side is clamped does not change the part, so one way there is enough.
      if (seen.has(target) || (way !== undefined && !goes(way, set))) continue;
      const found = yield* go(target, [...steps, chosen], way ?? last);
      if (found !== undefined) return found;
    }
    return undefined;
  };
  const steps = yield* go(0, [], undefined);
  return steps === undefined ? { reached, sets, proven } : { steps, cost: costOf(steps), best: false };
}
