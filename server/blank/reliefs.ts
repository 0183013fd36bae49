/** Holes and slits cut before bending, so that the metal where a bend ends can move. */
import type { Span } from '../../grammar/syntax.js';
import type { CornerRule, Relief } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import { lineMeetsCircle } from '../shape/meetings.js';
import type { Move, Point } from '../shape/path.js';
import { bendReliefPast, bendReliefWidth, cornerReliefDiameter } from '../trade/spacing.js';
import { type EndLine, setIn } from './ends.js';
import type { Plans } from './plans.js';
import { ahead, type Corner, cross, dot, type EndPlan, type Job, remark, type Side, sayBoth } from './tree.js';

export interface BentEnd {
  readonly side: Side;
  readonly radius: number;
  /** Straight run of the flange's end from the tangent line to its free corner. */
  readonly run: number;
  readonly line: EndLine;
  /** Folded flat or rolled, not turned on the brake. */
  readonly folded: boolean;
}

/** The corner of two bends whose tangent lines cross at `at`, with the relief that is written or that the handbook asks for. */
export const reliefCorner = (
  job: Job,
  rule: CornerRule | undefined,
  asked: Relief | undefined,
  plans: Plans,
  before: BentEnd,
  after: BentEnd,
  at: Point,
): Corner => {
  const automatic = asked === undefined;
  const radius = Math.max(before.radius, after.radius);
  const wanted = cornerReliefDiameter(radius, job.thickness);
  const bare: Corner = {
    arrive: before.line.zone[0] as Point,
    moves: [{ kind: 'line', to: at }],
    endPrevious: plans.previous,
    endNext: plans.next,
    skipPrevious: 0,
    skipNext: 0,
  };
  // Two folds laid flat are clipped across the corner; a hole there would show in the finished edge.
  if (automatic && before.folded && after.folded) return bare;
  const relief: Relief = asked ?? { kind: 'round', diameter: wanted.distance };
  const span = rule?.span ?? after.side.span;
  const where = [before.side.name, after.side.name].filter((name) => name !== undefined).join(' and ');
  if (relief.kind === 'none') {
    if (!(before.folded && after.folded))
      remark(
        job,
        'corner/relief-missing',
        span,
        `without a relief the two bends${where === '' ? '' : ` on ${where}`} end in each other and tear the corner; ${job.words.say(wanted.distance)} across is usual here, which leaving this out gives (${wanted.source})`,
        { severity: 'warning' },
      );
    return bare;
  }
  const room = Math.min(before.run, after.run, apart(before.side.from, before.side.to), apart(after.side.from, after.side.to));
  const written = (relief.kind === 'round' ? relief.diameter : relief.side) / 2;
  // The program's own relief gives way where there is no room for it; a written one is refused.
  const half = automatic ? Math.min(written, 0.8 * room) : written;
  // A fold laid flat beside a bend can leave so little room that no hole would help.
  if (automatic && (before.folded || after.folded) && half < written / 2) return bare;
  if ((relief.kind === 'round' ? half : half * Math.SQRT2) >= room - 1e-6) {
    const [wants, has] = sayBoth(job, 2 * half, room);
    remark(
      job,
      'corner/relief-too-large',
      span,
      `a relief of ${wants} does not fit${where === '' ? '' : ` between ${where}`}, where only ${has} lie around the corner; write a smaller one, or \`relief none\``,
    );
    return bare;
  }
  if (!automatic && 2 * half < wanted.distance - 1e-6 && 2 * half < 2 * radius - 1e-6) {
    const [small, usual] = sayBoth(job, 2 * half, 2 * radius);
    remark(
      job,
      'corner/relief-too-small',
      span,
      `a relief of ${small} does not reach round the bends${where === '' ? '' : ` on ${where}`}, whose inside radius is ${job.words.say(radius)}; write ${usual} or more, or leave it out for the usual one (${wanted.source})`,
      { severity: 'warning' },
    );
  }
  const id = `relief.${job.reliefs.length + 1}`;
  const hole = holeOf(relief.kind, half, at, before.side.out);
  const leave = enters(hole, before.line);
  const take = enters(hole, after.line);
  // Ends that keep clear of the crossing leave nothing to relieve.
  if (leave === undefined || take === undefined) {
    if (!automatic && rule?.edges !== undefined)
      remark(
        job,
        'corner/relief-not-cut',
        span,
        `no relief is cut${where === '' ? '' : ` between ${where}`}: the flanges’ ends stand clear of where the two tangent lines cross, so their bends don’t meet there; take it out, or write a hole`,
        { severity: 'warning' },
      );
    return bare;
  }
  if (automatic && half < written - 1e-6) tooShortForIt(job, before, after, 2 * written, 2 * half);
  noteRelief(job, relief.kind, 2 * half, at, automatic, radius, span);
  return {
    arrive: leave.at,
    moves: hole.round(leave.at, take.at, id),
    endPrevious: plans.previous,
    endNext: plans.next,
    skipPrevious: leave.inside,
    skipNext: take.inside,
  };
};

/** Said of the flange, when it is the flange that leaves no room. */
const tooShortForIt = (job: Job, before: BentEnd, after: BentEnd, usual: number, left: number): void => {
  const short = before.run < after.run ? before : after;
  if (short.folded || 0.8 * short.run > left / 2 + 1e-6 || short.side.flange === undefined) return;
  const { say } = job.words;
  const { faceId, span } = short.side.flange;
  remark(
    job,
    'corner/flange-shorter-than-relief',
    span,
    `${faceId} runs only ${say(short.run)} from its tangent line, too little for the usual corner relief of ${say(usual)}: it is cut ${say(left)} across, and the corner may tear; make the flange longer, or write a \`relief\``,
    { severity: 'warning', features: [`face:${faceId}`] },
  );
};

interface Hole {
  readonly holds: (p: Point) => boolean;
  /** Whether a line between two points outside runs through it. */
  readonly meets: (from: Point, to: Point) => boolean;
  /** Where the line from a point outside to one within crosses its edge. */
  readonly crossing: (outside: Point, within: Point) => Point;
  /** Round through the base, the waste on the right. */
  readonly round: (from: Point, to: Point, id: string) => readonly Move[];
}

const holeOf = (kind: 'round' | 'square', half: number, at: Point, out: Point): Hole =>
  kind === 'round' ? roundHole(at, half) : squareHole(at, half, out);

const roundHole = (centre: Point, radius: number): Hole => ({
  holds: (p) => apart(p, centre) < radius - 1e-9,
  meets: (from, to) => {
    const d = { x: to.x - from.x, y: to.y - from.y };
    const along = dot(d, d);
    const share = along === 0 ? 0 : Math.min(1, Math.max(0, dot({ x: centre.x - from.x, y: centre.y - from.y }, d) / along));
    return apart(ahead(from, d, share), centre) < radius - 1e-9;
  },
  crossing: (outside, within) => {
    const d = { x: within.x - outside.x, y: within.y - outside.y };
    const f = { x: outside.x - centre.x, y: outside.y - centre.y };
    const a = dot(d, d);
    const b = dot(d, f);
    const c = dot(f, f) - radius * radius;
    return ahead(outside, d, (-b - Math.sqrt(Math.max(0, b * b - a * c))) / a);
  },
  round: (_, to, id) => [{ kind: 'arc', to, centre, turn: 'right', id }],
});

/** A square with two sides along the first bend. */
const squareHole = (centre: Point, half: number, out: Point): Hole => {
  const side: Point = { x: -out.y, y: out.x };
  const local = (p: Point): readonly [number, number] => {
    const d = { x: p.x - centre.x, y: p.y - centre.y };
    return [dot(d, out), dot(d, side)];
  };
  const size = (p: Point): number => Math.max(...local(p).map(Math.abs));
  const angleOf = (p: Point): number => {
    const [x, y] = local(p);
    return Math.atan2(y, x);
  };
  return {
    holds: (p) => size(p) < half - 1e-9,
    meets: (from, to) => {
      const [a, b] = [local(from), local(to)];
      // The stretch of the line that lies between both pairs of sides.
      let [first, last] = [0, 1];
      for (const i of [0, 1] as const) {
        const run = b[i] - a[i];
        if (Math.abs(run) < 1e-12) {
          if (Math.abs(a[i]) >= half - 1e-9) return false;
          continue;
        }
        const [p, q] = [(-half + 1e-9 - a[i]) / run, (half - 1e-9 - a[i]) / run];
        first = Math.max(first, Math.min(p, q));
        last = Math.min(last, Math.max(p, q));
      }
      return first < last;
    },
    crossing: (outside, within) => {
      const [a, b] = [local(outside), local(within)];
      let share = 0;
      for (const i of [0, 1] as const) {
        if (Math.abs(a[i]) > half) share = Math.max(share, (Math.sign(a[i]) * half - a[i]) / (b[i] - a[i]));
      }
      return ahead(outside, { x: within.x - outside.x, y: within.y - outside.y }, share);
    },
    round: (from, to, id) => {
      const start = angleOf(from);
      const swept = (((start - angleOf(to)) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
      const moves: Move[] = [];
      // Its corners lie 45°, 135°, … from the first bend's normal, walked clockwise.
      const first = (Math.ceil((-start - Math.PI / 4) / (Math.PI / 2) + 1e-9) * Math.PI) / 2 + Math.PI / 4;
      for (let angle = first; angle + start < swept - 1e-9; angle += Math.PI / 2) {
        const [x, y] = [half * Math.SQRT2 * Math.cos(-angle), half * Math.SQRT2 * Math.sin(-angle)];
        moves.push({ kind: 'line', to: ahead(ahead(centre, out, x), side, y), id });
      }
      moves.push({ kind: 'line', to, id });
      return moves;
    },
  };
};

/**
 * Where a flange's end, followed out from the crossing, leaves the hole, and how many of its points lie within. Undefined for an end that keeps clear of the
 * crossing, or that runs back into the hole further out.
 */
const enters = (hole: Hole, { zone, flatStart, flatFar }: EndLine): { readonly at: Point; readonly inside: number } | undefined => {
  const points = [...zone, ...(apart(zone.at(-1) as Point, flatStart) > 1e-9 ? [flatStart] : []), flatFar];
  const inside = points.findIndex((p) => !hole.holds(p));
  const back = (p: Point, i: number): boolean => hole.holds(p) || (i > 0 && hole.meets(points[inside + i - 1] as Point, p));
  if (inside < 1 || points.slice(inside).some(back)) return undefined;
  return { at: hole.crossing(points[inside] as Point, points[inside - 1] as Point), inside };
};

const noteRelief = (job: Job, kind: 'round' | 'square', size: number, at: Point, automatic: boolean, radius: number, span: Span): void => {
  // Most corners of a part are alike: the words are found once.
  const alike = job.reliefs.find((r) => r.size === size && r.radius === radius && r.kind === kind && r.automatic === automatic);
  const reason = alike?.reason ?? reasonOf(job, kind, size, automatic, radius);
  job.reliefs.push({ id: `relief.${job.reliefs.length + 1}`, at, size, kind, automatic, radius, reason, span });
};

const reasonOf = (job: Job, kind: 'round' | 'square', size: number, automatic: boolean, radius: number): string => {
  const { say } = job.words;
  if (!automatic) return `relief ${kind === 'round' ? '⌀ ' : ''}${say(size)} as written, centred where the bends’ tangent lines cross`;
  const rule = cornerReliefDiameter(radius, job.thickness);
  const least = rule.distance > 2 * radius + 1e-9 ? `the least for ${say(job.thickness)} sheet` : 'twice the inside radius';
  const why = size < rule.distance - 1e-9 ? 'all that there is room for' : least;
  return `relief ⌀ ${say(size)}, ${why}, centred where the bends’ tangent lines cross (${rule.source})`;
};

const noteSlit = (job: Job, at: Point, width: number, span: Span): void => {
  const { say } = job.words;
  job.reliefs.push({
    id: `relief.${job.reliefs.length + 1}`,
    at,
    size: width,
    kind: 'square',
    automatic: true,
    radius: 0,
    reason: `slit ${say(width)} wide, ${say(bendReliefPast().distance)} past the tangent line, so that the bend can move beside the flat (common practice)`,
    span,
  });
};

interface SlitEnd {
  readonly side: Side;
  readonly bent: boolean;
}

/** A place beside a slit, carried square to the bent edge onto the cut edge, which may be an arc there. */
const onEdge = ({ arc, from }: Side, at: Point, out: Point): Point => {
  if (arc === undefined) return at;
  const [first = at, second = first] = lineMeetsCircle({ at, along: out }, { centre: arc.centre, radius: apart(arc.centre, from) });
  return apart(first, at) <= apart(second, at) ? first : second;
};

/** Where a flange takes only part of an edge, its end and the cut edge beside it are parted by a slit that runs past the tangent line. */
export const slitWithinEdge = (job: Job, plain: (at: Point) => Corner, before: SlitEnd, after: SlitEnd): Corner => {
  // A flange that another hangs on at this end stands further in; the step from its tangent line to the cut edge is all it needs.
  if (!before.bent && !after.bent) return { ...plain(before.side.to), moves: [{ kind: 'line', to: after.side.from }] };
  // Where less of the edge is left beside the flange, the slit takes it all: wider it would double back.
  const beside = before.bent ? after.side : before.side;
  const left = beside.arc === undefined ? apart(beside.from, beside.to) : Number.POSITIVE_INFINITY;
  const width = Math.min(bendReliefWidth(job.thickness).distance, left);
  const past = bendReliefPast().distance;
  const at = before.bent ? before.side.to : after.side.from;
  const { along, out } = before.bent ? before.side : after.side;
  const depth = ahead(at, out, -past);
  noteSlit(job, depth, width, (before.bent ? before : after).side.span);
  const id = `relief.${job.reliefs.length}`;
  if (before.bent) {
    const corner = ahead(depth, along, width);
    const edge = onEdge(after.side, ahead(after.side.from, along, width), out);
    const moves: readonly Move[] = [
      { kind: 'line', to: corner, id },
      { kind: 'line', to: edge, id },
    ];
    return { ...plain(depth), moves, skipPrevious: 1 };
  }
  const edge = onEdge(before.side, ahead(before.side.to, along, -width), out);
  const corner = ahead(depth, along, -width);
  const moves: readonly Move[] = [
    { kind: 'line', to: corner, id },
    { kind: 'line', to: depth, id },
  ];
  return { ...plain(edge), moves, skipNext: 1 };
};

/**
 * An inward corner with one bend, the flat running along the flange's end: the flange gives way by a slit. A corner that turns in further puts the flange over
 * the flat, which `overlaps.ts` reports; one that turns in less leaves a gap of its own.
 */
export const slitBeside = (job: Job, plain: (at: Point) => Corner, before: SlitEnd, after: SlitEnd, at: Point): Corner => {
  const turn = cross(before.side.along, after.side.along);
  if (turn > -1 + 1e-9) return plain(at);
  const width = bendReliefWidth(job.thickness).distance;
  const past = bendReliefPast().distance;
  const bent = (before.bent ? before : after).side;
  const bottom = ahead(at, bent.out, -past);
  noteSlit(job, bottom, width, bent.span);
  const id = `relief.${job.reliefs.length}`;
  const beside = ahead(bottom, bent.along, before.bent ? -width : width);
  return before.bent
    ? { ...plain(beside), moves: [{ kind: 'line', to: bottom, id }], endPrevious: further(before.side, width), skipPrevious: 1 }
    : { ...plain(bottom), moves: [{ kind: 'line', to: beside, id }], endNext: further(after.side, width), skipNext: 1 };
};

const further = (side: Side, by: number): EndPlan | undefined =>
  side.flange === undefined ? undefined : setIn(undefined, side.flange, by);
