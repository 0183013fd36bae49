/** Numbers written for people: fractions of an inch to a chosen denominator, or tenths of a millimetre. */

export type DisplayUnit = 'inch' | 'mm';
export interface DisplayOptions {
  readonly unit: DisplayUnit;
  /** Smallest fraction of an inch shown: 64 by default. */
  readonly denominator?: number;
}

const inch = 25.4;
const minus = '\u2212';

const reduce = (top: number, bottom: number): readonly [number, number] => {
  let [a, b] = [top, bottom];
  while (b !== 0) [a, b] = [b, a % b];
  return [top / a, bottom / a];
};

/**
 * An inch value as whole and fraction: `12 5/16`. Rounded to the nearest step it loses at most half a step; where more than
 * half of that goes, a `+` (the true size is a shade over) or `−` (a shade under) follows.
 *
 * @param inches any finite number
 * @param denominator smallest fraction, a whole number of 1 or more
 */
export const inchFraction = (inches: number, denominator = 64): string => {
  const steps = Math.round(Math.abs(inches) * denominator);
  const lost = Math.abs(inches) * denominator - steps;
  const shade = lost > 0.25 ? '+' : lost < -0.25 ? minus : '';
  const whole = Math.floor(steps / denominator);
  const rest = steps - whole * denominator;
  const sign = inches < 0 && (steps > 0 || shade !== '') ? minus : '';
  if (rest === 0) return `${sign}${whole}${shade === '' ? '' : ` ${shade}`}`;
  const [top, bottom] = reduce(rest, denominator);
  const fraction = `${top}/${bottom}`;
  return `${sign}${whole === 0 ? fraction : `${whole} ${fraction}`}${shade === '' ? '' : ` ${shade}`}`;
};

/** A plain decimal without trailing noughts: `312.5`, `1.214`. Never `-0`, never an exponent. */
export const decimal = (value: number, places: number): string => {
  const text = value.toFixed(places);
  const short = text.includes('.') ? text.replace(/0+$/, '').replace(/\.$/, '') : text;
  return short === '-0' ? '0' : short;
};

/**
 * A length without its unit, the way a drawing that states its unit once writes it.
 *
 * @param mm length in millimetres
 */
export const displayLength = (mm: number, options: DisplayOptions): string =>
  options.unit === 'inch' ? inchFraction(mm / inch, options.denominator ?? 64) : decimal(mm, 1).replace('-', minus);

/** A length with its unit: `12 5/16 in`, `312.5 mm`. */
export const display = (mm: number, unit: DisplayUnit, denominator = 64): string =>
  `${displayLength(mm, { unit, denominator })} ${unit === 'inch' ? 'in' : 'mm'}`;

/** Sheet thickness wants more figures than a cut size: thousandths of an inch, hundredths of a millimetre. */
export const displayThickness = (mm: number, unit: DisplayUnit): string =>
  unit === 'inch' ? `${(mm / inch).toFixed(3)} in` : `${decimal(mm, 2)} mm`;

/** Degrees to a tenth: `90°`, `37.5°`. */
export const displayAngle = (radians: number): string => `${decimal((radians * 180) / Math.PI, 1)}°`;

/** Kilograms to three figures below ten: `2.31 kg`, `0.084 kg`, `12.4 kg`; pounds in inch work. */
export const displayMass = (kilograms: number, unit: DisplayUnit): string => {
  // The avoirdupois pound is 0.45359237 kg exactly (international yard and pound agreement, 1959).
  const value = unit === 'inch' ? kilograms / 0.45359237 : kilograms;
  const places = value >= 10 ? 1 : value >= 1 ? 2 : 3;
  return `${decimal(value, places)} ${unit === 'inch' ? 'lb' : 'kg'}`;
};
