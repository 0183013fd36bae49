/** Lays items one after the other, each in the free place nearest the lower left corner. */
import { stretchesAt } from './lines.js';
import type { NoFit, NoFits, Shape } from './nofit.js';

export interface Laid {
  readonly shape: number;
  readonly x: number;
  readonly y: number;
}

/** A place for an item, better when `cost` is less, then `side`. */
interface Found extends Laid {
  readonly cost: number;
  readonly side: number;
}

const TOUCH = 0.02;

/** Lowest free place in line `at` (x when `leftmost`, else y) not below 0; undefined when the line has none. */
const freeOnLine = (regions: readonly NoFit[], laid: readonly Laid[], at: number, range: number, leftmost: boolean): number | undefined => {
  const crossings: number[] = [];
  const closed: [number, number][] = [];
  for (let k = 0; k < regions.length; k++) {
    const region = regions[k] as NoFit;
    const other = laid[k] as Laid;
    const from = at - (leftmost ? other.x : other.y);
    const beyond = leftmost ? from <= region.minX || from >= region.maxX : from <= region.minY || from >= region.maxY;
    if (beyond) continue;
    const found = stretchesAt(leftmost ? region.columns : region.rows, from, crossings);
    const shift = leftmost ? other.y : other.x;
    for (let s = 0; s < found; s += 2) {
      const end = (crossings[s + 1] as number) + shift;
      if (end > 0) closed.push([(crossings[s] as number) + shift, end]);
    }
  }
  closed.sort((a, b) => a[0] - b[0]);
  let free = 0;
  for (const [start, end] of closed) {
    if (start >= free - TOUCH && start > TOUCH) break;
    if (end > free) free = end;
  }
  // A stretch may begin exactly where the one before ends: the place between touches both and is free.
  return free <= range + TOUCH ? Math.min(free, range) : undefined;
};

/** Places in the lines through the corners of what is forbidden, lowest first. */
const linesThroughCorners = (
  regions: readonly NoFit[],
  laid: readonly Laid[],
  from: number,
  range: number,
  leftmost: boolean,
): number[] => {
  const lines = new Set<number>([from]);
  for (let k = 0; k < regions.length; k++) {
    const region = regions[k] as NoFit;
    const corners = leftmost ? region.ax : region.ay;
    const shift = leftmost ? (laid[k] as Laid).x : (laid[k] as Laid).y;
    for (let i = 0; i < region.count; i++) {
      const at = (corners[i] as number) + shift;
      if (at > from && at <= range) lines.add(Math.round(at * 16) / 16);
    }
  }
  return [...lines].sort((a, b) => a - b);
};

/** Whether the lower left corner of a shape may lie there beside what is laid. */
const isFree = (noFits: NoFits, laid: readonly Laid[], shape: number, x: number, y: number): boolean => {
  const crossings: number[] = [];
  return laid.every((other) => {
    const region = noFits.of(other.shape, shape);
    const px = x - other.x;
    const py = y - other.y;
    if (px <= region.minX || px >= region.maxX || py <= region.minY || py >= region.maxY) return true;
    const found = stretchesAt(region.rows, py, crossings);
    for (let s = 0; s < found; s += 2) {
      const start = crossings[s] as number;
      const end = crossings[s + 1] as number;
      if (px > start + TOUCH && px < end - TOUCH) return false;
    }
    return true;
  });
};

/** A place inside a hole of a piece that is laid already: sheet that would be lost. */
const inHoles = (noFits: NoFits, laid: readonly Laid[], shape: number, rangeX: number, rangeY: number): Laid | undefined => {
  for (const other of laid) {
    const region = noFits.of(other.shape, shape);
    for (const place of region.inHoles) {
      const x = place.x + other.x;
      const y = place.y + other.y;
      if (x < 0 || y < 0 || x > rangeX || y > rangeY) continue;
      if (isFree(noFits, laid, shape, x, y)) return { shape, x, y };
    }
  }
  return undefined;
};

/** Turns tried at first when there are many; the search that follows tries them all. */
const fewTurns = 8;

/**
 * The free place for one item with the lowest cost: how far its far side reaches along `toward`.
 *
 * @param toward `x` fills from the left side, `y` from below
 * @param begun by shape, how far the lines before are known to be full; kept from piece to piece of one sheet
 */
export const lay = (
  noFits: NoFits,
  laid: readonly Laid[],
  shapes: readonly number[],
  width: number,
  height: number,
  toward: 'x' | 'y',
  begun: Map<number, number> = new Map(),
): Laid | undefined => {
  if (shapes.length > fewTurns) {
    const few = Array.from({ length: fewTurns }, (_, k) => shapes[Math.floor((k * shapes.length) / fewTurns)] as number);
    const found = lay(noFits, laid, few, width, height, toward, begun);
    if (found !== undefined) return found;
  }
  for (const shape of shapes) {
    const size = noFits.shapes[shape] as Shape;
    const hole = inHoles(noFits, laid, shape, width - size.width, height - size.height);
    if (hole !== undefined) return hole;
  }
  let best: Found | undefined;
  const leftmost = toward === 'x';
  for (const index of shapes) {
    const shape = noFits.shapes[index] as Shape;
    const rangeX = width - shape.width;
    const rangeY = height - shape.height;
    if (rangeX < -TOUCH || rangeY < -TOUCH) continue;
    const regions = laid.map((other) => noFits.of(other.shape, index));
    const from = begun.get(index) ?? 0;
    for (const at of linesThroughCorners(regions, laid, from, Math.max(0, leftmost ? rangeX : rangeY), leftmost)) {
      const cost = at + (leftmost ? shape.width : shape.height);
      if (best !== undefined && cost > best.cost + TOUCH) break;
      const free = freeOnLine(regions, laid, at, Math.max(0, leftmost ? rangeY : rangeX), leftmost);
      if (free === undefined) continue;
      begun.set(index, at);
      const side = free + (leftmost ? shape.height : shape.width);
      if (best === undefined || cost < best.cost - TOUCH || side < best.side)
        best = { shape: index, x: leftmost ? at : free, y: leftmost ? free : at, cost, side };
      break;
    }
  }
  return best === undefined ? undefined : { shape: best.shape, x: best.x, y: best.y };
};
