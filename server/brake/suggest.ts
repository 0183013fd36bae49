/** The smallest changes that would free a part that can't be bent: each is laid out and planned anew before it is offered. */
import type { Span } from '../../grammar/syntax.js';
import { layOut } from '../blank/index.js';
import type { CornerRule, CornerTreatment, EdgeChain, EdgeStep, Panel, Part, Section } from '../model/part.js';
import type { Brake } from '../model/shop.js';
import { tryingOn } from './plan.js';
import { type InSteps, toTheEnd } from './steps.js';
import type { Change, Obstacle, Plan } from './types.js';

/** Plans made at most in looking for changes. */
const MOST_TRIES = 150;
/** States of the part looked at for one change, and for all of them: enough for every order of eight bends in each try. */
const MOST_STATES_EACH = 4000;
const MOST_STATES = 40_000;
/** Sizes tried against what is written, rising away from it; between the last that fails and the first that works the least change is then found. */
const SHORTER = [0.9, 0.75, 0.55, 0.35];
const LONGER = [1.1, 1.3, 1.7, 2.5];
const HALVINGS = 5;
/** Offered at most. */
const OFFERED = 3;
/** Lengths are offered in whole steps of this unless another step is asked for, mm. */
const STEP = 0.5;

interface Size {
  readonly kind: 'flange' | 'leg' | 'hem';
  readonly ids: readonly string[];
  readonly length: number;
}
export interface WrittenSize extends Size {
  readonly span: Span | undefined;
}
interface Offer {
  readonly change: Change;
  /** Change against the size, for which is smallest. */
  readonly share: number;
}

/**
 * Changes that free a part, smallest first.
 *
 * @param step lengths are tried and offered in whole steps of this, mm: what a rule of the file's unit shows
 * @returns at most three; none when the plan is possible or nothing that was tried frees it
 */
export const suggestChanges = (part: Panel | Section, plan: Plan, step = STEP): readonly Change[] =>
  toTheEnd(suggestingChanges(part, plan, step));

/** The same, pausing within each plan that is tried, so that something more urgent can come in between. */
export function* suggestingChanges(part: Panel | Section, plan: Plan, step = STEP): InSteps<readonly Change[]> {
  if (plan.possible) return [];
  const sheet = part.sheet?.value;
  if (sheet === undefined) return [];
  let [tries, states] = [0, 0];
  const works = function* (changed: Panel | Section, brake: Brake): Trying {
    if (tries >= MOST_TRIES || states >= MOST_STATES) return false;
    tries++;
    yield undefined;
    const { blank } = layOut(changed);
    if (blank === undefined) return false;
    const trying = tryingOn(brake, { blank, sheet, trials: part.trials });
    for (let own = 0; own < MOST_STATES_EACH && states < MOST_STATES; own++, states++) {
      const next = trying.next();
      if (next.done === true) return next.value;
      yield undefined;
    }
    return false;
  };
  const offers: Offer[] = [];

  for (const brake of brakesThatMight(plan)) if (yield* works(part, brake.brake)) offers.push({ change: brake.change, share: 0 });
  if (offers.length === 0) {
    const corner = part.kind === 'panel' ? yield* cornerThatWorks(part, step, (changed) => works(changed, plan.brake)) : undefined;
    if (corner !== undefined) offers.push({ change: corner, share: 0 });
    const concerned = featuresOf(plan);
    for (const size of sizesOf(part)) {
      if (!size.ids.some((id) => concerned.has(id))) continue;
      for (const shares of [SHORTER, LONGER]) {
        const to = yield* leastThatWorks(size.length, shares, step, (length) => works(withLength(part, size, length), plan.brake));
        if (to === undefined) continue;
        const change: Change = { kind: size.kind, id: size.ids.join(', '), from: size.length, to };
        offers.push({ change, share: Math.abs(to - size.length) / size.length });
      }
    }
    if (part.kind === 'panel' && part.outline?.rectangle === true) {
      for (const axis of ['x', 'y'] as const) {
        const size = spanOf(part, axis);
        for (const shares of [LONGER, SHORTER]) {
          const to = yield* leastThatWorks(size, shares, step, (length) => works(withOutline(part, axis, length - size), plan.brake));
          if (to !== undefined) offers.push({ change: { kind: 'outline', axis, by: to - size }, share: Math.abs(to - size) / size });
        }
      }
    }
  }
  return offers
    .filter(({ change }) => !offers.some((other) => goesWithoutSaying(change, other.change)))
    .sort((a, b) => a.share - b.share)
    .slice(0, OFFERED)
    .map(({ change }) => change);
}

type Trying = InSteps<boolean>;

/** Whether one change is another, and more sizes besides that need no changing. */
const goesWithoutSaying = (change: Change, less: Change): boolean => {
  if (!('id' in change) || !('id' in less) || change === less || change.to !== less.to) return false;
  const ids = change.id.split(', ');
  return less.id.split(', ').length < ids.length && less.id.split(', ').every((id) => ids.includes(id));
};

/** Corners where one flange runs on past the other, so that what runs on is in the leaf's way. */
export const cornersRunOn = (part: Panel): readonly CornerRule[] =>
  part.corners.filter(({ treatment }) => treatment.kind === 'lap' || treatment.kind === 'butt');

const cornerThatWorks = function* (part: Panel, step: number, works: (changed: Panel) => Trying): InSteps<Change | undefined> {
  const corners = cornersRunOn(part);
  if (corners.length === 0) return undefined;
  for (const to of ['mitred', 'open'] as const) {
    const treatment: CornerTreatment = to === 'open' ? { kind: to, relief: undefined } : { kind: to, gap: step, relief: undefined };
    const changed = { ...part, corners: part.corners.map((one) => (corners.includes(one) ? { ...one, treatment } : one)) };
    if (yield* works(changed)) return { kind: 'corner', corners: corners.map(({ edges }) => edges?.join(' ') ?? 'all'), to, gap: step };
  }
  return undefined;
};

const leastThatWorks = function* (
  size: number,
  shares: readonly number[],
  step: number,
  works: (size: number) => Trying,
): InSteps<number | undefined> {
  let fails = size;
  for (const share of shares) {
    let good = rounded(size * share, share, step);
    if (!(yield* works(good))) {
      fails = good;
      continue;
    }
    for (let i = 0; i < HALVINGS && Math.abs(good - fails) > step; i++) {
      const middle = rounded((good + fails) / 2, share, step);
      if (middle === good || middle === fails) break;
      if (yield* works(middle)) good = middle;
      else fails = middle;
    }
    return good;
  }
  return undefined;
};
const rounded = (length: number, share: number, step: number): number =>
  (share < 1 ? Math.floor(length / step) : Math.ceil(length / step)) * step;

/** What of the machine stops a bend whatever the part's sizes, as a machine that would take it. */
const brakesThatMight = (plan: Plan): readonly { readonly brake: Brake; readonly change: Change }[] => {
  const all = plan.blocked.flatMap(({ tried }) => tried.flatMap(({ obstacles }) => obstacles));
  const most = <K extends Obstacle['kind']>(kind: K, of: (one: Extract<Obstacle, { kind: K }>) => number): number =>
    Math.max(0, ...all.filter((one): one is Extract<Obstacle, { kind: K }> => one.kind === kind).map(of));
  const { brake } = plan;
  const found: { readonly brake: Brake; readonly change: Change }[] = [];
  const [length, turn, jaw, depth] = [
    most('length', (one) => one.wants),
    most('turn', (one) => one.wants),
    most('jaw', (one) => one.height),
    most('depth', (one) => one.height),
  ];
  if (length > 0 && brake.length !== undefined)
    found.push({ brake: { ...brake, length }, change: { kind: 'brake', property: 'length', from: brake.length, to: length } });
  if (turn > 0 && brake.greatestTurn !== undefined)
    found.push({
      brake: { ...brake, greatestTurn: turn },
      change: { kind: 'brake', property: 'greatest turn', from: brake.greatestTurn, to: turn },
    });
  if (jaw > 0 && brake.jaw !== undefined)
    found.push({ brake: { ...brake, jaw }, change: { kind: 'brake', property: 'jaw', from: brake.jaw, to: jaw } });
  if (depth > 0 && brake.depth !== undefined)
    found.push({ brake: { ...brake, depth }, change: { kind: 'brake', property: 'depth', from: brake.depth, to: depth } });
  if (brake.type === 'leaf' && all.some((one) => one.kind === 'beside'))
    found.push({ brake: { ...brake, type: 'fingers', fingers: ANY_WIDTH }, change: { kind: 'fingers' } });
  return found;
};

/** Fingers that make up any length to 10 mm, so that no bend is refused for the want of one. */
const ANY_WIDTH: readonly number[] = [10, 20, 40, 80, 160, 320, 640, 1280];

/** Faces that have a part in what blocks it. */
const featuresOf = (plan: Plan): ReadonlySet<string> => {
  const found = new Set<string>();
  const bends = new Map(plan.blank.bends.map((bend) => [bend.id, bend]));
  const add = (id: string): void => {
    found.add(id);
    const bend = bends.get(id);
    if (bend !== undefined) found.add(bend.parent).add(bend.child).add(bend.step);
  };
  for (const { bend, tried } of plan.blocked.slice(0, 4)) {
    add(bend);
    for (const { obstacles } of tried) {
      for (const one of obstacles) {
        if (one.kind === 'touch' || one.kind === 'beside' || one.kind === 'depth') add(one.feature.slice(5));
        if (one.kind === 'itself') for (const feature of [one.a, one.b]) add(feature.slice(5));
      }
    }
  }
  return found;
};

/** Lengths that may be changed, as they are written: flanges and legs, and how deep a hem is. */
export const sizesWritten = (part: Part): readonly WrittenSize[] => {
  const found: WrittenSize[] = [];
  const gather = (steps: readonly EdgeStep[]): void => {
    for (const step of steps) {
      if (step.kind === 'hem') found.push({ kind: 'hem', ids: [step.id], length: step.depth, span: step.depthSpan });
      if (step.kind !== 'flange') continue;
      found.push({ kind: 'flange', ids: [step.id], length: step.length, span: step.lengthSpan });
      for (const { steps: own } of step.edges) gather(own);
    }
  };
  if (part.kind === 'panel') for (const { steps } of part.edges) gather(steps);
  if (part.kind === 'section') {
    let leg = 0;
    for (const step of part.steps) {
      if (step.kind !== 'leg') continue;
      leg++;
      const ids = [`leg.${leg}`, ...(step.name === undefined ? [] : [step.name])];
      found.push({ kind: 'leg', ids, length: step.length, span: step.lengthSpan });
    }
    gather(part.firstEdge);
    gather(part.lastEdge);
  }
  return found;
};

/** The same, and those that are alike also together. */
const sizesOf = (part: Panel | Section): readonly Size[] => {
  const single = sizesWritten(part);
  const alike = new Map<string, Size>();
  for (const { kind, ids, length } of single) {
    const key = `${kind} ${length}`;
    alike.set(key, { kind, length, ids: [...(alike.get(key)?.ids ?? []), ...ids] });
  }
  const together = [...alike.values()].filter((size) => !single.some((one) => one.ids.join() === size.ids.join()));
  return [...single, ...together];
};

const withLength = (part: Panel | Section, { ids, kind }: Size, length: number): Panel | Section => {
  const stepChanged = <S extends EdgeStep>(step: S): S => {
    const own = ids.includes(step.id);
    if (step.kind === 'hem') return own ? { ...step, depth: length } : step;
    return step.kind === 'flange' ? { ...step, length: own ? length : step.length, edges: changed(step.edges) } : step;
  };
  const changed = (chains: readonly EdgeChain[]): readonly EdgeChain[] =>
    chains.map((chain) => ({ ...chain, steps: chain.steps.map(stepChanged) }));
  if (part.kind === 'panel') return { ...part, edges: changed(part.edges) };
  if (kind === 'hem') return { ...part, firstEdge: part.firstEdge.map(stepChanged), lastEdge: part.lastEdge.map(stepChanged) };
  let leg = 0;
  const steps = part.steps.map((step) => {
    if (step.kind !== 'leg') return step;
    leg++;
    return ids.includes(`leg.${leg}`) ? { ...step, length } : step;
  });
  return { ...part, steps };
};

const spanOf = (part: Panel, axis: 'x' | 'y'): number => {
  const places = part.outline?.edges.map(({ to }) => to[axis]) ?? [];
  return Math.max(...places) - Math.min(...places);
};
/** The rectangle made wider or higher; what is cut in it stays where it is, which bending does not ask about. */
const withOutline = (part: Panel, axis: 'x' | 'y', by: number): Panel => {
  if (part.outline === undefined) return part;
  const places = part.outline.edges.map(({ to }) => to[axis]);
  const middle = (Math.max(...places) + Math.min(...places)) / 2;
  const moved = <P extends { readonly x: number; readonly y: number }>(p: P): P => (p[axis] > middle ? { ...p, [axis]: p[axis] + by } : p);
  const { start, edges } = part.outline;
  return {
    ...part,
    cuts: [],
    outline: { ...part.outline, start: moved(start), edges: edges.map((edge) => ({ ...edge, to: moved(edge.to) })) },
  };
};
