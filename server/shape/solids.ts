/** Convex solids that stand on a polygon: whether two overlap, how far one must be shifted to be clear of the other, and how far apart they are. */
import { type Box3, boxAround, crossProduct, difference, dotProduct, times, type Vector, vectorLength } from './space.js';

/** The face side's ring of corners, anticlockwise seen from there, and the back's, corner for corner. */
export interface Solid {
  readonly face: readonly Vector[];
  readonly back: readonly Vector[];
  /** Unit normals of its sides, one of each pair that lie opposite. */
  readonly normals: readonly Vector[];
  /** Unit directions of its edges, each once. */
  readonly edges: readonly Vector[];
  readonly box: Box3;
}

/** Directions whose cross product is shorter than this are one direction. */
const PARALLEL = 1e-7;

const addUnlike = (found: Vector[], v: Vector): void => {
  const length = vectorLength(v);
  if (length < 1e-9) return;
  const unit = times(v, 1 / length);
  if (!found.some((other) => vectorLength(crossProduct(other, unit)) < PARALLEL)) found.push(unit);
};

export const solidOn = (face: readonly Vector[], back: readonly Vector[]): Solid => {
  const normals: Vector[] = [];
  const edges: Vector[] = [];
  const count = face.length;
  const at = (ring: readonly Vector[], i: number): Vector => ring[i % count] as Vector;
  addUnlike(normals, areaNormal(face));
  addUnlike(normals, areaNormal(back));
  for (let i = 0; i < count; i++) {
    const edge = difference(at(face, i + 1), at(face, i));
    const rise = difference(at(face, i), at(back, i));
    addUnlike(edges, edge);
    addUnlike(edges, difference(at(back, i + 1), at(back, i)));
    addUnlike(edges, rise);
    // A side whose one edge has shrunk to a point keeps its normal by the other.
    const longer = vectorLength(edge) > 1e-9 ? edge : difference(at(back, i + 1), at(back, i));
    addUnlike(normals, crossProduct(longer, rise));
  }
  return { face, back, normals, edges, box: boxAround([...face, ...back]) };
};

/** Twice the area of a ring as a vector along its normal. */
const areaNormal = (ring: readonly Vector[]): Vector => {
  let total = { x: 0, y: 0, z: 0 };
  const origin = ring[0] as Vector;
  for (let i = 1; i + 1 < ring.length; i++) {
    const c = crossProduct(difference(ring[i] as Vector, origin), difference(ring[i + 1] as Vector, origin));
    total = { x: total.x + c.x, y: total.y + c.y, z: total.z + c.z };
  }
  return total;
};

/** Least and greatest of a solid along an axis. */
const shadow = ({ face, back }: Solid, axis: Vector): readonly [number, number] => {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const ring of [face, back]) {
    for (const p of ring) {
      const d = dotProduct(p, axis);
      if (d < low) low = d;
      if (d > high) high = d;
    }
  }
  return [low, high];
};

/** Runs `see` over every axis along which two convex solids can be apart, until it answers true. */
const someAxis = (a: Solid, b: Solid, see: (axis: Vector) => boolean): boolean => {
  for (const axis of a.normals) if (see(axis)) return true;
  for (const axis of b.normals) if (see(axis)) return true;
  for (const p of a.edges) {
    for (const q of b.edges) {
      const c = crossProduct(p, q);
      const length = vectorLength(c);
      if (length >= PARALLEL && see(times(c, 1 / length))) return true;
    }
  }
  return false;
};

/** Whether two solids share more than `tolerance` (mm) along every axis; solids that only touch do not. */
export const solidsOverlap = (a: Solid, b: Solid, tolerance: number): boolean =>
  !someAxis(a, b, (axis) => {
    const [lowA, highA] = shadow(a, axis);
    const [lowB, highB] = shadow(b, axis);
    return Math.min(highA, highB) - Math.max(lowA, lowB) <= tolerance;
  });

/** The shifts of `a` along the unit `direction` at which it overlaps `b`, from and to; undefined when it passes clear of it. */
export const shiftsThatMeet = (a: Solid, b: Solid, direction: Vector): readonly [number, number] | undefined => {
  let from = Number.NEGATIVE_INFINITY;
  let to = Number.POSITIVE_INFINITY;
  const clear = someAxis(a, b, (axis) => {
    const [lowA, highA] = shadow(a, axis);
    const [lowB, highB] = shadow(b, axis);
    const rate = dotProduct(direction, axis);
    if (Math.abs(rate) < 1e-9) return Math.min(highA, highB) - Math.max(lowA, lowB) <= 1e-9;
    const s = (lowB - highA) / rate;
    const t = (highB - lowA) / rate;
    from = Math.max(from, Math.min(s, t));
    to = Math.min(to, Math.max(s, t));
    return from >= to;
  });
  return clear ? undefined : [from, to];
};

/** Least distance between two solids that do not overlap, mm, and the middle of where it is. */
export const solidsApart = (a: Solid, b: Solid): { readonly distance: number; readonly at: Vector } => {
  let distance = Number.POSITIVE_INFINITY;
  let at: Vector = { x: 0, y: 0, z: 0 };
  const keep = (p: Vector, q: Vector): void => {
    const d = vectorLength(difference(p, q));
    if (d >= distance) return;
    distance = d;
    at = { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2, z: (p.z + q.z) / 2 };
  };
  const linesB = linesOf(b);
  for (const [p, q] of linesOf(a)) for (const [r, s] of linesB) nearest(p, q, r, s, keep);
  cornersToSides(a, b, keep);
  cornersToSides(b, a, keep);
  return { distance, at };
};

const linesOf = ({ face, back }: Solid): readonly (readonly [Vector, Vector])[] => {
  const count = face.length;
  const lines: (readonly [Vector, Vector])[] = [];
  for (let i = 0; i < count; i++) {
    const next = (i + 1) % count;
    lines.push(
      [face[i] as Vector, face[next] as Vector],
      [back[i] as Vector, back[next] as Vector],
      [face[i] as Vector, back[i] as Vector],
    );
  }
  return lines;
};

const cornersToSides = (a: Solid, b: Solid, keep: (p: Vector, q: Vector) => void): void => {
  const count = b.face.length;
  const sides: (readonly Vector[])[] = [b.face, [...b.back].reverse()];
  for (let i = 0; i < count; i++) {
    const next = (i + 1) % count;
    sides.push([b.face[next] as Vector, b.face[i] as Vector, b.back[i] as Vector, b.back[next] as Vector]);
  }
  for (const side of sides) {
    const raw = areaNormal(side);
    const length = vectorLength(raw);
    if (length < 1e-12) continue;
    const normal = times(raw, 1 / length);
    for (const p of [...a.face, ...a.back]) {
      const height = dotProduct(difference(p, side[0] as Vector), normal);
      const foot = { x: p.x - normal.x * height, y: p.y - normal.y * height, z: p.z - normal.z * height };
      const within = side.every(
        (corner, i) =>
          dotProduct(crossProduct(difference(side[(i + 1) % side.length] as Vector, corner), difference(foot, corner)), normal) >= 0,
      );
      if (within) keep(p, foot);
    }
  }
};

/** The nearest places of two stretches of line. */
const nearest = (p: Vector, q: Vector, r: Vector, s: Vector, keep: (p: Vector, q: Vector) => void): void => {
  const u = difference(q, p);
  const v = difference(s, r);
  const w = difference(p, r);
  const a = dotProduct(u, u);
  const b = dotProduct(u, v);
  const c = dotProduct(v, v);
  const d = dotProduct(u, w);
  const e = dotProduct(v, w);
  if (a < 1e-18 || c < 1e-18) {
    keep(p, r);
    return;
  }
  const det = a * c - b * b;
  let t = det < 1e-12 * a * c ? 0 : clamped((b * e - c * d) / det);
  const k = clamped((b * t + e) / c);
  t = clamped((b * k - d) / a);
  keep({ x: p.x + u.x * t, y: p.y + u.y * t, z: p.z + u.z * t }, { x: r.x + v.x * k, y: r.y + v.y * k, z: r.z + v.z * k });
};
const clamped = (t: number): number => Math.min(1, Math.max(0, t));
