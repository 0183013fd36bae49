/** Holes for screws: what to drill before tapping, and what lets a screw through. */
import { LETTER_DRILLS, NUMBER_DRILLS } from './drills.js';

export type HoleFit = 'tapped' | 'clearance' | 'drill';
/** How easily a screw drops through: ISO 273 fine, medium, coarse; ASME B18.2.8 close, normal, loose. */
export type ClearanceClass = 'close' | 'normal' | 'loose';

const MM_PER_INCH = 25.4;

interface MetricThread {
  readonly pitch: number;
  readonly tap: number;
  readonly clearance: readonly [number, number, number];
}
/**
 * Metric coarse threads, mm: pitch, tap drill, clearance hole close / normal / loose.
 * Sources: clearance ISO 273:1979; tap drills M3 to M16 Carvill, Mechanical Engineer's Data Handbook, p. 299 (M3.5 and M14 from memory);
 * M1.6 to M2.5 and M18 to M24 from memory.
 */
const METRIC: ReadonlyMap<number, MetricThread> = new Map<number, MetricThread>([
  [1.6, { pitch: 0.35, tap: 1.25, clearance: [1.7, 1.8, 2] }],
  [2, { pitch: 0.4, tap: 1.6, clearance: [2.2, 2.4, 2.6] }],
  [2.5, { pitch: 0.45, tap: 2.05, clearance: [2.7, 2.9, 3.1] }],
  [3, { pitch: 0.5, tap: 2.5, clearance: [3.2, 3.4, 3.6] }],
  [3.5, { pitch: 0.6, tap: 2.9, clearance: [3.7, 3.9, 4.2] }],
  [4, { pitch: 0.7, tap: 3.3, clearance: [4.3, 4.5, 4.8] }],
  [5, { pitch: 0.8, tap: 4.2, clearance: [5.3, 5.5, 5.8] }],
  [6, { pitch: 1, tap: 5, clearance: [6.4, 6.6, 7] }],
  [8, { pitch: 1.25, tap: 6.8, clearance: [8.4, 9, 10] }],
  [10, { pitch: 1.5, tap: 8.5, clearance: [10.5, 11, 12] }],
  [12, { pitch: 1.75, tap: 10.2, clearance: [13, 13.5, 14.5] }],
  [14, { pitch: 2, tap: 12, clearance: [15, 15.5, 16.5] }],
  [16, { pitch: 2, tap: 14, clearance: [17, 17.5, 18.5] }],
  [18, { pitch: 2.5, tap: 15.5, clearance: [19, 20, 21] }],
  [20, { pitch: 2.5, tap: 17.5, clearance: [21, 22, 24] }],
  [24, { pitch: 3, tap: 21, clearance: [25, 26, 28] }],
]);

/**
 * Inch clearance holes, inches: close, normal, and the middle of the loose range.
 * Source: ASME B18.2.8-1999 (R2017), Machinery's Handbook 31st ed. p. 1741; #2, #4, #5, #12, the close column and normal 1/2 from memory.
 */
const INCH_CLEARANCE: Readonly<Record<string, readonly [number, number, number]>> = {
  '#2': [0.094, 0.102, 0.112],
  '#4': [0.12, 0.1285, 0.144],
  '#5': [0.141, 0.156, 0.172],
  '#6': [0.154, 0.1695, 0.191],
  '#8': [0.18, 0.196, 0.219],
  '#10': [0.2055, 0.221, 0.244],
  '#12': [0.228, 0.2402, 0.266],
  '1/4': [17 / 64, 9 / 32, 0.304],
  '5/16': [21 / 64, 11 / 32, 0.366],
  '3/8': [25 / 64, 13 / 32, 0.43],
  '7/16': [29 / 64, 15 / 32, 0.492],
  '1/2': [17 / 32, 9 / 16, 0.617],
};

/** Drill for about 75 % thread, inches. Source: D − 0.75 · 1.299 / threads per inch, taken to the drill the trade's charts print; charts from memory. */
const INCH_TAP: Readonly<Record<string, number>> = {
  '#2-56': 0.07,
  '#4-40': 0.089,
  '#4-48': 0.0935,
  '#5-40': 0.1015,
  '#6-32': 0.1065,
  '#6-40': 0.113,
  '#8-32': 0.136,
  '#8-36': 0.136,
  '#10-24': 0.1495,
  '#10-32': 0.159,
  '#12-24': 0.177,
  '1/4-20': 0.201,
  '1/4-28': 0.213,
  '5/16-18': 0.257,
  '5/16-24': 0.272,
  '3/8-16': 5 / 16,
  '3/8-24': 0.332,
  '7/16-14': 0.368,
  '7/16-20': 25 / 64,
  '1/2-13': 27 / 64,
  '1/2-20': 29 / 64,
};
/** The coarse thread meant when only the size is written. Source: Unified coarse series (ASME B1.1). */
const INCH_COARSE: Readonly<Record<string, number>> = {
  '#2': 56,
  '#4': 40,
  '#5': 40,
  '#6': 32,
  '#8': 32,
  '#10': 24,
  '#12': 24,
  '1/4': 20,
  '5/16': 18,
  '3/8': 16,
  '7/16': 14,
  '1/2': 13,
};

/**
 * Diameter of the hole for a screw or drill size.
 *
 * @param fit  `tapped`: drill before tapping; `clearance`: lets the screw through; `drill`: the drill itself
 * @param size `M6`, `M8x1`, `1/4-20`, `#8-32`, `#30`, `F`, `9/32`, as written
 * @returns mm, or undefined when no table has the size
 */
export const holeDiameter = (fit: HoleFit, size: string, clearance: ClearanceClass = 'normal'): number | undefined => {
  const tidy = size.replace(/\s+/g, '').replace(/″|"|in$/u, '');
  switch (fit) {
    case 'tapped':
      return metricTap(tidy) ?? inchTap(tidy);
    case 'clearance':
      return clearanceHole(tidy, clearance);
    case 'drill':
      return drillDiameter(tidy);
  }
};

const metric = (size: string): { readonly diameter: number; readonly pitch: number | undefined } | undefined => {
  const match = /^M(\d+(?:\.\d+)?)(?:[x×](\d*\.?\d+))?$/i.exec(size);
  return match === null ? undefined : { diameter: Number(match[1]), pitch: match[2] === undefined ? undefined : Number(match[2]) };
};

/** A fine thread has no row of its own: diameter less pitch. Source: ISO 2306 principle, common practice. */
const metricTap = (size: string): number | undefined => {
  const thread = metric(size);
  if (thread === undefined) return undefined;
  const row = METRIC.get(thread.diameter);
  if (thread.pitch === undefined || thread.pitch === row?.pitch) return row?.tap;
  return thread.pitch > 0 && thread.pitch < thread.diameter / 2 ? thread.diameter - thread.pitch : undefined;
};

/** `#8` and `8` are one size, so that `8-32` is understood too. */
const inchNominal = (size: string): { readonly nominal: string; readonly threads: number | undefined } | undefined => {
  const match = /^(#?\d+|\d+\/\d+)(?:-(\d+))?$/.exec(size);
  if (match === null) return undefined;
  const written = match[1] ?? '';
  const nominal = written.startsWith('#') || written.includes('/') ? written : `#${written}`;
  return { nominal, threads: match[2] === undefined ? undefined : Number(match[2]) };
};

const inchTap = (size: string): number | undefined => {
  const thread = inchNominal(size);
  if (thread === undefined) return undefined;
  const threads = thread.threads ?? INCH_COARSE[thread.nominal];
  const drill = threads === undefined ? undefined : INCH_TAP[`${thread.nominal}-${threads}`];
  return drill === undefined ? undefined : drill * MM_PER_INCH;
};

const clearanceHole = (size: string, wanted: ClearanceClass): number | undefined => {
  const column = wanted === 'close' ? 0 : wanted === 'normal' ? 1 : 2;
  const thread = metric(size);
  if (thread !== undefined) return METRIC.get(thread.diameter)?.clearance[column];
  const nominal = inchNominal(size)?.nominal;
  const hole = nominal === undefined ? undefined : INCH_CLEARANCE[nominal]?.[column];
  return hole === undefined ? undefined : hole * MM_PER_INCH;
};

const drillDiameter = (size: string): number | undefined => {
  const number = /^#(\d+)$/.exec(size);
  if (number !== null) return inchesOrNothing(NUMBER_DRILLS[Number(number[1]) - 1]);
  if (/^[A-Z]$/i.test(size)) return inchesOrNothing(LETTER_DRILLS[size.toUpperCase()]);
  const fraction = /^(?:(\d+)[- ])?(\d+)\/(\d+)$/.exec(size);
  if (fraction !== null && Number(fraction[3]) > 0) {
    return inchesOrNothing(Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]));
  }
  return metric(size)?.diameter;
};

const inchesOrNothing = (inches: number | undefined): number | undefined => (inches === undefined ? undefined : inches * MM_PER_INCH);

/** Sizes the tables know, for messages and completion. */
export const knownSizes = (fit: HoleFit): readonly string[] => {
  switch (fit) {
    case 'tapped':
      return [...[...METRIC.keys()].map((d) => `M${d}`), ...Object.keys(INCH_TAP)];
    case 'clearance':
      return [...[...METRIC.keys()].map((d) => `M${d}`), ...Object.keys(INCH_CLEARANCE)];
    case 'drill':
      return [...NUMBER_DRILLS.map((_, i) => `#${i + 1}`), ...Object.keys(LETTER_DRILLS)];
  }
};
