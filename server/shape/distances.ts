/** Least distances, arcs exact: nothing is broken into chords. Whether one loop lies within another is `pointInLoop`'s business. */
import { angleAbout, apart, holdsDirection, lengthOf, moveBox, radiusOf, startOf } from './arcs.js';
import { movesMeet } from './meetings.js';
import type { Box, Loop, Move, Point } from './path.js';

/** From a point to the nearest place on a move. */
const pointToMove = (p: Point, from: Point, move: Move): number => {
  if (move.kind === 'arc') {
    const round = holdsDirection(from, move, angleAbout(move.centre, p));
    return round ? Math.abs(apart(p, move.centre) - radiusOf(from, move)) : Math.min(apart(p, from), apart(p, move.to));
  }
  const dx = move.to.x - from.x;
  const dy = move.to.y - from.y;
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - from.x) * dx + (p.y - from.y) * dy) / squared));
  return lengthOf(p.x - from.x - along * dx, p.y - from.y - along * dy);
};

/** From a point to a loop's line (0 only on it, also for points within). */
export const pointToLoop = (p: Point, loop: Loop): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < loop.length; i++) least = Math.min(least, pointToMove(p, startOf(loop, i), loop[i] as Move));
  return least;
};

export const moveToMove = (fromA: Point, a: Move, fromB: Point, b: Move): number => {
  if (movesMeet(fromA, a, fromB, b).length > 0) return 0;
  let least = Math.min(
    pointToMove(fromA, fromB, b),
    pointToMove(a.to, fromB, b),
    pointToMove(fromB, fromA, a),
    pointToMove(b.to, fromA, a),
  );
  for (const p of nearestRoundPoints(fromA, a, b, fromB)) least = Math.min(least, pointToMove(p, fromB, b));
  for (const p of nearestRoundPoints(fromB, b, a, fromA)) least = Math.min(least, pointToMove(p, fromA, a));
  return least;
};

/** Places in the middle of an arc that can be nearest to another move: square to a line, or on the line through both centres. */
const nearestRoundPoints = (from: Point, arc: Move, other: Move, otherFrom: Point): readonly Point[] => {
  if (arc.kind !== 'arc') return [];
  const radius = radiusOf(from, arc);
  const dx = other.kind === 'line' ? other.to.y - otherFrom.y : other.centre.x - arc.centre.x;
  const dy = other.kind === 'line' ? otherFrom.x - other.to.x : other.centre.y - arc.centre.y;
  const length = lengthOf(dx, dy);
  if (length < 1e-12) return [];
  return [1, -1]
    .filter((sign) => holdsDirection(from, arc, Math.atan2(sign * dy, sign * dx)))
    .map((sign) => ({ x: arc.centre.x + (sign * radius * dx) / length, y: arc.centre.y + (sign * radius * dy) / length }));
};

const boxGap = (a: Box, b: Box): number =>
  lengthOf(Math.max(0, a.min.x - b.max.x, b.min.x - a.max.x), Math.max(0, a.min.y - b.max.y, b.min.y - a.max.y));

/** Least distance between the lines of two loops, 0 where they touch or cross. */
export const loopToLoop = (one: Loop, other: Loop): number => {
  let least = Number.POSITIVE_INFINITY;
  const boxes = other.map((move, j) => moveBox(startOf(other, j), move));
  for (let i = 0; i < one.length; i++) {
    const from = startOf(one, i);
    const move = one[i] as Move;
    const box = moveBox(from, move);
    for (let j = 0; j < other.length; j++) {
      if (boxGap(box, boxes[j] as Box) >= least) continue;
      least = Math.min(least, moveToMove(from, move, startOf(other, j), other[j] as Move));
      if (least === 0) return 0;
    }
  }
  return least;
};
