/** Carrying marks from their own coordinates to the page's: scale, turn, move. */
import type { Move, Point } from '../../shape/path.js';
import type { Mark, Run } from './page.js';

/** x' = scale·(c·x − s·y) + tx, and likewise y'. */
export interface Carry {
  readonly scale: number;
  readonly cos: number;
  readonly sin: number;
  readonly tx: number;
  readonly ty: number;
}
export const stay: Carry = { scale: 1, cos: 1, sin: 0, tx: 0, ty: 0 };

export const carryPoint = (c: Carry, p: Point): Point => ({
  x: c.scale * (c.cos * p.x - c.sin * p.y) + c.tx,
  y: c.scale * (c.sin * p.x + c.cos * p.y) + c.ty,
});

/** The carry of a placed group within another. */
export const within = (outer: Carry, placed: Extract<Mark, { kind: 'placed' }>): Carry => {
  const { scale = 1, turn = 0, to } = placed;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const at = carryPoint(outer, to);
  return {
    scale: outer.scale * scale,
    cos: outer.cos * cos - outer.sin * sin,
    sin: outer.sin * cos + outer.cos * sin,
    tx: at.x,
    ty: at.y,
  };
};

const carryMove = (c: Carry, move: Move): Move =>
  move.kind === 'line'
    ? { kind: 'line', to: carryPoint(c, move.to) }
    : { kind: 'arc', to: carryPoint(c, move.to), centre: carryPoint(c, move.centre), turn: move.turn };

export const carryRun = (c: Carry, run: Run): Run => ({
  start: carryPoint(c, run.start),
  moves: run.moves.map((move) => carryMove(c, move)),
  closed: run.closed,
});
