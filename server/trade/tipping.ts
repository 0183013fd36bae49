/** Narrow edges turned up, slight folds, and pressed rims round holes. mm, rad; strains are ratios, stretch positive. */

export interface TippedEdgeSums {
  /** Sheet from the bend's tangent line to the cut edge: the flat of the tip and its bend. */
  readonly beyondTangent: number;
  /** What the blank has beyond the finished outline (apex of the outside faces up to square, outermost tangent beyond). */
  readonly added: number;
}
/**
 * Sheet that a tipped edge takes.
 *
 * @param width  from the outside of the bend to the cut edge
 * @param turn   0 < turn < π
 * @param inside radius of the tip's bend
 * @param k      neutral line from the inside, share of the thickness
 * @returns undefined when the bend takes up the whole width
 * Source: plane geometry of a bend, as for any flange.
 */
export const tippedEdge = (width: number, turn: number, inside: number, thickness: number, k: number): TippedEdgeSums | undefined => {
  const setback = turn <= Math.PI / 2 + 1e-9 ? (inside + thickness) * Math.tan(turn / 2) : inside + thickness;
  const flat = width - setback;
  if (!(flat >= 0)) return undefined;
  const beyondTangent = flat + turn * (inside + k * thickness);
  return { beyondTangent, added: beyondTangent - setback };
};

export interface TipStrain {
  /** Stretch (+) or shrink (−) at the cut edge, from its true radii before and after. */
  readonly strain: number;
  /** The rule of thumb, width over the edge's radius, with the same sign. */
  readonly byRule: number;
}
/**
 * Strain at the cut edge of a tip on a curved edge. On a hollow curve the cut edge lies on a smaller circle before than after and must stretch; on a
 * round one it must shrink.
 *
 * @param radius of the finished edge in plan
 * @param sums   from `tippedEdge`
 * @param width  outside width, `turn` rad
 * @returns undefined when a hollow's radius leaves no circle to start from
 * Source: plane geometry, lengths of arcs before and after; the rule of thumb is common practice.
 */
export const tipStrain = (
  radius: number,
  curve: 'hollow' | 'round',
  width: number,
  turn: number,
  sums: TippedEdgeSums,
): TipStrain | undefined => {
  const sign = curve === 'hollow' ? 1 : -1;
  // Beyond the finished outline the sheet reaches into the hollow, or out from the round; after, the cut edge stands `width · cos turn` beyond it.
  const before = radius - sign * sums.added;
  const after = radius - sign * width * Math.cos(turn);
  if (!(before > 0 && after > 0)) return undefined;
  return { strain: after / before - 1, byRule: (sign * width) / radius };
};

/**
 * Shrink that a hand roller gathers without puckers, a share of the length. Common practice, no source: thin sheet puckers from 3 to 5 %.
 */
export const SHRINK_LIMIT = 0.03;

export interface CrossBreakSums {
  /** Slope of the four faces against the rim, rad, steeper pair first. */
  readonly slopes: readonly [number, number];
  /** By how much width and height come out smaller when the middle has risen and none of the sheet stretches. */
  readonly shorter: { readonly width: number; readonly height: number };
  /** Times stiffer than flat at the first touch of a spread load: nothing when the rim can pull in, at most this when it can't. */
  readonly stiffer: { readonly least: 1; readonly most: number };
}
/**
 * A panel folded slightly along both diagonals, its middle `depth` proud.
 *
 * Shorter: each half keeps its length and leans, w/2 − √((w/2)² − depth²) on either side. Stiffer: a shallow dish with a rim that can't move pushes back as an
 * arch, 1 + 3 (depth/T)² for a dish of one half-wave each way; a rim that can pull in gives the flat sheet's stiffness at the least. The true gain lies
 * between, and ends when the middle snaps through, about when it is pushed flat.
 *
 * Source: Berger, J. Appl. Mech. 22 (1955) 465–472 (approximate large deflections of plates), from memory, with the rise added; first term, edges simply held.
 */
export const crossBreak = (width: number, height: number, depth: number, thickness: number): CrossBreakSums => {
  const [near, far] = [Math.min(width, height) / 2, Math.max(width, height) / 2];
  const loss = (half: number): number => 2 * (half - half * Math.sqrt(Math.max(0, 1 - (depth / half) ** 2)));
  return {
    slopes: [Math.atan2(depth, near), Math.atan2(depth, far)],
    shorter: { width: loss(width / 2), height: loss(height / 2) },
    stiffer: { least: 1, most: 1 + 3 * (depth / thickness) ** 2 },
  };
};

export interface PressedRim {
  /** Inside of the rim once pressed. */
  readonly pressedDiameter: number;
  /** Where the sheet is flat again. */
  readonly footDiameter: number;
  /** Stretch of the rim's edge. */
  readonly strain: number;
  /** Second moment of the rim's section about its own level axis, mm⁴. */
  readonly secondMoment: number;
}
/**
 * A hole whose rim is pressed out into a cone, its length down the slope kept.
 *
 * @param hole  diameter before pressing
 * @param depth the rim stands out
 * @param slope of the cone from flat, rad, up to a right angle; dimple dies usually leave 45° (common practice, no source)
 * Source: plane geometry.
 */
export const pressedRim = (hole: number, depth: number, thickness: number, slope = Math.PI / 4): PressedRim => {
  const length = depth / Math.sin(slope);
  const radius = hole / 2;
  const inner = radius + length * (1 - Math.cos(slope));
  return {
    pressedDiameter: 2 * inner,
    footDiameter: 2 * (radius + length),
    strain: inner / radius - 1,
    secondMoment: (length * thickness * (length * Math.sin(slope)) ** 2) / 12 + (length * thickness ** 3 * Math.cos(slope) ** 2) / 12,
  };
};
/** Hole to cut for a rim that must end `pressed` wide inside; undefined when the rim's slope takes it all. */
export const holeForRim = (pressed: number, depth: number, slope = Math.PI / 4): number | undefined => {
  const hole = pressed - 2 * (depth / Math.sin(slope)) * (1 - Math.cos(slope));
  return hole > 0 ? hole : undefined;
};

export interface RimSpacing {
  readonly distance: number;
  readonly rule: string;
  readonly source: string;
}
const GUIDELINE = 'sheet-metal design guideline (DRM Associates), in part from memory';
/** Least distances from the middle of a pressed hole, its radius taken at the foot of the rim; and the deepest rim. */
export const rimSpacing = (
  footDiameter: number,
  thickness: number,
  bendRadius: number,
): { readonly toHole: RimSpacing; readonly toEdge: RimSpacing; readonly toBend: RimSpacing } => {
  const radius = footDiameter / 2;
  return {
    toHole: { distance: 3 * thickness + radius, rule: '3 T + the rim’s radius', source: GUIDELINE },
    toEdge: { distance: 4 * thickness + radius, rule: '4 T + the rim’s radius', source: GUIDELINE },
    toBend: { distance: 2 * thickness + radius + bendRadius, rule: '2 T + the rim’s radius + the bend’s', source: GUIDELINE },
  };
};
/** Deepest rim: half the inside diameter. Source: sheet-metal design guideline (DRM Associates), in part from memory. */
export const deepestRim = (pressedDiameter: number): number => pressedDiameter / 2;
