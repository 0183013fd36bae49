/** Where each cut of a laid-out part lies against its own face and the bends at that face's sides; shared by the rules about holes. */
import type { BendLine, Blank, BlankCut } from '../blank/types.js';
import { boundingBox, boxesMeet, loopToLoop, pointInLoop, polygon } from '../shape/index.js';
import type { Box, Loop, Point } from '../shape/path.js';
import { lengthTolerance } from './subject.js';

export interface CutInPlace {
  readonly cut: BlankCut;
  readonly box: Box;
  /** Bends at the sides of the cut's face, each with the tangent line on this face. */
  readonly bends: readonly { readonly bend: BendLine; readonly tangent: readonly [Point, Point] }[];
  /** The bend whose zone the cut runs into, if any. */
  readonly crosses: BendLine | undefined;
  /** Wholly on its own face and clear of every bend zone. */
  readonly inside: boolean;
}

const firstPoint = (cut: BlankCut): Point => cut.loop.at(-1)?.to ?? cut.centre;

/** Least distance between two loops, mm, or `limit` where they are surely no nearer than that. */
export const gapWithin = (limit: number, one: Loop, box: Box, other: Loop): number =>
  boxesMeet(box, boundingBox(other), limit) ? Math.min(limit, loopToLoop(one, other)) : limit;

/** The same to a straight line between two points. */
export const gapToLine = (limit: number, one: Loop, box: Box, [from, to]: readonly [Point, Point]): number =>
  gapWithin(limit, one, box, polygon([from, to]));

export const cutsInPlace = (blank: Blank): readonly CutInPlace[] => {
  if (blank.cutouts.length === 0) return [];
  const faces = new Map(blank.faces.map((face) => [face.id, face]));
  const zones = new Map(
    blank.faces.flatMap((face) => (face.bend === undefined || face.zone === undefined ? [] : [[face.bend, face.zone]])),
  );
  return blank.cutouts.map((cut) => {
    const box = boundingBox(cut.loop);
    const touches = (other: Loop): boolean => gapWithin(2 * lengthTolerance, cut.loop, box, other) < lengthTolerance;
    const face = faces.get(cut.face);
    const bends = blank.bends
      .filter((bend) => bend.parent === cut.face || bend.child === cut.face)
      .map((bend) => ({ bend, tangent: bend.parent === cut.face ? bend.tangentParent : bend.tangentChild }));
    const runsInto = (bend: BendLine): boolean => {
      const zone = zones.get(bend.id);
      return zone !== undefined && (pointInLoop(firstPoint(cut), zone) || pointInLoop(cut.centre, zone) || touches(zone));
    };
    const crosses = bends.find(({ bend }) => runsInto(bend))?.bend;
    const onFace = face !== undefined && pointInLoop(firstPoint(cut), face.polygon) && !touches(face.polygon);
    return { cut, box, bends, crosses, inside: crosses === undefined && onFace };
  });
};
