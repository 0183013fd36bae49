/** Random parts: what the fold says of them against a second way of finding out. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import { foldPart, meshOf, sectionAt } from '../../server/fold/index.js';
import { overlapArea } from '../../server/shape/booleans.js';
import { byK, corner, type EdgeSketch, type FlangeSketch, hole, rectangle, sheet } from '../blank/build.js';
import { runs } from '../runs.js';

const direction = fc.constantFrom('up' as const, 'down' as const);
const flange = (longest: number): fc.Arbitrary<FlangeSketch> =>
  fc.record({
    length: fc.double({ min: 15, max: longest, noNaN: true }),
    turn: fc.oneof(fc.constant(90), fc.double({ min: 20, max: 160, noNaN: true })),
    direction,
  });

describe('a chain on one edge', () => {
  const mixed = fc.array(flange(70), { minLength: 2, maxLength: 5 });
  /** Rolled up one way, so that many run into themselves. */
  const rolled = mixed.map((steps) =>
    steps.map((step): FlangeSketch => ({ ...step, direction: 'up', turn: Math.max(90, step.turn ?? 90) })),
  );
  const chains = fc.oneof(mixed, rolled);
  /** Faces whose sections overlap, by the polygon library, with the overlap's area. */
  const overlaps = (blank: Blank): ReadonlyMap<string, number> => {
    const cut = sectionAt(blank, { point: { x: 100, y: 0, z: 0 }, normal: { x: 1, y: 0, z: 0 } });
    const faces = cut.pieces.filter(({ feature }) => feature.startsWith('face:'));
    const found = new Map<string, number>();
    faces.forEach((a, i) => {
      for (const b of faces.slice(i + 1)) {
        const area = overlapArea([a.loop], [b.loop]);
        if (area > 0) found.set([a.feature, b.feature].sort().join(' '), area);
      }
    });
    return found;
  };

  test('collides where the polygons of its section overlap, and nowhere else', () => {
    let colliding = 0;
    fc.assert(
      fc.property(chains, fc.double({ min: 0.5, max: 2, noNaN: true }), (steps, thickness) => {
        const part = rectangle(200, 80, { sheet: sheet(thickness, 1.5, byK(0.42)), edges: [{ edge: 'top', steps }] });
        const { blank } = layOut(part);
        if (blank === undefined || blank.bends.length < 2) return;
        const bySection = overlaps(blank);
        const byFold = new Map(
          foldPart(part, blank)
            .collisions.filter(({ a, b }) => a.startsWith('face:') && b.startsWith('face:'))
            .map(({ a, b, depth }) => [[a, b].sort().join(' '), depth]),
        );
        // What overlaps by a hair is touching to the one and an area of nothing to the other.
        for (const [pair, area] of bySection) if (area > 0.05) expect(byFold.has(pair), `${pair} overlaps by ${area} mm²`).toBe(true);
        for (const [pair, depth] of byFold) if (depth > 0.02) expect(bySection.has(pair), `${pair} is ${depth} mm deep`).toBe(true);
        colliding += byFold.size;
      }),
      { numRuns: runs(120) },
    );
    // The parts asked about are not all harmless.
    expect(colliding).toBeGreaterThan(15);
  });
});

describe('a panel bent on all sides', () => {
  const sides = ['bottom', 'right', 'top', 'left'];
  const relief = fc.constantFrom(
    corner({ kind: 'open', relief: undefined }),
    corner({ kind: 'open', relief: { kind: 'square', side: 6 } }),
    corner({ kind: 'mitred', gap: 0.5, relief: undefined }),
  );
  const panels = fc
    .tuple(fc.array(fc.array(flange(40), { maxLength: 3 }), { minLength: 4, maxLength: 4 }), relief, fc.boolean())
    .map(([chains, treatment, stretch]) =>
      rectangle(300, 220, {
        sheet: sheet(1.2, 1.5, byK(0.42)),
        corners: [treatment],
        cuts: [hole('drain', 12, { x: 150, y: 110 })],
        edges: chains.flatMap((steps, i): readonly EdgeSketch[] =>
          steps.length === 0 ? [] : [{ edge: sides[i] as string, steps, ...(stretch && i === 0 ? { from: 60, to: 200 } : {}) }],
        ),
      }),
    );

  test('is one closed skin in any state', () => {
    let skins = 0;
    fc.assert(
      fc.property(panels, fc.double({ min: 0, max: 1, noNaN: true }), (panel, share) => {
        const { blank, findings } = layOut(panel);
        if (blank === undefined || findings.some(({ severity }) => severity === 'error')) return;
        skins += 1;
        const mesh = meshOf(blank, () => share);
        const walked = new Map<string, number>();
        const key = (corner: number): string =>
          [0, 1, 2].map((k) => Math.round((mesh.positions[3 * corner + k] as number) * 1e6) + 0).join(' ');
        for (let t = 0; t < mesh.triangles.length; t += 3) {
          const ring = [0, 1, 2].map((k) => key(mesh.triangles[t + k] as number));
          for (let k = 0; k < 3; k++) {
            const edge = `${ring[k]} > ${ring[(k + 1) % 3]}`;
            walked.set(edge, (walked.get(edge) ?? 0) + 1);
          }
        }
        for (const [edge, times] of walked) {
          expect(walked.get(edge.split(' > ').reverse().join(' > ')), edge).toBe(times);
        }
      }),
      { numRuns: runs(40) },
    );
    expect(skins).toBeGreaterThan(8);
  });

  test('is as large as the corners of its fine mesh say', () => {
    let sized = 0;
    fc.assert(
      fc.property(panels, (panel) => {
        const { blank, findings } = layOut(panel);
        if (blank === undefined || findings.some(({ severity }) => severity === 'error')) return;
        sized += 1;
        const { envelope } = foldPart(panel, blank);
        const mesh = meshOf(blank, () => 1, 1e-3);
        for (const [k, axis] of (['x', 'y', 'z'] as const).entries()) {
          const along = Array.from({ length: mesh.positions.length / 3 }, (_, i) => mesh.positions[3 * i + k] as number);
          const [low, high] = [along.reduce((a, b) => Math.min(a, b)), along.reduce((a, b) => Math.max(a, b))];
          // The mesh lies within the true part, by its chords at most.
          expect(low - envelope.min[axis]).toBeGreaterThan(-1e-9);
          expect(envelope.max[axis] - high).toBeGreaterThan(-1e-9);
          expect(low - envelope.min[axis]).toBeLessThan(5e-3);
          expect(envelope.max[axis] - high).toBeLessThan(5e-3);
        }
      }),
      { numRuns: runs(30) },
    );
    expect(sized).toBeGreaterThan(6);
  });
});
