/** How much sheet a bend uses up. Lengths mm, angles rad: `turn` is what the bend turns through from flat. */
import { apexOrTangent, toApex } from './setback.js';
import { type BentStrip, fromStrips, sayTrial } from './trial.js';

/**
 * Length of sheet used up by one bend: the neutral arc.
 *
 * @param turn   0 < turn ≤ π
 * @param inside inside radius
 * @param sheet  thickness
 * @param k      neutral axis from the inside face, as a share of the thickness, 0…0.5
 * Source: plane geometry; Machinery's Handbook, sheet-metal bending.
 */
export const bendAllowance = (turn: number, inside: number, sheet: number, k: number): number => turn * (inside + k * sheet);

/**
 * From the bend tangent to where an outside size ends: the apex of the outside faces up to a square turn, the outermost tangent beyond it.
 * Source: plane geometry; DIN 6935:2011-10; FAA-H-8083-31 ch. 4 (setback).
 */
export const outsideSetback = (turn: number, inside: number, sheet: number): number => apexOrTangent(turn, inside, sheet).setback;

/** The same for inside sizes: to the apex of the inside faces, or to the innermost tangent beyond a square turn. */
export const insideSetback = (turn: number, inside: number): number => (toApex(turn) ? inside * Math.tan(turn / 2) : inside);

/** Setback to the apex of the outside faces at any turn below π, as the aircraft handbooks chart it. */
export const apexSetback = (turn: number, inside: number, sheet: number): number => (inside + sheet) * Math.tan(turn / 2);

/** What two outside sizes have to lose for the bend between them. */
export const bendDeduction = (setback: number, allowance: number): number => 2 * setback - allowance;

/**
 * DIN 6935 factor k on half the thickness (twice the neutral-axis share).
 *
 * @param ratio inside radius over thickness, > 0
 * Source: DIN 6935:2011-10.
 */
export const dinFactor = (ratio: number): number => (ratio > 5 ? 1 : Math.max(0, 0.65 + 0.5 * Math.log10(ratio)));

/**
 * DIN 6935 deduction v (positive here) for one bend between two outside sizes. Three ranges of the opening angle β = π − turn:
 * β ≤ 90° to the outermost tangents, 90° < β ≤ 165° to the apex, above 165° nothing.
 * Source: DIN 6935:2011-10.
 */
export const dinDeduction = (turn: number, inside: number, sheet: number): number => {
  if (dinNegligible(turn)) return 0;
  return 2 * outsideSetback(turn, inside, sheet) - turn * (inside + dinFactor(inside / sheet) * (sheet / 2));
};
const dinNegligible = (turn: number): boolean => turn < Math.PI / 12 - 1e-9;

/** How much the outer face of a bend is longer than the middle of the sheet: 1 / (2 R/T + 1). Source: plane geometry. */
export const outerStrain = (inside: number, sheet: number): number => 1 / ((2 * inside) / sheet + 1);

/** The inside radius whose outer face stretches by so much, 0 < strain ≤ 1. */
export const radiusForStrain = (strain: number, sheet: number): number => (sheet / 2) * (1 / strain - 1);

export type Temper = 'soft' | 'half hard' | 'hard';
/**
 * Straight-line form of the handbooks: share of thickness in a square bend's allowance.
 * Soft: soft brass and copper; half hard: half-hard copper and brass, soft steel, aluminium; hard: bronze, hard copper, cold-rolled and spring steel.
 * Source: Machinery's Handbook, lengths of straight stock for a 90-degree bend, from memory.
 */
const HANDBOOK: Readonly<Record<Temper, number>> = { soft: 0.55, 'half hard': 0.64, hard: 0.71 };

/** Allowance by the handbook form, (c·T + 1.57·R) for a square turn and in proportion for others. */
export const handbookAllowance = (turn: number, inside: number, sheet: number, temper: Temper): number =>
  ((HANDBOOK[temper] * sheet + 1.57 * inside) * turn) / (Math.PI / 2);

/**
 * Allowance by the aircraft handbooks' form for each degree: (0.01743·R + 0.0078·T)·N. The Navy's training text prints 0.0173.
 * Source: FAA-H-8083-31 ch. 4, coefficient from memory.
 */
export const aircraftAllowance = (turn: number, inside: number, sheet: number): number =>
  ((0.01743 * inside + 0.0078 * sheet) * turn * 180) / Math.PI;

/** How a sheet's bends are reckoned; a trial is a measured strip of the shop's own. */
export type AllowanceMethod =
  | { readonly kind: 'k'; readonly k: number }
  | { readonly kind: 'din' }
  | { readonly kind: 'handbook'; readonly temper: Temper }
  | { readonly kind: 'aircraft' }
  /** `trial` are the names as written; `strips` what was bent and measured, undefined or empty when none of them tells anything. */
  | { readonly kind: 'trial'; readonly trial: string; readonly strips?: readonly BentStrip[] };

export interface BendSums {
  readonly allowance: number;
  /** Outside setback: apex up to a square turn, outermost tangent beyond. */
  readonly setback: number;
  readonly deduction: number;
  /** Neutral axis as a share of thickness that the allowance amounts to. */
  readonly k: number;
  /** "K 0.42", "DIN 6935, k 0.690", "trial strip_1, K 0.318 ± 0.022". */
  readonly method: string;
  readonly source: string;
}

/**
 * The sums for one bend by the sheet's method.
 *
 * @returns undefined for a `trial` without a strip that tells anything
 */
export const bendSums = (method: AllowanceMethod, turn: number, inside: number, sheet: number): BendSums | undefined => {
  const setback = outsideSetback(turn, inside, sheet);
  const sums = (allowance: number, text: string, source: string): BendSums => ({
    allowance,
    setback,
    deduction: 2 * setback - allowance,
    k: (allowance / turn - inside) / sheet,
    method: text,
    source,
  });
  switch (method.kind) {
    case 'k':
      return sums(bendAllowance(turn, inside, sheet, method.k), `K ${plain(method.k)}`, 'neutral arc, K as the sheet states it');
    case 'din': {
      const allowance = 2 * setback - dinDeduction(turn, inside, sheet);
      const range = dinNegligible(turn) ? 'v 0 (opening above 165°)' : `k ${dinFactor(inside / sheet).toFixed(3)}`;
      return sums(allowance, `DIN 6935, ${range}`, 'DIN 6935:2011-10');
    }
    case 'handbook': {
      const allowance = handbookAllowance(turn, inside, sheet, method.temper);
      return sums(allowance, `handbook, ${method.temper}: ${HANDBOOK[method.temper]} T + 1.57 R`, "Machinery's Handbook, from memory");
    }
    case 'aircraft':
      return sums(aircraftAllowance(turn, inside, sheet), 'aircraft, (0.01743 R + 0.0078 T) a degree', 'FAA-H-8083-31 ch. 4');
    case 'trial': {
      const strips = method.strips ?? [];
      const answer = fromStrips(strips, turn, inside, sheet);
      if (answer === undefined) return undefined;
      const source = strips.length > 1 ? 'measured strips of this shop' : 'measured strip of this shop';
      return sums(bendAllowance(turn, inside, sheet, answer.k), sayTrial(answer, strips.length), source);
    }
  }
};
const plain = (value: number): string => String(Math.round(value * 1e4) / 1e4);
