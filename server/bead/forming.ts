/** What a die's bead asks of a panel's sheet: section, draw-in, strain against the metal, passes. */
import type { Die, Sheet, Trial } from '../model/shop.js';
import { type BeadSection, beadSection, type NoSection } from '../trade/bead-sections.js';
import {
  type DrawInShare,
  ductility,
  judgeStrain,
  measuredDrawIn,
  type Passes,
  passesTo,
  type StrainJudgement,
  strainByPass,
  USUAL_DRAW_IN_SHARE,
} from '../trade/forming.js';

export interface ShareUsed {
  readonly share: number; // 0…1
  readonly spread: number;
  /** The trial it was measured on; undefined for the usual share. */
  readonly trial: Trial | undefined;
  /** What was measured lies outside none…full by more than its reading: a sentence. */
  readonly doubt: string | undefined;
  readonly source: string;
}
export interface FormedBead {
  readonly section: BeadSection;
  readonly share: ShareUsed;
  /** Taken in at one crossing: none, as reckoned, all of it. mm. */
  readonly takenIn: { readonly none: 0; readonly used: number; readonly full: number };
  readonly strain: StrainJudgement;
  readonly passes: Passes;
  /** Mean strain that each pass adds, nothing drawn in; undefined when the die makes no section part-way. */
  readonly byPass: readonly number[] | undefined;
}

/** @returns why not, when the die makes no section in this sheet */
export const formedBead = (die: Die, sheet: Sheet, trials: readonly Trial[]): FormedBead | NoSection => {
  const answer = beadSection(die, sheet.thickness);
  if (!answer.ok) return answer.refusal;
  const { section } = answer;
  const share = drawInShare(die, sheet, trials);
  const full = section.developed - section.width;
  const passes = passesTo(section.depth, die.perPass, sheet.thickness);
  const strains = strainByPass(die, sheet.thickness, passes);
  return {
    section,
    share,
    takenIn: { none: 0, used: share.share * full, full },
    strain: judgeStrain(section, ductility(sheet.material ?? { name: '', elongation: undefined, hardening: undefined }), share.share),
    passes,
    byPass: strains?.map((strain, i) => strain - (strains[i - 1] ?? 0)),
  };
};

/**
 * Share of what a bead needs that the sheet beside it gives: from the last strip that was beaded with this die in this sheet and measured across, else the
 * usual share.
 */
export const drawInShare = (die: Die, sheet: Sheet, trials: readonly Trial[]): ShareUsed => {
  for (const trial of [...trials].reverse()) {
    const measured = trialDrawIn(trial, die, sheet);
    if (measured === undefined) continue;
    const share = Math.min(1, Math.max(0, measured.share));
    const doubt = measured.doubtful
      ? `trial ${trial.name} gives a share of ${(measured.share * 100).toFixed(0)} %; nothing below 0 or above 100 % can be: measure the strip again, and the die's width and depth`
      : undefined;
    return { share, spread: measured.spread, trial, doubt, source: `trial ${trial.name}` };
  }
  const source = 'common practice, no source; anything from none to all occurs: try a strip';
  return { share: USUAL_DRAW_IN_SHARE, spread: USUAL_DRAW_IN_SHARE, trial: undefined, doubt: undefined, source };
};

/**
 * What one beaded strip says: its size across the bead as cut (`strip LENGTH by …`), and as read after (`measured width`, or `measured length`). Where the
 * depth was read too, the section is that of the depth really rolled.
 *
 * @returns undefined when the strip is of another sheet or die, was not read, or the die makes no section
 */
export const trialDrawIn = (trial: Trial, die: Die, sheet: Sheet): DrawInShare | undefined => {
  const after = trial.width ?? trial.length;
  if (trial.sheet?.name !== sheet.name || trial.beaded?.die?.name !== die.name) return undefined;
  if (trial.strip === undefined || after === undefined) return undefined;
  const rolled = beadSection(die, sheet.thickness, trial.depth?.value ?? die.depth);
  return rolled.ok ? measuredDrawIn(trial.strip.length, after.value, rolled.section, after.finest, trial.strip.finest) : undefined;
};
