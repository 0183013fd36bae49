/** A die in a sheet: how wide its mark is, what it takes of the sheet, how many passes. */
import type { Panel } from '../model/part.js';
import type { Die, Sheet, Trial } from '../model/shop.js';
import { beadSection, bendingStrain } from '../trade/bead-sections.js';
import { measuredDrawIn, passesTo, USUAL_DRAW_IN_SHARE } from '../trade/forming.js';
import type { BeadForming } from './types.js';

export interface Mark {
  readonly width: number;
  readonly depth: number;
  readonly forming: BeadForming | undefined;
}

/** What a die leaves in the panel's sheet; undefined when not even the width of its mark is known. */
export const markOf = (die: Die, sheet: Sheet, trials: Panel['trials']): Mark | undefined => {
  const answer = beadSection(die, sheet.thickness);
  if (!answer.ok) return die.width === undefined ? undefined : { width: die.width, depth: die.depth ?? 0, forming: undefined };
  const { section } = answer;
  const { share, shareFrom } = shareOf(die, sheet, trials);
  const passes = passesTo(section.depth, die.perPass, sheet.thickness);
  const strain = (1 - share) * section.meanStrain;
  return {
    width: section.width,
    depth: section.depth,
    forming: {
      developed: section.developed,
      width: section.width,
      strainFull: section.meanStrain,
      strain,
      peak: strain + bendingStrain(section),
      share,
      shareFrom,
      passes: Array.from({ length: passes.count }, (_, i) => passes.each * (i + 1)),
    },
  };
};

const shareOf = (die: Die, sheet: Sheet, trials: readonly Trial[]): { readonly share: number; readonly shareFrom: string } => {
  for (const trial of trials) {
    const measured = trialShare(trial, die, sheet);
    if (measured !== undefined) return { share: measured, shareFrom: `measured on the trial strip ${trial.name}` };
  }
  return { share: USUAL_DRAW_IN_SHARE, shareFrom: 'common practice, no source: anything from none to all occurs' };
};

/** The share that a bead right across a strip took in of what it needed; undefined when the strip was of another sheet or die, or not measured. */
const trialShare = (trial: Trial, die: Die, sheet: Sheet): number | undefined => {
  const { beaded, strip } = trial;
  if (trial.sheet?.name !== sheet.name || beaded?.die?.name !== die.name || strip === undefined) return undefined;
  // The bead draws in the size that lies across it: the strip's width, or its length where the bead ran across that.
  const [before, after] = trial.width === undefined ? [strip.length, trial.length] : [strip.width, trial.width];
  const section = beadSection(die, sheet.thickness);
  if (before === undefined || after === undefined || !section.ok) return undefined;
  const share = measuredDrawIn(before, after.value, section.section, after.finest);
  return share === undefined ? undefined : Math.min(1, Math.max(0, share.share));
};
