/** Pieces of sheet in the brake, cut to a length of it and seen along the bend. */
import { type Convex, hullOf } from '../shape/convex.js';
import type { Point } from '../shape/path.js';
import { composed, type Frame, pointInto, type Vector } from '../shape/space.js';
import type { Hold, Member } from './hold.js';
import { bentSlabs, carried, flatSlabs, type Pieces, type Slab, shareIn } from './pieces.js';

export type Crossing = (joint: number, share: number, outward: boolean) => Frame;

export interface Extent {
  readonly from: number;
  readonly to: number;
}
/** One piece in the brake, in one state. */
export interface Placed {
  /** x toward the operator, y up, z to the operator's right; the bend that is made still flat. */
  readonly slabs: () => readonly Slab[];
  /** What its whole length covers, seen along the bend. */
  readonly sections: readonly Convex[];
  /** Where it lies along the brake. */
  readonly extent: Extent;
}

/** A rigid motion of the section: x' = cos·x − sin·y + dx. */
interface Motion {
  readonly cos: number;
  readonly sin: number;
  readonly dx: number;
  readonly dy: number;
}

/**
 * Places pieces for one hold. Where all bends on the way are parallel to the one that is made, as in most parts, a piece only moves within the section and
 * its shape there is known from before.
 */
export const placing = (pieces: Pieces, crossing: Crossing, hold: Hold): ((member: Member, done: number) => Placed) => {
  const into = (p: Vector): Vector => pointInto(hold.machine, p);
  const ownSlabs = (member: Member, share: number): readonly Slab[] => {
    const joint = member.piece.bend === undefined ? undefined : pieces.joints[member.piece.bend];
    return joint === undefined ? flatSlabs(member.piece, pieces.thickness) : bentSlabs(member.piece, joint, share, pieces.thickness);
  };
  const ownShare = ({ piece }: Member, done: number): number => {
    const joint = piece.bend === undefined ? undefined : pieces.joints[piece.bend];
    return joint === undefined ? 0 : shareIn(joint, done);
  };
  const slabsAt = (member: Member, done: number): readonly Slab[] => {
    let frame: Frame | undefined;
    for (const { joint, outward } of member.path) {
      const share = shareAt(pieces, joint, done);
      if (share === 0) continue;
      const step = crossing(joint, share, outward);
      frame = frame === undefined ? step : composed(frame, step);
    }
    const own = ownSlabs(member, ownShare(member, done));
    const placed = frame === undefined ? own : carried(own, frame);
    return placed.map((slab) => ({ back: slab.back.map(into), face: slab.face.map(into) }));
  };

  const motions: (Map<number, Motion | undefined> | undefined)[] = [];
  /** The step over a bend as a motion of the section; undefined where that bend is not parallel. */
  const motionOver = (joint: number, share: number, outward: boolean): Motion | undefined => {
    const index = joint * 2 + (outward ? 1 : 0);
    let byShare = motions[index];
    if (byShare === undefined) {
      byShare = new Map();
      motions[index] = byShare;
    }
    const known = byShare.get(share);
    if (known !== undefined || byShare.has(share)) return known;
    const made = sectionMotion(hold, crossing(joint, share, outward));
    byShare.set(share, made);
    return made;
  };
  const unmoved = new Map<Member, Map<number, { readonly sections: readonly Convex[]; readonly extent: Extent }>>();
  const unmovedAt = (member: Member, share: number) => {
    const states = unmoved.get(member) ?? new Map<number, { readonly sections: readonly Convex[]; readonly extent: Extent }>();
    unmoved.set(member, states);
    const known = states.get(share);
    if (known !== undefined) return known;
    const slabs = ownSlabs(member, share).map((slab) => ({ back: slab.back.map(into), face: slab.face.map(into) }));
    const answer = { sections: sectionsOf(slabs), extent: extentOf(slabs) };
    states.set(share, answer);
    return answer;
  };

  return (member, done) => {
    let motion: Motion | undefined = STILL;
    for (const { joint, outward } of member.path) {
      const share = shareAt(pieces, joint, done);
      if (share === 0) continue;
      const step = motionOver(joint, share, outward);
      motion = step === undefined ? undefined : after(motion, step);
      if (motion === undefined) break;
    }
    if (motion === undefined) {
      const slabs = slabsAt(member, done);
      return { slabs: () => slabs, sections: sectionsOf(slabs), extent: extentOf(slabs) };
    }
    const { sections, extent } = unmovedAt(member, ownShare(member, done));
    const moved = motion;
    return {
      slabs: () => slabsAt(member, done),
      sections: moved === STILL ? sections : sections.map((section) => section.map((p) => through(moved, p))),
      extent,
    };
  };
};

const STILL: Motion = { cos: 1, sin: 0, dx: 0, dy: 0 };
const through = ({ cos, sin, dx, dy }: Motion, p: Point): Point => ({ x: cos * p.x - sin * p.y + dx, y: sin * p.x + cos * p.y + dy });
const after = (outer: Motion, inner: Motion): Motion => ({
  cos: outer.cos * inner.cos - outer.sin * inner.sin,
  sin: outer.sin * inner.cos + outer.cos * inner.sin,
  dx: outer.cos * inner.dx - outer.sin * inner.dy + outer.dx,
  dy: outer.sin * inner.dx + outer.cos * inner.dy + outer.dy,
});
const sectionMotion = ({ machine }: Hold, step: Frame): Motion | undefined => {
  const carriedAxis = (axis: Vector): Vector => ({
    x: step.x.x * axis.x + step.y.x * axis.y + step.z.x * axis.z,
    y: step.x.y * axis.x + step.y.y * axis.y + step.z.y * axis.z,
    z: step.x.z * axis.x + step.y.z * axis.y + step.z.z * axis.z,
  });
  const dot = (a: Vector, b: Vector): number => a.x * b.x + a.y * b.y + a.z * b.z;
  if (dot(carriedAxis(machine.z), machine.z) < 1 - 1e-12) return undefined;
  const x = carriedAxis(machine.x);
  const origin = carriedAxis(machine.origin);
  const at = pointInto(machine, { x: origin.x + step.origin.x, y: origin.y + step.origin.y, z: origin.z + step.origin.z });
  return { cos: dot(x, machine.x), sin: dot(x, machine.y), dx: at.x, dy: at.y };
};
const shareAt = (pieces: Pieces, index: number, done: number): number => {
  const joint = pieces.joints[index];
  return joint === undefined ? 0 : shareIn(joint, done);
};

/** Where slabs lie along the brake. */
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
const sectionsOf = (slabs: readonly Slab[]): readonly Convex[] =>
  slabs.flatMap((slab) => {
    const hull = hullOf([...slab.back, ...slab.face].map((p) => ({ x: p.x, y: p.y })));
    return hull.length < 3 ? [] : [hull];
  });

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
