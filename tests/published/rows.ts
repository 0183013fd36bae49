/**
 * The worked examples that are checked twice: by the formula alone, and on a blank laid out from text. Figures stand as they are printed; a row that was
 * worked by hand says from what.
 */
import { against } from './against.js';

/** Numbers of a printed line. */
const row = (line: string): readonly string[] => line.trim().split(/\s+/);
const table = (text: string): readonly (readonly string[])[] => text.trim().split('\n').map(row);

/*
 * BA = θ (R + K T), outside setback (R + T) tan(A/2), inside setback R tan(A/2), BD = 2 setbacks − BA; beyond a square turn also to the outermost
 * tangents, 2 (R + T) − BA. Source: plane geometry, as in Machinery's Handbook (sheet-metal bending) and FAA-H-8083-31 ch. 4; worked by hand, mm.
 */
export const neutral = against('Neutral axis, by plane geometry as in Machinery’s Handbook and FAA-H-8083-31 ch. 4', 'worked', 'mm');
/** A°, R, T, K, BA, outside setback, inside setback, BD to the apex, BD as sizes are measured. */
export const neutralRows = table(`
  45  2   1.5 0.42 2.0656 1.4497  0.8284 0.8339  0.8339
  90  2   1.5 0.42 4.1312 3.5000  2.0000 2.8688  2.8688
  120 2   1.5 0.42 5.5083 6.0622  3.4641 6.6161  1.4917
  90  1.5 1.2 0.40 3.1102 2.7000  1.5000 2.2898  2.2898
  135 3   2   0.45 9.1892 12.0711 7.2426 14.9530 0.8108
`);

/*
 * k = 0.65 + 0.5 log10(r/s) up to r/s 5, else 1;
 *   β ≤ 90°         v = 2 (r + s)                   − π (180 − β)/180 · (r + k s/2)
 *   90° < β ≤ 165°  v = 2 (r + s) tan((180 − β)/2)  − π (180 − β)/180 · (r + k s/2)
 *   165° < β        v = 0
 * β is the opening angle; the bend turns through 180° − β. Worked by hand from the standard's formulas, mm.
 */
export const din = against('DIN 6935:2011-10, factor k and deduction v', 'worked', 'mm');
/** r/s, k. */
export const dinFactors = table(`
  0.5   0.4995
  1     0.6500
  1.2   0.6896
  1.6   0.7521
  2.5   0.8490
  5     0.9995
  5.012 1.0000
  5.1   1.0000
  20    1.0000
`);
/** β°, r, s, k, v. */
export const dinRows = table(`
  90  1   1   0.6500 1.9187
  90  1.6 1   0.7521 2.0961
  90  2.5 2   0.6985 3.9759
  90  4   3   0.7125 6.0381
  60  6   5   0.6896 5.8229
  45  2   2   0.6500 1.7561
  135 2   2   0.6500 1.2324
  150 3   1.5 0.8005 0.5264
  165 2   2   0.6500 0.3595
  166 2   2   0.6500 0.0000
  175 6   1   1.0000 0.0000
`);
export const worksheet = against('Scanned worksheet of a German trade tables book: v = 0.43 r + 1.48 s', 'printed', 'mm');
export const westermann = against(
  'Austrian vocational textbook (Westermann, ISBN 978-3-7100-2443-6), 16.8: v = 0.5 r + 1.5 t',
  'printed',
  'mm',
);

/* Length of stock in the bend, 0.55, 0.64 or 0.71 T + 1.57 R for 90°, in proportion for others; forms from memory, rows worked from them, inches. */
export const straight = against('Machinery’s Handbook, lengths of straight stock for a 90-degree bend (forms from memory)', 'worked', 'in');
/** Temper, T, R, A°, length. */
export const straightRows = [
  ['soft', '0.0625', '0.125', '90', '0.2306'],
  ['half hard', '0.0625', '0.125', '90', '0.2363'],
  ['hard', '0.0625', '0.125', '90', '0.2406'],
  ['soft', '0.0598', '0.0625', '90', '0.1310'],
  ['half hard', '0.0598', '0.0625', '90', '0.1364'],
  ['hard', '0.0598', '0.0625', '90', '0.1406'],
  ['half hard', '0.125', '0.25', '60', '0.3150'],
] as const;
/** What that comes to as a share of the thickness. */
export const temperShares = [
  ['soft', '0.350'],
  ['half hard', '0.407'],
  ['hard', '0.452'],
] as const;

/* Upper figure of the bend-allowance chart for 90°, lower for one degree. Layout as in FAA-H-8083-31 ch. 4; figures worked from (0.01743 R + 0.0078 T) N, inches. */
export const chart = against('FAA-H-8083-31 ch. 4, bend-allowance chart: (0.01743 R + 0.0078 T) a degree', 'worked', 'in');
export const chartRadii = ['1/32', '1/16', '3/32', '1/8', '5/32', '3/16', '1/4'] as const;
/** T, the seven figures for 90°, the seven for one degree. */
export const chartRows = [
  ['0.020', row('.063 .112 .161 .210 .259 .308 .406'), row('.000701 .001245 .001790 .002335 .002879 .003424 .004514')],
  ['0.032', row('.071 .121 .170 .219 .268 .317 .415'), row('.000794 .001339 .001884 .002428 .002973 .003518 .004607')],
  ['0.040', row('.077 .126 .175 .224 .273 .322 .420'), row('.000857 .001401 .001946 .002491 .003035 .003580 .004670')],
  ['0.051', row('.085 .134 .183 .232 .281 .330 .428'), row('.000942 .001487 .002032 .002577 .003121 .003666 .004755')],
  ['0.064', row('.094 .143 .192 .241 .290 .339 .437'), row('.001044 .001589 .002133 .002678 .003223 .003767 .004857')],
  ['0.081', row('.106 .155 .204 .253 .302 .351 .449'), row('.001176 .001721 .002266 .002811 .003355 .003900 .004989')],
  ['0.125', row('.137 .186 .235 .284 .333 .382 .480'), row('.001520 .002064 .002609 .003154 .003698 .004243 .005333')],
] as const;
/* K-chart: tan of half the turn, which times R + T is the setback. */
export const kChart = against('FAA-H-8083-31 ch. 4, K-chart', 'worked', 'in');
export const kChartRows = table(`
  1   0.00873
  15  0.13165
  30  0.26795
  45  0.41421
  60  0.57735
  75  0.76733
  90  1.00000
  100 1.19175
  105 1.30323
  120 1.73205
  135 2.41421
  150 3.73205
`);
export const channel = against('FAA-H-8083-31 ch. 4, bending a U-channel (fig. 4-124)', 'printed', 'in');
export const channelWorked = against('FAA-H-8083-31 ch. 4, U-channel with the formulas’ own allowance', 'worked', 'in');
export const article = against('Forming-trade article (secondary copy), which prints 0.017453 for the handbooks’ 0.01743', 'printed', 'in');
export const navy = against('Navy aviation structural training text, which prints 0.0173 for the handbooks’ 0.01743', 'worked', 'in');

/* Strip 100.00, legs 51.63 and 51.48, T 1.50, R 2.0, 90°. */
export const strip = against('A strip really bent: the definition of K and of the bend deduction', 'worked', 'mm');

/* Outer face of a bend: e = 1 / (2 R/T + 1). R as a multiple of T, e. */
export const strain = against('Strain of the outer face, by plane geometry', 'worked', '');
export const strainRows = table(`
  1   0.333
  2   0.200
  0.5 0.500
`);

/* Table 3-1: recommended minimum radii for a square cold bend, in thicknesses; the 6061 rows from a reprint of the same table. */
export const aluminium = against('Aluminum Association, Aluminum Design Manual, January 2005, part VII, table 3-1', 'printed', 'T');
export const aluminiumThicknesses = ['1/64', '1/32', '1/16', '1/8', '3/16', '1/4', '3/8', '1/2'] as const;
export const aluminiumRows = [
  ['1100-O', row('0 0 0 0 0.5 1 1 1.5')],
  ['1100-H14', row('0 0 0 1 1 1.5 2 2.5')],
  ['3003-O', row('0 0 0 0 0.5 1 1 1.5')],
  ['3003-H14', row('0 0 0 1 1 1.5 2 2.5')],
  ['5052-O', row('0 0 0 0.5 1 1 1.5 1.5')],
  ['5052-H32', row('0 0 1 1.5 1.5 1.5 1.5 2')],
  ['5052-H34', row('0 1 1.5 2 2 2.5 2.5 3')],
  ['6061-O', row('0 0 0 1 1 1 1.5 2')],
  ['6061-T4', row('0 0 1 1.5 2.5 3 3.5 4')],
  ['6061-T6', row('1 1 1.5 2.5 3 3.5 4.5 5')],
] as const;
/* Smallest radii for cold bending across the rolling direction, turned at most 120°, mm; read from a partly garbled reprint. */
export const dinRadii = against('DIN 6935:1975-10, smallest permissible bending radii (from a partly garbled reprint)', 'printed', 'mm');
export const dinThicknesses = [1, 1.5, 2.5, 3, 4, 5, 6, 7, 8, 10, 12] as const;
export const dinRadiiRows = [
  [390, row('1   1.6 2.5 3 5 6 8  10 12 16 20')],
  [490, row('1.2 2   3   4 5 8 10 12 16 20 25')],
  [640, row('1.6 2.5 4   5 6 8 10 12 16 20 25')],
] as const;

/* Chapter 2, edges, joints, seams and notches. */
export const steelworker = against('US Navy, Steelworker vol. 2, NAVEDTRA 14251 (1996), ch. 2', 'printed', 'in');

/* (W − (R + T)) + π (R + K T), less R + T for what stands beyond the outside size; worked by hand, mm. W, T, R, K, beyond the tangent, beyond the outside. */
export const hems = against('Hems, by plane geometry', 'worked', 'mm');
export const hemRows = table(`
  10 1.0 0   0.50 10.5708 9.5708
  10 1.0 0.5 0.42 11.3903 9.8903
  12 1.2 0.6 0.42 13.6683 11.8683
`);

/* Wrap φ = 2π − arccos(r / (r + T)), φ (r + K T), less r + T; then the rules 2 1/2 d, 2 1/2 d + T and 2 d + 4 T. K 0.5, worked by hand, mm. */
export const wires = against('Wired edges, by plane geometry', 'worked', 'mm');
/** d, T, φ°, wrap, allowance, 2 1/2 d, 2 1/2 d + T, 2 d + 4 T. */
export const wireRows = table(`
  3.0   0.70 312.99 10.106 7.906  7.50  8.20  8.80
  3.175 0.75 312.78 10.713 8.376  7.94  8.69  9.35
  4.0   0.80 315.58 13.219 10.419 10.00 10.80 11.20
`);
export const curls = against('Curls and rolled edges, by plane geometry', 'worked', 'mm');

/* s = (h − 2 r (1 − cos A)) / sin A, run 2 r sin A + s cos A, developed 2 A (R + K T) + s, r = R + T/2; worked by hand, mm. */
export const joggles = against('Joggles, by plane geometry', 'worked', 'mm');
/** h, T, R, K, A°, s, run, developed, extra. */
export const joggleRows = table(`
  1.2 1.2 1.2 0.42 30 1.4354 3.0431 3.2198  0.1767
  1.2 1.2 1.2 0.42 45 0.2059 2.6912 2.8825  0.1914
  10  1.5 2.0 0.42 90 4.5000 5.5000 12.7624 7.2624
`);

/* Least sizes of curls and where holes and bends keep from them, and of tabs and notches. */
export const guideline = against('Sheet-metal design guidelines, npd-solutions.com (DRM Associates)', 'printed', 'T');
/* Relief holes. */
export const folding = against('FAA-H-8083-31 ch. 4, folding a box', 'printed', 'in');
