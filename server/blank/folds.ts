/** Edges that are folded by a geometry of their own: what turn, radius and straight a hem, a curl or a joggle comes to. Lengths mm, angles rad. */
import type { HemStep } from '../model/part.js';

export interface Fold {
  readonly radius: number;
  readonly turn: number;
  /** Straight between the bend's end and the cut edge, when nothing follows. */
  readonly flat: number;
}

/**
 * A hem whose depth runs from the outermost of the fold to the farthest of its cut edge. Closed and open hems turn half round.
 * A teardrop turns on by e until its return, a tangent to the drop, touches the sheet with its inner edge: the straight is s = R cot(e/2), as long as the
 * sheet's own tangent from the drop to the touch, and the outer corner of the cut edge stands T sin e beyond it.
 *
 * @returns undefined when the depth leaves no straight. Source: plane geometry.
 */
export const hemFold = (step: HemStep, thickness: number): Fold | undefined => {
  const { style, depth } = step;
  const radius = style.kind === 'closed' ? 0 : style.kind === 'open' ? style.gap / 2 : style.diameter / 2;
  const beyond = depth - (radius + thickness);
  if (!(beyond > 1e-6)) return undefined;
  if (style.kind !== 'teardrop' || radius < 1e-9) return { radius, turn: Math.PI, flat: beyond };
  const reach = (s: number): number => s + (2 * thickness * radius * s) / (s * s + radius * radius);
  // reach(s) > s, so the answer lies below `beyond`; halving finds it to the last figure.
  let low = 0;
  let high = beyond;
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (reach(middle) < beyond) low = middle;
    else high = middle;
  }
  return { radius, turn: Math.PI + 2 * Math.atan2(radius, high), flat: high };
};

/** The least depth a hem of this style can have: its fold, and a thickness of straight. */
export const leastHem = (step: HemStep, thickness: number): number => {
  const { style } = step;
  return (style.kind === 'closed' ? 0 : style.kind === 'open' ? style.gap / 2 : style.diameter / 2) + 2 * thickness;
};

/** How far a curl turns round a wire until its cut edge touches the sheet. Source: plane geometry. */
export const curlTurn = (wire: number, thickness: number): number => 2 * Math.PI - Math.acos(wire / 2 / (wire / 2 + thickness));

export interface Slope {
  /** Turn of each of the two bends. */
  readonly turn: number;
  /** Straight between them, 0 when the one runs into the other. */
  readonly flat: number;
  /** Length along the sheet. */
  readonly run: number;
}

/**
 * Two equal opposite bends to inside radius R that set the sheet off by a depth h, over a mid-plane radius r = R + T/2:
 * straight = (h − 2 r (1 − cos A)) / sin A, run = 2 r sin A + straight cos A. Source: plane geometry.
 */
export const slopeAt = (turn: number, depth: number, middle: number): Slope => {
  const flat = Math.max(0, (depth - 2 * middle * (1 - Math.cos(turn))) / Math.sin(turn));
  return { turn, flat: flat < 1e-9 ? 0 : flat, run: 2 * middle * Math.sin(turn) + flat * Math.cos(turn) };
};

/** The steepest slope that a depth leaves room for, up to a square turn. */
export const steepest = (depth: number, middle: number): number =>
  depth >= 2 * middle ? Math.PI / 2 : Math.acos(1 - depth / (2 * middle));

/** The slope that a joggle takes: by its run when that is written, else 45° or what the depth leaves room for. Undefined when the run is too short. */
export const joggleSlope = (depth: number, run: number | undefined, middle: number): Slope | undefined => {
  const greatest = steepest(depth, middle);
  if (run === undefined) return slopeAt(Math.min(Math.PI / 4, greatest), depth, middle);
  if (run < slopeAt(greatest, depth, middle).run - 1e-9) return undefined;
  // With t = tan(A/2): (4 r − h) t² − 2 run t + h = 0; the smaller root is the flatter slope.
  const a = 4 * middle - depth;
  const root = Math.sqrt(Math.max(0, run * run - a * depth));
  return slopeAt(2 * Math.atan(depth / (run + root)), depth, middle);
};
