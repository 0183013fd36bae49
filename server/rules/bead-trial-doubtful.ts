import { beadFeature, byStatement, onTheRoller, rolled, writtenBead } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

const tried = (width: string, mark: string): string =>
  onTheRoller(`trial strip_a {
  sheet crs_18
  strip 4 by 6 to 1/64
  beaded half_round_3_8 passes 2
  measured width ${width} to 1/64
}
panel floor {
  sheet crs_18
  outline rectangle 36 by 24
  bead rib { die half_round_3_8  up  line from (8, 4) to (28, 4) }${mark}
}`);

export const beadTrialDoubtful: Rule = {
  name: 'bead/trial-doubtful',
  severity: 'warning',
  what: 'The trial strip that says how much a bead draws in can’t be right: it came out wider than it was cut, or narrower than the whole bead could make it.',
  why: 'The sheet to cut is reckoned from it. Measure the strip again, across the bead, and the die; look for a slip in what was typed.',
  example: tried('4 1/8', ' // warning: bead/trial-doubtful'),
  cure: tried('3 63/64', ''),
  source: 'Plane geometry: nothing less than none and nothing more than all that the bead needs can draw in.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    const said = new Set<string>();
    return byStatement(ready.beads.beads).flatMap((copies) => {
      const [bead] = copies;
      const share = bead.forming?.formed.share;
      if (share?.doubt === undefined || said.has(share.doubt)) return nothingSaid;
      said.add(share.doubt);
      const message = `${share.doubt}. Until then ${bead.die.name} is reckoned to draw in ${share.share > 0.5 ? 'all that its beads need' : 'nothing'}`;
      const span = writtenBead(ready.part, bead.id)?.die?.span ?? bead.pathSpan;
      return [speak(subject, beadTrialDoubtful, span, message, { features: copies.map(({ id }) => beadFeature(id)) })];
    });
  },
};
