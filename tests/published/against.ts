/**
 * Values that a publication prints, or that follow by hand from a formula it gives, held against what the program says. Every comparison is kept with its
 * test, so that `tally.ts` can count them and name the worst:
 *
 *     npx vitest run tests/published --reporter=./tests/published/tally.ts
 */
import { expect, TestRunner } from 'vitest';

export interface Comparison {
  readonly source: string;
  /** Read in the publication itself, or worked by hand from its formula. */
  readonly kind: 'printed' | 'worked';
  readonly unit: string;
  /** What is compared: the same value looked at twice, by the formula and on a whole blank, has one name. */
  readonly what: string;
  readonly value: number;
  readonly print: string;
  /** Half of the last figure printed. */
  readonly rounding: number;
  /** What was allowed where the source goes by a coarser rule than the program. */
  readonly within: number | undefined;
}

declare module '@vitest/runner' {
  interface TaskMeta {
    comparisons?: Comparison[];
  }
}

/** Half a unit of the last figure. */
const roundingOf = (print: string): number => 0.5 * 10 ** -(print.split('.')[1] ?? '').length;

export type Against = (what: string, value: number | undefined, print: string, within?: number) => void;

/**
 * Holds values against one source: to half of the last figure printed, or within what is given where the source goes by a coarser rule.
 *
 * @param name the publication, or how the values were worked by hand
 */
export const against =
  (name: string, kind: Comparison['kind'], unit: string): Against =>
  (what, value = Number.NaN, print, within) => {
    const rounding = roundingOf(print);
    const meta = TestRunner.getCurrentTest()?.meta;
    const made: Comparison = { source: name, kind, unit, what, value, print, rounding, within };
    if (meta !== undefined) meta.comparisons = [...(meta.comparisons ?? []), made];
    // A value half-way between two figures may be printed as either.
    expect(Math.abs(value - Number(print)), `${what}: ${value}, printed ${print}`).toBeLessThanOrEqual(
      (within ?? rounding) * (1 + 1e-6) + 1e-12,
    );
  };
