/** Ways of filling one length with pieces. */
import type { LengthPiece, LengthStock, LengthsQuestion } from '../lengths.js';

/** How often each piece is cut from one length of a stock, by the indices of both. */
export interface Filling {
  readonly stock: number;
  readonly counts: readonly number[];
}

/** Length that a set of pieces takes on the bar, cuts between them included, and a square one after the last: a wider cut comes last and runs off the end. */
export const taken = (pieces: readonly LengthPiece[], counts: readonly number[], kerf: number): number => {
  let sum = 0;
  let widest = kerf;
  const runs = new Map<string, number>();
  pieces.forEach((piece, i) => {
    const count = counts[i] ?? 0;
    if (count === 0) return;
    const run = piece.mitre?.run ?? 0;
    const cut = piece.cut ?? kerf;
    sum += count * (piece.length - run + cut);
    widest = Math.max(widest, cut);
    // The row of shared mitres ends in one slope more than it has pieces.
    if (piece.mitre !== undefined) runs.set(piece.mitre.name, Math.max(runs.get(piece.mitre.name) ?? 0, run));
  });
  for (const run of runs.values()) sum += run;
  return sum - (widest - kerf);
};

/** What `taken` may come to on a stock: the cut after the last piece may run off the end. */
export const roomOn = (stock: LengthStock, question: LengthsQuestion): number => stock.length - (question.endTrim ?? 0) + question.kerf;
const slack = 1e-6;

/** A filling with every further piece that still finds room, longest first. */
export const filledUp = (pieces: readonly LengthPiece[], filling: Filling, question: LengthsQuestion): Filling => {
  const counts = [...filling.counts];
  const room = roomOn(question.stock[filling.stock] as LengthStock, question);
  for (const i of longestFirst(pieces)) {
    while ((counts[i] ?? 0) < (pieces[i] as LengthPiece).quantity) {
      counts[i] = (counts[i] ?? 0) + 1;
      if (taken(pieces, counts, question.kerf) <= room + slack) continue;
      counts[i] = (counts[i] ?? 0) - 1;
      break;
    }
  }
  return { stock: filling.stock, counts };
};

const longestFirst = (pieces: readonly LengthPiece[]): readonly number[] =>
  pieces.map((_, i) => i).sort((a, b) => (pieces[b] as LengthPiece).length - (pieces[a] as LengthPiece).length);

/**
 * All fillings of one stock that no further piece fits into; the others are contained in one of these.
 *
 * @returns undefined when there are more than `most`
 */
export const everyFilling = (
  pieces: readonly LengthPiece[],
  stock: number,
  question: LengthsQuestion,
  most: number,
): readonly Filling[] | undefined => {
  const room = roomOn(question.stock[stock] as LengthStock, question);
  const order = longestFirst(pieces);
  const found: Filling[] = [];
  const counts = pieces.map(() => 0);
  // Looking costs too: a bar of small pieces has many ways that come to nothing new.
  let looks = 0;
  const fits = (): boolean => taken(pieces, counts, question.kerf) <= room + slack;
  const walk = (depth: number): boolean => {
    if (found.length > most || ++looks > most * 40) return false;
    const index = order[depth];
    if (index === undefined) {
      const grows = pieces.some((piece, i) => {
        if ((counts[i] ?? 0) >= piece.quantity) return false;
        counts[i] = (counts[i] ?? 0) + 1;
        const fit = fits();
        counts[i] = (counts[i] ?? 0) - 1;
        return fit;
      });
      if (!grows && counts.some((count) => count > 0)) found.push({ stock, counts: [...counts] });
      return true;
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
      if (!walk(depth + 1)) return false;
    }
    counts[index] = 0;
    return true;
  };
  return walk(0) ? found : undefined;
};

/** One length after another filled, longest pieces first, the stock that costs least first; what finds no length is left over. */
export const greedyFillings = (
  pieces: readonly LengthPiece[],
  question: LengthsQuestion,
  cost: (stock: LengthStock) => number,
): readonly { readonly filling: Filling; readonly times: number }[] => {
  const need = pieces.map(({ quantity }) => quantity);
  const order = question.stock
    .map((_, i) => i)
    .sort((a, b) => cost(question.stock[a] as LengthStock) - cost(question.stock[b] as LengthStock));
  const chosen: { filling: Filling; times: number }[] = [];
  for (const stock of order) {
    const each = question.stock[stock] as LengthStock;
    for (let used = 0; used < (each.count ?? 10_000); used++) {
      const wanted = pieces.map((piece, i): LengthPiece => ({ ...piece, quantity: need[i] ?? 0 }));
      const filling = filledUp(wanted, { stock, counts: pieces.map(() => 0) }, question);
      if (filling.counts.every((count) => count === 0)) break;
      filling.counts.forEach((count, i) => {
        need[i] = (need[i] ?? 0) - count;
      });
      chosen.push({ filling, times: 1 });
    }
  }
  return chosen;
};
