import { onTheRoller } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

const floor = (load: string): string =>
  onTheRoller(`panel floor {\n  sheet crs_18\n  outline rectangle 36 by 24\n  ${load}\n}`).replace(
    'elongation 34 %',
    'modulus 205 GPa  elongation 34 %',
  );

export const loadNotReckoned: Rule = {
  name: 'load/not-reckoned',
  severity: 'information',
  what: 'How far the panel gives under a load cannot be worked out, and the message says why.',
  why: 'Deflection is worked out for rectangular panels held along their edges, from the modulus of their metal.',
  example: floor('load spread 1 psi held left simply // information: load/not-reckoned'),
  cure: floor('load spread 0.002 psi held all clamped'),
  source: 'Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, for what is worked out.',
  check: (subject) => {
    const { stiffness } = subject;
    if (stiffness === undefined || !('message' in stiffness)) return nothingSaid;
    return [speak(subject, loadNotReckoned, stiffness.span, stiffness.message)];
  },
};
