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

/** A rectangle in which items may lie. Rooms stand side by side, so far apart that what lies in one never touches what lies in another. */
export interface Room {
  /** Its left side; all rooms begin at y = 0. */
  readonly left: number;
  readonly width: number;
  readonly height: number;
  /** By item: the shapes it may take here, none where it does not fit. */
  readonly items: readonly Item[];
}

/** Where each item lies: its shape (an index into the bank), and the lower left corner of its box. */
export interface Places {
  readonly shape: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export interface Layout extends Places {
  readonly noFits: NoFits;
  readonly rooms: readonly Room[];
  /** By item: the room it lies in. */
  readonly room: Int32Array;
  readonly weights: Float64Array;
  /** Scratch room for the stretches of one region. */
  readonly crossings: number[];
  /** Stretches of the line at hand: start, end, weight. */
  readonly starts: number[];
  readonly ends: number[];
  readonly loads: number[];
  readonly random: Random;
}

export const newLayout = (noFits: NoFits, rooms: readonly Room[], places: Places, room: ArrayLike<number>, random: Random): Layout => ({
  noFits,
  rooms,
  room: Int32Array.from(room),
  random,
  shape: Int32Array.from(places.shape),
  x: Float64Array.from(places.x),
  y: Float64Array.from(places.y),
  weights: new Float64Array(room.length * room.length).fill(1),
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
const weighedOverlap = (layout: Layout, i: number, shape: number, x: number, y: number, limit: number): number => {
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

/** A place for an item, and its weighed overlap there. */
export interface Spot {
  room: number;
  shape: number;
  x: number;
  y: number;
  load: number;
}

/** The forbidden stretches of all others on the line through (x, y) along an axis, clipped to its range. Returns how many. */
const stretchesOnLine = (layout: Layout, i: number, { shape, x, y }: Spot, alongX: boolean, first: number, last: number): number => {
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
      if (end <= first || start >= last) continue;
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
      if (sum >= limit) return sum;
    }
  }
  return sum;
};

/** Moves `spot` to the best place on the line through it. Least load lies at an end of a stretch: between ends the load bulges upward. */
const slide = (layout: Layout, i: number, spot: Spot, alongX: boolean): number => {
  const shape = shapeOf(layout, spot.shape);
  const room = layout.rooms[spot.room] as Room;
  const first = alongX ? room.left : 0;
  const last = alongX ? room.left + room.width - shape.width : room.height - shape.height;
  const count = stretchesOnLine(layout, i, spot, alongX, first, last);
  const now = alongX ? spot.x : spot.y;
  let best = loadAt(layout, count, now, Number.POSITIVE_INFINITY);
  if (best === 0) return 0;
  let at = now;
  const { starts, ends } = layout;
  // The last two are the ends of the line itself.
  starts[count] = first;
  ends[count] = last;
  for (let k = 0; k <= count; k++) {
    for (let side = 0; side < 2; side++) {
      const candidate = (side === 0 ? starts[k] : ends[k]) as number;
      if (candidate < first || candidate > last) continue;
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

/** Slides at most for one spot. */
const slides = 6;
/** A spot that after two slides is so many times worse than the best place known is given up. Found by trial: half the time, the same places. */
const hopeless = 2;

/** Slides a spot along both axes in turn until neither gains; its load is then the weighed overlap, or more than `limit`. */
const settle = (layout: Layout, i: number, spot: Spot, limit: number): void => {
  let alongX = layout.random.next() < 0.5;
  let still = 0;
  for (let k = 0; k < slides && still < 2; k++) {
    const before = alongX ? spot.x : spot.y;
    const load = slide(layout, i, spot, alongX);
    if (load === 0) {
      spot.load = 0;
      return;
    }
    if (k > 0 && load > hopeless * limit) {
      spot.load = load;
      return;
    }
    still = (alongX ? spot.x : spot.y) === before ? still + 1 : 0;
    alongX = !alongX;
  }
  spot.load = weighedOverlap(layout, i, spot.shape, spot.x, spot.y, limit);
};

const between = (low: number, value: number, high: number): number => Math.max(low, Math.min(high, value));

/** Draws a room in which the item may lie, a shape and a place. */
const drawAnywhere = (layout: Layout, i: number, spot: Spot): boolean => {
  const { random, rooms } = layout;
  spot.room = rooms.length === 1 ? 0 : random.below(rooms.length);
  const room = rooms[spot.room] as Room;
  const { shapes } = room.items[i] as Item;
  if (shapes.length === 0) return false;
  spot.shape = shapes[random.below(shapes.length)] as number;
  const { width, height } = shapeOf(layout, spot.shape);
  spot.x = room.left + random.next() * (room.width - width);
  spot.y = random.next() * (room.height - height);
  return true;
};

/** Draws a shape and a place near where the item lies. */
const drawNear = (layout: Layout, i: number, spot: Spot): void => {
  const { random } = layout;
  spot.room = layout.room[i] as number;
  const room = layout.rooms[spot.room] as Room;
  const { shapes } = room.items[i] as Item;
  spot.shape = shapes[random.below(shapes.length)] as number;
  const { width, height } = shapeOf(layout, spot.shape);
  const x = (layout.x[i] as number) + width * (random.next() - 0.5);
  const y = (layout.y[i] as number) + height * (random.next() - 0.5);
  spot.x = between(room.left, x, room.left + room.width - width);
  spot.y = between(0, y, room.height - height);
};

/** Moves one item where it overlaps least, trying its present place, places near it and `tries` places anywhere. Returns the weighed overlap left. */
export const moveItem = (layout: Layout, i: number, tries: number): number => {
  const here: Spot = {
    room: layout.room[i] as number,
    shape: layout.shape[i] as number,
    x: layout.x[i] as number,
    y: layout.y[i] as number,
    load: 0,
  };
  here.load = weighedOverlap(layout, i, here.shape, here.x, here.y, Number.POSITIVE_INFINITY);
  const best = { ...here };
  const spot = { ...here };
  const near = Math.ceil(tries / 3);
  for (let t = 0; t <= tries + near && best.load > 0; t++) {
    if (t > near && !drawAnywhere(layout, i, spot)) continue;
    if (t > 0 && t <= near) drawNear(layout, i, spot);
    settle(layout, i, spot, best.load);
    if (spot.load < best.load) Object.assign(best, spot);
  }
  put(layout, i, best);
  return best.load;
};

const put = (layout: Layout, i: number, { room, shape, x, y }: Omit<Spot, 'load'>): void => {
  layout.room[i] = room;
  layout.shape[i] = shape;
  layout.x[i] = x;
  layout.y[i] = y;
};

/** Brings every item back into its room, in another turn where its own no longer fits. */
export const pushIn = (layout: Layout): void => {
  for (let i = 0; i < layout.room.length; i++) {
    const room = layout.rooms[layout.room[i] as number] as Room;
    const fits = (k: number): boolean => shapeOf(layout, k).width <= room.width && shapeOf(layout, k).height <= room.height;
    if (!fits(layout.shape[i] as number)) layout.shape[i] = (room.items[i] as Item).shapes.find(fits) ?? (layout.shape[i] as number);
    const { width, height } = shapeOf(layout, layout.shape[i] as number);
    layout.x[i] = between(room.left, layout.x[i] as number, Math.max(room.left, room.left + room.width - width));
    layout.y[i] = between(0, layout.y[i] as number, Math.max(0, room.height - height));
  }
};
