/**
 * The cutting list as tables for a spreadsheet and as JSON for programs. Tables are in the job's own units, inches and pounds or millimetres and kilograms,
 * which the head of each column names; JSON is in mm, kg and degrees, as `measure --json` is.
 */
import { writeAngle } from '../../model/display.js';
import type { HomeUnit } from '../../model/model.js';
import type { PieceEnd } from '../../model/part.js';
import { boundingBox } from '../../shape/index.js';
import type { PartCut } from '../../stock/index.js';
import { type CuttingOutcome, remnantsOf } from './outcome.js';

type Cell = string | number | undefined;
export interface CsvOptions {
  readonly unit: HomeUnit | undefined;
  /** Fields parted by `;`, numbers with a comma: for spreadsheets set up so. */
  readonly decimalComma?: boolean;
}
export const cuttingTables = ['bill', 'parts', 'sheets', 'lengths'] as const;
export type CuttingTable = (typeof cuttingTables)[number];

/** Kilograms in one pound, exactly. Source: the international yard and pound agreement of 1959. */
const pound = 0.453_592_37;

interface Units {
  readonly length: string;
  readonly mass: string;
  readonly mm: number;
  readonly kg: number;
}
const unitsOf = (unit: HomeUnit | undefined): Units =>
  unit?.name === 'inch' || unit?.name === 'foot'
    ? { length: 'in', mass: 'lb', mm: 25.4, kg: pound }
    : { length: 'mm', mass: 'kg', mm: 1, kg: 1 };

/** Noise of floating point left off: 1e-4 of a unit is finer than any shop measures. */
const rounded = (value: number, places = 4): number => Math.round(value * 10 ** places) / 10 ** places + 0;
const optional = (value: number | undefined, places?: number): number | undefined =>
  value === undefined ? undefined : rounded(value, places);

/** As the part file writes it, so in plain letters: `mitre 45`, `cope onto round_1 at 60`. */
const writeEnd = (end: PieceEnd): string => {
  if (end.kind === 'square') return 'square';
  const turned = Math.abs(end.turned) < 1e-9 ? '' : ` turned ${writeAngle(end.turned)}`;
  return end.kind === 'mitre'
    ? `mitre ${writeAngle(end.angle)}${turned}`
    : `cope${end.onto === undefined ? '' : ` onto ${end.onto.name}`} at ${writeAngle(end.angle)}${turned}`;
};
const ends = ({ part }: PartCut): readonly [string | undefined, string | undefined] =>
  part.kind === 'piece' ? [writeEnd(part.startEnd), writeEnd(part.finishEnd)] : [undefined, undefined];

const rowsOf = (
  outcome: CuttingOutcome,
  table: CuttingTable,
  units: Units,
): { readonly head: readonly string[]; readonly rows: readonly (readonly Cell[])[] } => {
  const { length: l, mass: m } = units;
  const mm = (value: number | undefined): number | undefined => optional(value === undefined ? undefined : value / units.mm);
  const kg = (value: number | undefined): number | undefined => optional(value === undefined ? undefined : value / units.kg);
  switch (table) {
    case 'bill':
      return {
        head: ['kind', 'stock', `width_${l}`, `length_${l}`, 'needed', 'at_hand', 'to_buy', `mass_${m}`, 'price_each', 'cost', 'currency'],
        rows: outcome.bill.map(({ size, ...row }) => [
          `${size.kind}${row.remnant ? ' remnant' : ''}`,
          row.stock,
          mm(size.kind === 'sheet' ? size.width : undefined),
          mm(size.kind === 'sheet' ? size.height : size.length),
          row.needed,
          row.stocked,
          row.toBuy,
          kg(row.mass),
          optional(row.price, 2),
          optional(row.cost, 2),
          row.currency === '' ? undefined : row.currency,
        ]),
      };
    case 'parts':
      return {
        head: [
          'no',
          'part',
          'file',
          'quantity',
          'opposite_hand',
          'stock',
          `width_${l}`,
          `height_${l}`,
          `length_${l}`,
          'start',
          'finish',
          `mass_each_${m}`,
          `mass_all_${m}`,
        ],
        rows: outcome.parts.map((part, i) => {
          const { size } = part;
          return [
            i + 1,
            part.name,
            part.part.file.split('/').pop(),
            part.count,
            part.opposite,
            part.stock,
            mm(size.kind === 'sheet' ? size.width : undefined),
            mm(size.kind === 'sheet' ? size.height : undefined),
            mm(size.kind === 'length' ? size.length : undefined),
            ...ends(part),
            kg(part.mass),
            kg(part.mass === undefined ? undefined : part.mass * (part.count + part.opposite)),
          ];
        }),
      };
    case 'sheets':
      return {
        head: [
          'stock',
          'sheet',
          `sheet_width_${l}`,
          `sheet_height_${l}`,
          'piece',
          `from_left_${l}`,
          `from_below_${l}`,
          `width_${l}`,
          `height_${l}`,
          'turned_over',
        ],
        rows: outcome.sheets.flatMap(({ job, pictures }) =>
          pictures.flatMap((picture, i) =>
            picture.pieces.map((piece) => {
              const { min, max } = boundingBox(piece.outline);
              return [
                job.name,
                i + 1,
                mm(picture.width),
                mm(picture.height),
                piece.id,
                mm(min.x),
                mm(min.y),
                mm(max.x - min.x),
                mm(max.y - min.y),
                piece.flipped ? 'yes' : 'no',
              ];
            }),
          ),
        ),
      };
    case 'lengths':
      return {
        head: ['stock', 'times', `bar_${l}`, `left_${l}`, 'piece', `from_${l}`, `length_${l}`, 'start', 'finish', 'turned_over'],
        rows: outcome.lengths.flatMap(({ result }) =>
          result.cuts.flatMap((cut) =>
            cut.pieces.map((piece) => {
              const part = outcome.parts.find(({ name }) => name === piece.id);
              const [start, finish] = part === undefined ? [undefined, undefined] : ends(part);
              return [
                cut.stock,
                cut.times,
                mm(cut.length),
                mm(cut.left),
                piece.id,
                mm(piece.from),
                mm(piece.length),
                start,
                finish,
                piece.turnedOver ? 'yes' : 'no',
              ];
            }),
          ),
        ),
      };
  }
};

/** A table as comma-separated values. Source: RFC 4180; the first row names the columns and their units. */
export const cuttingCsv = (outcome: CuttingOutcome, table: CuttingTable, options: CsvOptions): string => {
  const { head, rows } = rowsOf(outcome, table, unitsOf(options.unit));
  const comma = options.decimalComma === true;
  const cell = (value: Cell): string => {
    if (typeof value === 'number') return comma ? String(value).replace('.', ',') : String(value);
    const text = value ?? '';
    return /[",;\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return [head, ...rows].map((row) => `${row.map(cell).join(comma ? ';' : ',')}\r\n`).join('');
};

/** As a file: spreadsheets take letters beyond ASCII rightly when the file begins with the byte order mark of UTF-8. */
export const csvFile = (text: string): string => ([...text].some((letter) => letter > '~') ? `\ufeff${text}` : text);

const degrees = (rad: number): number => rounded((rad * 180) / Math.PI, 6);
const exact = (mm: number): number => rounded(mm, 6);

/** `cut --json`, schema 1: mm, kg, degrees. A key stands only when its value is known. */
export const cuttingJson = (outcome: CuttingOutcome): Readonly<Record<string, unknown>> => {
  const known = (pairs: Readonly<Record<string, Cell>>): Readonly<Record<string, unknown>> =>
    Object.fromEntries(Object.entries(pairs).filter(([, value]) => value !== undefined));
  return {
    schema: 1,
    bill: outcome.bill.map(({ size, ...row }) => ({
      stock: row.stock,
      kind: size.kind,
      ...(size.kind === 'sheet' ? { width_mm: exact(size.width), height_mm: exact(size.height) } : { length_mm: exact(size.length) }),
      remnant: row.remnant,
      needed: row.needed,
      at_hand: row.stocked,
      to_buy: row.toBuy,
      ...known({
        mass_kg: optional(row.mass, 6),
        price: row.price,
        cost: row.cost,
        currency: row.currency === '' ? undefined : row.currency,
      }),
    })),
    parts: outcome.parts.map((part) => ({
      name: part.name,
      stock: part.stock,
      quantity: part.count,
      opposite_hand: part.opposite,
      ...(part.size.kind === 'sheet'
        ? { width_mm: exact(part.size.width), height_mm: exact(part.size.height) }
        : { length_mm: exact(part.size.length) }),
      ...known({ mass_kg: optional(part.mass, 6) }),
    })),
    sheets: outcome.sheets.map(({ job, result, pictures, settled }) => ({
      stock: job.name,
      utilisation: rounded(result.utilisation, 6),
      kerf_mm: exact(job.question.kerf),
      margin_mm: exact(job.question.margin),
      settled,
      sheets: result.sheets.map((sheet, i) => ({
        width_mm: exact(sheet.width),
        height_mm: exact(sheet.height),
        remnant: sheet.offcut,
        utilisation: rounded(sheet.utilisation, 6),
        // From the sheet's lower left corner as its two sizes are written; turned anticlockwise, after turning over.
        pieces: result.placements
          .filter((placed) => placed.sheet === i)
          .map((placed) => ({
            name: placed.id,
            at_mm: [exact(placed.x), exact(placed.y)],
            turned_deg: degrees(placed.angle),
            turned_over: placed.flipped,
          })),
        left: (pictures[i] === undefined ? [] : remnantsOf(pictures[i])).map(({ across, along }) => ({
          width_mm: exact(across),
          height_mm: exact(along),
        })),
      })),
    })),
    lengths: outcome.lengths.map(({ job, result }) => ({
      stock: job.name,
      utilisation: rounded(result.utilisation, 6),
      kerf_mm: exact(job.question.kerf),
      proven: result.proven,
      cuts: result.cuts.map((cut) => ({
        stock: cut.stock,
        times: cut.times,
        length_mm: exact(cut.length),
        left_mm: exact(cut.left),
        pieces: cut.pieces.map((piece) => ({
          name: piece.id,
          from_mm: exact(piece.from),
          length_mm: exact(piece.length),
          turned_over: piece.turnedOver,
        })),
      })),
    })),
    not_cut: [
      ...outcome.left.map(({ part, reason }) => ({ name: part, reason })),
      ...outcome.sheets.flatMap(({ result }) => result.unplaced.map(({ id, count, reason }) => ({ name: id, count, reason }))),
      ...outcome.lengths.flatMap(({ result }) => result.unplaced.map(({ id, count, reason }) => ({ name: id, count, reason }))),
    ],
  };
};
