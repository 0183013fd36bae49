/** The orders in which the folded view folds: those of the project's bend plans, which are made a little at a time between other answers. */
import type { MovingStep } from '../fold/types.js';
import type { PartResult } from '../project.js';
import type { Ask } from './ask.js';
import { nextTurn } from './publish.js';

/** `blocked`: no order makes it on the shop's brakes. `nothing to plan`: no bends, or no brake. */
export type FoldOrder =
  | { readonly kind: 'planned'; readonly brake: string; readonly steps: readonly MovingStep[] }
  | { readonly kind: 'blocked' }
  | { readonly kind: 'nothing to plan' };

export interface BendOrders {
  /** What is known of a part; undefined while its plan is not made, which sets the work going. */
  readonly of: (uri: string, ask: Asked, result: PartResult) => FoldOrder | undefined;
}
type Asked = Pick<Ask, 'project' | 'path'>;

/** Milliseconds at a time, and before it begins: nobody looks at the order while typing. */
const longestTurn = 8;
const pause = 150;

interface Wanted {
  readonly uri: string;
  readonly ask: Asked;
  readonly result: PartResult;
}

/**
 * @param found  an order that was asked for is known now; with the file's address
 * @param failed what went wrong in planning
 */
export const createBendOrders = (found: (uri: string) => void, failed: (error: unknown) => void): BendOrders => {
  let wanted: Wanted | undefined;
  let running = false;

  /** False when the text, or what is looked at, changed meanwhile: then it will be asked for again. */
  const made = async (of: Wanted): Promise<boolean> => {
    const { ask, result } = of;
    await new Promise((resolve) => setTimeout(resolve, pause).unref());
    if (wanted !== of) return false;
    const steps = ask.project.planInSteps(ask.path, result.part.name);
    let started = performance.now();
    while (wanted === of) {
      if (ask.project.bending(result).state !== 'not yet') return true;
      if (steps.next().done === true) return ask.project.bending(result).state !== 'not yet';
      if (performance.now() - started < longestTurn) continue;
      await nextTurn();
      started = performance.now();
    }
    return false;
  };
  const run = async (): Promise<void> => {
    running = true;
    for (let of = wanted; of !== undefined; of = wanted) {
      try {
        const known = await made(of);
        if (wanted !== of) continue;
        wanted = undefined;
        if (known) found(of.uri);
      } catch (error) {
        wanted = undefined;
        failed(error);
      }
    }
    running = false;
  };

  return {
    of: (uri, ask, result) => {
      const now = ask.project.bending(result);
      if (now.state === 'nothing') return { kind: 'nothing to plan' };
      if (now.state === 'planned') {
        const { possible, brake, steps } = now.planned.plan;
        if (!possible) return { kind: 'blocked' };
        return {
          kind: 'planned',
          brake: brake.name,
          steps: steps.map(({ bends, fromShare, toShare }) => ({ bends, from: fromShare, to: toShare })),
        };
      }
      if (wanted?.result.blank.blank !== result.blank.blank) wanted = { uri, ask, result };
      if (!running) void run();
      return undefined;
    },
  };
};
