import { onTheBench } from './bench.js';
import type { Rule } from './rule.js';
import { bendFeature, cutFeature, laidOut, nothingSaid, speak } from './subject.js';

export const holeCrossesABend: Rule = {
  name: 'hole/crosses-a-bend',
  severity: 'error',
  what: 'A hole, slot or cut-out reaches into the strip of sheet that a bend uses up.',
  why: 'Metal in the bend stretches on the outside and is squeezed on the inside: a hole there comes out oval and the bend kinks at it. Move the hole, or cut it after bending.',
  example: onTheBench(`panel tray {
  sheet crs_18
  outline rectangle 6 by 4
  edge top { flange 1 up }
  hole 1/4 at (3, 3.9) // error: hole/crosses-a-bend
}`),
  cure: onTheBench(`panel tray {
  sheet crs_18
  outline rectangle 6 by 4
  edge top { flange 1 up }
  hole 1/4 at (3, 3 1/2)
}`),
  source: 'Common practice, no source.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready === undefined || subject.cuts.length === 0) return nothingSaid;
    return subject.cuts.flatMap(({ cut, crosses }) => {
      if (crosses === undefined) return nothingSaid;
      const span = subject.written(cut.id)?.atSpan ?? cut.span;
      const message = `this cut runs into the bend ${crosses.id}, which uses up ${subject.say(crosses.allowance)} of sheet: move it clear, or cut it after bending`;
      return [speak(subject, holeCrossesABend, span, message, { features: [cutFeature(cut), bendFeature(crosses)] })];
    });
  },
};
