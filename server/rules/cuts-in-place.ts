/** Where each cut of a laid-out part lies against its own face and the bends at that face's sides; shared by the rules about holes. */
import type { BendLine, Blank, BlankCut } from '../blank/types.js';
import { distanceWithin, holdsPoint, type Stretch, straight, stretchesOf } from './clearance.js';
import { lengthTolerance } from './subject.js';

export interface CutInPlace {
  readonly cut: BlankCut;
  readonly stretches: readonly Stretch[];
  /** Bends at the sides of the cut's face, each with the tangent line on this face. */
  readonly bends: readonly { readonly bend: BendLine; readonly tangent: Stretch }[];
  /** The bend whose zone the cut runs into, if any. */
  readonly crosses: BendLine | undefined;
  /** Wholly on its own face and clear of every bend zone. */
  readonly inside: boolean;
}

const firstPoint = (cut: BlankCut): { readonly x: number; readonly y: number } => cut.loop.at(-1)?.to ?? cut.centre;

const touches = (stretches: readonly Stretch[], others: readonly Stretch[]): boolean =>
  distanceWithin(2 * lengthTolerance, stretches, others) < lengthTolerance;

export const cutsInPlace = (blank: Blank): readonly CutInPlace[] => {
  const faces = new Map(blank.faces.map((face) => [face.id, face]));
  const zones = new Map(
    blank.faces.flatMap((face) => (face.bend === undefined || face.zone === undefined ? [] : [[face.bend, face.zone]])),
  );
  return blank.cutouts.map((cut) => {
    const stretches = stretchesOf(cut.loop);
    const face = faces.get(cut.face);
    const bends = blank.bends
      .filter((bend) => bend.parent === cut.face || bend.child === cut.face)
      .map((bend) => {
        const [from, to] = bend.parent === cut.face ? bend.tangentParent : bend.tangentChild;
        return { bend, tangent: straight(from, to) };
      });
    const runsInto = (bend: BendLine): boolean => {
      const zone = zones.get(bend.id);
      return (
        zone !== undefined && (holdsPoint(zone, firstPoint(cut)) || holdsPoint(zone, cut.centre) || touches(stretches, stretchesOf(zone)))
      );
    };
    const crosses = bends.find(({ bend }) => runsInto(bend))?.bend;
    const onFace = face !== undefined && holdsPoint(face.polygon, firstPoint(cut)) && !touches(stretches, stretchesOf(face.polygon));
    return { cut, stretches, bends, crosses, inside: crosses === undefined && onFace };
  });
};
