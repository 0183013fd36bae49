import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import { dimensionsOf, type FoldSection, JOINT, sectionAt } from '../../server/fold/index.js';
import type { Panel, Section } from '../../server/model/part.js';
import { signedArea } from '../../server/shape/loops.js';
import { byK, degrees, hole, leg, rectangle, section, sheet, turn } from '../blank/build.js';

const blankOf = (part: Panel | Section): Blank => {
  const { blank } = layOut(part);
  if (blank === undefined) throw new Error('not laid out');
  return blank;
};
const steel = sheet(1.5, 2, byK(0.42));
const areaOf = (cut: FoldSection): number => cut.pieces.reduce((sum, { loop }) => sum + signedArea(loop), 0);
const across = { point: { x: 0, y: 0, z: 0 }, normal: { x: 1, y: 0, z: 0 } };

describe('a hat section cut across', () => {
  const hat = blankOf(
    section(150, steel, [leg(20), turn('up'), leg(25), turn('down'), leg(40), turn('down'), leg(25), turn('up'), leg(20)]),
  );
  // Legs of a section lie side by side; whichever way they run, a plane square to the first bend cuts them all.
  const [bend] = hat.bends;
  if (bend === undefined) throw new Error('no bend');
  const along = { x: bend.to.x - bend.from.x, y: bend.to.y - bend.from.y, z: 0 };
  const cut = sectionAt(hat, { point: { x: (bend.from.x + bend.to.x) / 2, y: (bend.from.y + bend.to.y) / 2, z: 0 }, normal: along });

  test('shows every leg and every turn once', () => {
    expect(cut.pieces.map(({ feature }) => feature).sort()).toEqual(
      [...hat.faces.map(({ id }) => `face:${id}`), ...hat.bends.map(({ id }) => `bend:${id}`)].sort(),
    );
  });

  test('has the area of its legs and of its rings', () => {
    // Flats: outside length less 3.5 (= 2 + 1.5) at each bend; a quarter ring is π/4·(3.5² − 2²).
    const flats = (20 - 3.5) * 2 + (25 - 7) * 2 + (40 - 7);
    const rings = (4 * Math.PI * (3.5 ** 2 - 2 ** 2)) / 4;
    expect(areaOf(cut)).toBeCloseTo(flats * 1.5 + rings, 9);
  });

  test('gives the lengths as they were written, the turns, and the whole', () => {
    const sizes = dimensionsOf(hat, cut);
    expect(sizes.flatMap((size) => (size.kind === 'leg' ? [Math.round(size.length * 1e9) / 1e9] : [])).sort()).toEqual([
      20, 20, 25, 25, 40,
    ]);
    const turns = sizes.flatMap((size) => (size.kind === 'turn' ? [size] : []));
    expect(turns.map(({ turn: by, inside }) => [by, inside])).toEqual(Array.from({ length: 4 }, () => [degrees(90), 2]));
    // Across: the brims' outside faces and the crown's: 20 + 40 + 20, each brim and the crown sharing a wall of 1.5; up: the walls' 25.
    const [width, height] = sizes.flatMap((size) => (size.kind === 'overall' ? [size.length] : []));
    expect([width, height].map((v) => Math.round((v as number) * 1e9) / 1e9).sort()).toEqual([25, 77]);
  });

  test('marks where one piece runs on into the next, twice for each bend', () => {
    const joints = cut.pieces.flatMap(({ loop }) => loop.filter(({ id }) => id === JOINT));
    // Both neighbours have the joint.
    expect(joints).toHaveLength(4 * 2 * 2);
  });
});

describe('sections of other shapes', () => {
  const squareCut = (blank: Blank): FoldSection => {
    const [bend] = blank.bends;
    if (bend === undefined) throw new Error('no bend');
    const normal = { x: bend.to.x - bend.from.x, y: bend.to.y - bend.from.y, z: 0 };
    return sectionAt(blank, { point: { x: (bend.from.x + bend.to.x) / 2, y: (bend.from.y + bend.to.y) / 2, z: 0 }, normal });
  };
  const legsOf = (blank: Blank): ReadonlyMap<string, number> =>
    new Map(
      dimensionsOf(blank, squareCut(blank)).flatMap((size) =>
        size.kind === 'leg' ? [[size.feature, Math.round(size.length * 1e6) / 1e6]] : [],
      ),
    );

  test('forty legs zigzag: every one has its length, every turn its angle', () => {
    const lengths = Array.from({ length: 40 }, (_, i) => 20 + (i % 7));
    const steps = lengths.flatMap((length, i) =>
      i === 0 ? [leg(length)] : [turn(i % 2 === 0 ? 'up' : 'down', i % 3 === 0 ? 60 : 75), leg(length)],
    );
    const blank = blankOf(section(100, steel, steps));
    expect(legsOf(blank)).toEqual(new Map(lengths.map((length, i) => [`face:leg.${i + 1}`, length])));
    const turns = dimensionsOf(blank, squareCut(blank)).flatMap((size) =>
      size.kind === 'turn' ? [Math.round((size.turn * 180) / Math.PI)] : [],
    );
    expect(turns).toHaveLength(39);
    expect(turns.filter((by) => by === 60)).toHaveLength(13);
  });
  test('a channel hemmed on both edges: legs to the outermost of the hems, hems as deep as written', () => {
    const ends = {
      first: [{ hem: 12, style: { kind: 'open', gap: 3 } as const }],
      last: [{ hem: 14, style: { kind: 'double' } as const }],
    };
    const blank = blankOf(section(100, steel, [leg(30), turn('up'), leg(50), turn('up'), leg(25)], [], ends));
    expect(Object.fromEntries(legsOf(blank))).toMatchObject({
      'face:leg.1': 30,
      'face:leg.2': 50,
      'face:leg.3': 25,
      'face:first.1': 12,
      'face:last.1': 14,
      // Behind the fold at the edge: 14 less T/2 + T.
      'face:last.1.inner': 14 - 2.25,
    });
  });
});

describe('a tray', () => {
  const tray = blankOf(
    rectangle(200, 100, {
      sheet: steel,
      edges: ['bottom', 'right', 'top', 'left'].map((edge) => ({ edge, steps: [{ length: 30 }] })),
      cuts: [hole('drain', 10, { x: 100, y: 50 })],
    }),
  );
  const [bottom] = tray.bends;
  const middle = { x: ((bottom?.from.x ?? 0) + (bottom?.to.x ?? 0)) / 2, y: tray.height / 2, z: 0 };

  test('cut through its drain shows the floor in two', () => {
    const cut = sectionAt(tray, { ...across, point: middle });
    expect(cut.pieces.filter(({ feature }) => feature === 'face:base')).toHaveLength(2);
    const flats = 100 - 7 - 10 + 2 * (30 - 3.5);
    expect(areaOf(cut)).toBeCloseTo(flats * 1.5 + (2 * Math.PI * (3.5 ** 2 - 2 ** 2)) / 4, 9);
  });

  test('cut level above its floor shows the four walls', () => {
    const cut = sectionAt(tray, { point: { x: 0, y: 0, z: 20 }, normal: { x: 0, y: 0, z: 1 } });
    expect(cut.pieces.map(({ feature }) => feature).sort()).toEqual(['face:bottom.1', 'face:left.1', 'face:right.1', 'face:top.1']);
    // Square corners: each wall as long as its edge between the neighbours' tangent lines, 3.5 in from either side.
    expect(areaOf(cut)).toBeCloseTo(1.5 * 2 * (193 + 93), 9);
  });

  test('cut through its floor shows the floor as it lies, and rings’ walls in facets', () => {
    const cut = sectionAt(tray, { point: { x: 0, y: 0, z: 0 }, normal: { x: 0, y: 0, z: 1 } });
    const floor = cut.pieces.filter(({ feature }) => feature === 'face:base').map(({ loop }) => signedArea(loop));
    expect(floor).toHaveLength(2);
    expect(Math.min(...floor)).toBeCloseTo(-Math.PI * 25, 9);
  });

  test('missed by the plane shows nothing', () => {
    expect(sectionAt(tray, { ...across, point: { x: -1000, y: 0, z: 0 } }).pieces).toEqual([]);
  });
});

test('a turn beyond square is measured to the outermost of its bend', () => {
  const cleat = blankOf(section(100, steel, [leg(30), turn('up', 120), leg(40)]));
  const [bend] = cleat.bends;
  if (bend === undefined) throw new Error('no bend');
  const cut = sectionAt(cleat, {
    point: { x: (bend.from.x + bend.to.x) / 2, y: (bend.from.y + bend.to.y) / 2, z: 0 },
    normal: { x: bend.to.x - bend.from.x, y: bend.to.y - bend.from.y, z: 0 },
  });
  const legs = dimensionsOf(cleat, cut).flatMap((size) => (size.kind === 'leg' ? [size.length] : []));
  expect(legs.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([30, 40]);
});
