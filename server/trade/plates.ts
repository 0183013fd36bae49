/**
 * Rectangular plates in bending: alike all ways, or stiffer one way than the other, held along any of their edges. Small deflections, thin plate.
 *
 * N, mm, MPa, t (10³ kg), s. The plate's lower left corner is at (0, 0); x runs along `width`.
 */
import { navierPlate } from './plate-navier.js';
import { type PlateFrame, ritzPlate } from './plate-ritz.js';

export { simplyHeldFrequency, twistTerm } from './plate-navier.js';

/** Moments for each mm are Mx = −(x · wxx + cross · wyy), My = −(cross · wxx + y · wyy), Mxy = −2 · twist · wxy. N mm. */
export interface PlateStiffness {
  readonly x: number;
  readonly y: number;
  readonly cross: number;
  readonly twist: number;
}
export type EdgeHold = 'free' | 'simply' | 'clamped';
export interface PlateEdges {
  readonly left: EdgeHold;
  readonly right: EdgeHold;
  readonly bottom: EdgeHold;
  readonly top: EdgeHold;
}
/** A rectangle of the plate with a stiffness of its own. */
export interface PlateRegion {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly stiffness: PlateStiffness;
}
export interface Plate {
  readonly width: number;
  readonly height: number;
  readonly stiffness: PlateStiffness;
  /** The rectangle of it that is stiffened, where that is not the whole. */
  readonly stiffened?: PlateRegion;
  readonly edges: PlateEdges;
  /** t/mm²; needed for frequencies only. */
  readonly massPerArea?: number;
}
/** Pressure in MPa; a force in N spread over a rectangle (a point where both sizes are 0), clipped to the plate with its pressure kept. */
export type PlateLoad =
  | { readonly kind: 'spread'; readonly pressure: number }
  | {
      readonly kind: 'patch';
      readonly force: number;
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
    };

export interface BentPlate {
  readonly deflection: (x: number, y: number) => number;
  /** Moments for each mm of section, N mm/mm. Under a point load they grow without end as more terms are taken. */
  readonly moments: (x: number, y: number) => { readonly x: number; readonly y: number; readonly twist: number };
  /** The greatest deflection by size, with its sign, and where. */
  readonly greatest: { readonly deflection: number; readonly x: number; readonly y: number };
}
export interface SolvedPlate {
  /** What the next plate of the same size, held and stiffened at the same places, needn't work out again. */
  readonly frame?: PlateFrame;
  readonly under: (load: PlateLoad) => BentPlate;
  /** Lowest natural frequency, Hz; undefined without a mass. */
  readonly firstFrequency: () => number | undefined;
}

/** E T³ / (12 (1 − ν²)), N mm. */
export const plateRigidity = (modulus: number, thickness: number, poisson: number): number =>
  (modulus * thickness ** 3) / (12 * (1 - poisson * poisson));

/** A plate alike all ways: cross ν D, twist (1 − ν) D / 2. */
export const evenStiffness = (modulus: number, thickness: number, poisson: number): PlateStiffness => {
  const d = plateRigidity(modulus, thickness, poisson);
  return { x: d, y: d, cross: poisson * d, twist: ((1 - poisson) / 2) * d };
};

export interface CorrugatedStiffness {
  /** Bent across the beads, so that the beads open and close. */
  readonly across: number;
  /** Bent along the beads. */
  readonly along: number;
  /** Twist term H of the plate equation. */
  readonly twist: number;
}
/**
 * The equivalent plate of a corrugated sheet.
 *
 * @param secondMoment for each mm of width, mm³
 * @param stretch      length of midline over pitch, ≥ 1
 * Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. (1959), orthotropic plates, from memory.
 */
export const corrugatedStiffness = (
  modulus: number,
  poisson: number,
  thickness: number,
  secondMoment: number,
  stretch: number,
): CorrugatedStiffness => ({
  across: plateRigidity(modulus, thickness, poisson) / stretch,
  along: modulus * secondMoment,
  twist: (stretch * modulus * thickness ** 3) / (12 * (1 + poisson)),
});

/**
 * The same with the coupling of the two bendings kept, so that beads of no depth give the flat plate again: cross ν · across, and along gets what the
 * sheet's own width holds back, ν² · across. Against the published form, the twist term H is greater by ν · across.
 */
export const beadedStiffness = (
  modulus: number,
  poisson: number,
  thickness: number,
  secondMoment: number,
  stretch: number,
  along: 'x' | 'y',
): PlateStiffness => {
  const smeared = corrugatedStiffness(modulus, poisson, thickness, secondMoment, stretch);
  const stiff = smeared.along + poisson * poisson * smeared.across;
  const rest = { cross: poisson * smeared.across, twist: smeared.twist / 2 };
  return along === 'x' ? { x: stiff, y: smeared.across, ...rest } : { x: smeared.across, y: stiff, ...rest };
};

/**
 * The plate, ready to be loaded.
 *
 * Simply held all round and even throughout: Navier's double sine series. Otherwise Ritz's method with polynomials that meet what the edges ask. Spread
 * loads and frequencies come within 0.1 %, loads on a small place within 0.5 %; with a stiffened rectangle within 0.5 % and 2 %, always on the stiff side.
 * @param terms functions in each direction, when other than the usual
 * @param like  a plate solved before, to be quicker when this one differs in stiffness only
 * @returns undefined when the edges don't hold the plate (nothing, or one edge without clamping) or a size isn't above 0
 */
export const solvePlate = (plate: Plate, terms?: number, like?: SolvedPlate): SolvedPlate | undefined => {
  if (!(plate.width > 0 && plate.height > 0)) return undefined;
  const holds = Object.values(plate.edges) as readonly EdgeHold[];
  if (!holds.includes('clamped') && holds.filter((hold) => hold === 'simply').length < 2) return undefined;
  return plate.stiffened === undefined && holds.every((hold) => hold === 'simply')
    ? navierPlate(plate, terms)
    : ritzPlate(plate, terms, like?.frame);
};
