/**
 * What an order costs, the first counting most: turn-overs; turns on the bed and long swings, one as much as the other, since nobody swings the whole part to save turning
 * it; what swings; neighbouring steps that are unlike.
 */
import type { Way } from './job.js';
import type { Cost } from './types.js';

export interface Chosen {
  readonly operation: number;
  /** Undefined for handwork. */
  readonly way: Way | undefined;
}
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

export const isUnlike = (before: Way | undefined, next: Way): boolean => before !== undefined && !alike(before, next);
const alike = (before: Way, next: Way): boolean =>
  Math.abs(before.hold.setTurn - next.hold.setTurn) < 1e-6 &&
  Math.abs(before.hold.leaf.extent - next.hold.leaf.extent) < 0.01 &&
  Math.abs(lengthOf(before) - lengthOf(next)) < 0.01;
const lengthOf = ({ hold }: Way): number => hold.ends[1] - hold.ends[0];

/** Weights of the parts of the cost: each outweighs all that those below can come to. Whole numbers, so that sums are exact. */
const TURN_OVER = 1e12;
const ROTATION = 1e10;
/** Per hundredth of a millimetre. */
const SWING = 1e3;

/** The side that swings is clearly the longer one: so many times what is held. Common practice, no source. */
const LONG = 1.25;
const isLongSwing = ({ hold }: Way): boolean => hold.leaf.extent > LONG * hold.clamped.extent;

const swing = (way: Way): number => Math.round(Math.min(way.hold.leaf.extent, 7000) * 100);
/** Of the first three parts. */
export const stepCost = (before: Way | undefined, next: Way): number => {
  const { over, rotation } = handled(before, next);
  return (over ? TURN_OVER : 0) + (rotation ? ROTATION : 0) + (isLongSwing(next) ? ROTATION : 0) + swing(next) * SWING;
};

export const costOf = (steps: readonly Chosen[]): Cost => {
  let [turnOvers, rotations, longSwings, handling, unlike] = [0, 0, 0, 0, 0];
  let before: Way | undefined;
  for (const { way } of steps) {
    if (way === undefined) continue;
    const { over, rotation } = handled(before, way);
    if (over) turnOvers++;
    if (rotation) rotations++;
    if (isLongSwing(way)) longSwings++;
    handling += swing(way) / 100;
    if (isUnlike(before, way)) unlike++;
    before = way;
  }
  return { turnOvers, rotations, longSwings, handling, unlike };
};
