import type { BendLine } from '../blank/types.js';
import { holeToBend, holeToCurl, type Spacing } from '../trade/spacing.js';
import { onTheBench } from './bench.js';
import { cutsTooNearABend } from './cuts-too-near-a-bend.js';
import type { Rule } from './rule.js';

/** Round a hem or a curl the larger of the two rules: a thick wire draws in sheet from farther off. */
const spacing = (thickness: number, bend: BendLine): Spacing => {
  const plain = holeToBend(thickness);
  if (bend.make !== 'hem' && bend.make !== 'curl') return plain;
  const curl = holeToCurl(thickness, bend.radius);
  return curl.distance > plain.distance ? curl : plain;
};

export const bendHoleTooNear: Rule = {
  name: 'bend/hole-too-near',
  severity: 'warning',
  what: 'The edge of a round hole comes nearer to the line where a bend begins than two and a half thicknesses; to a hem or a curl than its inside radius and a thickness, where that is more.',
  why: 'The bend pulls on the sheet beside it: a hole too near is drawn out of round. Move it, or cut it after bending.',
  example: onTheBench(`panel tray {
  sheet crs_18
  outline rectangle 6 by 4
  edge top { flange 1 up }
  hole 1/4 at (3, 3.7) // warning: bend/hole-too-near
}`),
  cure: onTheBench(`panel tray {
  sheet crs_18
  outline rectangle 6 by 4
  edge top { flange 1 up }
  hole 1/4 at (3, 3 1/2)
}`),
  source:
    'Sheet-metal design guidelines, npd-solutions.com (DRM Associates), from memory: 2.5 T + R from the inside face of the bent leg, which is 2.5 T from the line; other lists give 2 T and 3 T. Hole to curl: curl radius + T.',
  check: (subject) => cutsTooNearABend(subject, bendHoleTooNear, spacing, (cut) => cut.circle !== undefined),
};
