import { holeToBend } from '../trade/spacing.js';
import { onTheBench } from './bench.js';
import { cutsTooNearABend } from './cuts-too-near-a-bend.js';
import type { Rule } from './rule.js';

export const bendHoleTooNear: Rule = {
  name: 'bend/hole-too-near',
  severity: 'warning',
  what: 'The edge of a round hole comes nearer to the line where a bend begins than two and a half thicknesses.',
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
    'Sheet-metal design guidelines, npd-solutions.com (DRM Associates), from memory: 2.5 T + R from the inside face of the bent leg, which is 2.5 T from the line; other lists give 2 T and 3 T.',
  check: (subject) => cutsTooNearABend(subject, bendHoleTooNear, holeToBend, (cut) => cut.circle !== undefined),
};
