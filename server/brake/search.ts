/**
 * The order of the bends. What a step needs depends only on which bends are done, so the search goes over the sets of operations done, each with the step that came
 * last, since that says how the part lies: every order, every side under the nose, weighed exactly. Cost, the first counting most: turn-overs, turns on
 * the bed, what swings, neighbouring steps that are unlike.
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
}

/** Up to so many operations all orders are weighed; beyond, one that works is looked for, depth first. */
export const WEIGHED = 14;

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
/** The same, pausing after each state of the part. */
export const findingOrder = (job: Job): InSteps<Found | Stuck> =>
  job.operations.length <= WEIGHED ? weighingAll(job) : findingFirstThatWorks(job);
export const isFound = (answer: Found | Stuck): answer is Found => 'steps' in answer;

function* weighingAll(job: Job): InSteps<Found | Stuck> {
  const count = job.operations.length;
  const full = 2 ** count - 1;
  const ways = job.ways.flat();
  // The last step is known by the way it was made; none yet, or handwork only, is the last column.
  const columns = ways.length + 1;
  const cost = new Float64Array((full + 1) * columns).fill(Number.POSITIVE_INFINITY);
  const from = new Int32Array((full + 1) * columns).fill(-1);
  const move = new Int16Array((full + 1) * columns).fill(-1);
  const between = Array.from({ length: columns }, (_, last) => ways.map((way) => stepCost(ways[last], way)));
  const firstOf: number[] = [];
  let next = 0;
  for (const own of job.ways) {
    firstOf.push(next);
    next += own.length;
  }
  cost[ways.length] = 0;
  const relax = (set: number, last: number, target: number, column: number, price: number, moved: number): void => {
    const index = target * columns + column;
    if (price >= (cost[index] ?? 0)) return;
    cost[index] = price;
    from[index] = set * columns + last;
    move[index] = moved;
  };
  let [reached, sets] = [-1, [] as number[]];
  const lasts: number[] = [];
  for (let set = 0; set <= full; set++) {
    lasts.length = 0;
    for (let last = 0; last < columns; last++) if ((cost[set * columns + last] ?? 0) < Number.POSITIVE_INFINITY) lasts.push(last);
    if (lasts.length === 0) continue;
    yield undefined;
    const made = bits(set);
    if (made > reached) [reached, sets] = [made, []];
    if (made === reached) sets.push(set);
    for (const [index, operation] of job.operations.entries()) {
      if ((set & (1 << index)) !== 0 || (operation.after & ~set) !== 0) continue;
      const target = set | (1 << index);
      const own = job.ways[index] ?? [];
      if (operation.make === 'hand') {
        // By hand as early as it may be: what lies flat is easier held.
        for (const last of lasts) relax(set, last, target, last, (cost[set * columns + last] ?? 0) + made, ways.length + index);
        continue;
      }
      for (const [k, way] of own.entries()) {
        if (job.tryStep(way, set) === undefined) continue;
        const column = (firstOf[index] ?? 0) + k;
        for (const last of lasts)
          relax(set, last, target, column, (cost[set * columns + last] ?? 0) + (between[last]?.[column] ?? 0), column);
      }
    }
  }
  let best = -1;
  for (let last = 0; last < columns; last++) {
    const index = full * columns + last;
    if ((cost[index] ?? 0) < (best < 0 ? Number.POSITIVE_INFINITY : (cost[best] ?? 0))) best = index;
  }
  if (best < 0) return { reached, sets };
  const steps: Chosen[] = [];
  for (let at = best; (from[at] ?? -1) >= 0; at = from[at] ?? -1) {
    const moved = move[at] ?? -1;
    const way = ways[moved];
    steps.unshift({ operation: way?.hold.operation ?? moved - ways.length, way });
  }
  return { steps, cost: costOf(steps), best: true };
}

/** States looked at before a part with very many bends is given up. */
const MOST_STATES = 200_000;

/** Depth first, the cheapest next step first, never twice from the same set. Complete unless the part has more states than are looked at. */
function* findingFirstThatWorks(job: Job): InSteps<Found | Stuck> {
  const full = 2 ** job.operations.length - 1;
  const seen = new Set<number>();
  let [reached, sets] = [-1, [] as number[]];
  const go = function* (set: number, steps: readonly Chosen[], last: Way | undefined): InSteps<readonly Chosen[] | undefined> {
    if (set === full) return steps;
    if (seen.has(set) || seen.size > MOST_STATES) return undefined;
    seen.add(set);
    yield undefined;
    const made = bits(set);
    if (made > reached) [reached, sets] = [made, []];
    if (made === reached) sets.push(set);
    const options: { readonly chosen: Chosen; readonly price: number }[] = [];
    for (const [operation, { make, after }] of job.operations.entries()) {
      if ((set & (1 << operation)) !== 0 || (after & ~set) !== 0) continue;
      if (make === 'hand') options.push({ chosen: { operation, way: undefined }, price: -1 });
      for (const way of job.ways[operation] ?? [])
        if (job.tryStep(way, set) !== undefined) options.push({ chosen: { operation, way }, price: stepCost(last, way) });
    }
    options.sort((a, b) => a.price - b.price);
    for (const { chosen } of options) {
      const found = yield* go(set | (1 << chosen.operation), [...steps, chosen], chosen.way ?? last);
      if (found !== undefined) return found;
    }
    return undefined;
  };
  const steps = yield* go(0, [], undefined);
  return steps === undefined ? { reached, sets } : { steps, cost: costOf(steps), best: false };
}
