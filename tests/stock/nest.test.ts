/** Nesting: what comes out lies apart and inside, whatever goes in, and is as good as it can be where that is known. */
import { describe, expect, it } from 'vitest';
import { circleLoop, polygon } from '../../server/shape/index.js';
import type { Loop } from '../../server/shape/path.js';
import { nest, nestPictures, nestWhile } from '../../server/stock/index.js';
import type { NestQuestion, PieceToNest } from '../../server/stock/types.js';
import { hopperTurtonC1, shapes0 } from '../bench/data/nesting.js';
import { faults, forSteps } from './nest-checking.js';

const box = (width: number, height: number): Loop =>
  polygon([
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ]);
const piece = (id: string, outline: Loop, quantity: number, more: Partial<PieceToNest> = {}): PieceToNest => ({
  id,
  outline,
  holes: [],
  quantity,
  grain: 'any',
  ...more,
});
const run = (question: NestQuestion, steps: number, seed = 1) => nestWhile(question, { seed }, forSteps(steps));

describe('rectangles with a known optimum', () => {
  // Hopper & Turton, EJOR 128 (2001) 34-57: the sixteen fill a square of 20 without waste.
  it('fill the square of 20 that they were cut from', () => {
    const question: NestQuestion = {
      pieces: hopperTurtonC1.boxes.map(([height, width], i) => piece(`${i}`, box(width, height), 1, { turns: [0] })),
      stock: { id: 'strip', width: hopperTurtonC1.width },
      kerf: 0,
      margin: 0,
    };
    const result = run(question, 400);
    expect(faults(question, result)).toEqual([]);
    expect(result.length).toBeCloseTo(hopperTurtonC1.length, 6);
    expect(result.utilisation).toBeCloseTo(1, 6);
  });
});

describe('the set shapes0', () => {
  it('comes within the bounds of a quick search, apart at every step', () => {
    const question: NestQuestion = {
      pieces: shapes0.pieces.map(({ quantity, corners }, i) =>
        piece(`${i}`, polygon(corners.map(([x, y]) => ({ x, y }))), quantity, { turns: [0] }),
      ),
      stock: { id: 'strip', width: shapes0.width },
      kerf: 0,
      margin: 0,
    };
    const result = run(question, 600);
    expect(faults(question, result)).toEqual([]);
    // 55 % is what a plain method should reach; nothing is known above 68.79 %.
    expect(result.utilisation).toBeGreaterThan(0.58);
    expect(result.utilisation).toBeLessThan(shapes0.bestKnown + 0.005);
  });
});

describe('one sheet', () => {
  it('holds four squares of 100 with a cut of 2 between them and 5 of margin, in 212 by 212 exactly', () => {
    // 5 + 100 + 2 + 100 + 5
    const at = (size: number): NestQuestion => ({
      pieces: [piece('square', box(100, 100), 4)],
      stock: [{ id: 'sheet', width: size, height: size, count: 1 }],
      kerf: 2,
      margin: 5,
    });
    const fits = run(at(212), 50);
    expect(faults(at(212), fits)).toEqual([]);
    expect(fits.placements).toHaveLength(4);
    // A tenth less, and two no longer stand side by side.
    const tight = run(at(211.9), 50);
    expect(tight.placements).toHaveLength(1);
    expect(tight.unplaced).toEqual([{ reason: 'stock used up', id: 'square', count: 3 }]);
  });
});
