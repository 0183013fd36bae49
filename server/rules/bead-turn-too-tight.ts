import { beadFeature, byStatement, cornerSpan, onAPanel, placeWords, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { lengthTolerance, nothingSaid, speak } from './subject.js';

export const beadTurnTooTight: Rule = {
  name: 'bead/turn-too-tight',
  severity: 'information',
  what: 'A bead turns more tightly than the sheet can be steered through the die.',
  why: 'The roller takes the straights and stops short of the turn; the turn is then finished by hand, over a rod or a dolly of the radius given, with a light hammer and in small steps.',
  example: onAPanel('bead border { die half_round_3_8  up  rectangle inset 4 corner 1/2 } // information: bead/turn-too-tight'),
  cure: onAPanel('bead border { die half_round_3_8  up  rectangle inset 4 corner 1 }'),
  source: 'The die’s own `tightest turn`; how it is finished: common practice, no source.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return byStatement(ready.beads.beads).flatMap((copies) => {
      const turns = copies.flatMap(({ turns }) => turns);
      const tightest = [...turns].sort((a, b) => a.radius - b.radius)[0];
      const [bead] = copies;
      if (tightest === undefined) return nothingSaid;
      const many = turns.length === 1 ? 'a turn' : `${turns.length} turns`;
      const where = `${turns.length === 1 ? 'at' : 'the first at'} ${placeWords(subject, ready, tightest.at)}`;
      const [has, wants] = subject.sayBoth(tightest.radius, tightest.allowed);
      const round = tightest.radius < lengthTolerance ? 'sharp' : `of ${has} radius`;
      const rod =
        tightest.rod < lengthTolerance ? 'over the corner of a dolly' : `over a rod or dolly of ${subject.say(tightest.rod)} radius`;
      const message = `${many} of ${bead.id}, ${where}, ${turns.length === 1 ? 'is' : 'are'} ${round} and ${bead.die.name} goes round ${wants}: roll up to there and finish by hand ${rod}`;
      return [
        speak(subject, beadTurnTooTight, cornerSpan(ready.part, bead), message, { features: copies.map(({ id }) => beadFeature(id)) }),
      ];
    });
  },
};
