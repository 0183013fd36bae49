/** From the finished outline to the sides of the base face: bent edges moved in by their setbacks, neighbours trimmed or run on to meet them. */
import type { Outline, OutlineEdge, Panel } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import { selfMeeting } from '../shape/inside.js';
import { signedArea } from '../shape/loops.js';
import type { Loop, Move, Point } from '../shape/path.js';
import { bendReliefWidth } from '../trade/spacing.js';
import { bentEdge, setbackIn, tabsFirst } from './bending.js';
import { type Piece, piecesOf } from './pieces.js';
import { tabsOn } from './tabs.js';
import { ahead, type Job, remark, type Side } from './tree.js';
import { loopOfSides, trimSides } from './trimming.js';

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
const NONE: readonly never[] = [];

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
        drawnFrom: from,
        drawnTo: to,
        tabs: NONE,
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
    const steps = piece.chain?.steps ?? NONE;
    const flange = steps.length === 0 ? undefined : bentEdge(job, steps, outline.convention);
    const start = piece.from === 0 ? from : ahead(from, along, piece.from);
    const end = piece.to === length ? to : ahead(from, along, piece.to);
    return {
      name: edge.name,
      feature,
      from: start,
      to: end,
      arc: undefined,
      along,
      out,
      origin,
      growing,
      flange,
      setback: flange === undefined ? 0 : setbackIn(convention, flange),
      piece: pieces.length > 1 ? index : undefined,
      drawnFrom: start,
      drawnTo: end,
      tabs:
        steps.length === 0
          ? NONE
          : tabsOn(job, tabsFirst(steps), { from: start, to: end, along, origin, growing }, edge.name ?? 'this edge'),
      span: edge.span,
    };
  });
};

const trimmed = (job: Job, outline: Outline, sides: readonly Side[]): readonly Side[] | undefined => {
  const made = trimSides(sides, bendReliefWidth(job.thickness).distance);
  if (made.kind === 'apart') {
    doNotMeet(job, made.before, made.after);
    return undefined;
  }
  if (made.kind === 'eaten') {
    nothingLeft(job, outline, made.side, made.sides);
    return undefined;
  }
  if (made.sides !== sides && !outline.rectangle && selfMeeting(loopOfSides(made.sides)) !== undefined) {
    nothingLeft(job, outline, undefined, made.sides);
    return undefined;
  }
  return made.sides;
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
    `nothing is left ${what} between the bends, which take up ${bent.join(', ')}; ${eaten?.arc === undefined ? 'make the outline larger or the inside radii smaller' : 'draw this corner sharp, or round it further than the bends reach'}`,
  );
};
