/** Walls that stand beside a bend, where the brake goes on: what fingers are for. */
import { onTheFingers, onTheLeaf } from './bench.js';
import { stuckFindings } from './brake-planned.js';
import type { Rule } from './rule.js';

const tray = (walls: string, rule?: string, size = '8 by 6'): string => `panel tray {
  sheet crs_18
  outline rectangle ${size}
  edge top, bottom, left, right { flange ${walls} up }${rule === undefined ? '' : ` // error: ${rule}`}
}`;

export const brakeWantsFingers: Rule = {
  name: 'brake/wants-fingers',
  severity: 'error',
  what: 'Walls stand at both ends of a bend, and the brake, whose nose is in one piece, is longer than the room between them.',
  why: 'The last wall of a box lies under the nose between two that stand. A nose in fingers is made up to fit between them; without one, leave a wall for another part, or close that corner by hand over a block.',
  example: onTheLeaf(tray('1', 'brake/wants-fingers')),
  cure: onTheFingers(tray('1')),
  source: 'The brake’s own `length`; plane geometry.',
  checkPlan: (question) => stuckFindings(question, brakeWantsFingers, (main) => main.kind === 'beside' && main.tool === 'nose'),
};

export const brakeFingersDoNotFit: Rule = {
  name: 'brake/fingers-do-not-fit',
  severity: 'error',
  what: 'No set of the fingers the shop has fills the room between the walls that stand beside a bend.',
  why: 'Where the nose does not press, the bend comes out round; a gap as wide as a few thicknesses does not show. Another finger, or another size of the part, closes it.',
  example: onTheFingers(tray('1', 'brake/fingers-do-not-fit', '7 by 5')),
  cure: onTheFingers(tray('1', undefined, '8 by 5 1/4')),
  source: 'The brake’s own `fingers`; how wide a gap may be is common practice.',
  checkPlan: (question) => stuckFindings(question, brakeFingersDoNotFit, (main) => main.kind === 'fingers'),
};

export const brakeFingersTooShallow: Rule = {
  name: 'brake/fingers-too-shallow',
  severity: 'error',
  what: 'A wall beside the fingers is higher than they are deep.',
  why: 'Above the fingers the beam they hang on is as long as the brake: the wall runs into it.',
  example: onTheFingers(tray('3 1/2', 'brake/fingers-too-shallow')),
  cure: onTheFingers(tray('2')),
  source: 'The brake’s own `depth`; plane geometry.',
  checkPlan: (question) =>
    stuckFindings(question, brakeFingersTooShallow, (main) => main.kind === 'depth' || (main.kind === 'beside' && main.tool === 'beam')),
};
