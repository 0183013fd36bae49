/**
 * Shapes laid in a rectangle, perhaps still overlapping, and the moves that part them.
 *
 * A move takes one shape up and looks along straight lines, to and fro in both axes, for the place of least overlap with the others, each overlap
 * weighed by how often it came back (guided local search). Sources: J. Egeblad, B. K. Nielsen, A. Odgaard, EJOR 183 (2007) 1249-1266; S. Umetani
 * et al., International Transactions in Operational Research 16 (2009) 661-683.
 */
import { stretchesAt } from './lines.js';
import { depthAt, type NoFit, type NoFits, type Shape } from './nofit.js';
import type { Random } from './random.js';

/** What may be laid: the shapes that one piece amounts to in its allowed turns. */
export interface Item {
  readonly shapes: readonly number[];
}

/** Where each item lies: its shape (an index into the bank), and the lower left corner of its box. */
export interface Places {
  readonly shape: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export interface Layout extends Places {
  readonly noFits: NoFits;
  readonly items: readonly Item[];
  readonly width: number;
  readonly height: number;
  readonly weights: Float64Array;
  /** Scratch room for the stretches of one region. */
  readonly crossings: number[];
  /** Stretches of the line at hand: start, end, weight. */
  readonly starts: number[];
  readonly ends: number[];
  readonly loads: number[];
  readonly random: Random;
}

export const newLayout = (
  noFits: NoFits,
  items: readonly Item[],
  places: Places,
  width: number,
  height: number,
  random: Random,
): Layout => ({
  noFits,
  items,
  width,
  height,
  random,
  shape: Int32Array.from(places.shape),
  x: Float64Array.from(places.x),
  y: Float64Array.from(places.y),
  weights: new Float64Array(items.length * items.length).fill(1),
  crossings: [],
  starts: [],
  ends: [],
  loads: [],
});

export const placesOf = (layout: Places): Places => ({
  shape: Int32Array.from(layout.shape),
  x: Float64Array.from(layout.x),
  y: Float64Array.from(layout.y),
});

export const shapeOf = (layout: Layout, shape: number): Shape => layout.noFits.shapes[shape] as Shape;

const regionBetween = (layout: Layout, lying: number, shape: number): NoFit => layout.noFits.of(layout.shape[lying] as number, shape);

/** How deep two items overlap, grid units. */
export const pairDepth = (layout: Layout, i: number, j: number): number =>
  depthAt(
    regionBetween(layout, j, layout.shape[i] as number),
    (layout.x[i] as number) - (layout.x[j] as number),
    (layout.y[i] as number) - (layout.y[j] as number),
  );

/** Weighed overlap of item `i` with all others if it lay there; gives up above `limit`. */
export const weighedOverlap = (layout: Layout, i: number, shape: number, x: number, y: number, limit: number): number => {
  const { weights, noFits, shape: lying } = layout;
  const { bounds, of } = noFits;
  const kinds = noFits.shapes.length;
  const n = lying.length;
  let sum = 0;
  for (let j = 0; j < n; j++) {
    const px = x - (layout.x[j] as number);
    const py = y - (layout.y[j] as number);
    const b = 4 * ((lying[j] as number) * kinds + shape);
    if (px <= (bounds[b] as number) || px >= (bounds[b + 1] as number)) continue;
    if (py <= (bounds[b + 2] as number) || py >= (bounds[b + 3] as number) || j === i) continue;
    const depth = depthAt(of(lying[j] as number, shape), px, py);
    if (depth > 0) {
      sum += depth * (weights[i * n + j] as number);
      if (sum >= limit) return sum;
    }
  }
  return sum;
};

/** The forbidden stretches of all others on the line through (x, y) along an axis, clipped to its range. Returns how many. */
const stretchesOnLine = (layout: Layout, i: number, shape: number, x: number, y: number, alongX: boolean, range: number): number => {
  const { crossings, starts, ends, loads, noFits, weights } = layout;
  const { bounds, of } = noFits;
  const kinds = noFits.shapes.length;
  const lying = layout.shape;
  const n = lying.length;
  // Of lines along x the y of each region counts, and the other way round.
  const off = alongX ? 2 : 0;
  const at = alongX ? y : x;
  const [across, along] = alongX ? [layout.y, layout.x] : [layout.x, layout.y];
  let count = 0;
  for (let j = 0; j < n; j++) {
    const from = at - (across[j] as number);
    const pair = (lying[j] as number) * kinds + shape;
    // Not yet known bounds compare as false and let the pair pass.
    if (from <= (bounds[4 * pair + off] as number) || from >= (bounds[4 * pair + off + 1] as number) || j === i) continue;
    const region = of(lying[j] as number, shape);
    const found = stretchesAt(alongX ? region.rows : region.columns, from, crossings);
    const shift = along[j] as number;
    for (let k = 0; k < found; k += 2) {
      const start = (crossings[k] as number) + shift;
      const end = (crossings[k + 1] as number) + shift;
      if (end <= 0 || start >= range) continue;
      starts[count] = start;
      ends[count] = end;
      loads[count] = weights[i * n + j] as number;
      count++;
    }
  }
  return count;
};

const TOUCH = 0.02;

const loadAt = (layout: Layout, count: number, at: number, limit: number): number => {
  const { starts, ends, loads } = layout;
  let sum = 0;
  for (let k = 0; k < count; k++) {
    const fromStart = at - (starts[k] as number);
    const toEnd = (ends[k] as number) - at;
    const depth = Math.min(fromStart, toEnd);
    if (depth > TOUCH) {
      sum += depth * (loads[k] as number);
      if (sum >= limit) return limit;
    }
  }
  return sum;
};

export interface Spot {
  shape: number;
  x: number;
  y: number;
  load: number;
}

/** Moves `spot` to the best place on the line through it. Least load lies at an end of a stretch: between ends the load bulges upward. */
const slide = (layout: Layout, i: number, spot: Spot, alongX: boolean): number => {
  const shape = shapeOf(layout, spot.shape);
  const range = alongX ? layout.width - shape.width : layout.height - shape.height;
  const count = stretchesOnLine(layout, i, spot.shape, spot.x, spot.y, alongX, range);
  const now = alongX ? spot.x : spot.y;
  let best = loadAt(layout, count, now, Number.POSITIVE_INFINITY);
  if (best === 0) return 0;
  let at = now;
  const { starts, ends } = layout;
  // The last two are the ends of the line itself.
  starts[count] = 0;
  ends[count] = range;
  for (let k = 0; k <= count; k++) {
    for (let side = 0; side < 2; side++) {
      const candidate = (side === 0 ? starts[k] : ends[k]) as number;
      if (candidate < 0 || candidate > range) continue;
      const load = loadAt(layout, count, candidate, best);
      if (load < best || (load === 0 && best === 0 && Math.abs(candidate - now) < Math.abs(at - now))) {
        best = load;
        at = candidate;
      }
    }
  }
  if (alongX) spot.x = at;
  else spot.y = at;
  return best;
};

const slides = 6;

/** Slides a spot along both axes in turn until neither gains; its load is then the weighed overlap. */
export const settle = (layout: Layout, i: number, spot: Spot, limit: number): void => {
  let alongX = layout.random.next() < 0.5;
  let still = 0;
  for (let k = 0; k < slides && still < 2; k++) {
    const before = alongX ? spot.x : spot.y;
    const load = slide(layout, i, spot, alongX);
    if (load === 0) {
      spot.load = 0;
      return;
    }
    still = (alongX ? spot.x : spot.y) === before ? still + 1 : 0;
    alongX = !alongX;
  }
  spot.load = weighedOverlap(layout, i, spot.shape, spot.x, spot.y, limit);
};

/** Moves one item where it overlaps least, trying its present place, places near it and `tries` places anywhere. Returns the weighed overlap left. */
export const moveItem = (layout: Layout, i: number, tries: number): number => {
  const { random } = layout;
  const shapes = (layout.items[i] as Item).shapes;
  const here = layout.shape[i] as number;
  const best: Spot = { shape: here, x: layout.x[i] as number, y: layout.y[i] as number, load: 0 };
  best.load = weighedOverlap(layout, i, here, best.x, best.y, Number.POSITIVE_INFINITY);
  const spot: Spot = { shape: here, x: best.x, y: best.y, load: 0 };
  const near = Math.ceil(tries / 3);
  for (let t = 0; t <= tries + near && best.load > 0; t++) {
    spot.shape = t === 0 ? here : (shapes[random.below(shapes.length)] as number);
    const { width, height } = shapeOf(layout, spot.shape);
    const rangeX = layout.width - width;
    const rangeY = layout.height - height;
    if (rangeX < 0 || rangeY < 0) continue;
    if (t <= near) {
      const reach = t === 0 ? 0 : 0.5;
      spot.x = Math.min(rangeX, Math.max(0, (layout.x[i] as number) + reach * width * (2 * random.next() - 1)));
      spot.y = Math.min(rangeY, Math.max(0, (layout.y[i] as number) + reach * height * (2 * random.next() - 1)));
    } else {
      spot.x = random.next() * rangeX;
      spot.y = random.next() * rangeY;
    }
    settle(layout, i, spot, best.load);
    if (spot.load < best.load) {
      best.shape = spot.shape;
      best.x = spot.x;
      best.y = spot.y;
      best.load = spot.load;
    }
  }
  layout.shape[i] = best.shape;
  layout.x[i] = best.x;
  layout.y[i] = best.y;
  return best.load;
};

/** Moves a little farther than touching, so that rounding does not leave them in each other. */
const clearance = 0.05;

/**
 * Pushes all overlapping items apart at once, each pair by its shortest way out, shared between the two; what one push does to the neighbours the
 * next puts right. Closes small overlaps all over, which single moves can't.
 *
 * @returns true when nothing overlaps any more
 */
export const pushApart = (layout: Layout, rounds: number): boolean => {
  const { noFits, shape, x, y } = layout;
  const { bounds, of } = noFits;
  const kinds = noFits.shapes.length;
  const n = shape.length;
  const out = { x: 0, y: 0 };
  const put = (i: number, toX: number, toY: number): void => {
    const { width, height } = shapeOf(layout, shape[i] as number);
    x[i] = Math.max(0, Math.min(layout.width - width, toX));
    y[i] = Math.max(0, Math.min(layout.height - height, toY));
  };
  for (let round = 0; round < rounds; round++) {
    let still = true;
    for (let i = 0; i < n; i++) {
      for (let j = i + 1; j < n; j++) {
        const px = (x[i] as number) - (x[j] as number);
        const py = (y[i] as number) - (y[j] as number);
        const pair = (shape[j] as number) * kinds + (shape[i] as number);
        if (px <= (bounds[4 * pair] as number) || px >= (bounds[4 * pair + 1] as number)) continue;
        if (py <= (bounds[4 * pair + 2] as number) || py >= (bounds[4 * pair + 3] as number)) continue;
        const depth = depthAt(of(shape[j] as number, shape[i] as number), px, py, out);
        if (depth === 0) continue;
        still = false;
        const share = 0.5 * (1 + clearance / depth);
        put(i, (x[i] as number) + share * out.x, (y[i] as number) + share * out.y);
        put(j, (x[j] as number) - share * out.x, (y[j] as number) - share * out.y);
      }
    }
    if (still) return true;
  }
  return false;
};
