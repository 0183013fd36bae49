import { describe, expect, it } from 'vitest';
import { type AllowanceMethod, bendAllowance, bendSums, outsideSetback } from '../../server/trade/bends.js';
import { type BentStrip, fromStrips, turnToSet, workBack } from '../../server/trade/trial.js';

const degrees = (n: number): number => (n * Math.PI) / 180;
const strip = (name: string, turn: number, radius: number, k: number, more: Partial<BentStrip> = {}): BentStrip => ({
  name,
  turn: degrees(turn),
  turnSet: undefined,
  radius,
  thickness: 1,
  k,
  kSpread: 0.02,
  ...more,
});
const k = (strips: readonly BentStrip[], turn: number, radius: number): number =>
  fromStrips(strips, degrees(turn), radius, 1)?.k ?? Number.NaN;

describe('K → allowance → K', () => {
  it('a strip bent by any K tells that K again, at any turn and radius, with any number of bends', () => {
    for (const turn of [5, 30, 60, 90, 91, 120, 150, 175]) {
      for (const radius of [0, 0.5, 1, 3, 12]) {
        for (const share of [0, 0.21, 0.33, 0.42, 0.5]) {
          for (const bends of [1, 2, 4]) {
            const [angle, thickness] = [degrees(turn), 1.2];
            const sum = 200 + bends * (2 * outsideSetback(angle, radius, thickness) - bendAllowance(angle, radius, thickness, share));
            const readings = {
              length: 200,
              lengthFinest: 0,
              legs: Array.from({ length: bends + 1 }, () => sum / (bends + 1)),
              legsFinest: 0,
              turn: angle,
              turnFinest: 0,
              radius,
              radiusFinest: 0,
              thickness,
            };
            expect(workBack(readings)?.k).toBeCloseTo(share, 7);
          }
        }
      }
    }
  });
});

describe('several strips', () => {
  const angles = [strip('a', 30, 1, 0.3), strip('b', 90, 1, 0.36), strip('c', 120, 1, 0.4)];
  it('give each its own K at its own bend', () => {
    for (const one of angles) expect(fromStrips(angles, one.turn, 1, 1)).toMatchObject({ k: one.k, from: [one.name], outside: undefined });
  });
  it('of one radius go in straight lines from angle to angle', () => {
    expect(k(angles, 60, 1)).toBeCloseTo(0.33, 9);
    expect(k(angles, 105, 1)).toBeCloseTo(0.38, 9);
    expect(fromStrips(angles, degrees(60), 1, 1)?.from).toEqual(['a', 'b']);
  });
  it('over angle and radius go over the triangle between them', () => {
    // K = 0.3 + 0.001 (turn − 60) + 0.05 (ratio − 1) is a plane, and any triangle gives a plane back.
    const plane = (turn: number, ratio: number): number => 0.3 + 0.001 * (turn - 60) + 0.05 * (ratio - 1);
    const grid = [60, 90, 120].flatMap((turn) => [1, 2, 3].map((ratio) => strip(`${turn} ${ratio}`, turn, ratio, plane(turn, ratio))));
    for (const turn of [60, 71, 90, 104.5, 120]) {
      for (const ratio of [1, 1.3, 2, 2.7, 3]) {
        expect(k(grid, turn, ratio)).toBeCloseTo(plane(turn, ratio), 9);
        expect(fromStrips(grid, degrees(turn), ratio, 1)?.outside).toBeUndefined();
      }
    }
  });
  it('on the corners of a square change steadily: no jump where its two triangles meet', () => {
    const square = [strip('a', 60, 1, 0.3), strip('b', 120, 1, 0.34), strip('c', 60, 2, 0.38), strip('d', 120, 2, 0.32)];
    for (let turn = 60; turn < 120; turn += 0.5) {
      for (const ratio of [1.2, 1.5, 1.8]) expect(Math.abs(k(square, turn + 0.5, ratio) - k(square, turn, ratio))).toBeLessThan(0.002);
    }
  });
  it('of the same bend are averaged, and their spread is less', () => {
    const twice = [strip('a', 90, 1, 0.34), strip('b', 90.5, 1, 0.38)];
    const answer = fromStrips(twice, degrees(90), 1, 1);
    expect(answer?.k).toBeCloseTo(0.36, 9);
    expect(answer?.kSpread).toBeCloseTo(0.02 / Math.SQRT2, 9);
    expect(answer?.from).toEqual(['a', 'b']);
  });
  it('outside what was tried keep the nearest, and say what was tried', () => {
    const answer = fromStrips(angles, degrees(150), 1, 1);
    expect(answer?.k).toBeCloseTo(0.4, 9);
    expect(answer?.outside).toMatchObject({ what: 'turn' });
    expect(fromStrips(angles, degrees(60), 3, 1)?.outside).toMatchObject({ what: 'radius' });
    expect(fromStrips(angles, degrees(90), 1.1, 1)?.outside).toBeUndefined();
  });
  it('none of them: no answer', () => {
    expect(fromStrips([], 1, 1, 1)).toBeUndefined();
    expect(bendSums({ kind: 'trial', trial: 'strip_1' }, 1, 1, 1)).toBeUndefined();
  });
});

describe('springback of a trial', () => {
  it('turns the brake on by the ratio that the strip showed', () => {
    const sprung = [strip('a', 90.5, 1, 0.36, { turnSet: degrees(93) })];
    expect(((turnToSet(sprung, degrees(90), 1, 1) ?? 0) * 180) / Math.PI).toBeCloseTo((90 * 93) / 90.5, 9);
  });
  it('is not told by strips whose angle left was not measured', () => {
    expect(turnToSet([strip('a', 90, 1, 0.36)], degrees(90), 1, 1)).toBeUndefined();
  });
});

describe('the sums of a bend by a trial', () => {
  const method = (...strips: readonly BentStrip[]): AllowanceMethod => ({ kind: 'trial', trial: 'as named', strips });
  it('name the strip, its K and its spread', () => {
    const sums = bendSums(method(strip('strip_1', 90, 1.2, 0.3176, { kSpread: 0.0219 })), degrees(90), 1.2, 1);
    expect(sums).toMatchObject({ method: 'trial strip_1, K 0.318 ± 0.022', source: 'measured strip of this shop' });
    expect(sums?.k).toBeCloseTo(0.3176, 9);
    expect(sums?.allowance).toBeCloseTo((Math.PI / 2) * (1.2 + 0.3176), 9);
  });
  it('say that they extrapolate', () => {
    const two = method(strip('a', 30, 1, 0.3), strip('b', 95, 1, 0.36));
    expect(bendSums(two, degrees(120), 1, 1)).toMatchObject({
      method: 'trial b, K 0.360 ± 0.020; outside the strips tried, 30° to 95°: extrapolated',
      source: 'measured strips of this shop',
    });
    expect(bendSums(two, degrees(60), 2, 1)?.method).toContain('outside the strips tried, a radius of 1 T: extrapolated');
    expect(bendSums(method(strip('a', 90, 1, 0.3)), degrees(45), 1, 1)?.method).toContain('outside the strip tried, 90°: extrapolated');
  });
});
