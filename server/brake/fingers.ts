/** Which fingers make up a bend. */
import type { ChosenFingers } from './types.js';

/** Left free between a finger and what stands beside it. mm. Common practice, no source. */
export const FINGER_CLEARANCE = 0.25;
/** Widest single gap between fingers, or beside them, that does not show as a kink: half an inch. mm. Common practice, no source. */
const WIDEST_GAP = 12.7;

interface Some {
  readonly sum: number;
  readonly set: number;
  readonly count: number;
}

/** All sums of a few widths, rising; of equal sums the one with the fewest fingers. */
const sumsOf = (widths: readonly number[], first: number): readonly Some[] => {
  let all: Some[] = [{ sum: 0, set: 0, count: 0 }];
  for (const [i, width] of widths.entries()) {
    const bit = 2 ** (first + i);
    all = [...all, ...all.map(({ sum, set, count }) => ({ sum: sum + width, set: set + bit, count: count + 1 }))];
    all.sort((a, b) => a.sum - b.sum || a.count - b.count);
    all = all.filter((one, index) => {
      const before = all[index - 1];
      return before === undefined || one.sum - before.sum > 1e-6;
    });
  }
  return all;
};

/**
 * The best set of fingers for a bend: the least of it left uncovered, then the least overhang, then the fewest fingers. Exact (all sums of each half of the
 * widths, met in the middle), up to 40 fingers.
 *
 * @param bend length of the bend, mm
 * @param room between what stands beside the bend at either end; Infinity when an end is free
 * @returns undefined when not one finger fits
 */
export const chooseFingers = (widths: readonly number[], bend: number, room: number): ChosenFingers | undefined => {
  const half = Math.floor(widths.length / 2);
  const left = sumsOf(widths.slice(0, half), 0);
  const right = sumsOf(widths.slice(half), half);
  const most = Number.isFinite(room) ? room - 2 * FINGER_CLEARANCE + 1e-9 : Number.POSITIVE_INFINITY;
  let best: Some | undefined;
  const better = (one: Some): boolean => {
    if (best === undefined) return true;
    const [gap, known] = [Math.max(0, bend - one.sum), Math.max(0, bend - best.sum)];
    if (Math.abs(gap - known) > 1e-6) return gap < known;
    if (Math.abs(one.sum - best.sum) > 1e-6) return one.sum < best.sum;
    return one.count < best.count;
  };
  const offer = (a: Some, b: Some | undefined): void => {
    if (b === undefined || a.sum + b.sum > most || a.count + b.count === 0) return;
    const one = { sum: a.sum + b.sum, set: a.set + b.set, count: a.count + b.count };
    if (better(one)) best = one;
  };
  for (const a of left) {
    // The first that covers the bend, and the last that fits below it.
    const covers = firstAtLeast(right, bend - a.sum - 1e-6);
    offer(a, right[covers]);
    offer(a, right[Math.min(covers, firstAtLeast(right, most - a.sum + 1e-12)) - 1]);
  }
  if (best === undefined) return undefined;
  const { set, sum } = best;
  return {
    widths: widths.filter((_, i) => Math.floor(set / 2 ** i) % 2 === 1),
    gap: Math.max(0, bend - sum),
    overhang: Math.max(0, sum - bend),
    room,
  };
};

const firstAtLeast = (sorted: readonly Some[], wanted: number): number => {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle]?.sum ?? 0) >= wanted) high = middle;
    else low = middle + 1;
  }
  return low;
};

/** Whether the gaps, shared out evenly between the fingers and beside them, are narrow enough; `bare` is what of one end no finger can reach. */
export const gapsAreNarrow = ({ gap, widths }: ChosenFingers, bare = 0): boolean =>
  bare <= WIDEST_GAP && gap <= WIDEST_GAP * (widths.length + 1) + 1e-6;
