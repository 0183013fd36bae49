/**
 * The paper that is wrapped round a tube to mark the cut at its end: true size, the straight edge square round the tube, printing outward. The paper's own
 * thickness is allowed for. Round the tube it is lined up on the side that the piece's drawing has at the top, so that both ends of a piece agree.
 */
import { sayLength, sayLengthBare } from '../model/display.js';
import type { Piece } from '../model/part.js';
import type { Point } from '../shape/path.js';
import type { Figure } from './documents/blocks.js';
import type { DisplayOptions } from './drawing.js';
import { dashed, type Ink, lineMark, type Mark, narrow, polylineMark, wide } from './pages/page.js';
import { linesOf, type Type } from './pages/type.js';
import { insetOf } from './piece-ends.js';
import { sayEnd } from './piece-words.js';

/** Thickness of common printing paper, 80 g/m²: about 0.1 mm. Common practice, no source. */
const paper = 0.1;
/** Paper left between the deepest of the cut and the straight edge, mm. */
const land = 25;
/** Glued under the other end, mm. */
const flap = 8;
/** Least width, so that the words find room under a thin tube's paper, mm. */
const leastWidth = 95;
const stations = 12;
const cutInk: Ink = { width: wide };
const thin: Ink = { width: narrow };
const faint: Ink = { width: narrow, colour: '#777777', dash: dashed };

type EndName = 'start' | 'finish';

/** The cut at an end, unrolled, seen from outside with the end upward. */
export interface WrapCurve {
  /** Length of the paper once round the tube, mm. */
  readonly round: number;
  /** From the long point to the deepest of the cut, mm. */
  readonly depth: number;
  /** How far round from the top, and how far behind the long point. */
  readonly points: readonly Point[];
}

/**
 * @param parts into how many steps the way round is parted
 * @returns undefined for a square end, for stock that is not round, and for a cope whose two tubes are not known or don't fit
 */
const wrapCurve = (part: Piece, which: EndName, parts = 360): WrapCurve | undefined => {
  const end = which === 'start' ? part.startEnd : part.finishEnd;
  const shape = part.stock?.value.shape;
  if (end.kind === 'square' || (shape?.kind !== 'round tube' && shape?.kind !== 'round')) return undefined;
  const inset = insetOf(end, shape);
  if (inset === undefined) return undefined;
  const radius = shape.diameter / 2;
  const round = 2 * Math.PI * (radius + paper / 2);
  // With its end upward a start is seen from the other side than a finish: what faces the eye comes before the top, not after it.
  const sense = which === 'start' ? -1 : 1;
  const points = Array.from({ length: parts + 1 }, (_, i) => {
    const angle = (sense * 2 * Math.PI * i) / parts;
    return { x: (round * i) / parts, y: inset({ y: radius * Math.cos(angle), d: radius * Math.sin(angle) }) };
  });
  return { round, depth: Math.max(...points.map(({ y }) => y)), points };
};

/** The ends of a piece that are marked with a wrapped paper, when one of them is coped; a mitre alone is a matter for the saw. */
export const wrappedEnds = (part: Piece): readonly EndName[] => {
  const ends = (['start', 'finish'] as const).filter((which) => wrapCurve(part, which, 4) !== undefined);
  const coped = ends.some((which) => (which === 'start' ? part.startEnd : part.finishEnd).kind === 'cope');
  return coped ? ends : [];
};

/**
 * One wrap-round template at true size: to be printed at 100 %.
 *
 * @returns undefined where `wrapCurve` is
 */
export const copeFigure = (part: Piece, which: EndName, options: DisplayOptions, type: Type): Figure | undefined => {
  const end = which === 'start' ? part.startEnd : part.finishEnd;
  const curve = wrapCurve(part, which);
  if (curve === undefined) return undefined;
  const { round, depth, points } = curve;
  const say = (mm: number): string => sayLength(mm, options.unit, options.denominator);
  const bare = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  const width = Math.max(leastWidth, round + flap + 8);
  const words = `${part.name}, ${which}: ${sayEnd(end) ?? ''}`;
  const said = [
    `Once round ${part.stock?.value.name ?? 'the tube'} is ${say(round)}; the cut is ${say(depth)} deep. Cut the paper along the thick line, wrap it printing outward with the straight edge square round the tube and “top” on the line along its top, and mark along it. The numbers are heights above the straight edge.`,
  ].flatMap((line) => linesOf(type, line, 2.5, width - 8));
  const foot = 12 + said.length * 3.6;
  const at = (x: number, y: number): Point => ({ x: 4 + x, y: foot + y });
  const top = (point: Point): number => land + depth - point.y;
  const sides = which === 'start' ? ['top', 'away', 'bottom', 'facing you', 'top'] : ['top', 'facing you', 'bottom', 'away', 'top'];
  const ordinates = Array.from({ length: stations + 1 }, (_, i) => points[Math.round((i * (points.length - 1)) / stations)] as Point);
  const [first, last] = [points[0] as Point, points[points.length - 1] as Point];
  const text = (words: string, place: Point, more: Partial<Extract<Mark, { kind: 'text' }>> = {}): Mark => ({
    kind: 'text',
    text: words,
    at: place,
    size: 2.5,
    ...more,
  });
  const step = round / stations;
  const letters = Math.min(2.5, step * 0.42);
  return {
    width,
    height: foot + land + depth + 4,
    words,
    marks: [
      ...ordinates.flatMap((point, i) => [
        ...(i === 0 || i === stations ? [] : [lineMark(at(point.x, 0), at(point.x, top(point)), i % 3 === 0 ? thin : faint)]),
        ...(i === stations ? [] : [text(bare(top(point)), at(point.x + letters * 1.15, 2), { turn: Math.PI / 2, size: letters })]),
      ]),
      polylineMark([at(0, top(first)), at(0, 0), at(round, 0), at(round, top(last))], thin),
      polylineMark([at(round, top(last)), at(round + flap, top(last) - 3), at(round + flap, 3), at(round, 0)], faint),
      polylineMark(
        points.map((point) => at(point.x, top(point))),
        cutInk,
      ),
      text('glue', at(round + flap / 2 + 1, 6), { turn: Math.PI / 2, size: 2.2, colour: '#777777' }),
      ...sides.map((side, i) =>
        text(side, at((i * round) / 4, -3.4), { anchor: i === 0 ? 'start' : 'middle', size: Math.min(2.5, (round / 4) * 0.18) }),
      ),
      text(words, at(0, -8), { size: 3, bold: true }),
      ...said.map((line, i) => text(line, at(0, -12 - i * 3.6))),
    ],
  };
};
