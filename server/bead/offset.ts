/**
 * A line shifted square to itself as a whole: shifted moves are joined at the corners, cut where they meet, and what comes nearer to the line than the
 * distance asked for is dropped. Lines stay lines and arcs arcs.
 */
import { apart, boxesMeet, moveBox } from '../shape/arcs.js';
import { moveToMove } from '../shape/distances.js';
import { linesMeet, movesMeet } from '../shape/meetings.js';
import type { Box, Move, Point } from '../shape/path.js';
import { ahead, endDirection, leftOf, onPiece, piecesOf, startDirection, turnFrom } from './path.js';
import type { Path } from './types.js';

interface Bit {
  readonly from: Point;
  readonly move: Move;
  /** Which raw move it was cut from, so that needless cuts can be closed again. */
  readonly source: number;
}
/** Corners on the far side: rounded about the corner, or run on to a point. */
export type Corners = 'round' | 'sharp';

/** Two ends this near are one. */
const SAME = 1e-6;
/** A point further out than this many distances is rounded instead. */
const LONGEST_POINT = 6;

/**
 * The path `left` mm to its left (to its right when negative). May come out in several parts, or none when nothing is left.
 */
export const offsetPath = (path: Path, left: number, corners: Corners): readonly Path[] => {
  if (Math.abs(left) < 1e-12) return [path];
  const raw = rawOffset(path, left, corners);
  if (raw.length === 0) return [];
  const wanted = Math.abs(left) - SAME * 10;
  const kept = cutAtMeetings(raw).filter((bit) => distanceTo(path, middleOf(bit)) >= wanted);
  return chained(kept, path.closed);
};

const rawOffset = (path: Path, left: number, corners: Corners): readonly Bit[] => {
  const pieces = piecesOf(path).filter((piece) => piece.length > 1e-9);
  const bits: Bit[] = [];
  const add = (from: Point, move: Move): void => {
    if (apart(from, move.to) > 1e-9 || move.kind === 'arc') bits.push({ from, move, source: bits.length });
  };
  const first = path.closed ? 0 : 1;
  for (let i = 0; i < pieces.length + (path.closed ? 1 : 0); i++) {
    const piece = pieces[i % pieces.length];
    if (piece === undefined) break;
    if (i >= first) {
      const before = pieces[(i + pieces.length - 1) % pieces.length];
      if (before !== undefined) for (const bit of joint(before.from, before.move, piece.move, left, corners)) add(bit.from, bit.move);
    }
    if (i < pieces.length) {
      const shifted = shiftedMove(piece.from, piece.move, left);
      if (shifted !== undefined) add(shifted.from, shifted.move);
    }
  }
  return bits;
};

/** A move shifted to its left; undefined for an arc of which nothing is left. */
const shiftedMove = (from: Point, move: Move, left: number): { from: Point; move: Move } | undefined => {
  const start = ahead(from, leftOf(startDirection(from, move)), left);
  const to = ahead(move.to, leftOf(endDirection(from, move)), left);
  if (move.kind === 'line') return { from: start, move: { ...move, to } };
  const radius = apart(move.centre, from) + (move.turn === 'left' ? -left : left);
  return radius > 1e-9 ? { from: start, move: { ...move, to } } : undefined;
};

const joint = (from: Point, before: Move, after: Move, left: number, corners: Corners): readonly { from: Point; move: Move }[] => {
  const corner = before.to;
  const a = endDirection(from, before);
  const b = startDirection(corner, after);
  const turn = turnFrom(a, b);
  const end = ahead(corner, leftOf(a), left);
  const start = ahead(corner, leftOf(b), left);
  if (Math.abs(turn) < 1e-9) return [];
  // Toward the side of the shift the moves themselves cross; this link is only what they are cut from.
  if (turn > 0 === left > 0) return [{ from: end, move: { kind: 'line', to: start } }];
  const point = corners === 'sharp' ? linesMeet({ at: end, along: a }, { at: start, along: b }) : undefined;
  if (point !== undefined && apart(point, corner) <= LONGEST_POINT * Math.abs(left)) {
    return [
      { from: end, move: { kind: 'line', to: point, ...nameOf(before) } },
      { from: point, move: { kind: 'line', to: start, ...nameOf(after) } },
    ];
  }
  return [{ from: end, move: { kind: 'arc', to: start, centre: corner, turn: turn > 0 ? 'left' : 'right' } }];
};

const nameOf = (move: Move): { id?: string } => (move.id === undefined ? {} : { id: move.id });

const cutAtMeetings = (bits: readonly Bit[]): readonly Bit[] => {
  const boxes = bits.map(({ from, move }) => moveBox(from, move));
  return bits.flatMap((bit, i) => {
    const cuts: Point[] = [];
    bits.forEach((other, j) => {
      if (i === j || !boxesMeet(boxes[i] as Box, boxes[j] as Box, SAME)) return;
      for (const p of movesMeet(bit.from, bit.move, other.from, other.move)) {
        if (apart(p, bit.from) > SAME && apart(p, bit.move.to) > SAME) cuts.push(p);
      }
    });
    return cuts.length === 0 ? [bit] : cutAt(bit, cuts);
  });
};

const cutAt = (bit: Bit, cuts: readonly Point[]): readonly Bit[] => {
  const places = cuts.map((p) => ({ p, s: alongMove(bit, p) })).sort((a, b) => a.s - b.s);
  const out: Bit[] = [];
  let from = bit.from;
  for (const { p } of places) {
    if (apart(from, p) <= SAME) continue;
    out.push({ from, move: { ...bit.move, to: p }, source: bit.source });
    from = p;
  }
  if (apart(from, bit.move.to) > SAME) out.push({ from, move: bit.move, source: bit.source });
  return out;
};

const alongMove = ({ from, move }: Bit, p: Point): number => {
  if (move.kind === 'line') return apart(from, p);
  const turned = Math.atan2(p.y - move.centre.y, p.x - move.centre.x) - Math.atan2(from.y - move.centre.y, from.x - move.centre.x);
  const way = move.turn === 'left' ? turned : -turned;
  return way < -1e-9 ? way + 2 * Math.PI : way;
};

const middleOf = ({ from, move }: Bit): Point => {
  const [piece] = piecesOf({ start: from, moves: [move], closed: false });
  return piece === undefined ? from : onPiece(piece, piece.length / 2).at;
};

const distanceTo = (path: Path, p: Point): number => {
  let least = Number.POSITIVE_INFINITY;
  let from = path.start;
  const spot: Move = { kind: 'line', to: p };
  for (const move of path.moves) {
    least = Math.min(least, moveToMove(p, spot, from, move));
    from = move.to;
  }
  return least;
};

const chained = (bits: readonly Bit[], closed: boolean): readonly Path[] => {
  const left = [...bits];
  const paths: Path[] = [];
  while (left.length > 0) {
    const chain = [left.shift() as Bit];
    for (;;) {
      const end = (chain.at(-1) as Bit).move.to;
      if (closed && chain.length > 1 && apart(end, (chain[0] as Bit).from) <= SAME * 10) break;
      const next = left.findIndex((bit) => apart(bit.from, end) <= SAME * 10);
      if (next < 0) break;
      chain.push(...left.splice(next, 1));
    }
    const path = mended(chain, closed);
    if (path !== undefined) paths.push(path);
  }
  return paths;
};

/** Needless cuts closed again; a ring that does not close is scrap. */
const mended = (chain: readonly Bit[], closed: boolean): Path | undefined => {
  const first = chain[0] as Bit;
  const ring = closed && apart((chain.at(-1) as Bit).move.to, first.from) <= SAME * 10;
  if (closed && !ring) return undefined;
  const moves: { move: Move; source: number; straight: Point | undefined }[] = [];
  for (const { from, move, source } of chain) {
    const last = moves.at(-1);
    const straight = move.kind === 'line' ? startDirection(from, move) : undefined;
    const runsOn =
      last !== undefined &&
      (last.source === source ||
        (straight !== undefined && last.straight !== undefined && Math.abs(turnFrom(last.straight, straight)) < 1e-9)) &&
      last.move.id === move.id;
    if (runsOn) moves[moves.length - 1] = { move: { ...move, to: move.to }, source, straight };
    else moves.push({ move, source, straight });
  }
  let start = first.from;
  const head = moves[0];
  const tail = moves.at(-1);
  // A ring may start in the middle of a straight.
  if (
    ring &&
    moves.length > 2 &&
    head?.straight !== undefined &&
    tail?.straight !== undefined &&
    head.move.id === tail.move.id &&
    Math.abs(turnFrom(tail.straight, head.straight)) < 1e-9
  ) {
    moves.pop();
    start = (moves.at(-1) as { move: Move }).move.to;
  }
  return { start, moves: moves.map(({ move }) => move), closed: ring };
};
