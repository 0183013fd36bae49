/** Corners of a path rounded to one radius. */
import { apart, moveLength } from '../shape/arcs.js';
import { circlesMeet, type Line, lineMeetsCircle, linesMeet } from '../shape/meetings.js';
import type { Move, Point } from '../shape/path.js';
import { ahead, dot, endDirection, leftOf, type Piece, piecesOf, startDirection, turnFrom } from './path.js';
import type { Path } from './types.js';

export interface Rounded {
  readonly path: Path;
  /** Undefined when every corner took the radius; else the largest (0 and up) that all of them take, with which the path was rounded. */
  readonly largest: number | undefined;
}

/** Directions nearer than this are one. */
const STRAIGHT_ON = 1e-6;

/** Every corner rounded to `radius`, or to the largest smaller one for which all find room. */
export const rounded = (path: Path, radius: number): Rounded => {
  const pieces = piecesOf(path).filter((piece) => piece.length > 1e-9);
  const whole = roundedTo(path, pieces, radius);
  if (whole !== undefined) return { path: whole, largest: undefined };
  let fits = 0;
  let tooMuch = radius;
  for (let i = 0; i < 48 && tooMuch - fits > 1e-6; i++) {
    const half = (fits + tooMuch) / 2;
    if (roundedTo(path, pieces, half) === undefined) tooMuch = half;
    else fits = half;
  }
  return { path: roundedTo(path, pieces, fits) ?? path, largest: fits };
};

interface Corner {
  readonly index: number; // of the piece that ends there
  readonly arc: { readonly from: Point; readonly to: Point; readonly centre: Point; readonly turn: 'left' | 'right' };
}

const roundedTo = (path: Path, pieces: readonly Piece[], radius: number): Path | undefined => {
  if (radius <= 0) return path;
  const corners = new Map<number, Corner['arc']>();
  const count = pieces.length;
  for (let i = 0; i < count - (path.closed ? 0 : 1); i++) {
    const before = pieces[i] as Piece;
    const after = pieces[(i + 1) % count] as Piece;
    const turn = turnFrom(endDirection(before.from, before.move), startDirection(after.from, after.move));
    if (Math.abs(turn) < STRAIGHT_ON) continue;
    const arc = Math.abs(turn) > Math.PI - 1e-6 ? undefined : cornerArc(before, after, turn, radius);
    if (arc === undefined) return undefined;
    corners.set(i, arc);
  }
  const moves: Move[] = [];
  const start = (path.closed ? corners.get(count - 1)?.to : undefined) ?? path.start;
  let from = start;
  for (let i = 0; i < count; i++) {
    const { from: begin, move, length } = pieces[i] as Piece;
    const arc = corners.get(i);
    const to = arc?.from ?? move.to;
    const head = alongPiece(begin, move, from);
    const tail = alongPiece(begin, move, to);
    if (head === undefined || tail === undefined || tail < head - 1e-7 || tail > length + 1e-7) return undefined;
    if (tail - head > 1e-7) moves.push({ ...move, to });
    if (arc !== undefined) moves.push({ kind: 'arc', to: arc.to, centre: arc.centre, turn: arc.turn });
    from = arc?.to ?? move.to;
  }
  return { start, moves, closed: path.closed };
};

const cornerArc = (before: Piece, after: Piece, turn: number, radius: number): Corner['arc'] | undefined => {
  const left = turn > 0 ? radius : -radius;
  const corner = before.move.to;
  const one = shifted(before.from, before.move, left);
  const other = shifted(after.from, after.move, left);
  if (one === undefined || other === undefined) return undefined;
  const centre = meetings(one, other).reduce<Point | undefined>(
    (best, p) => (best === undefined || apart(p, corner) < apart(best, corner) ? p : best),
    undefined,
  );
  if (centre === undefined) return undefined;
  return { from: foot(before, centre), to: foot(after, centre), centre, turn: turn > 0 ? 'left' : 'right' };
};

type Endless = { readonly line: Line } | { readonly circle: { readonly centre: Point; readonly radius: number } };

const shifted = (from: Point, move: Move, left: number): Endless | undefined => {
  if (move.kind === 'line') {
    const along = startDirection(from, move);
    return { line: { at: ahead(from, leftOf(along), left), along } };
  }
  const radius = apart(move.centre, from) + (move.turn === 'left' ? -left : left);
  return radius > 1e-9 ? { circle: { centre: move.centre, radius } } : undefined;
};

const meetings = (a: Endless, b: Endless): readonly Point[] => {
  if ('line' in a) {
    if ('circle' in b) return lineMeetsCircle(a.line, b.circle);
    const p = linesMeet(a.line, b.line);
    return p === undefined ? [] : [p];
  }
  return 'line' in b ? lineMeetsCircle(b.line, a.circle) : circlesMeet(a.circle, b.circle);
};

/** Where a circle about `centre` touches the piece's line. */
const foot = ({ from, move }: Piece, centre: Point): Point => {
  if (move.kind === 'line') {
    const along = startDirection(from, move);
    return ahead(from, along, dot({ x: centre.x - from.x, y: centre.y - from.y }, along));
  }
  const radius = apart(move.centre, from);
  const away = apart(centre, move.centre);
  return away < 1e-12 ? from : ahead(move.centre, { x: (centre.x - move.centre.x) / away, y: (centre.y - move.centre.y) / away }, radius);
};

/** How far along its piece a point of its line lies; undefined when it lies before the start. */
const alongPiece = (from: Point, move: Move, p: Point): number | undefined => {
  if (apart(from, p) < 1e-9) return 0;
  if (move.kind === 'arc') {
    const swept = moveLength(from, { ...move, to: p });
    const radius = apart(move.centre, from);
    return swept > 2 * Math.PI * radius - 1e-6 ? 0 : swept;
  }
  const s = dot({ x: p.x - from.x, y: p.y - from.y }, startDirection(from, move));
  return s < -1e-7 ? undefined : s;
};
