/**
 * The best order of the steps that go, by best-first search (A*) over the sets of operations done, each with how the part lies. It is led by what each state would cost to finish
 * if every step went: never more than it does cost, so the first order that gets to the end is a best one. Likeness of neighbouring steps is
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

  let known: Float64Array | undefined;
  const findingToGo = function* (knownNot: Test): InSteps<Float64Array> {
    const toGo = new Float64Array((full + 1) * columns).fill(Number.POSITIVE_INFINITY);
    toGo.fill(0, full * columns);
    for (let set = full - 1; set >= 0; set--) {
      if (set % PAUSE === 0) yield undefined;
      const row = set * columns;
      for (let index = 0; index < count; index++) {
        if (!isOpen(set, index)) continue;
        const target = (set | (1 << index)) * columns;
        if (isByHand[index] === true) {
          for (let last = 0; last < columns; last++)
            toGo[row + last] = Math.min(toGo[row + last] ?? 0, (toGo[target + last] ?? 0) + byHand(set));
          continue;
        }
        for (const k of own[index] ?? []) {
          if (knownNot(ways[k] as Way, set)) continue;
          const rest = toGo[target + (columnOf[k] ?? 0)] ?? 0;
          for (let last = 0; last < columns; last++) {
            const whole = rest + (least[last * ways.length + k] ?? 0);
            if (whole < (toGo[row + last] ?? 0)) toGo[row + last] = whole;
          }
        }
      }
    }
    return toGo;
  };

  return function* (goes, knownNot) {
    known ??= yield* findingToGo(knownNot);
    const toGo = known;
    const states = (full + 1) * columns;
    const cost = new Float64Array(states).fill(Number.POSITIVE_INFINITY);
    const from = new Int32Array(states).fill(-1);
    /** Index of the way it was reached by; of handwork, that of its operation beyond all ways. */
    const move = new Int16Array(states).fill(-1);
    /** Index of the last step that was not handwork; the number of ways when there is none. */
    const last = new Int16Array(states).fill(ways.length);
    const queue = queueOf<Waiting>((a, b) =>
      a.whole !== b.whole ? a.whole < b.whole : a.spent !== b.spent ? a.spent > b.spent : a.unlike < b.unlike,
    );

    const offer = (state: number, target: number, spent: number, moved: number, unlike: number): void => {
      if (spent >= (cost[target] ?? 0)) return;
      const whole = spent + (toGo[target] ?? 0);
      if (whole < Number.POSITIVE_INFINITY) queue.add({ whole, spent, unlike, state, target, moved });
    };
    offer(-1, columns - 1, 0, -1, 0);
    let looked = 0;
    for (let next = queue.take(); next !== undefined; next = queue.take()) {
      const { state, target, spent, moved } = next;
      if (spent >= (cost[target] ?? 0)) continue;
      if (++looked % PAUSE === 0) yield undefined;
      const way = ways[moved];
      if (way !== undefined && !goes(way, Math.floor(state / columns))) continue;
      cost[target] = spent;
      from[target] = state;
      move[target] = moved;
      const made = way === undefined ? (last[state] ?? ways.length) : moved;
      last[target] = made;
      const set = Math.floor(target / columns);
      if (set === full) return chosen(target, from, move);
      for (let index = 0; index < count; index++) {
        if (!isOpen(set, index)) continue;
        const row = (set | (1 << index)) * columns;
        if (isByHand[index] === true) offer(target, row + (target % columns), spent + byHand(set), ways.length + index, next.unlike);
        for (const k of own[index] ?? []) {
          if (knownNot(ways[k] as Way, set)) continue;
          const step = least[(target % columns) * ways.length + k] ?? 0;
          offer(target, row + (columnOf[k] ?? 0), spent + step, k, next.unlike + (unlike[made * ways.length + k] ?? 0));
        }
      }
    }
    return undefined;
  };

  function chosen(end: number, from: Int32Array, move: Int16Array): readonly Chosen[] {
    const steps: Chosen[] = [];
    for (let at = end; (from[at] ?? -1) >= 0; at = from[at] ?? -1) {
      const moved = move[at] ?? -1;
      const way = ways[moved];
      steps.unshift({ operation: way?.hold.operation ?? moved - ways.length, way });
    }
    return steps;
  }
};

interface Waiting {
  /** Cost with what is at least to come. */
  readonly whole: number;
  readonly spent: number;
  /** Steps unlike the one before. */
  readonly unlike: number;
  readonly state: number;
  readonly target: number;
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
