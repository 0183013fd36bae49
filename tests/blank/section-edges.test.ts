/** Sections with hems, curls, rolls, joggles and tabs at their two edges; 2 mm sheet bent to 3 mm inside, K 0.40, unless another is named. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import { foldPart, mapsOf } from '../../server/fold/index.js';
import type { Direction, HemStep } from '../../server/model/part.js';
import { runs } from '../runs.js';
import { byK, hole, leg, type SectionEnds, type StepSketch, section, sheet, turn } from './build.js';
import { expectAreaAgrees, expectWellFormed, laidOut } from './judge.js';

const plate = sheet(2, 3, byK(0.4));
const square = (Math.PI / 2) * 3.8;

describe('a section with something at its edges', () => {
  test('a channel hemmed on both edges: hand sums, and the finished sizes', () => {
    const hem: StepSketch = { hem: 10, style: { kind: 'open', gap: 2 } };
    const part = section(200, plate, [leg(30), turn('up'), leg(60), turn('up'), leg(30)], [hole('hole.1', 4, { x: 20, y: 8 }, 'first.1')], {
      first: [hem],
      last: [hem],
    });
    const blank = laidOut(part);
    expectWellFormed(blank);
    expectAreaAgrees(blank);
    // A hem takes 1 + 2 of its leg and adds its fold and 10 − 3; the legs lose 5 at each turn.
    const fold = Math.PI * 1.8 + 7;
    expect(blank.height).toBeCloseTo(2 * fold + 2 * (30 - 3 - 5) + 2 * square + (60 - 10), 6);
    expect(blank.bends.map(({ id, make }) => [id, make])).toEqual([
      ['first.1', 'hem'],
      ['turn.1', 'turn'],
      ['turn.2', 'turn'],
      ['last.1', 'hem'],
    ]);
    // 8 from the outermost of the fold, on the return, which runs down from the strip's lower end.
    expect(blank.cutouts[0]?.centre.y).toBeCloseTo(7 - (8 - 3), 6);
    const { envelope, collisions } = foldPart(part, blank);
    expect(collisions).toEqual([]);
    const size = [envelope.max.x - envelope.min.x, envelope.max.y - envelope.min.y, envelope.max.z - envelope.min.z];
    // Across: from the outermost of the hemmed edge of the first leg to the outside of the web; up: the web.
    expect(size.map((v) => Math.round(v * 1e6) / 1e6)).toEqual([200, 30, 60]);
  });
  test('whatever a panel’s edge can carry: a roll, then a curl; a joggle; tabs', () => {
    const strip = (ends: SectionEnds): Blank => {
      const blank = laidOut(section(200, plate, [leg(80), turn('up'), leg(60)], [], ends));
      expectWellFormed(blank);
      expectAreaAgrees(blank);
      return blank;
    };
    const plain = 80 + 60 - 10 + square;
    expect(strip({ last: [{ rolled: 20, turn: 90 }, { curl: 4 }] }).height).toBeCloseTo(
      plain - 22 + (Math.PI / 2) * 20.8 + (2 * Math.PI - Math.acos(1 / 2)) * 2.8,
      6,
    );
    // A joggle of 4 to a radius of 3 at 45°: as on a panel.
    const straight = (4 - 8 * (1 - Math.SQRT1_2)) / Math.SQRT1_2;
    const run = 8 * Math.SQRT1_2 + straight * Math.SQRT1_2;
    expect(strip({ first: [{ joggle: 4, over: 20 }] }).height).toBeCloseTo(plain + 2 * (Math.PI / 4) * 3.8 + straight - run, 6);
    const tabs = strip({ first: [{ tab: 20, by: 6, at: [40] }], last: [{ tab: 30, by: 8, at: [60, 120] }] });
    expect(tabs.height).toBeCloseTo(plain + 6 + 8, 6);
    expect(tabs.area).toBeCloseTo(200 * plain + 20 * 6 + 2 * 30 * 8, 6);
    const flat = laidOut(section(200, plate, [leg(80)], [], { first: [{ hem: 10 }], last: [{ tab: 20, by: 6 }] }));
    expect(flat.height).toBeCloseTo(78 + Math.PI * 0.8 + 8 + 6, 6);
  });
  test('a leg between a hem and a bend that take all of it is refused with the numbers', () => {
    const { findings } = layOut(section(200, plate, [leg(7), turn('up'), leg(60)], [], { first: [{ hem: 10 }] }));
    expect(findings.map(({ message }) => message)).toEqual([
      'leg.1 is 7 mm, but the bends at its two edges take up 7 mm of it, so no flat is left; make it longer than 7 mm or the inside radius smaller',
    ]);
  });
});

describe('a hole that goes on through a channel', () => {
  test('from one wall to the other, and to the return of a hem', () => {
    const wall = { ...hole('hole.1', 4, { x: 20, y: 12 }, 'leg.3'), through: 'leg.1' };
    const part = section(200, plate, [leg(30), turn('up'), leg(60), turn('up'), leg(30)], [wall]);
    // 12 from the web's outside on the one is 30 − 12 from the free edge of the other.
    expect(laidOut(part).cutouts.map(({ face, centre }) => [face, Math.round(centre.x * 1e6) / 1e6])).toEqual([
      ['leg.3', 20],
      ['leg.1', 20],
    ]);
    expect(laidOut(part).cutouts[1]?.centre.y).toBeCloseTo(18, 6);
    const rim = { ...hole('hole.1', 3, { x: 40, y: 8 }, 'first.1'), through: 'leg.1' };
    const hemmed = laidOut(
      section(200, plate, [leg(40), turn('up'), leg(40)], [rim], { first: [{ hem: 14, style: { kind: 'open', gap: 2 } }] }),
    );
    const base = hemmed.faces.find(({ id }) => id === 'leg.1');
    // 8 from the outermost of the fold, which is the leg's finished edge: y 8 of the leg itself.
    expect(hemmed.cutouts[1]?.centre.y).toBeCloseTo((base?.place.ty ?? Number.NaN) + 8, 6);
  });
});

describe('any section', () => {
  const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
  const direction = fc.constantFrom<Direction>('up', 'down');
  const style = fc.oneof(
    fc.constantFrom<HemStep['style']>({ kind: 'closed' }, { kind: 'double' }),
    number(0.5, 3).map((gap): HemStep['style'] => ({ kind: 'open', gap })),
    number(2, 4).map((diameter): HemStep['style'] => ({ kind: 'teardrop', diameter })),
  );
  const optional = (of: fc.Arbitrary<StepSketch>): fc.Arbitrary<readonly StepSketch[]> =>
    fc.option(of).map((one) => (one === null ? [] : [one]));
  const end = fc
    .tuple(
      optional(
        fc.oneof(
          fc.record({ joggle: number(0.5, 6), over: number(30, 45), direction }),
          fc.record({ rolled: number(6, 15), turn: number(20, 170), direction }),
        ),
      ),
      optional(
        fc.oneof(
          fc.record({ hem: number(9, 14), style, direction }),
          fc.record({ curl: number(2, 5), direction }),
          fc.record({ tab: number(5, 10), by: number(4, 12) }),
        ),
      ),
    )
    .map((parts) => parts.flat());
  const sections = fc
    .record({
      length: number(60, 400),
      first: number(70, 120),
      more: fc.array(fc.record({ length: number(25, 60), by: number(10, 140), way: direction, radius: number(0.5, 4) }), { maxLength: 12 }),
      start: end,
      finish: end,
      thickness: number(0.5, 2),
      k: number(0.33, 0.5),
    })
    .map(({ length, first, more, start, finish, thickness, k }) =>
      section(
        length,
        sheet(thickness, 1, byK(k)),
        [leg(first), ...more.flatMap((one) => [turn(one.way, one.by, one.radius), leg(one.length)])],
        [],
        { first: start, last: finish },
      ),
    );

  test('covers exactly its faces and zones, and every place on it folds up and back', () => {
    let compared = 0;
    fc.assert(
      fc.property(sections, number(0, 1), (part, share) => {
        const { blank, findings } = layOut(part);
        if (findings.some(({ severity }) => severity === 'error')) return fc.pre(false);
        if (blank === undefined) throw new Error('no blank and nothing said');
        compared++;
        expectWellFormed(blank);
        expectAreaAgrees(blank);
        for (const bend of blank.bends) {
          const maps = mapsOf(blank, `bend:${bend.id}`, () => share);
          for (const p of [...bend.tangentParent, ...bend.tangentChild, bend.from, bend.to]) {
            const back = maps?.unfold(maps.fold({ ...p, z: part.sheet === undefined ? 0 : 0.2 }));
            expect(Math.hypot((back?.x ?? Number.NaN) - p.x, (back?.y ?? Number.NaN) - p.y, (back?.z ?? Number.NaN) - 0.2)).toBeLessThan(
              1e-9,
            );
          }
        }
        return undefined;
      }),
      { numRuns: runs(40) },
    );
    expect(compared).toBeGreaterThanOrEqual(runs(40));
  });
});
