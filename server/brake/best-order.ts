/**
 * The best order of the steps that go, by best-first search (A*) over the sets of operations done, each with how the part lies. It goes backward, from the finished part to the
 * flat sheet, since the last steps are the ones that most stands in the way of. It is led by what each state would cost to reach if every step went: never more than it does
 * cost, so the first order that gets to the flat sheet is a best one. Likeness of neighbouring steps is
 * weighed as it comes: it may break a tie, but not every tie is looked into.
 */
import { type Chosen, isUnlike, stepCost } from './cost.js';
import type { Job, Way } from './job.js';
import { queueOf } from './queue.js';
import type { InSteps } from './steps.js';

type Test = (way: Way, set: number) => boolean;

/** States looked at between two pauses. */
const PAUSE = 32;

/** @returns finds the best order of the steps that pass `goes`; steps that `knownNot` tells need not be asked. Undefined when there is none. */
export const bestOrderOf = (job: Job): ((goes: Test, knownNot: Test) => InSteps<readonly Chosen[] | undefined>) => {
  const count = job.operations.length;
  const full = 2 ** count - 1;
  const ways = job.ways.flat();
  // How the part lies: face up or down and turned which way; nothing made yet, or handwork only, is the last column.
  const lies: Way[] = [];
  const columnOf = ways.map((way) => {
    const known = lies.findIndex((other) => liesAlike(way, other));
    return known >= 0 ? known : lies.push(way) - 1;
  });
  const columns = lies.length + 1;
  const least = Float64Array.from({ length: columns * ways.length }, (_, i) =>
    stepCost(lies[Math.floor(i / ways.length)], ways[i % ways.length] as Way),
  );
  const unlike = Uint8Array.from({ length: (ways.length + 1) * ways.length }, (_, i) =>
    isUnlike(ways[Math.floor(i / ways.length)], ways[i % ways.length] as Way) ? 1 : 0,
  );
  const own = job.ways.map((each) => each.map((way) => ways.indexOf(way)));
  const isOpen = (set: number, index: number): boolean => (set & (1 << index)) === 0 && ((job.operations[index]?.after ?? 0) & ~set) === 0;
  const isByHand = job.operations.map(({ make }) => make === 'hand');

  /** What each state costs to reach from nothing made if every step went. */
  const findingToCome = function* (knownNot: Test): InSteps<Float64Array> {
    const toCome = new Float64Array((full + 1) * columns).fill(Number.POSITIVE_INFINITY);
    toCome[columns - 1] = 0;
    for (let set = 0; set < full; set++) {
      if (set % PAUSE === 0) yield undefined;
      const row = set * columns;
      for (let index = 0; index < count; index++) {
        if (!isOpen(set, index)) continue;
        const target = (set | (1 << index)) * columns;
        if (isByHand[index] === true) {
          for (let last = 0; last < columns; last++)
            toCome[target + last] = Math.min(toCome[target + last] ?? 0, (toCome[row + last] ?? 0) + byHand(set));
          continue;
        }
        for (const k of own[index] ?? []) {
          if (knownNot(ways[k] as Way, set)) continue;
          let whole = toCome[target + (columnOf[k] ?? 0)] ?? 0;
          for (let last = 0; last < columns; last++)
            whole = Math.min(whole, (toCome[row + last] ?? 0) + (least[last * ways.length + k] ?? 0));
          toCome[target + (columnOf[k] ?? 0)] = whole;
        }
      }
    }
    return toCome;
  };

  return function* (goes, knownNot) {
    const toCome = yield* findingToCome(knownNot);
    const states = (full + 1) * columns;
    const cost = new Float64Array(states).fill(Number.POSITIVE_INFINITY);
    /** The state after the step that follows; and the step: index of its way, of handwork that of its operation beyond all ways. */
    const then = new Int32Array(states).fill(-1);
    const move = new Int16Array(states).fill(-1);
    /** Index of the next step that is not handwork; the number of ways when there is none. */
    const next = new Int16Array(states).fill(ways.length);
    const queue = queueOf<Waiting>((a, b) =>
      a.whole !== b.whole ? a.whole < b.whole : a.spent !== b.spent ? a.spent > b.spent : a.unlike < b.unlike,
    );
    const offer = (state: number, after: number, spent: number, moved: number, unlike: number): void => {
      if (spent >= (cost[state] ?? 0)) return;
      const whole = spent + (toCome[state] ?? 0);
      if (whole < Number.POSITIVE_INFINITY) queue.add({ whole, spent, unlike, state, after, moved });
    };
    for (let column = 0; column < columns; column++) offer(full * columns + column, -1, 0, -1, 0);
    let looked = 0;
    for (let taken = queue.take(); taken !== undefined; taken = queue.take()) {
      const { state, after, spent, moved, unlike: unlikeYet } = taken;
      if (spent >= (cost[state] ?? 0)) continue;
      if (++looked % PAUSE === 0) yield undefined;
      const set = Math.floor(state / columns);
      const way = ways[moved];
      if (way !== undefined && !goes(way, set)) continue;
      cost[state] = spent;
      then[state] = after;
      move[state] = moved;
      const later = way === undefined ? (next[after] ?? ways.length) : moved;
      next[state] = later;
      if (set === 0) return chosen(state, then, move);
      const column = state % columns;
      for (let index = 0; index < count; index++) {
        const before = set & ~(1 << index);
        if (before === set || !isOpen(before, index)) continue;
        const row = before * columns;
        if (isByHand[index] === true) offer(row + column, state, spent + byHand(before), ways.length + index, unlikeYet);
        for (const k of own[index] ?? []) {
          if (columnOf[k] !== column || knownNot(ways[k] as Way, before)) continue;
          const more = unlikeYet + (later < ways.length ? (unlike[k * ways.length + later] ?? 0) : 0);
          for (let last = 0; last < columns; last++) offer(row + last, state, spent + (least[last * ways.length + k] ?? 0), k, more);
        }
      }
    }
    return undefined;
  };

  function chosen(start: number, then: Int32Array, move: Int16Array): readonly Chosen[] {
    const steps: Chosen[] = [];
    for (let at = start; (then[at] ?? -1) >= 0; at = then[at] ?? -1) {
      const moved = move[at] ?? -1;
      const way = ways[moved];
      steps.push({ operation: way?.hold.operation ?? moved - ways.length, way });
    }
    return steps;
  }
};

interface Waiting {
  /** Cost with what it took at least to come here. */
  readonly whole: number;
  readonly spent: number;
  /** Steps unlike the one before. */
  readonly unlike: number;
  readonly state: number;
  /** The state that its step leads to. */
  readonly after: number;
  readonly moved: number;
}

const liesAlike = ({ hold: a }: Way, { hold: b }: Way): boolean =>
  a.faceUp === b.faceUp && Math.abs(a.toward.x - b.toward.x) < 1e-9 && Math.abs(a.toward.y - b.toward.y) < 1e-9;
/** By hand as early as it may be: what lies flat is easier held. */
const byHand = (set: number): number => {
  let made = 0;
  for (let rest = set; rest !== 0; rest &= rest - 1) made++;
  return made;
};
