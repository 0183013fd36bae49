/** The sheet's rim in the form that reach is looked up from: straight and round pieces with what a search needs worked out once. */
import type { Blank } from '../blank/types.js';
import { apart, boxesMeet, moveBox, moveLength, startOf } from '../shape/arcs.js';
import { pointInLoop } from '../shape/inside.js';
import { movesMeet } from '../shape/meetings.js';
import type { Loop, Move, Point } from '../shape/path.js';
import { onPiece, piecesOf } from './path.js';

/** A piece of rim; round ones turn left (anticlockwise) from x0, y0 when `sweep` is positive. */
export interface Rim {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly arc:
    | { readonly x: number; readonly y: number; readonly radius: number; readonly start: number; readonly sweep: number }
    | undefined;
}

/**
 * The rim of a blank: its outline, and where a cut-out breaks through the outline, the cut-out's line in place of what it takes away. A cut-out that lies
 * within the outline never decides how far sheet reaches: there is sheet all round it.
 */
export const rimOf = (blank: Blank): readonly Rim[] => {
  const breaking = blank.cutouts.map((cut) => cut.loop).filter((loop) => meetsLoop(loop, blank.outline));
  if (breaking.length === 0) return rimOfLoop(blank.outline);
  const kept = partsOf(blank.outline, breaking).filter(({ middle }) => !breaking.some((loop) => pointInLoop(middle, loop)));
  const edges = breaking.flatMap((loop, i) => {
    const others = breaking.filter((_, j) => j !== i);
    return partsOf(loop, [blank.outline, ...others]).filter(
      ({ middle }) => pointInLoop(middle, blank.outline) && !others.some((other) => pointInLoop(middle, other)),
    );
  });
  return [...kept, ...edges].map(({ from, move }) => rim(from, move));
};

const rimOfLoop = (loop: Loop): readonly Rim[] => loop.map((move, i) => rim(startOf(loop, i), move));

const meetsLoop = (one: Loop, other: Loop): boolean =>
  one.some((a, i) => {
    const from = startOf(one, i);
    const box = moveBox(from, a);
    return other.some((b, j) => {
      const start = startOf(other, j);
      return boxesMeet(box, moveBox(start, b)) && movesMeet(from, a, start, b).length > 0;
    });
  });

interface Part {
  readonly from: Point;
  readonly move: Move;
  readonly middle: Point;
}
/** A loop's moves cut where other loops meet them. */
const partsOf = (loop: Loop, others: readonly Loop[]): readonly Part[] =>
  loop.flatMap((move, i) => {
    const start = startOf(loop, i);
    const cuts = others.flatMap((other) => other.flatMap((b, j) => movesMeet(start, move, startOf(other, j), b)));
    const places = cuts.map((p) => ({ p, s: moveLength(start, { ...move, to: p }) })).sort((a, b) => a.s - b.s);
    const parts: Part[] = [];
    let from = start;
    for (const { p } of [...places, { p: move.to, s: 0 }]) {
      if (apart(from, p) < 1e-7) continue;
      const piece = { ...move, to: p };
      const [only] = piecesOf({ start: from, moves: [piece], closed: false });
      if (only !== undefined) parts.push({ from, move: piece, middle: onPiece(only, only.length / 2).at });
      from = p;
    }
    return parts;
  });

const rim = (from: Point, move: Move): Rim => {
  const straight = { x0: from.x, y0: from.y, x1: move.to.x, y1: move.to.y };
  if (move.kind === 'line') return { ...straight, arc: undefined };
  const radius = apart(move.centre, from);
  const sweep = (move.turn === 'left' ? 1 : -1) * (moveLength(from, move) / radius);
  const start = Math.atan2(from.y - move.centre.y, from.x - move.centre.x);
  return { ...straight, arc: { x: move.centre.x, y: move.centre.y, radius, start, sweep } };
};

const FULL = 2 * Math.PI;
const holdsAngle = (arc: NonNullable<Rim['arc']>, angle: number): boolean => {
  const turned = arc.sweep > 0 ? angle - arc.start : arc.start - angle;
  const within = ((turned % FULL) + FULL) % FULL;
  return within <= Math.abs(arc.sweep) + 1e-12 || within > FULL - 1e-12;
};

export interface Farthest {
  /** Square from the track; −∞ where the strip holds no sheet. */
  v: number;
  u: number;
}

/**
 * The farthest rim from `p` in direction `n` within the strip uLow ≤ u ≤ uHigh, u along `t` (n is t turned a quarter to either side). Exact for lines and
 * arcs: on a straight piece an end or where the strip cuts it, on a round one also where it faces n.
 */
export const farthest = (
  rims: readonly Rim[],
  px: number,
  py: number,
  tx: number,
  ty: number,
  nx: number,
  ny: number,
  uLow: number,
  uHigh: number,
): Farthest => {
  let bestV = Number.NEGATIVE_INFINITY;
  let bestU = 0;
  const low = uLow - 1e-9;
  const high = uHigh + 1e-9;
  for (const r of rims) {
    const ax = r.x0 - px;
    const ay = r.y0 - py;
    const bx = r.x1 - px;
    const by = r.y1 - py;
    const ua = ax * tx + ay * ty;
    const ub = bx * tx + by * ty;
    const { arc } = r;
    if (arc === undefined) {
      if ((ua < low && ub < low) || (ua > high && ub > high)) continue;
      const va = ax * nx + ay * ny;
      const vb = bx * nx + by * ny;
      if (va <= bestV && vb <= bestV) continue;
      let u0 = ua;
      let v0 = va;
      let u1 = ub;
      let v1 = vb;
      const du = ub - ua;
      if (ua < low || ua > high) {
        u0 = ua < low ? uLow : uHigh;
        v0 = va + ((vb - va) * (u0 - ua)) / du;
      }
      if (ub < low || ub > high) {
        u1 = ub < low ? uLow : uHigh;
        v1 = va + ((vb - va) * (u1 - ua)) / du;
      }
      if (v0 > bestV) {
        bestV = v0;
        bestU = u0;
      }
      if (v1 > bestV) {
        bestV = v1;
        bestU = u1;
      }
      continue;
    }
    const cx = arc.x - px;
    const cy = arc.y - py;
    const uc = cx * tx + cy * ty;
    if (uc - arc.radius > high || uc + arc.radius < low) continue;
    const vc = cx * nx + cy * ny;
    if (vc + arc.radius <= bestV) continue;
    const va = ax * nx + ay * ny;
    const vb = bx * nx + by * ny;
    if (ua >= low && ua <= high && va > bestV) {
      bestV = va;
      bestU = ua;
    }
    if (ub >= low && ub <= high && vb > bestV) {
      bestV = vb;
      bestU = ub;
    }
    if (uc >= low && uc <= high && vc + arc.radius > bestV && holdsAngle(arc, Math.atan2(ny, nx))) {
      bestV = vc + arc.radius;
      bestU = uc;
    }
    for (const edge of [uLow, uHigh]) {
      const off = edge - uc;
      if (Math.abs(off) > arc.radius) continue;
      const rise = Math.sqrt(arc.radius * arc.radius - off * off);
      for (const up of [rise, -rise]) {
        const v = vc + up;
        if (v > bestV && holdsAngle(arc, Math.atan2(off * ty + up * ny, off * tx + up * nx))) {
          bestV = v;
          bestU = edge;
        }
      }
    }
  }
  return { v: bestV, u: bestU };
};
