import { onTheBench } from './bench.js';
import { brakeFindings } from './brake-fit.js';
import type { Rule } from './rule.js';

export const brakeFlangeTooShort: Rule = {
  name: 'brake/flange-too-short',
  severity: 'error',
  what: 'A flange, or a leg of a section, is shorter than the least flange of every brake in the shop.',
  why: 'The leaf must bear on the flange from the bend outward; a flange it hardly touches slips, or comes up curved. Make the flange longer, or bend it long and shear it afterwards.',
  example: onTheBench(`panel lid {
  sheet crs_18
  outline rectangle 12 by 8
  edge top { flange 1/8 up } // error: brake/flange-too-short
}`),
  cure: onTheBench(`panel lid {
  sheet crs_18
  outline rectangle 12 by 8
  edge top { flange 3/8 up }
}`),
  source: 'The brake’s own `least flange`. Measure it on the machine.',
  check: (subject) =>
    brakeFindings(subject, brakeFlangeTooShort, 'flange', {
      span: (fault) => fault.reachSpan,
      message: (fault, brake) => {
        const [least, reach] = subject.sayBoth(fault.least, fault.reach);
        return `${brake} grips ${least} or more; the ${fault.lengthSpan === undefined ? 'leg' : 'flange'} reaches ${reach}`;
      },
      fixes: (fault) => {
        if (fault.lengthSpan === undefined) return [];
        const length = subject.write(fault.least, 'up');
        return [{ title: `Make the flange ${length}`, edits: [{ span: fault.lengthSpan, text: length }] }];
      },
    }),
};
