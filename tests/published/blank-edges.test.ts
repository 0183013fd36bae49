/** Hems, wired edges, joggles and bent strips as whole blanks, against what the trade's books print and what their geometry gives. */
import { describe, expect, test } from 'vitest';
import type { Blank } from '../../server/blank/types.js';
import { byK, leg, rectangle, type StepSketch, section, sheet, turn } from '../blank/build.js';
import { laidOut } from '../blank/judge.js';

/** What an edge adds to a finished height of 100. */
const added = (thickness: number, k: number, radius: number, ...steps: readonly StepSketch[]): number =>
  laidOut(rectangle(200, 100, { sheet: sheet(thickness, radius, byK(k)), edges: [{ edge: 'top', steps }] })).height - 100;
const inch = 25.4;

describe('single hem: the books add its width', () => {
  // Source: US Navy, Steelworker Volume 2, NAVEDTRA 14251 (1996), ch. 2: W = 1/4 in adds 1/4 in. The exact fold comes within half a thickness of it.
  test.each([0.6, 0.8, 1, 1.2])('W 1/4 in in %s mm sheet', (thickness) => {
    const exact = added(thickness, 0.5, 1, { hem: inch / 4 });
    expect(Math.abs(exact - inch / 4)).toBeLessThan(thickness / 2);
  });
  // Source: plane geometry: (W − R − T) + π (R + K T) − (R + T), worked out by hand.
  test.each([
    [10, 1, 0, 0.5, 9.5708],
    [10, 1, 0.5, 0.42, 9.8903],
    [12, 1.2, 0.6, 0.42, 11.8683],
  ])('W %s, T %s, R %s, K %s adds %s', (hem, thickness, radius, k, expected) => {
    const style = radius === 0 ? ({ kind: 'closed' } as const) : ({ kind: 'open', gap: 2 * radius } as const);
    expect(added(thickness, k, 1, { hem, style })).toBeCloseTo(expected, 4);
  });
});

describe('wired edge: the books add 2 1/2 wire diameters', () => {
  // Exact by plane geometry, worked out by hand; the book’s figure (NAVEDTRA 14251 ch. 2) is 3 to 6 % short of a fully closed wrap.
  test.each([
    [3, 0.7, 312.99, 7.906],
    [3.175, 0.75, 312.78, 8.376],
    [4, 0.8, 315.585, 10.419],
  ])('wire %s in %s mm sheet turns %s° and adds %s', (wire, thickness, degrees, expected) => {
    const exact = added(thickness, 0.5, 1, { curl: wire });
    expect(exact).toBeCloseTo(expected, 3);
    expect(Math.abs(exact / (2.5 * wire) - 1)).toBeLessThan(0.06);
    const blank = laidOut(rectangle(200, 100, { sheet: sheet(thickness, 1, byK(0.5)), edges: [{ edge: 'top', steps: [{ curl: wire }] }] }));
    expect(((blank.bends[0]?.turn ?? Number.NaN) * 180) / Math.PI).toBeCloseTo(degrees, 2);
  });
  test('the book’s own example, wire 1/8 in: 5/16 in', () => {
    const exact = added(0.75, 0.5, 1, { curl: inch / 8 });
    expect(exact / inch).toBeGreaterThan(5 / 16);
    expect(exact / inch).toBeLessThan(5 / 16 + 0.02);
  });
});

describe('joggles by two equal opposite bends', () => {
  // Source: plane geometry, worked out by hand: depth, T, R, K, run, what the blank is longer by.
  test.each([
    [1.2, 1.2, 1.2, 0.42, 3.0431, 0.1767],
    [1.2, 1.2, 1.2, 0.42, undefined, 0.1914],
    [10, 1.5, 2, 0.42, 5.5, 7.2624],
  ])('depth %s, T %s, R %s, K %s, run %s: %s longer', (joggle, thickness, radius, k, run, extra) => {
    expect(added(thickness, k, radius, { joggle, over: 20, run })).toBeCloseTo(extra, 3);
  });
});

describe('strips by DIN 6935:2011-10', () => {
  const strip = (thickness: number, radius: number, degrees: number, ...legs: readonly number[]): Blank =>
    laidOut(
      section(
        100,
        sheet(thickness, radius, { kind: 'din' }),
        legs.flatMap((length, i) => (i === 0 ? [leg(length)] : [turn('up', degrees), leg(length)])),
      ),
    );
  // Opening angle, r, s and v, worked out by hand from the standard’s formula.
  test.each([
    [90, 1, 1, 1.9187],
    [90, 1.6, 1, 2.0961],
    [90, 2.5, 2, 3.9759],
    [90, 4, 3, 6.0381],
    [60, 6, 5, 5.8229],
    [45, 2, 2, 1.7561],
    [135, 2, 2, 1.2324],
    [150, 3, 1.5, 0.5264],
  ])('opening %s°, r %s, s %s: legs 60 and 80 lose %s', (opening, radius, thickness, v) => {
    expect(strip(thickness, radius, 180 - opening, 60, 80).height).toBeCloseTo(140 - v, 4);
  });
  test('legs 50, 40 and 30, r = s = 1: two bends of 1.9187, where the textbook’s short rule gives 116', () => {
    // Source of 116: Austrian vocational textbook (Westermann, ISBN 978-3-7100-2443-6), 16.8: v = 0.5 r + 1.5 s.
    const { height } = strip(1, 1, 90, 50, 40, 30);
    expect(height).toBeCloseTo(120 - 2 * 1.9187, 3);
    expect(Math.abs(height - 116)).toBeLessThan(0.2);
  });
});
