/**
 * From a job's parts to what is cut and bought: blanks nested on sheets, pieces cut from lengths, the bill of it. Everything is a pure function of what it is
 * given; a solver and the time to spend come from the caller. Nothing here draws, prints or reads files.
 */
export { type BillRow, billOf, type LengthOutcome, type SheetOutcome } from './bill.js';
export {
  type CuttingJob,
  cuttingJob,
  type PartCut,
  type PartToCut,
  type SheetJob,
} from './cutting.js';
export { cutLengthsInSteps, type Solver } from './lengths.js';
export { nest, nestPictures, nestWhile } from './nest/index.js';
export { type PieceWork, pieceWork } from './piece-work.js';
export { type SheetPicture, sheetPictures } from './sheet-pictures.js';
export { type StraightCut, takenApart } from './straight-cuts.js';
export type * from './types.js';
