/**
 * The brake: whether a part can be bent here, in which order, and how far. From a blank and the shop's brakes to a plan or to what blocks it. The room judges
 * each bend exactly by the sections the shop gives, weighs every order, and says what it could not check. It never throws, prints or changes anything.
 */
import type { Blank } from '../blank/types.js';
import type { Panel, Section } from '../model/part.js';
import { type Planned, planningOnOneOf } from './plan.js';
import { type InSteps, toTheEnd } from './steps.js';
import { suggestChanges, suggestingChanges } from './suggest.js';

export { type BendMotion, blockedMotion, type MovedSheet, stepMotion } from './motion.js';
export { blockedPicture, type SectionPicture, sectionPicture } from './picture.js';
export type { Planned } from './plan.js';
export { bendingReport } from './report.js';
export {
  type SayWords,
  sayAngle,
  sayBlocked,
  sayChange,
  sayHandling,
  sayObstacle,
  sayStep,
  stepWords,
} from './say.js';

export { toTheEnd } from './steps.js';
export { cornersRunOn, sizesWritten } from './suggest.js';
export type * from './types.js';

/**
 * The plan on the brake of the shop that makes the part with the least handling; when none can, on the one that gets farthest.
 *
 * @returns undefined without a brake, a sheet or a bend: then there is nothing to plan. Suggestions are left out; see `withSuggestions`.
 */
export const planBending = (part: Panel | Section, blank: Blank): Planned | undefined => toTheEnd(planBendingInSteps(part, blank));

/** The same, pausing after each state of the part that was looked at: a plan can take a second. */
export function* planBendingInSteps(part: Panel | Section, blank: Blank): InSteps<Planned | undefined> {
  const sheet = part.sheet?.value;
  const [first, ...others] = part.brakes;
  if (sheet === undefined || first === undefined || blank.bends.length === 0) return undefined;
  return yield* planningOnOneOf([first, ...others], { blank, sheet, trials: part.trials });
}

/** The same plan with the smallest changes that free it, each tried. Slower: it lays out and plans the part many times. */
export const withSuggestions = (part: Panel | Section, planned: Planned): Planned =>
  planned.plan.possible ? planned : { ...planned, plan: { ...planned.plan, suggestions: suggestChanges(part, planned.plan) } };

/**
 * The same, pausing within each plan that is tried.
 *
 * @param step lengths are offered in whole steps of this, mm
 */
export function* withSuggestionsInSteps(part: Panel | Section, planned: Planned, step?: number): InSteps<Planned> {
  if (planned.plan.possible) return planned;
  return { ...planned, plan: { ...planned.plan, suggestions: yield* suggestingChanges(part, planned.plan, step) } };
}
