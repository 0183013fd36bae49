import { describe, expect, test } from 'vitest';
import { aircraftAllowance, apexSetback, bendSums, handbookAllowance } from '../../server/trade/bends.js';
import { byK, degrees, leg, section, sheet, turn } from '../blank/build.js';
import { laidOut } from '../blank/judge.js';

const inch = 25.4;

describe('straight-line forms for a square bend', () => {
  // Source: Machinery's Handbook, lengths of straight stock required for a 90-degree bend (forms from memory); rows worked from the forms, inches.
  test.each([
    [0.0625, 0.125, 0.2306, 0.2363, 0.2406],
    [0.0598, 0.0625, 0.131, 0.1364, 0.1406],
  ])('T %d, R %d in', (T, R, soft, halfHard, hard) => {
    for (const [temper, expected] of [
      ['soft', soft],
      ['half hard', halfHard],
      ['hard', hard],
    ] as const) {
      expect(Math.abs(handbookAllowance(degrees(90), R, T, temper) - expected)).toBeLessThan(0.0001);
    }
  });
  test('other angles in proportion: T 0.125, R 0.25, half hard, 60° is 0.3150 in', () => {
    expect(Math.abs(handbookAllowance(degrees(60), 0.25, 0.125, 'half hard') - 0.315)).toBeLessThan(0.0001);
  });
  test('as a share of thickness: 0.350, 0.407 and 0.452 with an exact quarter turn', () => {
    for (const [temper, k] of [
      ['soft', 0.35],
      ['half hard', 0.407],
      ['hard', 0.452],
    ] as const) {
      expect(Math.abs((bendSums({ kind: 'handbook', temper }, degrees(90), 0.001, 1)?.k ?? 0) - k)).toBeLessThan(0.001);
    }
  });
});

describe('the aircraft form for each degree', () => {
  /*
   * Bend-allowance chart, upper figure for 90°, lower for one degree, inches. Layout: FAA-H-8083-31 ch. 4; figures worked from (0.01743 R + 0.0078 T) N.
   */
  const radii = [1 / 32, 1 / 16, 3 / 32, 1 / 8, 5 / 32, 3 / 16, 1 / 4];
  const chart: readonly (readonly [number, readonly number[], readonly number[]])[] = [
    [0.02, [0.063, 0.112, 0.161, 0.21, 0.259, 0.308, 0.406], [0.000701, 0.001245, 0.00179, 0.002335, 0.002879, 0.003424, 0.004514]],
    [0.032, [0.071, 0.121, 0.17, 0.219, 0.268, 0.317, 0.415], [0.000794, 0.001339, 0.001884, 0.002428, 0.002973, 0.003518, 0.004607]],
    [0.04, [0.077, 0.126, 0.175, 0.224, 0.273, 0.322, 0.42], [0.000857, 0.001401, 0.001946, 0.002491, 0.003035, 0.00358, 0.00467]],
    [0.051, [0.085, 0.134, 0.183, 0.232, 0.281, 0.33, 0.428], [0.000942, 0.001487, 0.002032, 0.002577, 0.003121, 0.003666, 0.004755]],
    [0.064, [0.094, 0.143, 0.192, 0.241, 0.29, 0.339, 0.437], [0.001044, 0.001589, 0.002133, 0.002678, 0.003223, 0.003767, 0.004857]],
    [0.081, [0.106, 0.155, 0.204, 0.253, 0.302, 0.351, 0.449], [0.001176, 0.001721, 0.002266, 0.002811, 0.003355, 0.0039, 0.004989]],
    [0.125, [0.137, 0.186, 0.235, 0.284, 0.333, 0.382, 0.48], [0.00152, 0.002064, 0.002609, 0.003154, 0.003698, 0.004243, 0.005333]],
  ];
  test.each(chart)('T %d in', (T, square, perDegree) => {
    radii.forEach((R, i) => {
      expect(Math.abs(aircraftAllowance(degrees(90), R, T) - (square[i] as number))).toBeLessThanOrEqual(0.0006);
      expect(Math.abs(aircraftAllowance(degrees(1), R, T) - (perDegree[i] as number))).toBeLessThanOrEqual(0.0000011);
    });
  });

  test('R = T = 0.25 in, turned 160°: 1.010 in (forming-trade article, which prints 0.017453)', () => {
    expect(Math.abs(aircraftAllowance(degrees(160), 0.25, 0.25) - 1.01)).toBeLessThan(0.0015);
  });

  test('K-chart: setback for R + T = 1', () => {
    // Source: FAA-H-8083-31 ch. 4, K-chart: tan of half the turn.
    const rows = [
      [1, 0.00873],
      [15, 0.13165],
      [30, 0.26795],
      [45, 0.41421],
      [60, 0.57735],
      [75, 0.76733],
      [90, 1],
      [100, 1.19175],
      [105, 1.30323],
      [120, 1.73205],
      [135, 2.41421],
      [150, 3.73205],
    ] as const;
    for (const [turned, k] of rows) expect(Math.abs(apexSetback(degrees(turned), 0.75, 0.25) - k)).toBeLessThan(0.00001);
    // R + T 0.183 at 135°
    expect(Math.abs(apexSetback(degrees(135), 0.143, 0.04) - 0.4418)).toBeLessThan(0.0001);
  });
});

describe('bending a U-channel, FAA-H-8083-31 ch. 4: 0.040 in sheet, radius 0.16, mold lines 1.00, 2.00 and 1.00 in', () => {
  const channel = (method: Parameters<typeof sheet>[2]) =>
    laidOut(section(12 * inch, sheet(0.04 * inch, 0.16 * inch, method), [leg(inch), turn('up'), leg(2 * inch), turn('up'), leg(inch)]));

  test('setback 0.20, flats 0.80, 1.60 and 0.80', () => {
    const blank = channel({ kind: 'aircraft' });
    expect((blank.bends[0]?.setback ?? 0) / inch).toBeCloseTo(0.2, 9);
    const flats = blank.faces.map(
      (face) => (Math.max(...face.polygon.map((m) => m.to.y)) - Math.min(...face.polygon.map((m) => m.to.y))) / inch,
    );
    for (const [i, flat] of [0.8, 1.6, 0.8].entries()) expect(flats[i]).toBeCloseTo(flat, 9);
  });
  test('developed width 3.758 in by the form for each degree', () => {
    // 0.8 + 1.6 + 0.8 + 2 × 0.2791
    expect(channel({ kind: 'aircraft' }).height / inch).toBeCloseTo(3.758, 3);
  });
  test('developed width 3.765 in with the neutral axis in the middle', () => {
    // 0.8 + 1.6 + 0.8 + 2 × 2π (0.16 + 0.02)/4
    expect(channel(byK(0.5)).height / inch).toBeCloseTo(3.765, 3);
  });
});
