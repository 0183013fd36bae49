/** Small drawing words shared by the booklet's figures: dimensions, arrows, grain. Millimetres on paper, y up. */
import type { Point } from '../../shape/path.js';
import { type Ink, lineMark, type Mark, polylineMark } from '../pages/page.js';
import { arrow } from '../pattern-marks.js';

export const hairline: Ink = { width: 0.18 };
export const grey = '#666666';

export const letters = (text: string, at: Point, size: number, more: Partial<Extract<Mark, { kind: 'text' }>> = {}): Mark => ({
  kind: 'text',
  text,
  at,
  size,
  ...more,
});

/** A dimension along x or y, its line `off` from the two points: below or left of them when negative. */
export const dimension = (axis: 'x' | 'y', from: Point, to: Point, off: number, text: string, size = 2.6): readonly Mark[] => {
  const beyond = Math.sign(off) * 1.2;
  const short = Math.sign(off) * 0.8;
  if (axis === 'x') {
    const y = (off < 0 ? Math.min(from.y, to.y) : Math.max(from.y, to.y)) + off;
    return [
      ...[from, to].map((p) => lineMark({ x: p.x, y: p.y + short }, { x: p.x, y: y + beyond }, hairline)),
      lineMark({ x: from.x, y }, { x: to.x, y }, hairline),
      arrow({ x: from.x, y }, { x: to.x, y }, 2),
      arrow({ x: to.x, y }, { x: from.x, y }, 2),
      letters(text, { x: (from.x + to.x) / 2, y: y + 0.8 }, size, { anchor: 'middle' }),
    ];
  }
  const x = (off < 0 ? Math.min(from.x, to.x) : Math.max(from.x, to.x)) + off;
  return [
    ...[from, to].map((p) => lineMark({ x: p.x + short, y: p.y }, { x: x + beyond, y: p.y }, hairline)),
    lineMark({ x, y: from.y }, { x, y: to.y }, hairline),
    arrow({ x, y: from.y }, { x, y: to.y }, 2),
    arrow({ x, y: to.y }, { x, y: from.y }, 2),
    letters(text, { x: x - 0.8, y: (from.y + to.y) / 2 }, size, { anchor: 'middle', turn: Math.PI / 2 }),
  ];
};

/** A double arrow that says how the grain runs. */
export const grainArrow = (at: Point, along: 'x' | 'y', length = 12): readonly Mark[] => {
  const half = along === 'x' ? { x: length / 2, y: 0 } : { x: 0, y: length / 2 };
  const [a, b] = [
    { x: at.x - half.x, y: at.y - half.y },
    { x: at.x + half.x, y: at.y + half.y },
  ];
  return [
    polylineMark([a, b], hairline),
    arrow(a, b, 2),
    arrow(b, a, 2),
    letters('grain', along === 'x' ? { x: at.x, y: at.y + 1 } : { x: at.x - 1, y: at.y }, 2.2, {
      anchor: 'middle',
      ...(along === 'y' ? { turn: Math.PI / 2 } : {}),
    }),
  ];
};
