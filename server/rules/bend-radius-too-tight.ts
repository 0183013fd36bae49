import type { BendLine } from '../blank/types.js';
import type { Part } from '../model/part.js';
import { tightestRadius } from '../trade/radii.js';
import type { Rule } from './rule.js';
import { bendFeature, laidOut, nothingSaid, speak } from './subject.js';

/**
 * Radii come in nominal sizes, of tools and of tables alike: 1/16 in (1.5875 mm) and 1.6 mm are one radius to the trade. A shortfall below this
 * is no shortfall (mm).
 */
const nominal = 0.05;

/** A bend line less than 45° from the grain counts as along it (common practice, no source). Grain that is not stated counts as across. */
const runsAlongTheGrain = (part: Part, bend: BendLine): boolean => {
  const grain = part.grain?.value;
  if (grain !== 'x' && grain !== 'y') return false;
  const dx = Math.abs(bend.to.x - bend.from.x);
  const dy = Math.abs(bend.to.y - bend.from.y);
  return grain === 'x' ? dx > dy : dy > dx;
};

export const bendRadiusTooTight: Rule = {
  name: 'bend/radius-too-tight',
  severity: 'error',
  what: 'The inside radius is tighter than the metal takes. The material’s own `tightest` lines decide; a steel without any, but with its tensile strength, is held against DIN 6935, and then it is a warning. A bend line running with the grain wants the larger radius.',
  why: 'The outside of the bend cracks, at once or later. Use a larger radius, turn the part so that the bend lies across the grain, or take a softer sheet.',
  example: `units millimetre

material half_hard { density 2700 kg/m3  tightest radius 3 across to thickness 2  tightest radius 4 along to thickness 2 }
sheet al_15 { material half_hard  thickness 1.5  bend radius 3 k 0.42 }

panel shelf {
  sheet al_15
  outline rectangle 200 by 100
  grain along y
  edge top { flange 20 up 90 radius 2 } // error: bend/radius-too-tight
}
`,
  cure: `units millimetre

material half_hard { density 2700 kg/m3  tightest radius 3 across to thickness 2  tightest radius 4 along to thickness 2 }
sheet al_15 { material half_hard  thickness 1.5  bend radius 3 k 0.42 }

panel shelf {
  sheet al_15
  outline rectangle 200 by 100
  grain along y
  edge top { flange 20 up 90 radius 3 }
}
`,
  source: 'The material’s own table; else DIN 6935:1975-10, smallest permissible bend radii.',
  check: (subject) => {
    const ready = laidOut(subject);
    const material = ready?.sheet.material;
    const own = material !== undefined && material.tightest.length > 0;
    if (ready === undefined || material === undefined) return [];
    return ready.blank.bends.flatMap((bend) => {
      const line = runsAlongTheGrain(ready.part, bend) ? 'along' : 'across';
      const { thickness } = ready.blank;
      const least = tightestRadius(material, thickness, line, bend.turn);
      if (least === undefined || bend.radius > least.radius - nominal) return nothingSaid;
      // What the shop wrote of its own metal is certain; the published table is cautious for soft drawing steels.
      const severity = own ? 'error' : 'warning';
      const [has, wants] = subject.sayBoth(bend.radius, least.radius);
      const message = `the bend ${bend.id} has an inside radius of ${has}; ${line} the grain this metal wants ${wants} or more (${least.source}): write \`radius ${subject.write(least.radius - nominal / 2, 'up')}\``;
      return [speak(subject, bendRadiusTooTight, bend.span, message, { features: [bendFeature(bend)], severity })];
    });
  },
};
