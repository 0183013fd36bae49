/** A die in a sheet: how wide its mark is, what it takes of the sheet, how many passes. */
import type { Die, Roller, Sheet, Trial } from '../model/shop.js';
import type { NoSection } from '../trade/bead-sections.js';
import { formedBead } from './forming.js';
import type { BeadForming, Words } from './types.js';

export interface Mark {
  readonly width: number;
  readonly depth: number;
  readonly forming: BeadForming | undefined;
  /** Why the die makes no section in this sheet, for the user; undefined when it does. */
  readonly refusal: string | undefined;
}

/** What a die leaves in the panel's sheet; no width when not even that is known. */
export const markOf = (die: Die, sheet: Sheet, trials: readonly Trial[], words: Words): Mark | { readonly refusal: string } => {
  const formed = formedBead(die, sheet, trials);
  if ('at' in formed) {
    const refusal = refusalOf(die, formed, words);
    return die.width === undefined ? { refusal } : { width: die.width, depth: die.depth ?? 0, forming: undefined, refusal };
  }
  const { section, share, strain, passes } = formed;
  return {
    width: section.width,
    depth: section.depth,
    refusal: undefined,
    forming: {
      developed: section.developed,
      width: section.width,
      strainFull: strain.greatest,
      strain: strain.expected,
      peak: strain.peak,
      share: share.share,
      shareFrom: share.source,
      passes: Array.from({ length: passes.count }, (_, i) => passes.each * (i + 1)),
      formed,
    },
  };
};

const refusalOf = (die: Die, { at, why, limit }: NoSection, words: Words): string => {
  if (why === 'no bead') return `die ${die.name} is a ${die.shape} die and rolls no bead: name a round, vee, flat or step die`;
  if (why === 'not said') return `die ${die.name} does not say its ${at}: write \`${at}\` in its braces`;
  const bound = limit === undefined ? '' : `; ${why === 'too great' ? 'at most' : 'at least'} ${words.say(limit)} would do`;
  return `the ${at} of die ${die.name} is ${why} for the rest of it in this sheet${bound}`;
};

/**
 * Thickest sheet of the panel's metal that a roller beads: its rating times the square root of the strengths' ratio.
 * Source: plastic bending moment of a rectangular section, S·T²/4 per unit of length.
 */
export const thickestRolled = ({ thickest }: Roller, { material }: Sheet): number | undefined => {
  const rated = thickest?.material;
  if (thickest === undefined || rated === undefined || material === undefined) return thickest?.thickness;
  if (rated.name === material.name && rated.file === material.file) return thickest.thickness;
  if (rated.tensile !== undefined && material.tensile !== undefined)
    return thickest.thickness * Math.sqrt(rated.tensile / material.tensile);
  if (rated.yield !== undefined && material.yield !== undefined) return thickest.thickness * Math.sqrt(rated.yield / material.yield);
  return undefined;
};
