import { hemsOf, leastDepth, namedSteps } from './hem-steps.js';
import type { Rule } from './rule.js';
import { bendFeature, laidOut, lengthTolerance, nothingSaid, speak } from './subject.js';

const lid = (hem: string): string => `units millimetre

sheet crs_12 { thickness 1.2  bend radius 1.2 k 0.42 }

panel lid {
  sheet crs_12
  outline rectangle 200 by 100
  edge top { ${hem}
}
`;

export const hemTooShallow: Rule = {
  name: 'hem/too-shallow',
  severity: 'warning',
  what: 'The return of a hem is narrower than four thicknesses, or than the 5 mm that can be worked by hand.',
  why: 'The brake gets no hold of a narrower return, and the mallet drives it down in waves. The depth is counted from the outermost of the fold, so an open hem or a teardrop needs its radius besides.',
  example: lid('hem 4 closed down } // warning: hem/too-shallow'),
  cure: lid('hem 5 closed down }'),
  source: 'Common practice, no source.',
  check: (subject) => {
    const ready = laidOut(subject);
    if (ready === undefined) return nothingSaid;
    return hemsOf(ready).flatMap(({ step, bends }) => {
      const least = leastDepth(step.style, ready.blank.thickness);
      if (step.depth >= least - lengthTolerance) return nothingSaid;
      const [has, wants] = subject.sayBoth(step.depth, least);
      const deep = subject.write(least, 'up');
      const { name, several } = namedSteps('hem', bends);
      return [
        speak(
          subject,
          hemTooShallow,
          step.depthSpan,
          `${name} ${several ? 'are' : 'is'} ${has} deep; folded by hand a hem here wants ${wants} or more`,
          {
            features: bends.map(bendFeature),
            fixes: [{ title: `Make it ${deep} deep`, edits: [{ span: step.depthSpan, text: deep }] }],
          },
        ),
      ];
    });
  },
};
