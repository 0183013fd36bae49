/** The tree of faces grown from the base outward. */
import type { Panel, Section } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import type { Point } from '../shape/path.js';
import { bentEdge, isHigh, isLow, setbackIn, tabsFirst } from './bending.js';
import { type CornerEnd, type CornerRules, cornerBetween, hingeRelief, plainCorner } from './corners.js';
import { type EndLine, endLine } from './ends.js';
import { piecesOf } from './pieces.js';
import { tabsOn } from './tabs.js';
import {
  ahead,
  type BentFlange,
  type Corner,
  dot,
  type EdgeChain,
  type EndPlan,
  type Hang,
  type Job,
  remark,
  type Side,
  type TreeFace,
} from './tree.js';
import { trimSides } from './trimming.js';

const ORIGIN: Point = { x: 0, y: 0 };
const NONE: readonly never[] = [];

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

interface Growth {
  readonly side: Side;
  readonly flange: BentFlange;
  readonly start: EndLine;
  readonly end: EndLine;
  readonly atStart: BentFlange | undefined;
  readonly atEnd: BentFlange | undefined;
  readonly plans: readonly [EndPlan | undefined, EndPlan | undefined];
}

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

/** Ends square to the bend, one length, one chain an edge: nothing to trim. */
const plainFace = ({ flange, start, end, side }: Growth): boolean =>
  flange.bare ||
  (flange.flat === flange.flatFar &&
    flange.stretches.length === 0 &&
    flange.tabs === undefined &&
    dot(start.flatStart, side.along) === dot(start.flatFar, side.along) &&
    dot(end.flatStart, side.along) === dot(end.flatFar, side.along));

// Written out in one literal: this runs for every flange, and spreading a common part into it costs more than all the rest of the layout.
const sideOf = (
  flange: BentFlange,
  from: Point,
  to: Point,
  along: Point,
  out: Point,
  origin: Point,
  growing: 1 | -1,
  hung: BentFlange | undefined,
): Side => ({
  // Ends are never named, so that a pair of edge names in a corner rule means the outline's own edges.
  name: undefined,
  feature: `face:${flange.faceId}`,
  from,
  to,
  arc: undefined,
  along,
  out,
  origin,
  growing,
  flange: hung,
  setback: hung === undefined ? 0 : setbackIn(flange.convention, hung),
  piece: undefined,
  drawnFrom: from,
  drawnTo: to,
  tabs: NONE,
  span: flange.span,
});

const plainSides = ({ side, flange, start, end, atStart, atEnd }: Growth, origin: Point): readonly Side[] => {
  const { along, out, growing } = side;
  const [a, b, c, d] = [start.flatStart, start.flatFar, end.flatFar, end.flatStart];
  const back = { x: -along.x, y: -along.y };
  const inward = { x: -out.x, y: -out.y };
  const free = sideOf(flange, b, c, along, out, origin, growing, flange.next);
  return [
    sideOf(flange, d, a, back, inward, origin, growing === 1 ? -1 : 1, undefined),
    sideOf(flange, a, b, out, back, origin, 1, atStart),
    free,
    sideOf(flange, c, d, inward, along, origin, -1, atEnd),
  ];
};

/** A face with slanted ends, a slanted free edge, or chains on stretches: its finished corners first, then trimmed as an outline is. */
const shapedSides = (job: Job, growth: Growth, origin: Point): readonly Side[] | undefined => {
  const { side, flange, atStart, atEnd, plans } = growth;
  const { growing } = side;
  const start = endLine(side, flange, 'from', plans[0]);
  const end = endLine(side, flange, 'to', plans[1]);
  const beyond = flange.next === undefined ? 0 : setbackIn(flange.convention, flange.next);
  const lengths = growing === 1 ? ([flange.flat, flange.flatFar] as const) : ([flange.flatFar, flange.flat] as const);
  const [a, d] = [start.flatStart, end.flatStart];
  const [b, c] = freeCorners(side, start, end, lengths, beyond);
  const [low, high] = growing === 1 ? [isLow, isHigh] : [isHigh, isLow];
  const on = (is: (edge: string) => boolean): readonly EdgeChain[] => flange.stretches.filter((chain) => is(chain.edge));
  const pieces = (from: Point, to: Point, grows: 1 | -1, hung: BentFlange | undefined, chains: readonly EdgeChain[]): readonly Side[] => {
    const length = apart(from, to);
    if (length < 1e-9) return [];
    const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
    const outward = { x: along.y, y: -along.x };
    const plain = sideOf(flange, from, to, along, outward, origin, grows, hung);
    if (hung !== undefined || chains.length === 0) return [plain];
    const parts = piecesOf(job, chains, { from, along, length, origin, growing: grows });
    return parts.map((part, i): Side => {
      const steps = part.chain?.steps ?? NONE;
      const bent = steps.length === 0 ? undefined : bentEdge(job, steps, flange.convention);
      const [p, q] = [ahead(from, along, part.from), ahead(from, along, part.to)];
      const made = sideOf(flange, p, q, along, outward, origin, grows, bent);
      const tabs = tabsOn(job, tabsFirst(steps), made, part.chain?.edge ?? flange.faceId);
      return { ...made, tabs, piece: parts.length > 1 ? i : undefined };
    });
  };
  const free = pieces(
    b,
    c,
    growing,
    flange.next,
    on((edge) => edge === 'free'),
  );
  const hinge = sideOf(
    flange,
    d,
    a,
    { x: -side.along.x, y: -side.along.y },
    { x: -side.out.x, y: -side.out.y },
    origin,
    growing === 1 ? -1 : 1,
    undefined,
  );
  const whole = [
    hinge,
    ...pieces(a, b, 1, atStart, on(low)),
    ...(flange.tabs === undefined || free.length !== 1
      ? free
      : free.map((one) => ({ ...one, tabs: tabsOn(job, flange.tabs, one, flange.faceId) }))),
    ...pieces(c, d, -1, atEnd, on(high)),
  ];
  const trimmed = trimSides(whole);
  if (trimmed.kind === 'sides') return trimmed.sides;
  remark(
    job,
    'shape/nothing-left',
    flange.span,
    `nothing is left of ${flange.faceId} between what its ends and its own bends take up; make it longer or wider, or its slants less`,
    { features: [`face:${flange.faceId}`] },
  );
  return undefined;
};

/** Where the two ends meet the finished free edge, which runs from the one length to the other. */
const freeCorners = (
  side: Side,
  start: EndLine,
  end: EndLine,
  lengths: readonly [number, number],
  beyond: number,
): readonly [Point, Point] => {
  const { along, out } = side;
  const at = (p: Point): readonly [number, number] => [dot(p, along), dot(p, out)];
  const corner = (line: EndLine): { u: number; v: number; lean: number } => {
    const [u, v] = at(line.flatStart);
    const [uFar, vFar] = at(line.flatFar);
    return { u, v, lean: vFar - v < 1e-12 ? 0 : (uFar - u) / (vFar - v) };
  };
  const [s, e] = [corner(start), corner(end)];
  const rise = (lengths[1] - lengths[0]) / (e.u - s.u);
  // Along an end, v grows by h and u by lean · h; on the free edge v − v0 = length + rise · (u − u0).
  const height = ({ u, v, lean }: typeof s): number => (s.v + lengths[0] + beyond + rise * (u - s.u) - v) / (1 - rise * lean);
  const point = (c: typeof s): Point => {
    const h = height(c);
    return { x: along.x * (c.u + c.lean * h) + out.x * (c.v + h), y: along.y * (c.u + c.lean * h) + out.y * (c.v + h) };
  };
  return [point(s), point(e)];
};

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
