/** Where each cut of a laid-out part lies against its own face and the bends at that face's sides; shared by the rules about holes. */
import type { BendLine, Blank, BlankCut } from '../blank/types.js';
import { boundingBox, boxesMeet, moveBox, moveToMove, pointInLoop, polygon, startOf } from '../shape/index.js';
import type { Box, Loop, Move, Point } from '../shape/path.js';
import { lengthTolerance } from './subject.js';

/** A loop with the boxes of its moves, so that far ones are passed over quickly. */
export interface Boxed {
  readonly loop: Loop;
  readonly box: Box;
  readonly boxes: readonly Box[];
}
export interface CutInPlace {
  readonly cut: BlankCut;
  readonly around: Boxed;
  /** Bends at the sides of the cut's face, each with the tangent line on this face. */
  readonly bends: readonly { readonly bend: BendLine; readonly tangent: Boxed }[];
  /** The bend whose zone the cut runs into, if any. */
  readonly crosses: BendLine | undefined;
  /** Wholly on its own face and clear of every bend zone. */
  readonly inside: boolean;
}

const boxed = (loop: Loop): Boxed => ({
  loop,
  box: boundingBox(loop),
  boxes: loop.map((move, index) => moveBox(startOf(loop, index), move)),
});
const lineBoxed = ([from, to]: readonly [Point, Point]): Boxed => boxed(polygon([from, to]));

/** Least distance between the lines of two loops, mm, or `limit` where they are no nearer than that. */
export const gapWithin = (limit: number, one: Boxed, other: Boxed): number => {
  if (!boxesMeet(one.box, other.box, limit)) return limit;
  let least = limit;
  for (let j = 0; j < other.loop.length; j += 1) {
    if (!boxesMeet(one.box, other.boxes[j] as Box, least)) continue;
    for (let i = 0; i < one.loop.length; i += 1) {
      if (!boxesMeet(one.boxes[i] as Box, other.boxes[j] as Box, least)) continue;
      least = Math.min(least, moveToMove(startOf(one.loop, i), one.loop[i] as Move, startOf(other.loop, j), other.loop[j] as Move));
    }
  }
  return least;
};

const firstPoint = (cut: BlankCut): Point => cut.loop.at(-1)?.to ?? cut.centre;
const touches = (one: Boxed, other: Boxed): boolean => gapWithin(2 * lengthTolerance, one, other) < lengthTolerance;

interface FaceAround {
  readonly outline: Boxed;
  readonly bends: readonly { readonly bend: BendLine; readonly tangent: Boxed; readonly zone: Boxed | undefined }[];
}

const facesAround = (blank: Blank): ((id: string) => FaceAround | undefined) => {
  const faces = new Map(blank.faces.map((face) => [face.id, face]));
  const zones = new Map(
    blank.faces.flatMap((face) => (face.bend === undefined || face.zone === undefined ? [] : [[face.bend, face.zone]])),
  );
  const known = new Map<string, FaceAround | undefined>();
  return (id) => {
    if (known.has(id)) return known.get(id);
    const face = faces.get(id);
    const bends = blank.bends
      .filter((bend) => bend.parent === id || bend.child === id)
      .map((bend) => {
        const zone = zones.get(bend.id);
        const tangent = lineBoxed(bend.parent === id ? bend.tangentParent : bend.tangentChild);
        return { bend, tangent, zone: zone === undefined ? undefined : boxed(zone) };
      });
    const around = face === undefined ? undefined : { outline: boxed(face.polygon), bends };
    known.set(id, around);
    return around;
  };
};

export const cutsInPlace = (blank: Blank): readonly CutInPlace[] => {
  if (blank.cutouts.length === 0) return [];
  const faceAround = facesAround(blank);
  return blank.cutouts.map((cut) => {
    const around = boxed(cut.loop);
    const face = faceAround(cut.face);
    const bends = face?.bends ?? [];
    const runsInto = (zone: Boxed | undefined): boolean =>
      zone !== undefined &&
      boxesMeet(around.box, zone.box, lengthTolerance) &&
      (pointInLoop(firstPoint(cut), zone.loop) || pointInLoop(cut.centre, zone.loop) || touches(around, zone));
    const crosses = bends.find(({ zone }) => runsInto(zone))?.bend;
    const inside =
      crosses === undefined && face !== undefined && pointInLoop(firstPoint(cut), face.outline.loop) && !touches(around, face.outline);
    return { cut, around, bends, crosses, inside };
  });
};

export const outlineBoxed = (blank: Blank): Boxed => boxed(blank.outline);
