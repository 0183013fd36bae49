/**
 * How the ends of a length of stock lie, seen from the side. The view: x along the piece from its start, y up across it, d toward the eye, both from the
 * middle of the stock. A mitre or cope that is not turned has its long point at the bottom, where holes are counted from.
 */
import type { PieceEnd } from '../model/part.js';
import type { Point } from '../shape/path.js';
import { copeAt, copeReach, type StockShape } from '../trade/tube.js';

/** A place on the outside of the section. */
interface Rim {
  readonly y: number;
  readonly d: number;
}
/** The section as the side view has it: how high and how deep, and its rim toward the eye and away from it, at the same heights from bottom to top. */
export interface SideView {
  readonly height: number;
  readonly depth: number;
  readonly near: readonly Rim[];
  readonly far: readonly Rim[];
  /** Heights, from the middle, of inner edges that can't be seen. */
  readonly hidden: readonly number[];
  readonly round: boolean;
}

/** Points on half of a round rim: chords leave the circle by less than a thousandth of the radius. */
const steps = 72;

export const sideViewOf = (shape: StockShape): SideView => {
  switch (shape.kind) {
    case 'round tube':
      return roundView(shape.diameter, shape.wall);
    case 'round':
      return roundView(shape.diameter, undefined);
    case 'square tube':
      return boxView(shape.width, shape.height, shape.wall);
    case 'square':
      return boxView(shape.side, shape.side, undefined);
    case 'flat':
      return boxView(shape.width, shape.thickness, undefined);
    case 'angle': {
      const [up, back, t] = [shape.first / 2, shape.second / 2, shape.thickness];
      const heights = [-up, t - up, t - up, up];
      return {
        height: shape.first,
        depth: shape.second,
        near: heights.map((y) => ({ y, d: back })),
        far: heights.map((y, i) => ({ y, d: i < 2 ? -back : back - t })),
        hidden: [t - up],
        round: false,
      };
    }
  }
};
const boxView = (height: number, depth: number, wall: number | undefined): SideView => {
  const heights = [-height / 2, height / 2];
  return {
    height,
    depth,
    near: heights.map((y) => ({ y, d: depth / 2 })),
    far: heights.map((y) => ({ y, d: -depth / 2 })),
    hidden: wall === undefined ? [] : [wall - height / 2, height / 2 - wall],
    round: false,
  };
};
const roundView = (diameter: number, wall: number | undefined): SideView => {
  const radius = diameter / 2;
  const rim = (side: number): readonly Rim[] =>
    Array.from({ length: steps + 1 }, (_, i) => {
      const angle = (i * Math.PI) / steps;
      return { y: -radius * Math.cos(angle), d: side * radius * Math.sin(angle) };
    });
  return {
    height: diameter,
    depth: diameter,
    near: rim(1),
    far: rim(-1),
    hidden: wall === undefined ? [] : [wall - radius, radius - wall],
    round: true,
  };
};

/** How far behind the long point the metal ends, at a place of the rim. */
export type Inset = (at: Rim) => number;

const outsideRadius = (shape: StockShape | undefined): number | undefined =>
  shape?.kind === 'round tube' || shape?.kind === 'round' ? shape.diameter / 2 : undefined;

/** @returns undefined for a cope whose two tubes are not known, or don't fit */
export const insetOf = (end: PieceEnd, shape: StockShape): Inset | undefined => {
  if (end.kind === 'square') return () => 0;
  const [cos, sin] = [Math.cos(end.turned), Math.sin(end.turned)];
  const view = sideViewOf(shape);
  if (end.kind === 'mitre') {
    const along = ({ y, d }: Rim): number => y * cos + d * sin;
    const least = view.round ? -view.height / 2 : Math.min(...[...view.near, ...view.far].map(along));
    return (at) => Math.tan(end.angle) * (along(at) - least);
  }
  const branch = outsideRadius(shape);
  const main = outsideRadius(end.onto?.shape);
  if (branch === undefined || main === undefined || branch > main + 1e-9) return undefined;
  const heightAt = (round: number): number => copeAt(main, branch, end.angle, round) ?? 0;
  const { least } = copeReach(main, branch, end.angle);
  return ({ y, d }) => heightAt(Math.atan2(d, y) - end.turned) - least;
};

/** One end as drawn: points from bottom to top, `x` behind the long point. */
export interface EndLines {
  /** The outermost of the metal at every height. */
  readonly rim: readonly Point[];
  /** The edge toward the eye, where it lies behind the outermost. */
  readonly seen: readonly Point[] | undefined;
  /** The edge away from the eye, where it is hidden. */
  readonly behind: readonly Point[] | undefined;
  /** How far the short point lies behind the long one. */
  readonly run: number;
}
/** y is counted from the bottom of the view here. */
export const endLines = (view: SideView, inset: Inset): EndLines => {
  const at = (rim: readonly Rim[]): readonly Point[] => rim.map((place) => ({ x: inset(place), y: place.y + view.height / 2 }));
  const near = at(view.near);
  const far = at(view.far);
  const rim = near.map((point, i) => ({ x: Math.min(point.x, (far[i] as Point).x), y: point.y }));
  const differs = (line: readonly Point[]): boolean => line.some((point, i) => Math.abs(point.x - (rim[i] as Point).x) > 1e-6);
  return {
    rim: thinned(rim),
    seen: differs(near) ? near : undefined,
    behind: differs(far) ? far : undefined,
    run: Math.max(...near.map(({ x }) => x), ...far.map(({ x }) => x)),
  };
};

/** Points that lie on the line between their neighbours say nothing. */
const thinned = (points: readonly Point[]): readonly Point[] => {
  const kept: Point[] = [];
  for (const point of points) {
    const [a, b] = [kept[kept.length - 2], kept[kept.length - 1]];
    if (a !== undefined && b !== undefined && Math.abs((b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x)) < 1e-9) kept.pop();
    kept.push(point);
  }
  return kept;
};
