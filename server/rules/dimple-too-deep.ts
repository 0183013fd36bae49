import { byStatement, onAPanel, rolled } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

export const dimpleTooDeep: Rule = {
  name: 'dimple/too-deep',
  severity: 'warning',
  what: 'The rim of a hole is pressed deeper than half its inside diameter, or stretches by more than half of what the metal bears.',
  why: 'The edge of the hole has to stretch to a larger circle as it goes over; beyond this depth it splits.',
  example: onAPanel('dimple 1/2 up depth 1/2 at (12, 12) // warning: dimple/too-deep'),
  cure: onAPanel('dimple 1 up depth 1/8 at (12, 12)'),
  source:
    'Sheet-metal design guidelines, npd-solutions.com (DRM Associates): depth of a dimple at most half its inside diameter. Half the elongation: common practice, no source.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return byStatement(ready.beads.dimples).flatMap((copies) => {
      const [{ work, span }] = copies;
      if (work === undefined || !(work.tooDeep || work.verdict === 'over')) return nothingSaid;
      const [has, most] = subject.sayBoth(work.depth, work.deepest);
      const why = work.tooDeep
        ? `a rim ${has} deep is more than half its inside diameter (${most})`
        : `the rim stretches by ${Math.round(work.strain * 1000) / 10} %, and ${Math.round((work.limit ?? 0) * 1000) / 10} % is half of what this metal stretches before it breaks`;
      const features = copies.map(({ id }) => `cut:${id}`);
      return [speak(subject, dimpleTooDeep, span, `${why}: press it less deep, or cut a larger hole`, { features })];
    });
  },
};
