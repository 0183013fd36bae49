import { describe, expect, test } from 'vitest';
import { ductility, ductilityRadius, formingLimit, formingLimitOf, outerFibreStrain } from '../../server/trade/forming.js';

describe('forming limit of low-carbon steel', () => {
  // Source: Keeler and Brazier, (23.3 + 14.13 t) n/0.21 per cent; constants from memory, rows worked by hand.
  test.each([
    [0.8, 0.21, 0.346],
    [1, 0.22, 0.3921],
    [0.8, 0.18, 0.2966],
    [1.5, 0.2, 0.4238],
  ])('T %d, n %d', (thickness, n, limit) => {
    expect(Math.abs(formingLimit(thickness, n) - limit)).toBeLessThan(6e-5);
  });
  test('as a true strain: 39.21 % is 0.3308', () => {
    expect(Math.abs(Math.log(1 + formingLimit(1, 0.22)) - 0.3308)).toBeLessThan(6e-5);
  });
  test('inch form: 23.3 + 359 t', () => {
    expect(Math.abs(formingLimit(25.4 * 0.036, 0.21) - (23.3 + 359 * 0.036) / 100)).toBeLessThan(1e-4);
  });
  test('nothing is said of aluminium, stainless, thick sheet or n above 0.21', () => {
    const steel = { name: 'mild_steel', elongation: 0.3, hardening: 0.18 };
    expect(formingLimitOf(ductility(steel), 1)).toBeCloseTo(formingLimit(1, 0.18), 12);
    expect(formingLimitOf(ductility(steel), 4)).toBeUndefined();
    expect(formingLimitOf(ductility({ ...steel, hardening: 0.3 }), 1)).toBeUndefined();
    expect(formingLimitOf(ductility({ name: 'alu_5052_h32', elongation: 0.12, hardening: 0.12 }), 1)).toBeUndefined();
    expect(formingLimitOf(ductility({ name: 'stainless_304', elongation: 0.5, hardening: 0.2 }), 1)).toBeUndefined();
  });
});

describe('bends and ductility', () => {
  // Source: plane geometry, 1/(2 R/T + 1).
  test.each([
    [1, 0.3333],
    [2, 0.2],
    [0.5, 0.5],
  ])('outer skin at R = %d T', (ratio, strain) => {
    expect(Math.abs(outerFibreStrain(ratio, 1) - strain)).toBeLessThan(6e-5);
  });
  // Source: Kalpakjian and Schmid, Manufacturing Engineering and Technology, 50/r − 1, from memory.
  test.each([
    [0.2, 1.5],
    [0.3, 0.667],
    [0.1, 4],
    [0.5, 0],
    [0.6, 0],
  ])('reduction of area %d', (reduction, ratio) => {
    expect(Math.abs(ductilityRadius(reduction) - ratio)).toBeLessThan(5e-4);
  });
});
