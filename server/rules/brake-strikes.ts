import type { Obstacle } from '../brake/index.js';
import { onTheLeaf } from './bench.js';
import { stuckFindings } from './brake-planned.js';
import type { Rule } from './rule.js';

const keeper = (bridge: string, mark: string): string =>
  onTheLeaf(`panel keeper {
  sheet crs_18
  outline rectangle 2 1/2 by 2
  edge top {
    flange 1 1/8 up as riser${mark}
    flange ${bridge} up as bridge
  }
}`);

/** Bed and apron go on past the bend whatever the nose is made of. */
const runsOn = (main: Obstacle): boolean => main.kind === 'beside' && (main.tool === 'bed' || main.tool === 'apron');

export const brakeStrikes: Rule = {
  name: 'brake/strikes',
  severity: 'error',
  what: 'There is no order in which the bends can be made: in every one of them some part of the sheet strikes the nose, the bed or the apron, or the part itself, while it swings. Said of the bend with the least against it, held in the best way there is.',
  why: 'What is bent already swings into the brake before the last bend is where it should be; and the leaf turns farther than the bend wants, for what springs back. A flange that is shorter, or a wall that stands farther off, may pass: changes that are offered were tried in full.',
  example: keeper('1 5/8', ' // error: brake/strikes'),
  cure: keeper('1/2', ''),
  source: 'The sections of the brake’s nose, bed and apron, as the shop measured them; plane geometry.',
  checkPlan: (question) => stuckFindings(question, brakeStrikes, (main) => main.kind === 'touch' || main.kind === 'itself' || runsOn(main)),
};
