/** A hole carried on, square to its own face, to another face of the folded part. */
import type { Cut } from '../model/part.js';
import { type Hinge, hang } from '../shape/hinges.js';
import { pointInLoop } from '../shape/inside.js';
import { place, placeLoop, reversed, signedArea } from '../shape/loops.js';
import type { Placement, Point } from '../shape/path.js';
import { type Frame, pointFrom, pointInto } from '../shape/space.js';
import { type Job, remark } from './tree.js';
import type { BendLine, BlankCut, Face } from './types.js';

/** Where every face of the finished part stands, worked out when a hole asks for it. */
export const foldedFrames = (faces: readonly Face[], bends: readonly BendLine[], thickness: number): ReadonlyMap<string, Frame> => {
  const hinges = bends.map(
    (bend): Hinge => ({
      id: bend.id,
      parent: bend.parent,
      child: bend.child,
      tangentParent: bend.tangentParent,
      turn: bend.direction === 'up' ? bend.turn : -bend.turn,
      allowance: bend.allowance,
      thickness,
      k: bend.k,
    }),
  );
  return hang(faces[0]?.id ?? 'base', hinges, () => 1).frames;
};

/** A drill that leans from square by more than this leaves an oval nobody marks out. rad */
const SQUARE_ENOUGH = 0.01;

/**
 * The same cut on the face named in `through`, where its axis meets it.
 *
 * @returns undefined when it can't be had, which is said
 */
export const cutThrough = (
  job: Job,
  cut: Cut,
  made: BlankCut,
  target: string,
  faces: readonly Face[],
  bends: readonly BendLine[],
  frames: ReadonlyMap<string, Frame>,
): BlankCut | undefined => {
  const other = faces.find((face) => face.id === target);
  const [own, there] = [frames.get(made.face), frames.get(target)];
  if (other === undefined || own === undefined || there === undefined) return undefined;
  const miss = (rule: string, message: string): undefined => {
    remark(job, rule, cut.span, message, { features: [`cut:${cut.id}`, `face:${target}`] });
    return undefined;
  };
  const lean = Math.acos(Math.min(1, Math.abs(own.z.x * there.z.x + own.z.y * there.z.y + own.z.z * there.z.z)));
  if (lean > SQUARE_ENOUGH) {
    const by = `${Math.round((lean * 1800) / Math.PI) / 10}°`;
    return miss(
      'hole/through-misses',
      `${target} does not lie level with ${made.face} once folded but ${by} from it, so a hole square to the one is no round hole in the other; write a cut of its own on ${target}`,
    );
  }
  const carried = (x: number, y: number): Point => onto(own, there, { x, y });
  const centre = carried(made.centre.x, made.centre.y);
  if (!pointInLoop(centre, other.polygon)) {
    const bend = bends.find(({ zone }) => pointInLoop(centre, zone));
    return bend === undefined
      ? miss(
          'hole/through-misses',
          `straight through from ${made.face} there is nothing of ${target}; move the hole, or make ${target} reach there`,
        )
      : miss(
          'hole/through-misses',
          `straight through from ${made.face} this hole comes out in the bend ${bend.id}, beside ${target}; move it clear of the bend`,
        );
  }
  const [x, y] = [carried(made.centre.x + 1, made.centre.y), carried(made.centre.x, made.centre.y + 1)];
  const [ux, uy] = [x.x - centre.x, x.y - centre.y];
  const mirrored = ux * (y.y - centre.y) - uy * (y.x - centre.x) < 0;
  const turned: Placement = { cos: ux, sin: uy, tx: 0, ty: 0, mirrored };
  const at = place(turned, made.centre);
  const loop = placeLoop({ ...turned, tx: centre.x - at.x, ty: centre.y - at.y }, made.loop);
  return {
    id: `${made.id}.through`,
    loop: signedArea(loop) > 0 ? reversed(loop) : loop,
    circle: made.circle === undefined ? undefined : { centre, radius: made.circle.radius },
    face: target,
    centre,
    span: cut.span,
  };
};

/** Along the normal of the one face's middle to the other's. */
const onto = (own: Frame, there: Frame, p: Point): Point => {
  const start = pointInto(there, pointFrom(own, p.x, p.y, 0));
  const ahead = pointInto(there, pointFrom(own, p.x, p.y, 1));
  const share = start.z / (start.z - ahead.z);
  return { x: start.x + (ahead.x - start.x) * share, y: start.y + (ahead.y - start.y) * share };
};
