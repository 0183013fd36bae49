import { describe, expect, test } from 'vitest';
import { bendSums, dinDeduction, dinFactor } from '../../server/trade/bends.js';
import { dinTightestRadius } from '../../server/trade/radii.js';
import { degrees } from '../blank/build.js';

/*
 * Source: DIN 6935:2011-10. k = 0.65 + 0.5 log10(r/s) up to r/s 5, else 1;
 *   β ≤ 90°         v = 2 (r + s)                   − π (180 − β)/180 · (r + k s/2)
 *   90° < β ≤ 165°  v = 2 (r + s) tan((180 − β)/2)  − π (180 − β)/180 · (r + k s/2)
 *   165° < β        v = 0
 * β is the opening angle; the bend turns through 180° − β. The numbers are worked from the formulas, mm.
 */
describe('factor k', () => {
  test.each([
    [0.5, 0.4995],
    [1, 0.65],
    [1.2, 0.6896],
    [1.6, 0.7521],
    [2.5, 0.849],
    [5, 0.9995],
    [5.1, 1],
    [20, 1],
  ])('r/s %d gives %d', (ratio, k) => {
    expect(Math.abs(dinFactor(ratio) - k)).toBeLessThan(0.0001);
  });
});

describe('deduction v, to 0.001 mm', () => {
  test.each([
    { range: 'square', opening: 90, r: 1, s: 1, v: 1.9187 },
    { range: 'square', opening: 90, r: 1.6, s: 1, v: 2.0961 },
    { range: 'square', opening: 90, r: 2.5, s: 2, v: 3.9759 },
    { range: 'square', opening: 90, r: 4, s: 3, v: 6.0381 },
    { range: 'sharp', opening: 60, r: 6, s: 5, v: 5.8229 },
    { range: 'sharp', opening: 45, r: 2, s: 2, v: 1.7561 },
    { range: 'blunt', opening: 135, r: 2, s: 2, v: 1.2324 },
    { range: 'blunt', opening: 150, r: 3, s: 1.5, v: 0.5264 },
    { range: 'nearly flat', opening: 166, r: 2, s: 2, v: 0 },
    { range: 'nearly flat', opening: 175, r: 6, s: 1, v: 0 },
  ])('$range: opening $opening°, r $r, s $s', ({ opening, r, s, v }) => {
    expect(Math.abs(dinDeduction(degrees(180 - opening), r, s) - v)).toBeLessThan(0.001);
  });

  test('165° itself still has a deduction; just above it there is none', () => {
    // 2 × 4 × tan 7.5° − 0.261799 × (2 + 0.65) = 1.053220 − 0.693768
    expect(Math.abs(dinDeduction(degrees(15), 2, 2) - 0.359452)).toBeLessThan(0.001);
    expect(dinDeduction(degrees(14.9), 2, 2)).toBe(0);
  });

  test('the blank’s sums keep to v: twice the setback less the allowance', () => {
    for (const [turn, v] of [
      [90, 3.9759],
      [14, 0],
    ] as const)
      expect(Math.abs((bendSums({ kind: 'din' }, degrees(turn), 2.5, 2)?.deduction ?? Number.NaN) - v)).toBeLessThan(0.001);
    expect(bendSums({ kind: 'din' }, degrees(90), 1.2, 1)?.method).toBe('DIN 6935, k 0.690');
    expect(bendSums({ kind: 'din' }, degrees(14), 1.2, 1)?.method).toBe('DIN 6935, v 0 (opening above 165°)');
  });
});

describe('short rules of the German and Austrian tables books, which the full formula comes near', () => {
  test('v = 0.43 r + 1.48 s, made for r/s near 1 to 2', () => {
    // Scanned tables-book worksheet: two bends, legs 50 + 605, s 3.18, r 7; v = 7.716 by the short rule, so L = 655 − 2 × 7.716 = 639.57, rounded up 640.
    const short = (r: number, s: number) => 0.43 * r + 1.48 * s;
    expect(655 - 2 * short(7, 3.18)).toBeCloseTo(639.57, 1);
    // With r/s 2.2 the full formula gives 7.313, so a blank 0.8 longer.
    expect(dinDeduction(degrees(90), 7, 3.18)).toBeCloseTo(7.313, 3);
    // Within its range the two agree to five in a hundred.
    for (const [r, s] of [
      [1, 1],
      [2, 1.5],
      [3, 2],
      [1.6, 1],
    ] as const)
      expect(Math.abs(short(r, s) / dinDeduction(degrees(90), r, s) - 1)).toBeLessThan(0.05);
  });

  test('v = 0.5 r + 1.5 t, Austrian textbook (Westermann, ISBN 978-3-7100-2443-6, 16.8)', () => {
    // Legs 50 + 40 + 30, r 1, t 1, two bends: 120 − 2 × 2 = 116; by the full formula 120 − 2 × 1.9187 = 116.163.
    expect(120 - 2 * (0.5 + 1.5)).toBe(116);
    expect(120 - 2 * dinDeduction(degrees(90), 1, 1)).toBeCloseTo(116.163, 3);
  });
});

describe('smallest radii for cold bending', () => {
  // Source: DIN 6935:1975-10, table of smallest permissible bending radii (read from a partly garbled reprint).
  test.each([
    [330, 1, 1],
    [330, 1.5, 1.6],
    [330, 3, 3],
    [390, 6, 8],
    [450, 2, 3],
    [600, 1, 1.6],
    [640, 12, 25],
  ])('%d MPa, %d mm: %d', (tensile, thickness, radius) => {
    expect(dinTightestRadius(tensile, thickness, 'across', degrees(90))).toBe(radius);
  });
  test('along the grain, or turned more than 120°, the next greater thickness counts', () => {
    expect(dinTightestRadius(330, 1.5, 'along', degrees(90))).toBe(2.5);
    expect(dinTightestRadius(330, 1.5, 'across', degrees(135))).toBe(2.5);
    expect(dinTightestRadius(330, 1.5, 'across', degrees(120))).toBe(1.6);
    expect(dinTightestRadius(330, 12, 'along', degrees(90))).toBeUndefined();
    expect(dinTightestRadius(700, 2, 'across', degrees(90))).toBeUndefined();
  });
});
