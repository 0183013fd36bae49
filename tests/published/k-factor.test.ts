import { describe, expect, test } from 'vitest';
import { apexSetback, bendAllowance, bendDeduction, insideSetback, outsideSetback } from '../../server/trade/bends.js';
import { degrees } from '../blank/build.js';

/*
 * Bend allowance, setbacks and deductions by the neutral axis: BA = θ (R + K T), OSSB = (R + T) tan(A/2), BD = 2 OSSB − BA.
 * Source: plane geometry, as in Machinery's Handbook (sheet-metal bending) and FAA-H-8083-31 ch. 4 (setback). The numbers are worked from those
 * relations with a pocket calculator: 90° with R 2, T 1.5, K 0.42 is 1.570796 × 2.63 = 4.1312. Lengths in mm.
 */
const rows = [
  { turn: 45, R: 2, T: 1.5, K: 0.42, allowance: 2.0656, apex: 1.4497, inside: 0.8284, deduction: 0.8339 },
  { turn: 90, R: 2, T: 1.5, K: 0.42, allowance: 4.1312, apex: 3.5, inside: 2, deduction: 2.8688 },
  { turn: 120, R: 2, T: 1.5, K: 0.42, allowance: 5.5083, apex: 6.0622, inside: 3.4641, deduction: 6.6161 },
  { turn: 90, R: 1.5, T: 1.2, K: 0.4, allowance: 3.1102, apex: 2.7, inside: 1.5, deduction: 2.2898 },
  { turn: 135, R: 3, T: 2, K: 0.45, allowance: 9.1892, apex: 12.0711, inside: 7.2426, deduction: 14.953 },
];

describe('neutral-axis sums, to 0.001 mm', () => {
  test.each(rows)('$turn°, R $R, T $T, K $K', ({ turn, R, T, K, allowance, apex, deduction }) => {
    const angle = degrees(turn);
    expect(Math.abs(bendAllowance(angle, R, T, K) - allowance)).toBeLessThan(0.001);
    expect(Math.abs(apexSetback(angle, R, T) - apex)).toBeLessThan(0.001);
    expect(Math.abs(bendDeduction(apexSetback(angle, R, T), bendAllowance(angle, R, T, K)) - deduction)).toBeLessThan(0.001);
  });

  test('inside setback to the apex, up to a square turn', () => {
    for (const { turn, R, inside } of rows.filter((row) => row.turn <= 90))
      expect(Math.abs(insideSetback(degrees(turn), R) - inside)).toBeLessThan(0.001);
  });

  test('beyond a square turn sizes run to the outermost tangent (as DIN 6935 measures): 2 × 3.5 − 5.5083', () => {
    expect(Math.abs(bendDeduction(outsideSetback(degrees(120), 2, 1.5), bendAllowance(degrees(120), 2, 1.5, 0.42)) - 1.4917)).toBeLessThan(
      0.001,
    );
    expect(insideSetback(degrees(120), 2)).toBe(2);
  });
});
