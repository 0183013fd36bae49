/** The tree of faces grown from the base outward. */
import type { Panel, Section } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import type { Point } from '../shape/path.js';
import { setbackIn } from './bending.js';
import { type CornerEnd, type CornerRules, cornerBetween, plainCorner } from './corners.js';
import { ahead, type BentFlange, type Corner, dot, type Hang, type Job, remark, type Side, type TreeFace } from './tree.js';

const ORIGIN: Point = { x: 0, y: 0 };

/** The base with everything that hangs on it; undefined when a flange has no width left (said in the job's findings). */
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
  if (flange === undefined) return { side, bent: false, radius: 0, run: 0 };
  return {
    side,
    bent: endFlange(flange, side.growing, which) === undefined,
    radius: flange.radius,
    run: flange.sums.allowance + flange.flat,
  };
};

const endFlange = (flange: BentFlange, growing: 1 | -1, which: 'from' | 'to'): BentFlange | undefined =>
  (which === 'from') === (growing === 1) ? flange.low : flange.high;

const growChild = (job: Job, rules: CornerRules, parent: string, side: Side, first: Corner, second: Corner): TreeFace | undefined => {
  const flange = side.flange;
  if (flange === undefined) return undefined;
  const atStart = endFlange(flange, side.growing, 'from');
  const atEnd = endFlange(flange, side.growing, 'to');
  const inStart = first.offNext + (atStart === undefined ? 0 : setbackIn(flange.convention, atStart));
  const inEnd = second.offPrevious + (atEnd === undefined ? 0 : setbackIn(flange.convention, atEnd));
  const width = apart(side.from, side.to);
  if (inStart + inEnd > width - 1e-6) {
    const { say } = job.words;
    remark(
      job,
      'shape/nothing-left',
      flange.span,
      `nothing is left of ${flange.faceId}: its edge is ${say(width)} long between the tangent lines, and ${say(inStart + inEnd)} are taken up at its ends`,
      {
        features: [`face:${flange.faceId}`],
      },
    );
    return undefined;
  }
  const start = inStart === 0 ? side.from : ahead(side.from, side.along, inStart);
  const end = inEnd === 0 ? side.to : ahead(side.to, side.along, -inEnd);
  return growFlange(job, rules, { flange, parent, start, end, out: side.out }, side, atStart, atEnd);
};

const growFlange = (
  job: Job,
  rules: CornerRules,
  hang: Hang,
  on: Side,
  atStart: BentFlange | undefined,
  atEnd: BentFlange | undefined,
): TreeFace => {
  const { flange, out } = hang;
  const { along, growing } = on;
  const axis = growing === 1 ? along : { x: -along.x, y: -along.y };
  // y on a flange runs from the outside of its parent, an outside setback short of its own tangent line.
  const level = dot(hang.start, out) + flange.sums.allowance - flange.sums.setback;
  const across = dot(on.origin, axis);
  const origin = { x: axis.x * across + out.x * level, y: axis.y * across + out.y * level };
  const sides = sidesOfFlange(hang, on, origin, atStart, atEnd);
  const [hinge, first, free, second] = sides;
  const corners: readonly Corner[] = [
    hingeCorner(job, rules, second, hinge, atEnd, hang, 'before'),
    hingeCorner(job, rules, hinge, first, atStart, hang, 'after'),
    cornerBetween(job, rules, endOf(first, 'to'), endOf(free, 'from')),
    cornerBetween(job, rules, endOf(free, 'to'), endOf(second, 'from')),
  ];
  const children = sides.map((side, i) =>
    i === 0 ? undefined : growChild(job, rules, flange.faceId, side, corners[i] as Corner, corners[(i + 1) % 4] as Corner),
  );
  return { id: flange.faceId, span: flange.span, sides, corners, children, hang, origin, axis, mirrored: growing === 1 };
};

const sidesOfFlange = (
  hang: Hang,
  on: Side,
  origin: Point,
  atStart: BentFlange | undefined,
  atEnd: BentFlange | undefined,
): readonly [Side, Side, Side, Side] => {
  const { flange, out } = hang;
  const { along, growing } = on;
  const near = flange.sums.allowance;
  const far = near + flange.flat;
  const a = ahead(hang.start, out, near);
  const b = ahead(hang.start, out, far);
  const c = ahead(hang.end, out, far);
  const d = ahead(hang.end, out, near);
  const back = { x: -along.x, y: -along.y };
  const inward = { x: -out.x, y: -out.y };
  const feature = `face:${flange.faceId}`;
  const setback = (hung: BentFlange | undefined): number => (hung === undefined ? 0 : setbackIn(flange.convention, hung));
  // Written out in one literal: this runs for every flange, and spreading a common part into it costs more than all the rest of the layout.
  const side = (from: Point, to: Point, along: Point, out: Point, growing: 1 | -1, hung: BentFlange | undefined): Side => ({
    // Ends are never named, so that a pair of edge names in a corner rule means the outline's own edges.
    name: undefined,
    feature,
    from,
    to,
    arc: undefined,
    along,
    out,
    origin,
    growing,
    flange: hung,
    setback: setback(hung),
    piece: undefined,
    span: flange.span,
  });
  return [
    side(d, a, back, inward, growing === 1 ? -1 : 1, undefined),
    side(a, b, out, back, 1, atStart),
    side(b, c, along, out, growing, flange.next),
    side(c, d, inward, along, -1, atEnd),
  ];
};

/** Where a flange hangs on the end of another, its bend meets the other's own bend: a corner of two bends. Else the end runs straight on. */
const hingeCorner = (
  job: Job,
  rules: CornerRules,
  before: Side,
  after: Side,
  hung: BentFlange | undefined,
  hang: Hang,
  place: 'before' | 'after',
): Corner => {
  if (hung === undefined) return plainCorner(after.from);
  const hinge: CornerEnd = {
    side: place === 'after' ? before : after,
    bent: true,
    radius: hang.flange.radius,
    run: hang.flange.sums.allowance,
  };
  const end = endOf(place === 'after' ? after : before, place === 'after' ? 'from' : 'to');
  if (!end.bent) return plainCorner(after.from);
  return place === 'after' ? cornerBetween(job, rules, hinge, end) : cornerBetween(job, rules, end, hinge);
};
