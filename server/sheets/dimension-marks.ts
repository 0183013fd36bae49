/** Dimension lines with arrows and words, on paper. Line widths and arrows by ISO 129-1 (from memory): narrow lines, closed filled arrows of 15°. */
import type { Box, Point } from '../shape/path.js';
import { type Ink, lineMark, type Mark, narrow, polylineMark } from './pages/page.js';
import { boxOfText } from './placing.js';

const ink: Ink = { width: narrow };
const arrowLength = 2.2;
/** Clear space between the part and the foot of an extension line, and past the dimension line, mm. */
const foot = 1;
const past = 1.5;

/** Room of words whose letters stand on a line through `at`. */
export const textBox = (text: string, at: Point, size: number, turn: number, anchor: 'start' | 'middle' | 'end'): Box =>
  boxOfText({
    text,
    // Capitals and figures are 0.72 of the size high in the sheets' type.
    at: { x: at.x - Math.sin(turn) * 0.36 * size, y: at.y + Math.cos(turn) * 0.36 * size },
    height: size,
    turn,
    anchor,
    layer: 'label',
    feature: undefined,
  });

const along = (a: Point, b: Point): Point => {
  const length = Math.hypot(b.x - a.x, b.y - a.y) || 1;
  return { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
};
const moved = (p: Point, by: Point, far: number): Point => ({ x: p.x + by.x * far, y: p.y + by.y * far });

/** A filled arrow head with its tip at `tip`, coming from the direction of `from`. */
export const arrowMark = (tip: Point, from: Point): Mark => {
  const back = along(tip, from);
  const side = (sign: number): Point => moved(moved(tip, back, arrowLength), { x: -back.y, y: back.x }, sign * arrowLength * 0.16);
  return polylineMark([tip, side(1), side(-1)], { width: 0.05 }, true, '#000000');
};

/** Turned so that words are read from below or from the right. */
const readable = (angle: number): number => {
  const turn = Math.atan2(Math.sin(angle), Math.cos(angle));
  return turn > Math.PI / 2 + 1e-6 || turn <= -Math.PI / 2 + 1e-6 ? turn + (turn > 0 ? -Math.PI : Math.PI) : turn;
};

export interface Dimensioned {
  readonly marks: readonly Mark[];
  /** Room that the line and its words take. */
  readonly boxes: readonly Box[];
}

/**
 * A size between two points, its line standing `off` mm away from them toward `away` (a unit direction square to the line between them).
 * Where the words find no room between the arrows, these stand outside and the words beyond one of them.
 *
 * @param feet where the extension lines begin, when not at the two points themselves
 */
export const dimensionMarks = (
  from: Point,
  to: Point,
  away: Point,
  off: number,
  words: string,
  size: number,
  feet: readonly [Point, Point] = [from, to],
): Dimensioned => {
  const [a, b] = [moved(from, away, off), moved(to, away, off)];
  const direction = along(a, b);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const turn = readable(Math.atan2(direction.y, direction.x));
  const up = { x: -Math.sin(turn), y: Math.cos(turn) };
  const width = 2 * Math.abs(textBox(words, { x: 0, y: 0 }, size, 0, 'middle').max.x);
  const fits = length > width + 2 * arrowLength + 2;
  const roomy = length > 2 * arrowLength + 1.5;
  const middle = fits ? moved(a, direction, length / 2) : moved(b, direction, arrowLength + 3 + width / 2);
  const at = moved(middle, up, 0.8);
  const lines: Mark[] = [
    lineMark(moved(feet[0], away, foot), moved(a, away, past), ink),
    lineMark(moved(feet[1], away, foot), moved(b, away, past), ink),
    roomy ? lineMark(a, b, ink) : lineMark(moved(a, direction, -arrowLength - 3), moved(b, direction, arrowLength + 3), ink),
    ...(fits ? [] : [lineMark(b, moved(b, direction, arrowLength + 3 + width), ink)]),
    arrowMark(a, roomy ? b : moved(a, direction, -1)),
    arrowMark(b, roomy ? a : moved(b, direction, 1)),
    { kind: 'text', text: words, at, size, turn, anchor: 'middle' },
  ];
  const start = roomy ? a : moved(a, direction, -arrowLength - 3);
  const end = fits ? (roomy ? b : moved(b, direction, arrowLength + 3)) : moved(b, direction, arrowLength + 3 + width);
  const feetEnds = [a, b].map((end): Box => ({ min: moved(end, away, past), max: moved(end, away, past) }));
  return { marks: lines, boxes: [...boxesAlong(start, end), ...feetEnds, textBox(words, at, size, turn, 'middle')] };
};

/** Small boxes that follow a straight line closely, so that what stands aslant is not taken for the whole rectangle round it. */
export const boxesAlong = (from: Point, to: Point): readonly Box[] => {
  const count = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 3));
  return Array.from({ length: count }, (_, k) => {
    const at = (share: number): Point => ({ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share });
    const [p, q] = [at(k / count), at((k + 1) / count)];
    return { min: { x: Math.min(p.x, q.x), y: Math.min(p.y, q.y) }, max: { x: Math.max(p.x, q.x), y: Math.max(p.y, q.y) } };
  });
};

export const boxesTouch = (a: Box, b: Box, gap = 0.6): boolean =>
  a.min.x < b.max.x + gap && b.min.x < a.max.x + gap && a.min.y < b.max.y + gap && b.min.y < a.max.y + gap;

export const boxAroundAll = (boxes: readonly Box[]): Box => ({
  min: { x: Math.min(...boxes.map(({ min }) => min.x)), y: Math.min(...boxes.map(({ min }) => min.y)) },
  max: { x: Math.max(...boxes.map(({ max }) => max.x)), y: Math.max(...boxes.map(({ max }) => max.y)) },
});
