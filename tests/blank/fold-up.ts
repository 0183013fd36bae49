/** Folds a blank with the hinges of space alone, so that corners can be judged on the finished part. */
import type { BendLine, Blank } from '../../server/blank/types.js';
import { type Hinge, hang, pipeToSpace } from '../../server/shape/hinges.js';
import { startOf } from '../../server/shape/index.js';
import type { Loop, Point } from '../../server/shape/path.js';
import { pointFrom, type Vector } from '../../server/shape/space.js';

export interface FoldedPoint {
  readonly feature: string;
  readonly at: Vector;
}

const hinge = (bend: BendLine, thickness: number): Hinge => ({
  id: bend.id,
  parent: bend.parent,
  child: bend.child,
  tangentParent: bend.tangentParent,
  turn: bend.direction === 'up' ? bend.turn : -bend.turn,
  allowance: bend.allowance,
  thickness,
  k: bend.k,
});

/** Points along the rim of a loop of lines, ends and places between. */
const rim = (loop: Loop, between: number): readonly Point[] =>
  loop.flatMap((move, i) => {
    const from = startOf(loop, i);
    return Array.from({ length: between }, (_, k) => ({
      x: from.x + ((move.to.x - from.x) * k) / between,
      y: from.y + ((move.to.y - from.y) * k) / between,
    }));
  });

/** Rims of every face and bend zone in the finished part, on both sides of the sheet. */
export const foldedRims = (blank: Blank, between = 8): readonly FoldedPoint[] => {
  const { thickness } = blank;
  const { frames, pipes } = hang(
    blank.faces[0]?.id ?? 'base',
    blank.bends.map((bend) => hinge(bend, thickness)),
    () => 1,
  );
  const heights = [-thickness / 2, thickness / 2];
  const faces = blank.faces.flatMap((face) => {
    const frame = frames.get(face.id);
    if (frame === undefined) throw new Error(`no frame for ${face.id}`);
    return rim(face.polygon, between).flatMap((p) => heights.map((z) => ({ feature: face.id, at: pointFrom(frame, p.x, p.y, z) })));
  });
  const zones = blank.bends.flatMap((bend) => {
    const pipe = pipes.get(bend.id);
    if (pipe === undefined) throw new Error(`no pipe for ${bend.id}`);
    const [from, to] = bend.tangentParent;
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    const [ux, uy] = [(to.x - from.x) / length, (to.y - from.y) / length];
    return rim(bend.zone, between).flatMap((p) => {
      const [dx, dy] = [p.x - from.x, p.y - from.y];
      return heights.map((z) => ({ feature: `bend:${bend.id}`, at: pipeToSpace(pipe, dx * uy - dy * ux, dx * ux + dy * uy, z) }));
    });
  });
  return [...faces, ...zones];
};
