import { describe, expect, test } from 'vitest';
import { signedArea } from '../../server/shape/index.js';
import { byK, corner, type DrawnStep, drawn, type EdgeSketch, leg, polygonPanel, rectangle, section, sheet, turn } from './build.js';
import { expectAreaAgrees, expectWellFormed, laidOut, laidOutThough, rectangleLoop } from './judge.js';

const crs = sheet(1.5, 2, byK(0.42));
const BA = 4.131194; // worked in tray.test.ts
const wall = (edge: string, length = 20): EdgeSketch => ({ edge, steps: [{ length }] });

describe('sizes as they are measured', () => {
  test('inside sizes: the base loses only the inside radius', () => {
    const blank = laidOut(rectangle(200, 100, { sheet: crs, convention: 'inside', edges: [wall('top'), wall('bottom')] }));
    // 100 − 2 × 2 + 2 × (BA + 20 − 2)
    expect(blank.height).toBeCloseTo(96 + 2 * (BA + 18), 5);
    expect(blank.width).toBeCloseTo(200, 9);
  });

  test('flat sizes: nothing is taken off', () => {
    const blank = laidOut(rectangle(200, 100, { sheet: crs, convention: 'flat', edges: [wall('top')] }));
    expect(blank.height).toBeCloseTo(100 + BA + 20, 5);
  });

  test('a return turned the same way, and a Z, take a setback off both ends of the flange between', () => {
    for (const direction of ['up', 'down'] as const) {
      const blank = laidOut(
        rectangle(200, 100, { sheet: crs, edges: [{ edge: 'top', steps: [{ length: 20 }, { length: 15, direction }] }] }),
      );
      expect(blank.height).toBeCloseTo(96.5 + BA + 13 + BA + 11.5, 5);
      expectWellFormed(blank);
      expectAreaAgrees(blank);
    }
  });

  test('beyond a square turn the size runs to the outermost tangent', () => {
    const blank = laidOut(rectangle(200, 100, { sheet: crs, edges: [{ edge: 'top', steps: [{ length: 20, turn: 120 }] }] }));
    // 96.5 + 5.508258 (4.131194 × 120/90) + 16.5
    expect(blank.height).toBeCloseTo(96.5 + 5.508258 + 16.5, 5);
  });
});

describe('corners', () => {
  const tray = (...corners: ReturnType<typeof corner>[]) =>
    rectangle(200, 100, { sheet: crs, edges: [wall('top'), wall('left'), wall('bottom'), wall('right')], corners });

  test('a square relief of 5 takes three quarters of itself', () => {
    const blank = laidOut(tray(corner({ kind: 'open', relief: { kind: 'square', side: 5 } })));
    expectWellFormed(blank);
    expectAreaAgrees(
      blank,
      blank.reliefs.map((r) => rectangleLoop(r.at.x - 2.5, r.at.y - 2.5, 5, 5)),
    );
    expect(blank.reliefs.every((r) => !r.automatic && r.kind === 'square')).toBe(true);
  });

  test('a written round relief, and none', () => {
    const blank = laidOutThough(
      ['corner/relief-missing'],
      tray(
        corner({ kind: 'open', relief: { kind: 'round', diameter: 6 } }),
        corner({ kind: 'open', relief: { kind: 'none' } }, 'left', 'top'),
      ),
    );
    expect(blank.reliefs.map((r) => r.size)).toEqual([6, 6, 6]);
    expectWellFormed(blank);
    expectAreaAgrees(blank);
  });

  test('thin sheet with a tight radius gets the least relief the handbook allows; thick sheet a larger one', () => {
    // Source: FAA-H-8083-31 ch. 4, folding a box: 1/8 in up to 0.064 in, 3/16 in above.
    const edges = [wall('top'), wall('left')];
    expect(laidOut(rectangle(200, 100, { sheet: sheet(1, 1, byK(0.42)), edges })).reliefs[0]?.size).toBeCloseTo(3.175, 9);
    expect(laidOut(rectangle(200, 100, { sheet: sheet(2, 1, byK(0.42)), edges })).reliefs[0]?.size).toBeCloseTo(4.7625, 9);
  });

  test('rounded, cut and notched corners where nothing is bent', () => {
    const blank = laidOut(
      rectangle(200, 100, {
        sheet: crs,
        corners: [
          corner({ kind: 'radius', radius: 10 }),
          corner({ kind: 'chamfer', size: 6 }, 'top', 'left'),
          corner({ kind: 'notch', width: 30, depth: 12 }, 'bottom', 'right'),
        ],
      }),
    );
    expectWellFormed(blank);
    // two roundings take r²(1 − π/4) each, the chamfer half a square, the notch its rectangle
    expect(blank.area).toBeCloseTo(20000 - 2 * 100 * (1 - Math.PI / 4) - 18 - 360, 6);
    expect([blank.width, blank.height]).toEqual([200, 100]);
    expect(blank.outline.filter((m) => m.kind === 'arc')).toHaveLength(2);
  });

  test('a notch beside a bend shortens its flange and goes in from the finished outline', () => {
    const plain = laidOut(rectangle(200, 100, { sheet: crs, edges: [wall('top')] }));
    const blank = laidOut(
      rectangle(200, 100, { sheet: crs, edges: [wall('top')], corners: [corner({ kind: 'notch', width: 30, depth: 12 }, 'top', 'left')] }),
    );
    expectWellFormed(blank);
    // 30 of the flange's strip, and 30 × (12 − 3.5) of the base
    expect(plain.area - blank.area).toBeCloseTo(30 * (BA + 16.5) + 30 * 8.5, 4);
  });

  test('`corner all radius` rounds the free corners of flanges too', () => {
    const blank = laidOut(rectangle(200, 100, { sheet: crs, edges: [wall('top')], corners: [corner({ kind: 'radius', radius: 5 })] }));
    expectWellFormed(blank);
    expect(blank.outline.filter((m) => m.kind === 'arc')).toHaveLength(4);
  });
});

describe('flanges on part of an edge, beside a step, and on flanges', () => {
  test('a flange on part of an edge has a slit at each end within the edge', () => {
    const blank = laidOut(rectangle(200, 100, { sheet: crs, edges: [{ edge: 'top', from: 50, to: 120, steps: [{ length: 20 }] }] }));
    expectWellFormed(blank);
    // a strip 70 wide replaces 70 × 3.5 of the finished edge; each slit is 1.5 by 3.5 + 0.5, and 0.5 past the tangent line
    expect(blank.area).toBeCloseTo(20000 - 70 * 3.5 + 70 * (BA + 16.5) - 2 * 1.5 * 4, 4);
    expect(blank.reliefs).toHaveLength(2);
    expect(blank.height).toBeCloseTo(96.5 + BA + 16.5, 5);
  });

  test('two pieces on the left edge, one of them up to the corner', () => {
    const edges: EdgeSketch[] = [
      { edge: 'left', to: 40, steps: [{ length: 20 }] },
      { edge: 'left', from: 60, to: 90, steps: [{ length: 25, direction: 'down' }] },
      wall('bottom'),
    ];
    const blank = laidOut(rectangle(200, 100, { sheet: crs, edges }));
    expectWellFormed(blank);
    const bends = blank.bends.map((b) => Math.hypot(b.to.x - b.from.x, b.to.y - b.from.y));
    // the first stops at the bottom's tangent line, 3.5 up
    expect(bends.sort((a, b) => a - b).map((l) => Math.round(l * 1e6) / 1e6)).toEqual([30, 36.5, 196.5]);
  });

  test('a flange that ends in an inward corner gives way by a slit', () => {
    // An L: 200 wide, 150 high, the upper right 80 × 60 left out; the step's tread is bent up.
    const ell = (edge: string) =>
      drawn(
        { x: 0, y: 0 },
        [
          { to: { x: 200, y: 0 }, name: 'sill' },
          { to: { x: 200, y: 90 }, name: 'side' },
          { to: { x: 120, y: 90 }, name: 'tread' },
          { to: { x: 120, y: 150 }, name: 'riser' },
          { to: { x: 0, y: 150 }, name: 'head' },
          { to: { x: 0, y: 0 }, name: 'back' },
        ],
        { sheet: crs, edges: [wall(edge)] },
      );
    const tread = laidOut(ell('tread'));
    expectWellFormed(tread);
    expect(tread.area).toBeCloseTo(200 * 150 - 80 * 60 - 80 * 3.5 + 78.5 * (BA + 16.5) - 1.5 * 0.5, 4);
    const riser = laidOut(ell('riser'));
    expectWellFormed(riser);
    expect(riser.area).toBeCloseTo(200 * 150 - 80 * 60 - 60 * 3.5 + 58.5 * (BA + 16.5) - 1.5 * 0.5, 4);
  });

  test('flanges on a flange’s ends: a relief where the two bends meet, one step further out', () => {
    const edges: EdgeSketch[] = [
      {
        edge: 'bottom',
        steps: [
          {
            length: 40,
            edges: [
              { edge: 'left', steps: [{ length: 15 }] },
              { edge: 'right', steps: [{ length: 15 }] },
            ],
          },
        ],
      },
    ];
    const blank = laidOut(rectangle(200, 100, { sheet: crs, edges }));
    expectWellFormed(blank);
    expectAreaAgrees(blank);
    expect(blank.reliefs).toHaveLength(2);
    // across the flange: 200 − 7 between its end tangents, then allowance and 11.5 on both sides
    expect(blank.width).toBeCloseTo(193 + 2 * (BA + 11.5), 5);
    expect(blank.faces.map((f) => f.id)).toEqual(['base', 'bottom.1', 'bottom.1.left.1', 'bottom.1.right.1']);
  });

  test('nested flanges and a return on every edge agree with both libraries', () => {
    const ends = (low: string, high: string): EdgeSketch[] => [
      { edge: low, steps: [{ length: 12 }] },
      { edge: high, steps: [{ length: 14, turn: 60 }] },
    ];
    const edges: EdgeSketch[] = [
      { edge: 'top', steps: [{ length: 40, edges: ends('left', 'right') }, { length: 12 }] },
      { edge: 'left', steps: [{ length: 40 }, { length: 12, edges: ends('bottom', 'top') }] },
      { edge: 'right', steps: [{ length: 30 }] },
    ];
    const blank = laidOut(rectangle(300, 200, { sheet: crs, edges }));
    expectWellFormed(blank);
    expectAreaAgrees(blank);
  });
});

describe('drawn outlines', () => {
  test('an arc beside a bent edge keeps its centre and radius and is trimmed to the tangent line', () => {
    // A half-round cover: straight back edge 200 long, bent; a half circle round the rest.
    const steps: DrawnStep[] = [
      { to: { x: 200, y: 0 }, name: 'back' },
      { to: { x: 0, y: 0 }, arc: { centre: { x: 100, y: 0 }, turn: 'left' }, name: 'round' },
    ];
    const blank = laidOut(drawn({ x: 0, y: 0 }, steps, { sheet: crs, edges: [wall('back')] }));
    expectWellFormed(blank);
    const arc = blank.outline.find((m) => m.kind === 'arc');
    if (arc?.kind !== 'arc') throw new Error('an arc was expected');
    expect(Math.hypot(arc.to.x - arc.centre.x, arc.to.y - arc.centre.y)).toBeCloseTo(100, 6);
    // the base is the part of the half disc above y = 3.5; the flange spans its chord
    const half = Math.sqrt(100 ** 2 - 3.5 ** 2);
    const base = 100 ** 2 * Math.acos(3.5 / 100) - 3.5 * half;
    expect(blank.area).toBeCloseTo(base + 2 * half * (BA + 16.5), 3);
    expectAreaAgrees(blank);
  });

  test('acute, square and obtuse corners, all bent', () => {
    const corners = [
      { x: 0, y: 0 },
      { x: 300, y: 0 },
      { x: 300, y: 150 },
      { x: 180, y: 260 },
    ];
    const blank = laidOut(polygonPanel(corners, { sheet: crs, edges: ['a', 'b', 'c', 'd'].map((e) => wall(e)) }));
    expect(blank.reliefs).toHaveLength(4);
    expectWellFormed(blank);
    expectAreaAgrees(blank);
  });

  test('drawn clockwise, it gives the same blank', () => {
    const corners = [
      { x: 0, y: 0 },
      { x: 300, y: 0 },
      { x: 300, y: 150 },
      { x: 180, y: 260 },
    ];
    const one = laidOut(polygonPanel(corners, { sheet: crs, edges: [wall('a')] }));
    const other = laidOut(polygonPanel([...corners].reverse(), { sheet: crs, edges: [wall('c')] }));
    expect(other.area).toBeCloseTo(one.area, 6);
    expectWellFormed(other);
  });
});

describe('sections', () => {
  test('a hat for a canopy pole: legs stacked up, each between opposite turns measured over everything', () => {
    const steps = [leg(15), turn('down'), leg(32), turn('up'), leg(45), turn('up'), leg(32), turn('down'), leg(15)];
    const blank = laidOut(section(240, crs, steps));
    // 15 + 32 + 45 + 32 + 15 = 139 outside, less four deductions of 2 × 3.5 − 4.131194
    expect(blank.height).toBeCloseTo(139 - 4 * 2.868806, 5);
    expect(blank.width).toBeCloseTo(240, 9);
    expect(blank.faces.map((f) => f.id)).toEqual(['leg.1', 'leg.2', 'leg.3', 'leg.4', 'leg.5']);
    expect(blank.bends.map((b) => [b.id, b.direction])).toEqual([
      ['turn.1', 'down'],
      ['turn.2', 'up'],
      ['turn.3', 'up'],
      ['turn.4', 'down'],
    ]);
    expect(blank.outline).toHaveLength(4);
    expect(signedArea(blank.outline)).toBeCloseTo(240 * (139 - 4 * 2.868806), 3);
    expectAreaAgrees(blank);
  });

  test('a hole on a leg: x from the left end, y from the outside of the leg before', () => {
    const at = { x: 50, y: 10 };
    const holes = ['leg.1', 'web'].map((on, i) => ({
      id: `hole.${i}`,
      on,
      shape: { kind: 'hole', diameter: 5, thread: undefined } as const,
      at,
      turned: 0,
      span: { start: 0, end: 1 },
      sizeSpan: { start: 0, end: 1 },
      atSpan: { start: 0, end: 1 },
    }));
    const blank = laidOut(section(240, crs, [leg(20), turn('up'), leg(40, 'web')], holes));
    expect(blank.cutouts.map((c) => [Math.round(c.centre.x * 1e6) / 1e6, Math.round(c.centre.y * 1e5) / 1e5])).toEqual([
      [50, 10],
      [50, Math.round((16.5 + BA + 6.5) * 1e5) / 1e5],
    ]);
  });
});
