import { ductility, FORMING_MARGIN, formingLimitOf, stretchLimit } from '../trade/forming.js';
import { beadFeature, byStatement, onAPanel, onTheRoller, rolled, writtenBead } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

const percent = (strain: number): string => `${Math.round(strain * 1000) / 10} %`;
const deep = 'die deep_round { round  width 3/8  depth 3/16 }\n\n';

export const beadStrainsTooMuch: Rule = {
  name: 'bead/strains-too-much',
  severity: 'warning',
  what: 'Rolling the bead to its full depth asks more stretch of the sheet than the metal bears: on the average more than half its elongation, or than the forming limit of low-carbon steel less a margin of 10 %; or at the tightest radius more than its whole elongation.',
  why: 'The sheet necks and splits along the crown, at the ends first. Take a shallower or rounder die, a softer sheet, or leave the ends open so that more sheet can draw in. What draws in counts as the trial or common practice has it.',
  example: onTheRoller(
    `${deep}panel floor {\n  sheet hard_18\n  outline rectangle 36 by 24\n  bead rib { die deep_round  up  line from (8, 4) to (28, 4) } // warning: bead/strains-too-much\n}`,
  ).replace(
    '\nroller',
    '\nmaterial half_hard { density 7850 kg/m3  elongation 8 % }\nsheet hard_18 { material half_hard  thickness 0.048  bend radius 1/16 k 0.42 }\nroller',
  ),
  cure: onAPanel('bead rib { die half_round_3_8  up  line from (8, 4) to (28, 4) }'),
  source:
    'Half the elongation: common practice, no source. Forming limit: Keeler and Brazier, constants from memory, low-carbon steel up to about 3.2 mm.',
  check: (subject) => {
    const ready = rolled(subject);
    const material = ready?.sheet.material;
    if (ready === undefined || material === undefined) return nothingSaid;
    const metal = ductility(material);
    const limit = stretchLimit(metal);
    const forming = formingLimitOf(metal, ready.sheet.thickness);
    return byStatement(ready.beads.beads).flatMap((copies) => {
      const [bead] = copies;
      const asked = bead.forming;
      if (asked === undefined) return nothingSaid;
      const faults = [
        ...(limit !== undefined && asked.strain > limit.working
          ? [
              `${percent(asked.strain)} on the average, and ${percent(limit.working)} is as much as ${material.name} should be asked (${limit.source})`,
            ]
          : forming !== undefined && asked.strain > forming - FORMING_MARGIN
            ? [`${percent(asked.strain)} on the average, within ${percent(FORMING_MARGIN)} of the forming limit of ${percent(forming)}`]
            : []),
        ...(metal.elongation !== undefined && asked.peak > metal.elongation
          ? [`${percent(asked.peak)} at its tightest radius, and the elongation is ${percent(metal.elongation)} (${metal.source})`]
          : []),
      ];
      if (faults.length === 0) return nothingSaid;
      const message = `${bead.id} stretches the sheet ${faults.join('; and ')}: take a shallower or rounder die, or a softer sheet`;
      const span = writtenBead(ready.part, bead.id)?.die?.span ?? bead.pathSpan;
      return [speak(subject, beadStrainsTooMuch, span, message, { features: copies.map(({ id }) => beadFeature(id)) })];
    });
  },
};
