/** Polygons with holes into triangles that use every corner, so that neighbours fit without gaps. */
import earcut from 'earcut';
import type { Point } from '../shape/path.js';

/** How far a corner on a straight run is drawn in while the triangles are chosen: the triangulation drops corners that lie exactly on a line. */
const DRAWN_IN = 1e-5;

/**
 * @param rings outer anticlockwise, then holes clockwise
 * @returns corner numbers over all rings in order, three a triangle, anticlockwise
 */
export const triangles = (rings: readonly (readonly Point[])[]): readonly number[] => {
  const [outer = []] = rings;
  if (rings.length === 1 && outer.length === 3) return [0, 1, 2];
  if (rings.length === 1 && outer.length === 4 && isConvex(outer)) return [0, 1, 2, 0, 2, 3];
  const flat: number[] = [];
  const starts: number[] = [];
  for (const ring of rings) {
    if (flat.length > 0) starts.push(flat.length / 2);
    for (let i = 0; i < ring.length; i++) {
      const p = drawnIn(ring, i);
      flat.push(p.x, p.y);
    }
  }
  const found = earcut(flat, starts, 2);
  // The library turns them the other way about.
  const turned: number[] = [];
  for (let i = 0; i + 2 < found.length; i += 3) {
    const [a, b, c] = [found[i] as number, found[i + 1] as number, found[i + 2] as number];
    const area = cross2(at(flat, a), at(flat, b), at(flat, c));
    if (area >= 0) turned.push(a, b, c);
    else turned.push(a, c, b);
  }
  return turned;
};

const at = (flat: readonly number[], i: number): Point => ({ x: flat[2 * i] as number, y: flat[2 * i + 1] as number });
const cross2 = (a: Point, b: Point, c: Point): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

/** Whether a ring turns left at every corner. */
export const isConvex = (ring: readonly Point[]): boolean =>
  ring.every((p, i) => {
    const before = ring[(i + ring.length - 1) % ring.length] as Point;
    const after = ring[(i + 1) % ring.length] as Point;
    return cross2(before, p, after) > 1e-9;
  });

const drawnIn = (ring: readonly Point[], i: number): Point => {
  const p = ring[i] as Point;
  const before = ring[(i + ring.length - 1) % ring.length] as Point;
  const after = ring[(i + 1) % ring.length] as Point;
  const dx = after.x - before.x;
  const dy = after.y - before.y;
  const length = Math.hypot(dx, dy);
  if (length < 1e-12 || Math.abs(cross2(before, p, after)) > 1e-9 * length) return p;
  return { x: p.x - (dy / length) * DRAWN_IN, y: p.y + (dx / length) * DRAWN_IN };
};
