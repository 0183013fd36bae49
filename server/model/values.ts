/** Values with dimensions. Base units: mm, rad, kg, s, N, money; stress in MPa (N/mm²). */
import type { UnitDimension } from '../../grammar/vocabulary/units.js';

/** Exponents. Force is kept apart from mass so that N and MPa stay plain numbers. Angle counts as a dimension. */
export type Dimension = UnitDimension;

export type Value =
  /**
   * `bare`: no unit has been written anywhere in it; it waits for what is wanted of it. `home`: the file whose `units` a bare number came from,
   * when it came through a name. */
  | {
      readonly kind: 'number';
      readonly value: number;
      readonly dim: Dimension;
      readonly bare: boolean;
      readonly home?: string;
      readonly mixed?: Mixed;
    }
  | {
      readonly kind: 'point';
      readonly x: number;
      readonly y: number;
      readonly bare: boolean;
      readonly home?: string;
      readonly mixed?: Mixed;
    }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'yesno'; readonly yes: boolean }
  /** Something a broken statement should have given: everything made of it is undecided too, in silence. */
  | { readonly kind: 'unknown' };

/** Files with different units whose bare numbers were multiplied: as a plain number that is fine, as a length nobody could say which unit is meant. */
export type Mixed = readonly [string, string];
