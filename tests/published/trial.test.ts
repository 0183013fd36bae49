import { describe, expect, it } from 'vitest';
import { type StripReadings, workBack } from '../../server/trade/trial.js';
import { strip as worked } from './rows.js';

// Strip 100.00, legs 51.63 and 51.48, T 1.50, R 2.0, 90°.
const strip: StripReadings = {
  length: 100,
  lengthFinest: 0,
  legs: [51.63, 51.48],
  legsFinest: 0,
  turn: Math.PI / 2,
  turnFinest: 0,
  radius: 2,
  radiusFinest: 0,
  thickness: 1.5,
};
const kOf = (change: Partial<StripReadings>): number => workBack({ ...strip, ...change })?.k ?? Number.NaN;

describe('K from a test strip', () => {
  it('deduction 3.11, allowance 3.89, K 0.3176', () => {
    const back = workBack(strip);
    worked('deduction', back?.deduction, '3.11');
    worked('allowance', back?.allowance, '3.89');
    worked('K', back?.k, '0.3176');
  });
  it('the short form for one square bend gives the same: K = (2/π)(2 (R + T) − (A + B − L)) / T − R/T', () => {
    const short = ((2 / Math.PI) * (2 * (2 + 1.5) - (51.63 + 51.48 - 100))) / 1.5 - 2 / 1.5;
    expect(kOf({})).toBeCloseTo(short, 12);
  });
  it('0.05 more on a leg takes 0.0212 off K, 0.1 more on the radius adds 0.0182', () => {
    worked('K for 0.05 more on a leg', kOf({ legs: [51.68, 51.48] }) - kOf({}), '-0.0212');
    worked('K for 0.1 more on the radius', kOf({ radius: 2.1 }) - kOf({}), '0.0182');
    const { sensitivities } = workBack(strip) ?? {};
    worked('K for 0.05 more on a leg', (sensitivities?.leg ?? 0) * 0.05, '-0.0212');
    worked('K for 0.1 more on the radius', (sensitivities?.radius ?? 0) * 0.1, '0.0182');
  });
  it('four bends in one strip leave a quarter of the error', () => {
    const many = workBack({ ...strip, length: 200, legs: [42.4, 42.5, 42.4, 42.6, 42.5] });
    expect((many?.sensitivities.leg ?? 0) * 4).toBeCloseTo(workBack(strip)?.sensitivities.leg ?? 0, 12);
  });
});

describe('the spread of a trial', () => {
  // By hand: each leg ±0.05 gives 0.02122, both √2 · 0.02122 = 0.03001; the radius ±0.05 gives 0.00911; together √(0.03001² + 0.00911²) = 0.0314.
  it('combines the readings as the root of the sum of their squares, each within half its finest step', () => {
    worked('spread of K, legs and radius to 0.1', workBack({ ...strip, legsFinest: 0.1, radiusFinest: 0.1 })?.kSpread, '0.0314');
  });
  it('every sensitivity is what a small change really makes', () => {
    const h = 1e-6;
    for (const turn of [0.4, 1.2, Math.PI / 2 - 0.01, 1.9, 2.6]) {
      const base = { ...strip, turn, legs: [51, 51.2, 50.9] };
      const of = (change: Partial<StripReadings>): number => workBack({ ...base, ...change })?.k ?? Number.NaN;
      const { sensitivities } = workBack(base) ?? {};
      expect(sensitivities?.length).toBeCloseTo((of({ length: 100 + h }) - of({ length: 100 - h })) / (2 * h), 5);
      expect(sensitivities?.leg).toBeCloseTo((of({ legs: [51 + h, 51.2, 50.9] }) - of({ legs: [51 - h, 51.2, 50.9] })) / (2 * h), 5);
      expect(sensitivities?.turn).toBeCloseTo((of({ turn: turn + h }) - of({ turn: turn - h })) / (2 * h), 5);
      expect(sensitivities?.radius).toBeCloseTo((of({ radius: 2 + h }) - of({ radius: 2 - h })) / (2 * h), 5);
    }
  });
});
