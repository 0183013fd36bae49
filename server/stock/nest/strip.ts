/** The least length of a strip: parts what overlaps in an ever shorter strip. */
import { type Laid, lay } from './greedy.js';
import { type Item, type Layout, newLayout, type Places, placesOf, pushIn, shapeOf } from './layout.js';
import type { NoFits, Shape } from './nofit.js';
import type { Random } from './random.js';
import { type Effort, separate } from './separate.js';

export interface StripState {
  readonly places: Places;
  /** Grid units, along the axis that is shortened. */
  readonly length: number;
}

export const placesFrom = (laid: readonly Laid[]): Places => ({
  shape: Int32Array.from(laid, (l) => l.shape),
  x: Float64Array.from(laid, (l) => l.x),
  y: Float64Array.from(laid, (l) => l.y),
});

export const laidFrom = (places: Places): readonly Laid[] =>
  Array.from(places.x, (x, i) => ({ shape: places.shape[i] as number, x, y: places.y[i] as number }));

/** How far the items reach along an axis. */
export const reachOf = (noFits: NoFits, places: Places, axis: 'x' | 'y'): number => {
  let reach = 0;
  for (let i = 0; i < places.x.length; i++) {
    const shape = noFits.shapes[places.shape[i] as number] as Shape;
    const end = axis === 'x' ? (places.x[i] as number) + shape.width : (places.y[i] as number) + shape.height;
    reach = Math.max(reach, end);
  }
  return reach;
};

/** All items laid from the left in the given order, in a strip without end; yields after each. None is higher than the strip. */
export const layStrip = function* (
  noFits: NoFits,
  items: readonly Item[],
  order: readonly number[],
  height: number,
): Generator<undefined, Places> {
  const laid: Laid[] = [];
  const begun = new Map<number, number>();
  const byItem: Laid[] = new Array(items.length);
  for (const i of order) {
    const found = lay(noFits, laid, (items[i] as Item).shapes, Number.MAX_SAFE_INTEGER, height, 'x', begun);
    // There is always a place behind the last.
    if (found === undefined) continue;
    laid.push(found);
    byItem[i] = found;
    yield undefined;
  }
  return placesFrom(byItem);
};

/** Two items of unlike shape change places, centre on centre. */
const exchangeTwo = (layout: Layout): void => {
  const { random } = layout;
  const n = layout.room.length;
  for (let tries = 0; tries < 20; tries++) {
    const i = random.below(n);
    const j = random.below(n);
    const a = shapeOf(layout, layout.shape[i] as number);
    const b = shapeOf(layout, layout.shape[j] as number);
    if (a === b) continue;
    const [ax, ay] = [(layout.x[i] as number) + a.width / 2, (layout.y[i] as number) + a.height / 2];
    layout.x[i] = (layout.x[j] as number) + (b.width - a.width) / 2;
    layout.y[i] = (layout.y[j] as number) + (b.height - a.height) / 2;
    layout.x[j] = ax - b.width / 2;
    layout.y[j] = ay - b.height / 2;
    pushIn(layout);
    return;
  }
};

/** Shares of the length taken off at a time. */
const firstCut = 0.02;
const largestCut = 0.03;
const smallestCut = 0.001;

export interface Shortening {
  /** Size of the strip across the axis, grid units. */
  readonly across: number;
  readonly axis: 'x' | 'y';
  /** No shorter strip can be. */
  readonly least: number;
  /** Attempts without a gain after which to give up. */
  readonly failures: number;
}
export interface StripStep {
  readonly best: StripState;
  /** Attempts that failed since the last gain. */
  readonly failures: number;
}

/** Shortens a strip; yields after every sweep of moves. */
export const shortenStrip = function* (
  noFits: NoFits,
  items: readonly Item[],
  start: StripState,
  { across, axis, least, failures: most }: Shortening,
  effort: Effort,
  random: Random,
): Generator<StripStep, StripState> {
  let best = start;
  let cut = firstCut;
  let failures = 0;
  let kept = start.places;
  // A single shape must fit, whatever else gives way.
  const longest = items.reduce((most, item) => {
    const sizes = item.shapes.map((k) => noFits.shapes[k] as Shape).map((shape) => (axis === 'x' ? shape.width : shape.height));
    return Math.max(most, Math.min(...sizes));
  }, 0);
  const bound = Math.max(least, longest);
  while (best.length > bound * (1 + 1e-9) && failures < most) {
    const target = Math.max(bound, best.length * (1 - cut));
    const [width, height] = axis === 'x' ? [target, across] : [across, target];
    const fits = (k: number): boolean => (noFits.shapes[k] as Shape).width <= width && (noFits.shapes[k] as Shape).height <= height;
    const room = { left: 0, width, height, items: items.map(({ shapes }) => ({ shapes: shapes.filter(fits) })) };
    const layout = newLayout(noFits, [room], kept, new Int32Array(items.length), random);
    pushIn(layout);
    if (failures > 0) exchangeTwo(layout);
    if (failures % 3 === 2) exchangeTwo(layout);
    const parting = separate(layout, effort);
    let step = parting.next();
    while (step.done !== true) {
      yield { best, failures };
      step = parting.next();
    }
    if (step.value) {
      best = { places: placesOf(layout), length: Math.min(target, reachOf(noFits, layout, axis)) };
      kept = best.places;
      failures = 0;
      cut = Math.min(largestCut, cut * 1.3);
    } else {
      failures++;
      // From the best again, or on from where it stuck: both lead to strips the other does not reach.
      kept = random.next() < 0.5 ? best.places : placesOf(layout);
      if (failures % 2 === 0) cut = Math.max(smallestCut, cut / 2);
    }
    yield { best, failures };
  }
  return best;
};
