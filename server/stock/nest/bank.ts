/** The question in grid units: every piece in every turn it may take, like shapes counted once. */
import { Clipper, type Path64 } from 'clipper2-ts';
import { signedArea } from '../../shape/index.js';
import type { NestQuestion, PieceToNest } from '../types.js';
import { type NoFits, noFitsOf, type Shape } from './nofit.js';
import { type Grown, grown, ringOf, sameRing, turned, UNITS } from './outlines.js';

export type SheetGrain = 'x' | 'y' | undefined;

/** A piece in one of its turns. */
export interface Turn {
  readonly shape: number;
  readonly angle: number;
  readonly flipped: boolean;
  /** Of the piece's origin from the shape's lower left corner, grid units. */
  readonly originX: number;
  readonly originY: number;
}

export interface BankPiece {
  readonly piece: PieceToNest;
  /** Net area, mm². */
  readonly area: number;
  /** Area with the kerf, holes filled, grid units². */
  readonly room: number;
  /** The same less the holes: what no other piece can have. */
  readonly body: number;
}

export interface Bank {
  readonly pieces: readonly BankPiece[];
  readonly withoutOutline: readonly PieceToNest[];
  readonly noFits: NoFits;
  /** By piece. */
  readonly turns: (grain: SheetGrain) => readonly (readonly Turn[])[];
}

const half = Math.PI;
const whole = 2 * Math.PI;

/** Angles from the piece's x axis to the sheet's, and whether it is flipped first. Flipping in y keeps the grain's axis. */
const anglesOf = (piece: PieceToNest, grain: SheetGrain): readonly number[] => {
  if (piece.turns !== undefined) return piece.turns;
  if (grain !== undefined && piece.grain !== 'any') {
    const quarter = piece.grain === grain ? 0 : half / 2;
    return [quarter, quarter + half];
  }
  const step = Math.max(piece.turnStep ?? half / 2, half / 180);
  const count = Math.max(1, Math.round(whole / step));
  return Array.from({ length: count }, (_, i) => i * step).filter((angle) => angle < whole - 1e-9);
};

const boxOf = (path: Path64): { minX: number; minY: number; width: number; height: number } => {
  const xs = path.map((p) => p.x);
  const ys = path.map((p) => p.y);
  const minX = Math.min(...xs);
  const minY = Math.min(...ys);
  return { minX, minY, width: Math.max(...xs) - minX, height: Math.max(...ys) - minY };
};

/** Least width of a path over directions ten degrees apart: what could slip into a gap. */
const leastWidth = (path: Path64): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < 18; k++) least = Math.min(least, boxOf(turned(path, (k * half) / 18, false)).width);
  return least;
};

export const bankOf = (question: NestQuestion): Bank => {
  const tolerance = question.tolerance ?? 0.05;
  const wanted = question.pieces.filter((piece) => piece.quantity > 0);
  const bodies = wanted.map((piece) => grown(piece.outline, piece.holes, question.kerf, tolerance, 0));
  const narrowest = bodies.reduce((least, body) => (body === undefined ? least : Math.min(least, leastWidth(body.outer))), Infinity);
  const closing = Number.isFinite(narrowest) ? Math.floor(0.4 * Math.max(0, narrowest - question.kerf * UNITS)) : 0;
  const outlined: { piece: PieceToNest; body: Grown }[] = [];
  const withoutOutline: PieceToNest[] = [];
  wanted.forEach((piece, i) => {
    const open = bodies[i];
    const filled =
      open === undefined || open.outer.length <= 4 ? open : grown(piece.outline, piece.holes, question.kerf, tolerance, closing);
    if (filled === undefined) withoutOutline.push(piece);
    else outlined.push({ piece, body: filled });
  });
  const pieces = outlined.map(
    ({ piece, body }): BankPiece => ({
      piece,
      area: Math.abs(signedArea(piece.outline)) - piece.holes.reduce((sum, hole) => sum + Math.abs(signedArea(hole)), 0),
      room: Clipper.area(body.outer),
      body: Clipper.area(body.outer) - Clipper.areaPaths(body.holes),
    }),
  );
  const grains: SheetGrain[] = 'width' in question.stock && !Array.isArray(question.stock) ? [question.stock.grain] : [];
  if (Array.isArray(question.stock)) for (const sheet of question.stock) if (!grains.includes(sheet.grain)) grains.push(sheet.grain);
  return shapesOf(outlined, pieces, withoutOutline, grains);
};

const shapesOf = (
  outlined: readonly { readonly piece: PieceToNest; readonly body: Grown }[],
  pieces: readonly BankPiece[],
  withoutOutline: readonly PieceToNest[],
  grains: readonly SheetGrain[],
): Bank => {
  const laidFlat = grains.map((grain) =>
    outlined.map(({ piece, body }) =>
      anglesOf(piece, grain).flatMap((angle) =>
        (piece.mayTurnOver === true ? [false, true] : [false]).map((flipped) => {
          const outer = turned(body.outer, angle, flipped);
          return { angle, flipped, outer, box: boxOf(outer), holes: body.holes.map((hole) => turned(hole, angle, flipped)) };
        }),
      ),
    ),
  );
  const boxes = laidFlat.flat(2).map(({ box, outer }) => ({ ...box, area: Clipper.area(outer) }));
  const useful = (hole: Path64): boolean => {
    const { width, height } = boxOf(hole);
    const area = Clipper.area(hole);
    return boxes.some((box) => box.width <= width && box.height <= height && box.area <= area);
  };
  const shapes: Shape[] = [];
  const indexOf = (shape: Shape): number => {
    const known = shapes.findIndex(
      (other) =>
        sameRing(other.outer, shape.outer) &&
        other.holes.length === shape.holes.length &&
        shape.holes.every((hole) => other.holes.some((same) => sameRing(same, hole))),
    );
    return known >= 0 ? known : shapes.push(shape) - 1;
  };
  const turnsByGrain = laidFlat.map((ofPieces) =>
    ofPieces.map((ofTurns) => {
      const turns: Turn[] = [];
      for (const { angle, flipped, outer, box, holes } of ofTurns) {
        const { minX, minY, width, height } = box;
        const kept = holes.filter(useful).map((hole) => ringOf(hole, minX, minY));
        const shape = indexOf({ outer: ringOf(outer, minX, minY), holes: kept, width, height });
        if (turns.some((turn) => turn.shape === shape)) continue;
        turns.push({ shape, angle, flipped, originX: 0 - minX, originY: 0 - minY });
      }
      return turns;
    }),
  );
  const turns = (grain: SheetGrain): readonly (readonly Turn[])[] => turnsByGrain[Math.max(0, grains.indexOf(grain))] ?? [];
  return { pieces, withoutOutline, noFits: noFitsOf(shapes), turns };
};

/** Whether a shape is an upright rectangle without a useful hole. */
export const isBox = (shape: Shape): boolean =>
  shape.holes.length === 0 &&
  shape.outer.xs.length === 4 &&
  shape.outer.xs.every((x) => x === 0 || x === shape.width) &&
  shape.outer.ys.every((y) => y === 0 || y === shape.height);
