/** Sides moved in to their tangent lines, and neighbours trimmed or run on to meet them. */
import { angleAbout, apart, wrap } from '../shape/arcs.js';
import { lineMeetsCircle, linesMeet } from '../shape/meetings.js';
import { lineShifted } from '../shape/offsets.js';
import type { Loop, Move, Point } from '../shape/path.js';
import { bendReliefPast } from '../trade/spacing.js';
import { ahead, cross, dot, type Side, type Tab } from './tree.js';

export type Trimmed =
  | { readonly kind: 'sides'; readonly sides: readonly Side[] }
  | { readonly kind: 'apart'; readonly before: Side; readonly after: Side }
  | { readonly kind: 'eaten'; readonly side: Side; readonly sides: readonly Side[] };

/**
 * The sides of a closed face between the lines that their setbacks leave. Each side comes with its finished ends and keeps them as its drawn ones.
 *
 * @param slit width of the slit that frees a bend's end where the sheet runs on beside it
 */
export const trimSides = (sides: readonly Side[], slit: number): Trimmed => {
  const count = sides.length;
  if (sides.every((side) => side.setback === 0)) return { kind: 'sides', sides };
  const ends: { readonly before: Point; readonly after: Point }[] = [];
  for (let i = 0; i < count; i++) {
    const before = sides[(i + count - 1) % count] as Side;
    const after = sides[i] as Side;
    const meeting = sameEdge(before, after) || runsOn(before, after, slit) ? stepBetween(before, after) : meetingOf(before, after);
    if (meeting === undefined) return { kind: 'apart', before, after };
    ends.push(meeting);
  }
  const moved = sides.map((side, i) =>
    between(side, (ends[i] as { after: Point }).after, (ends[(i + 1) % count] as { before: Point }).before),
  );
  const eaten = moved.find((side, i) => isEaten(sides[i] as Side, side));
  return eaten === undefined ? { kind: 'sides', sides: moved } : { kind: 'eaten', side: eaten, sides: moved };
};

/** The same side between other ends. Spelled out because it runs for every edge, and a spread costs many times as much. */
const between = (side: Side, from: Point, to: Point): Side => ({
  name: side.name,
  feature: side.feature,
  from,
  to,
  arc: side.arc,
  along: side.along,
  out: side.out,
  origin: side.origin,
  growing: side.growing,
  flange: side.flange,
  setback: side.setback,
  piece: side.piece,
  drawnFrom: side.from,
  drawnTo: side.to,
  tabs: side.tabs,
  span: side.span,
});

const sameEdge = (before: Side, after: Side): boolean =>
  before.piece !== undefined && after.piece !== undefined && before.span === after.span && after.piece === before.piece + 1;

/** An arc leaves an edge without a corner when it slants from it by less than this, rad. */
const TANGENT = 0.02;

/**
 * Whether a cut edge runs on from a bent one without a corner, with room for the slit between them: then it stays as it was drawn, and the bend ends in the
 * slit, as it does within an edge. An arc too tight for that is trimmed as any other.
 */
const runsOn = (before: Side, after: Side, slit: number): boolean => {
  if ((before.setback === 0) === (after.setback === 0)) return false;
  const [bent, cut] = before.setback > 0 ? [before, after] : [after, before];
  if (bent.arc !== undefined || cut.flange !== undefined) return false;
  const corner = after.from;
  const long = apart(cut.from, cut.to);
  if (cut.arc === undefined) return Math.abs(cross(bent.along, cut.along)) < 1e-9 && dot(bent.along, cut.along) > 0 && long > 2 * slit;
  const { centre, turn } = cut.arc;
  const radius = apart(centre, corner);
  const spoke = { x: (corner.x - centre.x) / radius, y: (corner.y - centre.y) / radius };
  const heading = turn === 'left' ? { x: -spoke.y, y: spoke.x } : { x: spoke.y, y: -spoke.x };
  return dot(heading, bent.along) > Math.cos(TANGENT) && Math.min(radius, long) > bent.setback + bendReliefPast().distance + 2 * slit;
};

/** Pieces of one edge keep their place along it and part by their setbacks. */
const stepBetween = (before: Side, after: Side): { before: Point; after: Point } => ({
  before: ahead(before.to, before.out, -before.setback),
  after: ahead(after.from, after.out, -after.setback),
});

const meetingOf = (before: Side, after: Side): { before: Point; after: Point } | undefined => {
  const corner = after.from;
  if (before.setback === 0 && after.setback === 0) return { before: corner, after: corner };
  const p = crossing(before, after, corner);
  return p === undefined ? undefined : { before: p, after: p };
};

const crossing = (before: Side, after: Side, corner: Point): Point | undefined => {
  const lineBefore = lineShifted({ at: corner, along: before.along }, before.setback);
  const lineAfter = lineShifted({ at: corner, along: after.along }, after.setback);
  if (before.arc === undefined && after.arc === undefined) {
    const straightOn = Math.abs(cross(before.along, after.along)) < 1e-9 && dot(before.along, after.along) > 0;
    if (straightOn) return Math.abs(before.setback - after.setback) < 1e-9 ? lineBefore.at : undefined;
    return linesMeet(lineBefore, lineAfter);
  }
  const [line, arc] = before.arc === undefined ? [lineBefore, after.arc] : [lineAfter, before.arc];
  if (arc === undefined) return undefined;
  const radius = apart(arc.centre, corner);
  const meetings = lineMeetsCircle(line, { centre: arc.centre, radius });
  const [straight, way] = before.arc === undefined ? [before, 1] : [after, -1];
  // Beside an arc that runs on nearly without a corner the line meets the circle to both sides of it, about as far away: the arc's side is meant.
  const beyond = radius + dot({ x: arc.centre.x - corner.x, y: arc.centre.y - corner.y }, straight.out);
  const onItsSide = meetings.filter((p) => way * dot({ x: p.x - corner.x, y: p.y - corner.y }, straight.along) > 0);
  const candidates = beyond < HARDLY && onItsSide.length > 0 ? onItsSide : meetings;
  return candidates.reduce<Point | undefined>(
    (best, p) => (best === undefined || apart(p, corner) < apart(best, corner) ? p : best),
    undefined,
  );
};

/** A circle that stands out past a neighbouring edge by less than this (mm) nearly runs on from it. */
const HARDLY = 0.05;

/** A line that would have to run backwards, or an arc that would have to sweep nothing or all the way round. */
const isEaten = (before: Side, after: Side): boolean => {
  if (after.arc === undefined) return dot({ x: after.to.x - after.from.x, y: after.to.y - after.from.y }, after.along) < 1e-6;
  const { centre, turn } = after.arc;
  const sign = turn === 'left' ? 1 : -1;
  const angles = [before.from, before.to, after.from, after.to].map((p) => sign * angleAbout(centre, p)) as [
    number,
    number,
    number,
    number,
  ];
  const half = (angle: number): number => wrap(angle + Math.PI) - Math.PI;
  const sweep = wrap(angles[1] - angles[0]) + half(angles[3] - angles[1]) - half(angles[2] - angles[0]);
  return sweep < 1e-9 || sweep > 2 * Math.PI - 1e-9;
};

/** A tab's corners along the walk, from where it leaves the edge to where it comes back. */
export const tabCorners = (tab: Tab, out: Point): readonly Point[] => [
  tab.from,
  ahead(tab.from, out, tab.length),
  ahead(tab.to, out, tab.length),
  tab.to,
];

/** The loop along a face's sides, reckoned from `datum` where one is given. */
export const loopOfSides = (sides: readonly Side[], datum?: Point): Loop => {
  const loop: Move[] = [];
  const at = (p: Point): Point => (datum === undefined ? p : { x: p.x - datum.x, y: p.y - datum.y });
  for (let i = 0; i < sides.length; i++) {
    const side = sides[i] as Side;
    const before = (sides[(i + sides.length - 1) % sides.length] as Side).to;
    if (apart(before, side.from) > 1e-9) loop.push({ kind: 'line', to: at(side.from) });
    for (const tab of side.tabs) for (const to of tabCorners(tab, side.out)) loop.push({ kind: 'line', to: at(to), id: tab.feature });
    loop.push(
      side.arc === undefined
        ? { kind: 'line', to: at(side.to), id: side.feature }
        : { kind: 'arc', to: at(side.to), centre: at(side.arc.centre), turn: side.arc.turn, id: side.feature },
    );
  }
  return loop;
};
