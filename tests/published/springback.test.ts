import { describe, expect, test } from 'vitest';
import { setFor, springback, springbackFactor, toolRadiusByFactor, turnByFactor, turnToSet } from '../../server/trade/springback.js';

const degrees = (value: number): number => (value * Math.PI) / 180;

describe('the elastic-plastic cubic', () => {
  // Source: Kalpakjian and Schmid, Manufacturing Engineering and Technology, Ri/Rf = 4x³ − 3x + 1, from memory; rows worked by hand.
  test.each([
    ['cold-rolled steel', 3, 210, 205000, 1.5, 0.002049, 0.993854, 3.0186, 90.445],
    ['5052-H32', 3, 195, 70300, 1.5, 0.005548, 0.983358, 3.0508, 91.219],
    ['6061-T6', 6, 276, 68900, 1.5, 0.016023, 0.951947, 6.3029, 94.038],
    ['rolled to a radius', 50, 300, 210000, 2, 0.035714, 0.893039, 55.989, undefined],
  ])('%s', (_, Ri, yieldStress, modulus, T, x, ratio, Rf, set) => {
    const metal = { yield: yieldStress, modulus };
    const sprung = springback(metal, Ri, degrees(90), T);
    if (sprung === undefined) throw new Error('all springs back');
    expect(Math.abs(sprung.x - x)).toBeLessThan(6e-7);
    expect(Math.abs(Ri / sprung.freeRadius - ratio)).toBeLessThan(6e-7);
    expect(Math.abs(sprung.freeRadius - Rf)).toBeLessThan(6e-4);
    if (set !== undefined) {
      const toSet = turnToSet(metal, Ri, degrees(90), T);
      expect(Math.abs(((toSet?.setTurn ?? 0) * 180) / Math.PI - set)).toBeLessThan(6e-4);
      expect(Math.abs((toSet?.freeTurn ?? 0) - degrees(90))).toBeLessThan(1e-12);
    }
    // Asked the other way round: the free radius leads back to the radius set.
    const back = setFor(metal, sprung.freeRadius, sprung.freeTurn, T);
    expect(Math.abs(back.setRadius / Ri - 1)).toBeLessThan(1e-9);
    expect(Math.abs(back.setTurn - degrees(90))).toBeLessThan(1e-9);
  });
  test('at x = 0.5 it all springs back, and above it nothing is said', () => {
    expect(springback({ yield: 200, modulus: 200000 }, 499.9, 1, 1)?.freeRadius).toBeGreaterThan(1e6);
    expect(springback({ yield: 200, modulus: 200000 }, 500, 1, 1)).toBeUndefined();
  });
});

describe('published factors', () => {
  // Source: German trade tables book, springback factors; columns' radius ratios and the tool radius form from memory.
  test('stainless, r/s 4: 90° wanted is set at 94.74°; DC04, r/s 1: 90.91°', () => {
    expect(Math.abs(turnByFactor(90, springbackFactor('X12CrNi18-8', 4) ?? 0) - 94.74)).toBeLessThan(0.006);
    expect(Math.abs(turnByFactor(90, springbackFactor('DC04', 1) ?? 0) - 90.91)).toBeLessThan(0.006);
  });
  test('factor 0.98, radius 6, T 1.5: tool radius 5.865', () => {
    expect(Math.abs(toolRadiusByFactor(6, 1.5, 0.98) - 5.865)).toBeLessThan(1e-9);
  });
  test('columns as printed, between them in between, beyond the last nothing', () => {
    expect(springbackFactor('DC01', 100)).toBeCloseTo(0.66, 9);
    expect(springbackFactor('AlSiMgMn', 40)).toBeCloseTo(0.82, 9);
    const between = springbackFactor('DC01', 20) ?? 0;
    expect(between).toBeLessThan(0.93);
    expect(between).toBeGreaterThan(0.9);
    expect(springbackFactor('X12CrNi18-8', 63)).toBeUndefined();
    expect(springbackFactor('DC01', 101)).toBeUndefined();
  });
});
