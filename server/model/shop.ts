/** What the bench owns. mm, MPa, kg/mm³ → density is kg/m³ here as everywhere in the trade. Immutable. */
import type { Span } from '../../grammar/syntax.js';
import type { AllowanceMethod } from '../trade/bends.js';
import type { BentMetal } from '../trade/radii.js';
import type { BentStrip } from '../trade/trial.js';
import type { StockShape } from '../trade/tube.js';

export interface Named {
  readonly name: string;
  readonly file: string;
  /** Absolute span of the name in its own file. */
  readonly span: Span;
}
export interface Material extends Named, BentMetal {
  readonly yield: number | undefined; // MPa
  readonly elongation: number | undefined; // ratio
  readonly hardening: number | undefined;
  readonly coating: string | undefined;
}
export interface Sheet extends Named {
  readonly material: Material | undefined;
  readonly thickness: number;
  readonly size: { readonly width: number; readonly height: number } | undefined;
  readonly bendRadius: number | undefined;
  readonly method: AllowanceMethod | undefined;
  readonly price: number | undefined;
  readonly stocked: number | undefined;
  /** Further sizes it is sold in, beyond `size`. */
  readonly sizes?: readonly SheetSize[];
  /** Remnants at hand. */
  readonly offcuts?: readonly Offcut[];
}
export interface SheetSize {
  readonly width: number;
  readonly height: number;
  readonly price: number | undefined;
  readonly stocked: number | undefined;
}
/** What is left of a sheet, or of a length (whose height is 0). The second size of a sheet's runs with the grain. */
export interface Offcut {
  readonly width: number;
  readonly height: number;
  readonly count: number;
}
/** Tube, bar, rod or angle as it is bought. */
export interface Stock extends Named {
  readonly type: 'tube' | 'bar' | 'rod' | 'angle';
  readonly shape: StockShape | undefined;
  readonly material: Material | undefined;
  readonly length: number | undefined;
  readonly price: number | undefined;
  readonly stocked: number | undefined;
  readonly offcuts: readonly Offcut[];
}
export interface Saw extends Named {
  readonly kerf: number | undefined;
}
export interface Brake extends Named {
  readonly type: 'leaf' | 'fingers';
  readonly fingers: readonly number[];
  readonly length: number | undefined;
  readonly capacity: { readonly thickness: number; readonly material: Material | undefined } | undefined;
  readonly leastFlange: number | undefined;
  readonly greatestTurn: number | undefined;
  readonly jaw: number | undefined;
  readonly depth: number | undefined;
  /**
   * Sections across the brake, as measured: origin where the nose meets the bed at the bend line, x toward the operator, y straight up. Undefined where
   * the shop has not said.
   */
  readonly nose?: readonly { readonly x: number; readonly y: number }[];
  readonly bed?: readonly { readonly x: number; readonly y: number }[];
  readonly apron?: readonly { readonly x: number; readonly y: number }[];
}
export interface Roller extends Named {
  readonly throat: number | undefined;
  readonly thickest: { readonly thickness: number; readonly material: Material | undefined } | undefined;
  readonly arm: number | undefined;
}
export interface Die extends Named {
  readonly shape: 'round' | 'vee' | 'flat' | 'step' | 'tipping';
  readonly width: number | undefined;
  readonly depth: number | undefined;
  readonly tightestTurn: number | undefined;
  readonly perPass: number | undefined;
  /** Radius of the crown, and where the bead runs out into the flat, both on the sheet's inside face; undefined where the shop has not said. */
  readonly nose?: number;
  readonly shoulder?: number;
}
/** A strip that was really bent or beaded, and what was measured of it. Lengths mm, angles rad. */
export interface Trial extends Named {
  readonly sheet: Sheet | undefined;
  readonly strip: { readonly length: number; readonly width: number | undefined; readonly finest: number } | undefined;
  readonly grain: 'across' | 'along' | undefined;
  readonly bent: { readonly turnSet: number; readonly radius: number | undefined; readonly brake: string | undefined } | undefined;
  readonly beaded: { readonly die: Die | undefined; readonly length: number | undefined; readonly passes: number } | undefined;
  readonly legs: { readonly lengths: readonly number[]; readonly finest: number } | undefined;
  readonly angle: { readonly turn: number; readonly finest: number } | undefined;
  readonly radius: Read | undefined;
  readonly width: Read | undefined;
  readonly length: Read | undefined;
  readonly depth: Read | undefined;
  /** The panel it asks strips for, `for gate`; such a trial tells nothing. */
  readonly asks?: AskedPanel;
  /** What a bent strip tells of its sheet's bends; undefined when it was not bent, or its measures make no sense. */
  readonly result?: BentStrip;
}
export interface AskedPanel {
  /** Part and its file; undefined when there is no such part in sight. */
  readonly panel: { readonly name: string; readonly file: string } | undefined;
  /** The name as written, absolute. */
  readonly span: Span;
}
/** A size as read, and the least step that could be told apart (0: not said). */
export interface Read {
  readonly value: number;
  readonly finest: number;
}
