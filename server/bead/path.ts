/** Lines that may be open, taken apart into pieces that know their lengths. */

import { angleAbout, apart, moveLength, startOf } from '../shape/arcs.js';
import { place, placeLoop } from '../shape/loops.js';
import { movesMeet } from '../shape/meetings.js';
import type { Loop, Move, Placement, Point } from '../shape/path.js';
import type { Path } from './types.js';

export type Arc = Extract<Move, { readonly kind: 'arc' }>;

export interface Piece {
  readonly from: Point;
  readonly move: Move;
  readonly length: number;
  /** Along the path before it. */
  readonly before: number;
}

export const piecesOf = (path: Path): readonly Piece[] => {
  const pieces: Piece[] = [];
  let from = path.start;
  let before = 0;
  for (const move of path.moves) {
    const length = moveLength(from, move);
    pieces.push({ from, move, length, before });
    before += length;
    from = move.to;
  }
  return pieces;
};

export const pathLength = (path: Path): number => {
  let length = 0;
  let from = path.start;
  for (const move of path.moves) {
    length += moveLength(from, move);
    from = move.to;
  }
  return length;
};

export const endOf = (path: Path): Point => path.moves.at(-1)?.to ?? path.start;

/** A loop as a path that starts where its first move does. */
export const pathOfLoop = (loop: readonly Move[]): Path => ({ start: (loop.at(-1) as Move).to, moves: loop, closed: true });

const signOf = (arc: Arc): 1 | -1 => (arc.turn === 'left' ? 1 : -1);

/** Place and unit direction on a piece, `s` mm from its start. */
export const onPiece = ({ from, move, length }: Piece, s: number): { readonly at: Point; readonly along: Point } => {
  if (move.kind === 'line') {
    const along = { x: (move.to.x - from.x) / length, y: (move.to.y - from.y) / length };
    return { at: { x: from.x + along.x * s, y: from.y + along.y * s }, along };
  }
  const radius = apart(move.centre, from);
  const sign = signOf(move);
  const angle = angleAbout(move.centre, from) + (sign * s) / radius;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  return { at: { x: move.centre.x + radius * cos, y: move.centre.y + radius * sin }, along: { x: -sign * sin, y: sign * cos } };
};

/** This near to a piece's start a meeting is at its start: an arc that long would be a whole turn, mm. */
const AT_START = 1e-6;
/** How far along a piece, mm, it meets a loop; in order, twice where it meets a corner. */
export const meetingsAlong = ({ from, move, length }: Piece, loop: Loop): readonly number[] =>
  loop
    .flatMap((rim, i) => movesMeet(from, move, startOf(loop, i), rim))
    .map((p) => (apart(from, p) < AT_START ? 0 : Math.min(length, moveLength(from, { ...move, to: p }))))
    .sort((a, b) => a - b);

/** Directions in which a move starts and ends. */
export const startDirection = (from: Point, move: Move): Point => direction(from, move, from);
export const endDirection = (from: Point, move: Move): Point => direction(from, move, move.to);

const direction = (from: Point, move: Move, at: Point): Point => {
  if (move.kind === 'line') {
    const length = apart(from, move.to);
    return length === 0 ? { x: 1, y: 0 } : { x: (move.to.x - from.x) / length, y: (move.to.y - from.y) / length };
  }
  const radius = apart(move.centre, at);
  const sign = signOf(move);
  return { x: (-sign * (at.y - move.centre.y)) / radius, y: (sign * (at.x - move.centre.x)) / radius };
};

/** Place and direction `s` mm from the path's start; on a closed one it goes round, on an open one it stops at the ends. */
export const onPath = (pieces: readonly Piece[], closed: boolean, s: number): { readonly at: Point; readonly along: Point } => {
  const last = pieces[pieces.length - 1] as Piece;
  const whole = last.before + last.length;
  const place = closed ? ((s % whole) + whole) % whole : Math.min(whole, Math.max(0, s));
  let piece = pieces[0] as Piece;
  for (const next of pieces) if (next.before <= place) piece = next;
  return onPiece(piece, Math.min(piece.length, place - piece.before));
};

export const carriedPath = (by: Placement, path: Path): Path => ({
  start: place(by, path.start),
  moves: placeLoop(by, path.moves),
  closed: path.closed,
});

export const reversedPath = (path: Path): Path => {
  const moves: Move[] = [];
  const pieces = piecesOf(path);
  for (let i = pieces.length - 1; i >= 0; i--) {
    const { from, move } = pieces[i] as Piece;
    moves.push(move.kind === 'line' ? { ...move, to: from } : { ...move, to: from, turn: move.turn === 'left' ? 'right' : 'left' });
  }
  return { start: endOf(path), moves, closed: path.closed };
};

export const dot = (a: Point, b: Point): number => a.x * b.x + a.y * b.y;
export const cross = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;
/** Quarter turn to the left. */
export const leftOf = (a: Point): Point => ({ x: -a.y, y: a.x });
export const ahead = (p: Point, along: Point, by: number): Point => ({ x: p.x + along.x * by, y: p.y + along.y * by });
/** Change of direction from a to b, rad, positive to the left. */
export const turnFrom = (a: Point, b: Point): number => Math.atan2(cross(a, b), dot(a, b));
