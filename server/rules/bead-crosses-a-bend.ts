import { beadFeature, byStatement, onAPanel, placeWords, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

export const beadCrossesABend: Rule = {
  name: 'bead/crosses-a-bend',
  severity: 'error',
  what: 'A bead runs into the sheet that a bend uses up.',
  why: 'The clamp of the brake flattens the bead, and what is left of it stands in the way of a clean bend. End the bead before the bend.',
  example: onAPanel(
    'edge left { flange 1 up }',
    'bead rib { die half_round_3_8  up  line from (0, 4) to (28, 4) } // error: bead/crosses-a-bend',
  ),
  cure: onAPanel('edge left { flange 1 up }', 'bead rib { die half_round_3_8  up  line from (2, 4) to (28, 4) }'),
  source: 'Common practice, no source.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return byStatement(ready.beads.beads).flatMap((copies) => {
      const crossing = copies.find(({ crossings }) => crossings.length > 0);
      const place = crossing?.crossings[0];
      if (crossing === undefined || place === undefined) return nothingSaid;
      const message = `${crossing.id} runs through the bend ${place.bend} at ${placeWords(subject, ready, place.at)}: beads are rolled before bending, and the clamp would flatten it: end it before the bend`;
      const features = copies.flatMap((bead) => (bead.crossings.length > 0 ? [beadFeature(bead.id)] : []));
      return [speak(subject, beadCrossesABend, crossing.pathSpan, message, { features: [...features, `bend:${place.bend}`] })];
    });
  },
};
