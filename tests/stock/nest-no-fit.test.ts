/** Where one shape may not lie for another: against the polygon library, point by point. */
import { Clipper, FillRule, type Paths64 } from 'clipper2-ts';
import { describe, expect, it } from 'vitest';
import { stretchesAt } from '../../server/stock/nest/lines.js';
import { depthAt, exchanged, noFit, type Ring, type Shape } from '../../server/stock/nest/nofit.js';
import { type Random, seededRandom } from '../../server/stock/nest/random.js';

type Corners = readonly (readonly [number, number])[];
const ring = (corners: Corners, minX: number, minY: number): Ring => ({
  xs: corners.map(([x]) => x - minX),
  ys: corners.map(([, y]) => y - minY),
});
/** From corners in thousands. */
const shape = (corners: Corners, ...holes: Corners[]): Shape => {
  const scaled = (list: Corners): Corners => list.map(([x, y]) => [1000 * x, 1000 * y]);
  const outer = scaled(corners);
  const minX = Math.min(...outer.map(([x]) => x));
  const minY = Math.min(...outer.map(([, y]) => y));
  const made = ring(outer, minX, minY);
  return {
    outer: made,
    holes: holes.map((hole) => ring(scaled(hole), minX, minY)),
    width: Math.max(...made.xs),
    height: Math.max(...made.ys),
  };
};
const pathsOf = ({ outer, holes }: Shape): Paths64 =>
  [outer, ...holes].map((one, i) => {
    const path = one.xs.map((x, k) => ({ x, y: one.ys[k] as number }));
    return i === 0 ? path : path.reverse();
  });

const round = (count: number, radius: number): Corners =>
  Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return [Math.round(1000 * radius * Math.cos(angle)) / 1000, Math.round(1000 * radius * Math.sin(angle)) / 1000] as const;
  });
const anyStar = (random: Random): Corners =>
  Array.from({ length: 5 + random.below(8) }, (_, i, list = { length: 12 }) => {
    const angle = (2 * Math.PI * (i + 0.8 * random.next())) / list.length;
    const reach = 3 + 12 * random.next();
    return [Math.round(1000 * reach * Math.cos(angle)) / 1000, Math.round(1000 * reach * Math.sin(angle)) / 1000] as const;
  });

const channel: Corners = [
  [0, 0],
  [14, 0],
  [14, 5],
  [12, 5],
  [12, 2],
  [2, 2],
  [2, 5],
  [0, 5],
];
const shapes: readonly Shape[] = [
  shape(channel),
  shape([
    [0, 0],
    [6, -6],
    [12, 0],
    [6, 6],
  ]),
  shape([
    [0, 0],
    [6, 0],
    [6, -2],
    [7, -2],
    [11, 2],
    [11, 4],
    [8, 4],
    [8, 1],
    [2, 1],
    [2, 4],
    [0, 4],
  ]),
  shape(
    [
      [0, 0],
      [20, 0],
      [20, 20],
      [0, 20],
    ],
    [
      [1, 1],
      [19, 3],
      [19, 18],
      [10, 12],
      [2, 19],
    ],
  ),
  shape([
    [0, 0],
    [3, 1],
    [2, 3],
  ]),
  shape(round(40, 9), round(24, 7)),
  shape([
    [3, 0],
    [9, 0],
    [9, 3],
    [12, 3],
    [12, 9],
    [9, 9],
    [9, 12],
    [3, 12],
    [3, 9],
    [0, 9],
    [0, 3],
    [3, 3],
  ]),
  shape([
    [0, 0],
    [9, 0],
    [9, 4],
    ...round(24, 3)
      .slice(0, 13)
      .map(([x, y]) => [4.5 + x, 4 - y] as const),
    [0, 4],
  ]),
];
const random = seededRandom(11);
const stars = Array.from({ length: 5 }, () => shape(anyStar(random)));

const agree = (a: Shape, b: Shape, points: number): string[] => {
  const said: string[] = [];
  for (const region of [noFit(a, b), exchanged(noFit(b, a))]) {
    for (let k = 0; k < points; k++) {
      const x = Math.round(region.minX - 300 + random.next() * (region.maxX - region.minX + 600));
      const y = Math.round(region.minY - 300 + random.next() * (region.maxY - region.minY + 600));
      const shared = Clipper.areaPaths(Clipper.intersect(pathsOf(a), Clipper.translatePaths(pathsOf(b), x, y), FillRule.NonZero));
      const depth = depthAt(region, x, y);
      // A sliver that rounding makes is no overlap; an overlap deeper than two units is more than a sliver.
      if (shared > 20_000 && depth === 0) said.push(`${x}, ${y}: overlap of ${shared} not seen`);
      if (depth > 2 && shared === 0) said.push(`${x}, ${y}: no overlap, but ${depth} deep`);
      const stretches: number[] = [];
      const count = stretchesAt(region.columns, x, stretches);
      const within = stretches.slice(0, count).some((start, i) => i % 2 === 0 && start < y && y < (stretches[i + 1] as number));
      if (depth > 2 && !within) said.push(`${x}, ${y}: not inside on the line up`);
      if (depth === 0 && within && shared === 0) said.push(`${x}, ${y}: inside on the line up only`);
    }
  }
  return said;
};

describe('the places where two shapes overlap', () => {
  it('are what the polygon library finds, for shapes with bays, holes and rounds', () => {
    for (const [i, a] of shapes.entries())
      for (const [j, b] of shapes.entries()) expect(agree(a, b, 60), `shapes ${i} and ${j}`).toEqual([]);
  });

  it('are what the polygon library finds, for any outline', () => {
    for (const a of [...stars, shapes[0] as Shape]) for (const b of stars) expect(agree(a, b, 60)).toEqual([]);
  });

  it('leave out a hole as far as the piece fits into it', () => {
    // A square of 3 in a hole of 10: its corner may be anywhere in a square of 7, beginning at the hole's corner.
    const frame = shape(
      [
        [0, 0],
        [14, 0],
        [14, 14],
        [0, 14],
      ],
      [
        [2, 2],
        [12, 2],
        [12, 12],
        [2, 12],
      ],
    );
    const small = shape([
      [0, 0],
      [3, 0],
      [3, 3],
      [0, 3],
    ]);
    const region = noFit(frame, small);
    const stretches: number[] = [];
    expect(stretchesAt(region.rows, 5000, stretches)).toBe(4);
    expect(stretches.slice(0, 4)).toEqual([-3000, 2000, 9000, 14000]);
    expect(region.inHoles).toContainEqual({ x: 2000, y: 2000 });
  });

  it('touching is no overlap', () => {
    const square = shape([
      [0, 0],
      [5, 0],
      [5, 5],
      [0, 5],
    ]);
    const region = noFit(square, square);
    expect(depthAt(region, 5000, 1000)).toBe(0);
    expect(depthAt(region, 4000, 1000)).toBe(1000);
    expect(stretchesAt(region.rows, 5000, [])).toBe(0);
  });
});
