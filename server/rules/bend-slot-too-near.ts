import { slotToBend } from '../trade/spacing.js';
import { onTheBench } from './bench.js';
import { cutsTooNearABend } from './cuts-too-near-a-bend.js';
import type { Rule } from './rule.js';

export const bendSlotTooNear: Rule = {
  name: 'bend/slot-too-near',
  severity: 'warning',
  what: 'The edge of a slot or cut-out comes nearer to the line where a bend begins than four thicknesses.',
  why: 'A long opening beside a bend leaves a strip too weak to be bent evenly: the strip bulges and the bend bows there.',
  example: onTheBench(`panel tray {
  sheet crs_18
  outline rectangle 6 by 4
  edge top { flange 1 up }
  slot 1/4 by 1 at (3, 3.6) // warning: bend/slot-too-near
}`),
  cure: onTheBench(`panel tray {
  sheet crs_18
  outline rectangle 6 by 4
  edge top { flange 1 up }
  slot 1/4 by 1 at (3, 3 1/4)
}`),
  source:
    'Sheet-metal design guidelines, npd-solutions.com (DRM Associates), from memory: 4 T + R from the inside face of the bent leg, which is 4 T from the line.',
  check: (subject) => cutsTooNearABend(subject, bendSlotTooNear, slotToBend, (cut) => cut.circle === undefined),
};
