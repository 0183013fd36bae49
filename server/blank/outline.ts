/** From the finished outline to the sides of the base face: bent edges moved in by their setbacks, neighbours trimmed or run on to meet them. */
import type { Outline, OutlineEdge, Panel } from '../model/part.js';
import { angleAbout, apart, wrap } from '../shape/arcs.js';
import { selfMeeting } from '../shape/inside.js';
import { signedArea } from '../shape/loops.js';
import { lineMeetsCircle, linesMeet } from '../shape/meetings.js';
import { lineShifted } from '../shape/offsets.js';
import type { Loop, Move, Point } from '../shape/path.js';
import { bentChain, setbackIn, stepsOf } from './bending.js';
import { type Piece, piecesOf } from './pieces.js';
import { ahead, cross, dot, type Job, remark, type Side } from './tree.js';

/** A finished edge before anything is moved. */
export interface Drawn {
  readonly edge: OutlineEdge;
  readonly from: Point;
  readonly to: Point;
  /** Turned round because the outline was drawn clockwise. */
  readonly back: boolean;
}

const featureOfEdge = (name: string | undefined): string | undefined => (name === undefined ? undefined : `edge:${name}`);

/** The outline as a loop of moves, one for each edge. */
const outlineLoop = (outline: Outline): Loop =>
  outline.edges.map((edge): Move => {
    const id = featureOfEdge(edge.name);
    return edge.arc === undefined
      ? { kind: 'line', to: edge.to, id }
      : { kind: 'arc', to: edge.to, centre: edge.arc.centre, turn: edge.arc.turn, id };
  });

/**
 * The sides of the base face, anticlockwise; undefined when they can't be had (said in the job's findings).
 */
export const baseSides = (job: Job, panel: Panel, outline: Outline): readonly Side[] | undefined => {
  const drawn = drawnEdges(job, outline);
  if (drawn === undefined) return undefined;
  const before = job.findings.length;
  const sides = drawn.flatMap((edge) => sidesOf(job, panel, outline, edge));
  // A bend that can't be worked out moves its edge by nobody knows how much.
  if (job.findings.slice(before).some((f) => f.severity === 'error')) return undefined;
  return trimmed(job, outline, sides);
};

const drawnEdges = (job: Job, outline: Outline): readonly Drawn[] | undefined => {
  const last = outline.edges.at(-1);
  if (last === undefined) return undefined;
  if (apart(last.to, outline.start) > 1e-6) {
    const gap = job.words.say(apart(last.to, outline.start));
    remark(
      job,
      'shape/open-outline',
      last.span,
      `the outline is open: its last step ends ${gap} from where it began; end it with \`close\``,
    );
    return undefined;
  }
  let from = outline.start;
  const edges: Drawn[] = [];
  for (const edge of outline.edges) {
    if (edge.arc !== undefined || apart(from, edge.to) > 1e-9) edges.push({ edge, from, to: edge.to, back: false });
    from = edge.to;
  }
  const loop = outlineLoop(outline);
  const meeting = outline.rectangle ? undefined : selfMeeting(loop);
  if (meeting !== undefined) {
    const { say } = job.words;
    const [first, second] = [outline.edges[meeting.first], outline.edges[meeting.second]] as [OutlineEdge, OutlineEdge];
    remark(
      job,
      'shape/self-crossing',
      second.span,
      `this step meets an earlier one at (${say(meeting.at.x)}, ${say(meeting.at.y)}): an outline may not cross or touch itself`,
      {
        related: [{ file: job.part.file, span: first.span, message: 'the step it meets' }],
      },
    );
    return undefined;
  }
  const area = signedArea(loop);
  if (Math.abs(area) < 1e-6) {
    remark(job, 'shape/nothing-left', outline.span, 'the outline encloses nothing: give it a width and a height above zero');
    return undefined;
  }
  return area > 0 ? edges : edges.reverse().map(turnedBack);
};

const turnedBack = ({ edge, from, to }: Drawn): Drawn => ({
  edge: { ...edge, to: from, arc: edge.arc && { centre: edge.arc.centre, turn: edge.arc.turn === 'left' ? 'right' : 'left' } },
  from: to,
  to: from,
  back: true,
});

const NOWHERE: Point = { x: 0, y: 0 };

/** The side or, where a chain takes only a stretch of the edge, the pieces of it; still on the finished line. */
const sidesOf = (job: Job, panel: Panel, outline: Outline, { edge, from, to, back }: Drawn): readonly Side[] => {
  const chains = edge.name === undefined ? [] : panel.edges.filter((chain) => chain.edge === edge.name);
  const feature = featureOfEdge(edge.name);
  if (edge.arc !== undefined) {
    for (const chain of chains) {
      remark(
        job,
        'bend/edge-not-straight',
        chain.edgeSpan,
        `${edge.name ?? 'this edge'} is an arc: only a straight edge can be bent; name a \`line\` step instead`,
      );
    }
    return [
      {
        name: edge.name,
        feature,
        from,
        to,
        arc: edge.arc,
        along: NOWHERE,
        out: NOWHERE,
        origin: from,
        growing: 1,
        flange: undefined,
        setback: 0,
        piece: undefined,
        span: edge.span,
      },
    ];
  }
  const length = apart(from, to);
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const out = { x: along.y, y: -along.x };
  // Rectangles count x or y along their edges; drawn edges count from where their step began.
  const growing: 1 | -1 = outline.rectangle ? (along.x + along.y > 0 ? 1 : -1) : back ? -1 : 1;
  const origin = outline.rectangle ? NOWHERE : growing === 1 ? from : to;
  const convention = edge.convention ?? outline.convention;
  const pieces: readonly Piece[] =
    chains.length === 0 ? [{ from: 0, to: length, chain: undefined }] : piecesOf(job, chains, { from, along, length, origin, growing });
  return pieces.map((piece, index): Side => {
    const flange = piece.chain === undefined ? undefined : bentChain(job, stepsOf(piece.chain.steps, outline.convention));
    return {
      name: edge.name,
      feature,
      from: piece.from === 0 ? from : ahead(from, along, piece.from),
      to: piece.to === length ? to : ahead(from, along, piece.to),
      arc: undefined,
      along,
      out,
      origin,
      growing,
      flange,
      setback: flange === undefined ? 0 : setbackIn(convention, flange),
      piece: pieces.length > 1 ? index : undefined,
      span: edge.span,
    };
  });
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
  span: side.span,
});

const trimmed = (job: Job, outline: Outline, sides: readonly Side[]): readonly Side[] | undefined => {
  const count = sides.length;
  if (sides.every((side) => side.setback === 0)) return sides;
  const ends: { readonly before: Point; readonly after: Point }[] = [];
  for (let i = 0; i < count; i++) {
    const before = sides[(i + count - 1) % count] as Side;
    const after = sides[i] as Side;
    const meeting = sameEdge(before, after) ? stepBetween(before, after) : meetingOf(before, after);
    if (meeting === undefined) {
      doNotMeet(job, before, after);
      return undefined;
    }
    ends.push(meeting);
  }
  const moved = sides.map((side, i) =>
    between(side, (ends[i] as { after: Point }).after, (ends[(i + 1) % count] as { before: Point }).before),
  );
  const eaten = moved.find((side, i) => isEaten(sides[i] as Side, side));
  if (eaten !== undefined) {
    nothingLeft(job, outline, eaten, moved);
    return undefined;
  }
  if (!outline.rectangle && selfMeeting(loopOfSides(moved)) !== undefined) {
    nothingLeft(job, outline, undefined, moved);
    return undefined;
  }
  return moved;
};

const sameEdge = (before: Side, after: Side): boolean =>
  before.piece !== undefined && after.piece !== undefined && before.span === after.span && after.piece === before.piece + 1;

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
  const meetings = lineMeetsCircle(line, { centre: arc.centre, radius: apart(arc.centre, corner) });
  return meetings.reduce<Point | undefined>(
    (best, p) => (best === undefined || apart(p, corner) < apart(best, corner) ? p : best),
    undefined,
  );
};

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

/** The loop along a face's sides, reckoned from `datum` where one is given. */
export const loopOfSides = (sides: readonly Side[], datum?: Point): Loop => {
  const loop: Move[] = [];
  const at = (p: Point): Point => (datum === undefined ? p : { x: p.x - datum.x, y: p.y - datum.y });
  for (let i = 0; i < sides.length; i++) {
    const side = sides[i] as Side;
    const before = (sides[(i + sides.length - 1) % sides.length] as Side).to;
    if (apart(before, side.from) > 1e-9) loop.push({ kind: 'line', to: at(side.from) });
    loop.push(
      side.arc === undefined
        ? { kind: 'line', to: at(side.to), id: side.feature }
        : { kind: 'arc', to: at(side.to), centre: at(side.arc.centre), turn: side.arc.turn, id: side.feature },
    );
  }
  return loop;
};

const nameOf = (side: Side): string => side.name ?? 'an unnamed edge';

const doNotMeet = (job: Job, before: Side, after: Side): void => {
  const { say } = job.words;
  const moved = [before, after].filter((side) => side.setback > 0).map((side) => `${nameOf(side)} moves in by ${say(side.setback)}`);
  remark(
    job,
    'shape/edges-do-not-meet',
    (after.setback > 0 ? after : before).span,
    `${nameOf(before)} and ${nameOf(after)} no longer meet once bent: ${moved.join(' and ')} for its bend; put a short straight edge between them or bend both alike`,
    { related: [{ file: job.part.file, span: (after.setback > 0 ? before : after).span, message: 'the neighbour' }] },
  );
};

const nothingLeft = (job: Job, outline: Outline, eaten: Side | undefined, sides: readonly Side[]): void => {
  const { say } = job.words;
  const bent = sides.filter((side) => side.setback > 0).map((side) => `${nameOf(side)} ${say(side.setback)}`);
  const what = eaten === undefined ? 'of the base' : `of ${nameOf(eaten)}`;
  remark(
    job,
    'shape/nothing-left',
    outline.span,
    `nothing is left ${what} between the bends, which take up ${bent.join(', ')}; make the outline larger or the inside radii smaller`,
  );
};
