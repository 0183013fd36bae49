import { beadFeature, byStatement, onTheRoller, rolled, writtenBead } from './beads-asked.js';
import type { Rule } from './rule.js';
import { lengthTolerance, nothingSaid, speak } from './subject.js';

/** Thicknesses that one pass may deepen a bead in mild steel. Common practice (2 to 3 T in soft metal), no source. */
const mostThicknesses = 3;

const panel = (die: string, mark: string): string =>
  onTheRoller(
    `die deep_round { round  width 3/4  depth 3/16  ${die} }\n\npanel floor {\n  sheet crs_18\n  outline rectangle 36 by 24\n  bead rib { die deep_round  up  line from (0, 4) to (36, 4)  ends run off }${mark}\n}`,
  );

export const beadTooDeepForOnePass: Rule = {
  name: 'bead/too-deep-for-one-pass',
  severity: 'warning',
  what: 'The die is set to go more than three thicknesses deeper in one pass.',
  why: 'A greedy pass wrinkles the sheet beside the bead and drags it off its line. Go down in several passes; each takes little time.',
  example: panel('per pass 3/16', ' // warning: bead/too-deep-for-one-pass'),
  cure: panel('per pass 1/16', ''),
  source: 'Two to three thicknesses a pass in soft metal: common practice, no source.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    const most = mostThicknesses * ready.sheet.thickness;
    return byStatement(ready.beads.beads).flatMap((copies) => {
      const [bead] = copies;
      const passes = bead.forming?.passes ?? [];
      const deepest = Math.max(0, ...passes.map((depth, i) => depth - (passes[i - 1] ?? 0)));
      if (deepest <= most + lengthTolerance) return nothingSaid;
      const [has, takes] = subject.sayBoth(deepest, most);
      const good = Math.ceil(bead.depth / most - 1e-9);
      const message = `one pass of ${bead.die.name} goes ${has} deeper, and three thicknesses of this sheet are ${takes}: take ${good} passes, \`per pass ${subject.write(bead.depth / good, 'up')}\` at the die`;
      const span = writtenBead(ready.part, bead.id)?.die?.span ?? bead.pathSpan;
      return [speak(subject, beadTooDeepForOnePass, span, message, { features: copies.map(({ id }) => beadFeature(id)) })];
    });
  },
};
