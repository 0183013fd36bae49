/** The question with every copy of every piece as an item of its own, and the sheets measured in grid units. */
import type { NestQuestion, SheetStock, StripStock, Unplaced } from '../types.js';
import { type Bank, bankOf, type Turn } from './bank.js';
import type { Item } from './layout.js';
import type { Shape } from './nofit.js';
import { UNITS } from './outlines.js';

/** One sheet of a stock, less its margin, plus half a kerf all round because the shapes have grown by as much. */
export interface Field {
  readonly sheet: SheetStock;
  readonly width: number; // grid units
  readonly height: number;
  /** What using it costs, for comparing; 0 for an offcut. */
  readonly cost: number;
  /** Sheets of the kind there are. */
  readonly count: number;
  /** By instance: the shapes it may take here. */
  readonly items: readonly Item[];
  readonly turns: readonly (readonly Turn[])[]; // by piece
}

export interface Instance {
  readonly piece: number;
  readonly copy: number;
  /** Area with the kerf, holes filled, grid units². */
  readonly room: number;
  /** The same less the holes. */
  readonly body: number;
}

export interface Task {
  readonly question: NestQuestion;
  readonly bank: Bank;
  /** Copies that fit somewhere. */
  readonly instances: readonly Instance[];
  readonly fields: readonly Field[];
  readonly unplaced: readonly Unplaced[];
}

const usable = (size: number, question: NestQuestion): number => Math.floor((size - 2 * question.margin + question.kerf) * UNITS + 1e-3);

/** A strip as a sheet of no end. */
const stripAsSheet = (strip: StripStock): SheetStock => ({
  id: strip.id,
  width: Number.POSITIVE_INFINITY,
  height: strip.width,
  count: 1,
  ...(strip.grain === undefined ? {} : { grain: strip.grain }),
});

export const isStrip = (stock: NestQuestion['stock']): stock is StripStock => !Array.isArray(stock);

export const taskOf = (question: NestQuestion): Task => {
  const bank = bankOf(question);
  const sheets = isStrip(question.stock) ? [stripAsSheet(question.stock)] : question.stock;
  const priced = sheets.filter((sheet) => sheet.price !== undefined && sheet.offcut !== true);
  const rates = priced.map((sheet) => (sheet.price as number) / (sheet.width * sheet.height));
  const rate = rates.length === 0 ? 1 : rates.reduce((sum, r) => sum + r, 0) / rates.length;
  const bare = sheets.map((sheet) => ({
    sheet,
    width: usable(sheet.width, question),
    height: usable(sheet.height, question),
    cost: sheet.offcut === true ? 0 : (sheet.price ?? rate * sheet.width * sheet.height),
    count: sheet.count ?? (sheet.offcut === true ? 1 : Number.POSITIVE_INFINITY),
    turns: bank.turns(sheet.grain),
  }));
  const unplaced: Unplaced[] = bank.withoutOutline.map((piece) => ({ reason: 'no outline', id: piece.id, count: piece.quantity }));
  const instances: Instance[] = [];
  bank.pieces.forEach(({ piece, room, body }, index) => {
    const nearest = nearestMiss(bank, bare, index);
    if (nearest === undefined) {
      for (let copy = 0; copy < piece.quantity; copy++) instances.push({ piece: index, copy, room, body });
    } else unplaced.push({ ...nearest, id: piece.id, count: piece.quantity });
  });
  const fields = bare.map((field): Field => {
    const ofPiece = field.turns.map(
      (turns): Item => ({
        shapes: turns.map((turn) => turn.shape).filter((shape) => fitsIn(bank.noFits.shapes[shape] as Shape, field)),
      }),
    );
    return { ...field, items: instances.map((instance) => ofPiece[instance.piece] as Item) };
  });
  return { question, bank, instances, fields, unplaced };
};

const fitsIn = (shape: Shape, field: { readonly width: number; readonly height: number }): boolean =>
  shape.width <= field.width && shape.height <= field.height;

type Miss =
  | { readonly reason: 'too large'; readonly stock: string; readonly overWidth: number; readonly overHeight: number }
  | { readonly reason: 'no stock' };

/** The stock and turn in which a piece comes nearest to fitting; undefined when it fits somewhere. */
const nearestMiss = (bank: Bank, fields: readonly Omit<Field, 'items'>[], piece: number): Miss | undefined => {
  let nearest: Miss = { reason: 'no stock' };
  let least = Number.POSITIVE_INFINITY;
  for (const field of fields) {
    for (const turn of field.turns[piece] ?? []) {
      const shape = bank.noFits.shapes[turn.shape] as Shape;
      if (field.count > 0 && fitsIn(shape, field)) return undefined;
      const overWidth = Math.max(0, shape.width - field.width) / UNITS;
      const overHeight = Math.max(0, shape.height - field.height) / UNITS;
      if (field.count > 0 && overWidth + overHeight < least) {
        least = overWidth + overHeight;
        nearest = { reason: 'too large', stock: field.sheet.id, overWidth, overHeight };
      }
    }
  }
  return nearest;
};
