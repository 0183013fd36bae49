import { describe, expect, test } from 'vitest';
import { bendSums } from '../../server/trade/bends.js';
import { crossBreak, holeForRim, pressedRim, rimSpacing, tippedEdge, tipStrain } from '../../server/trade/tipping.js';

const square = Math.PI / 2;
describe('tipped edges', () => {
  test('takes what a flange takes: width less the bend’s deduction beyond the finished outline', () => {
    const sums = tippedEdge(6, square, 1, 1, 0.42);
    const bend = bendSums({ kind: 'k', k: 0.42 }, square, 1, 1);
    expect(sums?.added).toBeCloseTo(6 - (bend?.deduction ?? 0), 12);
    expect(sums?.beyondTangent).toBeCloseTo(6 - 2 + square * 1.42, 12);
    expect(tippedEdge(1.5, square, 1, 1, 0.42)).toBeUndefined();
  });
  test('by hand: a 6 mm tip on a round edge of 200 shrinks by the arc it loses, a hollow one stretches', () => {
    const sums = tippedEdge(6, square, 1, 1, 0.42);
    if (sums === undefined) throw new Error('no room');
    const round = tipStrain(200, 'round', 6, square, sums);
    expect(round?.strain).toBeCloseTo(200 / (200 + sums.added) - 1, 12);
    expect(round?.byRule).toBeCloseTo(-0.03, 12);
    const hollow = tipStrain(200, 'hollow', 6, square, sums);
    expect(hollow?.strain).toBeCloseTo(200 / (200 - sums.added) - 1, 12);
    // The rule of thumb leaves the bend's deduction out, so it asks more: within the share of width that the bend saves.
    expect(Math.abs((hollow?.strain ?? 0) / 0.03 - 1)).toBeLessThan(0.35);
    expect(tipStrain(4, 'hollow', 6, square, sums)).toBeUndefined();
  });
  test('an edge tipped by less than square strains less', () => {
    const at = (turn: number): number => {
      const sums = tippedEdge(8, turn, 1, 1, 0.42);
      return sums === undefined ? Number.NaN : (tipStrain(150, 'hollow', 8, turn, sums)?.strain ?? Number.NaN);
    };
    expect(at(square / 2)).toBeLessThan(at(square));
    expect(at(square / 2)).toBeGreaterThan(0);
  });
});

describe('cross-breaks', () => {
  test('500 × 350 × 1, 3 proud: shorter by about d²/(w/2), slopes 3/175 and 3/250', () => {
    const sums = crossBreak(500, 350, 3, 1);
    expect(sums.shorter.width).toBeCloseTo(9 / 250, 4);
    expect(sums.shorter.height).toBeCloseTo(9 / 175, 4);
    expect(sums.slopes[0]).toBeCloseTo(3 / 175, 5);
    expect(sums.slopes[1]).toBeCloseTo(3 / 250, 5);
    expect(sums.stiffer.most).toBeCloseTo(28, 12);
  });
});

describe('pressed rims', () => {
  test('45°, hole 25.4, 3.175 out: the edge opens by depth · tan 22.5° a side', () => {
    const rim = pressedRim(25.4, 3.175, 1);
    expect(rim.pressedDiameter).toBeCloseTo(25.4 + 2 * 3.175 * Math.tan(Math.PI / 8), 9);
    expect(rim.strain).toBeCloseTo((3.175 * Math.tan(Math.PI / 8)) / 12.7, 9);
    expect(rim.footDiameter).toBeCloseTo(25.4 + 2 * 3.175 * Math.SQRT2, 9);
    expect(holeForRim(rim.pressedDiameter, 3.175)).toBeCloseTo(25.4, 9);
  });
  test('pressed to square it is a collar: inner radius grows by the depth', () => {
    expect(pressedRim(20, 3, 1, square).pressedDiameter).toBeCloseTo(26, 9);
  });
  // Source: sheet-metal design guideline (DRM Associates): to hole 3 T + R, to edge 4 T + R, to bend 2 T + R + bend radius.
  test('distances from its middle', () => {
    const spacing = rimSpacing(30, 1.5, 2);
    expect([spacing.toHole.distance, spacing.toEdge.distance, spacing.toBend.distance]).toEqual([19.5, 21, 20]);
  });
});
