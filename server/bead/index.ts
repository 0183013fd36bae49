/**
 * From a panel's beads to what the bench needs: tracks, the roller's reach, how far the sheet draws in, the order of rolling. Never throws, never prints.
 */
import type { Blank } from '../blank/types.js';
import type { Panel } from '../model/part.js';
import type { BeadResult, Words } from './types.js';

export type * from './types.js';

const IN_MILLIMETRES: Words = { say: (mm) => `${Math.round(mm * 100) / 100} mm` };

/**
 * Everything about the beads of a panel.
 *
 * @param blank the panel's net blank
 * @param words how lengths are written in messages; millimetres when left out
 */
export const workBeads = (_part: Panel, _blank: Blank, _words: Words = IN_MILLIMETRES): BeadResult => ({
  beads: [],
  dimples: [],
  crossBreaks: [],
  tips: [],
  drawIn: undefined,
  schedule: [],
  setUps: { dieChanges: 0, turnOvers: 0 },
  unworked: [],
});
