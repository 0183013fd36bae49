/**
 * The brake: whether a part can be bent here, in which order, and how far. From a blank and the shop's brakes to a plan or to what blocks it. The room judges
 * each bend exactly by the sections the shop gives, weighs every order, and says what it could not check. It never throws, prints or changes anything.
 */
import type { Blank } from '../blank/types.js';
import type { Panel, Section } from '../model/part.js';
import { type Planned, planOn } from './plan.js';
import type { Plan } from './types.js';

export type * from './types.js';

export const planBending = (part: Panel | Section, blank: Blank): Planned | undefined => {
  const sheet = part.sheet?.value;
  if (sheet === undefined || part.brakes.length === 0 || blank.bends.length === 0) return undefined;
  let best: Planned | undefined;
  for (const brake of part.brakes) {
    const planned = planOn(brake, { blank, sheet, trials: part.trials });
    if (best === undefined || isBetter(planned.plan, best.plan)) best = planned;
  }
  return best;
};
const isBetter = (a: Plan, b: Plan): boolean => {
  if (a.possible !== b.possible) return a.possible;
  if (a.cost !== undefined && b.cost !== undefined) {
    return (
      (a.cost.turnOvers - b.cost.turnOvers ||
        a.cost.rotations - b.cost.rotations ||
        a.cost.handling - b.cost.handling ||
        a.cost.unlike - b.cost.unlike) < 0
    );
  }
  return a.reached > b.reached;
};
