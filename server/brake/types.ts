/**
 * What the brake reports. Seen from the side, square to the bend: x toward the operator, y up, origin where the nose meets the bed at the bend line
 * (the sheet lies on the bed, 0 … thickness, and the nose on the sheet). Along the brake: to the operator's right. mm, rad.
 */
import type { Blank } from '../blank/types.js';
import type { Brake } from '../model/shop.js';
import type { Point } from '../shape/path.js';

export type Side = 'parent' | 'child';
/** Parts of the brake. `beam` is what a finger brake's fingers hang on: as long as the brake, above the fingers' depth. */
export type Tool = 'nose' | 'beam' | 'bed' | 'apron';

/** One thing that stops one bend, in one state of the part. */
export type Obstacle =
  | { readonly kind: 'length'; readonly has: number; readonly wants: number }
  | { readonly kind: 'thickness'; readonly takes: number; readonly has: number; readonly stainlessPractice: number | undefined }
  | { readonly kind: 'turn'; readonly greatest: number; readonly wants: number }
  /** Too little beyond the bend for the leaf to bear on, or too little for the clamp to hold. */
  | { readonly kind: 'grip'; readonly where: 'leaf' | 'clamp'; readonly least: number; readonly reach: number }
  /** Too high for the opened jaw, even tilted or from the back. */
  | { readonly kind: 'jaw'; readonly opening: number; readonly height: number }
  /** Something of the part strikes the machine: first at `from`, deepest (`depth`) at `at`, both turns of the leaf. */
  | {
      readonly kind: 'touch';
      readonly feature: string;
      readonly tool: Tool;
      readonly from: number;
      readonly at: number;
      readonly depth: number;
      /** The side is bent and stands: the leaf strikes it on its way back, or on its way to a side bent part-way. */
      readonly leafAlone?: boolean;
    }
  /** Something stands beyond an end of the bend, where the brake goes on: it would have to hang off the brake's end, or the nose be of fingers. */
  | { readonly kind: 'beside'; readonly feature: string; readonly tool: Tool; readonly clear: number; readonly needs: number }
  /** No set of fingers fills the room there is. */
  | { readonly kind: 'fingers'; readonly room: number; readonly bend: number; readonly best: number; readonly gap: number }
  /** A wall beside the fingers is higher than they reach. */
  | { readonly kind: 'depth'; readonly depth: number; readonly height: number; readonly feature: string }
  /** The part strikes itself. */
  | { readonly kind: 'itself'; readonly a: string; readonly b: string; readonly from: number };

export interface ChosenFingers {
  /** Widths, as the shop lists them. */
  readonly widths: readonly number[];
  /** What of the bend is not under a finger, shared out evenly between and beside them. */
  readonly gap: number;
  /** What the fingers reach beyond the bend's ends, together. */
  readonly overhang: number;
  /** Room between what stands left and right; Infinity when nothing does. */
  readonly room: number;
}

/** How a bend is made: which, which side lies under the nose, which face is up. */
export interface BendStep {
  readonly number: number;
  /** The written step it makes; the bends of the blank it turns (a joggle has two). */
  readonly step: string;
  readonly bends: readonly string[];
  readonly make: 'brake' | 'hem' | 'hand';
  /** Share of the bend's own turn before and after; 0 → 1 but for a bend made in two goes. */
  readonly fromShare: number;
  readonly toShare: number;
  /** Of handwork: undefined. */
  readonly clamped: { readonly side: Side; readonly face: string } | undefined;
  readonly leaf: string | undefined;
  readonly faceUp: boolean | undefined;
  /** Against the step before. */
  readonly turnedOver: boolean;
  readonly turnedEndForEnd: boolean;
  /** Turned on the bed by this much otherwise, rad. */
  readonly rotated: number;
  /** Wanted, and what to set so that it comes out (springback), rad. */
  readonly turn: number;
  readonly setAngle: number;
  /** Where the set angle is from. */
  readonly setBy: 'trial' | 'formula' | 'not known';
  readonly trial: string | undefined;
  /** For a hem: how far it is turned on the leaf before it is pressed flat. */
  readonly flatten: boolean;
  /**
   * Where the scribed line goes: this far from the clamped side's bend tangent, toward the leaf, is the line that lies under the nose's edge.
   * One inside radius. Source: FAA-H-8083-31 ch. 4 (sight line), from memory.
   */
  readonly markOffset: number;
  /** The line under the nose, in the flat blank. */
  readonly line: readonly [Point, Point] | undefined;
  /** From the line to the far edge of what swings, and of what is clamped, flat: for a stop behind or a tape in front. */
  readonly swings: number;
  readonly toBack: number;
  readonly fingers: ChosenFingers | undefined;
  /** Where along the brake: undefined anywhere, else hung off that end. */
  readonly hangsOff: 'left' | 'right' | 'both' | undefined;
  /** Standing walls go in tilted. */
  readonly tiltIn: boolean;
  /** From the back of the brake, since the clamped side does not pass the jaw. */
  readonly fromBack: boolean;
  /** The same, of taking it out once bent. */
  readonly tiltOut: boolean;
  readonly outBack: boolean;
  /** By its height it passes the jaw, but no way past the nose was found by shifting and tilting it, in or out. */
  readonly noWay: 'in' | 'out' | undefined;
  /** Ids of the bends done before, in order. */
  readonly done: readonly string[];
}
/** Why one bend can't go on from a state. */
export interface BlockedBend {
  readonly bend: string;
  readonly step: string;
  /** Bends already made in the state it was tried in. */
  readonly done: readonly string[];
  /** For each way of holding it, what stops it. */
  readonly tried: readonly { readonly clamped: Side; readonly obstacles: readonly Obstacle[] }[];
  /** The way with the least against it, and what to tell first. */
  readonly main: Obstacle;
}
/** A change that was tried and frees the part. */
export type Change =
  /** A hem's length is its depth. */
  | { readonly kind: 'flange' | 'leg' | 'hem'; readonly id: string; readonly from: number; readonly to: number }
  | { readonly kind: 'outline'; readonly axis: 'x' | 'y'; readonly by: number }
  | { readonly kind: 'brake'; readonly property: 'length' | 'jaw' | 'depth' | 'greatest turn'; readonly from: number; readonly to: number }
  /** What runs on past these corners (`top left`, or `all`) is in the way: mitred with a gap, or left open. mm. */
  | { readonly kind: 'corner'; readonly corners: readonly string[]; readonly to: 'mitred' | 'open'; readonly gap: number }
  /** The same brake with its nose in fingers of any width. */
  | { readonly kind: 'fingers' };
export interface Cost {
  readonly turnOvers: number;
  readonly rotations: number;
  /** Steps in which the longer side swings; each counts as a turn on the bed. */
  readonly longSwings: number;
  /** What swings, over all steps, mm. */
  readonly handling: number;
  /** Neighbouring steps that are not alike. */
  readonly unlike: number;
}
export interface Plan {
  readonly possible: boolean;
  readonly brake: Brake;
  readonly blank: Blank;
  readonly steps: readonly BendStep[];
  /** Step ids in order. */
  readonly order: readonly string[];
  readonly cost: Cost | undefined;
  /** True when all orders were weighed; false when the part has too many bends for that and the order is one that works. */
  readonly best: boolean;
  /** Where no order works: whether all of them were tried. */
  readonly proven: boolean;
  /** Bend made in two goes, since nothing else works. */
  readonly preBent: string | undefined;
  /** Empty when possible; the one with the least against it first. */
  readonly blocked: readonly BlockedBend[];
  /** How many bends could be made before it stopped. */
  readonly reached: number;
  readonly suggestions: readonly Change[];
  /** In words: what of the brake is not described. */
  readonly notChecked: readonly string[];
  /** Common practice for stainless, beside the square-root rule. */
  readonly stainless: { readonly takes: number; readonly practice: number } | undefined;
  /** Plastic moment of each bend for the record, N·mm per mm: tensile · T² / 4. Undefined without a tensile strength. */
  readonly moment: number | undefined;
}
