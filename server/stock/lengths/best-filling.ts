/**
 * The filling of one length that is worth most, each piece having a worth: the knapsack question, answered exactly by going through the lengths step by step
 * (dynamic programming). Pieces whose mitres are shared take less, but the row of them ends in one slope more; every set of such rows is tried.
 */
import type { LengthPiece, LengthStock, LengthsQuestion } from '../lengths.js';
import { type Filling, roomOn } from './fillings.js';

export interface BestFilling {
  readonly worth: number;
  readonly filling: Filling;
}
/** The step in which lengths are counted, mm. */
export interface Ruler {
  readonly step: number;
}

const steps = [5, 1, 0.5, 0.25, 0.1, 25.4 / 16, 25.4 / 32, 25.4 / 64, 25.4 / 128];
const finest = 30_000;

/** The coarsest step that all lengths are whole numbers of; else one so fine that what rounding costs does not matter at a saw. */
export const rulerFor = (pieces: readonly LengthPiece[], question: LengthsQuestion): Ruler => {
  const rooms = question.stock.map((stock) => roomOn(stock, question));
  const lengths = [
    ...rooms,
    ...pieces.flatMap(({ length, mitre, cut }) => [length - (mitre?.run ?? 0) + (cut ?? question.kerf), mitre?.run ?? 0]),
  ];
  const longest = Math.max(1, ...rooms);
  const exact = steps.find(
    (step) => longest / step <= 2 * finest && lengths.every((length) => Math.abs(length / step - Math.round(length / step)) < 1e-6),
  );
  return { step: exact ?? longest / finest };
};

/** Rows of shared mitres in one length beyond this many kinds are cut as single pieces. */
export const mostMitreKinds = 3;

/**
 * @param worth    of one of each piece, not negative
 * @param rounding `up` never fills a length too full; `down` never finds less than there is, for bounds
 */
export const bestFilling = (
  pieces: readonly LengthPiece[],
  worth: readonly number[],
  stock: number,
  question: LengthsQuestion,
  { step }: Ruler,
  rounding: 'up' | 'down',
): BestFilling => {
  const up = (length: number): number => Math.ceil(length / step - 1e-6);
  const down = (length: number): number => Math.floor(length / step + 1e-6);
  const [weigh, hold] = rounding === 'up' ? [up, down] : [down, up];
  // A slanting cut after the last piece may run off the end as a square one may; a filling is never counted on it, a bound allows for it.
  const beyond = rounding === 'up' ? 0 : Math.max(0, ...pieces.map(({ cut }) => (cut ?? question.kerf) - question.kerf));
  const room = hold(roomOn(question.stock[stock] as LengthStock, question) + beyond);
  const kinds = [...new Set(pieces.flatMap(({ mitre }, i) => (mitre !== undefined && (worth[i] ?? 0) > 0 ? [mitre.name] : [])))];
  let best: BestFilling = { worth: 0, filling: { stock, counts: pieces.map(() => 0) } };
  for (let set = 0; set < 2 ** kinds.length; set++) {
    const rows = new Set(kinds.filter((_, k) => (set >> k) & 1));
    const ends = [...rows].reduce(
      (sum, name) => sum + Math.max(...pieces.flatMap(({ mitre }) => (mitre?.name === name ? [mitre.run] : []))),
      0,
    );
    const items = pieces.flatMap((piece, i) => {
      const allowed = piece.mitre === undefined || rows.has(piece.mitre.name);
      if (!allowed || (worth[i] ?? 0) <= 0) return [];
      return [
        {
          index: i,
          weight: Math.max(1, weigh(piece.length - (piece.mitre?.run ?? 0) + (piece.cut ?? question.kerf))),
          worth: worth[i] as number,
          most: piece.quantity,
        },
      ];
    });
    const found = knapsack(items, room - weigh(ends));
    if (found !== undefined && found.worth > best.worth + 1e-12) {
      const counts = pieces.map(() => 0);
      for (const [index, count] of found.counts) counts[index] = count;
      best = { worth: found.worth, filling: { stock, counts } };
    }
  }
  return best;
};

interface Item {
  readonly index: number;
  readonly weight: number;
  readonly worth: number;
  readonly most: number;
}

const knapsack = (
  items: readonly Item[],
  room: number,
): { readonly worth: number; readonly counts: ReadonlyMap<number, number> } | undefined => {
  if (room <= 0) return undefined;
  // So many of one kind are bundles of 1, 2, 4 … : each bundle is taken or left.
  const bundles = items.flatMap(({ index, weight, worth, most }) => {
    const out: { index: number; count: number; weight: number; worth: number }[] = [];
    let left = Math.min(most, Math.floor(room / weight));
    for (let count = 1; left > 0; count *= 2) {
      const size = Math.min(count, left);
      out.push({ index, count: size, weight: size * weight, worth: size * worth });
      left -= size;
    }
    return out;
  });
  const best = new Float64Array(room + 1);
  const took = bundles.map(() => new Uint8Array(room + 1));
  bundles.forEach((bundle, b) => {
    const row = took[b] as Uint8Array;
    for (let at = room; at >= bundle.weight; at--) {
      const worth = (best[at - bundle.weight] as number) + bundle.worth;
      if (worth > (best[at] as number) + 1e-12) {
        best[at] = worth;
        row[at] = 1;
      }
    }
  });
  const counts = new Map<number, number>();
  let at = room;
  for (let b = bundles.length - 1; b >= 0; b--) {
    if ((took[b] as Uint8Array)[at] !== 1) continue;
    const bundle = bundles[b] as (typeof bundles)[number];
    counts.set(bundle.index, (counts.get(bundle.index) ?? 0) + bundle.count);
    at -= bundle.weight;
  }
  return { worth: best[room] as number, counts };
};
