/**
 * The part folded: where every face and bend stands in any state between flat and finished. The base lies still. Nothing here throws, prints, knows of
 * machines, or changes what it is given.
 */
import type { BendLine, Blank } from '../blank/types.js';
import { foldPieces } from './state.js';
import type { FoldedState, Turned } from './types.js';

export type * from './types.js';

/**
 * Every face and bend of the blank in its place.
 *
 * @param turned the share of its own turn that each bend is turned by: 0 flat, 1 finished (the default)
 */
export const foldAt = (blank: Blank, turned: Turned = finished): FoldedState => foldPieces(blank, turned).state;
const finished = (_: BendLine): number => 1;
