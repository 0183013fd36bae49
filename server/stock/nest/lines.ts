/** A straight line through no-fit polygons: which stretches of it are forbidden. The hot part of the search, in plain numbers. */
import type { NoFit } from './nofit.js';

/** Below this a corner lies on the line, in grid units. */
const ON_LINE = 0.01;

/** Scratch room, grown as needed; made once by each search. */
export interface Crossings {
  readonly above: number[];
  readonly below: number[];
  /** Stretches found, start and end in turn. */
  readonly stretches: number[];
}
export const newCrossings = (): Crossings => ({ above: [], below: [], stretches: [] });

const sortFew = (values: number[], count: number): void => {
  for (let i = 1; i < count; i++) {
    const value = values[i] as number;
    let j = i - 1;
    while (j >= 0 && (values[j] as number) > value) {
      values[j + 1] = values[j] as number;
      j--;
    }
    values[j + 1] = value;
  }
};

/**
 * Stretches of the line p + s·d in which it runs inside the region, as s. A line along an edge is inside only where both sides of it are: pieces that
 * touch do not overlap.
 *
 * @param px of a point on the line, from the lying shape's corner
 * @param dx of the line's direction, length 1
 * @returns how many numbers of `crossings.stretches` count: two for each stretch, in order
 */
export const forbiddenStretches = (region: NoFit, px: number, py: number, dx: number, dy: number, crossings: Crossings): number => {
  const { ax, ay, bx, by, count } = region;
  const { above, below, stretches } = crossings;
  let aboves = 0;
  let belows = 0;
  let touched = false;
  for (let k = 0; k < count; k++) {
    const fromX = (ax[k] as number) - px;
    const fromY = (ay[k] as number) - py;
    const toX = (bx[k] as number) - px;
    const toY = (by[k] as number) - py;
    let va = fromY * dx - fromX * dy;
    let vb = toY * dx - toX * dy;
    if (va < ON_LINE && va > -ON_LINE) {
      va = 0;
      touched = true;
    }
    if (vb < ON_LINE && vb > -ON_LINE) {
      vb = 0;
      touched = true;
    }
    const crossesAbove = va <= 0 !== vb <= 0;
    const crossesBelow = va < 0 !== vb < 0;
    if (!crossesAbove && !crossesBelow) continue;
    const ua = fromX * dx + fromY * dy;
    const ub = toX * dx + toY * dy;
    const s = va === 0 ? ua : vb === 0 ? ub : ua + ((ub - ua) * va) / (va - vb);
    if (crossesAbove) above[aboves++] = s;
    if (crossesBelow) below[belows++] = s;
  }
  sortFew(above, aboves);
  if (!touched) {
    for (let i = 0; i < aboves; i++) stretches[i] = above[i] as number;
    return aboves;
  }
  sortFew(below, belows);
  let found = 0;
  let i = 0;
  let j = 0;
  while (i + 1 < aboves && j + 1 < belows) {
    const start = Math.max(above[i] as number, below[j] as number);
    const end = Math.min(above[i + 1] as number, below[j + 1] as number);
    if (end - start > ON_LINE) {
      stretches[found++] = start;
      stretches[found++] = end;
    }
    if ((above[i + 1] as number) < (below[j + 1] as number)) i += 2;
    else j += 2;
  }
  return found;
};

/** How far a point inside the region is from its boundary, 0 outside: the shortest move that parts the two shapes. */
export const depthAt = (region: NoFit, px: number, py: number): number => {
  if (px <= region.minX || px >= region.maxX || py <= region.minY || py >= region.maxY) return 0;
  const { ax, ay, bx, by, count } = region;
  let inside = false;
  let nearest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < count; k++) {
    const fromX = (ax[k] as number) - px;
    const fromY = (ay[k] as number) - py;
    const toX = (bx[k] as number) - px;
    const toY = (by[k] as number) - py;
    const alongX = toX - fromX;
    const alongY = toY - fromY;
    if (fromY > 0 !== toY > 0 && fromX - (alongX * fromY) / alongY > 0) inside = !inside;
    const length = alongX * alongX + alongY * alongY;
    let t = length > 0 ? -(fromX * alongX + fromY * alongY) / length : 0;
    if (t < 0) t = 0;
    else if (t > 1) t = 1;
    const nearX = fromX + t * alongX;
    const nearY = fromY + t * alongY;
    const squared = nearX * nearX + nearY * nearY;
    if (squared < nearest) nearest = squared;
  }
  return inside && nearest > ON_LINE * ON_LINE ? Math.sqrt(nearest) : 0;
};
