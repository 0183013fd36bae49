/**
 * What the folded part reports. The base lies still: a point (x, y) of the blank on the base stays where it is, the sheet's middle plane at z = 0, so the
 * sheet fills −thickness/2 … +thickness/2 and the face side looks toward +z. mm, rad.
 */
import type { BendLine, Blank } from '../blank/types.js';
import type { Finding } from '../model/finding.js';
import type { Hinge } from '../shape/hinges.js';
import type { Box3, Frame, Vector } from '../shape/space.js';

/** How far a bend is turned in a state: a share of its own turn. 0 flat, 1 finished, a little over 1 over-bent. */
export type Turned = (bend: BendLine) => number;

/** Every face of the blank in its place: blank coordinates (x, y) and height in the sheet go in, space comes out. */
export interface FoldedState {
  /** By face id, also of faces without width that bends hang on. */
  readonly frames: ReadonlyMap<string, Frame>;
  /** By bend id, in the tree's order. */
  readonly bends: ReadonlyMap<string, FoldedBend>;
}
/** A bend zone in space: a piece of a pipe. */
export interface FoldedBend {
  readonly bend: BendLine;
  /** A point of the pipe's axis, and its direction along the bend from `from` to `to`. */
  readonly axis: { readonly point: Vector; readonly along: Vector };
  /** Signed turn in this state, rad: positive folds toward the face. */
  readonly turn: number;
  /** Inside radius in this state: the zone keeps the length of its neutral line, so a half-turned bend is rounder. Infinity when flat. */
  readonly inside: number;
}

/** Triangles for the screen and for files; each belongs to a face or a bend. Positions mm, normals unit. */
export interface Mesh {
  readonly positions: Float64Array; // x y z for each corner
  readonly normals: Float64Array;
  readonly triangles: Uint32Array; // three corners each, anticlockwise from outside
  /** Runs of triangles by feature: `face:top.1`, `bend:top.1`; for pointing at, and for colour. */
  readonly groups: readonly {
    readonly feature: string;
    readonly side: 'face' | 'back' | 'rim';
    readonly first: number;
    readonly count: number;
  }[];
}

/** Two pieces of the finished part that want the same place. */
export interface Collision {
  readonly a: string; // `face:top.1` or `bend:…`
  readonly b: string;
  /** How far one would have to move to be clear, mm. */
  readonly depth: number;
  readonly at: Vector;
}
/** Where two flanges meet at a corner once folded: the least distance between them (negative: they overlap by so much). */
export interface CornerGap {
  readonly a: string;
  readonly b: string;
  readonly gap: number;
  readonly at: Vector;
}
export interface FoldResult {
  readonly blank: Blank;
  readonly finished: FoldedState;
  readonly envelope: Box3;
  readonly collisions: readonly Collision[];
  readonly gaps: readonly CornerGap[];
  readonly findings: readonly Finding[]; // spans relative to the part
}

/** The part as pieces that can be moved without asking again: flat triangles and the hinges that carry them. */
export interface MovingPart {
  readonly thickness: number;
  /** The face that lies still. */
  readonly root: string;
  /** Parents before children. */
  readonly hinges: readonly Hinge[];
  /** In the order of folding. */
  readonly steps: readonly MovingStep[];
  readonly pieces: readonly MovingPiece[];
  /** Beads and other roller work, for the eye alone. */
  readonly raised: readonly MovingRaised[];
}
/** Bends that are turned together, from one share of their turn to another: 0 to 1, unless a bend is made in two goes. */
export interface MovingStep {
  readonly bends: readonly string[];
  readonly from: number;
  readonly to: number;
}
/** What the dies raise out of one face: triangles over the flat of it, in the face's flat coordinates. */
export interface MovingRaised {
  /** As in the flat picture: `bead:rib.1`. */
  readonly feature: string;
  /** The face: `face:base`. */
  readonly on: string;
  /** x y of each corner, mm. */
  readonly points: readonly number[];
  /** How far each corner stands out of the flat, mm, positive toward the face side. */
  readonly heights: readonly number[];
  /** How the height grows along x and along y at each corner. */
  readonly slopes: readonly number[];
  /** Three corners each, anticlockwise seen from the face side. */
  readonly triangles: readonly number[];
  /** Where the sheet begins to rise, and creases: x y x y of each straight line. */
  readonly lines: readonly number[];
}
export interface MovingPiece {
  /** `face:top.1`, `bend:top.1`. */
  readonly feature: string;
  /** Of a bend zone, into how many strips of equal width it is parted across; 0 for a face. */
  readonly strips: number;
  /** x y of each corner, mm: of a face in flat coordinates, of a zone across it from the parent's tangent line and along the bend. */
  readonly points: readonly number[];
  /** Three corners each, anticlockwise seen from the face side. */
  readonly triangles: readonly number[];
  readonly edges: readonly MovingEdges[];
  /** Holes that lie wholly within the piece, filled, to be pointed at. */
  readonly holes: readonly { readonly feature: string; readonly triangles: readonly number[] }[];
}
export interface MovingEdges {
  /** The piece's own, or `cut:hole.1`. */
  readonly feature: string;
  /** The sheet's edge, a hole's edge, or where the piece runs on into its neighbour. */
  readonly kind: 'rim' | 'hole' | 'joint';
  /** Two corners each, the material on the left. */
  readonly pairs: readonly number[];
}
