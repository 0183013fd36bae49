/** The two places where lines come nearest to one another. */
import { apart, boxesMeet, holdsPoint, moveBox } from '../shape/arcs.js';
import { movesMeet } from '../shape/meetings.js';
import type { Box, Loop, Move, Point } from '../shape/path.js';
import type { Path } from './types.js';

export interface Gap {
  readonly distance: number;
  readonly at: readonly [Point, Point];
}
/** A move with its start and its box, worked out once. */
export interface Span {
  readonly from: Point;
  readonly move: Move;
  readonly box: Box;
}

export const spansOf = (start: Point, moves: readonly Move[]): readonly Span[] => {
  let from = start;
  return moves.map((move): Span => {
    const span = { from, move, box: moveBox(from, move) };
    from = move.to;
    return span;
  });
};
export const spansOfPath = (path: Path): readonly Span[] => spansOf(path.start, path.moves);
export const spansOfLoop = (loop: Loop): readonly Span[] => spansOf((loop.at(-1) as Move).to, loop);

/** The nearest two places of two lines, if they come nearer than `within`. */
export const nearest = (one: readonly Span[], other: readonly Span[], within = Number.POSITIVE_INFINITY): Gap | undefined => {
  let best: Gap | undefined;
  let least = within;
  for (const a of one) {
    for (const b of other) {
      if (boxGap(a.box, b.box) >= least) continue;
      const gap = gapOf(a, b);
      if (gap.distance >= least) continue;
      best = gap;
      least = gap.distance;
      if (least === 0) return best;
    }
  }
  return best;
};

const boxGap = (a: Box, b: Box): number => {
  const dx = Math.max(0, a.min.x - b.max.x, b.min.x - a.max.x);
  const dy = Math.max(0, a.min.y - b.max.y, b.min.y - a.max.y);
  return Math.sqrt(dx * dx + dy * dy);
};

const gapOf = (a: Span, b: Span): Gap => {
  if (boxesMeet(a.box, b.box, 1e-7)) {
    const meeting = movesMeet(a.from, a.move, b.from, b.move)[0];
    if (meeting !== undefined) return { distance: 0, at: [meeting, meeting] };
  }
  let best: Gap = { distance: Number.POSITIVE_INFINITY, at: [a.from, b.from] };
  const offer = (p: Point, q: Point): void => {
    const distance = apart(p, q);
    if (distance < best.distance) best = { distance, at: [p, q] };
  };
  for (const p of [a.from, a.move.to, ...middles(a, b)]) offer(p, footOn(b, p));
  for (const q of [b.from, b.move.to, ...middles(b, a)]) offer(footOn(a, q), q);
  return best;
};

/** The place of a move that is nearest to a point. */
const footOn = ({ from, move }: Span, p: Point): Point => {
  if (move.kind === 'line') {
    const dx = move.to.x - from.x;
    const dy = move.to.y - from.y;
    const squared = dx * dx + dy * dy;
    const t = squared === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - from.x) * dx + (p.y - from.y) * dy) / squared));
    return { x: from.x + t * dx, y: from.y + t * dy };
  }
  const away = apart(p, move.centre);
  const radius = apart(from, move.centre);
  const round = { x: move.centre.x + ((p.x - move.centre.x) * radius) / away, y: move.centre.y + ((p.y - move.centre.y) * radius) / away };
  if (away > 1e-12 && holdsPoint(from, move, round, 0)) return round;
  return apart(p, from) <= apart(p, move.to) ? from : move.to;
};

/** Places in mid-arc that can be nearest: square to a line, or on the line through both middles. */
const middles = ({ from, move }: Span, other: Span): readonly Point[] => {
  if (move.kind !== 'arc') return [];
  const radius = apart(from, move.centre);
  const to = other.move;
  const dx = to.kind === 'line' ? to.to.y - other.from.y : to.centre.x - move.centre.x;
  const dy = to.kind === 'line' ? other.from.x - to.to.x : to.centre.y - move.centre.y;
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length < 1e-12) return [];
  return [1, -1]
    .map((sign) => ({ x: move.centre.x + (sign * radius * dx) / length, y: move.centre.y + (sign * radius * dy) / length }))
    .filter((p) => holdsPoint(from, move, p, 0));
};
