/** Setbacks of one bend, with how they change. Lengths mm, angles rad. */

/** Beyond a square turn nobody can measure to the apex, so sizes run to the outermost tangent (DIN 6935). */
const SQUARE = Math.PI / 2 + 1e-9;
/** Whether sizes at a bend run to the apex of its faces. */
export const toApex = (turn: number): boolean => turn <= SQUARE;

/**
 * From the bend tangent to where an outside size ends, and its derivatives by the radius (and equally the thickness) and by the turn.
 *
 * @param turn 0 < turn < π
 * Source: plane geometry; DIN 6935:2011-10; FAA-H-8083-31 ch. 4 (setback).
 */
export const apexOrTangent = (
  turn: number,
  inside: number,
  sheet: number,
): { readonly setback: number; readonly perRadius: number; readonly perTurn: number } => {
  if (!toApex(turn)) return { setback: inside + sheet, perRadius: 1, perTurn: 0 };
  const perRadius = Math.tan(turn / 2);
  return { setback: (inside + sheet) * perRadius, perRadius, perTurn: (inside + sheet) / (2 * Math.cos(turn / 2) ** 2) };
};
