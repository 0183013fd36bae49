import { onTheBench } from './bench.js';
import { brakeFindings } from './brake-fit.js';
import { stuckFindings } from './brake-planned.js';
import type { Rule } from './rule.js';
import { flangesById } from './subject.js';

const degrees = (turn: number): string => `${Math.round(((turn * 180) / Math.PI) * 100) / 100}°`;

export const brakeTurnTooGreat: Rule = {
  name: 'brake/turn-too-great',
  severity: 'error',
  what: 'A bend turns farther than every brake in the shop can turn its leaf.',
  why: 'The leaf comes to its stop first. The rest has to be closed by hand, or in two steps over a bar.',
  example: onTheBench(`panel clip {
  sheet crs_18
  outline rectangle 6 by 4
  edge top { flange 1 up 150 } // error: brake/turn-too-great
}`),
  cure: onTheBench(`panel clip {
  sheet crs_18
  outline rectangle 6 by 4
  edge top { flange 1 up 135 }
}`),
  source: 'The brake’s own `greatest turn`.',
  check: (subject) =>
    brakeFindings(subject, brakeTurnTooGreat, 'turn', {
      span: (_, { bend }, { part }) => (part.kind === 'panel' ? flangesById(part).get(bend.child)?.turnSpan : undefined) ?? bend.span,
      message: (fault, brake, { bend }) =>
        `${brake} turns ${degrees(fault.greatest)} at most; the bend ${bend.id} turns ${degrees(fault.turn)}: turn it less, or close the rest by hand`,
    }),
  // Each bend may find a brake of its own here, and the whole part none.
  checkPlan: (question) => stuckFindings(question, brakeTurnTooGreat, ({ kind }) => kind === 'turn'),
};
