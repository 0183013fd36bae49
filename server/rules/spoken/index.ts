/** Rules that the rooms which read and lay out speak themselves, described for the manual and for `explain`. */
import type { Rule } from '../rule.js';
import { beadRules } from './bead.js';
import { bendRules } from './bend.js';
import { checkRules } from './check.js';
import { cornerRules } from './corners.js';
import { edgeRules } from './edge.js';
import { foldRules } from './fold.js';
import { nameRules } from './name.js';
import { numberRules } from './number.js';
import { shapeRules } from './shape.js';
import { stockRules } from './stock.js';
import { textRules } from './text.js';
import { trialRules } from './trial.js';
import { unitRules } from './unit.js';

export const spokenElsewhere: readonly Rule[] = [
  ...textRules,
  ...numberRules,
  ...unitRules,
  ...nameRules,
  ...shapeRules,
  ...beadRules,
  ...bendRules,
  ...cornerRules,
  ...foldRules,
  ...edgeRules,
  ...trialRules,
  ...stockRules,
  ...checkRules,
];
