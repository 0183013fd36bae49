/** Slabs of sheet cut to a length of the brake and seen along the bend. */
import { type Convex, hullOf } from '../shape/convex.js';
import type { Point } from '../shape/path.js';
import { composed, type Frame, pointInto, type Vector } from '../shape/space.js';
import type { Hold, Member } from './hold.js';
import { bentSlabs, carried, flatSlabs, type Pieces, type Slab, shareIn } from './pieces.js';

export type Crossing = (joint: number, share: number, outward: boolean) => Frame;

/** The slabs of one piece in the brake: x toward the operator, y up, z to the operator's right; the bend that is made still flat. */
export const slabsIn = (pieces: Pieces, crossing: Crossing, hold: Hold, member: Member, done: number): readonly Slab[] => {
  const { piece, path } = member;
  let frame: Frame | undefined;
  for (const { joint, outward } of path) {
    const share = shareOf(pieces, joint, done);
    if (share === 0) continue;
    const step = crossing(joint, share, outward);
    frame = frame === undefined ? step : composed(frame, step);
  }
  const joint = piece.bend === undefined ? undefined : pieces.joints[piece.bend];
  const own = joint === undefined ? flatSlabs(piece, pieces.thickness) : bentSlabs(piece, joint, shareIn(joint, done), pieces.thickness);
  const placed = frame === undefined ? own : carried(own, frame);
  const into = (p: Vector): Vector => pointInto(hold.machine, p);
  return placed.map((slab) => ({ back: slab.back.map(into), face: slab.face.map(into) }));
};
const shareOf = (pieces: Pieces, index: number, done: number): number => {
  const joint = pieces.joints[index];
  return joint === undefined ? 0 : shareIn(joint, done);
};

export interface Extent {
  readonly from: number;
  readonly to: number;
}
/** Where a slab lies along the brake. */
export const extentOf = (slabs: readonly Slab[]): Extent => {
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  for (const slab of slabs) {
    for (const side of [slab.back, slab.face]) {
      for (const p of side) {
        if (p.z < from) from = p.z;
        if (p.z > to) to = p.z;
      }
    }
  }
  return { from, to };
};

/**
 * What a slab, cut to a length of the brake, covers when seen along the bend. Exact: a slab is convex, so the corners of what is left of it after the cuts,
 * projected, span it. Undefined when nothing of it is within.
 */
export const seenAlong = (slab: Slab, from: number, to: number): Convex | undefined => {
  const points: Point[] = [];
  const count = slab.back.length;
  const keep = (p: Vector | undefined): void => {
    if (p !== undefined && p.z >= from && p.z <= to) points.push({ x: p.x, y: p.y });
  };
  const cut = (p: Vector | undefined, q: Vector | undefined): void => {
    if (p === undefined || q === undefined) return;
    for (const at of [from, to]) {
      const [a, b] = [p.z - at, q.z - at];
      if ((a < 0 && b > 0) || (a > 0 && b < 0)) {
        const share = a / (a - b);
        points.push({ x: p.x + share * (q.x - p.x), y: p.y + share * (q.y - p.y) });
      }
    }
  };
  for (let i = 0; i < count; i++) {
    const next = i + 1 === count ? 0 : i + 1;
    keep(slab.back[i]);
    keep(slab.face[i]);
    cut(slab.back[i], slab.back[next]);
    cut(slab.face[i], slab.face[next]);
    cut(slab.back[i], slab.face[i]);
  }
  if (points.length < 3) return undefined;
  const hull = hullOf(points);
  return hull.length < 3 ? undefined : hull;
};
