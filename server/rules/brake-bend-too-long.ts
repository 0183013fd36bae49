import { onTheBench } from './bench.js';
import { brakeFindings } from './brake-fit.js';
import { stuckFindings } from './brake-planned.js';
import type { Rule } from './rule.js';

export const brakeBendTooLong: Rule = {
  name: 'brake/bend-too-long',
  severity: 'error',
  what: 'A bend is longer than every brake in the shop.',
  why: 'A bend made in two set-ups shows a kink where they meet. Make the part in two with a seam, or have this bend made elsewhere.',
  example: onTheBench(`panel fence {
  sheet crs_18
  outline rectangle 60 by 8
  edge top { flange 1 up } // error: brake/bend-too-long
}`),
  cure: onTheBench(`panel fence {
  sheet crs_18
  outline rectangle 47 by 8
  edge top { flange 1 up }
}`),
  source: 'The brake’s own `length`.',
  check: (subject) =>
    brakeFindings(subject, brakeBendTooLong, 'length', {
      span: (_, { bend }) => bend.span,
      message: (fault, brake, { bend }) => {
        const [has, wants] = subject.sayBoth(fault.has, fault.wants);
        return `${brake} is ${has} long; the bend ${bend.id} is ${wants} and wants a brake at least that long: part it with a seam, or have it bent elsewhere`;
      },
    }),
  // Each bend may find a brake of its own here, and the whole part none.
  checkPlan: (question) => stuckFindings(question, brakeBendTooLong, ({ kind }) => kind === 'length'),
};
