/** Numbers for people: as a tape and a rule are read. Lengths in mm, angles in rad. */
import { unitSign } from './dimension.js';
import type { HomeUnit } from './model.js';

export type Towards = 'up' | 'down' | 'nearest';

/** Steps that differ by less than this share of one are the same step: what floating point leaves behind. */
const slack = 1e-6;

const steps = (amount: number, towards: Towards): number => {
  const nearest = Math.round(amount);
  if (Math.abs(amount - nearest) < slack) return nearest;
  return towards === 'up' ? Math.ceil(amount) : towards === 'down' ? Math.floor(amount) : nearest;
};

const greatestDivisor = (a: number, b: number): number => (b === 0 ? a : greatestDivisor(b, a % b));

/** `30 1/4`, `-3/8`, `2` from a whole number of parts. */
const fraction = (parts: number, denominator: number): string => {
  const size = Math.abs(parts);
  const whole = Math.floor(size / denominator);
  const rest = size - whole * denominator;
  const sign = parts < 0 ? '-' : '';
  if (rest === 0) return `${sign}${whole}`;
  const divisor = greatestDivisor(rest, denominator);
  const share = `${rest / divisor}/${denominator / divisor}`;
  return whole === 0 ? `${sign}${share}` : `${sign}${whole} ${share}`;
};

/** Fixed decimals without trailing noughts: 12.50 → 12.5, -0.0 → 0. */
export const decimal = (amount: number, places: number): string => {
  if (!Number.isFinite(amount)) return String(amount);
  if (Math.abs(amount) >= 1e15) return amount.toPrecision(6);
  const fixed = amount.toFixed(places);
  const short = places > 0 ? fixed.replace(/\.?0+$/, '') : fixed;
  return short === '-0' ? '0' : short;
};
/** The same with its noughts kept, for columns that are compared: 0.130. */
const fixed = (amount: number, places: number): string => (decimal(amount, places) === '0' ? (0).toFixed(places) : amount.toFixed(places));
/** So many figures that count, without trailing noughts or an exponent: 7849.6 → 7850 with three or four. */
export const figures = (amount: number, count: number): string => {
  if (amount === 0 || !Number.isFinite(amount)) return decimal(amount, 0);
  const exponent = Math.floor(Math.log10(Math.abs(amount)));
  if (exponent >= count) return decimal(Number(amount.toPrecision(count)), 0);
  return decimal(amount, Math.min(Math.max(count - 1 - exponent, 0), 12));
};

/**
 * A length as read off a rule, with its unit: `30 1/4 in`, `3/8+ in`, `12.5 mm`.
 *
 * In inch files the nearest step of 1/denominator; a `+` or `−` says that the true size lies above or below it by more than half of the most that
 * rounding can lose (a quarter of a step). Without a file unit, millimetres.
 */
export const sayLength = (mm: number, unit: HomeUnit | undefined, denominator = 64): string =>
  `${sayLengthBare(mm, unit, denominator)} ${unitSign(unit)}`;

/** The same without its unit, the way a drawing writes it that states its unit once: `30 1/4`, `3/8+`. */
export const sayLengthBare = (mm: number, unit: HomeUnit | undefined, denominator = 64): string => {
  if (unit?.name !== 'inch') return decimal(mm / (unit?.mm ?? 1), placesOf(unit));
  const amount = (mm / unit.mm) * denominator;
  if (!Number.isFinite(amount) || Math.abs(amount) > 1e12) return figures(mm / unit.mm, 6);
  const parts = Math.round(amount + slack);
  const lost = amount - parts;
  const away = parts < 0 || (parts === 0 && mm < 0) ? -lost : lost;
  const mark = Math.abs(lost) <= 0.25 + slack ? '' : away > 0 ? '+' : '−';
  return `${fraction(parts, denominator)}${mark}`;
};

/** Width by height, the unit said once: `30 1/4 × 11 in`. */
export const saySize = (width: number, height: number, unit: HomeUnit | undefined, denominator = 64): string =>
  `${sayLengthBare(width, unit, denominator)} × ${sayLength(height, unit, denominator)}`;

/**
 * Two lengths that stand against each other in a message. Where they differ and yet would read alike, both are written in decimals, as many as
 * tell them apart: at least three in inches, two in millimetres.
 */
export const sayBothLengths = (a: number, b: number, unit: HomeUnit | undefined, denominator = 64): readonly [string, string] => {
  const plain = [sayLength(a, unit, denominator), sayLength(b, unit, denominator)] as const;
  if (plain[0] !== plain[1] || Math.abs(a - b) < slack) return plain;
  const size = unit?.mm ?? 1;
  let places = unit?.name === 'inch' ? 3 : placesOf(unit) + 1;
  while (places < 6 && decimal(a / size, places) === decimal(b / size, places)) places++;
  return [`${decimal(a / size, places)} ${unitSign(unit)}`, `${decimal(b / size, places)} ${unitSign(unit)}`];
};

/** Thousandths of an inch or hundredths of a millimetre, for sheet: `0.048 in`, `1.2 mm`. */
export const sayThickness = (mm: number, unit: HomeUnit | undefined): string =>
  imperial(unit) ? `${fixed(mm / 25.4, 3)} in` : `${decimal(mm, 2)} mm`;

/** What a bend takes up (allowance, deduction, setback), for which fractions are too coarse: `0.130 in`, `3.30 mm`. */
export const sayBendSum = (mm: number, unit: HomeUnit | undefined): string =>
  (imperial(unit) ? `${fixed(mm / 25.4, 3)} in` : `${fixed(mm, 2)} mm`).replace('-', '−');

const placesOf = (unit: HomeUnit | undefined): number => {
  switch (unit?.name) {
    case 'centimetre':
      return 2;
    case 'metre':
      return 4;
    case 'foot':
      return 3;
    default:
      return 1;
  }
};

/** A length as near as anybody can measure, decimals: `1.3125 in`, `34.925 mm`. */
export const sayExactly = (mm: number, unit: HomeUnit | undefined): string =>
  `${decimal(mm / (unit?.mm ?? 1), unit?.name === 'inch' ? 4 : placesOf(unit) + 2)} ${unitSign(unit)}`;

/** The same length in the other system, as near: `768.35 mm`, `30.25 in`. */
export const sayOther = (mm: number, unit: HomeUnit | undefined): string =>
  imperial(unit) ? `${decimal(mm, 3)} mm` : `${decimal(mm / 25.4, 4)} in`;

/**
 * A length as it would be typed into the file, in its own unit and so without one: `3/8`, `12.5`. A file without `units` gets the unit written.
 *
 * @param towards `up` and `down` never go past the size the wrong way, for limits
 */
export const writeLength = (mm: number, unit: HomeUnit | undefined, towards: Towards = 'nearest', denominator = 64): string => {
  if (unit?.name === 'inch') return fraction(steps((mm / unit.mm) * denominator, towards), denominator);
  const scale = 10 ** placesOf(unit);
  const written = decimal(steps((mm / (unit?.mm ?? 1)) * scale, towards) / scale, placesOf(unit));
  return unit === undefined ? `${written} mm` : written;
};

/** `90°`, `37.5°`. */
export const sayAngle = (rad: number): string => `${decimal((rad * 180) / Math.PI, 1)}°`;
/** Degrees as typed, bare. */
export const writeAngle = (rad: number): string => decimal((rad * 180) / Math.PI, 2);

/** Mass, three figures: `1.24 kg`, `850 g`; in inch files `2.73 lb`. */
export const sayMass = (kg: number, unit: HomeUnit | undefined): string => {
  if (imperial(unit)) return `${figures(kg / 0.453_592_37, 3)} lb`;
  return Math.abs(kg) < 1 ? `${figures(kg * 1000, 3)} g` : `${figures(kg, 3)} kg`;
};

/** Area: `312 in²`, `0.215 m²` from a tenth of a square metre, else `4500 mm²`. */
export const sayArea = (mm2: number, unit: HomeUnit | undefined): string => {
  if (imperial(unit)) return `${figures(mm2 / 645.16, 3)} in²`;
  return Math.abs(mm2) >= 1e5 ? `${figures(mm2 / 1e6, 3)} m²` : `${figures(mm2, 3)} mm²`;
};

const imperial = (unit: HomeUnit | undefined): boolean => unit?.name === 'inch' || unit?.name === 'foot';
