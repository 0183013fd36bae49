/** Where each cut of a laid-out part lies against its own face and the bends at that face's sides; shared by the rules about holes. */
import type { BendLine, Blank, BlankCut } from '../blank/types.js';
import { boundingBox, boxesMeet, moveBox, moveToMove, pointInLoop, polygon, radiusOf, startOf } from '../shape/index.js';
import type { Box, Loop, Move, Point } from '../shape/path.js';
import { lengthTolerance } from './subject.js';

/** A loop with its box, so that far ones are passed over quickly. */
export interface Boxed {
  readonly loop: Loop;
  readonly box: Box;
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

const boxed = (loop: Loop): Boxed => ({ loop, box: boundingBox(loop) });
const lineBoxed = ([from, to]: readonly [Point, Point]): Boxed => boxed(polygon([from, to]));

/** Whether a move surely keeps further than `gap` from a box. An arc counts as its whole circle: almost every move is far, and this makes no objects. */
const surelyFar = (from: Point, move: Move, box: Box, gap: number): boolean => {
  const { min, max } = box;
  if (move.kind === 'line') {
    const { to } = move;
    return (
      (from.x > max.x + gap && to.x > max.x + gap) ||
      (from.x < min.x - gap && to.x < min.x - gap) ||
      (from.y > max.y + gap && to.y > max.y + gap) ||
      (from.y < min.y - gap && to.y < min.y - gap)
    );
  }
  const { x, y } = move.centre;
  const reach = radiusOf(from, move) + gap;
  return x - reach > max.x || x + reach < min.x || y - reach > max.y || y + reach < min.y;
};

/** Least distance between the lines of two loops, mm, or `limit` where they are no nearer than that. */
export const gapWithin = (limit: number, one: Boxed, other: Boxed): number => {
  if (!boxesMeet(one.box, other.box, limit)) return limit;
  let least = limit;
  for (let j = 0; j < other.loop.length; j += 1) {
    const from = startOf(other.loop, j);
    const move = other.loop[j] as Move;
    if (surelyFar(from, move, one.box, least)) continue;
    const box = moveBox(from, move);
    for (let i = 0; i < one.loop.length; i += 1) {
      const start = startOf(one.loop, i);
      const own = one.loop[i] as Move;
      if (!surelyFar(start, own, box, least)) least = Math.min(least, moveToMove(start, own, from, move));
    }
  }
  return least;
};

const firstPoint = (cut: BlankCut): Point => cut.loop.at(-1)?.to ?? cut.centre;
const touches = (one: Boxed, other: Boxed): boolean => gapWithin(2 * lengthTolerance, one, other) < lengthTolerance;

interface FaceAround {
  readonly outline: Boxed;
  readonly bends: readonly { readonly bend: BendLine; readonly tangent: Boxed; readonly zone: Boxed }[];
}

const facesAround = (blank: Blank): ((id: string) => FaceAround | undefined) => {
  const known = new Map<string, FaceAround | undefined>();
  return (id) => {
    if (known.has(id)) return known.get(id);
    const face = blank.faces.find((each) => each.id === id);
    const bends = blank.bends
      .filter((bend) => bend.parent === id || bend.child === id)
      .map((bend) => {
        const tangent = lineBoxed(bend.parent === id ? bend.tangentParent : bend.tangentChild);
        return { bend, tangent, zone: boxed(bend.zone) };
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
    const runsInto = (zone: Boxed): boolean =>
      boxesMeet(around.box, zone.box, lengthTolerance) &&
      (pointInLoop(firstPoint(cut), zone.loop) || pointInLoop(cut.centre, zone.loop) || touches(around, zone));
    const crosses = bends.find(({ zone }) => runsInto(zone))?.bend;
    const inside =
      crosses === undefined && face !== undefined && pointInLoop(firstPoint(cut), face.outline.loop) && !touches(around, face.outline);
    return { cut, around, bends, crosses, inside };
  });
};

export const outlineBoxed = (blank: Blank): Boxed => boxed(blank.outline);
