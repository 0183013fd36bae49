/** The sides of a flange's face: a rectangle, or what slanted ends, a taper and stretches make of it. */
import { apart } from '../shape/arcs.js';
import type { Point } from '../shape/path.js';
import { bendReliefWidth } from '../trade/spacing.js';
import { bentEdge, isHigh, isLow, setbackIn, tabsFirst } from './bending.js';
import { type EndLine, endLine } from './ends.js';
import { piecesOf } from './pieces.js';
import { tabsOn } from './tabs.js';
import { ahead, type BentFlange, dot, type EdgeChain, type EndPlan, type Job, remark, type Side } from './tree.js';
import { trimSides } from './trimming.js';

const NONE: readonly never[] = [];

/** A flange about to grow on a side. */
export interface Growth {
  readonly side: Side;
  readonly flange: BentFlange;
  readonly start: EndLine;
  readonly end: EndLine;
  readonly atStart: BentFlange | undefined;
  readonly atEnd: BentFlange | undefined;
  readonly plans: readonly [EndPlan | undefined, EndPlan | undefined];
}

/** Ends square to the bend, one length, one chain an edge: nothing to trim. */
export const plainFace = ({ flange, start, end, side }: Growth): boolean =>
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

export const plainSides = ({ side, flange, start, end, atStart, atEnd }: Growth, origin: Point): readonly Side[] => {
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
export const shapedSides = (job: Job, growth: Growth, origin: Point): readonly Side[] | undefined => {
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
  const pieces = (
    from: Point,
    to: Point,
    counted: Point,
    grows: 1 | -1,
    hung: BentFlange | undefined,
    chains: readonly EdgeChain[],
  ): readonly Side[] => {
    const length = apart(from, to);
    if (length < 1e-9) return [];
    const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
    const outward = { x: along.y, y: -along.x };
    const plain = sideOf(flange, from, to, along, outward, origin, grows, hung);
    if (hung !== undefined || chains.length === 0) return [plain];
    // Places are counted level with the bend, or square to it, however the edge slants.
    const slant = dot(along, counted);
    const parts = piecesOf(job, chains, { from, along: counted, length: length * slant, origin, growing: grows });
    return parts.map((part, i): Side => {
      const steps = part.chain?.steps ?? NONE;
      const bent = steps.length === 0 ? undefined : bentEdge(job, steps, flange.convention);
      const [p, q] = [ahead(from, along, part.from / slant), ahead(from, along, part.to / slant)];
      const made = sideOf(flange, p, q, along, outward, origin, grows, bent);
      const tabs = tabsOn(job, tabsFirst(steps), made, part.chain?.edge ?? flange.faceId, counted);
      return { ...made, tabs, piece: parts.length > 1 ? i : undefined };
    });
  };
  const free = pieces(
    b,
    c,
    side.along,
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
    ...pieces(a, b, side.out, 1, atStart, on(low)),
    ...(flange.tabs === undefined || free.length !== 1
      ? free
      : free.map((one) => ({ ...one, tabs: tabsOn(job, flange.tabs, one, flange.faceId, side.along) }))),
    ...pieces(c, d, { x: -side.out.x, y: -side.out.y }, -1, atEnd, on(high)),
  ];
  const trimmed = trimSides(whole, bendReliefWidth(job.thickness).distance);
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
