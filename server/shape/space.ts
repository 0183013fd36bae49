/** Space: vectors, and frames that carry flat things into it. Millimetres; x right, y up, z toward the eye looking at the part's face. */

export interface Vector {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}
/** Where a thing stands: its own origin and its three unit axes, as seen from outside. Axes are square to one another and right-handed. */
export interface Frame {
  readonly origin: Vector;
  readonly x: Vector;
  readonly y: Vector;
  readonly z: Vector;
}
export interface Box3 {
  readonly min: Vector;
  readonly max: Vector;
}

export const difference = (a: Vector, b: Vector): Vector => ({ x: a.x - b.x, y: a.y - b.y, z: a.z - b.z });
export const times = (a: Vector, by: number): Vector => ({ x: a.x * by, y: a.y * by, z: a.z * by });
export const dotProduct = (a: Vector, b: Vector): number => a.x * b.x + a.y * b.y + a.z * b.z;
export const crossProduct = (a: Vector, b: Vector): Vector => ({
  x: a.y * b.z - a.z * b.y,
  y: a.z * b.x - a.x * b.z,
  z: a.x * b.y - a.y * b.x,
});
export const vectorLength = (a: Vector): number => Math.sqrt(a.x * a.x + a.y * a.y + a.z * a.z);
/** The vector of length 1 along `a`; `a` itself when it has no length. */
export const unitVector = (a: Vector): Vector => {
  const length = vectorLength(a);
  return length < 1e-300 ? a : times(a, 1 / length);
};
/** a·p + b·q, for directions within a plane. */
export const blend = (a: Vector, p: number, b: Vector, q: number): Vector => ({
  x: a.x * p + b.x * q,
  y: a.y * p + b.y * q,
  z: a.z * p + b.z * q,
});

/** The frame of space itself. */
export const WORLD: Frame = {
  origin: { x: 0, y: 0, z: 0 },
  x: { x: 1, y: 0, z: 0 },
  y: { x: 0, y: 1, z: 0 },
  z: { x: 0, y: 0, z: 1 },
};

/** A direction given in the frame's own axes, in space. */
export const directionFrom = (frame: Frame, x: number, y: number, z: number): Vector => ({
  x: frame.x.x * x + frame.y.x * y + frame.z.x * z,
  y: frame.x.y * x + frame.y.y * y + frame.z.y * z,
  z: frame.x.z * x + frame.y.z * y + frame.z.z * z,
});
/** A point given in the frame's own coordinates, in space. */
export const pointFrom = (frame: Frame, x: number, y: number, z: number): Vector => ({
  x: frame.origin.x + frame.x.x * x + frame.y.x * y + frame.z.x * z,
  y: frame.origin.y + frame.x.y * x + frame.y.y * y + frame.z.y * z,
  z: frame.origin.z + frame.x.z * x + frame.y.z * y + frame.z.z * z,
});
/** A point of space in the frame's own coordinates. */
export const pointInto = (frame: Frame, p: Vector): Vector => directionInto(frame, difference(p, frame.origin));
/** A direction in space along the frame's own axes. */
export const directionInto = (frame: Frame, d: Vector): Vector => ({
  x: dotProduct(d, frame.x),
  y: dotProduct(d, frame.y),
  z: dotProduct(d, frame.z),
});

/** `inner` is given in `outer`'s coordinates; the result is `inner` as seen from outside `outer`. */
export const composed = (outer: Frame, inner: Frame): Frame => ({
  origin: pointFrom(outer, inner.origin.x, inner.origin.y, inner.origin.z),
  x: directionFrom(outer, inner.x.x, inner.x.y, inner.x.z),
  y: directionFrom(outer, inner.y.x, inner.y.y, inner.y.z),
  z: directionFrom(outer, inner.z.x, inner.z.y, inner.z.z),
});
/** The frame that undoes this one: `composed(inverse(f), f)` is the world. */
export const inverse = (frame: Frame): Frame => {
  const back = directionInto(frame, frame.origin);
  return {
    origin: { x: -back.x, y: -back.y, z: -back.z },
    x: { x: frame.x.x, y: frame.y.x, z: frame.z.x },
    y: { x: frame.x.y, y: frame.y.y, z: frame.z.y },
    z: { x: frame.x.z, y: frame.y.z, z: frame.z.z },
  };
};

/** The box of some points; inside out (min +∞, max −∞) for none, which joins with any other. */
export const boxAround = (points: Iterable<Vector>): Box3 => {
  const min = { x: Number.POSITIVE_INFINITY, y: Number.POSITIVE_INFINITY, z: Number.POSITIVE_INFINITY };
  const max = { x: Number.NEGATIVE_INFINITY, y: Number.NEGATIVE_INFINITY, z: Number.NEGATIVE_INFINITY };
  for (const p of points) {
    if (p.x < min.x) min.x = p.x;
    if (p.y < min.y) min.y = p.y;
    if (p.z < min.z) min.z = p.z;
    if (p.x > max.x) max.x = p.x;
    if (p.y > max.y) max.y = p.y;
    if (p.z > max.z) max.z = p.z;
  }
  return { min, max };
};
export const boxesJoined = (a: Box3, b: Box3): Box3 => ({
  min: { x: Math.min(a.min.x, b.min.x), y: Math.min(a.min.y, b.min.y), z: Math.min(a.min.z, b.min.z) },
  max: { x: Math.max(a.max.x, b.max.x), y: Math.max(a.max.y, b.max.y), z: Math.max(a.max.z, b.max.z) },
});
/** Boxes that overlap or come within `gap` of each other. */
export const boxes3Meet = (a: Box3, b: Box3, gap = 0): boolean =>
  a.min.x <= b.max.x + gap &&
  b.min.x <= a.max.x + gap &&
  a.min.y <= b.max.y + gap &&
  b.min.y <= a.max.y + gap &&
  a.min.z <= b.max.z + gap &&
  b.min.z <= a.max.z + gap;
