/** What the stock room is asked and what it answers. Millimetres, radians, x right, y up; a sheet's lower left corner is (0, 0). */
import type { Loop, Placement, Point } from '../shape/path.js';

/** One shape to cut, as often as `quantity` says. */
export interface PieceToNest {
  readonly id: string;
  /** Anticlockwise, arcs as arcs. Its own coordinates may lie anywhere: placements carry them onto the sheet. */
  readonly outline: Loop;
  /** Cut-outs in which smaller pieces may be laid. Their running sense does not matter. */
  readonly holes: readonly Loop[];
  readonly quantity: number;
  /** Axis of the piece that must run with the sheet's rolling direction. `any`, or a sheet without a grain, leaves it free. */
  readonly grain: 'x' | 'y' | 'any';
  /** Step between the turns tried where the grain leaves it free, rad; a quarter turn unless given. With a grain only 0 and half a turn remain. */
  readonly turnStep?: number;
  /** The only turns allowed, rad anticlockwise from the piece as drawn to the sheet's x axis; counts instead of grain and step. */
  readonly turns?: readonly number[];
  /** May be laid with its other face up. */
  readonly mayTurnOver?: boolean;
}

/** Sheets of one size at hand or to be bought. */
export interface SheetStock {
  readonly id: string;
  readonly width: number; // along x
  readonly height: number; // along y
  /** How many there are; undefined when more can be had. */
  readonly count?: number;
  /** Axis of the rolling direction; undefined where it is not known, and then no piece's grain counts. */
  readonly grain?: 'x' | 'y';
  /** A remnant at hand: used before any whole sheet. */
  readonly offcut?: boolean;
  /** Of one sheet, in the shop's currency; whole sheets without a price are weighed by their area. */
  readonly price?: number;
}

/** A strip of fixed height, cut from a coil as short as can be. */
export interface StripStock {
  readonly id: string;
  /** Width of the coil, along y; the length runs along x. */
  readonly width: number;
  readonly grain?: 'x' | 'y';
}

export interface NestQuestion {
  readonly pieces: readonly PieceToNest[];
  /** Sheets, or one strip whose length is to be the least. */
  readonly stock: readonly SheetStock[] | StripStock;
  /** Least clear width between two pieces: what the cut takes. */
  readonly kerf: number;
  /** Least distance of a piece from the edge of its sheet (of a strip: from its long edges and from both ends). */
  readonly margin: number;
  /** How far a chord may leave its arc, always to the outside of the material; 0.05 unless given. */
  readonly tolerance?: number;
  /** Shorter side from which a free rectangle counts as a usable offcut; 50 unless given. */
  readonly leastOffcut?: number;
}

export interface NestOptions {
  /** Same question, same seed: same steps and same answer. 1 unless given. */
  readonly seed?: number;
  /** Rounds of improvement without a gain after which the search ends by itself; 40 unless given. */
  readonly patience?: number;
}

export interface NestedPiece {
  readonly id: string;
  /** Which of the piece's `quantity`, from 0. */
  readonly copy: number;
  /** Index in `NestResult.sheets`. */
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
  readonly angle: number; // rad, anticlockwise, after flipping
  readonly flipped: boolean; // y reversed first: the other face is up
  /** The same as one motion, from the piece's coordinates to the sheet's. */
  readonly place: Placement;
}

export interface FreeRectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface NestedSheet {
  /** Id of the stock it is taken from. */
  readonly stock: string;
  readonly width: number; // of a strip: the length used
  readonly height: number;
  readonly offcut: boolean;
  readonly price: number | undefined;
  /** Area of the pieces on it, holes taken off, mm². */
  readonly used: number;
  /** `used` over the sheet's area, 0 … 1. */
  readonly utilisation: number;
  /** Free rectangles worth keeping, largest first, apart from each other and from every piece by the kerf. */
  readonly offcuts: readonly FreeRectangle[];
}

/** Why copies of a piece lie on no sheet. */
export type Unplaced =
  | {
      readonly reason: 'too large';
      readonly id: string;
      readonly count: number;
      /** The stock it comes nearest to fitting, and by how much it is too large there, mm, 0 where that side fits. */
      readonly stock: string;
      readonly overWidth: number;
      readonly overHeight: number;
    }
  | { readonly reason: 'no stock' | 'stock used up' | 'no outline'; readonly id: string; readonly count: number };

export interface NestResult {
  readonly sheets: readonly NestedSheet[];
  readonly placements: readonly NestedPiece[];
  readonly unplaced: readonly Unplaced[];
  /** Area of all pieces laid over the area of all sheets used, 0 … 1. */
  readonly utilisation: number;
  /** Sum over whole sheets that have a price. */
  readonly price: number;
  /** Of a strip: length used, margins included; 0 for sheets. */
  readonly length: number;
}

/** What a caller sees between two steps. */
export interface NestProgress {
  readonly phase: 'laying out' | 'improving';
  /** Rounds of improvement done. */
  readonly round: number;
  readonly sheets: number;
  readonly utilisation: number;
  /** Of a strip, mm. */
  readonly length: number;
  /** The best found so far; worked out when asked. */
  readonly result: () => NestResult;
}

/** Placed pieces as plain geometry, for any drawing. */
export interface NestPicture {
  readonly stock: string;
  readonly width: number;
  readonly height: number;
  readonly margin: number;
  readonly pieces: readonly NestPicturePiece[];
  readonly offcuts: readonly FreeRectangle[];
}
export interface NestPicturePiece {
  readonly id: string;
  readonly copy: number;
  readonly outline: Loop; // anticlockwise, sheet coordinates
  readonly holes: readonly Loop[]; // clockwise
  /** Well inside the material, where a label is readable. */
  readonly label: Point;
  /** Radius of the free circle round it, mm. */
  readonly labelRoom: number;
  readonly flipped: boolean;
}
