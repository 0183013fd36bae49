/** The sheet as it is cut, parted into its faces and bend zones: what folds as one flat or as one piece of pipe. */
import type { BendLine, Blank } from '../blank/types.js';
import { type Divided, type Division, divide, type Piece } from '../shape/divide.js';
import type { Loop, Point } from '../shape/path.js';
import { rootOf } from './state.js';

export type SheetPiece = Piece & { readonly feature: string };
export interface PartedSheet {
  readonly points: Divided['points'];
  readonly pieces: readonly SheetPiece[];
}

/**
 * Faces and zones with their true outlines: reliefs, notches and holes taken out.
 *
 * @param strips into how many strips, side by side along the bend, a zone is parted
 * @param drawn the blank's loops, where others than its own are wanted (arcs as chords)
 */
export const partSheet = (blank: Blank, strips: (bend: BendLine) => number = one, drawn?: (loop: Loop) => Loop): PartedSheet => {
  const flat = new Set(blank.faces.map(({ id }) => id));
  const divisions: Division[] = [];
  for (const bend of blank.bends) {
    const count = strips(bend);
    const zone = `bend:${bend.id}`;
    for (let k = 0; k <= count; k++) {
      const [from, to] = levelLine(bend, k / count);
      divisions.push({
        from,
        to,
        left: k > 0 ? zone : flat.has(bend.parent) ? `face:${bend.parent}` : undefined,
        right: k < count ? zone : flat.has(bend.child) ? `face:${bend.child}` : undefined,
      });
    }
  }
  const as = drawn ?? ((loop: Loop): Loop => loop);
  const { points, pieces } = divide(
    as(blank.outline),
    blank.cutouts.map(({ loop }) => as(loop)),
    divisions,
  );
  const root = `face:${rootOf(blank)}`;
  return { points, pieces: pieces.map((piece) => ({ ...piece, feature: piece.name ?? root })) };
};
const one = (): number => 1;

/** A line along the bend at a share of the way from the parent's tangent line to the child's. */
const levelLine = ({ tangentParent: near, tangentChild: far }: BendLine, share: number): readonly [Point, Point] => {
  if (share === 0) return near;
  if (share === 1) return far;
  const between = (a: Point, b: Point): Point => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share });
  return [between(near[0], far[0]), between(near[1], far[1])];
};
