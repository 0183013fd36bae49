/** Nested sheets as they are drawn: the long side across the page. */
import { place, placeLoop } from '../shape/index.js';
import type { Loop, Placement } from '../shape/path.js';
import { nestPictures } from './nest/index.js';
import type { NestPicture, NestQuestion, NestResult } from './types.js';

export interface SheetPicture extends NestPicture {
  /** The axis the sheet was rolled along, as drawn; undefined where it is not known. */
  readonly grain: 'x' | 'y' | undefined;
}

/** A sheet that stands is laid down clockwise. */
const laidDown = (picture: NestPicture): NestPicture => {
  const by: Placement = { cos: 0, sin: -1, tx: 0, ty: picture.width };
  const loop = (each: Loop): Loop => placeLoop(by, each);
  return {
    ...picture,
    width: picture.height,
    height: picture.width,
    pieces: picture.pieces.map((piece) => ({
      ...piece,
      outline: loop(piece.outline),
      holes: piece.holes.map(loop),
      label: place(by, piece.label),
    })),
    offcuts: picture.offcuts.map(({ x, y, width, height }) => ({ x: y, y: picture.width - x - width, width: height, height: width })),
  };
};

/** One picture per sheet of a result, in the result's order. */
export const sheetPictures = (question: NestQuestion, result: NestResult): readonly SheetPicture[] => {
  const stock = Array.isArray(question.stock) ? (question.stock as readonly { readonly id: string; readonly grain?: 'x' | 'y' }[]) : [];
  return nestPictures(question, result).map((picture): SheetPicture => {
    const grain = stock.find(({ id }) => id === picture.stock)?.grain;
    if (picture.height <= picture.width) return { ...picture, grain };
    return { ...laidDown(picture), grain: grain === undefined ? undefined : grain === 'x' ? 'y' : 'x' };
  });
};
