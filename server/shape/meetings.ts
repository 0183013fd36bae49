/** Where lines and arcs meet: endless ones first, then the moves cut from them. */
import { apart, boxesMeet, holdsPoint, lengthOf, moveBox } from './arcs.js';
import type { Circle, Move, Point } from './path.js';

/** An endless line by a point and a unit direction. */
export interface Line {
  readonly at: Point;
  readonly along: Point;
}

/** Crossing of two endless lines; undefined when they run side by side (sine of the angle between them under 1e-9). */
export const linesMeet = (a: Line, b: Line): Point | undefined => {
  const cross = a.along.x * b.along.y - a.along.y * b.along.x;
  if (Math.abs(cross) < 1e-9) return undefined;
  const t = ((b.at.x - a.at.x) * b.along.y - (b.at.y - a.at.y) * b.along.x) / cross;
  return { x: a.at.x + t * a.along.x, y: a.at.y + t * a.along.y };
};

/** Crossings of an endless line and a circle, along the line: none, one where it touches (within 1e-9 of the radius), or two. */
export const lineMeetsCircle = (line: Line, circle: Circle): readonly Point[] => {
  const dx = circle.centre.x - line.at.x;
  const dy = circle.centre.y - line.at.y;
  const foot = dx * line.along.x + dy * line.along.y;
  const off = dx * line.along.y - dy * line.along.x;
  const squared = circle.radius * circle.radius - off * off;
  const touch = 1e-9 * Math.max(1, circle.radius * circle.radius);
  if (squared < -touch) return [];
  const half = squared <= touch ? 0 : Math.sqrt(squared);
  const at = (t: number): Point => ({ x: line.at.x + t * line.along.x, y: line.at.y + t * line.along.y });
  return half === 0 ? [at(foot)] : [at(foot - half), at(foot + half)];
};

/** Crossings of two circles: none (apart, one within the other, or the same), one where they touch, or two. */
export const circlesMeet = (a: Circle, b: Circle): readonly Point[] => {
  const dx = b.centre.x - a.centre.x;
  const dy = b.centre.y - a.centre.y;
  const distance = lengthOf(dx, dy);
  if (distance < 1e-12) return [];
  const foot = (distance * distance + a.radius * a.radius - b.radius * b.radius) / (2 * distance);
  const squared = a.radius * a.radius - foot * foot;
  const touch = 1e-9 * Math.max(1, a.radius * a.radius);
  if (squared < -touch) return [];
  const ux = dx / distance;
  const uy = dy / distance;
  const x = a.centre.x + foot * ux;
  const y = a.centre.y + foot * uy;
  if (squared <= touch) return [{ x, y }];
  const half = Math.sqrt(squared);
  return [
    { x: x - half * uy, y: y + half * ux },
    { x: x + half * uy, y: y - half * ux },
  ];
};

/** The endless line a straight move is cut from; undefined for one of no length. */
export const lineOf = (from: Point, to: Point): Line | undefined => {
  const length = apart(from, to);
  return length < 1e-12 ? undefined : { at: from, along: { x: (to.x - from.x) / length, y: (to.y - from.y) / length } };
};

/**
 * Points that two moves share, ends included, within `tolerance` mm. Where they run along one another, the ends of the shared stretch.
 */
export const movesMeet = (fromA: Point, a: Move, fromB: Point, b: Move, tolerance = 1e-7): readonly Point[] => {
  if (!boxesMeet(moveBox(fromA, a), moveBox(fromB, b), tolerance)) return [];
  const candidates = [...crossings(fromA, a, fromB, b)];
  // Moves that run along one another never cross; their ends tell. The same test catches an end that only touches.
  for (const p of [fromA, a.to]) if (liesOn(fromB, b, p, tolerance)) candidates.push(p);
  for (const p of [fromB, b.to]) if (liesOn(fromA, a, p, tolerance)) candidates.push(p);
  const shared: Point[] = [];
  for (const p of candidates) {
    if (!holdsPoint(fromA, a, p, tolerance) || !holdsPoint(fromB, b, p, tolerance)) continue;
    if (!shared.some((q) => apart(p, q) <= 2 * tolerance)) shared.push(p);
  }
  return shared;
};

const circleOf = (from: Point, move: Extract<Move, { kind: 'arc' }>): Circle => ({ centre: move.centre, radius: apart(move.centre, from) });

const crossings = (fromA: Point, a: Move, fromB: Point, b: Move): readonly Point[] => {
  if (a.kind === 'arc' && b.kind === 'arc') return circlesMeet(circleOf(fromA, a), circleOf(fromB, b));
  if (a.kind === 'line' && b.kind === 'line') {
    const one = lineOf(fromA, a.to);
    const other = lineOf(fromB, b.to);
    const p = one === undefined || other === undefined ? undefined : linesMeet(one, other);
    return p === undefined ? [] : [p];
  }
  if (a.kind === 'line' && b.kind === 'arc') {
    const line = lineOf(fromA, a.to);
    return line === undefined ? [] : lineMeetsCircle(line, circleOf(fromB, b));
  }
  return crossings(fromB, b, fromA, a);
};

const liesOn = (from: Point, move: Move, p: Point, tolerance: number): boolean => {
  if (move.kind === 'arc') {
    return Math.abs(apart(move.centre, p) - apart(move.centre, from)) <= tolerance && holdsPoint(from, move, p, tolerance);
  }
  const line = lineOf(from, move.to);
  if (line === undefined) return apart(from, p) <= tolerance;
  const off = Math.abs((p.x - from.x) * line.along.y - (p.y - from.y) * line.along.x);
  return off <= tolerance && holdsPoint(from, move, p, tolerance);
};
