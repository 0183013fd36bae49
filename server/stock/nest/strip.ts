/** The least length of a strip: parts what overlaps in an ever shorter strip. */
import { type Laid, lay } from './greedy.js';
import { type Item, type Layout, newLayout, type Places, placesOf, shapeOf } from './layout.js';
import type { NoFits, Shape } from './nofit.js';
import type { Random } from './random.js';
import { type Effort, separate } from './separate.js';

export interface StripState {
  readonly places: Places;
  readonly length: number;
}

export const placesFrom = (laid: readonly Laid[]): Places => ({
  shape: Int32Array.from(laid, (l) => l.shape),
  x: Float64Array.from(laid, (l) => l.x),
  y: Float64Array.from(laid, (l) => l.y),
});

export const lengthOf = (noFits: NoFits, places: Places): number => {
  let length = 0;
  for (let i = 0; i < places.x.length; i++)
    length = Math.max(length, (places.x[i] as number) + (noFits.shapes[places.shape[i] as number] as Shape).width);
  return length;
};

/** All items laid from the left in the given order. The strip is long enough for any. */
export const layStrip = (noFits: NoFits, items: readonly Item[], order: readonly number[], height: number): Places => {
  const laid: Laid[] = [];
  const byItem: Laid[] = new Array(items.length);
  for (const i of order) {
    const found = lay(noFits, laid, (items[i] as Item).shapes, Number.MAX_SAFE_INTEGER, height, 'x');
    // The caller left out what is higher than the strip, so there is always a place behind the last.
    if (found === undefined) continue;
    laid.push(found);
    byItem[i] = found;
  }
  return placesFrom(byItem);
};

/** Two items of unlike shape change places, centre on centre. */
export const exchangeTwo = (layout: Layout, random: Random, width: number, height: number): void => {
  const n = layout.items.length;
  for (let tries = 0; tries < 20; tries++) {
    const i = random.below(n);
    const j = random.below(n);
    const a = shapeOf(layout, layout.shape[i] as number);
    const b = shapeOf(layout, layout.shape[j] as number);
    if (a === b) continue;
    const put = (k: number, shape: Shape, centreX: number, centreY: number): void => {
      layout.x[k] = Math.max(0, Math.min(width - shape.width, centreX - shape.width / 2));
      layout.y[k] = Math.max(0, Math.min(height - shape.height, centreY - shape.height / 2));
    };
    const ax = (layout.x[i] as number) + a.width / 2;
    const ay = (layout.y[i] as number) + a.height / 2;
    put(i, a, (layout.x[j] as number) + b.width / 2, (layout.y[j] as number) + b.height / 2);
    put(j, b, ax, ay);
    return;
  }
};

const pushedInto = (layout: Layout): void => {
  for (let i = 0; i < layout.items.length; i++) {
    const shape = shapeOf(layout, layout.shape[i] as number);
    layout.x[i] = Math.max(0, Math.min(layout.width - shape.width, layout.x[i] as number));
    layout.y[i] = Math.max(0, Math.min(layout.height - shape.height, layout.y[i] as number));
  }
};

/** Largest and smallest share of the length taken off at a time. */
const largestCut = 0.03;
const smallestCut = 0.001;

/**
 * Shortens a strip without end; yields the best after every sweep of moves, `undefined` while there is nothing new.
 *
 * @param least no shorter strip can be: the search ends there
 */
export const shortenStrip = function* (
  noFits: NoFits,
  items: readonly Item[],
  start: StripState,
  height: number,
  least: number,
  random: Random,
  effort: Effort,
): Generator<StripState | undefined, void> {
  let best = start;
  let cut = 0.02;
  let failures = 0;
  let kept = start.places;
  while (best.length > least * (1 + 1e-9)) {
    const target = Math.max(least, best.length * (1 - cut));
    const layout = newLayout(noFits, items, kept, target, height, random);
    pushedInto(layout);
    if (failures > 0) {
      exchangeTwo(layout, random, target, height);
      if (failures % 3 === 0) exchangeTwo(layout, random, target, height);
    }
    const parting = separate(layout, effort);
    let step = parting.next();
    while (step.done !== true) {
      yield undefined;
      step = parting.next();
    }
    if (step.value) {
      best = { places: placesOf(layout), length: Math.min(target, lengthOf(noFits, layout)) };
      kept = best.places;
      failures = 0;
      cut = Math.min(largestCut, cut * 1.3);
      yield best;
    } else {
      failures++;
      // From the best again, or on from where it stuck: both lead to strips the other does not reach.
      kept = random.next() < 0.5 ? best.places : placesOf(layout);
      if (failures % 2 === 0) cut = Math.max(smallestCut, cut / 2);
      yield undefined;
    }
  }
};
