/**
 * The orders in which the folded view folds: those of the bend plans, worked out a little at a time between other answers, for the part that was looked at last.
 */
import { type Planned, planBendingInSteps } from '../brake/index.js';
import type { MovingStep } from '../fold/types.js';
import type { PartResult } from '../project.js';
import { nextTurn } from './publish.js';

/** `blocked`: no order makes it on the shop's brakes. `nothing to plan`: no bends, or no brake. */
export type FoldOrder =
  | { readonly kind: 'planned'; readonly brake: string; readonly steps: readonly MovingStep[] }
  | { readonly kind: 'blocked' }
  | { readonly kind: 'nothing to plan' };

export interface BendOrders {
  /** What is known of a part; undefined while it is not, which sets the work going. */
  readonly of: (uri: string, result: PartResult) => FoldOrder | undefined;
}

/** Milliseconds at a time, and before it begins: nobody looks at the order while typing. */
const longestTurn = 8;
const pause = 150;

interface Wanted {
  readonly uri: string;
  readonly part: Parameters<typeof planBendingInSteps>[0];
  readonly blank: Parameters<typeof planBendingInSteps>[1];
}

/**
 * @param found  an order that was asked for is known now; with the file's address
 * @param failed what went wrong in planning, which then counts as nothing to plan
 */
export const createBendOrders = (found: (uri: string) => void, failed: (error: unknown) => void): BendOrders => {
  const orders = new WeakMap<Wanted['blank'], FoldOrder>();
  let wanted: Wanted | undefined;
  let running = false;

  /** undefined when another part is wanted meanwhile. */
  const planned = async (of: Wanted): Promise<FoldOrder | undefined> => {
    await new Promise((resolve) => setTimeout(resolve, pause).unref());
    const steps = planBendingInSteps(of.part, of.blank);
    let started = performance.now();
    while (wanted === of) {
      const step = steps.next();
      if (step.done === true) return orderFrom(step.value);
      if (performance.now() - started < longestTurn) continue;
      await nextTurn();
      started = performance.now();
    }
    return undefined;
  };
  const run = async (): Promise<void> => {
    running = true;
    for (let of = wanted; of !== undefined; of = wanted) {
      try {
        const order = await planned(of);
        if (order === undefined) continue;
        orders.set(of.blank, order);
        wanted = undefined;
        if (order.kind !== 'nothing to plan') found(of.uri);
      } catch (error) {
        orders.set(of.blank, { kind: 'nothing to plan' });
        wanted = undefined;
        failed(error);
      }
    }
    running = false;
  };

  return {
    of: (uri, { part, blank: { blank } }) => {
      if (blank === undefined || (part.kind !== 'panel' && part.kind !== 'section')) return { kind: 'nothing to plan' };
      const known = orders.get(blank);
      if (known !== undefined) return known;
      if (part.brakes.length === 0 || blank.bends.length === 0) return { kind: 'nothing to plan' };
      if (wanted?.blank !== blank) wanted = { uri, part, blank };
      if (!running) void run();
      return undefined;
    },
  };
};

const orderFrom = (answer: Planned | undefined): FoldOrder => {
  if (answer === undefined) return { kind: 'nothing to plan' };
  const { possible, brake, steps } = answer.plan;
  if (!possible) return { kind: 'blocked' };
  return {
    kind: 'planned',
    brake: brake.name,
    steps: steps.map(({ bends, fromShare, toShare }) => ({ bends, from: fromShare, to: toShare })),
  };
};
