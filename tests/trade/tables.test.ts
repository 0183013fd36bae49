import { describe, expect, test } from 'vitest';
import { LETTER_DRILLS, NUMBER_DRILLS } from '../../server/trade/drills.js';
import { type GaugeTable, gaugeRange, gaugeThickness } from '../../server/trade/gauges.js';
import { tightestRadius } from '../../server/trade/radii.js';
import {
  bendReliefWidth,
  cornerReliefDiameter,
  holeToBend,
  holeToEdge,
  leastFlange,
  leastHole,
  notchToBend,
  slotToBend,
} from '../../server/trade/spacing.js';
import { holeDiameter, knownSizes } from '../../server/trade/threads.js';
import { degrees, steel } from '../blank/build.js';

describe('tables run one way', () => {
  test('a higher gauge is thinner, in every table, from end to end', () => {
    for (const table of ['steel', 'galvanised', 'stainless', 'brown and sharpe'] satisfies GaugeTable[]) {
      const [first, last] = gaugeRange(table);
      let before = Number.POSITIVE_INFINITY;
      for (let gauge = first; gauge <= last; gauge++) {
        const thickness = gaugeThickness(table, gauge);
        expect(thickness).toBeLessThan(before);
        before = thickness ?? 0;
      }
      expect(gaugeThickness(table, last + 1)).toBeUndefined();
    }
  });
  test('number drills shrink, letter drills grow, and A follows #1', () => {
    expect(NUMBER_DRILLS).toHaveLength(80);
    for (let i = 1; i < NUMBER_DRILLS.length; i++) expect(NUMBER_DRILLS[i]).toBeLessThan(NUMBER_DRILLS[i - 1] as number);
    const letters = Object.values(LETTER_DRILLS);
    expect(letters).toHaveLength(26);
    for (let i = 1; i < 26; i++) expect(letters[i]).toBeGreaterThan(letters[i - 1] as number);
    expect(letters[0]).toBeGreaterThan(NUMBER_DRILLS[0] as number);
  });
  test('every size offered has a hole', () => {
    for (const fit of ['tapped', 'clearance', 'drill'] as const)
      for (const size of knownSizes(fit)) expect(holeDiameter(fit, size)).toBeGreaterThan(0);
  });
  test('a tapped hole is smaller than the screw’s clearance', () => {
    for (const size of knownSizes('tapped')) expect(holeDiameter('tapped', size) ?? 99).toBeLessThan(holeDiameter('clearance', size) ?? 0);
  });
});

describe('tightest radius', () => {
  test('the shop’s own table comes first, by thickness and grain', () => {
    const own = {
      ...steel,
      tightest: [
        { upTo: 3, across: 3, along: 4 },
        { upTo: 1.5, across: 0.8, along: 1.2 },
      ],
    };
    expect(tightestRadius(own, 1.2, 'across', degrees(90))?.radius).toBe(0.8);
    expect(tightestRadius(own, 1.2, 'along', degrees(90))?.radius).toBe(1.2);
    expect(tightestRadius(own, 2, 'across', degrees(90))).toEqual({ radius: 3, source: 'material mild_steel' });
    // Thicker than its table says: the published one.
    expect(tightestRadius(own, 4, 'across', degrees(90))).toEqual({ radius: 5, source: 'DIN 6935:1975-10, smallest bending radii' });
  });
  test('nothing is made up for other metals', () => {
    expect(tightestRadius({ ...steel, gaugeTable: 'stainless' }, 1.2, 'across', degrees(90))).toBeUndefined();
    expect(tightestRadius({ ...steel, gaugeTable: undefined, density: 2680, modulus: 70e3 }, 1.2, 'across', degrees(90))).toBeUndefined();
    expect(tightestRadius({ ...steel, gaugeTable: undefined }, 1.2, 'across', degrees(90))?.radius).toBe(1.6);
  });
});

describe('spacing', () => {
  test('T 1.5, R 2', () => {
    // 2.5 T + R = 5.75 from the inside face of the bent leg, which stands R = 2 beyond the tangent line: 3.75 from that line. A slot: 8 and 6.
    expect(holeToBend(1.5).distance).toBe(5.75 - 2);
    expect(slotToBend(1.5).distance).toBe(8 - 2);
    expect(notchToBend(1.5, 2).distance).toBe(6.5);
    expect(holeToEdge(1.5).distance).toBe(3);
    expect(leastHole(1.5, true).distance).toBeCloseTo(1.8, 9);
    expect(leastHole(0.8, true).distance).toBe(1.2);
    expect(leastFlange(1.5).distance).toBe(6);
    expect(bendReliefWidth(1).distance).toBe(1.5);
    expect(bendReliefWidth(2).distance).toBe(2);
  });
  test('corner relief: twice the radius, not under 1/8 in to 0.064 in, 3/16 in above (FAA-H-8083-31 ch. 4)', () => {
    expect(cornerReliefDiameter(2, 1.5).distance).toBe(4);
    expect(cornerReliefDiameter(1, 1.5).distance).toBeCloseTo(3.175, 9);
    expect(cornerReliefDiameter(1, 0.064 * 25.4).distance).toBeCloseTo(3.175, 9);
    expect(cornerReliefDiameter(1, 0.072 * 25.4).distance).toBeCloseTo(4.7625, 9);
  });
});
