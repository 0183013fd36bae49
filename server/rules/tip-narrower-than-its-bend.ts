import { onAPanel, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

export const tipNarrowerThanItsBend: Rule = {
  name: 'tip/narrower-than-its-bend',
  severity: 'error',
  what: 'A tipped edge is so narrow that its bend alone takes up all of it.',
  why: 'Nothing is left to stand up. The width runs from the outside of the bend to the cut edge.',
  example: onAPanel('tip top width 1/16 up // error: tip/narrower-than-its-bend'),
  cure: onAPanel('tip top width 1/4 up'),
  source: 'Plane geometry of a bend.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return ready.beads.tips.flatMap((tip) => {
      const edge = tip.edges.find(({ work }) => work === undefined);
      if (edge === undefined) return nothingSaid;
      const written = ready.part.tips.find(({ id }) => id === tip.id);
      const message = `the bend alone takes up the whole ${subject.say(tip.width)} of the tip on ${edge.edge}: make it wider, or take a die with a sharper nose`;
      return [speak(subject, tipNarrowerThanItsBend, written?.width.span ?? tip.span, message, { features: [`tip:${tip.id}`] })];
    });
  },
};
