import { onTheRoller, rolled } from './beads-asked.js';
import { thickestTaken } from './brake-fit.js';
import type { Rule } from './rule.js';
import { lengthTolerance, nothingSaid, speak } from './subject.js';

const rib = (sheet: string, mark: string): string =>
  onTheRoller(
    `sheet crs_12 { material mild_steel  thickness 12 ga  bend radius 1/8 k 0.42 }\n\npanel floor {\n  sheet ${sheet}${mark}\n  outline rectangle 36 by 24\n  bead rib { die half_round_3_8  up  line from (8, 4) to (28, 4) }\n}`,
  );

export const rollerTooThick: Rule = {
  name: 'roller/too-thick',
  severity: 'error',
  what: 'The sheet is thicker than every bead roller of the shop is rated for. For another metal than the one in the rating, thickness is scaled by the square root of the two tensile strengths (or yields) where both are written; otherwise nothing is said.',
  why: 'The shafts spring apart: the bead stays shallow in the middle, and the frame or the gears may give.',
  example: rib('crs_12', ' // error: roller/too-thick'),
  cure: rib('crs_18', ''),
  source: 'The roller’s own `thickest`; scaling from the plastic bending moment of a rectangular section, S·T²/4 per unit of length.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined || ready.part.rollers.length === 0) return nothingSaid;
    if (ready.beads.beads.length === 0 && ready.beads.tips.length === 0) return nothingSaid;
    const taken = ready.part.rollers.map((roller) => ({ roller, takes: thickestTaken(roller.thickest, ready.sheet) }));
    if (taken.some(({ takes }) => takes === undefined || ready.sheet.thickness <= takes + lengthTolerance)) return nothingSaid;
    const best = [...taken].sort((a, b) => (b.takes ?? 0) - (a.takes ?? 0))[0];
    if (best?.takes === undefined) return nothingSaid;
    const [takes, has] = subject.sayBoth(best.takes, ready.sheet.thickness);
    const of = best.takes === best.roller.thickest?.thickness ? '' : ' of this metal';
    return [
      speak(
        subject,
        rollerTooThick,
        ready.sheetSpan,
        `${best.roller.name} takes ${takes}${of}; the sheet is ${has}: take a thinner sheet, or have it beaded elsewhere`,
      ),
    ];
  },
};
