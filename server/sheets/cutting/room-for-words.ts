/** Where a name can stand inside a piece: the widest clear run of material, level or upright. */
import { boundingBox, tessellate } from '../../shape/index.js';
import type { Loop, Point } from '../../shape/path.js';

export interface WordPlace {
  /** Middle of the words. */
  readonly at: Point;
  readonly upright: boolean;
  /** Height of the letters. */
  readonly letters: number;
}

/** Clear of every edge, as a share of the height of the letters. */
const air = 0.35;

/** How far one may go from a place along x before an edge is met, both ways, in a band so high. */
const clearRun = (rings: readonly (readonly Point[])[], at: Point, half: number): readonly [number, number] | undefined => {
  let [left, right] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  let crossings = 0;
  const [low, high] = [at.y - half, at.y + half];
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i++) {
      const a = ring[i] as Point;
      const b = ring[(i + 1) % ring.length] as Point;
      if (a.y > at.y !== b.y > at.y && a.x + ((b.x - a.x) * (at.y - a.y)) / (b.y - a.y) > at.x) crossings++;
      if (Math.max(a.y, b.y) < low || Math.min(a.y, b.y) > high) continue;
      // The part of the edge within the band.
      const along = (y: number): number => (Math.abs(b.y - a.y) < 1e-12 ? a.x : a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y));
      const within = [a, b].filter(({ y }) => y >= low && y <= high).map(({ x }) => x);
      for (const y of [low, high]) if (Math.min(a.y, b.y) <= y && y <= Math.max(a.y, b.y)) within.push(along(y));
      for (const x of within) {
        if (x <= at.x) left = Math.max(left, x);
        if (x >= at.x) right = Math.min(right, x);
      }
      // An edge that runs right across over the place leaves no room there.
      if (within.length > 0 && Math.min(...within) < at.x && Math.max(...within) > at.x) return undefined;
    }
  }
  return crossings % 2 === 1 && Number.isFinite(left) && Number.isFinite(right) ? [left, right] : undefined;
};

const turned = (ring: readonly Point[]): readonly Point[] => ring.map(({ x, y }) => ({ x: y, y: -x }));

/**
 * The largest letters, up to a height, in which words stand clear inside a piece, and where.
 *
 * @param width  of the words set at height 1
 * @param places tried, the best first; the middle of the piece is always tried before them
 * @returns undefined where not even `least` fits
 */
export const roomForWords = (
  outline: Loop,
  holes: readonly Loop[],
  width: number,
  places: readonly Point[],
  most: number,
  least: number,
): WordPlace | undefined => {
  const rings = [outline, ...holes].map((loop) => tessellate(loop, 0.5));
  const { min, max } = boundingBox(outline);
  const tried = [{ x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 }, ...places];
  let best: WordPlace | undefined;
  for (let letters = most; letters >= least - 1e-9; letters *= 0.85) {
    for (const upright of [false, true]) {
      const own = upright ? rings.map(turned) : rings;
      for (const place of tried) {
        const at = upright ? { x: place.y, y: -place.x } : place;
        const run = clearRun(own, at, letters * (0.5 + air));
        if (run === undefined || run[1] - run[0] < (width + 2 * air) * letters) continue;
        // As near the place as the words go.
        const half = (width / 2 + air) * letters;
        const x = Math.min(Math.max(at.x, run[0] + half), run[1] - half);
        best = { at: upright ? { x: -at.y, y: x } : { x, y: at.y }, upright, letters };
        return best;
      }
    }
  }
  return best;
};
