/** The bill of materials: what has to be there, and what of it has to be bought. */
import { sectionArea } from '../trade/tube.js';
import { type LengthJob, type SheetJob, sheetSizes } from './cutting.js';
import type { LengthsResult } from './lengths.js';
import type { NestResult } from './types.js';

/** One line: so many alike. */
export interface BillRow {
  readonly stock: string;
  /** mm; the height of a sheet runs with its grain. */
  readonly size:
    | { readonly kind: 'sheet'; readonly width: number; readonly height: number }
    | { readonly kind: 'length'; readonly length: number };
  /** A remnant at hand. */
  readonly remnant: boolean;
  /** How many the job takes. */
  readonly needed: number;
  /** Of those, how many are at hand. */
  readonly stocked: number;
  readonly toBuy: number;
  /** Of all that is needed, kg; undefined without a density. */
  readonly mass: number | undefined;
  /** Of one, and of what is to be bought; undefined without a price. */
  readonly price: number | undefined;
  readonly cost: number | undefined;
  /** Sign of money, before the amount. */
  readonly currency: string;
}
export interface SheetOutcome {
  readonly job: SheetJob;
  readonly result: NestResult;
}
export interface LengthOutcome {
  readonly job: LengthJob;
  readonly result: LengthsResult;
}

type Counted = Omit<BillRow, 'stocked' | 'toBuy' | 'cost' | 'mass'> & { readonly atHand: number; readonly massEach: number | undefined };

const billRow = ({ atHand, massEach, ...row }: Counted): BillRow => {
  const stocked = row.remnant ? row.needed : Math.min(row.needed, atHand);
  const toBuy = row.needed - stocked;
  return {
    ...row,
    stocked,
    toBuy,
    mass: massEach === undefined ? undefined : massEach * row.needed,
    cost: row.remnant || row.price === undefined ? undefined : row.price * toBuy,
  };
};

/** Alike things told once, in the order in which they are first met. */
const counted = <T>(
  things: readonly T[],
  keyOf: (thing: T) => string,
  countOf: (thing: T) => number,
): readonly (readonly [T, number])[] => {
  const rows = new Map<string, [T, number]>();
  for (const thing of things) {
    const row = rows.get(keyOf(thing)) ?? [thing, 0];
    row[1] += countOf(thing);
    rows.set(keyOf(thing), row);
  }
  return [...rows.values()];
};

const sheetRows = ({ job: { sheet, name, currency }, result }: SheetOutcome): readonly BillRow[] => {
  const density = sheet.material?.density;
  return counted(
    result.sheets,
    ({ width, height, offcut }) => `${width} ${height} ${offcut}`,
    () => 1,
  ).map(([{ width, height, offcut }, needed]) => {
    const sold = sheetSizes(sheet).find((size) => size.width === width && size.height === height);
    return billRow({
      stock: name,
      size: { kind: 'sheet', width, height },
      remnant: offcut,
      needed,
      atHand: sold?.stocked ?? 0,
      massEach: density === undefined ? undefined : width * height * sheet.thickness * density * 1e-9,
      price: offcut ? undefined : sold?.price,
      currency,
    });
  });
};

const lengthRows = ({ job: { stock, name, currency, question }, result }: LengthOutcome): readonly BillRow[] => {
  const density = stock.material?.density;
  const offcuts = new Set(question.stock.flatMap(({ id, offcut }) => (offcut === true ? [id] : [])));
  return counted(
    result.cuts,
    (cut) => `${cut.length} ${offcuts.has(cut.stock)}`,
    ({ times }) => times,
  ).map(([{ stock: id, length }, needed]) => {
    const remnant = offcuts.has(id);
    return billRow({
      stock: name,
      size: { kind: 'length', length },
      remnant,
      needed,
      atHand: stock.stocked ?? 0,
      massEach: density === undefined || stock.shape === undefined ? undefined : length * sectionArea(stock.shape) * density * 1e-9,
      price: remnant ? undefined : stock.price,
      currency,
    });
  });
};

/** Whole ones before remnants, stock by stock. */
export const billOf = (sheets: readonly SheetOutcome[], lengths: readonly LengthOutcome[]): readonly BillRow[] =>
  [...sheets.map(sheetRows), ...lengths.map(lengthRows)].flatMap((rows) => [...rows].sort((a, b) => Number(a.remnant) - Number(b.remnant)));
