import { describe, expect, it } from 'vitest';
import { copeAt, copeTemplate, eyeLength, mitreRun, sectionArea, unequalMitre } from '../../server/trade/tube.js';

const degrees = (angle: number): number => (angle * Math.PI) / 180;
/** Steel at 7850 kg/m³, as the tables have it: kg for each metre. */
const perMetre = (area: number): number => area * 7850e-6;

// Source: EN 10219-2, dimensions and sectional properties; area cm² and mass kg/m as printed in section tables made by it.
describe('square and rectangular tube', () => {
  it.each([
    [20, 20, 2, 1.337, 1.05],
    [25, 25, 2, 1.737, 1.36],
    [25, 25, 2.5, 2.089, 1.64],
    [30, 30, 2, 2.137, 1.68],
    [40, 40, 2, 2.937, 2.31],
    [50, 50, 2, 3.737, 2.93],
    [50, 50, 3, 5.408, 4.25],
    [50, 25, 2, 2.737, 2.15],
    [60, 40, 3, 5.408, 4.25],
    [80, 40, 3, 6.608, 5.19],
    [100, 50, 3, 8.408, 6.6],
    [100, 50, 4, 10.948, 8.59],
    [60, 60, 3, 6.608, 5.19],
  ])('%d × %d × %d', (width, height, wall, area, mass) => {
    const found = sectionArea({ kind: 'square tube', width, height, wall });
    expect(found / 100).toBeCloseTo(area, 3);
    expect(perMetre(found)).toBeCloseTo(mass, 2);
  });
});

// Source: kg/m = 0.0246615·T·(D − T), the usual handbook form for steel tube; sizes of EN 10255 and ISO 65.
describe('round tube', () => {
  it.each([
    [21.3, 2.3, 1.078],
    [26.9, 2.3, 1.395],
    [33.7, 2.6, 1.994],
    [42.4, 2.6, 2.552],
    [48.3, 3.2, 3.559],
    [60.3, 3.2, 4.506],
    [25, 2, 1.134],
    [38.1, 1.6, 1.44],
  ])('%d × %d', (diameter, wall, mass) => expect(perMetre(sectionArea({ kind: 'round tube', diameter, wall }))).toBeCloseTo(mass, 3));
});

describe('bars', () => {
  it('round, square and flat', () => {
    expect(perMetre(sectionArea({ kind: 'round', diameter: 10 }))).toBeCloseTo(0.6165, 3);
    expect(perMetre(sectionArea({ kind: 'round', diameter: 12 }))).toBeCloseTo(0.8878, 4);
    expect(perMetre(sectionArea({ kind: 'square', side: 12 }))).toBeCloseTo(1.13, 3);
    expect(perMetre(sectionArea({ kind: 'flat', width: 25, thickness: 3 }))).toBeCloseTo(0.589, 3);
    expect(perMetre(sectionArea({ kind: 'flat', width: 40, thickness: 5 }))).toBeCloseTo(1.57, 3);
  });
});

describe('mitres, by plane geometry', () => {
  it.each([
    [25, 90, 25],
    [40, 60, 69.282],
    [40, 120, 23.094],
  ])('%d wide at a corner of %d°: long point less short point', (across, corner, run) =>
    expect(mitreRun(across, degrees(90 - corner / 2))).toBeCloseTo(run, 3),
  );
  it('unlike widths: 50 and 25 at a right angle', () => {
    const [first, second] = unequalMitre(50, 25, degrees(90));
    expect((first * 180) / Math.PI).toBeCloseTo(63.435, 3);
    expect((second * 180) / Math.PI).toBeCloseTo(26.565, 3);
  });
});

describe('copes, by the intersection of two cylinders', () => {
  it.each([
    [19.05, 19.05, 90, [19.05, 16.498, 9.525, 0, 9.525, 16.498, 19.05]],
    [25, 20, 90, [25, 22.913, 18.028, 15, 18.028, 22.913, 25]],
    [25.4, 19.05, 45, [54.971, 49.798, 36.837, 23.76, 17.787, 16.802, 16.871]],
  ])('main %d, branch %d at %d°', (main, branch, angle, rows) => {
    // Printed to a thousandth; one row is rounded the wrong way in its last figure.
    for (const [i, row] of rows.entries())
      expect(Math.abs((copeAt(main, branch, degrees(angle), degrees(30 * i)) ?? 0) - row)).toBeLessThan(0.001);
  });
  it('beside the axis', () => {
    expect(copeAt(25, 20, degrees(90), 0, 5)).toBeCloseTo(24.4949, 4);
    expect(copeAt(25, 20, degrees(90), degrees(30), 5)).toBeCloseTo(20, 4);
    expect(copeAt(25, 20, degrees(90), degrees(90), 5)).toBeCloseTo(0, 4);
    expect(copeAt(25, 20, degrees(90), degrees(270), 5)).toBeCloseTo(20, 4);
  });
  it('every point of a cope lies on the main’s surface', () => {
    for (const round of [0, 0.4, 1.3, 2.2, 3.9, 5.8]) {
      const [main, branch, angle] = [30, 21, degrees(55)];
      const along = copeAt(main, branch, angle, round) as number;
      // The branch's axis leans by `angle` from the main's (x); the point stands `branch` off that axis.
      const across = branch * Math.sin(round);
      const up = along * Math.sin(angle) - branch * Math.cos(round) * Math.cos(angle);
      expect(Math.hypot(across, up)).toBeCloseTo(main, 9);
    }
  });
  it('a template goes once round, and a branch that is too big has none', () => {
    const template = copeTemplate(25, 20, degrees(90), 0, 12) ?? [];
    expect(template[12]?.x).toBeCloseTo(125.664, 3);
    expect(template[1]?.x).toBeCloseTo(10.472, 3);
    expect(Math.max(...template.map(({ y }) => y))).toBeCloseTo(10, 6);
    expect(copeTemplate(18, 20, degrees(90), 0, 12)).toBeUndefined();
  });
});

it('an eye of three quarters of a turn: bar 3 thick round a 10 mm pin', () => {
  // By hand: radius 5 + 1.5 = 6.5; 270° is 4.712389 rad; 30.6305 mm.
  expect(eyeLength(10, 3, degrees(270))).toBeCloseTo(30.6305, 4);
});
