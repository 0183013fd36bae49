/** The brake's sections as convex pieces in the place where they stand over this sheet and this inside radius. */
import { Clipper, EndType, FillRule, JoinType, type Path64, type Paths64 } from 'clipper2-ts';
import type { Brake } from '../model/shop.js';
import { type Convex, convexPieces } from '../shape/convex.js';
import type { Point } from '../shape/path.js';

/**
 * Sections are drawn in by this much before anything is tried against them, so that what only lies against the nose, the bed or the apron, as sheet must,
 * is no clash. Less than sheet and hands are true to. mm.
 */
export const TOUCH_TOLERANCE = 0.05;
/** Lengths that differ by less are the same, mm. */
export const LENGTH_TOLERANCE = 0.001;

export interface Tools {
  /** Above the sheet, and cut away round the bend so that the sheet wraps round its edge. Of a finger brake: as high as the fingers. */
  readonly nose: readonly Convex[];
  /** Of a finger brake: what is above the fingers, as long as the brake. */
  readonly beam: readonly Convex[];
  readonly bed: readonly Convex[];
  /** Before it is swung. */
  readonly apron: readonly Convex[];
  /** No nose is described: the little that every nose fills, right behind the line, stands for it. */
  readonly leastNose: boolean;
}

const SCALE = 1e5;
const FAR = 1e5;

const pathOf = (polygon: readonly Point[]): Path64 => polygon.map((p) => ({ x: Math.round(p.x * SCALE), y: Math.round(p.y * SCALE) }));
const pointsOf = (path: Path64): readonly Point[] => path.map((p) => ({ x: p.x / SCALE, y: p.y / SCALE }));
const rectangle = (x0: number, y0: number, x1: number, y1: number): Path64 =>
  pathOf([
    { x: x0, y: y0 },
    { x: x1, y: y0 },
    { x: x1, y: y1 },
    { x: x0, y: y1 },
  ]);
const piecesOf = (paths: Paths64): readonly Convex[] => paths.flatMap((path) => convexPieces(pointsOf(path)));
/** Drawn in; a section that crosses itself is taken by what it encloses. */
const drawnIn = (paths: Paths64): Paths64 =>
  Clipper.inflatePaths(Clipper.union(paths, FillRule.NonZero), -TOUCH_TOLERANCE * SCALE, JoinType.Miter, EndType.Polygon);
const oneWayRound = (polygon: readonly Point[]): Paths64 => {
  const path = pathOf(polygon);
  return [Clipper.isPositive(path) ? path : [...path].reverse()];
};

/** What every nose fills: this far behind the bend, and so high above the sheet, mm. It has to press there, and may slope back right above it. */
const LEAST_NOSE = { deep: 10, high: 0.5 };

/** The nose over the sheet, as it stands: for pictures, and to be drawn in for tests. */
export const raisedNose = (brake: Brake, thickness: number): readonly Point[] | undefined =>
  brake.nose?.map((p) => ({ x: p.x, y: p.y + thickness }));

/**
 * @param thickness of the sheet in the clamp: the nose stands that much higher
 * @param inside radius of the bend. The nose's edge is taken to be rounded to it, and set back so that its front stands at the line.
 */
export const toolsOf = (brake: Brake, thickness: number, inside: number): Tools => {
  const least: readonly Point[] = [
    { x: -inside - LEAST_NOSE.deep, y: 0 },
    { x: -inside, y: 0 },
    { x: -inside, y: LEAST_NOSE.high },
    { x: -inside - LEAST_NOSE.deep, y: LEAST_NOSE.high },
  ];
  const raised = raisedNose(brake, thickness) ?? least.map((p) => ({ x: p.x, y: p.y + thickness }));
  const wrapped = rectangle(-inside, -FAR, FAR, thickness + inside);
  const nose = Clipper.difference(drawnIn(oneWayRound(raised)), [wrapped], FillRule.NonZero);
  const fingered = brake.type === 'fingers' && brake.depth !== undefined;
  const above = rectangle(-FAR, thickness + (brake.depth ?? 0), FAR, FAR);
  return {
    nose: piecesOf(fingered ? Clipper.difference(nose, [above], FillRule.NonZero) : nose),
    beam: fingered ? piecesOf(Clipper.intersect(nose, [above], FillRule.NonZero)) : [],
    bed: brake.bed === undefined ? [] : piecesOf(drawnIn(oneWayRound(brake.bed))),
    apron: brake.apron === undefined ? [] : piecesOf(drawnIn(oneWayRound(brake.apron))),
    leastNose: brake.nose === undefined,
  };
};
