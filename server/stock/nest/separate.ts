/** Parts overlapping items until none overlaps, or until nothing more is gained. */
import { type Layout, moveItem, type Places, pairDepth, placesOf } from './layout.js';
import { shuffled } from './random.js';

export interface Effort {
  /** Places tried anywhere for each move. */
  readonly tries: number;
  /** Sweeps without a gain before giving up. */
  readonly patience: number;
}

/**
 * By how much weights are multiplied in a sweep: the deepest overlap's and one of no depth, and where there is none. Multiplied, an overlap that lasts soon
 * outweighs all others, however they have grown. Found by trial on the set shapes0.
 */
const raiseDeepest = 1.5;
const raiseLeast = 1.05;
const sink = 0.95;
/** Weights are kept below this; beyond it the others no longer count at all. */
const heaviest = 1e9;

/** Overlaps of all pairs: by item, their sum, and the deepest. Weights are raised where an overlap lasts and sink back where it is gone. */
const weigh = (layout: Layout, perItem: Float64Array, learn: boolean): number => {
  const n = layout.room.length;
  perItem.fill(0);
  const deep: number[] = [];
  let deepest = 0;
  let total = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const depth = pairDepth(layout, i, j);
      if (depth > 0) {
        deep.push(i, j, depth);
        total += depth;
        deepest = Math.max(deepest, depth);
        perItem[i] = (perItem[i] as number) + depth;
        perItem[j] = (perItem[j] as number) + depth;
      } else if (learn) {
        const w = Math.max(1, (layout.weights[i * n + j] as number) * sink);
        layout.weights[i * n + j] = w;
        layout.weights[j * n + i] = w;
      }
    }
  }
  if (learn) {
    for (let k = 0; k < deep.length; k += 3) {
      const i = deep[k] as number;
      const j = deep[k + 1] as number;
      const raise = raiseLeast + (raiseDeepest - raiseLeast) * ((deep[k + 2] as number) / deepest);
      const w = Math.min(heaviest, (layout.weights[i * n + j] as number) * raise);
      layout.weights[i * n + j] = w;
      layout.weights[j * n + i] = w;
    }
  }
  return total;
};

/**
 * Yields after every sweep over the overlapping items.
 *
 * @returns true when no two items overlap any more; otherwise the layout is left at its least total overlap
 */
export const separate = function* (layout: Layout, effort: Effort): Generator<undefined, boolean> {
  const n = layout.room.length;
  const perItem = new Float64Array(n);
  let least = weigh(layout, perItem, true);
  if (least === 0) return true;
  let best = snapshot(layout);
  let idle = 0;
  const all = Array.from({ length: n }, (_, i) => i);
  while (idle < effort.patience) {
    for (const i of shuffled(
      all.filter((k) => (perItem[k] as number) > 0),
      layout.random,
    )) {
      moveItem(layout, i, effort.tries);
    }
    const total = weigh(layout, perItem, true);
    if (total === 0) return true;
    if (total < least) {
      if (total < 0.98 * least) idle = 0;
      else idle++;
      least = total;
      best = snapshot(layout);
    } else idle++;
    yield undefined;
  }
  restore(layout, best);
  return false;
};

interface Snapshot extends Places {
  readonly room: Int32Array;
}
const snapshot = (layout: Layout): Snapshot => ({ ...placesOf(layout), room: Int32Array.from(layout.room) });
const restore = (layout: Layout, to: Snapshot): void => {
  layout.room.set(to.room);
  layout.shape.set(to.shape);
  layout.x.set(to.x);
  layout.y.set(to.y);
};
