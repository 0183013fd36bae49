/**
 * Cutting tube, bar and rod from whole lengths with the least bought. Ways of filling a length are chosen by a whole-number programme (`lengths/choice.ts`);
 * the answer says whether no other way of cutting buys less, which at the sizes of a shop is nearly always proven.
 */
import { mostMitreKinds } from './lengths/best-filling.js';
import { chooseFillings } from './lengths/choice.js';

/** A solver of linear and mixed-integer programmes, handed in by whoever may load one. The model is in the LP text format. */
export interface Solver {
  /**
   * @param seconds after which the best found so far is the answer
   * @param enough  value of the objective at which the search may end
   * @returns columns by name, and for a linear programme what one more of each row's right side would cost
   */
  readonly solve: (
    model: string,
    seconds: number,
    enough?: number,
  ) => {
    readonly optimal: boolean;
    readonly columns: Readonly<Record<string, number>>;
    readonly rows: Readonly<Record<string, number>>;
  };
}

/** One kind of piece to cut. */
export interface LengthPiece {
  readonly id: string;
  /** Over everything, long point to long point, mm. */
  readonly length: number;
  readonly quantity: number;
  /**
   * Both ends mitred alike and leaning against one another, so that a row of them, every other one turned over, shares its cuts: how much shorter each is
   * at its short side (mm), and a name for the mitre that only its like can share. Left out where ends are square or unlike.
   */
  readonly mitre?: { readonly name: string; readonly run: number };
  /** What the cut at its end takes along the length where it slants, mm, alike for all of one mitre; left out where it takes no more than the kerf. */
  readonly cut?: number;
}
export interface LengthStock {
  readonly id: string;
  readonly length: number;
  /** Undefined when more can be had. */
  readonly count?: number;
  /** Of one length; without one, what is bought is weighed by its length. */
  readonly price?: number;
  /** A remnant at hand: costs nothing and is used before anything is bought. */
  readonly offcut?: boolean;
}
export interface LengthsQuestion {
  readonly pieces: readonly LengthPiece[];
  readonly stock: readonly LengthStock[];
  /** What one cut takes, mm. */
  readonly kerf: number;
  /** Cut off the end of every new length to have it square and clean, mm. */
  readonly endTrim?: number;
}
/** One length as it is cut, pieces in order from its end. */
export interface CutLength {
  readonly stock: string;
  readonly length: number;
  /** How many are cut this way. */
  readonly times: number;
  readonly pieces: readonly { readonly id: string; readonly from: number; readonly length: number; readonly turnedOver: boolean }[];
  /** What is left at the end, mm. */
  readonly left: number;
}
export interface LengthsResult {
  readonly cuts: readonly CutLength[];
  /** Pieces that no length is long enough for, or that ran out of lengths. */
  readonly unplaced: readonly { readonly id: string; readonly count: number; readonly reason: 'too long' | 'stock used up' }[];
  /** True when no other way of cutting buys less. */
  readonly proven: boolean;
  /** Whole lengths taken, offcuts not counted. */
  readonly bought: number;
  readonly price: number;
  /** Share of what was taken that ends up in pieces, 0 … 1. */
  readonly utilisation: number;
}

/** The least that can be bought for these pieces. Never fails: what cannot be cut is among `unplaced`. */
export const cutLengths = (question: LengthsQuestion, solver: Solver): LengthsResult => {
  const steps = cutLengthsInSteps(question, solver);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
};

/** The same, pausing now and then, so that something more urgent can come in between. */
export const cutLengthsInSteps = function* (question: LengthsQuestion, solver: Solver): Generator<undefined, LengthsResult> {
  const trim = question.endTrim ?? 0;
  const longest = Math.max(0, ...question.stock.map(({ length }) => length - trim));
  const wanted = withFewMitres(question.pieces.filter(({ quantity }) => quantity > 0));
  const fitting = wanted.filter(({ length }) => length <= longest + 1e-6);
  const unplaced = wanted
    .filter(({ length }) => length > longest + 1e-6)
    .map(({ id, quantity }) => ({ id, count: quantity, reason: 'too long' as const }));
  if (fitting.length === 0) return { cuts: [], unplaced, proven: true, bought: 0, price: 0, utilisation: 0 };
  const { chosen, proven } = yield* chooseFillings(fitting, question, solver);
  const patterns = chosen.map(({ filling, times }) => ({
    pattern: { stock: question.stock[filling.stock] as LengthStock, counts: filling.counts },
    times,
  }));
  return settle(fitting, patterns, question.kerf, trim, unplaced, proven);
};

/** Where many kinds of mitre meet on one stock, the rarer ones are cut one by one, as if they could not lie against one another. */
const withFewMitres = (pieces: readonly LengthPiece[]): readonly LengthPiece[] => {
  const counts = new Map<string, number>();
  for (const { mitre, quantity } of pieces)
    if (mitre !== undefined) counts.set(mitre.name, (counts.get(mitre.name) ?? 0) + quantity * mitre.run);
  const shared = new Set(
    [...counts]
      .sort((a, b) => b[1] - a[1])
      .slice(0, mostMitreKinds)
      .map(([name]) => name),
  );
  return pieces.map(({ mitre, ...piece }) => (mitre === undefined || !shared.has(mitre.name) ? piece : { ...piece, mitre }));
};

interface Pattern {
  readonly stock: LengthStock;
  /** By index of the piece. */
  readonly counts: readonly number[];
}

/** Patterns as cut lengths: pieces that were only filled in are left off, places along the bar worked out, alike lengths told once. */
const settle = (
  pieces: readonly LengthPiece[],
  chosen: readonly { readonly pattern: Pattern; readonly times: number }[],
  kerf: number,
  trim: number,
  before: LengthsResult['unplaced'],
  proven: boolean,
): LengthsResult => {
  const need = pieces.map(({ quantity }) => quantity);
  const rows = new Map<string, CutLength>();
  let [bought, price, inPieces, inStock] = [0, 0, 0, 0];
  const remnantsFirst = [...chosen].sort((a, b) => Number(b.pattern.stock.offcut === true) - Number(a.pattern.stock.offcut === true));
  for (const { pattern, times } of remnantsFirst) {
    for (let time = 0; time < times; time++) {
      const counts = pattern.counts.map((count, i) => Math.min(count, need[i] ?? 0));
      if (counts.every((count) => count === 0)) continue;
      counts.forEach((count, i) => {
        need[i] = (need[i] ?? 0) - count;
        inPieces += count * (pieces[i] as LengthPiece).length;
      });
      const cut = along(pieces, counts, pattern.stock, kerf, trim);
      inStock += pattern.stock.length;
      if (pattern.stock.offcut !== true) {
        bought++;
        price += pattern.stock.price ?? 0;
      }
      const key = `${cut.stock} ${counts.join(' ')}`;
      const known = rows.get(key);
      rows.set(key, known === undefined ? cut : { ...known, times: known.times + 1 });
    }
  }
  const left = pieces.flatMap(({ id }, i) =>
    (need[i] ?? 0) > 0 ? [{ id, count: need[i] as number, reason: 'stock used up' as const }] : [],
  );
  return {
    cuts: [...rows.values()].sort((a, b) => a.stock.localeCompare(b.stock) || a.left - b.left),
    unplaced: [...before, ...left],
    proven: proven && left.length === 0,
    bought,
    price,
    utilisation: inStock === 0 ? 0 : Math.min(1, inPieces / inStock),
  };
};

const along = (pieces: readonly LengthPiece[], counts: readonly number[], stock: LengthStock, kerf: number, trim: number): CutLength => {
  const placed: CutLength['pieces'][number][] = [];
  let at = trim;
  let end = trim;
  const cutOf = (piece: LengthPiece): number => piece.cut ?? kerf;
  // The widest cut comes last, where it runs off the end. Pieces that share a mitre follow one another; the longest lead within their kind.
  const order = pieces
    .map((piece, i) => ({ piece, i }))
    .sort(
      (a, b) =>
        cutOf(a.piece) - cutOf(b.piece) ||
        (a.piece.mitre?.name ?? '').localeCompare(b.piece.mitre?.name ?? '') ||
        b.piece.length - a.piece.length,
    );
  let row: string | undefined;
  let over = false;
  for (const { piece, i } of order) {
    for (let n = 0; n < (counts[i] ?? 0); n++) {
      if (piece.mitre === undefined || piece.mitre.name !== row) {
        at = end;
        over = false;
      }
      row = piece.mitre?.name;
      placed.push({ id: piece.id, from: at, length: piece.length, turnedOver: over });
      end = Math.max(end, at + piece.length + cutOf(piece));
      at += piece.length - (piece.mitre?.run ?? 0) + cutOf(piece);
      over = piece.mitre !== undefined && !over;
    }
  }
  return { stock: stock.id, length: stock.length, times: 1, pieces: placed, left: Math.max(0, stock.length - end) };
};
