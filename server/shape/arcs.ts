/** The sums behind one move: where an arc starts, how far it sweeps, what it encloses. */
import type { Box, Loop, Move, Point } from './path.js';

export type ArcMove = Extract<Move, { readonly kind: 'arc' }>;

const FULL_TURN = 2 * Math.PI;

/** Length of a step. `Math.hypot` guards against sizes no sheet has, and costs many times as much. */
export const lengthOf = (dx: number, dy: number): number => Math.sqrt(dx * dx + dy * dy);

export const apart = (a: Point, b: Point): number => lengthOf(a.x - b.x, a.y - b.y);

/** An angle brought into 0 ≤ a < 2π. */
export const wrap = (angle: number): number => {
  const rest = angle % FULL_TURN;
  return rest < 0 ? rest + FULL_TURN : rest;
};

export const angleAbout = (centre: Point, p: Point): number => Math.atan2(p.y - centre.y, p.x - centre.x);

export const radiusOf = (from: Point, arc: ArcMove): number => apart(arc.centre, from);

/** How far an arc sweeps, rad, 0 < sweep ≤ 2π whichever way it turns. An arc that ends where it starts is a whole circle, never nothing. */
const sweepOf = (from: Point, arc: ArcMove): number => {
  const start = angleAbout(arc.centre, from);
  const end = angleAbout(arc.centre, arc.to);
  const sweep = arc.turn === 'left' ? wrap(end - start) : wrap(start - end);
  return sweep < 1e-12 ? FULL_TURN : sweep;
};

/** Whether the direction `angle` from the arc's centre lies on the arc, ends included. */
export const holdsDirection = (from: Point, arc: ArcMove, angle: number): boolean => {
  const start = angleAbout(arc.centre, from);
  const turned = arc.turn === 'left' ? wrap(angle - start) : wrap(start - angle);
  return turned <= sweepOf(from, arc) + 1e-9 || turned >= FULL_TURN - 1e-9;
};

/** Point where a loop's move begins: the end of the one before it. */
export const startOf = (loop: Loop, index: number): Point => (loop[index === 0 ? loop.length - 1 : index - 1] as Move).to;

export const moveLength = (from: Point, move: Move): number =>
  move.kind === 'line' ? apart(from, move.to) : radiusOf(from, move) * sweepOf(from, move);

/** Twice the area between a move's chord and the origin, plus twice the segment an arc adds on its right side. */
export const doubleArea = (from: Point, move: Move): number => {
  const chord = from.x * move.to.y - move.to.x * from.y;
  if (move.kind === 'line') return chord;
  const sweep = sweepOf(from, move);
  const radius = radiusOf(from, move);
  const segment = radius * radius * (sweep - Math.sin(sweep));
  return move.turn === 'left' ? chord + segment : chord - segment;
};

/** Box of one move, arcs with the quarter points they pass. */
export const moveBox = (from: Point, move: Move): Box => {
  let minX = Math.min(from.x, move.to.x);
  let maxX = Math.max(from.x, move.to.x);
  let minY = Math.min(from.y, move.to.y);
  let maxY = Math.max(from.y, move.to.y);
  if (move.kind === 'arc') {
    const radius = radiusOf(from, move);
    const { x, y } = move.centre;
    if (holdsDirection(from, move, 0)) maxX = Math.max(maxX, x + radius);
    if (holdsDirection(from, move, Math.PI / 2)) maxY = Math.max(maxY, y + radius);
    if (holdsDirection(from, move, Math.PI)) minX = Math.min(minX, x - radius);
    if (holdsDirection(from, move, -Math.PI / 2)) minY = Math.min(minY, y - radius);
  }
  return { min: { x: minX, y: minY }, max: { x: maxX, y: maxY } };
};

/** Boxes that overlap or come within `gap` of each other. */
export const boxesMeet = (a: Box, b: Box, gap = 0): boolean =>
  a.min.x <= b.max.x + gap && b.min.x <= a.max.x + gap && a.min.y <= b.max.y + gap && b.min.y <= a.max.y + gap;

/** Whether a point known to lie on the move's line or circle lies on the move itself, within `tolerance` mm. */
export const holdsPoint = (from: Point, move: Move, p: Point, tolerance: number): boolean => {
  if (apart(from, p) <= tolerance || apart(move.to, p) <= tolerance) return true;
  if (move.kind === 'arc') return holdsDirection(from, move, angleAbout(move.centre, p));
  const dx = move.to.x - from.x;
  const dy = move.to.y - from.y;
  const along = (p.x - from.x) * dx + (p.y - from.y) * dy;
  return along >= 0 && along <= dx * dx + dy * dy;
};
