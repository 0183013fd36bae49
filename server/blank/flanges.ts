/** The tree of faces grown from the base outward. */
import type { Panel, Section } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import type { Point } from '../shape/path.js';
import { setbackIn } from './bending.js';
import { type CornerEnd, type CornerRules, cornerBetween, hingeRelief, plainCorner } from './corners.js';
import { type EndLine, endLine } from './ends.js';
import { type Growth, plainFace, plainSides, shapedSides } from './faces.js';
import { ahead, type BentFlange, type Corner, dot, type EndPlan, type Hang, type Job, remark, type Side, type TreeFace } from './tree.js';

const ORIGIN: Point = { x: 0, y: 0 };

/** The base with everything that hangs on it; a flange with no width left is left out (said in the job's findings). */
export const growBase = (job: Job, part: Panel | Section, id: string, sides: readonly Side[], rules: CornerRules): TreeFace => {
  const corners = sides.map((side, i): Corner => {
    const before = sides[(i + sides.length - 1) % sides.length] as Side;
    return cornerBetween(job, rules, endOf(before, 'to'), endOf(side, 'from'));
  });
  const children = sides.map((side, i) =>
    growChild(job, rules, id, side, corners[i] as Corner, corners[(i + 1) % corners.length] as Corner),
  );
  return {
    id,
    span: part.kind === 'panel' ? (part.outline?.span ?? part.span) : part.span,
    sides,
    corners,
    children,
    hang: undefined,
    origin: ORIGIN,
    axis: { x: 1, y: 0 },
    mirrored: false,
  };
};

/** A flange on one end of which another hangs keeps clear of that corner, so the corner is a plain one. */
const endOf = (side: Side, which: 'from' | 'to'): CornerEnd => {
  const flange = side.flange;
  return { side, bent: flange === undefined || hungAt(flange, side.growing, which) !== undefined ? undefined : flange };
};

/** What hangs on the whole of a flange's end. */
const hungAt = (flange: BentFlange, growing: 1 | -1, which: 'from' | 'to'): BentFlange | undefined =>
  (which === 'from') === (growing === 1) ? flange.low : flange.high;

const growChild = (job: Job, rules: CornerRules, parent: string, side: Side, first: Corner, second: Corner): TreeFace | undefined => {
  const flange = side.flange;
  if (flange === undefined) return undefined;
  const atStart = hungAt(flange, side.growing, 'from');
  const atEnd = hungAt(flange, side.growing, 'to');
  const inStart = atStart === undefined ? 0 : setbackIn(flange.convention, atStart);
  const inEnd = atEnd === undefined ? 0 : setbackIn(flange.convention, atEnd);
  const start = endLine(side, flange, 'from', first.endNext, inStart);
  const end = endLine(side, flange, 'to', second.endPrevious, inEnd);
  const width = leastWidth(start, end, side.along);
  if (width < 1e-6) {
    const { say } = job.words;
    const long = apart(side.from, side.to);
    remark(
      job,
      'shape/nothing-left',
      flange.span,
      `nothing is left of ${flange.faceId}: its edge is ${say(long)} long between the tangent lines, and ${say(long - width)} are taken up at its ends`,
      {
        features: [`face:${flange.faceId}`],
      },
    );
    return undefined;
  }
  return growFlange(job, rules, parent, { side, flange, start, end, atStart, atEnd, plans: [first.endNext, second.endPrevious] });
};

/** Least distance between the two ends, at the tangent lines and at the free edge. */
const leastWidth = (start: EndLine, end: EndLine, along: Point): number => {
  const between = (a: Point, b: Point): number => (b.x - a.x) * along.x + (b.y - a.y) * along.y;
  return Math.min(
    between(start.zone[0] as Point, end.zone[0] as Point),
    between(start.flatStart, end.flatStart),
    between(start.flatFar, end.flatFar),
  );
};

const growFlange = (job: Job, rules: CornerRules, parent: string, growth: Growth): TreeFace | undefined => {
  const { side: on, flange, start, end } = growth;
  const { along, out, growing } = on;
  const axis = growing === 1 ? along : { x: -along.x, y: -along.y };
  // y on a flange runs from the outside of its parent, `level` short of where its flat begins.
  const height = dot(start.flatStart, out) - flange.level;
  const across = dot(on.origin, axis);
  const origin = { x: axis.x * across + out.x * height, y: axis.y * across + out.y * height };
  const sides = plainFace(growth) ? plainSides(growth, origin) : shapedSides(job, growth, origin);
  if (sides === undefined) return undefined;
  const corners = cornersOf(job, rules, growth, sides);
  const children = sides.map((side, i) =>
    i === 0 ? undefined : growChild(job, rules, flange.faceId, side, corners[i] as Corner, corners[(i + 1) % sides.length] as Corner),
  );
  const first = sides[1] as Side;
  const last = sides.at(-1) as Side;
  const startEnd = first.flange === undefined ? flatEnd(start) : squareEnd(first.from, out, flange);
  const endEnd = last.flange === undefined ? flatEnd(end) : squareEnd(last.to, out, flange);
  const hang: Hang = { flange, parent, start: startEnd[0] as Point, end: endEnd[0] as Point, out, startEnd, endEnd };
  return { id: flange.faceId, span: flange.span, sides, corners, children, hang, origin, axis, mirrored: growing === 1 };
};

const flatEnd = ({ zone, flatStart }: EndLine): readonly Point[] =>
  apart(zone.at(-1) as Point, flatStart) > 1e-9 ? [...zone, flatStart] : zone;
const squareEnd = (at: Point, out: Point, flange: BentFlange): readonly Point[] => [ahead(at, out, -flange.sums.allowance), at];

const cornersOf = (job: Job, rules: CornerRules, growth: Growth, sides: readonly Side[]): readonly Corner[] => {
  const { flange, plans, start, end } = growth;
  return sides.map((side, i): Corner => {
    const before = sides[(i + sides.length - 1) % sides.length] as Side;
    // Where a flange hangs on the end of another, its bend meets the other's own bend: a corner of two bends. Else the end runs straight on.
    if (i === 0 || i === 1) {
      const [hung, hinge] = i === 0 ? [before, side] : [side, before];
      const bent = endOf(hung, i === 0 ? 'to' : 'from').bent;
      return bent === undefined ? plainCorner(side.from) : hingeRelief(job, rules, hinge, flange, bent, hung, i === 0 ? 'before' : 'after');
    }
    const corner = cornerBetween(job, rules, endOf(before, 'to'), endOf(side, 'from'));
    if (flange.next === undefined) return corner;
    // What follows on the free edge keeps to the plan that the corner of the base made for it.
    if (side.flange === flange.next && before.flange === undefined)
      return { ...corner, endNext: onward(plans[0], start) ?? corner.endNext };
    if (before.flange === flange.next && side.flange === undefined)
      return { ...corner, endPrevious: onward(plans[1], end) ?? corner.endPrevious };
    return corner;
  });
};

const onward = (plan: EndPlan | undefined, line: EndLine): EndPlan | undefined =>
  plan === undefined || plan.limits.length < 2 ? undefined : { limits: plan.limits.slice(1), at: line.reach };
