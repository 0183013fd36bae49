/** How the outline passes a corner: reliefs between bends, slits beside one, roundings and cut corners where nothing is bent. */
import type { Span } from '../../grammar/syntax.js';
import type { CornerRule, CornerTreatment, Relief } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import type { Move, Point } from '../shape/path.js';
import { bendReliefPast, bendReliefWidth, cornerReliefDiameter } from '../trade/spacing.js';
import { ahead, type Corner, cross, dot, type Job, remark, type Side, sayBoth } from './tree.js';

/** The corner rules of a part, with the pairs that were found in it. */
export interface CornerRules {
  readonly rules: readonly CornerRule[];
  readonly met: Set<CornerRule>;
}

/** One end of a side at a corner, as the corner sees it. */
export interface CornerEnd {
  readonly side: Side;
  /** A flange comes right up to the corner here. */
  readonly bent: boolean;
  readonly radius: number;
  /** Straight run of the flange's end from the tangent line to its free corner. */
  readonly run: number;
}

export const plainCorner = (at: Point): Corner => ({ arrive: at, moves: [], offPrevious: 0, offNext: 0, relieved: false });

/** How the outline goes from the end of one side to the start of the next. */
export const cornerBetween = (job: Job, rules: CornerRules, before: CornerEnd, after: CornerEnd): Corner => {
  const at = after.side.from;
  if (apart(before.side.to, at) > 1e-9) return slitWithinEdge(job, before, after);
  if (before.side.arc !== undefined || after.side.arc !== undefined) return cutCorner(job, rules, before, after, at);
  const turn = cross(before.side.along, after.side.along);
  if (!before.bent || !after.bent) {
    if (turn < -1e-9 && before.bent !== after.bent) return slitBeside(job, before, after, at, turn);
    return cutCorner(job, rules, before, after, at);
  }
  refuseCutCorner(job, rules, before.side, after.side);
  if (Math.abs(turn) < 1e-9) sideBySide(job, before.side, after.side);
  // In an inward corner the two flanges lie over each other; `overlaps.ts` says so.
  return turn <= 1e-9 ? plainCorner(at) : reliefCorner(job, rules, before, after, at);
};

const ruleFor = (rules: CornerRules, before: Side, after: Side, wanted: (t: CornerTreatment) => boolean): CornerRule | undefined => {
  if (rules.rules.length === 0) return undefined;
  const pair = (rule: CornerRule): boolean =>
    rule.edges !== undefined &&
    ((rule.edges[0] === before.name && rule.edges[1] === after.name) || (rule.edges[0] === after.name && rule.edges[1] === before.name));
  for (const rule of rules.rules) if (pair(rule)) rules.met.add(rule);
  return (
    rules.rules.findLast((r) => wanted(r.treatment) && pair(r)) ?? rules.rules.findLast((r) => wanted(r.treatment) && r.edges === undefined)
  );
};

const isRelief = (treatment: CornerTreatment): boolean => treatment.kind === 'open' && treatment.relief !== undefined;
const isCut = (treatment: CornerTreatment): boolean =>
  treatment.kind === 'radius' || treatment.kind === 'chamfer' || treatment.kind === 'notch';

const reliefCorner = (job: Job, rules: CornerRules, before: CornerEnd, after: CornerEnd, at: Point): Corner => {
  const rule = ruleFor(rules, before.side, after.side, isRelief);
  const asked = rule?.treatment.kind === 'open' ? rule.treatment.relief : undefined;
  const automatic = asked === undefined;
  const radius = Math.max(before.radius, after.radius);
  const relief: Relief = asked ?? { kind: 'round', diameter: cornerReliefDiameter(radius, job.thickness).distance };
  if (relief.kind === 'none') return plainCorner(at);
  const room = Math.min(before.run, after.run, apart(before.side.from, before.side.to), apart(after.side.from, after.side.to));
  const written = (relief.kind === 'round' ? relief.diameter : relief.side) / 2;
  // The program's own relief gives way where there is no room for it; a written one is refused.
  const half = automatic ? Math.min(written, 0.8 * room) : written;
  const span = rule?.span ?? after.side.span;
  if ((relief.kind === 'round' ? half : half * Math.SQRT2) >= room - 1e-6) {
    reliefTooLarge(job, span, 2 * half, room, before.side, after.side);
    return plainCorner(at);
  }
  noteRelief(job, relief.kind, 2 * half, at, automatic, radius, span);
  const feature = `relief.${job.reliefs.length}`;
  const corner =
    relief.kind === 'round'
      ? roundRelief(at, half, before.side.out, after.side.out, feature)
      : squareRelief(at, half, before.side.out, after.side.out, feature);
  return { arrive: corner.arrive, moves: corner.moves, offPrevious: 0, offNext: 0, relieved: true };
};

const reliefTooLarge = (job: Job, span: Span, size: number, room: number, before: Side, after: Side): void => {
  const [wants, has] = sayBoth(job, size, room);
  const where = [before.name, after.name].filter((name) => name !== undefined).join(' and ');
  remark(
    job,
    'corner/relief-too-large',
    span,
    `a relief of ${wants} does not fit${where === '' ? '' : ` between ${where}`}, where only ${has} lie around the corner; write a smaller one, or \`relief none\``,
  );
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

/** In along one flange's end, round through the metal with the waste on the right, out along the other's. */
const roundRelief = (at: Point, radius: number, outBefore: Point, outAfter: Point, id: string): Pick<Corner, 'arrive' | 'moves'> => ({
  arrive: ahead(at, outBefore, radius),
  moves: [{ kind: 'arc', to: ahead(at, outAfter, radius), centre: at, turn: 'right', id }],
});

/** A square with two sides along the first bend, from where the first flange's end crosses it round to where the second's does. */
const squareRelief = (at: Point, half: number, outBefore: Point, outAfter: Point, id: string): Pick<Corner, 'arrive' | 'moves'> => {
  const start = Math.atan2(outBefore.y, outBefore.x);
  const between = Math.acos(Math.min(1, Math.max(-1, dot(outBefore, outAfter))));
  const swept = 2 * Math.PI - between;
  const moves: Move[] = [];
  // Corners of the square lie 45°, 135°, … from its first side, walked clockwise.
  for (let quarter = Math.PI / 4; quarter < swept - 1e-9; quarter += Math.PI / 2) {
    const angle = start - quarter;
    moves.push({ kind: 'line', to: { x: at.x + half * Math.SQRT2 * Math.cos(angle), y: at.y + half * Math.SQRT2 * Math.sin(angle) }, id });
  }
  const reach = half / Math.max(Math.abs(Math.cos(between)), Math.abs(Math.sin(between)));
  moves.push({ kind: 'line', to: ahead(at, outAfter, reach), id });
  return { arrive: ahead(at, outBefore, half), moves };
};

/** Where a flange takes only part of an edge, its end and the cut edge beside it are parted by a slit that runs past the tangent line. */
const slitWithinEdge = (job: Job, before: CornerEnd, after: CornerEnd): Corner => {
  // A flange that another hangs on at this end stands further in; the step from its tangent line to the cut edge is all it needs.
  if (!before.bent && !after.bent) return { ...plainCorner(before.side.to), moves: [{ kind: 'line', to: after.side.from }] };
  const width = bendReliefWidth(job.thickness).distance;
  const past = bendReliefPast().distance;
  const at = before.bent ? before.side.to : after.side.from;
  const { along, out } = before.side;
  const depth = ahead(at, out, -past);
  noteSlit(job, depth, width, (before.bent ? before : after).side.span);
  const id = `relief.${job.reliefs.length}`;
  if (before.bent) {
    const corner = ahead(depth, along, width);
    const edge = ahead(after.side.from, along, width);
    return {
      arrive: depth,
      moves: [
        { kind: 'line', to: corner, id },
        { kind: 'line', to: edge, id },
      ],
      offPrevious: 0,
      offNext: 0,
      relieved: true,
    };
  }
  const edge = ahead(before.side.to, along, -width);
  const corner = ahead(depth, along, -width);
  return {
    arrive: edge,
    moves: [
      { kind: 'line', to: corner, id },
      { kind: 'line', to: depth, id },
    ],
    offPrevious: 0,
    offNext: 0,
    relieved: true,
  };
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

/**
 * An inward corner with one bend, the flat running along the flange's end: the flange gives way by a slit. A corner that turns in further puts the flange over
 * the flat, which `overlaps.ts` reports; one that turns in less leaves a gap of its own.
 */
const slitBeside = (job: Job, before: CornerEnd, after: CornerEnd, at: Point, turn: number): Corner => {
  if (turn > -1 + 1e-9) return plainCorner(at);
  const width = bendReliefWidth(job.thickness).distance;
  const past = bendReliefPast().distance;
  const bent = (before.bent ? before : after).side;
  const bottom = ahead(at, bent.out, -past);
  noteSlit(job, bottom, width, bent.span);
  const id = `relief.${job.reliefs.length}`;
  const beside = ahead(bottom, bent.along, before.bent ? -width : width);
  return before.bent
    ? { arrive: beside, moves: [{ kind: 'line', to: bottom, id }], offPrevious: width, offNext: 0, relieved: true }
    : { arrive: bottom, moves: [{ kind: 'line', to: beside, id }], offPrevious: 0, offNext: width, relieved: true };
};

const sideBySide = (job: Job, before: Side, after: Side): void =>
  remark(
    job,
    'fold/overlap-in-the-flat',
    after.span,
    `the flanges on ${before.name ?? 'one edge'} and ${after.name ?? 'the next'} lie side by side with no gap to cut between them; make one edge of the two, or leave a short unbent edge between`,
    {
      features: [before.flange, after.flange].flatMap((flange) => (flange === undefined ? [] : [`face:${flange.faceId}`])),
    },
  );

const refuseCutCorner = (job: Job, rules: CornerRules, before: Side, after: Side): void => {
  const rule = ruleFor(rules, before, after, isCut);
  if (rule === undefined || rule.edges === undefined) return;
  remark(
    job,
    'corner/both-bent',
    rule.span,
    `${before.name} and ${after.name} are both bent, so their corner can't be cut to a ${rule.treatment.kind}; a \`relief\` can be written here`,
  );
};

/** Radius, chamfer or notch at a corner where at most one side is bent; a bent side's flange stops where the cut begins. */
const cutCorner = (job: Job, rules: CornerRules, before: CornerEnd, after: CornerEnd, at: Point): Corner => {
  const rule = ruleFor(rules, before.side, after.side, isCut);
  // `corner all` means the corners it can be cut at: not beside a bend, where only a named corner is.
  if (rule === undefined || (rule.edges === undefined && (before.bent || after.bent))) return plainCorner(at);
  const straight = before.side.arc === undefined && after.side.arc === undefined;
  if (!straight) {
    if (rule.edges !== undefined)
      remark(
        job,
        'corner/not-straight',
        rule.span,
        'only a corner between two straight edges can be cut; draw the arc to end where you want it',
      );
    return plainCorner(at);
  }
  return cutStraightCorner(job, rule, before, after, at);
};

const cutStraightCorner = (job: Job, rule: CornerRule, before: CornerEnd, after: CornerEnd, at: Point): Corner => {
  const [offBefore, offAfter] = cutLengths(rule, before, after);
  const roomBefore = apart(before.side.from, before.side.to);
  const roomAfter = apart(after.side.from, after.side.to);
  if (offBefore <= 1e-9 || offAfter <= 1e-9 || offBefore >= roomBefore - 1e-6 || offAfter >= roomAfter - 1e-6) {
    const { say } = job.words;
    const off = `${say(Math.max(0, offBefore))} off ${before.side.name ?? 'one edge'} and ${say(Math.max(0, offAfter))} off ${after.side.name ?? 'the other'}`;
    remark(
      job,
      'corner/cut-too-large',
      rule.span,
      `this ${rule.treatment.kind} takes ${off}, which are ${say(roomBefore)} and ${say(roomAfter)} long; write a ${rule.treatment.kind} that leaves some of both`,
    );
    return plainCorner(at);
  }
  const arrive = ahead(at, before.side.along, -offBefore);
  const depart = ahead(at, after.side.along, offAfter);
  return {
    arrive,
    moves: cutMoves(rule.treatment, before.side, after.side, arrive, depart, at),
    offPrevious: before.bent ? offBefore : 0,
    offNext: after.bent ? offAfter : 0,
    relieved: false,
  };
};

/** What a cut takes off each side, along it. A notch is W along the edge named first and D along the other; on `all`, W along the more level one. */
const cutLengths = (rule: CornerRule, before: CornerEnd, after: CornerEnd): readonly [number, number] => {
  const { treatment } = rule;
  switch (treatment.kind) {
    case 'chamfer':
      return [treatment.size, treatment.size];
    case 'radius': {
      const turned = Math.abs(Math.atan2(cross(before.side.along, after.side.along), dot(before.side.along, after.side.along)));
      const off = treatment.radius * Math.tan(turned / 2);
      return [off, off];
    }
    case 'notch': {
      const beforeFirst =
        rule.edges === undefined ? Math.abs(before.side.along.x) >= Math.abs(after.side.along.x) : rule.edges[0] === before.side.name;
      const [offBefore, offAfter] = beforeFirst ? [treatment.width, treatment.depth] : [treatment.depth, treatment.width];
      // Sizes run from the finished outline, which lies a setback outside the tangent line of the bent side.
      return [offBefore - after.side.setback, offAfter - before.side.setback];
    }
    default:
      return [0, 0];
  }
};

const cutMoves = (treatment: CornerTreatment, before: Side, after: Side, arrive: Point, depart: Point, at: Point): readonly Move[] => {
  if (treatment.kind === 'radius') {
    const left = cross(before.along, after.along) > 0;
    const centre = ahead(arrive, before.out, left ? -treatment.radius : treatment.radius);
    return [{ kind: 'arc', to: depart, centre, turn: left ? 'left' : 'right' }];
  }
  if (treatment.kind === 'chamfer') return [{ kind: 'line', to: depart }];
  const inner = { x: arrive.x + depart.x - at.x, y: arrive.y + depart.y - at.y };
  return [
    { kind: 'line', to: inner },
    { kind: 'line', to: depart },
  ];
};

/** Says of each corner rule with two names that no corner has those names. */
export const reportUnmet = (job: Job, { rules, met }: CornerRules): void => {
  for (const rule of rules) {
    if (rule.edges === undefined || met.has(rule)) continue;
    remark(
      job,
      'corner/edges-not-neighbours',
      rule.span,
      `${rule.edges[0]} and ${rule.edges[1]} do not meet at a corner; name two edges that follow each other along the outline`,
    );
  }
};
