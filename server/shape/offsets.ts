/** Moves shifted square to themselves. */
import { apart, startOf } from './arcs.js';
import type { Line } from './meetings.js';
import type { Circle, Loop, Move, Point } from './path.js';

/** A straight line shifted to its left (inward on an anticlockwise loop). */
export const lineShifted = (line: Line, left: number): Line => ({
  at: { x: line.at.x - left * line.along.y, y: line.at.y + left * line.along.x },
  along: line.along,
});

/**
 * An arc's circle shifted to the left of its travel: smaller for one that turns left, larger for one that turns right.
 *
 * @returns undefined when nothing of the circle is left
 */
const arcShifted = (from: Point, arc: Extract<Move, { kind: 'arc' }>, left: number): Circle | undefined => {
  const radius = apart(arc.centre, from) + (arc.turn === 'left' ? -left : left);
  return radius > 1e-9 ? { centre: arc.centre, radius } : undefined;
};

/**
 * Every move of a loop shifted to its left, each with its own two ends; corners are not closed. Moves of which nothing is left are left out.
 */
export const movesShifted = (loop: Loop, left: number): readonly { readonly from: Point; readonly move: Move }[] => {
  const out: { from: Point; move: Move }[] = [];
  for (let i = 0; i < loop.length; i++) {
    const from = startOf(loop, i);
    const move = loop[i] as Move;
    if (move.kind === 'line') {
      const length = apart(from, move.to);
      if (length < 1e-12) continue;
      const dx = (-left * (move.to.y - from.y)) / length;
      const dy = (left * (move.to.x - from.x)) / length;
      out.push({ from: { x: from.x + dx, y: from.y + dy }, move: { ...move, to: { x: move.to.x + dx, y: move.to.y + dy } } });
    } else {
      const circle = arcShifted(from, move, left);
      if (circle === undefined) continue;
      const scale = circle.radius / apart(move.centre, from);
      const scaled = (p: Point): Point => ({
        x: move.centre.x + (p.x - move.centre.x) * scale,
        y: move.centre.y + (p.y - move.centre.y) * scale,
      });
      out.push({ from: scaled(from), move: { ...move, to: scaled(move.to) } });
    }
  }
  return out;
};
