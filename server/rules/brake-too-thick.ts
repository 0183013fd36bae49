import { onTheBench } from './bench.js';
import { brakeFindings } from './brake-fit.js';
import { stuckFindings } from './brake-planned.js';
import type { Rule } from './rule.js';

export const brakeTooThick: Rule = {
  name: 'brake/too-thick',
  severity: 'error',
  what: 'The sheet is thicker than every brake in the shop is rated for. For another metal than the one in the rating, thickness is scaled by the square root of the two tensile strengths (or yields) where both are written; otherwise nothing is said. A rating holds at full length: over a shorter bend it is scaled by the square root of the two lengths, down to a quarter of the brake.',
  why: 'An overloaded leaf springs: the bend comes out rounder in the middle than at the ends, and the brake may stay bent.',
  example: onTheBench(`sheet crs_12 { material mild_steel  thickness 12 ga  size 48 by 96  bend radius 1/8 k 0.42 }

panel foot {
  sheet crs_12 // error: brake/too-thick
  outline rectangle 40 by 4
  edge top { flange 1 up }
}`),
  cure: onTheBench(`panel foot {
  sheet crs_18
  outline rectangle 40 by 4
  edge top { flange 1 up }
}`),
  source: 'The brake’s own `capacity`; scaling from the plastic bending moment of a rectangular section, S·T²/4 per unit of length.',
  check: (subject) =>
    brakeFindings(subject, brakeTooThick, 'thickness', {
      span: (_fault, _blocked, ready) => ready.sheetSpan,
      message: (fault, brake) => {
        const [takes, has] = subject.sayBoth(fault.takes, fault.has);
        return `${brake} takes ${takes}${fault.asRated ? '' : ' of this metal over this length'}; the sheet is ${has}: take a thinner sheet, or have it bent elsewhere`;
      },
    }),
  // Each bend may find a brake of its own here, and the whole part none.
  checkPlan: (question) => stuckFindings(question, brakeTooThick, ({ kind }) => kind === 'thickness'),
};
