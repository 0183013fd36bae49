/** Whether a point lies within a loop, and whether a loop crosses itself. */
import Flatbush from 'flatbush';
import { orient2d } from 'robust-predicates';
import { apart, boxesMeet, moveBox, radiusOf, startOf } from './arcs.js';
import { movesMeet } from './meetings.js';
import type { Box, Loop, Move, Point } from './path.js';

/**
 * Whether a point lies within a loop (even–odd, whichever way the loop runs). On the line itself either answer may come: ask `pointToLoop` first.
 * The chords decide by exact predicates; each arc then turns the answer over where the point lies between it and its chord.
 */
export const pointInLoop = (p: Point, loop: Loop): boolean => {
  let inside = false;
  for (let i = 0; i < loop.length; i++) {
    const from = startOf(loop, i);
    const move = loop[i] as Move;
    const to = move.to;
    if (from.y > p.y !== to.y > p.y && onRight(from, to, p) !== to.y > from.y) inside = !inside;
    if (move.kind === 'arc' && apart(p, move.centre) < radiusOf(from, move)) {
      const whole = apart(from, to) < 1e-12;
      if (whole || onRight(from, to, p) === (move.turn === 'left')) inside = !inside;
    }
  }
  return inside;
};

/** A point on the chord itself counts as lying on its +x side (above it when it is level), the same for the chord's test and the arc's. */
const onRight = (from: Point, to: Point, p: Point): boolean => {
  // With y up, the predicate is positive for a point on the right.
  const turn = orient2d(from.x, from.y, to.x, to.y, p.x, p.y);
  if (turn !== 0) return turn > 0;
  return to.y > from.y || (to.y === from.y && to.x < from.x);
};

export interface SelfMeeting {
  readonly first: number;
  readonly second: number;
  readonly at: Point;
}

/** Above this many moves a spatial index pays for itself. */
const INDEX_FROM = 48;

/** Where a loop first meets itself other than at the ends of neighbouring moves; undefined for a simple loop. */
export const selfMeeting = (loop: Loop, tolerance = 1e-6): SelfMeeting | undefined => {
  const boxes = loop.map((move, i) => moveBox(startOf(loop, i), move));
  if (loop.length < INDEX_FROM) {
    for (let i = 0; i < loop.length; i++) {
      for (let j = i + 1; j < loop.length; j++) {
        const found = boxesMeet(boxes[i] as Box, boxes[j] as Box, tolerance) ? meetingOf(loop, i, j, tolerance) : undefined;
        if (found !== undefined) return found;
      }
    }
    return undefined;
  }
  const index = new Flatbush(loop.length);
  for (const box of boxes) index.add(box.min.x - tolerance, box.min.y - tolerance, box.max.x + tolerance, box.max.y + tolerance);
  index.finish();
  for (let i = 0; i < loop.length; i++) {
    const box = boxes[i] as Box;
    for (const j of index.search(box.min.x, box.min.y, box.max.x, box.max.y)) {
      const found = j > i ? meetingOf(loop, i, j, tolerance) : undefined;
      if (found !== undefined) return found;
    }
  }
  return undefined;
};

const meetingOf = (loop: Loop, i: number, j: number, tolerance: number): SelfMeeting | undefined => {
  const count = loop.length;
  const a = loop[i] as Move;
  const b = loop[j] as Move;
  const ends: Point[] = [];
  if (j === i + 1) ends.push(a.to);
  if ((j + 1) % count === i) ends.push(b.to);
  for (const at of movesMeet(startOf(loop, i), a, startOf(loop, j), b, tolerance / 10)) {
    if (!ends.some((end) => apart(end, at) <= tolerance)) return { first: i, second: j, at };
  }
  return undefined;
};
