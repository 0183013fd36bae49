/** From the parts of a job to what is to be cut: blanks to nest by sheet, pieces to cut by stock, and the bill of it all. */
import type { Blank } from '../blank/types.js';
import type { Part } from '../model/part.js';
import type { Sheet, SheetSize, Stock } from '../model/shop.js';
import { placeLoop, reversed } from '../shape/index.js';
import type { Loop } from '../shape/path.js';
import { acrossMitre, mitreRun } from '../trade/tube.js';
import type { LengthPiece, LengthStock, LengthsQuestion } from './lengths.js';
import { distinctNames, type Named } from './naming.js';
import type { NestQuestion, PieceToNest, SheetStock } from './types.js';

/** A part with what is cut for it. */
export interface PartToCut {
  readonly part: Part;
  /** The sheet as it is cut, before rolling; undefined when it can't be laid out, or is cut from a length. */
  readonly blank: Blank | undefined;
  /** Of a piece or strap, mm. */
  readonly length: number | undefined;
  /** Of a piece or strap as cut, kg. */
  readonly mass?: number | undefined;
  /** Sign of the money in which what it is cut from is priced. */
  readonly currency?: string | undefined;
}
export interface SheetJob {
  readonly sheet: Sheet;
  /** What it is called in this job: its name, with its file's where two shops have one of that name. */
  readonly name: string;
  readonly currency: string;
  readonly question: NestQuestion;
}
export interface LengthJob {
  readonly stock: Stock;
  readonly name: string;
  readonly currency: string;
  readonly question: LengthsQuestion;
}
/** What is made of a part in this job. */
export interface PartCut {
  readonly part: Part;
  readonly name: string;
  /** How many as drawn, and how many of the opposite hand. */
  readonly count: number;
  readonly opposite: number;
  /** What it is cut from. */
  readonly stock: string;
  readonly size:
    | { readonly kind: 'sheet'; readonly width: number; readonly height: number }
    | { readonly kind: 'length'; readonly length: number };
  /** Of one, kg. */
  readonly mass: number | undefined;
}
export interface CuttingJob {
  readonly sheets: readonly SheetJob[];
  readonly lengths: readonly LengthJob[];
  readonly parts: readonly PartCut[];
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

const keyOf = (thing: Named): string => `${thing.file}\n${thing.name}`;
const currencyOf = (parts: readonly PartToCut[]): string => parts.find(({ currency }) => currency !== undefined)?.currency ?? '';
/** Parts cut from one stock, in the order in which the stock is first met. */
const grouped = <S extends Named>(
  parts: readonly PartToCut[],
  stockOfPart: (part: Part) => S | undefined,
): readonly { readonly stock: S; readonly parts: readonly PartToCut[] }[] => {
  const groups = new Map<string, { stock: S; parts: PartToCut[] }>();
  for (const each of parts) {
    const stock = stockOfPart(each.part);
    if (stock === undefined) continue;
    const group = groups.get(keyOf(stock)) ?? { stock, parts: [] };
    group.parts.push(each);
    groups.set(keyOf(stock), group);
  }
  return [...groups.values()];
};
const sheetUnder = (part: Part): Sheet | undefined => (part.kind === 'panel' || part.kind === 'section' ? part.sheet?.value : undefined);
const stockUnder = (part: Part): Stock | undefined => (part.kind === 'piece' || part.kind === 'strap' ? part.stock?.value : undefined);

/** Why a part can't be cut; undefined when it can. */
const hindrance = ({ part, blank, length }: PartToCut): string | undefined => {
  if (part.kind === 'panel' || part.kind === 'section') {
    if (sheetUnder(part) === undefined) return 'it names no sheet';
    return blank === undefined ? 'it can’t be laid out' : undefined;
  }
  if (stockUnder(part) === undefined) return 'it names no stock';
  return length === undefined ? 'its length is not known' : undefined;
};

/** Parts that are nothing to cut (assemblies, surveys) and those of which none are wanted are passed over. */
export const cuttingJob = (parts: readonly PartToCut[], options: CuttingOptions): CuttingJob => {
  const wanted = parts.filter(
    ({ part }) => part.kind !== 'survey' && part.kind !== 'assembly' && part.quantity + part.quantityOpposite > 0,
  );
  const nameOf = distinctNames(wanted.map(({ part }) => part));
  const able = wanted.filter((each) => hindrance(each) === undefined);
  const sheets = grouped(able, sheetUnder);
  const lengths = grouped(able, stockUnder);
  const stockName = distinctNames([...sheets, ...lengths].map(({ stock }) => stock));
  return {
    sheets: sheets.map(
      ({ stock: sheet, parts: own }): SheetJob => ({
        sheet,
        name: stockName(sheet),
        currency: currencyOf(own),
        question: {
          pieces: own.flatMap(({ part, blank }) => (blank === undefined ? [] : nestPieces(part, nameOf(part), blank, options))),
          stock: stockOf(sheet, stockName(sheet)),
          kerf: options.kerf,
          margin: options.margin,
        },
      }),
    ),
    lengths: lengths.map(({ stock, parts: own }): LengthJob => {
      // The widest cut of any saw in sight: a piece may come out a hair long, never short.
      const kerf = Math.max(0, ...own.flatMap(({ part }) => part.saws.map((saw) => saw.kerf ?? 0)));
      return {
        stock,
        name: stockName(stock),
        currency: currencyOf(own),
        question: {
          pieces: own.map(
            ({ part, length }): LengthPiece => ({
              id: nameOf(part),
              length: length ?? 0,
              quantity: (part.quantity + part.quantityOpposite) * options.times,
              ...mitreOf(part, stock),
              ...slantOf(part, kerf),
            }),
          ),
          stock: lengthsOf(stock, stockName(stock)),
          kerf,
        },
      };
    }),
    parts: able.map(({ part, blank, length, mass }): PartCut => {
      const stock = sheetUnder(part) ?? stockUnder(part);
      return {
        part,
        name: nameOf(part),
        count: part.quantity * options.times,
        opposite: part.quantityOpposite * options.times,
        stock: stock === undefined ? '' : stockName(stock),
        size: blank === undefined ? { kind: 'length', length: length ?? 0 } : { kind: 'sheet', width: blank.width, height: blank.height },
        mass: blank === undefined ? mass : blank.mass,
      };
    }),
    left: wanted.flatMap((each) => {
      const reason = hindrance(each);
      return reason === undefined ? [] : [{ part: nameOf(each.part), reason }];
    }),
  };
};

/** The same piece seen from behind, running anticlockwise again. */
const seenFromBehind = (loop: Loop): Loop => reversed(placeLoop({ cos: -1, sin: 0, tx: 0, ty: 0, mirrored: true }, loop));

const nestPieces = (part: Part, name: string, blank: Blank, options: CuttingOptions): readonly PieceToNest[] => {
  const common = {
    grain: part.grain?.value ?? 'any',
    turnStep: options.turnStep,
    ...(part.face === 'either' ? { mayTurnOver: true } : {}),
  } as const;
  const holes = blank.cutouts.map(({ loop }) => loop);
  const drawn: PieceToNest = { id: name, outline: blank.outline, holes, quantity: part.quantity * options.times, ...common };
  const opposite: PieceToNest = {
    id: `${name} (opposite hand)`,
    outline: seenFromBehind(blank.outline),
    holes: holes.map(seenFromBehind),
    quantity: part.quantityOpposite * options.times,
    ...common,
  };
  return [drawn, opposite].filter(({ quantity }) => quantity > 0);
};

/** What is at hand is nearly free: it is used before anything is bought, and as few of it as will do. */
const atHandShare = 1e-3;

/** The second size of a sheet runs with its grain. Remnants first, then whole sheets at hand, then what can be bought for the least. */
const stockOf = (sheet: Sheet, name: string): readonly SheetStock[] => {
  const offcuts = (sheet.offcuts ?? []).map(
    (each, i): SheetStock => ({
      id: `${name}, offcut ${i + 1}`,
      width: each.width,
      height: each.height,
      grain: 'y',
      count: each.count,
      offcut: true,
    }),
  );
  const sizes = sheetSizes(sheet);
  const rates = sizes.flatMap(({ width, height, price }) => (price === undefined ? [] : [price / (width * height)]));
  // A size without a price is weighed by its area, at what the others cost.
  const rate = rates.length === 0 ? 1 : rates.reduce((sum, each) => sum + each, 0) / rates.length;
  const whole = sizes.flatMap(({ width, height, price = rate * width * height, stocked = 0 }): readonly SheetStock[] => {
    const kind = { id: name, width, height, grain: 'y' as const };
    return [...(stocked > 0 ? [{ ...kind, count: stocked, price: price * atHandShare }] : []), { ...kind, price }];
  });
  return [...offcuts, ...whole];
};
/** The whole sizes it comes in. */
export const sheetSizes = (sheet: Sheet): readonly SheetSize[] => [
  ...(sheet.size === undefined ? [] : [{ ...sheet.size, price: sheet.price, stocked: sheet.stocked }]),
  ...(sheet.sizes ?? []),
];
const lengthsOf = (stock: Stock, name: string): readonly LengthStock[] => [
  ...stock.offcuts.map((each, i): LengthStock => ({ id: `${name}, offcut ${i + 1}`, length: each.width, count: each.count, offcut: true })),
  ...(stock.length === undefined ? [] : [{ id: name, length: stock.length, ...(stock.price === undefined ? {} : { price: stock.price }) }]),
];

/**
 * A disc set over takes more along the length than it is thick, by the cosine of its angle from square. The steeper of the two ends counts: a piece may be cut
 * either way round.
 */
const slantOf = (part: Part, kerf: number): Pick<LengthPiece, 'cut'> => {
  if (part.kind !== 'piece') return {};
  const steepest = Math.max(0, ...[part.startEnd, part.finishEnd].map((end) => (end.kind === 'mitre' ? Math.abs(end.angle) : 0)));
  return steepest > 0 && kerf > 0 ? { cut: kerf / Math.cos(steepest) } : {};
};

/** Both ends mitred alike in the same plane, in stock that can be turned over: a row of them shares its cuts. Angle can't be turned over. */
const mitreOf = (part: Part, stock: Stock): Pick<LengthPiece, 'mitre'> => {
  if (part.kind !== 'piece' || stock.shape === undefined || stock.shape.kind === 'angle') return {};
  const { startEnd: a, finishEnd: b } = part;
  if (a.kind !== 'mitre' || b.kind !== 'mitre' || Math.abs(a.angle - b.angle) > 1e-6 || Math.abs(a.turned - b.turned) > 1e-6) return {};
  const across = acrossMitre(stock.shape, a.turned);
  return { mitre: { name: `${((a.angle * 180) / Math.PI).toFixed(2)} ${across.toFixed(3)}`, run: mitreRun(across, a.angle) } };
};
