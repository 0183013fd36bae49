/** What is said of a bend where it is written: in which step of the plan it is made, how, and how far the leaf is set. Nothing while there is no plan. */
import type { BendStep, Plan } from '../brake/index.js';
import { sayAngle, sayBlocked, sayStep, stepWords } from '../brake/index.js';
import type { Ask } from './ask.js';
import { bendWords } from './bending.js';
import { plain } from './documentation.js';
import { bendsOfStep, type PlacedPart } from './say.js';

interface Planned {
  readonly plan: Plan;
  /** Steps that make a bend of the statement. */
  readonly steps: readonly BendStep[];
  readonly bends: ReadonlySet<string>;
}

const plannedAt = (ask: Ask, placed: PlacedPart, statement: { readonly start: number; readonly end: number }): Planned | undefined => {
  const bending = ask.project.bending(placed.result);
  if (bending.state !== 'planned' || placed.result.blank.blank === undefined) return undefined;
  const bends = new Set(bendsOfStep(placed, statement).map(({ id }) => id));
  const { plan } = bending.planned;
  return bends.size === 0 ? undefined : { plan, bends, steps: plan.steps.filter((step) => step.bends.some((id) => bends.has(id))) };
};

export const bendStepHovers = (
  ask: Ask,
  placed: PlacedPart,
  statement: { readonly start: number; readonly end: number },
): readonly string[] => {
  const found = plannedAt(ask, placed, statement);
  if (found === undefined) return [];
  const { plan, steps, bends } = found;
  const words = bendWords(ask);
  if (!plan.possible) {
    const stopped = plan.blocked.filter(({ bend }) => bends.has(bend)).map((blocked) => plain(sayBlocked(blocked, words)));
    return [[`**no order of the bends works on ${plain(plan.brake.name)}**`, ...stopped].join('  \n')];
  }
  const [first, ...others] = steps;
  if (first === undefined) return [];
  if (others.length === 0) {
    const heading = `**step ${first.number} of ${plan.steps.length}** on ${plain(plan.brake.name)}: ${first.bends.map(plain).join(', ')}`;
    return [[heading, ...sayStep(first, words).map(plain)].join('  \n')];
  }
  // Several in full would fill the screen: a line each, what is held and how far it is set. How each is put in is told with its picture.
  const numbers = steps.map(({ number }) => number).join(', ');
  const lines = steps.map((step) => {
    const said = stepWords(step, words);
    // A line that began with a number and a point would be numbered anew.
    return `step ${step.number}, ${step.bends.map(plain).join(', ')}: ${said === undefined ? 'by hand' : plain(`${said.held}; ${said.set}`)}`;
  });
  return [[`**steps ${numbers} of ${plan.steps.length}** on ${plain(plan.brake.name)}`, ...lines].join('  \n')];
};

const setOf = (step: BendStep): string => (step.make === 'hand' ? 'by hand' : `set ${sayAngle(step.setAngle)}`);

/** `step 3, set 90.3°`; of several bends written at once `steps 1, 2, 7, set 90.3°`. */
export const bendStepHint = (
  ask: Ask,
  placed: PlacedPart,
  statement: { readonly start: number; readonly end: number },
): { readonly label: string; readonly tooltip: string } | undefined => {
  const found = plannedAt(ask, placed, statement);
  const first = found?.steps[0];
  if (found === undefined || first === undefined) return undefined;
  const { steps, plan } = found;
  const words = bendWords(ask);
  const alike = steps.every((step) => setOf(step) === setOf(first));
  const label = alike
    ? `step${steps.length === 1 ? '' : 's'} ${steps.map(({ number }) => number).join(', ')}, ${setOf(first)}`
    : `steps ${steps.map((step) => `${step.number} ${setOf(step)}`).join(', ')}`;
  const tooltip = [
    `Bending on ${plan.brake.name}, of ${plan.steps.length} steps`,
    ...steps.map((step) => `${step.number}  ${step.bends.join(', ')}: ${sayStep(step, words).join('; ')}`),
  ].join('\n');
  return { label, tooltip };
};
