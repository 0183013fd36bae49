/**
 * Which fillings are cut, and how often: a programme whose columns are fillings. Where there are few, all are listed and the whole-number answer is the best
 * there is. Where there are many, only those that can gain are made, one after another, led by what the linear programme says each piece is worth (column
 * generation); the same worths bound from below what any way of cutting must buy.
 *
 * Source: P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9 (1961); the bound from any
 * worths by A. A. Farley, "A note on bounding a class of linear programming problems", Operations Research 38 (1990). Both from memory.
 */
import type { LengthPiece, LengthStock, LengthsQuestion, Solver } from '../lengths.js';
import { type BestFilling, bestFilling, type Ruler, rulerFor } from './best-filling.js';
import { correctedFillings } from './corrected.js';
import { everyFilling, type Filling, filledUp, greedyFillings } from './fillings.js';

export interface Choice {
  readonly chosen: readonly { readonly filling: Filling; readonly times: number }[];
  /** No other way of cutting buys less. */
  readonly proven: boolean;
}

/** More fillings than this are not listed but made as they are wanted. */
const mostListed = 400;
/** Seconds for one whole-number programme. */
const patience = 2;
const mostRounds = 600;
const mostCorrections = 40;

/** What one length costs, in money or in millimetres. */
const costOf = (stock: LengthStock): number => (stock.offcut === true ? 0 : (stock.price ?? stock.length));
/** A remnant used up spares a whole length for next time: worth a little, never as much as anything bought. */
const weightOf = (stock: LengthStock): number => (stock.offcut === true ? -stock.length * 1e-6 : costOf(stock));

const termsOf = (terms: readonly (readonly [number, string])[]): string =>
  terms.map(([factor, name]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`).join('\n  ');

/** LP text: least cost, every piece cut often enough or counted as short, no stock taken more often than it is there. */
const modelOf = (
  pieces: readonly LengthPiece[],
  stock: readonly LengthStock[],
  fillings: readonly Filling[],
  short: number,
  whole: boolean,
): string => {
  const x = fillings.map((_, i) => `x${i}`);
  const y = pieces.map((_, i) => `y${i}`);
  const cost = [
    ...fillings.map((filling, i) => [weightOf(stock[filling.stock] as LengthStock), x[i] as string] as const),
    // The longest are left out last.
    ...pieces.map(({ length }, i) => [short + length, y[i] as string] as const),
  ];
  const demand = pieces.map((piece, p) => {
    const terms = fillings.flatMap(({ counts }, i) => ((counts[p] ?? 0) > 0 ? [[counts[p] as number, x[i] as string] as const] : []));
    return `d${p}: ${termsOf([...terms, [1, y[p] as string]])} >= ${piece.quantity}`;
  });
  const limits = stock.flatMap((each, s) => {
    const terms = fillings.flatMap((filling, i) => (filling.stock === s ? [[1, x[i] as string] as const] : []));
    return each.count === undefined || terms.length === 0 ? [] : [`s${s}: ${termsOf(terms)} <= ${each.count}`];
  });
  const integers = whole ? ['General', [...x, ...y].join('\n')] : [];
  return ['Minimize', `cost: ${termsOf(cost)}`, 'Subject To', ...demand, ...limits, ...integers, 'End', ''].join('\n');
};

interface Problem {
  readonly pieces: readonly LengthPiece[];
  readonly question: LengthsQuestion;
  readonly solver: Solver;
  /** What a piece that is not cut counts: more than all that could be bought. */
  readonly short: number;
  readonly ruler: Ruler;
}

/**
 * The best choice among these fillings.
 *
 * @param enough cost at which the search may end: the least there can be
 */
const wholeChoice = (
  { pieces, question, solver, short }: Problem,
  fillings: readonly Filling[],
  enough?: number,
): { readonly chosen: Choice['chosen']; readonly optimal: boolean } => {
  // Of what costs the same, the choice that uses up the remnants is wanted.
  const spared = question.stock.reduce((sum, stock) => sum + (stock.offcut === true ? (stock.count ?? 1) * weightOf(stock) : 0), 0);
  const target = enough === undefined ? undefined : enough + spared;
  const answer = solver.solve(modelOf(pieces, question.stock, fillings, short, true), patience, target);
  const chosen = fillings.flatMap((filling, i) => {
    const times = Math.round(answer.columns[`x${i}`] ?? 0);
    return times > 0 ? [{ filling, times }] : [];
  });
  return { chosen, optimal: answer.optimal };
};

/** The linear programme's share of each filling, with enough fillings that none other could gain; and the least that must be bought. */
const generate = function* (
  problem: Problem,
  from: readonly Filling[],
): Generator<undefined, { readonly fillings: readonly Filling[]; readonly shares: readonly number[]; readonly bound: number }> {
  const { pieces, question, solver, short, ruler } = problem;
  const fillings = [...from];
  const known = new Set(fillings.map(keyOf));
  let shares: readonly number[] = [];
  let bound = 0;
  for (let round = 0; round < mostRounds; round++) {
    const answer = solver.solve(modelOf(pieces, question.stock, fillings, short, false), patience);
    if (!answer.optimal) break;
    shares = fillings.map((_, i) => answer.columns[`x${i}`] ?? 0);
    const worth = pieces.map((_, p) => Math.max(0, answer.rows[`d${p}`] ?? 0));
    let gained = false;
    for (const [s, stock] of question.stock.entries()) {
      const rent = Math.max(0, -(answer.rows[`s${s}`] ?? 0));
      const best = bestFilling(pieces, worth, s, question, ruler, 'up');
      if (best.worth <= weightOf(stock) + rent + 1e-7 * Math.max(1, costOf(stock))) continue;
      for (const filling of [best.filling, filledUp(pieces, best.filling, question)]) {
        if (known.has(keyOf(filling))) continue;
        known.add(keyOf(filling));
        fillings.push(filling);
        gained = true;
      }
    }
    yield undefined;
    if (!gained || round === mostRounds - 1) {
      bound = leastCost(problem, worth);
      break;
    }
  }
  return { fillings, shares, bound };
};
const keyOf = ({ stock, counts }: Filling): string => `${stock}:${counts.join(',')}`;

/** What any way of cutting must buy at least, whatever the worths are. */
const leastCost = ({ pieces, question, ruler }: Problem, worth: readonly number[]): number => {
  const best = question.stock.map((_, s): BestFilling => bestFilling(pieces, worth, s, question, ruler, 'down'));
  // Worths are lowered until no length that can always be had is filled with more than it costs.
  const share = Math.min(
    1,
    ...question.stock.flatMap((stock, s) => {
      const filled = (best[s] as BestFilling).worth;
      return stock.count === undefined && filled > 0 ? [costOf(stock) / filled] : [];
    }),
  );
  const all = pieces.reduce((sum, piece, p) => sum + piece.quantity * (worth[p] ?? 0), 0);
  const spared = question.stock.reduce((sum, stock, s) => {
    if (stock.count === undefined) return sum;
    return sum + stock.count * Math.max(0, share * (best[s] as BestFilling).worth - costOf(stock));
  }, 0);
  return share * all - spared;
};

/** The least sum of whole prices that is not below a bound. */
const reachable = (costs: readonly number[], bound: number): number => {
  const [cost, ...others] = [...new Set(costs)].filter((each) => each > 0).sort((a, b) => b - a);
  if (bound <= 1e-6) return 0;
  if (cost === undefined) return Number.POSITIVE_INFINITY;
  const most = Math.ceil(bound / cost - 1e-9);
  if (others.length === 0) return most * cost;
  // Many kinds of prices lie as close as can be told apart anyway.
  if (others.length > 3 || most > 500) return bound;
  let least = most * cost;
  for (let count = 0; count < most; count++) least = Math.min(least, count * cost + reachable(others, bound - count * cost));
  return least;
};

const bought = (choice: Choice, question: LengthsQuestion): number =>
  choice.chosen.reduce((sum, { filling, times }) => sum + times * costOf(question.stock[filling.stock] as LengthStock), 0);
/** Pieces that a choice leaves uncut. */
const lacking = (choice: Choice, pieces: readonly LengthPiece[]): number =>
  pieces.reduce(
    (sum, piece, p) =>
      sum + Math.max(0, piece.quantity - choice.chosen.reduce((made, { filling, times }) => made + times * (filling.counts[p] ?? 0), 0)),
    0,
  );

/** What the linear programme takes whole is kept, the rest asked anew: it is small, and often small enough to list. */
const rounded = function* (
  problem: Problem,
  fillings: readonly Filling[],
  shares: readonly number[],
  least: number,
): Generator<undefined, Choice> {
  const { pieces, question } = problem;
  const kept = fillings.flatMap((filling, i) => {
    const times = Math.floor((shares[i] ?? 0) + 1e-6);
    return times > 0 ? [{ filling, times }] : [];
  });
  const rest = pieces.map((piece, p): LengthPiece => {
    const made = kept.reduce((sum, { filling, times }) => sum + times * (filling.counts[p] ?? 0), 0);
    return { ...piece, quantity: Math.max(0, piece.quantity - made) };
  });
  const stock = question.stock.map((each, s): LengthStock => {
    const used = kept.reduce((sum, { filling, times }) => sum + (filling.stock === s ? times : 0), 0);
    return each.count === undefined ? each : { ...each, count: Math.max(0, each.count - used) };
  });
  const remaining = { ...problem, pieces: rest, question: { ...question, stock } };
  const listed = allFillings(remaining, 4 * mostListed);
  const columns = listed ?? (yield* generate(remaining, startFillings(remaining))).fillings;
  const { chosen } = wholeChoice(remaining, columns, least - bought({ chosen: kept, proven: false }, question));
  return { chosen: [...kept, ...chosen], proven: false };
};

const nothing: Choice = { chosen: [], proven: false };

const allFillings = ({ pieces, question }: Problem, most: number): readonly Filling[] | undefined => {
  const all: Filling[] = [];
  for (const stock of question.stock.keys()) {
    const own = everyFilling(pieces, stock, question, most - all.length);
    if (own === undefined) return undefined;
    all.push(...own);
  }
  return all;
};

const startFillings = ({ pieces, question }: Problem): readonly Filling[] => {
  const greedy = greedyFillings(pieces, question, weightOf).map(({ filling }) => filling);
  const single = question.stock.flatMap((_, stock) =>
    pieces.flatMap((piece, p) => {
      const alone = pieces.map((each, i): LengthPiece => (i === p ? piece : { ...each, quantity: 0 }));
      const filling = filledUp(alone, { stock, counts: pieces.map(() => 0) }, question);
      return (filling.counts[p] ?? 0) > 0 ? [filling] : [];
    }),
  );
  return [...new Map([...greedy, ...single].map((filling) => [keyOf(filling), filling])).values()];
};

/** Pauses after each step, of some milliseconds at most times, of a few seconds where whole numbers are hard to find. */
export const chooseFillings = function* (
  pieces: readonly LengthPiece[],
  question: LengthsQuestion,
  solver: Solver,
): Generator<undefined, Choice> {
  const most = pieces.reduce((sum, { quantity }) => sum + quantity, 0) * Math.max(1, ...question.stock.map(costOf));
  const problem: Problem = { pieces, question, solver, short: most + 1, ruler: rulerFor(pieces, question) };
  const { fillings, shares, bound } = yield* generate(problem, startFillings(problem));
  const least = reachable(question.stock.map(costOf), bound - 1e-6 * Math.max(1, bound));
  const tries: (() => Generator<undefined, Choice>)[] = [
    () => atOnce({ chosen: greedyFillings(pieces, question, weightOf), proven: false }),
    () => corrected(problem, least),
    () => rounded(problem, fillings, shares, least),
    () => atOnce({ chosen: wholeChoice(problem, fillings, least).chosen, proven: false }),
    () => {
      const listed = allFillings(problem, mostListed);
      if (listed === undefined) return atOnce(nothing);
      const { chosen, optimal } = wholeChoice(problem, listed, least);
      // Solved over all fillings there are, it is its own proof.
      return atOnce({ chosen, proven: optimal });
    },
  ];
  let best = nothing;
  for (const attempt of tries) {
    const choice = yield* attempt();
    if (isBetter(choice, best, pieces, question)) best = choice;
    const enough = lacking(best, pieces) === 0 && bought(best, question) <= least + 1e-6;
    if (enough && remnantsLeft(best, question) === 0) break;
    yield undefined;
  }
  return { ...best, proven: best.proven || (lacking(best, pieces) === 0 && bought(best, question) <= least + 1e-6) };
};

/** The best of some rounds of filling with corrected worths; ends at what can't be bettered. */
const corrected = function* ({ pieces, question, ruler }: Problem, least: number): Generator<undefined, Choice> {
  let best = nothing;
  for (const chosen of correctedFillings(pieces, question, ruler, mostCorrections, costOf)) {
    yield undefined;
    if (chosen === undefined) continue;
    const choice = { chosen, proven: false };
    if (isBetter(choice, best, pieces, question)) best = choice;
    if (lacking(best, pieces) === 0 && bought(best, question) <= least + 1e-6) break;
  }
  return best;
};

// biome-ignore lint/correctness/useYield: an answer that is there already.
const atOnce = function* (choice: Choice): Generator<undefined, Choice> {
  return choice;
};

const remnantsLeft = (choice: Choice, { stock }: LengthsQuestion): number =>
  stock.reduce((sum, each, s) => {
    if (each.offcut !== true) return sum;
    const used = choice.chosen.reduce((count, { filling, times }) => count + (filling.stock === s ? times : 0), 0);
    return sum + Math.max(0, (each.count ?? 1) - used);
  }, 0);

/** More pieces cut, then less bought, then more of the remnants used up, then proven. */
const isBetter = (a: Choice, b: Choice, pieces: readonly LengthPiece[], question: LengthsQuestion): boolean => {
  const by =
    lacking(a, pieces) - lacking(b, pieces) ||
    (Math.abs(bought(a, question) - bought(b, question)) < 1e-6 ? 0 : bought(a, question) - bought(b, question)) ||
    remnantsLeft(a, question) - remnantsLeft(b, question) ||
    Number(b.proven) - Number(a.proven);
  return by < 0;
};
