/** The rounds of the search, for sheets and for a strip, each handing on the best loading so far. */
import { isBox } from './bank.js';
import { type BoxKind, layBoxes, reachableLengths } from './boxes.js';
import type { Laid } from './greedy.js';
import type { Item } from './layout.js';
import type { Shape } from './nofit.js';
import { type Random, shuffled } from './random.js';
import { clearEmptiest, compactEmptiest, isBetter, type Loading, loadInOrder, tradeDown } from './sheets.js';
import { laidFrom, layStrip, reachOf, type StripState, shortenStrip } from './strip.js';
import type { Field, Instance, Task } from './task.js';

export interface SearchStep {
  readonly phase: 'laying out' | 'improving';
  readonly round: number;
  readonly best: Loading;
}

const largestFirst = (task: Task): number[] =>
  task.instances.map((_, i) => i).sort((a, b) => (task.instances[b] as Instance).room - (task.instances[a] as Instance).room || a - b);

/** An order near another: a few pieces come earlier or later. */
const nearOrder = (order: readonly number[], random: Random): number[] => {
  const out = [...order];
  for (let k = 0; k < 1 + Math.floor(out.length / 8); k++) {
    const [taken] = out.splice(random.below(out.length), 1);
    if (taken !== undefined) out.splice(random.below(out.length + 1), 0, taken);
  }
  return out;
};

/** Nothing better can be: everything lies on offcuts, or on one sheet and filled to its end. */
const isPerfect = (loading: Loading): boolean => loading.sheets.length === 0;

/** Sheets are loaded in order of size, then reordered, cleared, traded and pushed together round after round. */
export const searchSheets = function* (task: Task, patience: number, random: Random): Generator<SearchStep, Loading> {
  const nothing: Loading = { sheets: [], left: task.instances.map((_, i) => i) };
  let order = largestFirst(task);
  const loading = loadInOrder(task, order);
  let laid = loading.next();
  while (laid.done !== true) {
    yield { phase: 'laying out', round: 0, best: nothing };
    laid = loading.next();
  }
  let best = laid.value;
  if (isPerfect(best)) return best;
  yield { phase: 'improving', round: 0, best };
  for (let round = 1, idle = 0; idle < patience; round++) {
    let tried: number[] | undefined;
    let moves: Generator<undefined, Loading>;
    const kind = round % 5;
    if (kind === 1) moves = clearEmptiest(task, best, random);
    else if (kind === 2) moves = tradeDown(task, best, random);
    else if (kind === 3) {
      tried = random.next() < 0.2 ? shuffled(order, random) : nearOrder(order, random);
      moves = loadInOrder(task, tried);
    } else moves = compactEmptiest(task, best, kind === 4 ? 'x' : 'y', random);
    let step = moves.next();
    while (step.done !== true) {
      yield { phase: 'improving', round, best };
      step = moves.next();
    }
    if (isBetter(task, step.value, best)) {
      best = step.value;
      if (tried !== undefined) order = tried;
      idle = 0;
    } else idle++;
    yield { phase: 'improving', round, best };
  }
  return best;
};

const asLoading = (members: readonly number[], laid: readonly Laid[]): Loading => ({ sheets: [{ field: 0, members, laid }], left: [] });

const freshStarts = 4;
const failuresWhenFresh = 10;
const failuresAtLength = 60;
const stripEffort = { tries: 6, patience: 500 };

/** One strip, as short as can be. */
export const searchStrip = function* (task: Task, patience: number, random: Random): Generator<SearchStep, Loading> {
  const field = task.fields[0] as Field;
  const { noFits } = task.bank;
  const members = task.instances.map((_, i) => i);
  if (members.length === 0) return { sheets: [], left: [] };
  const { items } = field;
  const boxed = items.every((item) => item.shapes.every((shape) => isBox(noFits.shapes[shape] as Shape)));
  if (boxed) return yield* searchBoxes(task, patience, random);
  const least = task.instances.reduce((sum, { body }) => sum + body, 0) / field.height;
  const order = largestFirst(task);
  let shortest: StripState | undefined;
  let best: Loading = { sheets: [], left: members };
  let round = 0;
  let idle = 0;
  const take = (state: StripState): void => {
    if (shortest !== undefined && state.length >= shortest.length) return;
    shortest = state;
    best = asLoading(members, laidFrom(state.places));
    idle = 0;
  };
  for (let start = 0; idle < patience; start++) {
    // A few fresh starts, as long as each gains easily; then on with the best, longer; and again.
    const fresh = start % (freshStarts + 1) < freshStarts;
    let from = shortest;
    if (fresh || from === undefined) {
      const laying = layStrip(noFits, items, start === 0 ? order : nearOrder(order, random), field.height);
      let laid = laying.next();
      while (laid.done !== true) {
        yield { phase: shortest === undefined ? 'laying out' : 'improving', round, best };
        laid = laying.next();
      }
      from = { places: laid.value, length: reachOf(noFits, laid.value, 'x') };
    }
    take(from);
    const allowed = Math.min(patience - idle, fresh ? failuresWhenFresh : failuresAtLength);
    const limits = { across: field.height, axis: 'x' as const, least, failures: allowed };
    let failed = 0;
    for (const step of shortenStrip(noFits, items, from, limits, stripEffort, random)) {
      take(step.best);
      if (step.failures > failed) idle++;
      if (step.failures !== failed) round++;
      failed = step.failures;
      yield { phase: 'improving', round, best };
    }
    if (shortest !== undefined && shortest.length <= least * (1 + 1e-9)) break;
    // One that can't be shortened at all counts as tried.
    if (failed === 0) idle++;
  }
  return best;
};

/** Instances of like shape together. */
const kindsOf = (task: Task, field: Field): { readonly kinds: readonly BoxKind[]; readonly members: readonly (readonly number[])[] } => {
  const groups = new Map<string, number[]>();
  field.items.forEach((item, i) => {
    const key = [...item.shapes].sort((a, b) => a - b).join();
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [i]);
    else group.push(i);
  });
  const members = [...groups.values()];
  const kinds = members.map(
    (group): BoxKind => ({
      count: group.length,
      sides: (field.items[group[0] as number] as Item).shapes.map((shape) => {
        const { width, height } = task.bank.noFits.shapes[shape] as Shape;
        return { shape, width, height };
      }),
    }),
  );
  return { kinds, members };
};

const firstBudget = 2000;
const largestBudget = 60_000;

/** Rectangles only: from any strip towards the shortest that their area allows, and from there back up until one is found. */
const searchBoxes = function* (task: Task, patience: number, random: Random): Generator<SearchStep, Loading> {
  const field = task.fields[0] as Field;
  const { kinds, members } = kindsOf(task, field);
  const toLoading = (
    boxes: readonly { readonly kind: number; readonly shape: number; readonly x: number; readonly y: number }[],
  ): Loading => {
    const next = members.map(() => 0);
    const order = boxes.map(({ kind }) => {
      const at = next[kind] as number;
      next[kind] = at + 1;
      return (members[kind] as readonly number[])[at] as number;
    });
    return asLoading(
      order,
      boxes.map(({ shape, x, y }): Laid => ({ shape, x, y })),
    );
  };
  const lengthOf = (boxes: readonly { readonly shape: number; readonly x: number }[]): number =>
    boxes.reduce((length, box) => Math.max(length, box.x + (task.bank.noFits.shapes[box.shape] as Shape).width), 0);
  const area = kinds.reduce((sum, kind) => sum + kind.count * (kind.sides[0]?.width ?? 0) * (kind.sides[0]?.height ?? 0), 0);
  let bestBoxes = layBoxes(kinds, field.height, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0, random).laid ?? [];
  let length = lengthOf(bestBoxes);
  let best = toLoading(bestBoxes);
  yield { phase: 'improving', round: 0, best };
  const longest = Math.max(...kinds.map((kind) => Math.min(...kind.sides.map((side) => side.width))));
  const least = Math.max(Math.ceil(area / field.height), longest);
  const lengths = reachableLengths(kinds, least, length) ?? Array.from({ length: 65 }, (_, k) => least + ((length - least) * k) / 64);
  let open = lengths.filter((candidate) => candidate < length - 0.5);
  let budget = firstBudget;
  for (let round = 1, idle = 0; open.length > 0 && idle < patience * 5; round++) {
    // Odd rounds aim at the very least, even ones just below what is reached; every fifth lays freely in a new order.
    const at = round % 2 === 1 ? 0 : open.length - 1;
    const target = open[at] as number;
    const free = round % 5 === 0;
    const tried = layBoxes(kinds, field.height, free ? Number.POSITIVE_INFINITY : target, budget, 0.1 + random.next() * 1.5, random);
    if (tried.laid !== undefined && lengthOf(tried.laid) < length) {
      bestBoxes = tried.laid;
      length = lengthOf(bestBoxes);
      best = toLoading(bestBoxes);
      open = open.filter((candidate) => candidate < length - 0.5);
      idle = 0;
    } else {
      if (tried.exhausted && !free) open = open.filter((candidate) => candidate !== target);
      idle++;
      if (round % 10 === 0) budget = Math.min(largestBudget, budget * 1.5);
    }
    yield { phase: 'improving', round, best };
  }
  return best;
};
