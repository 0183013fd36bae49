import { describe, expect, test } from 'vitest';
import { place } from '../../server/shape/index.js';
import { byK, cut, hole, rectangle, sheet } from './build.js';
import { expectAreaAgrees, expectWellFormed, laidOut } from './judge.js';

/*
 * A shallow tray for a joiner's tools, worked by hand. Outside 200 by 100, four walls 20 high up, sheet 1.5, inside radius 2, K 0.42.
 *
 *   allowance   90° is 1.570796 rad; 1.570796 × (2 + 0.42 × 1.5) = 1.570796 × 2.63        = 4.131194
 *   setback     (2 + 1.5) × tan 45°                                                      = 3.5
 *   base        200 − 2 × 3.5 = 193 by 100 − 2 × 3.5                                     = 93
 *   wall, flat  20 − 3.5                                                                 = 16.5
 *   width       193 + 2 × (4.131194 + 16.5)                                              = 234.262388
 *   height       93 + 2 × 20.631194                                                      = 134.262388
 *   relief      2 × 2 = 4 across, more than the least of 3.175 for sheet up to 1.6256
 *   area        193 × 93 + 2 × (193 + 93) × 20.631194 − 4 × ¾ π 2²
 *               = 17949 + 11801.042968 − 37.699112                                       = 29712.343856
 *   cut length  each wall: 193 (or 93) + 2 × (20.631194 − 2); each relief ¾ × 4π = 9.424778
 *               = 2 × (193 + 93) + 8 × 18.631194 + 4 × 9.424778 = 572 + 149.049552 + 37.699112 = 758.748664
 *   mass        29712.343856 mm² × 1.5 mm × 7850 kg/m³                                   = 0.349863 kg
 */
describe('a tray of four walls, worked by hand', () => {
  const tray = rectangle(200, 100, {
    sheet: sheet(1.5, 2, byK(0.42)),
    edges: ['bottom', 'right', 'top', 'left'].map((edge) => ({ edge, steps: [{ length: 20 }] })),
    cuts: [
      hole('hole.1', 5, { x: 10, y: 10 }),
      hole('hole.2', 4, { x: 100, y: 12 }, 'top.1'),
      hole('hole.3', 4, { x: 30, y: 12 }, 'bottom.1'),
      hole('hole.4', 4, { x: 30, y: 12 }, 'left.1'),
    ],
  });
  const bare = { ...tray, cuts: [] };

  test('sizes, area, mass and cut length', () => {
    const blank = laidOut(bare);
    expect(blank.width).toBeCloseTo(234.262388, 5);
    expect(blank.height).toBeCloseTo(134.262388, 5);
    expect(blank.area).toBeCloseTo(29712.343856, 3);
    expect(blank.cutLength).toBeCloseTo(758.748664, 5);
    expect(blank.mass).toBeCloseTo(0.349863, 6);
    expect(blank.pierces).toBe(1);
    expectWellFormed(blank);
    expectAreaAgrees(blank);
  });

  test('the outline is four walls of three lines with an arc of 270° at each corner', () => {
    const blank = laidOut(bare);
    expect(blank.outline.map((move) => move.kind)).toEqual([
      'line',
      'line',
      'arc',
      'line',
      'line',
      'line',
      'arc',
      'line',
      'line',
      'line',
      'arc',
      'line',
      'line',
      'line',
      'arc',
      'line',
    ]);
    // Begins at the lower left corner of the bottom wall: 20.631194 in from the left, at the very bottom.
    expect(blank.outline.at(-1)?.to.x).toBeCloseTo(20.631194, 5);
    expect(blank.outline.at(-1)?.to.y).toBeCloseTo(0, 9);
    expect(blank.outline[0]?.to.x).toBeCloseTo(213.631194, 5);
    const relief = blank.outline[2];
    if (relief?.kind !== 'arc') throw new Error('an arc was expected');
    expect(relief.turn).toBe('right');
    expect(relief.centre.x).toBeCloseTo(213.631194, 5);
    expect(relief.centre.y).toBeCloseTo(20.631194, 5);
    expect(blank.reliefs.map((r) => [r.size, r.kind, r.automatic])).toEqual(Array(4).fill([4, 'round', true]));
  });

  test('the top bend: its line in the middle of its zone, tangent lines half an allowance to each side, the mark a radius out from the base', () => {
    const bend = laidOut(bare).bends.find((b) => b.id === 'top.1');
    if (bend === undefined) throw new Error('no bend');
    // The base's top tangent line lies 20.631194 + 93 above the blank's lower edge; the base is on its left, so it runs from right to left.
    const tangent = 113.631194;
    for (const [line, y] of [
      [bend.tangentParent, tangent],
      [[bend.from, bend.to] as const, tangent + 2.065597],
      [bend.tangentChild, tangent + 4.131194],
      [bend.brakeLine, tangent + 2],
    ] as const) {
      expect(line[0].x).toBeCloseTo(213.631194, 5);
      expect(line[1].x).toBeCloseTo(20.631194, 5);
      expect(line[0].y).toBeCloseTo(y, 5);
      expect(line[1].y).toBeCloseTo(y, 5);
    }
    expect(bend.allowance).toBeCloseTo(4.131194, 5);
    expect(bend.setback).toBeCloseTo(3.5, 9);
    expect(bend.deduction).toBeCloseTo(2.868806, 5);
    expect(bend.k).toBeCloseTo(0.42, 9);
    expect(bend.method).toBe('K 0.42');
    expect([bend.parent, bend.child, bend.direction]).toEqual(['base', 'top.1', 'up']);
  });

  test('holes are carried from finished places to the blank', () => {
    const blank = laidOut(tray);
    const at = (id: string) => blank.cutouts.find((c) => c.id === id)?.centre;
    // The finished lower left corner lies a setback outside both tangent lines: 20.631194 − 3.5 = 17.131194 from each edge of the blank.
    expect(at('hole.1')?.x).toBeCloseTo(27.131194, 5);
    expect(at('hole.1')?.y).toBeCloseTo(27.131194, 5);
    // 12 from the outside of the base is 12 − 3.5 = 8.5 beyond the wall's own tangent line.
    expect(at('hole.2')?.x).toBeCloseTo(117.131194, 5);
    expect(at('hole.2')?.y).toBeCloseTo(113.631194 + 4.131194 + 8.5, 5);
    expect(at('hole.3')?.x).toBeCloseTo(47.131194, 5);
    expect(at('hole.3')?.y).toBeCloseTo(16.5 - 8.5, 5);
    expect(at('hole.4')?.x).toBeCloseTo(8, 5);
    expect(at('hole.4')?.y).toBeCloseTo(47.131194, 5);
    expect(blank.area).toBeCloseTo(29712.343856 - Math.PI * (2.5 ** 2 + 3 * 2 ** 2), 3);
    expect(blank.pierces).toBe(5);
  });

  test('each face’s own coordinates land on its own polygon', () => {
    for (const face of laidOut(tray).faces) {
      const middle = place(
        face.place,
        face.id === 'base' ? { x: 100, y: 50 } : { x: face.id.startsWith('top') || face.id.startsWith('bottom') ? 100 : 50, y: 10 },
      );
      const xs = face.polygon.map((m) => m.to.x);
      const ys = face.polygon.map((m) => m.to.y);
      expect(middle.x > Math.min(...xs) && middle.x < Math.max(...xs) && middle.y > Math.min(...ys) && middle.y < Math.max(...ys)).toBe(
        true,
      );
    }
  });

  test('slots and cut-outs run clockwise whatever flange they lie on', () => {
    const shapes = (on: string | undefined) => [
      cut('slot.1', { kind: 'slot', width: 4, length: 12 }, { x: 60, y: 10 }, on, 0.3),
      cut('cut.1', { kind: 'rectangle', width: 10, height: 6, corner: 2 }, { x: 40, y: 10 }, on),
    ];
    for (const on of [undefined, 'bottom.1', 'right.1', 'top.1', 'left.1']) {
      const plain = laidOut(bare).area;
      const blank = laidOut({ ...bare, cuts: shapes(on) });
      // slot 4 × 8 and a circle of 4; rectangle 10 × 6 less what a square of 4 has more than a circle of 4
      expect(plain - blank.area).toBeCloseTo(32 + 4 * Math.PI + 60 - (16 - 4 * Math.PI), 6);
    }
  });
});
