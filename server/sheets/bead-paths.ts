/** Open and closed paths of lines and true arcs, set off, moved, and looked over for where words go. */
import type { Path } from '../bead/types.js';
import { apart } from '../shape/arcs.js';
import type { Move, Point } from '../shape/path.js';

/** The path set off to its left; where moves no longer meet they are joined straight, and arcs of which nothing is left fall away. */
export const besidePath = (path: Path, left: number): Path => {
  const shifted: { readonly from: Point; readonly move: Move }[] = [];
  let from = path.start;
  for (const move of path.moves) {
    const one = moveBeside(from, move, left);
    if (one !== undefined) shifted.push(one);
    from = move.to;
  }
  const start = shifted[0]?.from ?? path.start;
  const moves: Move[] = [];
  let at = start;
  for (const one of shifted) {
    if (apart(at, one.from) > 1e-6) moves.push({ kind: 'line', to: one.from });
    moves.push(one.move);
    at = one.move.to;
  }
  if (path.closed && apart(at, start) > 1e-6) moves.push({ kind: 'line', to: start });
  return { start, moves, closed: path.closed };
};
const moveBeside = (from: Point, move: Move, left: number): { readonly from: Point; readonly move: Move } | undefined => {
  if (move.kind === 'line') {
    const length = apart(from, move.to);
    if (length < 1e-9) return undefined;
    const off = { x: (-left * (move.to.y - from.y)) / length, y: (left * (move.to.x - from.x)) / length };
    const put = (p: Point): Point => ({ x: p.x + off.x, y: p.y + off.y });
    return { from: put(from), move: { kind: 'line', to: put(move.to) } };
  }
  const radius = apart(move.centre, from);
  const other = radius + (move.turn === 'left' ? -left : left);
  if (other < 1e-6) return undefined;
  const put = (p: Point): Point => ({
    x: move.centre.x + ((p.x - move.centre.x) * other) / radius,
    y: move.centre.y + ((p.y - move.centre.y) * other) / radius,
  });
  return { from: put(from), move: { ...move, to: put(move.to) } };
};

/** The longest straight move, for the words. */
export const longestStraight = (paths: readonly Path[]): { readonly from: Point; readonly to: Point } | undefined => {
  let best: { readonly from: Point; readonly to: Point } | undefined;
  for (const path of paths) {
    let from = path.start;
    for (const move of path.moves) {
      if (move.kind === 'line' && (best === undefined || apart(from, move.to) > apart(best.from, best.to) + 1e-6))
        best = { from, to: move.to };
      from = move.to;
    }
  }
  return best;
};

/** A path moved without turning. */
export const shiftedPath = ({ start, moves, closed }: Path, by: Point): Path => {
  const put = (p: Point): Point => ({ x: p.x + by.x, y: p.y + by.y });
  return {
    start: put(start),
    moves: moves.map(
      (move): Move => (move.kind === 'line' ? { ...move, to: put(move.to) } : { ...move, to: put(move.to), centre: put(move.centre) }),
    ),
    closed,
  };
};

/** Its start and the end of every move. */
export const pointsOf = ({ start, moves }: Path): readonly Point[] => [start, ...moves.map(({ to }) => to)];
