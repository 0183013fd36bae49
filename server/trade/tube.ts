/** Tube, bar, rod and angle: area of the section, mitres, copes. Millimetres, radians. */

export type StockShape =
  | { readonly kind: 'round tube'; readonly diameter: number; readonly wall: number }
  | { readonly kind: 'square tube'; readonly width: number; readonly height: number; readonly wall: number }
  | { readonly kind: 'round'; readonly diameter: number }
  | { readonly kind: 'square'; readonly side: number }
  | { readonly kind: 'flat'; readonly width: number; readonly thickness: number }
  | { readonly kind: 'angle'; readonly first: number; readonly second: number; readonly thickness: number };

/** Outside and inside corner radius of cold-formed square and rectangular tube. Source: EN 10219-2, annex B. */
const cornerRadii = (wall: number): readonly [number, number] =>
  wall <= 6 ? [2 * wall, wall] : wall <= 10 ? [2.5 * wall, 1.5 * wall] : [3 * wall, 2 * wall];

/**
 * Area of metal in the section, mm².
 *
 * Source: plane geometry; for square and rectangular tube EN 10219-2 annex B, from memory, with its corner radii. The root and toe rounding of rolled angle
 * is left out: its true area is a few per cent different.
 */
export const sectionArea = (shape: StockShape): number => {
  switch (shape.kind) {
    case 'round tube':
      return Math.PI * shape.wall * (shape.diameter - shape.wall);
    case 'square tube': {
      const { width, height, wall } = shape;
      const [outside, inside] = cornerRadii(wall);
      return 2 * wall * (width + height - 2 * wall) - (4 - Math.PI) * (outside ** 2 - inside ** 2);
    }
    case 'round':
      return (Math.PI * shape.diameter ** 2) / 4;
    case 'square':
      return shape.side ** 2;
    case 'flat':
      return shape.width * shape.thickness;
    case 'angle':
      return shape.thickness * (shape.first + shape.second - shape.thickness);
  }
};

/**
 * Across the stock in the plane of a mitre: what a mitred end gains from its short to its long point, for each unit of tan.
 *
 * @param turned plane of the mitre about the stock's own axis, rad; 0 is across the width (of angle, across the first leg)
 * Source: plane geometry.
 */
export const acrossMitre = (shape: StockShape, turned = 0): number => {
  const across = (width: number, depth: number): number => width * Math.abs(Math.cos(turned)) + depth * Math.abs(Math.sin(turned));
  switch (shape.kind) {
    case 'round tube':
    case 'round':
      return shape.diameter;
    case 'square tube':
      return across(shape.width, shape.height);
    case 'square':
      return across(shape.side, shape.side);
    case 'flat':
      return across(shape.width, shape.thickness);
    case 'angle':
      return across(shape.first, shape.second);
  }
};

/**
 * How much shorter a mitred end is at its short point.
 *
 * @param across width of the stock in the plane of the mitre, mm
 * @param angle  of the cut, from square, rad, 0 ≤ angle < π/2
 * Source: plane geometry.
 */
export const mitreRun = (across: number, angle: number): number => across * Math.tan(angle);

/**
 * Angles of the two cuts where members of unlike widths meet, each from its own member's axis.
 *
 * @param corner included angle between the members, rad
 * Source: plane geometry: the mitre runs from the inner to the outer crossing of their edges.
 */
export const unequalMitre = (first: number, second: number, corner: number): readonly [number, number] => [
  Math.atan2(Math.sin(corner), second / first + Math.cos(corner)),
  Math.atan2(Math.sin(corner), first / second + Math.cos(corner)),
];

/**
 * Where a branch tube meets a main: distance along the branch from the crossing of the axes to the cut, at an angle round the branch.
 *
 * @param main   outside radius of the main, mm
 * @param branch radius of the branch, mm, branch + |offset| ≤ main
 * @param angle  between the axes, 0 < angle ≤ π/2
 * @param round  round the branch from the side of the acute angle, rad
 * @param offset between the axes, mm
 * @returns undefined where the branch is too big for the main at this place
 * Source: intersection of two cylinders, derived.
 */
export const copeAt = (main: number, branch: number, angle: number, round: number, offset = 0): number | undefined => {
  const side = branch * Math.sin(round) + offset;
  const under = main ** 2 - side ** 2;
  if (under < -1e-9) return undefined;
  return (Math.sqrt(Math.max(0, under)) + branch * Math.cos(round) * Math.cos(angle)) / Math.sin(angle);
};

/**
 * Least and greatest of `copeAt` round the branch: where its metal reaches furthest, and where it is cut back most.
 *
 * The slope is naught at round 0 (the greatest), at π, and, where the main is not much wider than the branch, at cos round = −cot(angle) √(main²/branch² − 1),
 * which then is the least.
 *
 * @param branch at most the main, mm
 * Source: derived from the intersection of two cylinders.
 */
export const copeReach = (main: number, branch: number, angle: number): { readonly least: number; readonly most: number } => {
  const inner = -(Math.cos(angle) / Math.sin(angle)) * Math.sqrt(Math.max(0, (main / branch) ** 2 - 1));
  const places = [Math.PI, ...(inner >= -1 ? [Math.acos(inner)] : [])];
  return {
    least: Math.min(...places.map((round) => copeAt(main, branch, angle, round) ?? Number.POSITIVE_INFINITY)),
    most: (main + branch * Math.cos(angle)) / Math.sin(angle),
  };
};

/** Points of a template to wrap round the branch: how far round, how far from the template's straight edge. Undefined where the branch is too big. */
export const copeTemplate = (
  main: number,
  branch: number,
  angle: number,
  paper: number,
  stations: number,
): readonly { readonly x: number; readonly y: number }[] | undefined => {
  const heights = Array.from({ length: stations + 1 }, (_, i) => copeAt(main, branch, angle, (2 * Math.PI * i) / stations));
  if (heights.some((each) => each === undefined)) return undefined;
  const least = Math.min(...(heights as readonly number[]));
  return heights.map((height, i) => ({ x: ((branch + paper / 2) * 2 * Math.PI * i) / stations, y: (height as number) - least }));
};

/**
 * Length of flat bar in an eye round a pin, tails left out: the neutral line half-way through the bar.
 *
 * @param pin  diameter the eye closes on, play included, mm
 * @param wrap angle of touch, rad
 * Source: plane geometry; neutral line in the middle for gentle bends, common practice.
 */
export const eyeLength = (pin: number, thickness: number, wrap: number): number => (pin / 2 + thickness / 2) * wrap;
