/** Nested sheets as plain geometry: every loop where it lies, and where its name can stand. */
import { boundingBox, placeLoop, pointInLoop, pointToLoop, reversed, signedArea } from '../../shape/index.js';
import type { Loop, Point } from '../../shape/path.js';
import type { NestPicture, NestPicturePiece, NestQuestion, NestResult, PieceToNest } from '../types.js';

/** The point farthest from every edge of the material, found on ever finer grids. */
const labelPlace = (outline: Loop, holes: readonly Loop[]): { readonly at: Point; readonly room: number } => {
  const box = boundingBox(outline);
  let at: Point = { x: (box.min.x + box.max.x) / 2, y: (box.min.y + box.max.y) / 2 };
  let room = Number.NEGATIVE_INFINITY;
  let [left, bottom] = [box.min.x, box.min.y];
  let [width, height] = [box.max.x - box.min.x, box.max.y - box.min.y];
  for (let pass = 0; pass < 5; pass++) {
    const steps = pass === 0 ? 20 : 6;
    for (let i = 0; i <= steps; i++) {
      for (let j = 0; j <= steps; j++) {
        const p = { x: left + (width * i) / steps, y: bottom + (height * j) / steps };
        if (!pointInLoop(p, outline) || holes.some((hole) => pointInLoop(p, hole))) continue;
        const free = Math.min(pointToLoop(p, outline), ...holes.map((hole) => pointToLoop(p, hole)));
        if (free > room) {
          room = free;
          at = p;
        }
      }
    }
    const finer = pass === 0 ? 0.1 : 0.35;
    width *= finer;
    height *= finer;
    left = at.x - width / 2;
    bottom = at.y - height / 2;
  }
  return { at, room: Math.max(0, room) };
};

const running = (loop: Loop, anticlockwise: boolean): Loop => (signedArea(loop) > 0 === anticlockwise ? loop : reversed(loop));

/** One picture per sheet of a result, in the result's order; the question gives the outlines. */
export const nestPictures = (question: NestQuestion, result: NestResult): readonly NestPicture[] => {
  const byId = new Map<string, PieceToNest>(question.pieces.map((piece) => [piece.id, piece]));
  return result.sheets.map((sheet, index): NestPicture => {
    const pieces = result.placements
      .filter((placement) => placement.sheet === index)
      .flatMap((placement): NestPicturePiece[] => {
        const piece = byId.get(placement.id);
        if (piece === undefined) return [];
        const outline = running(placeLoop(placement.place, piece.outline), true);
        const holes = piece.holes.map((hole) => running(placeLoop(placement.place, hole), false));
        const { at, room } = labelPlace(outline, holes);
        return [{ id: placement.id, copy: placement.copy, outline, holes, label: at, labelRoom: room, flipped: placement.flipped }];
      });
    return { stock: sheet.stock, width: sheet.width, height: sheet.height, margin: question.margin, pieces, offcuts: sheet.offcuts };
  });
};
