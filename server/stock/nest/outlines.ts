/** From drawn outlines to whole-number rings that never lie inside the true material: chords outside of arcs, half the kerf all round. */
import { Clipper, EndType, FillRule, JoinType, type Path64, type Paths64 } from 'clipper2-ts';
import { radiusOf, reversed, signedArea, startOf } from '../../shape/index.js';
import type { Loop, Point } from '../../shape/path.js';
import type { Ring } from './nofit.js';

/** Grid units in a millimetre: rounding stays under a ten-thousandth. */
export const UNITS = 10_000;

/** A piece grown by half the kerf, in its own coordinates, grid units. */
export interface Grown {
  readonly outer: Path64; // anticlockwise
  readonly holes: Paths64; // anticlockwise, shrunk by half the kerf
}

const wrapped = (angle: number): number => {
  const rest = angle % (2 * Math.PI);
  return rest < 0 ? rest + 2 * Math.PI : rest;
};

/** Corners of a loop that has its material on its left: tangents where an arc bulges out of the material, chords where it bulges in. */
const cornersOutside = (loop: Loop, tolerance: number): readonly Point[] => {
  const points: Point[] = [];
  for (let i = 0; i < loop.length; i++) {
    const move = loop[i] as Loop[number];
    if (move.kind === 'arc') {
      const from = startOf(loop, i);
      const { centre } = move;
      const radius = radiusOf(from, move);
      const first = Math.atan2(from.y - centre.y, from.x - centre.x);
      const last = Math.atan2(move.to.y - centre.y, move.to.x - centre.x);
      const outward = move.turn === 'left';
      const turn = wrapped(outward ? last - first : first - last);
      const sweep = turn < 1e-9 ? 2 * Math.PI : turn;
      const widest = 2 * Math.acos(outward ? radius / (radius + tolerance) : Math.max(0, 1 - tolerance / radius));
      const count = Math.max(1, Math.ceil(sweep / Math.min(Math.PI / 3, Math.max(widest, 0.01))));
      const step = (outward ? sweep : -sweep) / count;
      const reach = outward ? radius / Math.cos(step / 2) : radius;
      for (let k = outward ? 0.5 : 1; k < count; k++) {
        const angle = first + k * step;
        points.push({ x: centre.x + reach * Math.cos(angle), y: centre.y + reach * Math.sin(angle) });
      }
    }
    points.push(move.to);
  }
  return points;
};

const onGrid = (points: readonly Point[]): Path64 => points.map((p) => ({ x: Math.round(p.x * UNITS), y: Math.round(p.y * UNITS) }));

const grownBy = (paths: Paths64, by: number): Paths64 =>
  by === 0 ? paths : Clipper.inflatePaths(paths, by, JoinType.Miter, EndType.Polygon, 2);

/** Inward corners so shallow that nothing is lost by cutting them off; outward ones stay, so the ring only grows. */
const withoutShallowNotches = (path: Path64, shallow: number): Path64 => {
  let ring = Clipper.trimCollinear(path);
  for (let again = true; again && ring.length > 4; ) {
    again = false;
    const kept: Path64 = [];
    for (let i = 0; i < ring.length; i++) {
      const a = (kept.length > 0 ? kept[kept.length - 1] : ring[ring.length - 1]) as Point;
      const b = ring[i] as Point;
      const c = ring[(i + 1) % ring.length] as Point;
      const cross = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
      const along = Math.hypot(c.x - a.x, c.y - a.y);
      if (cross <= 0 && -cross <= shallow * along) again = true;
      else kept.push(b);
    }
    ring = kept;
  }
  return ring;
};

/**
 * The room a piece takes from its sheet.
 *
 * @param closing gaps narrower than twice this are filled: nothing fits in them (grid units)
 * @returns undefined for an outline that encloses nothing
 */
export const grown = (outline: Loop, holes: readonly Loop[], kerf: number, tolerance: number, closing: number): Grown | undefined => {
  if (outline.length < 2) return undefined;
  const outer = onGrid(cornersOutside(signedArea(outline) < 0 ? reversed(outline) : outline, tolerance));
  const half = Math.ceil((kerf / 2) * UNITS);
  const shallow = (tolerance * UNITS) / 5;
  let body = Clipper.union([outer], FillRule.NonZero);
  if (closing > 0) body = Clipper.union([...body, ...grownBy(grownBy(body, closing), -closing)], FillRule.NonZero);
  body = Clipper.union(grownBy(body, half), FillRule.NonZero);
  const outers = body.filter((path) => Clipper.area(path) > 0).sort((a, b) => Clipper.area(b) - Clipper.area(a));
  const largest = outers[0];
  if (largest === undefined) return undefined;
  const left = body.filter((path) => Clipper.area(path) < 0).map((path) => [...path].reverse());
  const drawn = holes
    .filter((hole) => hole.length >= 2)
    .flatMap((hole) => {
      const clockwise = signedArea(hole) > 0 ? reversed(hole) : hole;
      const free = Clipper.union([[...onGrid(cornersOutside(clockwise, tolerance))].reverse()], FillRule.NonZero);
      return grownBy(free, -half).filter((path) => Clipper.area(path) > 0);
    });
  return {
    outer: withoutShallowNotches(largest, shallow),
    holes: [...left, ...drawn].map((path) => Clipper.trimCollinear(path)).filter((path) => path.length > 2),
  };
};

const cosOf = (angle: number): number => {
  const c = Math.cos(angle);
  return Math.abs(c - Math.round(c)) < 1e-12 ? Math.round(c) : c;
};
/** Cosine and sine, exact at quarter turns. */
export const turnOf = (angle: number): { readonly cos: number; readonly sin: number } => ({
  cos: cosOf(angle),
  sin: cosOf(angle - Math.PI / 2),
});

/** A path flipped, turned and rounded to the grid again; anticlockwise stays anticlockwise. */
export const turned = (path: Path64, angle: number, flipped: boolean): Path64 => {
  const { cos, sin } = turnOf(angle);
  const moved = path.map((p) => {
    const y = flipped ? 0 - p.y : p.y;
    return { x: Math.round(cos * p.x - sin * y), y: Math.round(sin * p.x + cos * y) };
  });
  return Clipper.trimCollinear(flipped ? moved.reverse() : moved);
};

export const ringOf = (path: Path64, minX: number, minY: number): Ring => ({
  xs: path.map((p) => p.x - minX),
  ys: path.map((p) => p.y - minY),
});

/** Two rings that differ by less than rounding, wherever they start. */
export const sameRing = (a: Ring, b: Ring): boolean => {
  const n = a.xs.length;
  if (b.xs.length !== n) return false;
  const near = (i: number, j: number): boolean =>
    Math.abs((a.xs[i] as number) - (b.xs[j] as number)) <= 4 && Math.abs((a.ys[i] as number) - (b.ys[j] as number)) <= 4;
  for (let shift = 0; shift < n; shift++) {
    let i = 0;
    while (i < n && near(i, (i + shift) % n)) i++;
    if (i === n) return true;
  }
  return false;
};
