/** One part on one brake: the plan, or what blocks it. */
import type { Blank } from '../blank/types.js';
import type { Brake, Sheet, Trial } from '../model/shop.js';
import { plasticMoment } from '../trade/brake-capacity.js';
import { type Chosen, handled } from './cost.js';
import { leafSide } from './hold.js';
import { type Job, jobOf, type Way } from './job.js';
import { obstaclesOf } from './obstacles.js';
import { inTwoGoes } from './pieces.js';
import { type Found, findingOrder, findingPlain, isFound, reallyReached, type Stuck } from './search.js';
import { isStainless, stainlessPractice, thickestFor } from './static.js';
import type { InSteps } from './steps.js';
import type { BendStep, BlockedBend, Obstacle, Plan } from './types.js';

/** Shares of its turn that a bend is tried at before it is finished later. */
const PART_WAY = [1 / 2, 1 / 3, 2 / 3];
/** Up to so many operations a bend made in two goes is looked for: each is a whole search. */
const PRE_BENT_UP_TO = 12;

const twoGoesNotTried = `whether a bend made in two goes would free it: that is looked for in parts of up to ${PRE_BENT_UP_TO} bends`;

export interface PlanInput {
  readonly blank: Blank;
  readonly sheet: Sheet;
  readonly trials: readonly Trial[];
}
export interface Planned {
  readonly plan: Plan;
  readonly job: Job;
  readonly chosen: readonly Chosen[];
}

/** Whether a part can be bent on a brake, each bend in one go. */
export function* tryingOn(brake: Brake, input: PlanInput): InSteps<boolean> {
  return (yield* findingPlain(jobOf({ ...input, brake }))) !== undefined;
}

/** On the brake that makes the part with the least handling; a bend in two goes only where no brake makes it otherwise; else on the one that gets farthest. */
export function* planningOnOneOf(brakes: readonly [Brake, ...Brake[]], input: PlanInput): InSteps<Planned> {
  let best: Planned | undefined;
  const better = (one: Planned | undefined): void => {
    if (one !== undefined && (best === undefined || isCheaper(one.plan, best.plan))) best = one;
  };
  const stuckOn: { readonly job: Job; readonly answer: Stuck }[] = [];
  for (const brake of brakes) {
    const job = jobOf({ ...input, brake });
    yield undefined;
    const answer = yield* findingOrder(job);
    if (isFound(answer)) better(planned(job, answer, undefined));
    else stuckOn.push({ job, answer });
  }
  if (best === undefined) for (const { job, answer } of stuckOn) better(yield* preBending(job, input, answer));
  if (best !== undefined) return best;
  yield undefined;
  const [first, ...others] = stuckOn;
  const farthest = others.reduce((a, b) => (a === undefined || b.answer.reached > a.answer.reached ? b : a), first);
  if (farthest === undefined) throw new Error('No brake to plan on.');
  return stuck(farthest.job, reallyReached(farthest.job, farthest.answer));
}

const isCheaper = (a: Plan, b: Plan): boolean => {
  if (a.cost === undefined || b.cost === undefined) return a.cost !== undefined;
  const by =
    a.cost.turnOvers - b.cost.turnOvers ||
    a.cost.rotations + a.cost.longSwings - b.cost.rotations - b.cost.longSwings ||
    a.cost.handling - b.cost.handling ||
    a.cost.unlike - b.cost.unlike;
  return by < 0;
};

/** One bend turned part-way and finished later: bends that are blocked first, then the others. */
function* preBending(job: Job, input: PlanInput, { sets }: Stuck): InSteps<Planned | undefined> {
  if (job.operations.length > PRE_BENT_UP_TO) return undefined;
  // Where a bend can't be made from any state, turning another part-way does not help it.
  const hopeless = job.ways.some(
    (own, operation) => job.operations[operation]?.make !== 'hand' && own.every((way) => way.always.length > 0),
  );
  if (hopeless) return undefined;
  const left = (operation: number): boolean => sets.some((set) => (set & (1 << operation)) === 0);
  const candidates = job.operations.flatMap((operation, index) => (operation.make === 'brake' ? [index] : []));
  candidates.sort((a, b) => Number(left(b)) - Number(left(a)));
  for (const index of candidates) {
    for (const share of PART_WAY) {
      const tried = jobOf({ ...input, brake: job.brake, operations: inTwoGoes(job.operations, index, share) });
      const answer = yield* findingPlain(tried);
      if (answer !== undefined) return planned(tried, answer, job.operations[index]?.step);
    }
  }
  return undefined;
}

const planned = (job: Job, found: Found, preBentStep: string | undefined): Planned => {
  const steps = stepsOf(job, found.steps);
  return {
    job,
    chosen: found.steps,
    plan: {
      ...commonOf(job),
      possible: true,
      steps,
      order: steps.map(({ step }) => step),
      cost: found.cost,
      best: found.best,
      proven: true,
      preBent: preBentStep,
      blocked: [],
      reached: job.operations.length,
    },
  };
};

const stuck = (job: Job, answer: Stuck): Planned => ({
  job,
  chosen: [],
  plan: {
    ...commonOf(job),
    notChecked: [...notChecked(job), ...(job.operations.length > PRE_BENT_UP_TO ? [twoGoesNotTried] : [])],
    possible: false,
    steps: [],
    order: [],
    cost: undefined,
    best: true,
    proven: answer.proven,
    preBent: undefined,
    blocked: blockedOf(job, answer),
    reached: answer.reached,
  },
});

const commonOf = (job: Job) => {
  const { brake, sheet, blank } = job;
  const longest = Math.max(0, ...job.ways.flatMap((own) => own.map(({ hold }) => hold.ends[1] - hold.ends[0])));
  const practice = stainlessPractice(brake, sheet);
  const takes = thickestFor(brake, sheet, longest);
  const tensile = sheet.material?.tensile;
  return {
    brake,
    blank,
    suggestions: [],
    notChecked: notChecked(job),
    stainless: isStainless(sheet) && practice !== undefined && takes !== undefined ? { takes, practice } : undefined,
    moment: tensile === undefined ? undefined : plasticMoment(tensile, blank.thickness),
  };
};

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
const notChecked = ({ brake, sheet }: Job): readonly string[] => {
  const sections = (['nose', 'bed', 'apron'] as const).filter((tool) => brake[tool] === undefined);
  const sizes = [
    ...(brake.length === undefined ? ['length'] : []),
    ...(brake.capacity === undefined ? ['capacity'] : []),
    ...(brake.leastFlange === undefined ? ['least flange'] : []),
    ...(brake.greatestTurn === undefined ? ['greatest turn'] : []),
    ...(brake.jaw === undefined ? ['jaw'] : []),
    ...(brake.type === 'fingers' && brake.depth === undefined ? ['depth'] : []),
  ];
  return [
    ...(sections.length > 0 ? [`what strikes the machine: ${brake.name} has no ${listed(sections)} described`] : []),
    ...(sizes.length > 0 ? [`${brake.name} has no ${listed(sizes)} given`] : []),
    ...(brake.capacity !== undefined && thickestFor(brake, sheet, 1) === undefined
      ? [
          `capacity: nothing compares ${sheet.material?.name ?? 'the sheet'} with ${brake.capacity.material?.name ?? 'the rating'}; give both a tensile strength`,
        ]
      : []),
    ...(sheet.material?.yield === undefined || sheet.material.modulus === undefined
      ? [`springback: ${sheet.material?.name ?? sheet.name} has no yield or modulus, and no test strip gives it`]
      : []),
  ];
};

const stepsOf = (job: Job, chosen: readonly Chosen[]): readonly BendStep[] => {
  const steps: BendStep[] = [];
  let [set, before] = [0, undefined as Way | undefined];
  const done: string[] = [];
  for (const [i, { operation: index, way }] of chosen.entries()) {
    const operation = job.operations[index];
    if (operation === undefined) continue;
    const bends = operation.bends.flatMap((bend) => job.blank.bends[bend] ?? []);
    const first = bends[0];
    const shared = { number: i + 1, step: operation.step, bends: bends.map(({ id }) => id), make: operation.make } as const;
    const shares = { fromShare: operation.fromShare, toShare: operation.toShare, done: [...done] };
    if (way === undefined) {
      const byHand = { clamped: undefined, leaf: undefined, faceUp: undefined, turnedOver: false, turnedEndForEnd: false, rotated: 0 };
      const turn = first?.turn ?? 0;
      const none = { fingers: undefined, hangsOff: undefined, line: undefined, trial: undefined } as const;
      const moved = { tiltIn: false, fromBack: false, tiltOut: false, outBack: false, noWay: undefined } as const;
      const rest = { setAngle: turn, turn, setBy: 'not known', flatten: false, markOffset: 0, swings: 0, toBack: 0 } as const;
      steps.push({ ...shared, ...shares, ...byHand, ...rest, ...none, ...moved });
    } else {
      const { hold } = way;
      const feasible = job.tryStep(way, set);
      const { over, rotated } = handled(before, way);
      const [held, swung] = hold.side === 'parent' ? [first?.parent, first?.child] : [first?.child, first?.parent];
      steps.push({
        ...shared,
        ...shares,
        clamped: held === undefined ? undefined : { side: hold.side, face: held },
        leaf: swung,
        faceUp: hold.faceUp,
        turnedOver: over,
        turnedEndForEnd: !over && Math.abs(Math.abs(rotated) - Math.PI) < 1e-6,
        rotated,
        turn: way.wanted,
        setAngle: hold.setTurn,
        setBy: way.turn.by,
        trial: way.turn.trial,
        flatten: operation.make === 'hem',
        markOffset: hold.inside,
        line: lineOf(job, way),
        swings: hold.leaf.extent,
        toBack: hold.clamped.extent,
        fingers: feasible?.fingers,
        hangsOff: feasible?.hangsOff,
        tiltIn: feasible?.jaw.tilt ?? false,
        fromBack: feasible?.jaw.back ?? false,
        tiltOut: feasible?.jaw.tiltOut ?? false,
        outBack: feasible?.jaw.backOut ?? false,
        noWay: feasible?.jaw.noWay,
      });
      before = way;
    }
    set |= 1 << index;
    done.push(...bends.map(({ id }) => id));
  }
  return steps;
};

/** The line under the nose's edge, flat: one inside radius from the clamped side's tangent, toward the leaf. */
const lineOf = (job: Job, { hold }: Way): BendStep['line'] => {
  const bend = job.pieces.joints[hold.joint]?.line;
  if (bend === undefined) return undefined;
  const tangent = leafSide(hold) === 'child' ? bend.tangentParent : bend.tangentChild;
  const [a, b] = tangent.map((p) => ({ x: p.x + hold.toward.x * hold.inside, y: p.y + hold.toward.y * hold.inside }));
  return a === undefined || b === undefined ? undefined : [a, b];
};

/** How hard an obstacle is to talk about first: what no order mends, then what is struck. */
const RANK: Readonly<Record<Obstacle['kind'], number>> = {
  length: 0,
  thickness: 1,
  turn: 2,
  grip: 3,
  touch: 4,
  itself: 5,
  beside: 6,
  fingers: 7,
  depth: 8,
  jaw: 9,
};

/** Every bend that can't go on from where most are done, told from the state in which the least stands against it. */
const blockedOf = (job: Job, { sets }: Stuck): readonly BlockedBend[] => {
  const found = new Map<number, BlockedBend & { readonly against: number }>();
  for (const set of sets.slice(0, 24)) {
    for (const [index, operation] of job.operations.entries()) {
      if ((set & (1 << index)) !== 0 || (operation.after & ~set) !== 0 || operation.make === 'hand') continue;
      const bend = job.blank.bends[operation.bends[0] ?? -1];
      if (bend === undefined) continue;
      const tried = (job.ways[index] ?? []).map((way) => ({ clamped: way.hold.side, obstacles: obstaclesOf(job, way, set) }));
      const least = tried.reduce<(typeof tried)[number] | undefined>(
        (best, one) => (best === undefined || severity(one.obstacles) < severity(best.obstacles) ? one : best),
        undefined,
      );
      const main = [...(least?.obstacles ?? [])].sort((a, b) => RANK[a.kind] - RANK[b.kind])[0];
      if (least === undefined || main === undefined) continue;
      const against = severity(least.obstacles);
      const known = found.get(index);
      if (known !== undefined && known.against <= against) continue;
      const done = job.operations.flatMap((one, i) =>
        (set & (1 << i)) === 0 ? [] : one.bends.flatMap((b) => job.blank.bends[b]?.id ?? []),
      );
      found.set(index, { bend: bend.id, step: operation.step, done, tried, main, against });
    }
  }
  return [...found.values()].sort((a, b) => a.against - b.against).map(({ against: _, ...blocked }) => blocked);
};
const severity = (obstacles: readonly Obstacle[]): number =>
  obstacles.reduce((sum, one) => sum + 1000 + (one.kind === 'touch' ? Math.min(one.depth, 900) : 0), 0);
