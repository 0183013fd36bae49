/**
 * Lengths filled one after another, each with what is worth most; then again with worths corrected by how well each piece went in, round after round: pieces
 * that leave waste behind them are taken earlier next time. No time is measured: the same question has the same answer.
 *
 * Source: sequential value correction, G. Belov and G. Scheithauer, "Setup and open-stacks minimization in one-dimensional stock cutting", INFORMS Journal on
 * Computing 19 (2007), from memory.
 */
import type { LengthPiece, LengthStock, LengthsQuestion } from '../lengths.js';
import { bestFilling, type Ruler } from './best-filling.js';
import { type Filling, roomOn, taken } from './fillings.js';

export interface Filled {
  readonly filling: Filling;
  readonly times: number;
}

/** Longer pieces are worth a little more than their length: they are the harder to place. */
const power = 1.03;

/** Everything filled once; undefined worths start from the lengths. */
const fillAll = function* (
  pieces: readonly LengthPiece[],
  question: LengthsQuestion,
  ruler: Ruler,
  worth: number[],
  pull: number,
  cost: (stock: LengthStock) => number,
): Generator<undefined, readonly Filled[]> {
  const need = pieces.map(({ quantity }) => quantity);
  const left = question.stock.map(({ count, offcut }) => count ?? (offcut === true ? 1 : Number.POSITIVE_INFINITY));
  const remnants = question.stock
    .map((_, s) => s)
    .filter((s) => question.stock[s]?.offcut === true)
    .sort((a, b) => (question.stock[a]?.length ?? 0) - (question.stock[b]?.length ?? 0));
  const whole = question.stock.map((_, s) => s).filter((s) => question.stock[s]?.offcut !== true);
  const done: Filled[] = [];
  while (need.some((count) => count > 0)) {
    const wanted = pieces.map((piece, i): LengthPiece => ({ ...piece, quantity: need[i] ?? 0 }));
    const open = [...remnants, ...whole].filter((s) => (left[s] ?? 0) > 0);
    const next = open.find((s) => question.stock[s]?.offcut === true);
    const tried = (next === undefined ? open : [next]).flatMap((s) => {
      const { filling } = bestFilling(wanted, worth, s, question, ruler, 'up');
      const used = taken(pieces, filling.counts, question.kerf);
      return filling.counts.every((count) => count === 0)
        ? []
        : [{ s, filling, used, rate: cost(question.stock[s] as LengthStock) / used }];
    });
    tried.sort((a, b) => a.rate - b.rate);
    const [chosen] = tried;
    if (chosen === undefined) {
      // Nothing goes on this remnant, or on anything.
      if (next === undefined) break;
      left[next] = 0;
      continue;
    }
    const { s, filling, used } = chosen;
    const most = Math.min(left[s] ?? 0, ...filling.counts.flatMap((count, i) => (count > 0 ? [Math.floor((need[i] ?? 0) / count)] : [])));
    // Of many alike only half at a time: what is right for all of them may be wrong for the last.
    const times = Math.max(1, Math.floor(most / 2));
    done.push({ filling, times });
    left[s] = (left[s] ?? 0) - times;
    const room = roomOn(question.stock[s] as LengthStock, question);
    filling.counts.forEach((count, i) => {
      if (count === 0) return;
      need[i] = (need[i] ?? 0) - count * times;
      const share = pull * count;
      const fresh = (pieces[i] as LengthPiece).length ** power * (room / Math.max(used, 1e-9));
      worth[i] = ((worth[i] as number) + share * fresh) / (1 + share);
    });
    yield undefined;
  }
  return done;
};

/** One way of cutting everything per round, until the asker has had enough. */
export const correctedFillings = function* (
  pieces: readonly LengthPiece[],
  question: LengthsQuestion,
  ruler: Ruler,
  rounds: number,
  cost: (stock: LengthStock) => number,
): Generator<readonly Filled[] | undefined, void> {
  const worth = pieces.map(({ length }) => length ** power);
  for (let round = 0; round < rounds; round++) {
    const filling = fillAll(pieces, question, ruler, worth, 0.05 + 0.1 * (round % 5), cost);
    let step = filling.next();
    while (step.done !== true) {
      yield undefined;
      step = filling.next();
    }
    yield step.value;
  }
};
