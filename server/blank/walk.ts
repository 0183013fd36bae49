/** The outline, walked once round the tree. */
import { apart } from '../shape/arcs.js';
import type { Loop, Move, Point } from '../shape/path.js';
import type { Corner, Side, TreeFace } from './tree.js';
import { tabCorners } from './trimming.js';

/** Moves gathered one after another; points that repeat are dropped and lines that run straight on are one. */
interface Pen {
  at: Point;
  readonly start: Point;
  readonly moves: Move[];
}

/** The blank's outline in the part's coordinates: anticlockwise, closed, without repeated points. */
export const walkOutline = (base: TreeFace): Loop => {
  const first = base.corners[0] as Corner;
  const start = leaving(first);
  const pen: Pen = { at: start, start, moves: [] };
  for (let i = 0; i < base.sides.length; i++) walkSide(pen, base, i);
  close(pen);
  return pen.moves;
};

const leaving = (corner: Corner): Point => corner.moves.at(-1)?.to ?? corner.arrive;

/** One side with what hangs on it, and the corner after it. */
const walkSide = (pen: Pen, face: TreeFace, index: number): void => {
  const side = face.sides[index] as Side;
  const after = face.corners[(index + 1) % face.corners.length] as Corner;
  const child = face.children[index];
  if (child !== undefined) walkChild(pen, child, face.corners[index] as Corner, after, side);
  for (const tab of side.tabs) for (const to of tabCorners(tab, side.out)) lineTo(pen, to, tab.feature);
  if (side.arc !== undefined) push(pen, { kind: 'arc', to: after.arrive, ...side.arc, id: side.feature });
  else lineTo(pen, after.arrive, child?.sides[0]?.feature ?? side.feature);
  for (const move of after.moves) push(pen, move);
};

/** Out along one end of a flange's bend, round the flange, and back along the other. */
const walkChild = (pen: Pen, child: TreeFace, before: Corner, after: Corner, side: Side): void => {
  const { hang, sides, children, corners } = child;
  if (hang === undefined) return;
  const own = sides[0]?.feature;
  const last = sides.length - 1;
  const bentFirst = children[1] !== undefined;
  const bentLast = children[last] !== undefined;
  // Beside a relief the flange's end is cut off before it reaches the tangent line; beside a flange on its own end, before it reaches its flat.
  const skipAtFlat = bentFirst ? (corners[1] as Corner).skipPrevious : 0;
  for (let i = before.skipNext; i < hang.startEnd.length - skipAtFlat; i++)
    lineTo(pen, hang.startEnd[i] as Point, i === 0 ? side.feature : own);
  if (bentFirst) enter(pen, child, 1);
  for (let i = 1; i < last; i++) walkSide(pen, child, i);
  const closing = sides[last] as Side;
  if (bentLast || closing.tabs.length > 0) walkSide(pen, child, last);
  const from = hang.endEnd.length - 1 - (bentLast ? (corners[0] as Corner).skipNext : 0);
  for (let i = from; i >= after.skipPrevious; i--) lineTo(pen, hang.endEnd[i] as Point, own);
};

/** The corner between a flange's hinge and a bent end of it, which belongs to no walked side before it. */
const enter = (pen: Pen, face: TreeFace, index: number): void => {
  const corner = face.corners[index] as Corner;
  lineTo(pen, corner.arrive, face.sides[0]?.feature);
  for (const move of corner.moves) push(pen, move);
};

const lineTo = (pen: Pen, to: Point, id: string | undefined): void =>
  push(pen, id === undefined ? { kind: 'line', to } : { kind: 'line', to, id });

const TINY = 1e-9;

const push = (pen: Pen, move: Move): void => {
  if (apart(pen.at, move.to) <= TINY && move.kind === 'line') return;
  const last = pen.moves.at(-1);
  if (move.kind === 'line' && last?.kind === 'line') {
    const from = pen.moves.at(-2)?.to ?? pen.start;
    if (straightOn(from, last.to, move.to)) {
      pen.moves[pen.moves.length - 1] = last.id === undefined ? move : { ...last, to: move.to };
      pen.at = move.to;
      return;
    }
  }
  pen.moves.push(move);
  pen.at = move.to;
};

const straightOn = (a: Point, b: Point, c: Point): boolean => {
  const ux = b.x - a.x;
  const uy = b.y - a.y;
  const vx = c.x - b.x;
  const vy = c.y - b.y;
  return Math.abs(ux * vy - uy * vx) <= TINY * (Math.hypot(ux, uy) + Math.hypot(vx, vy)) && ux * vx + uy * vy > 0;
};

/** The last move ends exactly where the first begins, and the two are one where they run straight on. */
const close = (pen: Pen): void => {
  const { moves, start } = pen;
  const last = moves.at(-1);
  if (last === undefined) return;
  if (apart(last.to, start) <= 1e-6) moves[moves.length - 1] = { ...last, to: start };
  else moves.push({ kind: 'line', to: start });
  const first = moves[0] as Move;
  const closing = moves.at(-1) as Move;
  const from = moves.at(-2)?.to;
  if (first.kind === 'line' && closing.kind === 'line' && from !== undefined && straightOn(from, closing.to, first.to)) moves.pop();
};
