import { describe, expect, it } from 'vitest';
import { polygon } from '../../server/shape/index.js';
import { takenApart } from '../../server/stock/index.js';
import type { NestPicture } from '../../server/stock/types.js';

/** Boxes as `name: left bottom right top`, lying on a sheet. */
const sheet = (width: number, height: number, boxes: Readonly<Record<string, readonly [number, number, number, number]>>): NestPicture => ({
  stock: 'sheet',
  width,
  height,
  margin: 0,
  offcuts: [],
  pieces: Object.entries(boxes).map(([id, [left, bottom, right, top]]) => ({
    id,
    copy: 0,
    outline: polygon([
      { x: left, y: bottom },
      { x: right, y: bottom },
      { x: right, y: top },
      { x: left, y: top },
    ]),
    holes: [],
    label: { x: (left + right) / 2, y: (bottom + top) / 2 },
    labelRoom: 1,
    flipped: false,
  })),
});

describe('a sheet taken apart by straight cuts', () => {
  it('the free strip comes off first, then the shortest cuts, each from edge to edge of what is left', () => {
    const picture = sheet(1000, 500, { a: [0, 0, 300, 200], b: [303, 0, 600, 200], c: [0, 203, 600, 500] });
    expect(takenApart(picture, 3)).toEqual({
      cuts: [
        { axis: 'x', at: 601.5, from: 0, to: 500 },
        { axis: 'y', at: 201.5, from: 0, to: 601.5 },
        { axis: 'x', at: 301.5, from: 0, to: 201.5 },
      ],
      together: [],
    });
  });
  it('a strip below or at the left comes off whole too', () => {
    expect(takenApart(sheet(1000, 500, { a: [0, 200, 480, 500], b: [483, 200, 1000, 500] }), 3).cuts).toEqual([
      { axis: 'y', at: 198.5, from: 0, to: 1000 },
      { axis: 'x', at: 481.5, from: 198.5, to: 500 },
    ]);
  });
  it('four round a middle, like the vanes of a windmill, are parted by no straight cut', () => {
    const picture = sheet(300, 300, { a: [0, 0, 200, 100], b: [200, 0, 300, 200], c: [100, 200, 300, 300], d: [0, 100, 100, 300] });
    expect(takenApart(picture, 0)).toEqual({ cuts: [], together: [['a', 'b', 'c', 'd']] });
  });
  it('no cut meets a piece', () => {
    const picture = sheet(900, 600, {
      a: [6, 6, 400, 190],
      b: [403, 6, 700, 300],
      c: [6, 193, 300, 594],
      d: [303, 303, 894, 594],
      e: [703, 6, 894, 100],
    });
    const { cuts, together } = takenApart(picture, 3);
    const boxes: readonly (readonly [number, number, number, number])[] = [
      [6, 6, 400, 190],
      [403, 6, 700, 300],
      [6, 193, 300, 594],
      [303, 303, 894, 594],
      [703, 6, 894, 100],
    ];
    for (const { axis, at, from, to } of cuts) {
      for (const [left, bottom, right, top] of boxes) {
        const [low, high, near, far] = axis === 'x' ? [left, right, bottom, top] : [bottom, top, left, right];
        expect(low < at && at < high && near < to && from < far).toBe(false);
      }
    }
    expect(cuts.length + together.length).toBeGreaterThan(0);
  });
});
