/** What every true-size page carries to prove that the printer kept the size: a square, a ruler in millimetres and one in inches. */
import type { Point } from '../../shape/path.js';
import { boxMark, type Mark, narrow, type Run } from './page.js';

const ink = { width: narrow };
/** Side of the check square, mm. */
const checkSquare = 20;
/** Height that the square and both rulers take together. */
export const gaugeHeight = 24;
/** And their width with the words. */
export const gaugeWidth = checkSquare + 6 + 101.6 + 16;

const inch = 25.4;
const figures = 2;

interface Scale {
  readonly length: number;
  /** Between two ticks, mm. */
  readonly step: number;
  /** Ticks are longer at every so many steps, and longest where a number stands. */
  readonly longer: number;
  readonly numbered: number;
  /** What one number counts, in the ruler's unit. */
  readonly counts: number;
  readonly words: string;
}
const millimetres: Scale = { length: 100, step: 1, longer: 5, numbered: 10, counts: 10, words: '100 mm' };
const inches: Scale = { length: 4 * inch, step: inch / 16, longer: 4, numbered: 16, counts: 1, words: '4 in' };

/** Line and ticks are one path, so that they cannot part; the number at the far end carries the unit. */
const ruler = (at: Point, { length, step, longer, numbered, counts, words }: Scale): readonly Mark[] => {
  const count = Math.round(length / step);
  const straight = (from: Point, to: Point): Run => ({ start: from, moves: [{ kind: 'line', to }], closed: false });
  const tick = (index: number): Run => {
    const x = at.x + index * step;
    const height = index % numbered === 0 ? 3.5 : index % longer === 0 ? 2.4 : 1.4;
    return straight({ x, y: at.y }, { x, y: at.y + height });
  };
  return [
    {
      kind: 'path',
      runs: [straight(at, { x: at.x + length, y: at.y }), ...Array.from({ length: count + 1 }, (_, index) => tick(index))],
      ink,
    },
    ...Array.from(
      { length: count / numbered },
      (_, index): Mark => ({
        kind: 'text',
        text: `${index * counts}`,
        at: { x: at.x + index * numbered * step, y: at.y + 4.1 },
        size: figures,
        anchor: 'middle',
      }),
    ),
    { kind: 'text', text: words, at: { x: at.x + length + 2, y: at.y }, size: 3 },
  ];
};

/** Lower left corner at `at`. */
export const gauge = (at: Point): readonly Mark[] => {
  const right = at.x + checkSquare + 6;
  return [
    boxMark({ min: { x: at.x, y: at.y + 2 }, max: { x: at.x + checkSquare, y: at.y + 2 + checkSquare } }, ink),
    { kind: 'text', text: `${checkSquare} mm`, at: { x: at.x + checkSquare / 2, y: at.y + 11 }, size: 3, anchor: 'middle' },
    { kind: 'text', text: 'Measure this before you cut.', at: { x: right, y: at.y + 19.8 }, size: 3, bold: true },
    ...ruler({ x: right, y: at.y + 11 }, millimetres),
    ...ruler({ x: right, y: at.y + 2 }, inches),
  ];
};
