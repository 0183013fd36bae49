import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Box,
  bringIntoSight,
  FIT,
  fittedUnit,
  panBy,
  readView,
  readViewBox,
  type Size,
  toPicture,
  unitOf,
  type View,
  viewBoxOf,
  wheelFactor,
  writeViewBox,
  zoomAbout,
} from '../../client/preview/viewport.js';

const gate: Box = { x: -20, y: -10, width: 800, height: 300 };
const panel: Size = { width: 836, height: 600 };

describe('the fitted view', () => {
  test('shows the whole part with a margin of 18 px, in the middle', () => {
    // 800 mm over 836 - 2 × 18 = 800 px: one millimetre to the pixel.
    expect(fittedUnit(gate, panel)).toBe(1);
    expect(viewBoxOf(FIT, gate, panel)).toEqual({ x: -38, y: -160, width: 836, height: 600 });
  });

  test('a tall part is fitted by its height', () => {
    expect(fittedUnit({ x: 0, y: 0, width: 10, height: 564 }, panel)).toBe(1);
  });

  test('a window with no size yet gives finite numbers', () => {
    const box = viewBoxOf(FIT, gate, { width: 0, height: 0 });
    expect([box.x, box.y, box.width, box.height].every(Number.isFinite)).toBe(true);
  });
});

const views = fc.oneof(
  fc.constant<View>(FIT),
  fc.record({
    kind: fc.constant('held' as const),
    x: fc.double({ min: -100, max: 900, noNaN: true }),
    y: fc.double({ min: -100, max: 400, noNaN: true }),
    unit: fc.double({ min: 0.05, max: 4, noNaN: true }),
  }),
);
const spots = fc.record({ x: fc.double({ min: 0, max: 836, noNaN: true }), y: fc.double({ min: 0, max: 600, noNaN: true }) });

describe('zooming', () => {
  test('keeps what is under the pointer under the pointer', () => {
    fc.assert(
      fc.property(views, spots, fc.double({ min: 0.5, max: 2, noNaN: true }), (view, spot, factor) => {
        const before = toPicture(view, gate, panel, spot);
        const after = toPicture(zoomAbout(view, gate, panel, spot, factor), gate, panel, spot);
        expect(after.x).toBeCloseTo(before.x, 6);
        expect(after.y).toBeCloseTo(before.y, 6);
      }),
    );
  });

  test('doubles the size on the screen for a factor of 2', () => {
    expect(unitOf(zoomAbout(FIT, gate, panel, { x: 0, y: 0 }, 2), gate, panel)).toBe(0.5);
  });

  test('stops at 200 times closer and 8 times farther than fitted', () => {
    let near: View = FIT;
    let far: View = FIT;
    for (let turn = 0; turn < 60; turn++) {
      near = zoomAbout(near, gate, panel, { x: 400, y: 300 }, 2);
      far = zoomAbout(far, gate, panel, { x: 400, y: 300 }, 0.5);
    }
    expect(unitOf(near, gate, panel)).toBe(1 / 200);
    expect(unitOf(far, gate, panel)).toBe(8);
  });

  test('a wheel turned up comes closer, down goes away by as much, and one wild event is held back', () => {
    expect(wheelFactor(-100, 0, false)).toBeGreaterThan(1);
    expect(wheelFactor(-100, 0, false) * wheelFactor(100, 0, false)).toBeCloseTo(1, 12);
    expect(wheelFactor(-1e6, 0, false)).toBe(wheelFactor(-120, 0, false));
    expect(wheelFactor(-3, 1, false)).toBe(wheelFactor(-48, 0, false));
  });
});

describe('moving', () => {
  test('goes by the pixels the hand moved', () => {
    expect(panBy({ kind: 'held', x: 100, y: 100, unit: 0.5 }, gate, panel, 30, -20)).toEqual({ kind: 'held', x: 85, y: 110, unit: 0.5 });
  });

  test('never loses the part from the window', () => {
    fc.assert(
      fc.property(
        views,
        fc.double({ min: -1e5, max: 1e5, noNaN: true }),
        fc.double({ min: -1e5, max: 1e5, noNaN: true }),
        (view, right, down) => {
          const seen = viewBoxOf(panBy(view, gate, panel, right, down), gate, panel);
          expect(seen.x).toBeLessThan(gate.x + gate.width);
          expect(seen.x + seen.width).toBeGreaterThan(gate.x);
          expect(seen.y).toBeLessThan(gate.y + gate.height);
          expect(seen.y + seen.height).toBeGreaterThan(gate.y);
        },
      ),
    );
  });

  test('a feature in sight moves nothing; one out of sight comes to the middle', () => {
    const near: View = { kind: 'held', x: 100, y: 100, unit: 0.1 };
    expect(bringIntoSight(near, gate, panel, { x: 100, y: 90, width: 10, height: 10 })).toBe(near);
    expect(bringIntoSight(near, gate, panel, { x: 600, y: 90, width: 10, height: 10 })).toEqual({ kind: 'held', x: 605, y: 95, unit: 0.1 });
  });
});

describe('what is read back', () => {
  test('a viewBox is four numbers with a size', () => {
    expect(readViewBox('-20 -10 800 300')).toEqual(gate);
    expect(readViewBox('-20,-10, 800 300')).toEqual(gate);
    expect(readViewBox(writeViewBox(gate))).toEqual(gate);
    for (const wrong of [null, '', '0 0 10', '0 0 0 10', '0 0 x 10', '0 0 10 10 10']) expect(readViewBox(wrong)).toBeUndefined();
  });

  test('a kept view that makes no sense becomes the fitted view', () => {
    expect(readView({ kind: 'held', x: 1, y: 2, unit: 3 })).toEqual({ kind: 'held', x: 1, y: 2, unit: 3 });
    for (const wrong of [undefined, null, 7, {}, { kind: 'held', x: 1, y: 2, unit: 0 }, { kind: 'held', x: 'a', y: 2, unit: 3 }])
      expect(readView(wrong)).toBe(FIT);
  });
});
