import type { Part } from '../model/part.js';
import type { Rule } from './rule.js';
import { speak } from './subject.js';

/** What is still wanted before a part has any shape, in words; undefined when nothing is. */
const wanting = (part: Part): string | undefined => {
  if (part.kind === 'panel')
    return part.outline === undefined ? 'has no outline yet: write `outline rectangle WIDTH by HEIGHT`' : undefined;
  if (part.kind !== 'section') return undefined;
  const hasLegs = part.steps.length > 0;
  if (part.length === undefined)
    return hasLegs
      ? 'does not say how long it is: write `length LENGTH`'
      : 'has neither a length nor legs yet: write `length LENGTH`, then `leg LENGTH`';
  return hasLegs ? undefined : 'has no legs yet: write `leg LENGTH`, then `turn up 90` and the next leg';
};

export const shapeMissing: Rule = {
  name: 'shape/missing',
  severity: 'error',
  what: 'A panel has no outline, or a section no length or no legs.',
  why: 'There is nothing to lay out until it has.',
  example: `units inch
sheet crs_18 { thickness 0.048  bend radius 1/16 k 0.42 }

panel lid { // error: shape/missing
  sheet crs_18
}
`,
  cure: `units inch
sheet crs_18 { thickness 0.048  bend radius 1/16 k 0.42 }

panel lid {
  sheet crs_18
  outline rectangle 12 by 8
}
`,
  source: 'The language.',
  check: (subject) => {
    const { part } = subject;
    const want = part.broken ? undefined : wanting(part);
    return want === undefined ? [] : [speak(subject, shapeMissing, part.nameSpan, `${part.name} ${want}`)];
  },
};
