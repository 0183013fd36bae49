/** How the outline passes a corner: joints and reliefs between bends, slits beside one, roundings and cut corners where nothing is bent. */
import type { CornerRule, CornerTreatment, Relief } from '../model/part.js';
import { apart } from '../shape/arcs.js';
import type { Move, Point } from '../shape/path.js';
import { endLine, setIn } from './ends.js';
import { planBesideCut, plansBetween } from './plans.js';
import { type BentEnd, reliefCorner, slitBeside, slitWithinEdge } from './reliefs.js';
import { ahead, type BentFlange, type Corner, cross, dot, type EndPlan, type Job, remark, type Side } from './tree.js';

/** The corner rules of a part, with the pairs that were found in it. */
export interface CornerRules {
  readonly rules: readonly CornerRule[];
  readonly met: Set<CornerRule>;
}

/** One end of a side at a corner, as the corner sees it. */
export interface CornerEnd {
  readonly side: Side;
  /** The flange that comes right up to the corner here. */
  readonly bent: BentFlange | undefined;
}

export const plainCorner = (at: Point): Corner => ({
  arrive: at,
  moves: NO_MOVES,
  endPrevious: undefined,
  endNext: undefined,
  skipPrevious: 0,
  skipNext: 0,
});
const NO_MOVES: readonly Move[] = [];

/** How the outline goes from the end of one side to the start of the next. */
export const cornerBetween = (job: Job, rules: CornerRules, before: CornerEnd, after: CornerEnd): Corner => {
  const at = after.side.from;
  const ends = [slitEnd(before), slitEnd(after)] as const;
  if (apart(before.side.to, at) > 1e-9) return slitWithinEdge(job, plainCorner, ...ends);
  if (before.side.arc !== undefined || after.side.arc !== undefined) return cutCorner(job, rules, before, after, at);
  if (before.bent === undefined || after.bent === undefined) {
    nothingToJoin(job, rules, before.side, after.side);
    const turn = cross(before.side.along, after.side.along);
    if (turn < -1e-9 && (before.bent === undefined) !== (after.bent === undefined)) return slitBeside(job, plainCorner, ...ends, at);
    return cutCorner(job, rules, before, after, at);
  }
  return bothBent(job, rules, before.side, before.bent, after.side, after.bent, at);
};

const slitEnd = ({ side, bent }: CornerEnd): { side: Side; bent: boolean } => ({ side, bent: bent !== undefined });

const bothBent = (job: Job, rules: CornerRules, before: Side, a: BentFlange, after: Side, b: BentFlange, at: Point): Corner => {
  refuseCutCorner(job, rules, before, after);
  const turn = cross(before.along, after.along);
  if (Math.abs(turn) < 1e-9) sideBySide(job, before, after);
  const joint = ruleFor(rules, before, after, isJoint);
  const plans = plansBetween(job, joint, before, after);
  // In an inward corner that is left open the two flanges lie over each other; `overlaps.ts` says so.
  if (turn <= 1e-9 && plans.previous === undefined) return plainCorner(at);
  const rule = joint !== undefined && reliefIn(joint) !== undefined ? joint : ruleFor(rules, before, after, isRelief);
  return reliefCorner(
    job,
    rule ?? joint,
    rule === undefined ? undefined : reliefIn(rule),
    plans,
    bentEnd(before, a, 'to', plans.previous),
    bentEnd(after, b, 'from', plans.next),
    at,
  );
};

const bentEnd = (side: Side, flange: BentFlange, which: 'from' | 'to', plan: EndPlan | undefined): BentEnd => ({
  side,
  // The handbook's relief goes by brake bends: a roll or a curl does not end in a sharp fold at the corner.
  radius: flange.make === 'turn' || flange.make === 'joggle' ? flange.radius : 0,
  run: flange.sums.allowance + Math.min(flange.flat, flange.flatFar),
  line: endLine(side, flange, which, plan),
  folded: flange.make !== 'turn',
});

/** The corner of a flange's own bend with the bend of another that hangs on its end. */
export const hingeRelief = (
  job: Job,
  rules: CornerRules,
  hinge: Side,
  hung: BentFlange,
  flange: BentFlange,
  end: Side,
  place: 'before' | 'after',
): Corner => {
  const at = place === 'after' ? end.from : hinge.from;
  const far = ahead(at, hinge.out, hung.sums.allowance);
  const own: BentEnd = {
    side: hinge,
    radius: hung.radius,
    run: hung.sums.allowance,
    line: { zone: [at, far], flatStart: far, flatFar: far, reach: 0 },
    folded: false,
  };
  const [before, after] = place === 'after' ? [hinge, end] : [end, hinge];
  const rule = ruleFor(rules, before, after, isRelief);
  const other = bentEnd(end, flange, place === 'after' ? 'from' : 'to', undefined);
  const asked = rule === undefined ? undefined : reliefIn(rule);
  return reliefCorner(
    job,
    rule,
    asked,
    { previous: undefined, next: undefined },
    ...(place === 'after' ? ([own, other] as const) : ([other, own] as const)),
    at,
  );
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

const isCut = ({ kind }: CornerTreatment): boolean => kind === 'radius' || kind === 'chamfer' || kind === 'notch';
/** `relief …` alone says nothing of how the flanges meet. */
const isJoint = (t: CornerTreatment): boolean => !isCut(t) && !(t.kind === 'open' && t.relief !== undefined);
const reliefIn = ({ treatment }: CornerRule): Relief | undefined => ('relief' in treatment ? treatment.relief : undefined);
const isRelief = (t: CornerTreatment): boolean => 'relief' in t && t.relief !== undefined;

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

const nothingToJoin = (job: Job, rules: CornerRules, before: Side, after: Side): void => {
  const rule = ruleFor(rules, before, after, (t) => isJoint(t) && t.kind !== 'open');
  if (rule?.edges === undefined || (before.flange !== undefined && after.flange !== undefined)) return;
  const { kind } = rule.treatment;
  const flat = [before, after].filter((side) => side.flange === undefined).map((side) => side.name ?? 'one edge');
  remark(
    job,
    kind === 'mitred' ? 'corner/mitre-impossible' : 'corner/lap-impossible',
    rule.span,
    `${before.name} and ${after.name} can’t be ${kind === 'mitred' ? 'mitred' : 'lapped'}: ${flat.join(' and ')} ${flat.length > 1 ? 'carry' : 'carries'} no flange; turn a flange on both, or take this line out`,
  );
};

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
  const plain = besideCutEdge(job, before, after, at);
  // `corner all` means the corners it can be cut at: not beside a bend, where only a named corner is.
  if (rule === undefined || (rule.edges === undefined && (before.bent !== undefined || after.bent !== undefined))) return plain;
  const straight = before.side.arc === undefined && after.side.arc === undefined;
  if (!straight) {
    if (rule.edges !== undefined)
      remark(
        job,
        'corner/not-straight',
        rule.span,
        'only a corner between two straight edges can be cut; draw the arc to end where you want it',
      );
    return plain;
  }
  // Pieces of one edge run straight on.
  if (Math.abs(cross(before.side.along, after.side.along)) < 1e-9) return plain;
  return cutStraightCorner(job, rule, before, after, at, plain);
};

/** One bent edge, or none: the bent one's end keeps within the drawn outline. */
const besideCutEdge = (job: Job, before: CornerEnd, after: CornerEnd, at: Point): Corner => {
  const plain = plainCorner(at);
  if (before.bent === undefined && after.bent === undefined) return plain;
  const arc = before.side.arc !== undefined || after.side.arc !== undefined;
  const turn = arc ? undefined : Math.atan2(cross(before.side.along, after.side.along), dot(before.side.along, after.side.along));
  if (turn !== undefined && turn < 1e-9) return plain;
  const beyond = (side: Side, drawn: Point, sign: 1 | -1): number => sign * dot({ x: drawn.x - at.x, y: drawn.y - at.y }, side.along);
  const plan = (side: Side, flange: BentFlange, drawn: Point, sign: 1 | -1): EndPlan | undefined =>
    planBesideCut(job, flange, beyond(side, drawn, sign), side.setback, turn);
  return {
    ...plain,
    endPrevious: before.bent === undefined ? undefined : plan(before.side, before.bent, before.side.drawnTo, 1),
    endNext: after.bent === undefined ? undefined : plan(after.side, after.bent, after.side.drawnFrom, -1),
  };
};

const cutStraightCorner = (job: Job, rule: CornerRule, before: CornerEnd, after: CornerEnd, at: Point, plain: Corner): Corner => {
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
    return plain;
  }
  const arrive = ahead(at, before.side.along, -offBefore);
  const depart = ahead(at, after.side.along, offAfter);
  return {
    arrive,
    moves: cutMoves(rule.treatment, before.side, after.side, arrive, depart, at),
    endPrevious: before.bent === undefined ? undefined : setIn(plain.endPrevious, before.bent, offBefore),
    endNext: after.bent === undefined ? undefined : setIn(plain.endNext, after.bent, offAfter),
    skipPrevious: 0,
    skipNext: 0,
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
