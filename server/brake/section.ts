/** Pieces of sheet in the brake, cut to a length of it and seen along the bend. */
import { type Convex, hullOf } from '../shape/convex.js';
import type { Point } from '../shape/path.js';
import { composed, type Frame, pointInto, type Vector } from '../shape/space.js';
import type { Hold, Member, Step } from './hold.js';
import { bentSlabs, carried, flatSlabs, type Pieces, type Slab, shareIn } from './pieces.js';
import { remembered } from './steps.js';

export type Crossing = (joint: number, share: number, outward: boolean) => Frame;

export interface Extent {
  readonly from: number;
  readonly to: number;
}
/** One piece in the brake, in one state. Seen from the side, x toward the operator, y up; the bend that is made still flat. */
export interface Placed {
  /** With z to the operator's right. */
  readonly slabs: () => readonly Slab[];
  /** What its whole length covers, seen along the bend. */
  readonly sections: () => readonly Convex[];
  /** Convex, round all of its sections. */
  readonly hull: () => Convex;
  /** Round all of them as well. */
  readonly circle: Circle;
  /** Where it lies along the brake. */
  readonly extent: Extent;
}
export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

export interface Placing {
  readonly placed: (member: Member, done: number) => Placed;
  /** Its circle alone. */
  readonly circle: (member: Member, done: number) => Circle;
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
export const placing = (pieces: Pieces, crossing: Crossing, hold: Hold): Placing => {
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

  /** The step over a bend as a motion of the section; undefined where that bend is not parallel. */
  const overKnown = new Map<Step, Map<number, Motion | undefined>>();
  const over = (step: Step, share: number): Motion | undefined => {
    let shares = overKnown.get(step);
    if (shares === undefined) {
      shares = new Map();
      overKnown.set(step, shares);
    }
    const known = shares.get(share);
    if (known !== undefined || shares.has(share)) return known;
    const made = sectionMotion(hold, crossing(step.joint, share, step.outward));
    shares.set(share, made);
    return made;
  };
  const throughStep = remembered((step: Step, done): Motion | typeof ACROSS => {
    const before = motionTo(step.before, done);
    const share = shareAt(pieces, step.joint, done);
    if (share === 0 || before === ACROSS) return before;
    const own = over(step, share);
    return own === undefined ? ACROSS : after(before, own);
  });
  const motionTo = (step: Step | undefined, done: number): Motion | typeof ACROSS =>
    step === undefined || (step.moves & done) === 0 ? STILL : throughStep(step, done);
  const unmoved = new Map<Member, Map<number, Seen>>();
  const unmovedAt = (member: Member, share: number): Seen => {
    const states = unmoved.get(member) ?? new Map<number, Seen>();
    unmoved.set(member, states);
    const known = states.get(share);
    if (known !== undefined) return known;
    const seen = seenWhole(ownSlabs(member, share).map((slab) => ({ back: slab.back.map(into), face: slab.face.map(into) })));
    states.set(share, seen);
    return seen;
  };
  const acrossAt = remembered((member: Member, done): Placed => {
    const slabs = slabsAt(member, done);
    const { sections, hull, circle, extent } = seenWhole(slabs);
    return { slabs: () => slabs, sections: () => sections, hull: () => hull, circle, extent };
  });
  const motionOf = ({ path }: Member, done: number): Motion | typeof ACROSS => motionTo(path[path.length - 1], done);

  return {
    circle: (member, done) => {
      const motion = motionOf(member, done);
      if (motion === ACROSS) return acrossAt(member, done).circle;
      const { circle } = unmovedAt(member, ownShare(member, done));
      if (motion === STILL) return circle;
      const { x, y } = through(motion, circle);
      return { x, y, radius: circle.radius };
    },
    placed: (member, done) => {
      const motion = motionOf(member, done);
      if (motion === ACROSS) return acrossAt(member, done);
      const { sections, hull, circle, extent } = unmovedAt(member, ownShare(member, done));
      if (motion === STILL) return { slabs: () => slabsAt(member, done), sections: () => sections, hull: () => hull, circle, extent };
      const { x, y } = through(motion, circle);
      const moved = (section: Convex): Convex => section.map((p) => through(motion, p));
      let hullThere: Convex | undefined;
      return {
        slabs: () => slabsAt(member, done),
        sections: () => sections.map(moved),
        hull: () => {
          hullThere ??= moved(hull);
          return hullThere;
        },
        circle: { x, y, radius: circle.radius },
        extent,
      };
    },
  };
};

/** Bends on the way run across the one that is made. */
const ACROSS = 'across';

interface Seen {
  readonly sections: readonly Convex[];
  readonly hull: Convex;
  readonly circle: Circle;
  readonly extent: Extent;
}
const seenWhole = (slabs: readonly Slab[]): Seen => {
  const sections = sectionsOf(slabs);
  const hull = sections.length === 1 && sections[0] !== undefined ? sections[0] : hullOf(sections.flat());
  return { sections, hull, circle: circleRound(hull), extent: extentOf(slabs) };
};
/** About the middle of its span: not the least, but near it. */
const circleRound = (hull: Convex): Circle => {
  const [xs, ys] = [hull.map((p) => p.x), hull.map((p) => p.y)];
  const [x, y] = [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
  return { x, y, radius: Math.max(0, ...hull.map((p) => Math.hypot(p.x - x, p.y - y))) };
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
