/** Bits of a zone's outline between two distances across it. */
import type { Point } from '../shape/path.js';

/** What of a ring lies between two distances across the zone; bits of a ring that comes apart stay joined along the cut. */
export const clippedAcross = (ring: readonly Point[], low: number, high: number): readonly Point[] =>
  clipped(clipped(ring, low, 1), high, -1);

/** What of a ring lies beyond (1) or before (−1) a distance across the zone. */
const clipped = (ring: readonly Point[], level: number, keep: 1 | -1): readonly Point[] => {
  const kept: Point[] = [];
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i] as Point;
    const b = ring[(i + 1) % ring.length] as Point;
    const offA = (a.x - level) * keep;
    const offB = (b.x - level) * keep;
    if (offA >= -1e-9) kept.push(a);
    if ((offA < -1e-9 && offB > 1e-9) || (offA > 1e-9 && offB < -1e-9)) {
      const s = offA / (offA - offB);
      kept.push({ x: level, y: a.y + (b.y - a.y) * s });
    }
  }
  return kept;
};
