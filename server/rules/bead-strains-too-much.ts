import { ductility, FORMING_MARGIN, formingLimitOf, stretchLimit } from '../trade/forming.js';
import { tightestRadius } from '../trade/radii.js';
import { beadFeature, byStatement, onTheRoller, rolled, writtenBead } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

/** Radii come in nominal sizes: a shortfall below this is none, mm. */
const nominal = 0.05;

const percent = (strain: number): string => `${Math.round(strain * 1000) / 10} %`;
const hard = (depth: string, mark: string): string =>
  onTheRoller(`material half_hard { density 7850 kg/m3  elongation 8 % }
sheet hard_18 { material half_hard  thickness 0.048  bend radius 1/16 k 0.42 }
die long_round { round  width 3/8  depth ${depth} }

panel floor {
  sheet hard_18
  outline rectangle 36 by 24
  bead rib { die long_round  up  line from (0, 4) to (36, 4)  ends run off }${mark}
}`);

export const beadStrainsTooMuch: Rule = {
  name: 'bead/strains-too-much',
  severity: 'warning',
  what: 'Rolling the bead to its full depth asks more stretch of the sheet than the metal bears: on the average more than half its elongation, or than the forming limit of low-carbon steel less a margin of 10 %; or its tightest bend is tighter than the metal takes.',
  why: 'The sheet necks and splits along the crown, at the ends first. Take a shallower or rounder die, a softer sheet, or leave the ends open so that more sheet can draw in. What draws in counts as the trial or common practice has it.',
  example: hard('3/32', ' // warning: bead/strains-too-much'),
  cure: hard('1/32', ''),
  source:
    'Half the elongation: common practice, no source. Forming limit: Keeler and Brazier, constants from memory, low-carbon steel up to about 3.2 mm.',
  check: (subject) => {
    const ready = rolled(subject);
    const material = ready?.sheet.material;
    if (ready === undefined || material === undefined) return nothingSaid;
    const metal = ductility(material);
    const limit = stretchLimit(metal);
    const forming = formingLimitOf(metal, ready.sheet.thickness);
    const tightest = tightestRadius(material, ready.sheet.thickness, 'across', Math.PI / 2);
    return byStatement(ready.beads.beads).flatMap((copies) => {
      const [bead] = copies;
      const asked = bead.forming;
      if (asked === undefined) return nothingSaid;
      // Of the tightest bend in the section: its outer skin stretches by T / (2 R + T).
      const radius = (ready.sheet.thickness * (1 / Math.max(1e-9, asked.peak - asked.strain) - 1)) / 2;
      const faults = [
        ...(limit !== undefined && asked.strain > limit.working
          ? [
              `the sheet ${percent(asked.strain)} on the average, and ${percent(limit.working)} is as much as ${material.name} should be asked (${limit.source})`,
            ]
          : forming !== undefined && asked.strain > forming - FORMING_MARGIN
            ? [
                `the sheet ${percent(asked.strain)} on the average, within ${percent(FORMING_MARGIN)} of the forming limit of ${percent(forming)}`,
              ]
            : []),
        ...(tightest !== undefined && radius < tightest.radius - nominal
          ? [
              `the outer skin round an inside radius of ${subject.say(radius)}, and this metal wants ${subject.say(tightest.radius)} or more (${tightest.source})`,
            ]
          : []),
      ];
      if (faults.length === 0) return nothingSaid;
      const message = `${bead.id} stretches ${faults.join('; and ')}: take a shallower or rounder die, or a softer sheet`;
      const span = writtenBead(ready.part, bead.id)?.die?.span ?? bead.pathSpan;
      return [speak(subject, beadStrainsTooMuch, span, message, { features: copies.map(({ id }) => beadFeature(id)) })];
    });
  },
};
