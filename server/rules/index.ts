/**
 * What the program has to say about a part, one rule to a file. Rules with a `check` judge a part that is laid out against its own shop; the others are
 * spoken by the rooms that read and lay out, and are described here so that the manual is whole. A rule never draws, prints, or changes anything, and
 * a rule that needs a machine says nothing when the shop has none.
 */
import type { Finding } from '../model/finding.js';
import type { Cut } from '../model/part.js';
import { beadBowsAnEdge } from './bead-bows-an-edge.js';
import { beadCannotBeLaidOut } from './bead-cannot-be-laid-out.js';
import { beadCrossesABend } from './bead-crosses-a-bend.js';
import { beadOutOfReach, beadReachedOnceRolled } from './bead-out-of-reach.js';
import { beadStrainsTooMuch } from './bead-strains-too-much.js';
import { beadTooDeepForOnePass } from './bead-too-deep-for-one-pass.js';
import { beadCrossesAHole, beadTooNearABend, beadTooNearAHole, beadTooNearAnEdge, beadTooNearAnother } from './bead-too-near.js';
import { beadTrialDoubtful } from './bead-trial-doubtful.js';
import { beadTurnTooTight } from './bead-turn-too-tight.js';
import { bendGrainAlong } from './bend-grain-along.js';
import { bendHoleTooNear } from './bend-hole-too-near.js';
import { bendRadiusTooTight } from './bend-radius-too-tight.js';
import { bendSlotTooNear } from './bend-slot-too-near.js';
import { brakeBendTooLong } from './brake-bend-too-long.js';
import { brakeFingersDoNotFit, brakeFingersTooShallow, brakeWantsFingers } from './brake-between-walls.js';
import { blockedBends } from './brake-fit.js';
import { brakeFlangeTooShort } from './brake-flange-too-short.js';
import { brakeJawTooNarrow, brakeOrderNotFound, brakeTooLittleToHold } from './brake-held.js';
import { brakeStrikes } from './brake-strikes.js';
import { brakeTooThick } from './brake-too-thick.js';
import { brakeTurnTooGreat } from './brake-turn-too-great.js';
import { breakCrossesABead, breakHasNoDiagonals, breakOverAHole } from './break-on-its-way.js';
import { cornerNotchTooSmall } from './corner-notch-too-small.js';
import { cutsInPlace } from './cuts-in-place.js';
import { dimpleTooDeep } from './dimple-too-deep.js';
import { dimpleTooNear } from './dimple-too-near.js';
import { hemCurlTooNearABend, hemCurlTooTight } from './hem-curl.js';
import { hemTooShallow } from './hem-too-shallow.js';
import { hemTeardropNeeded, hemTooTight } from './hem-too-tight.js';
import { holeCrossesABend } from './hole-crosses-a-bend.js';
import { holeOutsideItsFace } from './hole-outside-its-face.js';
import { holeTooNearAnEdge } from './hole-too-near-an-edge.js';
import { holeTooNearAnother } from './hole-too-near-another.js';
import { holeTooSmall } from './hole-too-small.js';
import { loadBeyondTheSums } from './load-beyond-the-sums.js';
import { loadNotReckoned } from './load-not-reckoned.js';
import { rollerTooThick } from './roller-too-thick.js';
import type { PlannedQuestion, Question, Rule, Subject } from './rule.js';
import { shapeMissing } from './shape-missing.js';
import { sheetBlankTooLarge } from './sheet-blank-too-large.js';
import { sheetMissing } from './sheet-missing.js';
import { spokenElsewhere } from './spoken/index.js';
import { laidOut, nothingSaid } from './subject.js';
import { tipNarrowerThanItsBend } from './tip-narrower-than-its-bend.js';
import { tipStrainsTooMuch } from './tip-strains-too-much.js';

export type { Question, Rule } from './rule.js';

/** Rules that judge a laid-out part. */
const checked: readonly Rule[] = [
  beadBowsAnEdge,
  beadCannotBeLaidOut,
  beadCrossesABend,
  beadCrossesAHole,
  beadOutOfReach,
  beadReachedOnceRolled,
  beadStrainsTooMuch,
  beadTooDeepForOnePass,
  beadTooNearABend,
  beadTooNearAHole,
  beadTooNearAnEdge,
  beadTooNearAnother,
  beadTrialDoubtful,
  beadTurnTooTight,
  bendGrainAlong,
  bendHoleTooNear,
  bendRadiusTooTight,
  bendSlotTooNear,
  brakeBendTooLong,
  brakeFlangeTooShort,
  brakeTooThick,
  brakeTurnTooGreat,
  breakCrossesABead,
  breakHasNoDiagonals,
  breakOverAHole,
  cornerNotchTooSmall,
  dimpleTooDeep,
  dimpleTooNear,
  hemCurlTooNearABend,
  hemCurlTooTight,
  hemTeardropNeeded,
  hemTooShallow,
  hemTooTight,
  holeCrossesABend,
  holeOutsideItsFace,
  holeTooNearAnEdge,
  holeTooNearAnother,
  holeTooSmall,
  loadBeyondTheSums,
  loadNotReckoned,
  rollerTooThick,
  shapeMissing,
  sheetBlankTooLarge,
  sheetMissing,
  tipNarrowerThanItsBend,
  tipStrainsTooMuch,
];

/** Rules that judge a plan of bending. */
const checkedOnPlans: readonly Rule[] = [
  brakeBendTooLong,
  brakeFingersDoNotFit,
  brakeFingersTooShallow,
  brakeJawTooNarrow,
  brakeStrikes,
  brakeTooLittleToHold,
  brakeOrderNotFound,
  brakeTooThick,
  brakeTurnTooGreat,
  brakeWantsFingers,
];

/** Every rule the program can speak, by name. */
export const rules: readonly Rule[] = [...new Set([...checked, ...checkedOnPlans, ...spokenElsewhere])].sort((a, b) =>
  a.name < b.name ? -1 : 1,
);

const byName: ReadonlyMap<string, Rule> = new Map(rules.map((rule) => [rule.name, rule]));

export const ruleNamed = (name: string): Rule | undefined => byName.get(name);

/** All that the rules find in one part; spans counted from the start of the part. */
export const judge = (question: Question): readonly Finding[] => {
  const ready = laidOut(question);
  const cuts = ready === undefined ? [] : cutsInPlace(ready.blank);
  let written: ReadonlyMap<string, Cut> | undefined;
  const subject: Subject = {
    ...question,
    cuts,
    written: (id) => {
      written ??= new Map(ready?.part.cuts.map((cut) => [cut.id, cut]));
      return written.get(id);
    },
    blocked: ready === undefined ? [] : blockedBends(ready),
  };
  let found: readonly Finding[] = nothingSaid;
  for (const { check } of checked) {
    const said = check?.(subject) ?? nothingSaid;
    // Nearly every part has nothing wrong with it: no list is made until a rule speaks.
    if (said.length > 0) found = found.length === 0 ? said : [...found, ...said];
  }
  return found;
};

/** What the rules say of the plan of a part, each told once: what the other rules said of its bends already is left out. */
export const judgePlan = (question: Omit<PlannedQuestion, 'blocked'>): readonly Finding[] => {
  const ready = laidOut(question);
  if (ready === undefined) return nothingSaid;
  const subject: PlannedQuestion = { ...question, blocked: blockedBends(ready) };
  return checkedOnPlans.flatMap(({ checkPlan }) => checkPlan?.(subject) ?? nothingSaid);
};
