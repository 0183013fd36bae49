/** What a hand brake rated in one metal at full length takes of another, over a shorter bend. mm, MPa. */

/** A bend shorter than this share of the brake counts as this long: what it loads is then the nose's edge and the leaf near it. Common practice, no source. */
const SHORTEST_SHARE = 0.25;

/**
 * Thickest sheet: T2 = T1 · √(S1/S2) · √(L1/L2).
 *
 * A leaf brake's moment goes with strength, length and the square of thickness. Source: plastic bending moment of a rectangular section, S·T²/4 per
 * unit of length; the length rule agrees with brake makers' practice of rating at full length.
 * @param rated thickness it is rated for, over `ratedLength`, in a metal of strength `ratedStrength`
 * @param strengthRatio rated metal's strength over the sheet's; both tensile or both yield
 * @param lengths of brake and bend, or undefined to leave length out
 */
export const thickestOnBrake = (
  rated: number,
  strengthRatio: number,
  lengths: { readonly brake: number; readonly bend: number } | undefined,
): number => {
  if (lengths === undefined || !(lengths.bend > 0)) return rated * Math.sqrt(strengthRatio);
  const share = Math.min(1, Math.max(SHORTEST_SHARE, lengths.bend / lengths.brake));
  return rated * Math.sqrt(strengthRatio / share);
};

/**
 * What shops allow in stainless on a brake rated in mild steel, as a share of the rating: three to four gauges less (16 gauge mild, 20 gauge stainless:
 * 0.912 / 1.519). It hardens as it bends, so this is more careful than the square root of strengths. Common practice, no source.
 */
export const STAINLESS_PRACTICE = 0.6;

/** Plastic moment per length of bend, N·mm/mm: strength · T² / 4. With the tensile strength it is an upper bound. Source: plastic bending. */
export const plasticMoment = (strength: number, thickness: number): number => (strength * thickness * thickness) / 4;
