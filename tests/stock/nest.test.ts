/** Nesting: what comes out lies apart and inside, whatever goes in, and is as good as it can be where that is known. */
import { describe, expect, it } from 'vitest';
import { circleLoop, pointInLoop, polygon, signedArea } from '../../server/shape/index.js';
import type { Loop, Point } from '../../server/shape/path.js';
import { nest, nestPictures, nestWhile } from '../../server/stock/index.js';
import { type Random, seededRandom } from '../../server/stock/nest/random.js';
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
const corners = (...points: readonly (readonly [number, number])[]): Point[] => points.map(([x, y]) => ({ x, y }));
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
  // Hopper & Turton, EJOR 128 (2001) 34-57, C1: all of a set fill a square of 20 without waste.
  it.each([
    [1, 16],
    [2, 17],
    [3, 16],
  ])('problem %i: the %i fill the square of 20 that they were cut from', (problem, count) => {
    const boxes = hopperTurtonC1.problems[problem - 1] ?? [];
    const question: NestQuestion = {
      pieces: boxes.map(([height, width], i) => piece(`${i}`, box(width, height), 1, { turns: [0] })),
      stock: { id: 'strip', width: hopperTurtonC1.width },
      kerf: 0,
      margin: 0,
    };
    const result = run(question, 400);
    expect(faults(question, result)).toEqual([]);
    expect(result.placements).toHaveLength(count);
    expect(result.length).toBeCloseTo(hopperTurtonC1.length, 6);
    expect(result.utilisation).toBeCloseTo(1, 6);
  });
});

describe('the set shapes0', () => {
  it('comes within the bounds of a quick search, nothing overlapping', () => {
    const question: NestQuestion = {
      pieces: shapes0.pieces.map(({ quantity, corners }, i) =>
        piece(`${i}`, polygon(corners.map(([x, y]) => ({ x, y }))), quantity, { turns: [0] }),
      ),
      stock: { id: 'strip', width: shapes0.width },
      kerf: 0,
      margin: 0,
    };
    const result = run(question, 1500);
    expect(faults(question, result)).toEqual([]);
    // What these steps reach, about a second; `npm run bench -- nest 60` says what a minute does. Nothing is known above 68.79 %.
    expect(result.utilisation).toBeGreaterThan(0.61);
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

  it('puts small pieces into the opening of a large one, a cut away from its edge', () => {
    // The opening is 80 square; beside the frame no strip of the sheet is wider than 1.
    const question: NestQuestion = {
      pieces: [
        piece('frame', box(100, 100), 1, { holes: [polygon(corners([10, 10], [90, 10], [90, 90], [10, 90]))] }),
        piece('plate', box(38, 38), 4),
      ],
      stock: [{ id: 'offcut', width: 102, height: 102, count: 1 }],
      kerf: 1,
      margin: 1,
    };
    const result = run(question, 200);
    expect(faults(question, result)).toEqual([]);
    expect(result.unplaced).toEqual([]);
    for (const { id, x, y } of result.placements) {
      if (id === 'plate') expect(Math.min(x, y), `${x}, ${y}`).toBeGreaterThan(11);
    }
  });

  it('lays round pieces by their true outline: a disc in the corner that a quarter ring leaves', () => {
    // A ring of 100 outside and 70 inside in two halves; a disc of 69 across fits into its middle and nowhere else.
    const question: NestQuestion = {
      pieces: [
        piece('ring', circleLoop({ centre: { x: 0, y: 0 }, radius: 50 }), 1, {
          holes: [circleLoop({ centre: { x: 0, y: 0 }, radius: 35 })],
        }),
        piece('disc', circleLoop({ centre: { x: 7, y: -3 }, radius: 34.2 }), 1),
      ],
      stock: [{ id: 'square', width: 100.5, height: 100.5, count: 1 }],
      kerf: 0.5,
      margin: 0,
    };
    const result = run(question, 200);
    expect(faults(question, result)).toEqual([]);
    expect(result.unplaced).toEqual([]);
  });

  it('keeps the grain: a piece along x on a sheet rolled along y is turned a quarter', () => {
    const question: NestQuestion = {
      pieces: [
        piece('rail', box(200, 40), 3, { grain: 'x' }),
        piece('post', box(150, 30), 2, { grain: 'y' }),
        piece('tab', box(50, 20), 4),
      ],
      stock: [{ id: 'sheet', width: 400, height: 300, grain: 'y' }],
      kerf: 2,
      margin: 5,
    };
    const result = run(question, 100);
    expect(faults(question, result)).toEqual([]);
    const turns = (id: string): number[] =>
      result.placements.filter((p) => p.id === id).map((p) => Math.round((2 * p.angle) / Math.PI) % 2);
    expect(turns('rail')).toEqual([1, 1, 1]);
    expect(turns('post')).toEqual([0, 0]);
  });

  it('turns a piece by the step asked for where only that fits', () => {
    // 400 by 20 in a square of 320: corner to corner it is 452 long; at 45 degrees the bar takes (400 + 20) / √2 = 297 each way.
    const question: NestQuestion = {
      pieces: [piece('bar', box(400, 20), 2, { turnStep: Math.PI / 12 })],
      stock: [{ id: 'sheet', width: 330, height: 330, count: 1 }],
      kerf: 2,
      margin: 2,
    };
    const result = run(question, 200);
    expect(faults(question, result)).toEqual([]);
    expect(result.placements.map(({ angle }) => Math.round((4 * angle) / Math.PI) % 2)).toEqual([1, 1]);
  });

  it('turns a piece over only where that is allowed', () => {
    // Two hands of one triangle make a rectangle with a kite; unturned they don't pack into the strip between.
    const wedge = polygon(corners([0, 0], [100, 0], [100, 20], [40, 60]));
    const ask = (mayTurnOver: boolean): NestQuestion => ({
      pieces: [piece('wedge', wedge, 6, { mayTurnOver, turnStep: Math.PI / 2 })],
      stock: [{ id: 'sheet', width: 300, height: 300 }],
      kerf: 1,
      margin: 2,
    });
    const free = run(ask(true), 300);
    expect(faults(ask(true), free)).toEqual([]);
    const kept = run(ask(false), 300);
    expect(faults(ask(false), kept)).toEqual([]);
    expect(kept.placements.every((p) => !p.flipped)).toBe(true);
  });

  it('says by how much a piece is too large, and for which sheet', () => {
    const question: NestQuestion = {
      pieces: [piece('roof', box(1300, 650), 2), piece('tab', box(20, 20), 1), piece('line', [], 1)],
      stock: [
        { id: 'small', width: 600, height: 600 },
        { id: 'large', width: 1000, height: 500 },
      ],
      kerf: 0,
      margin: 5,
    };
    const result = run(question, 20);
    expect(faults(question, result)).toEqual([]);
    // Large: 1300 - 990 and 650 - 490; small: 1300 - 590 and 650 - 590, 770 in all against 470.
    expect(result.unplaced).toEqual([
      { reason: 'no outline', id: 'line', count: 1 },
      { reason: 'too large', id: 'roof', count: 2, stock: 'large', overWidth: 310, overHeight: 160 },
    ]);
    expect(result.sheets.map((sheet) => sheet.stock)).toEqual(['small']);
  });

  it('leaves the rest of a sheet in one piece, and says its size', () => {
    // Four plates of 100 by 200 with cuts of 2 fill 408 of 1000 less 5 of margin; what is left is the kerf less than that.
    const question: NestQuestion = {
      pieces: [piece('plate', box(100, 190), 4)],
      stock: [{ id: 'sheet', width: 1000, height: 200, count: 1 }],
      kerf: 2,
      margin: 5,
    };
    const result = run(question, 100);
    expect(faults(question, result)).toEqual([]);
    const [largest] = result.sheets[0]?.offcuts ?? [];
    expect(largest?.height).toBeCloseTo(200, 3);
    // 1000 − 5 − 4 · 100 − 4 cuts of 2
    expect(largest?.width).toBeCloseTo(587, 2);
  });
});

describe('several sheets', () => {
  it('uses offcuts first, then the sheets that cost least', () => {
    const question: NestQuestion = {
      pieces: [piece('plate', box(190, 90), 9)],
      stock: [
        { id: 'dear', width: 400, height: 200, price: 50 },
        { id: 'cheap', width: 400, height: 200, price: 30 },
        { id: 'remnant', width: 200, height: 100, offcut: true, price: 9 },
      ],
      kerf: 2,
      margin: 4,
    };
    const result = run(question, 300);
    expect(faults(question, result)).toEqual([]);
    expect(result.unplaced).toEqual([]);
    // One on the remnant, four on each of two sheets.
    expect(result.sheets.map((sheet) => sheet.stock).sort()).toEqual(['cheap', 'cheap', 'remnant']);
    expect(result.price).toBe(60);
  });

  it('takes the smaller sheet for what is left over', () => {
    const question: NestQuestion = {
      pieces: [piece('plate', box(190, 90), 5)],
      stock: [
        { id: 'half', width: 400, height: 100, price: 16 },
        { id: 'whole', width: 400, height: 200, price: 30 },
      ],
      kerf: 2,
      margin: 4,
    };
    const result = run(question, 400);
    expect(faults(question, result)).toEqual([]);
    // Four on a whole sheet and one on a half: 46. Three halves would be 48, two wholes 60.
    expect(result.price).toBe(46);
  });

  it('saves the sheet that largest first would waste', () => {
    // Largest first: 40 + 40, 30 + 30 + 30, 30. Better: twice 40 + 30 + 30.
    const question: NestQuestion = {
      pieces: [piece('long', box(40, 20), 2, { turns: [0] }), piece('short', box(30, 20), 4, { turns: [0] })],
      stock: [{ id: 'sheet', width: 100, height: 20 }],
      kerf: 0,
      margin: 0,
    };
    const result = run(question, 300);
    expect(faults(question, result)).toEqual([]);
    expect(result.sheets).toHaveLength(2);
    expect(result.utilisation).toBeCloseTo(1, 9);
  });

  it('stops at the stock there is', () => {
    const question: NestQuestion = {
      pieces: [piece('plate', box(190, 90), 9)],
      stock: [{ id: 'sheet', width: 400, height: 200, count: 2 }],
      kerf: 2,
      margin: 4,
    };
    const result = run(question, 100);
    expect(faults(question, result)).toEqual([]);
    expect(result.placements).toHaveLength(8);
    expect(result.unplaced).toEqual([{ reason: 'stock used up', id: 'plate', count: 1 }]);
  });
});

/** A star of straight and bulging sides round (0, 0): any outline that a hand could draw, never crossing itself. */
const anyOutline = (random: Random, size: number): Loop => {
  const count = 3 + random.below(7);
  const points = Array.from({ length: count }, (_, i) => {
    const angle = ((i + 0.7 * random.next()) * 2 * Math.PI) / count;
    const reach = size * (0.3 + 0.7 * random.next());
    return { x: reach * Math.cos(angle), y: reach * Math.sin(angle) };
  });
  return polygon(points);
};

describe('whatever is asked', () => {
  it.each([1, 2, 3, 4, 5, 6])('nothing overlaps and every copy is accounted for (%i)', (seed) => {
    const random = seededRandom(seed);
    const kerf = random.next() < 0.3 ? 0 : 3 * random.next();
    const question: NestQuestion = {
      pieces: Array.from({ length: 5 }, (_, i) => {
        const size = 20 + 60 * random.next();
        const hole = random.next() < 0.4 ? [circleLoop({ centre: { x: 0, y: 0 }, radius: 4 + random.next() * size * 0.1 })] : [];
        const outline = random.next() < 0.3 ? circleLoop({ centre: { x: size, y: 0 }, radius: size / 2 }) : anyOutline(random, size);
        const holes = outline[0]?.kind === 'arc' ? [circleLoop({ centre: { x: size, y: 0 }, radius: size / 3 })] : hole;
        return piece(`p${i}`, outline, 1 + random.below(4), {
          holes: holes.filter(() => outline[0]?.kind === 'arc' || size > 60),
          mayTurnOver: random.next() < 0.5,
          turnStep: random.next() < 0.5 ? Math.PI / 2 : Math.PI / 6,
          grain: random.next() < 0.3 ? 'x' : 'any',
        });
      }),
      stock: [
        { id: 'remnant', width: 150, height: 120, offcut: true, grain: 'x' },
        { id: 'sheet', width: 320, height: 240, ...(random.next() < 0.5 ? { grain: 'y' as const } : {}) },
      ],
      kerf,
      margin: 6 * random.next(),
    };
    const result = run(question, 40, seed);
    expect(faults(question, result)).toEqual([]);
    expect(run(question, 40, seed)).toEqual(result);
  });

  it('answers an empty question, a stockless one and one of nothing but nonsense', () => {
    const none = { pieces: [], stock: [{ id: 'sheet', width: 100, height: 100 }], kerf: 1, margin: 1 };
    expect(run(none, 5)).toMatchObject({ sheets: [], placements: [], unplaced: [] });
    expect(run({ ...none, pieces: [piece('a', box(5, 5), 2)], stock: [] }, 5).unplaced).toEqual([
      { reason: 'no stock', id: 'a', count: 2 },
    ]);
    expect(run({ ...none, pieces: [piece('a', polygon(corners([0, 0], [5, 5])), 1)] }, 5).unplaced).toEqual([
      { reason: 'no outline', id: 'a', count: 1 },
    ]);
  });
});

describe('step by step', () => {
  it('shows what is reached, never worse than the step before', () => {
    const question: NestQuestion = {
      pieces: [piece('wedge', polygon(corners([0, 0], [90, 0], [30, 50])), 9), piece('bar', box(120, 15), 5)],
      stock: { id: 'coil', width: 150 },
      kerf: 1,
      margin: 3,
    };
    let length = Number.POSITIVE_INFINITY;
    let steps = 0;
    for (const progress of nest(question, { seed: 4, patience: 3 })) {
      if (progress.phase !== 'improving') continue;
      if (steps === 1000) break;
      expect(progress.length).toBeLessThanOrEqual(length);
      length = progress.length;
      if (steps++ % 50 === 0) expect(progress.result().length).toBeCloseTo(progress.length, 9);
    }
    expect(steps).toBeGreaterThan(3);
  });

  it('is drawn with every piece where it lies and a place for its name', () => {
    const question: NestQuestion = {
      pieces: [
        piece('ring', circleLoop({ centre: { x: 0, y: 0 }, radius: 50 }), 2, {
          holes: [circleLoop({ centre: { x: 0, y: 0 }, radius: 30 })],
        }),
      ],
      stock: [{ id: 'sheet', width: 300, height: 150 }],
      kerf: 1,
      margin: 2,
    };
    const [picture] = nestPictures(question, run(question, 20));
    expect(picture?.pieces).toHaveLength(2);
    for (const { outline, holes, label, labelRoom } of picture?.pieces ?? []) {
      // Midway between 30 and 50: ten to either side.
      expect(labelRoom).toBeGreaterThan(9.5);
      expect(pointInLoop(label, outline)).toBe(true);
      expect(pointInLoop(label, holes[0] ?? [])).toBe(false);
      expect(signedArea(outline)).toBeCloseTo(Math.PI * 2500, 6);
      expect(signedArea(holes[0] ?? [])).toBeCloseTo(-Math.PI * 900, 6);
    }
  });
});
