/** Extents of loops and the SVG words for them. Lines stay lines and arcs stay arcs. */
import type { Box, Loop, Move, Point } from '../shape/path.js';

export const startOf = (loop: Loop, index: number): Point => {
  const before = loop[(index + loop.length - 1) % loop.length] as Move;
  return before.to;
};

/** Angle swept by an arc from `start`, rad, 0 < … ≤ 2π, always positive. A closed arc (start = end) is the whole circle. */
export const sweepOf = (start: Point, move: Extract<Move, { kind: 'arc' }>): number => {
  const a = Math.atan2(start.y - move.centre.y, start.x - move.centre.x);
  const b = Math.atan2(move.to.y - move.centre.y, move.to.x - move.centre.x);
  const turned = move.turn === 'left' ? b - a : a - b;
  const wrapped = turned < 0 ? turned + 2 * Math.PI : turned;
  return wrapped < 1e-9 ? 2 * Math.PI : wrapped;
};

/** Point at a share (0…1) of an arc. */
export const alongArc = (start: Point, move: Extract<Move, { kind: 'arc' }>, share: number): Point => {
  const radius = Math.hypot(start.x - move.centre.x, start.y - move.centre.y);
  const from = Math.atan2(start.y - move.centre.y, start.x - move.centre.x);
  const angle = from + (move.turn === 'left' ? 1 : -1) * sweepOf(start, move) * share;
  return { x: move.centre.x + radius * Math.cos(angle), y: move.centre.y + radius * Math.sin(angle) };
};

const arcExtremes = (start: Point, move: Extract<Move, { kind: 'arc' }>): readonly Point[] => {
  const radius = Math.hypot(start.x - move.centre.x, start.y - move.centre.y);
  const from = Math.atan2(start.y - move.centre.y, start.x - move.centre.x);
  const sweep = sweepOf(start, move);
  return [0, 1, 2, 3].flatMap((quarter) => {
    const angle = (quarter * Math.PI) / 2;
    const away = move.turn === 'left' ? angle - from : from - angle;
    const turned = ((away % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
    return turned <= sweep
      ? [{ x: move.centre.x + radius * Math.round(Math.cos(angle)), y: move.centre.y + radius * Math.round(Math.sin(angle)) }]
      : [];
  });
};

/** Smallest box with sides along x and y that holds the loop, arcs at their true extremes. */
export const boxOfLoop = (loop: Loop): Box => {
  const points = loop.flatMap((move, index) => (move.kind === 'arc' ? [move.to, ...arcExtremes(startOf(loop, index), move)] : [move.to]));
  const xs = points.map((point) => point.x);
  const ys = points.map((point) => point.y);
  return { min: { x: Math.min(...xs), y: Math.min(...ys) }, max: { x: Math.max(...xs), y: Math.max(...ys) } };
};

/** A coordinate for SVG: millimetres to a nanometre at most, never an exponent, never `-0`. */
export const coordinate = (value: number): string => {
  const text = value.toFixed(6).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
};

/** A loop as SVG path data with y turned over, so that up on the part is up on the screen. Arcs over a half turn go in two pieces. */
export const pathData = (loop: Loop): string => {
  if (loop.length === 0) return '';
  const at = (point: Point): string => `${coordinate(point.x)} ${coordinate(-point.y)}`;
  const moves = loop.flatMap((move, index): readonly string[] => {
    if (move.kind === 'line') return [`L${at(move.to)}`];
    const start = startOf(loop, index);
    const radius = coordinate(Math.hypot(move.to.x - move.centre.x, move.to.y - move.centre.y));
    // A left turn with y up is drawn anticlockwise on the screen: SVG's sweep flag 0.
    const flag = move.turn === 'left' ? 0 : 1;
    const arc = (to: Point): string => `A${radius} ${radius} 0 0 ${flag} ${at(to)}`;
    return sweepOf(start, move) > Math.PI - 1e-6 ? [arc(alongArc(start, move, 0.5)), arc(move.to)] : [arc(move.to)];
  });
  return `M${at(startOf(loop, 0))}${moves.join('')}Z`;
};

/** A path that may be open, as SVG path data with y turned over. */
export const openPathData = ({
  start,
  moves,
  closed,
}: {
  readonly start: Point;
  readonly moves: readonly Move[];
  readonly closed: boolean;
}): string => {
  // A loop begins where its last move ends: a move of no length brings an open path there first.
  const loop: Loop = [...moves, { kind: 'line', to: start }];
  const data = pathData(loop).replace(/L[^LAZ]*Z$/, '');
  return closed ? `${data}Z` : data;
};

/** Text for an SVG or XML document: nothing from a part file may become markup. Control characters that XML forbids are dropped. */
export const escapeXml = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters XML 1.0 forbids, section 2.2.
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
