/**
 * Pieces of the folded part that want the same place. Faces are exact (arcs as chords within 0.01 mm), bend zones are facets of 5°.
 *
 * The depth is the least shift that frees the one piece of the other, among shifts along either's normal, along the line where their planes cross and, where
 * they lie side by side, square to their edges. For a flange that runs into a plate it is how far it runs in; for a flange that goes right through, how far
 * it would have to draw back.
 */
import { type Solid, shiftsThatMeet, solidsOverlap } from '../shape/solids.js';
import { boxes3Meet, crossProduct, times, type Vector, vectorLength } from '../shape/space.js';
import type { Bit, ThickPiece } from './parts.js';

/** What overlaps by less (mm) only touches. */
export const TOUCHING = 0.01;
/** A bend zone is not held against what it runs on into until it has turned so far (rad) away from it. */
const TURNED_AWAY = (100 * Math.PI) / 180;

export interface Clash {
  readonly depth: number;
  /** The way the first piece would have to go, unit. */
  readonly way: Vector;
  readonly at: Vector;
}
export interface PieceClash extends Clash {
  readonly a: ThickPiece;
  readonly b: ThickPiece;
}

/** Every two pieces that overlap. */
export const clashes = (pieces: readonly ThickPiece[]): readonly PieceClash[] => {
  const found: PieceClash[] = [];
  for (let i = 0; i < pieces.length; i++) {
    const a = pieces[i] as ThickPiece;
    for (let j = i + 1; j < pieces.length; j++) {
      const b = pieces[j] as ThickPiece;
      if (a.feature === b.feature || !boxes3Meet(a.box, b.box, -TOUCHING)) continue;
      const clash = clashOf(a, b);
      if (clash !== undefined) found.push({ a, b, ...clash });
    }
  }
  return found;
};

/** How two pieces overlap; undefined when they are clear of one another or only touch. */
export const clashOf = (a: ThickPiece, b: ThickPiece): Clash | undefined => {
  const bitsA = a.bits();
  const bitsB = b.bits();
  const pairs: (readonly [Bit, Bit])[] = [];
  for (const p of bitsA) {
    if (!boxes3Meet(p.solid.box, b.box, -TOUCHING)) continue;
    for (const q of bitsB) {
      if (!boxes3Meet(p.solid.box, q.solid.box, -TOUCHING) || runsOn(a, p, b, q)) continue;
      if (solidsOverlap(p.solid, q.solid, TOUCHING)) pairs.push([p, q]);
    }
  }
  const [first] = pairs;
  if (first === undefined) return undefined;
  const least = leastShift(pairs, allPairs(a, b) ?? pairs, ways(first));
  return least.depth > TOUCHING ? { ...least, at: middleOf(first[0].solid, first[1].solid) } : undefined;
};

/** How far the first of two pieces that overlap must be shifted along a unit direction to be clear of the second, mm. */
export const shiftToFree = (a: ThickPiece, b: ThickPiece, way: Vector): number => {
  const pairs = allPairs(a, b) ?? [];
  const [, to] = reach(
    pairs.flatMap(([p, q]) => {
      const met = shiftsThatMeet(p.solid, q.solid, way);
      return met === undefined ? [] : [met];
    }),
  );
  return to;
};

/** Whether two bits belong to the same run of sheet round a bend and have not yet turned back on one another. */
const runsOn = (a: ThickPiece, p: Bit, b: ThickPiece, q: Bit): boolean => {
  if (a.bend === undefined && b.bend === undefined) return false;
  if (a.bend !== undefined && b.bend !== undefined) {
    if (a.bend.child === b.bend.parent) return a.bend.turn - p.turned + q.turned < TURNED_AWAY;
    if (b.bend.child === a.bend.parent) return b.bend.turn - q.turned + p.turned < TURNED_AWAY;
    return false;
  }
  const [zone, bit, face] = a.bend !== undefined ? [a.bend, p, b.face] : [b.bend, q, a.face];
  if (zone === undefined) return false;
  if (zone.parent === face) return bit.turned < TURNED_AWAY;
  return zone.child === face && zone.turn - bit.turned < TURNED_AWAY;
};

const ways = ([{ solid: a, normal: n }, { solid: b, normal: m }]: readonly [Bit, Bit]): readonly Vector[] => {
  const line = crossProduct(n, m);
  const length = vectorLength(line);
  if (length > 1e-6) return [n, m, times(line, 1 / length)];
  return [n, ...a.normals.slice(1), ...b.normals.slice(1)];
};

/** Beyond so many pairs of bits only those that overlap as they stand are shifted. */
const MANY = 4000;
const allPairs = (a: ThickPiece, b: ThickPiece): readonly (readonly [Bit, Bit])[] | undefined => {
  const bitsA = a.bits();
  const bitsB = b.bits();
  if (bitsA.length * bitsB.length > MANY) return undefined;
  return bitsA.flatMap((p) => bitsB.filter((q) => !runsOn(a, p, b, q)).map((q) => [p, q] as const));
};

const leastShift = (
  now: readonly (readonly [Bit, Bit])[],
  all: readonly (readonly [Bit, Bit])[],
  directions: readonly Vector[],
): { readonly depth: number; readonly way: Vector } => {
  let depth = Number.POSITIVE_INFINITY;
  let way: Vector = { x: 0, y: 0, z: 1 };
  for (const direction of directions) {
    const meets = (pairs: typeof all): (readonly [number, number])[] =>
      pairs.flatMap(([p, q]) => {
        const met = shiftsThatMeet(p.solid, q.solid, direction);
        return met === undefined ? [] : [met];
      });
    // What overlaps now bounds the answer from below: most directions are ruled out by it alone.
    const [low, high] = reach(meets(now));
    if (Math.min(high, -low) >= depth) continue;
    const [from, to] = all === now ? [low, high] : reach(meets(all));
    if (to < depth) {
      depth = to;
      way = direction;
    }
    if (-from < depth) {
      depth = -from;
      way = times(direction, -1);
    }
  }
  return { depth, way };
};

/** The stretch of shifts round 0 at which something overlaps. */
const reach = (meets: (readonly [number, number])[]): readonly [number, number] => {
  let high = 0;
  let low = 0;
  const upward = [...meets].sort((p, q) => p[0] - q[0]);
  for (const [from, to] of upward) if (from <= high + TOUCHING && to > high) high = to;
  const downward = [...meets].sort((p, q) => q[1] - p[1]);
  for (const [from, to] of downward) if (to >= low - TOUCHING && from < low) low = from;
  return [low, high];
};

const middleOf = (a: Solid, b: Solid): Vector => {
  const middle = (axis: 'x' | 'y' | 'z'): number =>
    (Math.max(a.box.min[axis], b.box.min[axis]) + Math.min(a.box.max[axis], b.box.max[axis])) / 2;
  return { x: middle('x'), y: middle('y'), z: middle('z') };
};
