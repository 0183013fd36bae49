/** What every true-size page carries to prove that the printer kept the size: a square, a ruler in millimetres and one in inches. */
import type { Point } from '../../shape/path.js';
import { boxMark, type Mark, narrow, polylineMark } from './page.js';

const ink = { width: narrow };
/** Side of the check square, mm. */
export const checkSquare = 20;
/** Height that the square and both rulers take together. */
export const gaugeHeight = 24;
/** And their width with the words. */
export const gaugeWidth = checkSquare + 6 + 101.6 + 16;

const ruler = (at: Point, length: number, steps: number, longEvery: number, words: string): readonly Mark[] => [
  polylineMark([at, { x: at.x + length, y: at.y }], ink),
  ...Array.from({ length: steps + 1 }, (_, index): Mark => {
    const x = at.x + (length * index) / steps;
    return polylineMark(
      [
        { x, y: at.y },
        { x, y: at.y + (index % longEvery === 0 ? 4 : 2) },
      ],
      ink,
    );
  }),
  { kind: 'text', text: words, at: { x: at.x + length + 2, y: at.y }, size: 3 },
];

/** Lower left corner at `at`. */
export const gauge = (at: Point): readonly Mark[] => {
  const right = at.x + checkSquare + 6;
  return [
    boxMark({ min: { x: at.x, y: at.y + 2 }, max: { x: at.x + checkSquare, y: at.y + 2 + checkSquare } }, ink),
    { kind: 'text', text: `${checkSquare} mm`, at: { x: at.x + checkSquare / 2, y: at.y + 11 }, size: 3, anchor: 'middle' },
    { kind: 'text', text: 'Measure this before you cut.', at: { x: right, y: at.y + 19.5 }, size: 3, bold: true },
    ...ruler({ x: right, y: at.y + 11 }, 100, 20, 4, '100 mm'),
    ...ruler({ x: right, y: at.y + 2 }, 101.6, 16, 4, '4 in'),
  ];
};
