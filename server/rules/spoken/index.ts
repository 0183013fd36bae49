/** Rules that the rooms which read and lay out speak themselves, described for the manual and for `explain`. */
import type { Rule } from '../rule.js';

export const spokenElsewhere: readonly Rule[] = [];
