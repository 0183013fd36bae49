/**
 * The order of the bends. What a step needs depends only on which bends are done, so the search goes over the sets of operations done, each with the step that came
 * last, since that says how the part lies: every order, every side under the nose, weighed exactly. Cost, the first counting most: turn-overs, turns on
 * the bed, what swings, neighbouring steps that are unlike.
 *
 * Whether a step goes is dear to find out, what it costs is cheap. So first any order that goes is looked for, a set at a time; only where there is one, the best is
 * found by best-first search (A*), led by what each state would cost to finish if every step went. That is never more than it does cost, so the first order
 * that gets to the end is a best one, and most steps are never tried.
 */
import type { Job, Way } from './job.js';
import { type InSteps, toTheEnd } from './steps.js';
import type { Cost } from './types.js';

export interface Chosen {
  readonly operation: number;
  /** Undefined for handwork. */
  readonly way: Way | undefined;
}
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
export const WEIGHED = 14;
/** And so many are looked at altogether: sets of them are numbers of 31 bits. */
export const MOST_OPERATIONS = 30;

export const bits = (set: number): number => {
  let count = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) count++;
  return count;
};

const SAME_DIRECTION = 1e-6;

/** How the part is moved between two steps. */
export const handled = (
  before: Way | undefined,
  next: Way,
): { readonly over: boolean; readonly rotated: number; readonly rotation: boolean } => {
  if (before === undefined) return { over: false, rotated: 0, rotation: false };
  const over = before.hold.faceUp !== next.hold.faceUp;
  const [a, b] = [before.hold.toward, next.hold.toward];
  const cross = a.x * b.y - a.y * b.x;
  const dot = a.x * b.x + a.y * b.y;
  const angle = Math.atan2(cross, dot);
  // Turned over about the brake's own line, or end over end, it lies either way round without a turn on the bed.
  const rotation = over ? Math.abs(cross) > SAME_DIRECTION : Math.abs(cross) > SAME_DIRECTION || dot < 0;
  const rotated = over ? (Math.abs(cross) > SAME_DIRECTION ? angle : 0) : rotation ? angle : 0;
  return { over, rotated, rotation };
};

const alike = (before: Way, next: Way): boolean =>
  Math.abs(before.hold.setTurn - next.hold.setTurn) < 1e-6 &&
  Math.abs(before.hold.leaf.extent - next.hold.leaf.extent) < 0.01 &&
  Math.abs(lengthOf(before) - lengthOf(next)) < 0.01;
const lengthOf = ({ hold }: Way): number => hold.ends[1] - hold.ends[0];

/** Weights of the four parts of the cost: each outweighs all that those below can come to. Whole numbers, so that sums are exact. */
const TURN_OVER = 1e12;
const ROTATION = 1e10;
/** Per hundredth of a millimetre. */
const SWING = 1e3;

const swing = (way: Way): number => Math.round(Math.min(way.hold.leaf.extent, 7000) * 100);
export const stepCost = (before: Way | undefined, next: Way): number => {
  const { over, rotation } = handled(before, next);
  return (over ? TURN_OVER : 0) + (rotation ? ROTATION : 0) + swing(next) * SWING + (before !== undefined && !alike(before, next) ? 1 : 0);
};

export const costOf = (steps: readonly Chosen[]): Cost => {
  let [turnOvers, rotations, handling, unlike] = [0, 0, 0, 0];
  let before: Way | undefined;
  for (const { way } of steps) {
    if (way === undefined) continue;
    const { over, rotation } = handled(before, way);
    if (over) turnOvers++;
    if (rotation) rotations++;
    handling += swing(way) / 100;
    if (before !== undefined && !alike(before, way)) unlike++;
    before = way;
  }
  return { turnOvers, rotations, handling, unlike };
};

export const findOrder = (job: Job): Found | Stuck => toTheEnd(findingOrder(job));
export const isFound = (answer: Found | Stuck): answer is Found => 'steps' in answer;

/** The same, pausing after each state of the part. */
export function* findingOrder(job: Job): InSteps<Found | Stuck> {
  if (job.operations.length > MOST_OPERATIONS) return { reached: 0, sets: [0], proven: false };
  const goes = remembering(job);
  const answer = yield* findingAny(job, goes);
  return isFound(answer) && job.operations.length <= WEIGHED ? yield* findingBest(job, goes) : answer;
}

/** Whether a way of a step goes from a set, and whether that is already known not to be so. */
interface Goes {
  readonly goes: (way: Way, set: number) => boolean;
  readonly knownNot: (way: Way, set: number) => boolean;
}
const remembering = (job: Job): Goes => {
  const known = new Map<Way, Map<number, boolean>>(job.ways.flat().map((way) => [way, new Map()]));
  return {
    goes: (way, set) => {
      const states = known.get(way);
      const before = states?.get(set);
      if (before !== undefined) return before;
      const answer = job.tryStep(way, set) !== undefined;
      states?.set(set, answer);
      return answer;
    },
    knownNot: (way, set) => way.always.length > 0 || known.get(way)?.get(set) === false,
  };
};

/** States looked at before a part with very many bends is given up. */
const MOST_STATES = 200_000;

/** Depth first, the cheapest next step first, never twice from the same set. Complete unless the part has more states than are looked at. */
function* findingAny(job: Job, { goes }: Goes): InSteps<Found | Stuck> {
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

/** The best order of a part that has one. */
function* findingBest(job: Job, { goes, knownNot }: Goes): InSteps<Found | Stuck> {
  const count = job.operations.length;
  const full = 2 ** count - 1;
  const ways = job.ways.flat();
  // The last step is known by the way it was made; none yet, or handwork only, is the last column.
  const columns = ways.length + 1;
  const between = Float64Array.from({ length: columns * ways.length }, (_, i) =>
    stepCost(ways[Math.floor(i / ways.length)], ways[i % ways.length] as Way),
  );
  const price = (last: number, column: number): number => between[last * ways.length + column] ?? 0;
  const firstOf: number[] = [];
  for (let index = 0, next = 0; index < count; next += job.ways[index]?.length ?? 0, index++) firstOf.push(next);
  const open = (set: number): readonly number[] =>
    job.operations.flatMap(({ after }, index) => ((set & (1 << index)) !== 0 || (after & ~set) !== 0 ? [] : [index]));

  const toGo = new Float64Array((full + 1) * columns).fill(Number.POSITIVE_INFINITY);
  toGo.fill(0, full * columns);
  for (let set = full - 1; set >= 0; set--) {
    yield undefined;
    const made = bits(set);
    const row = set * columns;
    for (const index of open(set)) {
      const target = (set | (1 << index)) * columns;
      if (job.operations[index]?.make === 'hand') {
        for (let last = 0; last < columns; last++) toGo[row + last] = Math.min(toGo[row + last] ?? 0, (toGo[target + last] ?? 0) + made);
        continue;
      }
      for (const [k, way] of (job.ways[index] ?? []).entries()) {
        if (knownNot(way, set)) continue;
        const column = (firstOf[index] ?? 0) + k;
        const rest = toGo[target + column] ?? 0;
        for (let last = 0; last < columns; last++) {
          const whole = rest + price(last, column);
          if (whole < (toGo[row + last] ?? 0)) toGo[row + last] = whole;
        }
      }
    }
  }

  const cost = new Float64Array((full + 1) * columns).fill(Number.POSITIVE_INFINITY);
  const from = new Int32Array((full + 1) * columns).fill(-1);
  const move = new Int16Array((full + 1) * columns).fill(-1);
  const queue = queueOf();
  const offer = (state: number, target: number, spent: number, moved: number): void => {
    if (spent >= (cost[target] ?? 0)) return;
    const whole = spent + (toGo[target] ?? 0);
    if (whole < Number.POSITIVE_INFINITY) queue.add({ whole, spent, state, target, moved });
  };
  offer(-1, ways.length, 0, -1);
  for (let next = queue.take(); next !== undefined; next = queue.take()) {
    const { state, target, spent, moved } = next;
    if (spent >= (cost[target] ?? 0)) continue;
    yield undefined;
    const way = ways[moved];
    if (way !== undefined && !goes(way, Math.floor(state / columns))) continue;
    cost[target] = spent;
    from[target] = state;
    move[target] = moved;
    const [set, last] = [Math.floor(target / columns), target % columns];
    if (set === full) {
      const steps: Chosen[] = [];
      for (let at = target; (from[at] ?? -1) >= 0; at = from[at] ?? -1) {
        const made = move[at] ?? -1;
        steps.unshift({ operation: ways[made]?.hold.operation ?? made - ways.length, way: ways[made] });
      }
      return { steps, cost: costOf(steps), best: true };
    }
    for (const index of open(set)) {
      const row = (set | (1 << index)) * columns;
      // By hand as early as it may be: what lies flat is easier held.
      if (job.operations[index]?.make === 'hand') offer(target, row + last, spent + bits(set), ways.length + index);
      for (const [k, own] of (job.ways[index] ?? []).entries()) {
        const column = (firstOf[index] ?? 0) + k;
        if (!knownNot(own, set)) offer(target, row + column, spent + price(last, column), column);
      }
    }
  }
  return { reached: 0, sets: [0], proven: true };
}

interface Waiting {
  /** With what is at least to come. */
  readonly whole: number;
  readonly spent: number;
  readonly state: number;
  readonly target: number;
  readonly moved: number;
}
/** Least first; of equals the one that has got farther. */
const queueOf = (): { readonly add: (one: Waiting) => void; readonly take: () => Waiting | undefined } => {
  const heap: Waiting[] = [];
  const before = (a: Waiting, b: Waiting): boolean => a.whole < b.whole || (a.whole === b.whole && a.spent > b.spent);
  return {
    add: (one) => {
      let at = heap.push(one) - 1;
      while (at > 0) {
        const above = (at - 1) >> 1;
        const other = heap[above] as Waiting;
        if (!before(one, other)) break;
        heap[at] = other;
        at = above;
      }
      heap[at] = one;
    },
    take: () => {
      const first = heap[0];
      const one = heap.pop();
      if (one === undefined || heap.length === 0) return first;
      let at = 0;
      for (let below = 1; below < heap.length; below = 2 * at + 1) {
        if (below + 1 < heap.length && before(heap[below + 1] as Waiting, heap[below] as Waiting)) below++;
        const other = heap[below] as Waiting;
        if (!before(other, one)) break;
        heap[at] = other;
        at = below;
      }
      heap[at] = one;
      return first;
    },
  };
};
