/** How far a bend opens again when it is let go. Millimetres, MPa, rad. */

export interface SprungMetal {
  readonly yield: number; // MPa
  readonly modulus: number; // MPa
}
/** How a bend stands to the formula's ground: x = Ri Y / (E T). */
export interface Springback {
  /** Radius and angle to set, or as set. */
  readonly setRadius: number;
  readonly setTurn: number;
  /** Radius and angle left when let go. */
  readonly freeRadius: number;
  readonly freeTurn: number;
  readonly x: number;
}

/** At this x the sheet has only sprung: let go, it is flat again. */
const LAST_X = 0.5;

/** Ri/Rf = 4x³ − 3x + 1, x = Ri Y / (E T), for 0 ≤ x ≤ 0.5. Source: Kalpakjian and Schmid, Manufacturing Engineering and Technology, from memory. */
const ratioAt = (x: number): number => 4 * x ** 3 - 3 * x + 1;

/**
 * What a bend made over `setRadius` through `setTurn` keeps.
 *
 * Elastic, then perfectly plastic, in pure bending, the neutral line keeping its length: no hardening, no stretching, so a first estimate; sharp bends
 * in air spring more. Try a strip.
 * @returns undefined when it all springs back (x ≥ 0.5)
 * Source: Kalpakjian and Schmid, from memory.
 */
export const springback = (metal: SprungMetal, setRadius: number, setTurn: number, thickness: number): Springback | undefined => {
  const x = (setRadius * metal.yield) / (metal.modulus * thickness);
  if (!(x < LAST_X)) return undefined;
  const freeRadius = setRadius / ratioAt(x);
  return { setRadius, setTurn, freeRadius, freeTurn: (setTurn * (setRadius + thickness / 2)) / (freeRadius + thickness / 2), x };
};

/**
 * What to set for a wanted radius and turn.
 *
 * With c = Y/(E T) the set radius solves 4c³R³ − 3cR + 1 = R/Rf; the left side falls from 1 to 0 on 0 ≤ cR ≤ 0.5 while the right rises, so there is one.
 */
export const setFor = (metal: SprungMetal, freeRadius: number, freeTurn: number, thickness: number): Springback => {
  const c = metal.yield / (metal.modulus * thickness);
  let [low, high] = [0, Math.min(freeRadius, LAST_X / c)];
  for (let i = 0; i < 200 && high - low > 1e-12 * high; i++) {
    const middle = (low + high) / 2;
    if (ratioAt(c * middle) > middle / freeRadius) low = middle;
    else high = middle;
  }
  const setRadius = (low + high) / 2;
  return {
    setRadius,
    setTurn: (freeTurn * (freeRadius + thickness / 2)) / (setRadius + thickness / 2),
    freeRadius,
    freeTurn,
    x: c * setRadius,
  };
};

/** Same bend radius before and after, as a brake's nose gives it: angle to set so that `freeTurn` is left, bent over `setRadius`. */
export const turnToSet = (metal: SprungMetal, setRadius: number, freeTurn: number, thickness: number): Springback | undefined => {
  const unit = springback(metal, setRadius, 1, thickness);
  return unit === undefined ? undefined : springback(metal, setRadius, freeTurn / unit.freeTurn, thickness);
};

/** Inside radius over thickness, the table's columns. */
const FACTOR_COLUMNS: readonly number[] = [1, 1.6, 2.5, 4, 6.3, 10, 16, 25, 40, 63, 100];
/**
 * kR = angle left / angle set. Source: German trade tables book, springback factors; values as printed, the header's radius ratios from memory.
 */
const FACTORS: Readonly<Record<FactorMetal, readonly number[]>> = {
  DC04: [0.99, 0.99, 0.99, 0.98, 0.97, 0.97, 0.96, 0.94, 0.91, 0.87, 0.83],
  DC01: [0.99, 0.99, 0.99, 0.97, 0.96, 0.96, 0.93, 0.9, 0.85, 0.77, 0.66],
  'X12CrNi18-8': [0.99, 0.98, 0.97, 0.95, 0.93, 0.89, 0.84, 0.76, 0.63],
  'copper R20': [0.98, 0.97, 0.97, 0.96, 0.95, 0.93, 0.9, 0.85, 0.79, 0.72, 0.6],
  'CuZn33 R29': [0.97, 0.97, 0.96, 0.95, 0.94, 0.93, 0.89, 0.86, 0.83, 0.77, 0.73],
  'EN AW-Al99.0': [0.99, 0.99, 0.99, 0.99, 0.98, 0.98, 0.97, 0.97, 0.96, 0.95, 0.93],
  AlCuMg1: [0.98, 0.98, 0.98, 0.98, 0.97, 0.97, 0.96, 0.95, 0.93, 0.91, 0.87],
  AlSiMgMn: [0.98, 0.98, 0.97, 0.96, 0.95, 0.93, 0.9, 0.86, 0.82, 0.76, 0.72],
};
export type FactorMetal = 'DC04' | 'DC01' | 'X12CrNi18-8' | 'copper R20' | 'CuZn33 R29' | 'EN AW-Al99.0' | 'AlCuMg1' | 'AlSiMgMn';

/**
 * Published factor kR for a wanted inside radius r2 over the thickness s; between columns in proportion to the logarithm of the ratio, as the columns are
 * spaced; sharper than 1 counts as 1.
 *
 * @returns undefined beyond the metal's last column
 */
export const springbackFactor = (metal: FactorMetal, ratio: number): number | undefined => {
  const row = FACTORS[metal];
  if (ratio <= 1) return row[0];
  for (let i = 1; i < row.length; i++) {
    const [left, right, from, to] = [FACTOR_COLUMNS[i - 1], FACTOR_COLUMNS[i], row[i - 1], row[i]];
    if (left === undefined || right === undefined || from === undefined || to === undefined) return undefined;
    if (ratio <= right + 1e-9) return from + (to - from) * (Math.log(ratio / left) / Math.log(right / left));
  }
  return undefined;
};
/** Angle to set for a wanted one. */
export const turnByFactor = (wanted: number, factor: number): number => wanted / factor;
/** Tool radius for a wanted inside radius: kR (r2 + s/2) − s/2. Source: German trade tables book, from memory. */
export const toolRadiusByFactor = (wanted: number, thickness: number, factor: number): number =>
  factor * (wanted + thickness / 2) - thickness / 2;
