import { byStatement, onAPanel, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { lengthTolerance, nothingSaid, speak } from './subject.js';

export const dimpleTooDeep: Rule = {
  name: 'dimple/too-deep',
  severity: 'warning',
  what: 'The rim of a hole is pressed deeper than half the hole’s diameter.',
  why: 'The edge of the hole has to stretch to a larger circle as it goes over; beyond this depth it splits.',
  example: onAPanel('dimple 1/2 up depth 3/8 at (12, 12) // warning: dimple/too-deep'),
  cure: onAPanel('dimple 1/2 up depth 1/4 at (12, 12)'),
  source: 'Sheet-metal design guidelines, npd-solutions.com (DRM Associates): depth of a dimple at most half its inside diameter.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return byStatement(ready.part.dimples).flatMap((copies) => {
      const [dimple] = copies;
      if (dimple.depth === undefined || dimple.depth <= dimple.diameter / 2 + lengthTolerance) return nothingSaid;
      const [has, most] = subject.sayBoth(dimple.depth, dimple.diameter / 2);
      const message = `a rim ${has} deep is more than half the hole’s diameter (${most}) and splits: press it ${subject.write(dimple.diameter / 2, 'down')} deep at most, or cut a larger hole`;
      const features = copies.map(({ id }) => `cut:${id}`);
      return [speak(subject, dimpleTooDeep, dimple.span, message, { features })];
    });
  },
};
