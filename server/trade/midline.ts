/**
 * Properties of a sheet's section from its midline: a chain of straight lines, true arcs and, where a shape is neither, curves y(x). Millimetres;
 * x across, y up. Lines and arcs are integrated in closed form, curves to about nine figures.
 */

export interface SectionPoint {
  readonly x: number;
  readonly y: number;
}
export type Stroke =
  | { readonly kind: 'line'; readonly from: SectionPoint; readonly to: SectionPoint }
  /** From the angle `start` (rad, anticlockwise from x) through `sweep` (signed) at `radius` round `centre`. */
  | { readonly kind: 'arc'; readonly centre: SectionPoint; readonly radius: number; readonly start: number; readonly sweep: number }
  /** y and its slope dy/dx as functions of x, from one x to a greater one. */
  | {
      readonly kind: 'curve';
      readonly from: number;
      readonly to: number;
      readonly y: (x: number) => number;
      readonly slope: (x: number) => number;
    };
export type Midline = readonly Stroke[];

/** Integrals along a midline: of ds, x ds, y ds, y² ds and cos²(slope) ds. */
interface Sums {
  readonly length: number;
  readonly x: number;
  readonly y: number;
  readonly yy: number;
  readonly level: number;
}
const NOTHING: Sums = { length: 0, x: 0, y: 0, yy: 0, level: 0 };
const add = (a: Sums, b: Sums): Sums => ({
  length: a.length + b.length,
  x: a.x + b.x,
  y: a.y + b.y,
  yy: a.yy + b.yy,
  level: a.level + b.level,
});

const ofLine = (from: SectionPoint, to: SectionPoint): Sums => {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = Math.hypot(dx, dy);
  if (length === 0) return NOTHING;
  return {
    length,
    x: (length * (from.x + to.x)) / 2,
    y: (length * (from.y + to.y)) / 2,
    yy: (length * (from.y * from.y + from.y * to.y + to.y * to.y)) / 3,
    level: (dx * dx) / length,
  };
};

const ofArc = (arc: Extract<Stroke, { kind: 'arc' }>): Sums => {
  const { centre, radius, start } = arc;
  const end = start + arc.sweep;
  const way = Math.sign(arc.sweep);
  const angle = Math.abs(arc.sweep);
  // ∫ cos, ∫ sin and ∫ sin² of the angle, taken positive along the way.
  const cos = way * (Math.sin(end) - Math.sin(start));
  const sin = way * (Math.cos(start) - Math.cos(end));
  const sin2 = angle / 2 - (way * (Math.sin(2 * end) - Math.sin(2 * start))) / 4;
  return {
    length: radius * angle,
    x: radius * (centre.x * angle + radius * cos),
    y: radius * (centre.y * angle + radius * sin),
    yy: radius * (centre.y * centre.y * angle + 2 * centre.y * radius * sin + radius * radius * sin2),
    // The tangent stands square to the radius, so its cosine is the radius's sine.
    level: radius * sin2,
  };
};

/** Gauss–Legendre, five points on −1…1. Source: closed form. */
const GAUSS: readonly (readonly [number, number])[] = (() => {
  const inner = Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3;
  const outer = Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3;
  const [w1, w2] = [(322 + 13 * Math.sqrt(70)) / 900, (322 - 13 * Math.sqrt(70)) / 900];
  return [
    [0, 128 / 225],
    [inner, w1],
    [-inner, w1],
    [outer, w2],
    [-outer, w2],
  ];
})();

const ofCurve = (curve: Extract<Stroke, { kind: 'curve' }>): Sums => {
  const over = (from: number, to: number): Sums => {
    let sums = NOTHING;
    for (const [place, weight] of GAUSS) {
      const x = (from + to) / 2 + (place * (to - from)) / 2;
      const y = curve.y(x);
      const slope = curve.slope(x);
      const ds = Math.sqrt(1 + slope * slope) * weight * ((to - from) / 2);
      sums = add(sums, { length: ds, x: ds * x, y: ds * y, yy: ds * y * y, level: ds / (1 + slope * slope) });
    }
    return sums;
  };
  const refine = (from: number, to: number, whole: Sums, depth: number): Sums => {
    const middle = (from + to) / 2;
    const [left, right] = [over(from, middle), over(middle, to)];
    const halves = add(left, right);
    const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-11 * Math.max(Math.abs(b), 1e-3);
    const settled = near(whole.length, halves.length) && near(whole.yy, halves.yy) && near(whole.level, halves.level);
    if (depth === 0 || settled) return halves;
    return add(refine(from, middle, left, depth - 1), refine(middle, to, right, depth - 1));
  };
  return refine(curve.from, curve.to, over(curve.from, curve.to), 24);
};

const ofStroke = (stroke: Stroke): Sums =>
  stroke.kind === 'line' ? ofLine(stroke.from, stroke.to) : stroke.kind === 'arc' ? ofArc(stroke) : ofCurve(stroke);

export interface SheetSection {
  /** Length along the midline. */
  readonly developed: number;
  /** Length times thickness, mm². */
  readonly area: number;
  readonly centroid: SectionPoint;
  /** About the level axis through the centroid, mm⁴. */
  readonly secondMoment: number;
}

/**
 * Section of a sheet of even thickness about its own midline.
 *
 * I = t ∫ (y − ȳ)² ds + (t³/12) ∫ cos²(slope) ds: the sheet's own stiffness counts by how level it lies. Exact for a thin sheet; fibres off the
 * midline of a tight bend are a little nearer or farther, which is left out.
 * Source: second moment of a thin bent strip, plane geometry.
 */
export const sheetSection = (midline: Midline, thickness: number): SheetSection => {
  const sums = midline.map(ofStroke).reduce(add, NOTHING);
  const centre = sums.length === 0 ? { x: 0, y: 0 } : { x: sums.x / sums.length, y: sums.y / sums.length };
  const about = Math.max(0, sums.yy - sums.length * centre.y * centre.y);
  return {
    developed: sums.length,
    area: sums.length * thickness,
    centroid: centre,
    secondMoment: thickness * about + (thickness ** 3 / 12) * sums.level,
  };
};

/**
 * Length of sheet that goes into a midline when its bends keep a neutral line at a share `k` of the thickness from the inside of each bend; the
 * midline's own length at one half.
 */
export const developedLength = (midline: Midline, thickness: number, k: number): number => {
  let length = 0;
  for (const stroke of midline) {
    if (stroke.kind === 'arc') length += Math.abs(stroke.sweep) * (stroke.radius + (k - 0.5) * thickness);
    else length += ofStroke(stroke).length;
  }
  return length;
};

/** Tightest radius of the midline's arcs; infinite where it has none. */
export const tightestOf = (midline: Midline): number =>
  midline.reduce((least, stroke) => (stroke.kind === 'arc' ? Math.min(least, stroke.radius) : least), Number.POSITIVE_INFINITY);

const mirrorStroke = (stroke: Stroke): Stroke => {
  switch (stroke.kind) {
    case 'line':
      return { kind: 'line', from: { x: -stroke.to.x, y: stroke.to.y }, to: { x: -stroke.from.x, y: stroke.from.y } };
    case 'arc':
      return {
        ...stroke,
        centre: { x: -stroke.centre.x, y: stroke.centre.y },
        // Walked from its other end, so that the chain still runs from left to right.
        start: Math.PI - (stroke.start + stroke.sweep),
      };
    case 'curve':
      return { kind: 'curve', from: -stroke.to, to: -stroke.from, y: (x) => stroke.y(-x), slope: (x) => -stroke.slope(-x) };
  }
};
/** The midline seen in a mirror at x = 0, still running from left to right. */
export const mirrored = (midline: Midline): Midline => midline.map(mirrorStroke).reverse();

const shiftStroke = (stroke: Stroke, by: number): Stroke => {
  const moved = (p: SectionPoint): SectionPoint => ({ x: p.x + by, y: p.y });
  switch (stroke.kind) {
    case 'line':
      return { kind: 'line', from: moved(stroke.from), to: moved(stroke.to) };
    case 'arc':
      return { ...stroke, centre: moved(stroke.centre) };
    case 'curve':
      return { kind: 'curve', from: stroke.from + by, to: stroke.to + by, y: (x) => stroke.y(x - by), slope: (x) => stroke.slope(x - by) };
  }
};
/** The midline moved along x. */
export const shifted = (midline: Midline, by: number): Midline => midline.map((stroke) => shiftStroke(stroke, by));

/** Points along the midline, curves and arcs in chords of at most `step` rad or as many parts of a curve. */
export const midlinePoints = (midline: Midline, step = Math.PI / 36): readonly SectionPoint[] => {
  const points: SectionPoint[] = [];
  const put = (p: SectionPoint): void => {
    const last = points[points.length - 1];
    if (last === undefined || Math.hypot(last.x - p.x, last.y - p.y) > 1e-9) points.push(p);
  };
  for (const stroke of midline) {
    if (stroke.kind === 'line') {
      put(stroke.from);
      put(stroke.to);
    } else if (stroke.kind === 'arc') {
      const parts = Math.max(1, Math.ceil(Math.abs(stroke.sweep) / step));
      for (let i = 0; i <= parts; i++) {
        const at = stroke.start + (stroke.sweep * i) / parts;
        put({ x: stroke.centre.x + stroke.radius * Math.cos(at), y: stroke.centre.y + stroke.radius * Math.sin(at) });
      }
    } else {
      for (let i = 0; i <= 32; i++) {
        const x = stroke.from + ((stroke.to - stroke.from) * i) / 32;
        put({ x, y: stroke.y(x) });
      }
    }
  }
  return points;
};
