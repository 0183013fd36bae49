import { describe, expect, test } from 'vitest';
import { gaugeThickness, sheetMass, steelInvoiceWeight } from '../../server/trade/gauges.js';

/*
 * Sources: Manufacturers' Standard Gauge and galvanised sheet gauge, from a steel supplier's chart (41.82 lb/ft² per inch of thickness);
 * US Standard gauge for stainless, Machinery's Handbook 31st ed. p. 1453 to 22 gauge, the rest from memory; Brown & Sharpe, the same page to 22 gauge
 * and the gauge's definition beyond. Columns: gauge; steel in, mm, lb/ft² (invoiced), kg/m² (theory); galvanised in, mm; stainless in; B&S in, mm.
 */
const none = undefined;
const chart = [
  [7, 0.1793, 4.554, 7.498, 35.75, none, none, 0.1875, 0.1443, 3.665],
  [8, 0.1644, 4.176, 6.875, 32.78, none, none, 0.1719, 0.1285, 3.264],
  [9, 0.1495, 3.797, 6.252, 29.81, none, none, 0.1563, 0.1144, 2.906],
  [10, 0.1345, 3.416, 5.625, 26.82, 0.1382, 3.51, 0.1406, 0.1019, 2.588],
  [11, 0.1196, 3.038, 5.002, 23.85, 0.1233, 3.132, 0.125, 0.0907, 2.305],
  [12, 0.1046, 2.657, 4.374, 20.86, 0.1084, 2.753, 0.1094, 0.0808, 2.053],
  [13, 0.0897, 2.278, 3.751, 17.89, 0.0934, 2.372, 0.0938, 0.072, 1.828],
  [14, 0.0747, 1.897, 3.124, 14.89, 0.0785, 1.994, 0.0781, 0.0641, 1.628],
  [15, 0.0673, 1.709, 2.814, 13.42, 0.071, 1.803, 0.0703, 0.0571, 1.45],
  [16, 0.0598, 1.519, 2.501, 11.92, 0.0635, 1.613, 0.0625, 0.0508, 1.291],
  [17, 0.0538, 1.367, 2.25, 10.73, 0.0575, 1.46, 0.0563, 0.0453, 1.15],
  [18, 0.0478, 1.214, 1.999, 9.53, 0.0516, 1.311, 0.05, 0.0403, 1.024],
  [19, 0.0418, 1.062, 1.748, 8.33, 0.0456, 1.158, 0.0438, 0.0359, 0.912],
  [20, 0.0359, 0.912, 1.501, 7.16, 0.0396, 1.006, 0.0375, 0.032, 0.812],
  [21, 0.0329, 0.836, 1.376, 6.56, 0.0366, 0.93, 0.0344, 0.0285, 0.723],
  [22, 0.0299, 0.759, 1.25, 5.96, 0.0336, 0.853, 0.0313, 0.0253, 0.644],
  [23, 0.0269, 0.683, 1.125, 5.36, 0.0306, 0.777, 0.0281, 0.0226, 0.573],
  [24, 0.0239, 0.607, 0.999, 4.77, 0.0276, 0.701, 0.025, 0.0201, 0.511],
  [25, 0.0209, 0.531, 0.874, 4.17, 0.0247, 0.627, 0.0219, 0.0179, 0.455],
  [26, 0.0179, 0.455, 0.749, 3.57, 0.0217, 0.551, 0.0188, 0.0159, 0.405],
  [27, 0.0164, 0.417, 0.686, 3.27, 0.0202, 0.513, 0.0172, 0.0142, 0.361],
  [28, 0.0149, 0.378, 0.623, 2.97, 0.0187, 0.475, 0.0156, 0.0126, 0.321],
] as const;

describe('gauges and sheet weights', () => {
  test.each(chart)('%d gauge', (gauge, steelIn, steelMm, pounds, kilograms, galvanisedIn, galvanisedMm, stainless, brownIn, brownMm) => {
    const steel = gaugeThickness('steel', gauge) ?? Number.NaN;
    expect(steel / 25.4).toBeCloseTo(steelIn, 6);
    expect(Math.abs(steel - steelMm)).toBeLessThanOrEqual(0.00051);
    expect(Math.abs(steelInvoiceWeight(steel) - pounds)).toBeLessThanOrEqual(0.001);
    expect(Math.abs(sheetMass(steel, 7850) - kilograms)).toBeLessThanOrEqual(0.011);
    const galvanised = gaugeThickness('galvanised', gauge);
    if (galvanisedIn === undefined || galvanisedMm === undefined) expect(galvanised).toBeUndefined();
    else {
      expect((galvanised ?? Number.NaN) / 25.4).toBeCloseTo(galvanisedIn, 6);
      expect(Math.abs((galvanised ?? Number.NaN) - galvanisedMm)).toBeLessThanOrEqual(0.00051);
    }
    expect((gaugeThickness('stainless', gauge) ?? Number.NaN) / 25.4).toBeCloseTo(stainless, 6);
    const brown = gaugeThickness('brown and sharpe', gauge) ?? Number.NaN;
    expect(brown / 25.4).toBeCloseTo(brownIn, 6);
    // The chart's millimetres come from the unrounded gauge; ours from the printed four places.
    expect(Math.abs(brown - brownMm)).toBeLessThanOrEqual(0.0015);
  });

  test('heavier steel: 3 to 6 gauge', () => {
    for (const [gauge, inches] of [
      [3, 0.2391],
      [4, 0.2242],
      [5, 0.2092],
      [6, 0.1943],
    ] as const)
      expect((gaugeThickness('steel', gauge) ?? 0) / 25.4).toBeCloseTo(inches, 6);
  });

  test('a 4 by 8 ft sheet of 16 gauge: 80.0 lb invoiced (36.30 kg), 35.44 kg by theory', () => {
    const thickness = gaugeThickness('steel', 16) ?? 0;
    expect(steelInvoiceWeight(thickness) * 32).toBeCloseTo(80.0, 1);
    expect(sheetMass(thickness, 7850) * 1.2192 * 2.4384).toBeCloseTo(35.44, 1);
  });

  test('1/4 in plate: 10.2 lb/ft² by theory (Electromechanical Design Handbook 3rd ed., ch. 11)', () => {
    const poundsPerSquareFoot = (sheetMass(6.35, 7850) * 0.3048 ** 2) / 0.45359237;
    expect(poundsPerSquareFoot).toBeCloseTo(10.2, 1);
  });

  test('a number the table does not have', () => {
    expect(gaugeThickness('steel', 2)).toBeUndefined();
    expect(gaugeThickness('galvanised', 7)).toBeUndefined();
    expect(gaugeThickness('steel', 16.5)).toBeUndefined();
  });
});
