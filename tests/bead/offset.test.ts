/** Lines shifted square to themselves, against distances reckoned point by point. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Path } from '../../server/bead/index.js';
import { offsetPath } from '../../server/bead/offset.js';
import type { XY } from '../../server/model/part.js';
import { runs } from '../runs.js';
import { pathPoints } from './points.js';

const stars = fc.array(fc.integer({ min: 60, max: 300 }), { minLength: 4, maxLength: 10 }).map((radii) =>
  radii.map((radius, i): XY => {
    const angle = (2 * Math.PI * i) / radii.length + 0.1;
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  }),
);
const ring = (corners: readonly XY[]): Path => ({
  start: corners[0] as XY,
  moves: [...corners.slice(1), corners[0] as XY].map((to) => ({ kind: 'line', to })),
  closed: true,
});
const chain = (corners: readonly XY[]): Path => ({
  start: corners[0] as XY,
  moves: corners.slice(1).map((to) => ({ kind: 'line', to })),
  closed: false,
});

const toSegment = (p: XY, a: XY, b: XY): number => {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const t = Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
};
const distance = (p: XY, corners: readonly XY[], closed: boolean): number =>
  Math.min(
    ...corners.map((a, i) =>
      i + 1 < corners.length || closed ? toSegment(p, a, corners[(i + 1) % corners.length] as XY) : Number.POSITIVE_INFINITY,
    ),
  );

/** Even–odd count of a ray to the right. */
const inside = (p: XY, corners: readonly XY[]): boolean =>
  corners.reduce((odd, a, i) => {
    const b = corners[(i + 1) % corners.length] as XY;
    const crosses = a.y > p.y !== b.y > p.y && p.x < a.x + ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y);
    return crosses ? !odd : odd;
  }, false);

describe('a closed line shifted inward, its far corners rounded', () => {
  it('goes round exactly the places that are farther in than the distance', () => {
    fc.assert(
      fc.property(stars, fc.integer({ min: 5, max: 120 }), (corners, by) => {
        const parts = offsetPath(ring(corners), by, 'round');
        for (const part of parts) for (const { at } of pathPoints(part, 12)) expect(distance(at, corners, true)).toBeCloseTo(by, 4);
        const drawn = parts.map((part) => pathPoints(part, 60).map(({ at }) => at));
        for (let x = -290; x <= 290; x += 37) {
          for (let y = -290; y <= 290; y += 37) {
            const p = { x, y };
            const far = inside(p, corners) ? distance(p, corners, true) : 0;
            // Within a hair of the line, chords of arcs decide; leave those out.
            if (Math.abs(far - by) < 0.5) continue;
            expect(drawn.filter((loop) => inside(p, loop)).length).toBe(far > by ? 1 : 0);
          }
        }
      }),
      { numRuns: runs(150) },
    );
  });
});

describe('an open line shifted to a side', () => {
  const zigzags = fc
    .array(fc.integer({ min: -80, max: 80 }), { minLength: 3, maxLength: 6 })
    .map((heights) => heights.map((y, i): XY => ({ x: 100 * i, y })));
  it('keeps its distance everywhere, and stays one line', () => {
    fc.assert(
      fc.property(
        zigzags,
        fc.integer({ min: -45, max: 45 }).filter((by) => by !== 0),
        (corners, by) => {
          const parts = offsetPath(chain(corners), by, 'round');
          expect(parts).toHaveLength(1);
          for (const { at } of pathPoints(parts[0], 12)) expect(distance(at, corners, false)).toBeCloseTo(Math.abs(by), 4);
        },
      ),
      { numRuns: runs(200) },
    );
  });
});

describe('with far corners run to a point', () => {
  it('a square shifted outward is a larger square', () => {
    const square = ring([
      { x: 0, y: 0 },
      { x: 100, y: 0 },
      { x: 100, y: 100 },
      { x: 0, y: 100 },
    ]);
    const [part] = offsetPath(square, -10, 'sharp');
    expect(part?.moves.filter((move) => move.kind === 'line')).toHaveLength(4);
    expect(
      part?.moves
        .map((move) => [Math.round(move.to.x), Math.round(move.to.y)])
        .sort((a, b) => (a[0] as number) - (b[0] as number) || (a[1] as number) - (b[1] as number)),
    ).toEqual([
      [-10, -10],
      [-10, 110],
      [110, -10],
      [110, 110],
    ]);
  });
});
