/** A blank's bends as hinges, and the state they give. */
import type { BendLine, Blank } from '../blank/types.js';
import { type Hinge, type HungPieces, hang, type Pipe, pipeAxis } from '../shape/hinges.js';
import type { FoldedBend, FoldedState, Turned } from './types.js';

export interface FoldedPieces {
  readonly state: FoldedState;
  readonly hung: HungPieces;
}

/** A bend of a blank as a hinge. */
export const hingeOf = (bend: BendLine, thickness: number): Hinge => ({
  id: bend.id,
  parent: bend.parent,
  child: bend.child,
  tangentParent: bend.tangentParent,
  turn: bend.direction === 'up' ? bend.turn : -bend.turn,
  allowance: bend.allowance,
  thickness,
  k: bend.k,
});

/** The face that lies still. */
export const rootOf = (blank: Blank): string => blank.faces[0]?.id ?? 'base';

export const foldPieces = (blank: Blank, turned: Turned): FoldedPieces => {
  const byId = new Map<string, BendLine>();
  const hinges: Hinge[] = [];
  for (const bend of blank.bends) {
    byId.set(bend.id, bend);
    hinges.push(hingeOf(bend, blank.thickness));
  }
  const hung = hang(rootOf(blank), hinges, (hinge) => {
    const bend = byId.get(hinge.id);
    return bend === undefined ? 0 : turned(bend);
  });
  const bends = new Map<string, FoldedBend>();
  for (const bend of blank.bends) {
    const pipe = hung.pipes.get(bend.id);
    if (pipe !== undefined) bends.set(bend.id, foldedBend(bend, pipe));
  }
  return { hung, state: { frames: hung.frames, bends } };
};

/** A flat bend's axis has no place; the line on the mid plane where the zone begins stands in for it. */
const foldedBend = (bend: BendLine, pipe: Pipe): FoldedBend => ({
  bend,
  axis: { point: pipeAxis(pipe) ?? pipe.start.origin, along: pipe.start.y },
  turn: pipe.turn,
  inside: pipe.inside,
});
