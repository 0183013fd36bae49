/** From the parts of a job to what is to be cut: blanks to nest by sheet, pieces to cut by stock, and the bill of it all. */
import type { Blank } from '../blank/types.js';
import type { Part } from '../model/part.js';
import type { Sheet, Stock } from '../model/shop.js';
import type { Loop } from '../shape/path.js';
import { acrossMitre, mitreRun, sectionArea } from '../trade/tube.js';
import type { LengthPiece, LengthStock, LengthsQuestion, LengthsResult } from './lengths.js';
import type { NestQuestion, NestResult, PieceToNest, SheetStock } from './types.js';

/** A part with what is cut for it. */
export interface PartToCut {
  readonly part: Part;
  /** The sheet as it is cut, before rolling; undefined when it can't be laid out, or is cut from a length. */
  readonly blank: Blank | undefined;
  /** Of a piece or strap, mm. */
  readonly length: number | undefined;
}
export interface SheetJob {
  readonly sheet: Sheet;
  readonly question: NestQuestion;
}
export interface LengthJob {
  readonly stock: Stock;
  readonly question: LengthsQuestion;
}
export interface CuttingJob {
  readonly sheets: readonly SheetJob[];
  readonly lengths: readonly LengthJob[];
  /** Parts that are left out, and why. */
  readonly left: readonly { readonly part: string; readonly reason: string }[];
}
export interface CuttingOptions {
  /** Between blanks on a sheet, mm. */
  readonly kerf: number;
  /** Kept free at the edge of every sheet, mm. */
  readonly margin: number;
  /** Turns tried where grain leaves them free, rad. */
  readonly turnStep: number;
  /** How many times the whole job is made. */
  readonly times: number;
}

const keyOf = (thing: { readonly name: string; readonly file: string }): string => `${thing.file}\n${thing.name}`;

export const cuttingJob = (parts: readonly PartToCut[], options: CuttingOptions): CuttingJob => {
  const sheets = new Map<string, { sheet: Sheet; pieces: PieceToNest[] }>();
  const lengths = new Map<string, { stock: Stock; kerf: number; pieces: LengthPiece[] }>();
  const left: { part: string; reason: string }[] = [];
  for (const each of parts) {
    const { part } = each;
    if (part.quantity + part.quantityOpposite === 0) continue;
    if (part.kind === 'panel' || part.kind === 'section') {
      const sheet = part.sheet?.value;
      if (sheet === undefined || each.blank === undefined) {
        left.push({ part: part.name, reason: sheet === undefined ? 'it names no sheet' : 'it can’t be laid out' });
        continue;
      }
      const group = sheets.get(keyOf(sheet)) ?? { sheet, pieces: [] };
      group.pieces.push(...nestPieces(part, each.blank, options));
      sheets.set(keyOf(sheet), group);
    } else if (part.kind === 'piece' || part.kind === 'strap') {
      const stock = part.stock?.value;
      if (stock === undefined || each.length === undefined) {
        left.push({ part: part.name, reason: stock === undefined ? 'it names no stock' : 'its length is not known' });
        continue;
      }
      const kerf = Math.max(0, ...part.saws.map((saw) => saw.kerf ?? 0));
      const group = lengths.get(keyOf(stock)) ?? { stock, kerf, pieces: [] };
      group.kerf = Math.max(group.kerf, kerf);
      group.pieces.push({
        id: part.name,
        length: each.length,
        quantity: (part.quantity + part.quantityOpposite) * options.times,
        ...mitreOf(part, stock),
      });
      lengths.set(keyOf(stock), group);
    }
  }
  return {
    sheets: [...sheets.values()].map(({ sheet, pieces }) => ({
      sheet,
      question: { pieces, stock: stockOf(sheet), kerf: options.kerf, margin: options.margin },
    })),
    lengths: [...lengths.values()].map(({ stock, kerf, pieces }) => ({ stock, question: { pieces, stock: lengthsOf(stock), kerf } })),
    left,
  };
};

const mirrored = (loop: Loop): Loop =>
  loop.map((move) =>
    move.kind === 'line'
      ? { kind: 'line', to: { x: -move.to.x, y: move.to.y } }
      : {
          kind: 'arc',
          to: { x: -move.to.x, y: move.to.y },
          centre: { x: -move.centre.x, y: move.centre.y },
          turn: move.turn === 'left' ? 'right' : 'left',
        },
  );
/** A loop run the other way round. */
const reversed = (loop: Loop): Loop =>
  loop
    .map((move, i): Loop[number] => {
      const to = (loop[(i + loop.length - 1) % loop.length] as Loop[number]).to;
      return move.kind === 'line'
        ? { kind: 'line', to }
        : { kind: 'arc', to, centre: move.centre, turn: move.turn === 'left' ? 'right' : 'left' };
    })
    .reverse();

const nestPieces = (part: Part, blank: Blank, options: CuttingOptions): readonly PieceToNest[] => {
  const common = {
    grain: part.grain?.value ?? 'any',
    turnStep: options.turnStep,
    ...(part.face === 'either' ? { mayTurnOver: true } : {}),
  } as const;
  const holes = blank.cutouts.map(({ loop }) => loop);
  const drawn: PieceToNest = { id: part.name, outline: blank.outline, holes, quantity: part.quantity * options.times, ...common };
  const opposite: PieceToNest = {
    id: `${part.name} (opposite hand)`,
    outline: reversed(mirrored(blank.outline)),
    holes: holes.map((hole) => reversed(mirrored(hole))),
    quantity: part.quantityOpposite * options.times,
    ...common,
  };
  return [drawn, opposite].filter(({ quantity }) => quantity > 0);
};

/** The second size of a sheet runs with its grain. Remnants first, then what is stocked, then what can be bought. */
const stockOf = (sheet: Sheet): readonly SheetStock[] => {
  const sized = (id: string, size: { readonly width: number; readonly height: number }, more: Partial<SheetStock>): SheetStock => ({
    id,
    width: size.width,
    height: size.height,
    grain: 'y',
    ...more,
  });
  const offcuts = (sheet.offcuts ?? []).map((each, i) =>
    sized(`${sheet.name}, offcut ${i + 1}`, each, { count: each.count, offcut: true }),
  );
  const whole = [
    ...(sheet.size === undefined ? [] : [{ ...sheet.size, price: sheet.price }]),
    ...(sheet.sizes ?? []).map(({ width, height, price }) => ({ width, height, price })),
  ];
  return [...offcuts, ...whole.map((size) => sized(sheet.name, size, size.price === undefined ? {} : { price: size.price }))];
};
const lengthsOf = (stock: Stock): readonly LengthStock[] => [
  ...stock.offcuts.map(
    (each, i): LengthStock => ({ id: `${stock.name}, offcut ${i + 1}`, length: each.width, count: each.count, offcut: true }),
  ),
  ...(stock.length === undefined
    ? []
    : [{ id: stock.name, length: stock.length, ...(stock.price === undefined ? {} : { price: stock.price }) }]),
];

/** Both ends mitred alike in the same plane, in stock that can be turned over: a row of them shares its cuts. Angle can't be turned over. */
const mitreOf = (part: Part, stock: Stock): Pick<LengthPiece, 'mitre'> => {
  if (part.kind !== 'piece' || stock.shape === undefined || stock.shape.kind === 'angle') return {};
  const { startEnd: a, finishEnd: b } = part;
  if (a.kind !== 'mitre' || b.kind !== 'mitre' || Math.abs(a.angle - b.angle) > 1e-6 || Math.abs(a.turned - b.turned) > 1e-6) return {};
  const across = acrossMitre(stock.shape, a.turned);
  return { mitre: { name: `${((a.angle * 180) / Math.PI).toFixed(2)} ${across.toFixed(3)}`, run: mitreRun(across, a.angle) } };
};

/** One line of the bill of materials. */
export interface BillRow {
  readonly what: string;
  readonly size: string;
  readonly kind: 'sheet' | 'length';
  /** Whole ones the job takes, remnants not counted. */
  readonly needed: number;
  /** Of those, how many are at hand. */
  readonly stocked: number;
  readonly toBuy: number;
  readonly remnants: number;
  /** Of all that is taken, kg; undefined without a density. */
  readonly mass: number | undefined;
  /** Each, and for what is to be bought; undefined without a price. */
  readonly price: number | undefined;
  readonly cost: number | undefined;
}
export interface SheetOutcome {
  readonly job: SheetJob;
  readonly result: NestResult;
}
export interface LengthOutcome {
  readonly job: LengthJob;
  readonly result: LengthsResult;
}

/** What has to be there, and what has to be bought. */
export const billOf = (
  sheets: readonly SheetOutcome[],
  lengths: readonly LengthOutcome[],
  say: { readonly size: (width: number, height: number) => string; readonly length: (mm: number) => string },
): readonly BillRow[] => [
  ...sheets.flatMap(({ job: { sheet }, result }) => {
    const sizes = new Map<string, { width: number; height: number; count: number; price: number | undefined }>();
    for (const each of result.sheets) {
      if (each.offcut) continue;
      const key = `${each.width} ${each.height}`;
      const known = sizes.get(key) ?? { width: each.width, height: each.height, count: 0, price: each.price };
      known.count++;
      sizes.set(key, known);
    }
    const remnants = result.sheets.filter(({ offcut }) => offcut).length;
    const rows = [...sizes.values()].map(({ width, height, count, price }): BillRow => {
      const own = [{ ...sheet.size, stocked: sheet.stocked }, ...(sheet.sizes ?? [])].find(
        (size) => size.width === width && size.height === height,
      );
      const density = sheet.material?.density;
      const mass = density === undefined ? undefined : count * width * height * sheet.thickness * density * 1e-9;
      return billRow(sheet.name, say.size(width, height), 'sheet', count, own?.stocked ?? 0, 0, mass, price);
    });
    return remnants === 0 ? rows : [...rows, billRow(sheet.name, 'remnants', 'sheet', 0, 0, remnants, undefined, undefined)];
  }),
  ...lengths.flatMap(({ job: { stock }, result }) => {
    const whole = result.cuts.filter(({ stock: id }) => id === stock.name).reduce((sum, { times }) => sum + times, 0);
    const remnants = result.cuts.filter(({ stock: id }) => id !== stock.name).reduce((sum, { times }) => sum + times, 0);
    const density = stock.material?.density;
    const mass =
      density === undefined || stock.shape === undefined || stock.length === undefined
        ? undefined
        : whole * stock.length * sectionArea(stock.shape) * density * 1e-9;
    const rows =
      whole === 0 ? [] : [billRow(stock.name, say.length(stock.length ?? 0), 'length', whole, stock.stocked ?? 0, 0, mass, stock.price)];
    return remnants === 0 ? rows : [...rows, billRow(stock.name, 'remnants', 'length', 0, 0, remnants, undefined, undefined)];
  }),
];

const billRow = (
  what: string,
  size: string,
  kind: BillRow['kind'],
  needed: number,
  atHand: number,
  remnants: number,
  mass: number | undefined,
  price: number | undefined,
): BillRow => {
  const stocked = Math.min(needed, atHand);
  const toBuy = needed - stocked;
  return { what, size, kind, needed, stocked, toBuy, remnants, mass, price, cost: price === undefined ? undefined : price * toBuy };
};
