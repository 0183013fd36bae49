/**
 * Edges that are folded by a geometry of their own: what turn, radius and straight a hem, a curl or a joggle comes to, and how much sheet that takes.
 * Lengths mm, angles rad. Source throughout: plane geometry, unless another is named.
 */

/** How a hem is folded back on the sheet. */
export type HemStyle =
  | { readonly kind: 'closed' }
  | { readonly kind: 'open'; readonly gap: number }
  /** Folded twice, each fold mashed flat: three layers, the cut edge inside. */
  | { readonly kind: 'double' }
  /** Turned past half round so that the cut edge comes back to touch the sheet; `diameter` inside the drop. */
  | { readonly kind: 'teardrop'; readonly diameter: number };

/** One round and the straight after it. */
export interface Fold {
  /** Inside. */
  readonly radius: number;
  readonly turn: number;
  /** Straight between the round's end and the cut edge, or the next fold. */
  readonly flat: number;
}

/** Inside radius of the fold that stands at the edge: of a double hem it lies round one layer of sheet. */
export const hemRadius = (style: HemStyle, thickness: number): number => {
  switch (style.kind) {
    case 'closed':
      return 0;
    case 'open':
      return style.gap / 2;
    case 'double':
      return thickness / 2;
    case 'teardrop':
      return style.diameter / 2;
  }
};

/**
 * The folds of a hem whose depth runs from the outermost of the fold to the farthest of what lies back on the sheet, from the base outward.
 *
 * Closed and open hems turn half round. A teardrop turns on by e until its return, a tangent to the drop, touches the sheet with its inner edge: the
 * straight is s = R cot(e/2), as long as the sheet's own tangent from the drop to the touch, and the outer corner of the cut edge stands T sin e beyond it.
 * A double hem turns half round about one thickness, and half round again about nothing; its cut edge comes back to where the first round begins.
 *
 * @returns undefined when the depth leaves no straight
 */
export const hemFolds = (style: HemStyle, depth: number, thickness: number): readonly Fold[] | undefined => {
  const radius = hemRadius(style, thickness);
  const beyond = depth - (radius + thickness) - (style.kind === 'double' ? thickness : 0);
  if (!(beyond > 1e-6)) return undefined;
  const half: Fold = { radius, turn: Math.PI, flat: beyond };
  if (style.kind === 'double') return [half, { radius: 0, turn: Math.PI, flat: beyond }];
  if (style.kind !== 'teardrop' || radius < 1e-9) return [half];
  // reach(s) > s, so the answer lies below `beyond`; halving finds it to the last figure.
  let low = 0;
  let high = beyond;
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (dropReach(middle, radius, thickness) < beyond) low = middle;
    else high = middle;
  }
  return [{ radius, turn: Math.PI + 2 * Math.atan2(radius, high), flat: high }];
};

/** How far the return of a teardrop reaches back from where its round ends: its straight s, and T sin e for the outer corner, sin e = 2 R s / (s² + R²). */
export const dropReach = (straight: number, radius: number, thickness: number): number =>
  straight + (2 * thickness * radius * straight) / (straight * straight + radius * radius);

/** The least depth a hem of this style can have: its folds, and a thickness of straight. */
export const leastHem = (style: HemStyle, thickness: number): number =>
  hemRadius(style, thickness) + (style.kind === 'double' ? 3 : 2) * thickness;

/** How far a curl turns round a wire until its cut edge touches the sheet: 2π − arccos(r / (r + T)). */
export const curlTurn = (wire: number, thickness: number): number => 2 * Math.PI - Math.acos(wire / 2 / (wire / 2 + thickness));

/** How far a roll stands out from where it begins, on its outside and its inside: short of square to its own end, beyond it to the outermost tangent. */
export const rollReach = (radius: number, turn: number, thickness: number): { readonly outside: number; readonly inside: number } => {
  const share = Math.sin(Math.min(turn, Math.PI / 2));
  return { outside: (radius + thickness) * share, inside: radius * share };
};

export interface Slope {
  /** Turn of each of the two bends. */
  readonly turn: number;
  /** Straight between them, 0 when the one runs into the other. */
  readonly flat: number;
  /** Length along the sheet. */
  readonly run: number;
}

/** What two equal opposite bends with a straight between them run along the sheet, and how far they set it off; over a mid-plane radius r = R + T/2. */
export const slopeSizes = (turn: number, straight: number, middle: number): { readonly run: number; readonly depth: number } => ({
  run: 2 * middle * Math.sin(turn) + straight * Math.cos(turn),
  depth: leastOffset(turn, middle) + straight * Math.sin(turn),
});

/** The least offset that two bends of this turn make, with nothing straight between them. */
export const leastOffset = (turn: number, middle: number): number => 2 * middle * (1 - Math.cos(turn));

/** Two equal opposite bends that set the sheet off by a depth h: straight = (h − 2 r (1 − cos A)) / sin A. A shallower one than that gets no straight. */
export const slopeAt = (turn: number, depth: number, middle: number): Slope => {
  const flat = Math.max(0, (depth - leastOffset(turn, middle)) / Math.sin(turn));
  const tidy = flat < 1e-9 ? 0 : flat;
  return { turn, flat: tidy, run: slopeSizes(turn, tidy, middle).run };
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

export interface EdgeSheet {
  /** Beyond the tangent where the sheet leaves its plane: rounds and straights. */
  readonly beyondTangent: number;
  /** Beyond the outermost of the finished edge: what the blank gains on the finished size. */
  readonly beyondOutside: number;
}
/** @param outermost how far the finished edge stands out from the tangent where the sheet leaves its plane */
export const sheetTaken = (folds: readonly { readonly allowance: number; readonly flat: number }[], outermost: number): EdgeSheet => {
  const beyondTangent = folds.reduce((sum, { allowance, flat }) => sum + allowance + flat, 0);
  return { beyondTangent, beyondOutside: beyondTangent - outermost };
};

/**
 * What the sheet-metal worker's handbook adds to the finished size, without regard to thickness.
 * Source: US Navy, Steelworker Volume 2, NAVEDTRA 14251 (1996), ch. 2, edges, joints, seams and notches.
 */
export const handbookEdges = {
  singleHem: (width: number): number => width,
  doubleHem: (width: number): number => 2 * width,
  wiredEdge: (wire: number): number => 2.5 * wire,
} as const;
