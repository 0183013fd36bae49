/** Sheet gauges: a number that stands for a thickness, a different one in each metal's table. */

export type GaugeTable = 'steel' | 'galvanised' | 'stainless' | 'brown and sharpe';

const MM_PER_INCH = 25.4;

/**
 * Manufacturers' Standard Gauge for uncoated steel sheet, inches.
 * Source: Manufacturers' Standard Gauge, as printed in a steel supplier's gauge chart (3 to 28 gauge); 29 to 36 from memory.
 */
const STEEL: ReadonlyMap<number, number> = new Map([
  [3, 0.2391],
  [4, 0.2242],
  [5, 0.2092],
  [6, 0.1943],
  [7, 0.1793],
  [8, 0.1644],
  [9, 0.1495],
  [10, 0.1345],
  [11, 0.1196],
  [12, 0.1046],
  [13, 0.0897],
  [14, 0.0747],
  [15, 0.0673],
  [16, 0.0598],
  [17, 0.0538],
  [18, 0.0478],
  [19, 0.0418],
  [20, 0.0359],
  [21, 0.0329],
  [22, 0.0299],
  [23, 0.0269],
  [24, 0.0239],
  [25, 0.0209],
  [26, 0.0179],
  [27, 0.0164],
  [28, 0.0149],
  [29, 0.0135],
  [30, 0.012],
  [31, 0.0105],
  [32, 0.0097],
  [33, 0.009],
  [34, 0.0082],
  [35, 0.0075],
  [36, 0.0067],
]);

/** Galvanised Sheet Gauge, inches, zinc included (steel + 0.0037). Source: the same chart; 29 and 30 from memory. */
const GALVANISED: ReadonlyMap<number, number> = new Map([
  [10, 0.1382],
  [11, 0.1233],
  [12, 0.1084],
  [13, 0.0934],
  [14, 0.0785],
  [15, 0.071],
  [16, 0.0635],
  [17, 0.0575],
  [18, 0.0516],
  [19, 0.0456],
  [20, 0.0396],
  [21, 0.0366],
  [22, 0.0336],
  [23, 0.0306],
  [24, 0.0276],
  [25, 0.0247],
  [26, 0.0217],
  [27, 0.0202],
  [28, 0.0187],
  [29, 0.0172],
  [30, 0.0157],
]);

/** Stainless is ordered by the US Standard Gauge, inches. Source: Machinery's Handbook 31st ed., p. 1453, to 22 gauge; thinner from memory. */
const STAINLESS: ReadonlyMap<number, number> = new Map([
  [7, 0.1875],
  [8, 0.1719],
  [9, 0.1563],
  [10, 0.1406],
  [11, 0.125],
  [12, 0.1094],
  [13, 0.0938],
  [14, 0.0781],
  [15, 0.0703],
  [16, 0.0625],
  [17, 0.0563],
  [18, 0.05],
  [19, 0.0438],
  [20, 0.0375],
  [21, 0.0344],
  [22, 0.0313],
  [23, 0.0281],
  [24, 0.025],
  [25, 0.0219],
  [26, 0.0188],
  [27, 0.0172],
  [28, 0.0156],
  [29, 0.0141],
  [30, 0.0125],
]);

/**
 * Brown & Sharpe gauge (aluminium, copper, brass), inches to four places: 39 equal ratios from 0.46 in (0000) to 0.005 in (36).
 * Source: the gauge's own definition, d = 0.005 · 92^((36 − n)/39).
 */
const brownAndSharpe = (gauge: number): number | undefined =>
  Number.isInteger(gauge) && gauge >= 0 && gauge <= 36 ? Math.round(0.005 * 92 ** ((36 - gauge) / 39) * 1e4) / 1e4 : undefined;

/**
 * Thickness that a gauge number stands for.
 *
 * @returns mm, or undefined when the table has no such number. Nominal: stock is a few per cent off it, so measure before bending.
 */
export const gaugeThickness = (table: GaugeTable, gauge: number): number | undefined => {
  const inches = gaugeInches(table, gauge);
  return inches === undefined ? undefined : inches * MM_PER_INCH;
};

const gaugeInches = (table: GaugeTable, gauge: number): number | undefined => {
  switch (table) {
    case 'steel':
      return STEEL.get(gauge);
    case 'galvanised':
      return GALVANISED.get(gauge);
    case 'stainless':
      return STAINLESS.get(gauge);
    case 'brown and sharpe':
      return brownAndSharpe(gauge);
  }
};

/** First and last number of a table, for messages. */
export const gaugeRange = (table: GaugeTable): readonly [number, number] => {
  switch (table) {
    case 'steel':
      return [3, 36];
    case 'galvanised':
      return [10, 30];
    case 'stainless':
      return [7, 30];
    case 'brown and sharpe':
      return [0, 36];
  }
};

/**
 * Weight a steel merchant invoices for a gauge thickness, lb/ft²: 41.82 lb/ft² for each inch, which allows for the crown and the over-size
 * of rolled sheet and is 2.5 % above theory.
 *
 * @param thickness mm
 * Source: Manufacturers' Standard Gauge.
 */
export const steelInvoiceWeight = (thickness: number): number => (thickness / MM_PER_INCH) * 41.82;

/**
 * Theoretical mass of a square metre of sheet, kg/m².
 *
 * @param thickness mm
 * @param density   kg/m³; steel 7850
 */
export const sheetMass = (thickness: number, density: number): number => (thickness * density) / 1000;
