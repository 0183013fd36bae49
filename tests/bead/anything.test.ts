/** Whatever is written gets an answer; and which roller is asked. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bead, BeadEnd } from '../../server/model/part.js';
import { byK, hole, polygonPanel, rectangle, sheet } from '../blank/build.js';
import { runs } from '../runs.js';
import { along, bead, beaded, border, circle, halfRound, line, roller, sourced, stepDie, through, work } from './build.js';

const crs = sheet(1, 1, byK(0.42));
const size = fc.oneof(fc.integer({ min: -50, max: 650 }), fc.constantFrom(0, 0.001, 1e6, 300));
const point = fc.record({ x: size, y: size });
const end = fc.constantFrom<BeadEnd>('closed', 'open', 'run off');
const path = fc.oneof(
  fc.tuple(size, size, size, size).map(([a, b, c, d]) => line(a, b, c, d)),
  fc.tuple(size, fc.option(size, { nil: undefined })).map(([inset, corner]) => border(inset, corner)),
  fc
    .tuple(fc.array(fc.constantFrom('top', 'left', 'bottom', 'right', 'nowhere', 'a', 'b'), { maxLength: 4 }), size, size)
    .map(([edges, inset, corner]) => along(edges, inset, corner)),
  fc
    .tuple(fc.array(point, { minLength: 2, maxLength: 6 }), fc.option(size, { nil: undefined }))
    .map(([points, corner]) => through(points, corner)),
  fc.tuple(size, size, size).map(([x, y, r]) => circle(x, y, r)),
  fc.tuple(point, point, point).map(([a, b, c]): Bead['path'] => ({ kind: 'arc', from: sourced(a), through: sourced(b), to: sourced(c) })),
);
const dies = fc.constantFrom(
  halfRound(),
  stepDie(),
  halfRound({ shape: 'tipping' }),
  halfRound({ width: undefined }),
  halfRound({ depth: 400 }),
  undefined,
);
const anyBead = fc.record({
  path,
  start: end,
  finish: end,
  die: dies,
  band: fc.boolean(),
  width: fc.option(size, { nil: undefined }),
  down: fc.boolean(),
});
const panels = fc.constantFrom(
  rectangle(600, 400, {
    sheet: crs,
    edges: [
      { edge: 'top', steps: [{ length: 30 }] },
      { edge: 'left', steps: [{ length: 20 }] },
    ],
    cuts: [hole('hole.1', 30, { x: 300, y: 200 })],
  }),
  rectangle(600, 400, { sheet: crs, cuts: [hole('hole.1', 90, { x: 600, y: 200 })] }),
  polygonPanel(
    [
      { x: 0, y: 0 },
      { x: 500, y: 0 },
      { x: 250, y: 120 },
      { x: 500, y: 400 },
      { x: 0, y: 300 },
    ],
    { sheet: crs },
  ),
);

describe('whatever is written', () => {
  it('is answered with finite numbers, and each bead is in the result or named among what could not be worked', () => {
    fc.assert(
      fc.property(
        panels,
        fc.array(anyBead, { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 20, max: 400 }),
        (panel, sketches, throat) => {
          const beads = sketches.map((s, i) =>
            bead(`rib.${i + 1}`, s.path, {
              kind: s.band ? 'band' : 'bead',
              width: s.width,
              start: s.start,
              finish: s.finish,
              direction: s.down ? 'down' : 'up',
              die: s.die === undefined ? undefined : sourced(s.die),
            }),
          );
          const { result } = work(beaded(panel, beads, [roller(throat, 60)]));
          for (const { id } of beads)
            expect(
              result.beads.some((b) => b.id === id) ||
                result.unworked.some((u) => u.id === id) ||
                beads.some((b) => b.id === id && b.path.kind === 'along' && b.path.edges.length === 0),
            ).toBe(true);
          for (const worked of result.beads) {
            for (const value of [worked.length, worked.reaches[0]?.needed, ...worked.spacings.map((s) => s.found)])
              expect(Number.isFinite(value)).toBe(true);
          }
          expect(Number.isFinite(result.drawIn?.asCut.width ?? 0)).toBe(true);
          // Every track is rolled, once or in runs that make up its whole.
          expect(new Set(result.schedule.map((row) => row.track))).toEqual(new Set(result.beads.flatMap((b) => b.tracks.map((t) => t.id))));
        },
      ),
      { numRuns: runs(150) },
    );
  });
});

describe('several rollers', () => {
  const tray = rectangle(600, 400, { sheet: crs });
  const rib = bead('rib', line(100, 130, 500, 130));
  const named = (name: string, throat: number, thickest?: number) => ({
    ...roller(throat, 60),
    name,
    thickest: thickest === undefined ? undefined : { thickness: thickest, material: undefined },
  });
  it('the one that reaches is asked first, and of those the one with more to spare', () => {
    const reaches = work(beaded(tray, [rib], [named('short', 100), named('long', 300), named('longer', 450)])).bead('rib').reaches;
    expect(reaches.map((reach) => [reach.roller.name, reach.fits])).toEqual([
      ['longer', true],
      ['long', true],
      ['short', false],
    ]);
  });
  it('but not one that the sheet is too thick for', () => {
    const reaches = work(beaded(tray, [rib], [named('light', 450, 0.8), named('stout', 150, 1.5)])).bead('rib').reaches;
    expect(reaches[0]).toMatchObject({ roller: { name: 'stout' }, thickest: 1.5 });
  });
  it('without a roller there is no reach, and still an order of work', () => {
    const { result } = work(beaded(tray, [rib]));
    expect(result.beads[0]?.reaches).toEqual([]);
    expect(result.schedule).toHaveLength(1);
  });
});
