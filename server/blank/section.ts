/** A section is a base leg with a chain of bends: its legs one above the other, x along the length. */
import type { Section, SectionStep } from '../model/part.js';
import { bentChain, bentEdge, type Step, setbackIn, stepsOf, tabsFirst } from './bending.js';
import { tabsOn } from './tabs.js';
import { type BentFlange, type Job, remark, type Side, sayBoth } from './tree.js';

type Leg = Extract<SectionStep, { kind: 'leg' }>;

/** The first leg as the base's four sides, the rest hanging on its top; undefined when they can't be laid out (said in the job's findings). */
export const sectionSides = (job: Job, section: Section): readonly Side[] | undefined => {
  const [first, ...rest] = section.steps;
  const length = section.length?.value;
  if (first === undefined || length === undefined) return undefined;
  if (first.kind !== 'leg') {
    remark(job, 'shape/turn-without-leg', first.span, 'a section begins with a leg: write a `leg` before this turn');
    return undefined;
  }
  const legs = legsOf(job, section, rest);
  const beyond = stepsOf(job, section.lastEdge, section.convention);
  const before = job.findings.length;
  const start = bentEdge(job, section.firstEdge, section.convention);
  if (legs === undefined || beyond === undefined || job.findings.slice(before).some(({ severity }) => severity === 'error'))
    return undefined;
  const steps = [...legs, ...beyond];
  const chain = bentChain(job, steps);
  if (chain === undefined && steps.length > 0) return undefined;
  const [low, high] = [start, chain].map((bent) => (bent === undefined ? 0 : setbackIn(section.convention, bent))) as [number, number];
  const setback = low + high;
  const flat = first.length - setback;
  if (flat < 1e-6 || length < 1e-6) {
    const { say } = job.words;
    if (length < 1e-6)
      remark(
        job,
        'shape/nothing-left',
        section.length?.span ?? section.span,
        `a section ${say(length)} long has nothing to bend; its length must be above zero`,
      );
    else {
      const [long, gone] = sayBoth(job, first.length, setback);
      remark(
        job,
        'bend/flange-inside-its-bend',
        first.span,
        `leg.1 is ${long}, but ${low > 0 && high > 0 ? 'the bends at its two edges take up' : 'its bend takes up'} ${gone} of it, so no flat is left; make it longer than ${gone} or the inside radius smaller`,
      );
    }
    return undefined;
  }
  return rectangleSides(job, section, first, { length, flat, start, chain, low, high });
};

const legsOf = (job: Job, section: Section, rest: readonly SectionStep[]): readonly Step[] | undefined => {
  const steps: Step[] = [];
  for (let i = 0; i < rest.length; i += 2) {
    const [turn, leg] = [rest[i], rest[i + 1]];
    if (turn?.kind !== 'turn' || leg?.kind !== 'leg') {
      const fault = turn?.kind === 'turn' ? (leg ?? turn) : turn;
      remark(
        job,
        'shape/turn-without-leg',
        fault?.span ?? section.span,
        turn?.kind === 'turn'
          ? 'a turn stands between two legs: write a `leg` after it'
          : 'two legs follow each other: write a `turn` between them',
      );
      return undefined;
    }
    const number = i / 2 + 1;
    const isLast = i + 2 >= rest.length;
    steps.push({
      bendId: `turn.${number}`,
      faceId: `leg.${number + 1}`,
      step: `leg.${number + 1}`,
      length: leg.length,
      lengthFar: leg.length,
      make: 'turn',
      measured: 'finished',
      bare: false,
      taken: undefined,
      level: undefined,
      ends: undefined,
      tabs: isLast ? tabsFirst(section.lastEdge) : undefined,
      nested: [],
      lengthSpan: leg.span,
      direction: turn.direction,
      turn: turn.turn,
      radius: turn.radius,
      convention: section.convention,
      span: turn.span,
    });
  }
  return steps;
};

interface FirstLeg {
  readonly length: number;
  readonly flat: number;
  /** What hangs on its free edge, and the legs beyond it. */
  readonly start: BentFlange | undefined;
  readonly chain: BentFlange | undefined;
  /** What the two take up of it. */
  readonly low: number;
  readonly high: number;
}

/** y runs from the first leg's finished free edge. */
const rectangleSides = (job: Job, section: Section, leg: Leg, { length, flat, start, chain, low, high }: FirstLeg): readonly Side[] => {
  const corners = [
    { x: 0, y: low },
    { x: length, y: low },
    { x: length, y: low + flat },
    { x: 0, y: low + flat },
  ] as const;
  const names = ['bottom', 'right', 'top', 'left'] as const;
  const along = [
    { x: 1, y: 0 },
    { x: 0, y: 1 },
    { x: -1, y: 0 },
    { x: 0, y: -1 },
  ] as const;
  const finished = (at: { readonly x: number; readonly y: number }) => ({ x: at.x, y: at.y === low ? 0 : low + flat + high });
  return corners.map((from, i): Side => {
    const direction = along[i] as (typeof along)[number];
    const to = corners[(i + 1) % 4] as (typeof corners)[number];
    const edge = { from, to, along: direction, origin: { x: 0, y: 0 }, growing: i < 2 ? 1 : -1 } as const;
    const [flange, setback, tabs] =
      i === 0
        ? [start, low, tabsFirst(section.firstEdge)]
        : i === 2
          ? [chain, high, section.steps.length > 1 ? undefined : tabsFirst(section.lastEdge)]
          : [undefined, 0, undefined];
    return {
      ...edge,
      name: names[i],
      feature: 'face:leg.1',
      arc: undefined,
      out: { x: direction.y, y: -direction.x },
      flange,
      setback,
      piece: undefined,
      drawnFrom: finished(from),
      drawnTo: finished(to),
      tabs: tabsOn(job, tabs, edge, i === 0 ? 'the section’s first edge' : 'its last edge'),
      span: leg.span,
    };
  });
};

/** The face a cut of a section lies on, by the leg's number or its name. */
export const legOf = (section: Section, on: string | undefined): string => {
  if (on === undefined) return 'leg.1';
  const legs = section.steps.filter((step): step is Leg => step.kind === 'leg');
  const named = legs.findIndex((leg) => leg.name === on);
  return named < 0 ? on : `leg.${named + 1}`;
};
