/** A section is a base leg with a chain of bends: its legs one above the other, x along the length. */
import type { Section, SectionStep } from '../model/part.js';
import { bentChain, type Step, setbackIn } from './bending.js';
import { type Job, remark, type Side, sayBoth } from './tree.js';

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
  const steps = stepsOf(job, section, rest);
  if (steps === undefined) return undefined;
  const chain = bentChain(job, steps);
  if (chain === undefined && steps.length > 0) return undefined;
  const setback = chain === undefined ? 0 : setbackIn(section.convention, chain);
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
        `leg.1 is ${long}, but its bend takes up ${gone} of it, so no flat is left; make it longer than ${gone} or the inside radius smaller`,
      );
    }
    return undefined;
  }
  return rectangleSides(length, flat, first, chain, setback);
};

const stepsOf = (job: Job, section: Section, rest: readonly SectionStep[]): readonly Step[] | undefined => {
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
      tabs: undefined,
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

const rectangleSides = (length: number, height: number, leg: Leg, chain: Side['flange'], setback: number): readonly Side[] => {
  const corners = [
    { x: 0, y: 0 },
    { x: length, y: 0 },
    { x: length, y: height },
    { x: 0, y: height },
  ] as const;
  const names = ['bottom', 'right', 'top', 'left'] as const;
  const along = [
    { x: 1, y: 0 },
    { x: 0, y: 1 },
    { x: -1, y: 0 },
    { x: 0, y: -1 },
  ] as const;
  return corners.map((from, i): Side => {
    const direction = along[i] as (typeof along)[number];
    const top = i === 2;
    return {
      name: names[i],
      feature: 'face:leg.1',
      from,
      to: corners[(i + 1) % 4] as (typeof corners)[number],
      arc: undefined,
      along: direction,
      out: { x: direction.y, y: -direction.x },
      origin: corners[0],
      growing: i < 2 ? 1 : -1,
      flange: top ? chain : undefined,
      setback: top ? setback : 0,
      piece: undefined,
      drawnFrom: from,
      drawnTo: corners[(i + 1) % 4] as (typeof corners)[number],
      tabs: [],
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
