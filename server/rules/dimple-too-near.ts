import { byStatement, onAPanel, placeWords, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { lengthTolerance, nothingSaid, speak } from './subject.js';

export const dimpleTooNear: Rule = {
  name: 'dimple/too-near',
  severity: 'warning',
  what: 'The pressed rim of a hole stands too near to an edge, a bend, a bead, a hole or another rim.',
  why: 'The rim takes its metal from the sheet round it; where there is too little flat sheet, its neighbour is pulled out of shape or the strip between buckles.',
  example: onAPanel('dimple 1 up depth 1/8 at (12, 12), (13 1/4, 12) // warning: dimple/too-near'),
  cure: onAPanel('dimple 1 up depth 1/8 at (12, 12), (15, 12)'),
  source: 'Sheet-metal design guidelines, npd-solutions.com (DRM Associates).',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return byStatement(ready.beads.dimples).flatMap((copies) => {
      const near = copies.flatMap((dimple) =>
        dimple.spacings.flatMap((spacing) => (spacing.found < spacing.wanted - lengthTolerance ? [{ dimple, spacing }] : [])),
      );
      const worst = [...near].sort((a, b) => a.spacing.found - a.spacing.wanted - (b.spacing.found - b.spacing.wanted))[0];
      if (worst === undefined) return nothingSaid;
      const { dimple, spacing } = worst;
      const [has, wants] = subject.sayBoth(spacing.found, spacing.wanted);
      const other = spacing.to === 'edge' ? 'an edge' : spacing.to === 'dimple' ? 'another' : `a ${spacing.to}`;
      const message = `the pressed hole at ${placeWords(subject, ready, dimple.at)} is ${has} from ${other}, and ${wants} is wanted (${spacing.rule}): move one of them by ${subject.write(spacing.wanted - spacing.found, 'up')}`;
      const features = [...new Set(near.map((each) => `cut:${each.dimple.id}`))];
      const cut = subject.written(dimple.id);
      return [speak(subject, dimpleTooNear, cut?.atSpan ?? dimple.span, message, { features })];
    });
  },
};
