/** Where leaf and sheet are while a step is played. */
import type { BendingMotion } from '../../../server/lsp/protocol.js';

export interface Pose {
  /** Turn of the leaf, rad. */
  readonly leaf: number;
  /** Turn of the sheet that it swings, rad. */
  readonly sheet: number;
  /** How much of the bend is formed, 0 … 1. */
  readonly formed: number;
}
/** The pose at a share of the step: the leaf goes up with the sheet, rests a moment, and goes back while the sheet springs to where it stays. */
export const poseAt = ({ from, set, rests }: BendingMotion, share: number, stopped: boolean): Pose => {
  // A bend that is stopped is shown as far as it goes.
  const last = stopped ? rests : set;
  const up = stopped ? 1 : 0.6;
  if (share <= up) {
    const turn = from + (last - from) * eased(share / up);
    return { leaf: turn, sheet: turn, formed: Math.min(1, turn / set) };
  }
  const back = Math.max(0, (share - 0.68) / 0.32);
  const sprung = Math.min(1, back * 4);
  return { leaf: set * (1 - eased(back)), sheet: set + (rests - set) * sprung, formed: 1 };
};
const eased = (share: number): number => share * share * (3 - 2 * share);
