import { onTheRoller } from './beads-asked.js';
import type { Rule } from './rule.js';
import { nothingSaid, speak } from './subject.js';

const floor = (load: string): string =>
  onTheRoller(`panel floor {\n  sheet crs_18\n  outline rectangle 36 by 24\n  ${load}\n}`).replace(
    'elongation 34 %',
    'modulus 205 GPa  elongation 34 %',
  );

export const loadBeyondTheSums: Rule = {
  name: 'load/beyond-the-sums',
  severity: 'information',
  what: 'The panel gives by more than half its thickness, which is as far as the sums for thin plates hold.',
  why: 'Beyond that the sheet also carries as a skin does, so the real panel gives less than is said here. The numbers still tell more beads from fewer; they do not tell a safe load. Where somebody may be hurt, load a trial panel first.',
  example: floor('load spread 1 psi held all simply // information: load/beyond-the-sums'),
  cure: floor('load spread 0.002 psi held all simply'),
  source: 'Small-deflection plate theory: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells.',
  check: (subject) => {
    const { stiffness, part } = subject;
    if (part.kind !== 'panel' || stiffness === undefined || 'message' in stiffness) return nothingSaid;
    return stiffness.cases.flatMap((one, index) => {
      const { deflection } = one.beaded ?? one.flat;
      const load = part.loads[index];
      const limit = one.limits[one.limits.length - 1];
      const thickness = part.sheet?.value.thickness;
      if (load === undefined || limit === undefined || thickness === undefined || Math.abs(deflection) <= thickness / 2) return nothingSaid;
      return [speak(subject, loadBeyondTheSums, load.span, limit)];
    });
  },
};
