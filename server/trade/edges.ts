/**
 * How much sheet an edge takes: hems, wired edges and curls, joggles, rolled edges, by exact geometry and by the handbooks' allowances.
 * Lengths mm, angles rad; `k` is the neutral axis from the inside face as a share of the thickness.
 */
import { bendAllowance } from './bends.js';

export interface EdgeSheet {
  /** Beyond the tangent where the sheet leaves its plane: arc and straight. */
  readonly beyondTangent: number;
  /** Beyond the outermost of the finished edge: what the blank gains on the finished size. */
  readonly beyondOutside: number;
}

/**
 * A closed or open hem: half round and a straight return.
 *
 * @param depth  outermost of the fold to the cut edge
 * @param inside inside radius: 0 closed, half the gap open
 * @returns undefined when the depth leaves no return
 * Source: plane geometry.
 */
export const hemSheet = (depth: number, inside: number, sheet: number, k: number): EdgeSheet | undefined => {
  const straight = depth - (inside + sheet);
  if (straight < 0) return undefined;
  const beyondTangent = straight + bendAllowance(Math.PI, inside, sheet, k);
  return { beyondTangent, beyondOutside: beyondTangent - (inside + sheet) };
};

export interface TeardropHem extends EdgeSheet {
  /** Turned in all: half round and on until the return touches the sheet. */
  readonly turn: number;
  /** Outermost of the fold to the farthest corner of the cut edge. */
  readonly depth: number;
}
/**
 * A teardrop hem from its straight return. The return and the sheet are the two tangents from where they touch to the drop, so both are as long:
 * tan(e/2) = r / straight, with e what it turns beyond half round.
 *
 * @param straight from the drop to the inner corner of the cut edge, > 0
 * @param diameter inside, of the drop
 * Source: plane geometry.
 */
export const teardropHem = (straight: number, diameter: number, sheet: number, k: number): TeardropHem => {
  const inside = diameter / 2;
  const past = 2 * Math.atan2(inside, straight);
  const turn = Math.PI + past;
  const beyondTangent = straight + bendAllowance(turn, inside, sheet, k);
  return {
    turn,
    depth: inside + sheet + straight + sheet * Math.sin(past),
    beyondTangent,
    beyondOutside: beyondTangent - (inside + sheet),
  };
};

export interface WiredEdge extends EdgeSheet {
  readonly turn: number;
}
/**
 * An edge wrapped round a wire until its cut edge just touches the sheet: 2π − arccos(r / (r + T)).
 *
 * Source: plane geometry.
 */
export const wiredEdge = (wire: number, sheet: number, k: number): WiredEdge => {
  const inside = wire / 2;
  const turn = 2 * Math.PI - Math.acos(inside / (inside + sheet));
  const beyondTangent = bendAllowance(turn, inside, sheet, k);
  return { turn, beyondTangent, beyondOutside: beyondTangent - (inside + sheet) };
};

/** A curl without a wire, or an edge rolled to a large radius: the arc alone, and how far it stands out. Source: plane geometry. */
export const rolledSheet = (inside: number, turn: number, sheet: number, k: number): EdgeSheet => {
  const beyondTangent = bendAllowance(turn, inside, sheet, k);
  // Short of square the outermost is its own outer corner; beyond, the outer tangent.
  const outermost = (inside + sheet) * Math.sin(Math.min(turn, Math.PI / 2));
  return { beyondTangent, beyondOutside: beyondTangent - outermost };
};

export interface JoggleSheet {
  /** Straight between the two bends. */
  readonly straight: number;
  /** What the slope takes along the sheet. */
  readonly run: number;
  readonly developed: number;
  /** What the blank gains on the length along the sheet. */
  readonly extra: number;
}
/** The least offset that two bends of this turn make, with nothing straight between them. Source: plane geometry. */
export const leastOffset = (turn: number, inside: number, sheet: number): number => 2 * (inside + sheet / 2) * (1 - Math.cos(turn));

/**
 * Two equal opposite bends that set the sheet off by `offset`, face to same face.
 *
 * @param turn of each bend, 0 < turn ≤ π/2
 * @returns undefined when the offset is less than the bends themselves make
 * Source: plane geometry.
 */
export const joggleSheet = (offset: number, turn: number, inside: number, sheet: number, k: number): JoggleSheet | undefined => {
  const middle = inside + sheet / 2;
  const straight = (offset - leastOffset(turn, inside, sheet)) / Math.sin(turn);
  if (straight < -1e-9) return undefined;
  const run = 2 * middle * Math.sin(turn) + straight * Math.cos(turn);
  const developed = 2 * bendAllowance(turn, inside, sheet, k) + straight;
  return { straight, run, developed, extra: developed - run };
};

/**
 * What the sheet-metal worker's handbook adds to the finished size, without regard to thickness.
 * Source: US Navy, Steelworker Volume 2, NAVEDTRA 14251 (1996), ch. 2, edges, joints, seams and notches.
 */
export const handbookEdges = {
  singleHem: (width: number): number => width,
  doubleHem: (width: number): number => 2 * width,
  wiredEdge: (wire: number): number => 2.5 * wire,
  /** In total for both edges, half on each. */
  groovedSeam: (width: number): number => 3 * width,
} as const;
