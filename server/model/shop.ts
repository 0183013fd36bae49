/** What the bench owns. mm, MPa, kg/mm³ → density is kg/m³ here as everywhere in the trade. Immutable. */
import type { Span } from '../../grammar/syntax.js';
import type { AllowanceMethod } from '../trade/bends.js';
import type { BentMetal } from '../trade/radii.js';

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
}
