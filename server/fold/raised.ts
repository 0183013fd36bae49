/**
 * Roller work as it shows on the folded part: what the dies raise, cut off where its face ends and where holes are. For pictures: sizes, solids and files are
 * of the sheet without it.
 */
import type { BeadResult } from '../bead/types.js';
import type { Box, Point } from '../shape/path.js';
import { landRibbon, type Ribbon, type RibbonCorner, trackRibbon } from './ribbon.js';
import type { MovingPiece, MovingRaised } from './types.js';

/** What beads, bands and cross-breaks put on each face, by feature of the flat picture. */
export const raisedOn = (pieces: readonly MovingPiece[], work: BeadResult): readonly MovingRaised[] => {
  const faces = pieces.filter(({ strips }) => strips === 0).map(groundOf);
  const made = [
    ...work.beads.map((bead) => ({
      feature: `bead:${bead.id}`,
      ribbons: [
        ...bead.tracks.map((track) => trackRibbon(bead, track)),
        ...(bead.kind === 'band' ? bead.middle.flatMap((path) => landRibbon(bead, path) ?? []) : []),
      ],
    })),
    ...work.crossBreaks.map(({ lines }, i) => ({ feature: `cross_break:${i + 1}`, ribbons: [{ triangles: [], feet: lines }] })),
  ];
  return made.flatMap(({ feature, ribbons }) => faces.flatMap((face) => raisedOnFace(feature, face, ribbons)));
};

/** A face as triangles, and the sides all round it. */
interface Ground {
  readonly feature: string;
  readonly triangles: readonly (readonly Point[])[];
  readonly boxes: readonly Box[];
  readonly sides: readonly Box[];
}

const groundOf = (piece: MovingPiece): Ground => {
  const point = (i: number): Point => ({ x: piece.points[2 * i] ?? 0, y: piece.points[2 * i + 1] ?? 0 });
  const triangles: Point[][] = [];
  for (let i = 0; i + 2 < piece.triangles.length; i += 3) triangles.push([0, 1, 2].map((k) => point(piece.triangles[i + k] ?? 0)));
  const sides: Box[] = [];
  for (const { pairs } of piece.edges)
    for (let i = 0; i + 1 < pairs.length; i += 2) sides.push(boxOf([point(pairs[i] ?? 0), point(pairs[i + 1] ?? 0)]));
  return { feature: piece.feature, triangles, boxes: triangles.map(boxOf), sides };
};

const boxOf = (points: readonly Point[]): Box => ({
  min: { x: Math.min(...points.map(({ x }) => x)), y: Math.min(...points.map(({ y }) => y)) },
  max: { x: Math.max(...points.map(({ x }) => x)), y: Math.max(...points.map(({ y }) => y)) },
});
const meet = (a: Box, b: Box): boolean => a.min.x <= b.max.x && b.min.x <= a.max.x && a.min.y <= b.max.y && b.min.y <= a.max.y;

const raisedOnFace = (feature: string, face: Ground, ribbons: readonly Ribbon[]): readonly MovingRaised[] => {
  const pen = newPen();
  for (const { triangles, feet } of ribbons) {
    for (const triangle of triangles) for (const bit of within(face, triangle, between)) fan(pen, bit);
    for (const line of feet) for (const bit of within(face, line, betweenPlain)) pushLine(pen, bit);
  }
  const { points, heights, slopes, corners, lines } = pen;
  return corners.length + lines.length === 0 ? [] : [{ feature, on: face.feature, points, heights, slopes, triangles: corners, lines }];
};

/** What of a line or triangle lies on a face. Far from the face's sides it is there whole or not at all. */
const within = <P extends Point>(face: Ground, shape: readonly P[], mix: (a: P, b: P, share: number) => P): readonly (readonly P[])[] => {
  const box = boxOf(shape);
  const under = face.triangles.filter((_, i) => meet(face.boxes[i] ?? box, box));
  if (under.length === 0) return [];
  const bits = under.flatMap((triangle) => {
    const bit = clippedTo(shape, triangle, mix);
    return bit.length < shape.length && bit.length < 2 ? [] : [bit];
  });
  return bits.length > 0 && !face.sides.some((side) => meet(side, box)) ? [shape] : bits;
};

/** The part of a line or a convex ring inside a triangle that runs anticlockwise. */
const clippedTo = <P extends Point>(
  shape: readonly P[],
  triangle: readonly Point[],
  mix: (a: P, b: P, share: number) => P,
): readonly P[] => {
  let ring = shape;
  triangle.forEach((from, i) => {
    const to = triangle[(i + 1) % triangle.length] ?? from;
    const inside = (p: Point): number => (to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x);
    const kept: P[] = [];
    ring.forEach((a, k) => {
      const offA = inside(a);
      if (offA >= -1e-9) kept.push(a);
      // A line has one side only, a ring one from its last corner to its first.
      const b = k + 1 < ring.length ? ring[k + 1] : ring.length > 2 ? ring[0] : undefined;
      if (b === undefined) return;
      const offB = inside(b);
      if ((offA < -1e-9 && offB > 1e-9) || (offA > 1e-9 && offB < -1e-9)) kept.push(mix(a, b, offA / (offA - offB)));
    });
    ring = kept;
  });
  return ring;
};

const blended = (a: number, b: number, share: number): number => a + (b - a) * share;
const betweenPlain = (a: Point, b: Point, share: number): Point => ({ x: blended(a.x, b.x, share), y: blended(a.y, b.y, share) });
const between = (a: RibbonCorner, b: RibbonCorner, share: number): RibbonCorner => ({
  ...betweenPlain(a, b, share),
  height: blended(a.height, b.height, share),
  dx: blended(a.dx, b.dx, share),
  dy: blended(a.dy, b.dy, share),
});

interface Pen {
  readonly numbers: Map<string, number>;
  readonly points: number[];
  readonly heights: number[];
  readonly slopes: number[];
  readonly corners: number[];
  readonly lines: number[];
}
const newPen = (): Pen => ({ numbers: new Map(), points: [], heights: [], slopes: [], corners: [], lines: [] });

/** A thousandth is enough for the eye, and half as many letters to send. */
const rounded = (value: number): number => Math.round(value * 1e3) / 1e3;

const numberOf = (pen: Pen, { x, y, height, dx, dy }: RibbonCorner): number => {
  const own = [x, y, height, dx, dy].map(rounded) as [number, number, number, number, number];
  const name = own.join(' ');
  const known = pen.numbers.get(name);
  if (known !== undefined) return known;
  pen.points.push(own[0], own[1]);
  pen.heights.push(own[2]);
  pen.slopes.push(own[3], own[4]);
  pen.numbers.set(name, pen.heights.length - 1);
  return pen.heights.length - 1;
};

/** A convex ring as triangles, anticlockwise from the face side whichever way it was walked. */
const fan = (pen: Pen, ring: readonly RibbonCorner[]): void => {
  const [first] = ring;
  if (first === undefined) return;
  for (let i = 1; i + 1 < ring.length; i++) {
    const [b, c] = [ring[i], ring[i + 1]];
    if (b === undefined || c === undefined) continue;
    const area = (b.x - first.x) * (c.y - first.y) - (b.y - first.y) * (c.x - first.x);
    if (Math.abs(area) < 1e-6) continue;
    const [p, q, r] = [first, b, c].map((corner) => numberOf(pen, corner)) as [number, number, number];
    if (area > 0) pen.corners.push(p, q, r);
    else pen.corners.push(p, r, q);
  }
};

const pushLine = (pen: Pen, line: readonly Point[]): void => {
  const [a, b] = [line[0], line.at(-1)];
  if (a === undefined || b === undefined || Math.hypot(b.x - a.x, b.y - a.y) < 1e-3) return;
  pen.lines.push(rounded(a.x), rounded(a.y), rounded(b.x), rounded(b.y));
};
