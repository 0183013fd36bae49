/** How far to set the leaf so that a bend comes out right. */
import type { BendLine } from '../blank/types.js';
import type { Brake, Sheet, Trial } from '../model/shop.js';
import { turnToSet } from '../trade/springback.js';
import type { Operation } from './pieces.js';

export interface TurnToSet {
  readonly set: number;
  readonly by: 'trial' | 'formula' | 'not known';
  readonly trial: string | undefined;
}

/** As far as a hem is turned on the leaf before it is pressed: short of a nose ground to 45°. Common practice, no source. */
const HEM_TURN = (130 * Math.PI) / 180;
/** And what it needs at the least, so that pressing folds it over and does not crush it. Common practice, no source. */
export const LEAST_HEM_TURN = (120 * Math.PI) / 180;

const SAME_RADIUS = 0.01;

/** The strip that bears best on a bend: of this sheet, on this brake, about this radius, the nearest turn. */
const nearestTrial = (trials: readonly Trial[], sheet: Sheet, brake: Brake, bend: BendLine, turn: number): Trial | undefined =>
  trials
    .filter((trial) => {
      if (trial.sheet?.name !== sheet.name || trial.sheet.file !== sheet.file || trial.bent === undefined || trial.angle === undefined)
        return false;
      if (trial.bent.brake !== undefined && trial.bent.brake !== brake.name) return false;
      const radius = trial.bent.radius ?? sheet.bendRadius;
      return (radius === undefined || Math.abs(radius - bend.radius) <= SAME_RADIUS) && trial.angle.turn > 0 && trial.bent.turnSet > 0;
    })
    .sort((a, b) => Math.abs((a.angle?.turn ?? 0) - turn) - Math.abs((b.angle?.turn ?? 0) - turn))[0];

/**
 * The turn to set for a wanted one. A trial's own ratio of set to measured turn counts; else the elastic-plastic formula, where the metal's yield and modulus
 * are known; else the turn itself.
 *
 * @param turn wanted, rad
 */
const turnOf = (bend: BendLine, turn: number, sheet: Sheet, brake: Brake, trials: readonly Trial[]): TurnToSet => {
  const trial = nearestTrial(trials, sheet, brake, bend, turn);
  if (trial?.bent !== undefined && trial.angle !== undefined)
    return { set: (turn * trial.bent.turnSet) / trial.angle.turn, by: 'trial', trial: trial.name };
  const { material, thickness } = sheet;
  if (material?.yield !== undefined && material.modulus !== undefined) {
    const sprung = turnToSet({ yield: material.yield, modulus: material.modulus }, bend.radius, turn, thickness);
    if (sprung !== undefined) return { set: sprung.setTurn, by: 'formula', trial: undefined };
  }
  return { set: turn, by: 'not known', trial: undefined };
};

/** The leaf's turn at the beginning and at the end of an operation. */
export const turnsOf = (
  operation: Operation,
  bend: BendLine,
  sheet: Sheet,
  brake: Brake,
  trials: readonly Trial[],
): { readonly from: number; readonly wanted: number; readonly set: TurnToSet } => {
  if (operation.make === 'hem') {
    const turn = Math.min(HEM_TURN, bend.turn, brake.greatestTurn ?? HEM_TURN);
    return { from: 0, wanted: turn, set: { set: turn, by: 'formula', trial: undefined } };
  }
  const wanted = bend.turn * operation.toShare;
  return { from: bend.turn * operation.fromShare, wanted, set: turnOf(bend, wanted, sheet, brake, trials) };
};
