/**
 * The part as pieces that can be moved: each face and bend zone triangulated once in its own flat coordinates, with the hinges that carry it. Whoever has
 * this and `shape/hinges.ts` can stand the part in any state between flat and finished without asking again.
 */
import type { BeadResult } from '../bead/types.js';
import type { BendLine, Blank } from '../blank/types.js';
import { polygon, tessellate } from '../shape/loops.js';
import type { Point } from '../shape/path.js';
import { pointFrom, type Vector } from '../shape/space.js';
import { stripsOf } from './mesh.js';
import { partSheet, type SheetPiece } from './pieces.js';
import { raisedOn } from './raised.js';
import { foldPieces, hingeOf, rootOf } from './state.js';
import { triangles } from './triangles.js';
import type { MovingEdges, MovingPart, MovingPiece, MovingStep, Turned } from './types.js';
import { zoneCoordinates } from './zone.js';

/** Chords on the screen stay this near (mm) to arcs and pipes: less than a pixel at any size a whole part is looked at. */
const CHORD = 0.1;

/**
 * @param order the steps of a plan, when there is one; bends that are not in it come last. Else see `foldingOrder`
 * @param work  the part's roller work, to be shown on its faces
 */
export const movingPart = (blank: Blank, order?: readonly MovingStep[], work?: BeadResult): MovingPart => {
  const strips = new Map(blank.bends.map((bend) => [`bend:${bend.id}`, stripsOf(bend, blank.thickness, CHORD)]));
  const hinges = blank.bends.map((bend) => hingeOf(bend, blank.thickness));
  const ways = new Map(hinges.map((hinge) => [`bend:${hinge.id}`, zoneCoordinates(hinge)]));
  const drawn = partSheet(
    blank,
    (bend) => strips.get(`bend:${bend.id}`) ?? 1,
    (loop) => polygon(tessellate(loop, CHORD)),
  );
  const cutAt = new Map<string, string>();
  for (const { id, loop } of blank.cutouts) for (const p of tessellate(loop, CHORD)) cutAt.set(placeName(p), `cut:${id}`);
  const pieces = drawn.pieces.map((piece): MovingPiece => {
    const on = ways.get(piece.feature);
    return movingPiece(piece, drawn.points, cutAt, strips.get(piece.feature) ?? 0, on?.into ?? ((p) => p));
  });
  return {
    thickness: blank.thickness,
    root: rootOf(blank),
    hinges,
    steps: order === undefined ? foldingSteps(blank, foldingOrder(blank)) : completed(blank, order),
    pieces,
    raised: work === undefined ? [] : raisedOn(pieces, work),
  };
};

/**
 * Where beads and creases begin to rise, in space, on both sides of the sheet: for drawings in lines.
 *
 * @param turned how far each bend is turned; finished when left out
 */
export const raisedLines = (blank: Blank, work: BeadResult, turned: Turned = () => 1): readonly (readonly [Vector, Vector])[] => {
  const { frames } = foldPieces(blank, turned).hung;
  return movingPart(blank, undefined, work).raised.flatMap(({ on, lines }) => {
    const frame = frames.get(on.slice(5));
    if (frame === undefined) return [];
    const drawn: [Vector, Vector][] = [];
    for (let i = 0; i + 3 < lines.length; i += 4) {
      for (const side of [blank.thickness / 2, -blank.thickness / 2]) {
        const at = (k: number): Vector => pointFrom(frame, lines[i + k] ?? 0, lines[i + k + 1] ?? 0, side);
        drawn.push([at(0), at(2)]);
      }
    }
    return drawn;
  });
};

/** A hundredth of a micrometre: places that agree so far are the same corner. */
const placeName = ({ x, y }: Point): string => `${Math.round(x * 1e5)} ${Math.round(y * 1e5)}`;

const movingPiece = (
  piece: SheetPiece,
  all: readonly Point[],
  cutAt: ReadonlyMap<string, string>,
  strips: number,
  into: (p: Point) => Point,
): MovingPiece => {
  const loops = [piece.outer, ...piece.holes];
  const numbers = new Map<number, number>();
  const points: number[] = [];
  const own = (corner: number): number => {
    const known = numbers.get(corner);
    if (known !== undefined) return known;
    const { x, y } = into(all[corner] ?? ORIGIN);
    points.push(x, y);
    numbers.set(corner, points.length / 2 - 1);
    return points.length / 2 - 1;
  };
  const rings = loops.map((sides) => sides.map(({ from }) => from));
  const flat = (corners: readonly (readonly number[])[]): readonly number[] => {
    const order = corners.flat();
    return triangles(corners.map((ring) => ring.map((corner) => all[corner] ?? ORIGIN))).map((i) => own(order[i] ?? 0));
  };
  const byKind = new Map<string, { readonly feature: string; readonly kind: MovingEdges['kind']; readonly pairs: number[] }>();
  for (const sides of loops) {
    sides.forEach(({ from, cut }, i) => {
      const to = (sides[(i + 1) % sides.length] ?? sides[0])?.from ?? from;
      const [a, b] = [cutAt.get(placeName(all[from] ?? ORIGIN)), cutAt.get(placeName(all[to] ?? ORIGIN))];
      const feature = !cut && a !== undefined && a === b ? a : piece.feature;
      const kind = cut ? 'joint' : feature === piece.feature ? 'rim' : 'hole';
      const edges = byKind.get(`${kind} ${feature}`) ?? { feature, kind, pairs: [] };
      edges.pairs.push(own(from), own(to));
      byKind.set(`${kind} ${feature}`, edges);
    });
  }
  const holes = rings.slice(1).flatMap((ring) => {
    const feature = cutAt.get(placeName(all[ring[0] ?? 0] ?? ORIGIN));
    return feature === undefined ? [] : [{ feature, triangles: flat([[...ring].reverse()]) }];
  });
  return { feature: piece.feature, strips, triangles: flat(rings), edges: [...byKind.values()], holes, points };
};
const ORIGIN: Point = { x: 0, y: 0 };

/**
 * The order in which bends are turned where there is no plan: what lies furthest from the base first, so that every bend is made while all that it hangs on is
 * still flat; level ones in the blank's own order, round the sheet. Common practice, no source.
 */
const foldingOrder = (blank: Blank): readonly string[] => {
  const above = new Map(blank.bends.map(({ child, parent }) => [child, parent]));
  const depth = ({ parent }: BendLine): number => {
    let count = 0;
    for (let at = above.get(parent); at !== undefined && count <= blank.bends.length; at = above.get(at)) count++;
    return count;
  };
  return blank.bends
    .map((bend, i) => ({ bend, i, depth: depth(bend) }))
    .sort((a, b) => b.depth - a.depth || a.i - b.i)
    .map(({ bend }) => bend.id);
};

/** Both bends of a joggle are pressed at once; every other bend is a step of its own. */
const foldingSteps = (blank: Blank, order: readonly string[]): readonly MovingStep[] => {
  const bends = new Map(blank.bends.map((bend) => [bend.id, bend]));
  const steps: string[][] = [];
  const joggles = new Map<string, string[]>();
  for (const id of order) {
    const bend = bends.get(id);
    if (bend === undefined) continue;
    const pressed = bend.make === 'joggle' ? joggles.get(bend.step) : undefined;
    if (pressed !== undefined) {
      pressed.push(id);
      continue;
    }
    const step = [id];
    if (bend.make === 'joggle') joggles.set(bend.step, step);
    steps.push(step);
  }
  return steps.map((own) => ({ bends: own, from: 0, to: 1 }));
};

/** A plan's steps as far as they are about this blank's bends, and after them the bends that it leaves out. */
const completed = (blank: Blank, order: readonly MovingStep[]): readonly MovingStep[] => {
  const ids = new Set(blank.bends.map(({ id }) => id));
  const known = order.map((step) => ({ ...step, bends: step.bends.filter((id) => ids.has(id)) })).filter(({ bends }) => bends.length > 0);
  for (const { bends } of known) for (const id of bends) ids.delete(id);
  return [
    ...known,
    ...foldingSteps(
      blank,
      foldingOrder(blank).filter((id) => ids.has(id)),
    ),
  ];
};
