/**
 * Cutting tube, bar and rod from whole lengths with the least bought: every way of filling a length is listed, and a mixed-integer programme says how often
 * each is cut. At the sizes of a shop the answer is proven least; where the list had to be cut short the answer carries the bound it is known to lie near.
 */

/** A solver of mixed-integer programmes, handed in by whoever may load one. The model is in the LP text format; the answer holds the columns by name. */
export interface Solver {
  readonly solve: (model: string) => {
    readonly optimal: boolean;
    readonly columns: Readonly<Record<string, number>>;
    readonly bound: number;
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

/** Ways of filling one length looked at before the list is cut short. */
const mostPatterns = 20_000;

interface Pattern {
  readonly stock: LengthStock;
  /** By index of the piece. */
  readonly counts: readonly number[];
}

/** Length that a set of pieces takes on the bar, cuts between them and after the last included. */
const taken = (pieces: readonly LengthPiece[], counts: readonly number[], kerf: number): number => {
  let sum = 0;
  const runs = new Map<string, number>();
  pieces.forEach((piece, i) => {
    const count = counts[i] ?? 0;
    if (count === 0) return;
    const run = piece.mitre?.run ?? 0;
    sum += count * (piece.length - run + kerf);
    // The row of shared mitres ends in one slope more than it has pieces.
    if (piece.mitre !== undefined) runs.set(piece.mitre.name, Math.max(runs.get(piece.mitre.name) ?? 0, run));
  });
  for (const run of runs.values()) sum += run;
  return sum;
};

/** All maximal fillings of one length, longest pieces first. */
const patternsOf = (
  pieces: readonly LengthPiece[],
  stock: LengthStock,
  question: LengthsQuestion,
  most: number,
): { readonly patterns: readonly Pattern[]; readonly whole: boolean } => {
  const room = stock.length - (question.endTrim ?? 0) + question.kerf;
  const order = pieces.map((_, i) => i).sort((a, b) => (pieces[b] as LengthPiece).length - (pieces[a] as LengthPiece).length);
  const patterns: Pattern[] = [];
  const counts = pieces.map(() => 0);
  let whole = true;
  const fits = (): boolean => taken(pieces, counts, question.kerf) <= room + 1e-6;
  const walk = (depth: number): void => {
    if (patterns.length >= most) {
      whole = false;
      return;
    }
    const index = order[depth];
    if (index === undefined) {
      // Only fillings that no further piece fits into are kept; the others are contained in one of these.
      const grows = pieces.some((piece, i) => {
        if ((counts[i] ?? 0) >= piece.quantity) return false;
        counts[i] = (counts[i] ?? 0) + 1;
        const fit = fits();
        counts[i] = (counts[i] ?? 0) - 1;
        return fit;
      });
      if (!grows && counts.some((count) => count > 0)) patterns.push({ stock, counts: [...counts] });
      return;
    }
    const piece = pieces[index] as LengthPiece;
    let highest = 0;
    while (highest < piece.quantity) {
      counts[index] = highest + 1;
      if (!fits()) break;
      highest++;
    }
    for (let count = highest; count >= 0; count--) {
      counts[index] = count;
      walk(depth + 1);
    }
    counts[index] = 0;
  };
  walk(0);
  return { patterns, whole };
};

/** A remnant used up spares a whole length for next time: worth a little, never as much as anything bought. */
const costOf = (stock: LengthStock): number => (stock.offcut === true ? -stock.length * 1e-6 : (stock.price ?? stock.length));

/** The LP text of the choice: least cost, every piece cut often enough, no stock taken more often than it is there. */
const modelOf = (pieces: readonly LengthPiece[], stocks: readonly LengthStock[], patterns: readonly Pattern[]): string => {
  const sum = (terms: readonly (readonly [number, string])[]): string =>
    terms.map(([factor, name]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`).join('\n  ');
  const columns = patterns.map((_, i) => `x${i}`);
  const demand = pieces.map((piece, p) => {
    const terms = patterns.flatMap(({ counts }, i): readonly (readonly [number, string])[] =>
      (counts[p] ?? 0) > 0 ? [[counts[p] as number, columns[i] as string]] : [],
    );
    return `d${p}: ${sum(terms)} >= ${piece.quantity}`;
  });
  const limits = stocks.flatMap((stock, s) => {
    if (stock.count === undefined) return [];
    const terms = patterns.flatMap((pattern, i): readonly (readonly [number, string])[] =>
      pattern.stock === stock ? [[1, columns[i] as string]] : [],
    );
    return terms.length === 0 ? [] : [`s${s}: ${sum(terms)} <= ${stock.count}`];
  });
  return [
    'Minimize',
    `cost: ${sum(patterns.map(({ stock }, i) => [costOf(stock), columns[i] as string]))}`,
    'Subject To',
    ...demand,
    ...limits,
    'General',
    columns.join('\n'),
    'End',
    '',
  ].join('\n');
};

/** The least that can be bought for these pieces. Never fails: what cannot be cut is among `unplaced`. */
export const cutLengths = (question: LengthsQuestion, solver: Solver): LengthsResult => {
  const { stock, kerf } = question;
  const trim = question.endTrim ?? 0;
  const longest = Math.max(0, ...stock.map(({ length }) => length - trim));
  const fitting = question.pieces.filter(({ length, quantity }) => quantity > 0 && length <= longest + 1e-6);
  const tooLong = question.pieces.filter(({ length, quantity }) => quantity > 0 && length > longest + 1e-6);
  const unplaced = tooLong.map(({ id, quantity }) => ({ id, count: quantity, reason: 'too long' as const }));
  if (fitting.length === 0) return { cuts: [], unplaced, proven: true, bought: 0, price: 0, utilisation: 0 };
  const share = Math.max(50, Math.floor(mostPatterns / stock.length));
  const listed = stock.map((each) => patternsOf(fitting, each, question, share));
  const patterns = listed.flatMap((each) => each.patterns);
  const whole = listed.every((each) => each.whole);
  const solved = solver.solve(modelOf(fitting, stock, patterns));
  const chosen = solved.optimal
    ? patterns.flatMap((pattern, i) => {
        const times = Math.round(solved.columns[`x${i}`] ?? 0);
        return times > 0 ? [{ pattern, times }] : [];
      })
    : greedy(fitting, stock, question);
  return settle(fitting, chosen, kerf, trim, unplaced, solved.optimal && whole);
};

/** Where the lengths at hand do not suffice for everything, the longest pieces are cut first. */
const greedy = (
  pieces: readonly LengthPiece[],
  stock: readonly LengthStock[],
  question: LengthsQuestion,
): readonly { readonly pattern: Pattern; readonly times: number }[] => {
  const need = pieces.map(({ quantity }) => quantity);
  const order = pieces.map((_, i) => i).sort((a, b) => (pieces[b] as LengthPiece).length - (pieces[a] as LengthPiece).length);
  const chosen: { pattern: Pattern; times: number }[] = [];
  for (const each of [...stock].sort((a, b) => costOf(a) - costOf(b))) {
    for (let taken1 = 0; taken1 < (each.count ?? 10_000); taken1++) {
      const counts = pieces.map(() => 0);
      for (const index of order) {
        while ((counts[index] ?? 0) < (need[index] ?? 0)) {
          counts[index] = (counts[index] ?? 0) + 1;
          if (taken(pieces, counts, question.kerf) <= each.length - (question.endTrim ?? 0) + question.kerf + 1e-6) continue;
          counts[index] = (counts[index] ?? 0) - 1;
          break;
        }
      }
      if (counts.every((count) => count === 0)) break;
      counts.forEach((count, i) => {
        need[i] = (need[i] ?? 0) - count;
      });
      chosen.push({ pattern: { stock: each, counts }, times: 1 });
    }
  }
  return chosen;
};

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
  // Pieces that share a mitre follow one another; the longest lead within their kind.
  const order = pieces
    .map((piece, i) => ({ piece, i }))
    .sort((a, b) => (a.piece.mitre?.name ?? '').localeCompare(b.piece.mitre?.name ?? '') || b.piece.length - a.piece.length);
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
      end = Math.max(end, at + piece.length + kerf);
      at += piece.length - (piece.mitre?.run ?? 0) + kerf;
      over = piece.mitre !== undefined && !over;
    }
  }
  return { stock: stock.id, length: stock.length, times: 1, pieces: placed, left: Math.max(0, stock.length - end) };
};
