import { describe, expect, test } from 'vitest';
import { bandMidline, beadSection, developedWith } from '../../server/trade/bead-sections.js';
import { type Midline, sheetSection } from '../../server/trade/midline.js';

const degrees = (value: number): number => (value * Math.PI) / 180;
const line = (...points: readonly (readonly [number, number])[]): Midline =>
  points.slice(1).map(([x, y], i) => ({ kind: 'line', from: { x: points[i]?.[0] ?? 0, y: points[i]?.[1] ?? 0 }, to: { x, y } }));
const arcOver = (chord: number, rise: number): Midline => {
  const radius = (chord * chord) / (8 * rise) + rise / 2;
  const half = Math.asin(chord / 2 / radius);
  return [{ kind: 'arc', centre: { x: 0, y: rise - radius }, radius, start: Math.PI / 2 + half, sweep: -2 * half }];
};

// Source: plane geometry; rows worked by hand from the closed forms beside them.
describe('developed length and mean strain of sharp-footed sections', () => {
  // R = c²/8h + h/2, θ = 2 asin(c/2R), L = R θ
  test.each([
    [20, 4, 22.0694, 0.1035],
    [20, 5, 23.1824, 0.1591],
    [25, 3, 25.9492, 0.038],
  ])('arc, chord %d, rise %d', (chord, rise, length, strain) => {
    const { developed } = sheetSection(arcOver(chord, rise), 1);
    expect(Math.abs(developed - length)).toBeLessThan(6e-5);
    expect(Math.abs((developed - chord) / chord - strain)).toBeLessThan(6e-5);
  });
  test('trapezoid 30 wide, flat 12, deep 6: 33.6333, 12.11 %', () => {
    const { developed } = sheetSection(line([-15, 0], [-6, 6], [6, 6], [15, 0]), 1);
    expect(Math.abs(developed - 33.6333)).toBeLessThan(6e-5);
    expect(Math.abs(developed / 30 - 1 - 0.1211)).toBeLessThan(6e-5);
  });
  test('vee 20 wide, 5 deep: 2 √(10² + 5²) = 22.3607, 11.80 %', () => {
    const { developed } = sheetSection(line([-10, 0], [0, 5], [10, 0]), 1);
    expect(Math.abs(developed - 22.3607)).toBeLessThan(6e-5);
    expect(Math.abs(developed / 20 - 1 - 0.118)).toBeLessThan(6e-5);
  });
});

describe('two opposite bends, the step that makes a band', () => {
  // Source: plane geometry of a joggle: s = (h − 2 Rm (1 − cos A)) / sin A, run = 2 Rm sin A + s cos A, developed = 2 A (R + K T) + s.
  test.each([
    [1.2, 1.2, 1.2, 0.42, 30, 3.0431, 3.2198],
    [1.2, 1.2, 1.2, 0.42, 45, 2.6912, 2.8825],
  ])('height %d, T %d, R %d, K %d, %d°', (depth, T, R, k, angle, run, developed) => {
    const answer = beadSection({ shape: 'step', width: run, depth, nose: R, shoulder: R }, T);
    if (!answer.ok) throw new Error('no section');
    expect(Math.abs((answer.section.flank * 180) / Math.PI - angle)).toBeLessThan(0.05);
    expect(Math.abs(developedWith(answer.section, k) - developed)).toBeLessThan(2e-4);
  });
  test('as steep as 45° where the die does not say how wide: run 2.6912', () => {
    const answer = beadSection({ shape: 'step', width: undefined, depth: 1.2, nose: 1.2 }, 1.2);
    expect(answer.ok && Math.abs(answer.section.width - 2.6912)).toBeLessThan(6e-5);
  });
  test('band 6 high, 60°, R 2, T 1, K 0.45, flat 20: 38.3454 over 32.7017, 17.26 %', () => {
    const answer = beadSection({ shape: 'step', width: (32.7017 - 20) / 2, depth: 6, nose: 2, shoulder: 2 }, 1);
    if (!answer.ok) throw new Error('no section');
    expect(Math.abs(answer.section.flank - degrees(60))).toBeLessThan(1e-4);
    const developed = 20 + 2 * developedWith(answer.section, 0.45);
    expect(Math.abs(developed - 38.3454)).toBeLessThan(2e-4);
    expect(Math.abs(developed / 32.7017 - 1 - 0.1726)).toBeLessThan(6e-5);
    // The band's own midline: neutral line in the middle, K 0.5, is 4 · (π/3) · 0.05 T longer.
    const whole = sheetSection(bandMidline(answer.section, 32.7017) ?? [], 1);
    expect(Math.abs(whole.developed - developed - 4 * degrees(60) * 0.05)).toBeLessThan(2e-4);
  });
});
