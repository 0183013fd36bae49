/** How far in the roller has to reach. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bead, XY } from '../../server/model/part.js';
import { byK, cut, drawn, hole, polygonPanel, rectangle, sheet } from '../blank/build.js';
import { runs } from '../runs.js';
import { along, bead, beaded, border, circle, line, roller, sourced, through, work } from './build.js';
import { pathPoints } from './points.js';

const crs = sheet(1, 1, byK(0.42));
const flat = { sheet: crs };
const only = (needed: { reaches: readonly { needed: number }[] }): number => needed.reaches[0]?.needed ?? Number.NaN;

describe('a straight bead across a rectangle', () => {
  it('reaches as far as the nearer edge, whatever the frame is wide', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 399 }), fc.integer({ min: 0, max: 200 }), (y, arm) => {
        const panel = beaded(rectangle(600, 400, flat), [bead('rib', line(0, y, 600, y))], [roller(1000, arm)]);
        expect(only(work(panel).bead('rib'))).toBeCloseTo(Math.min(y, 400 - y), 9);
      }),
      { numRuns: runs(60) },
    );
  });

  it('says where the frame stands and what it meets', () => {
    const { bead: of } = work(beaded(rectangle(600, 400, flat), [bead('rib', line(100, 130, 500, 130))], [roller(90, 60)]));
    const reach = of('rib').reaches[0];
    expect(reach).toMatchObject({ needed: 130, throat: 90, fits: false, runs: [{ side: 'right', from: 0, to: 400, otherNeeded: 270 }] });
    expect(reach?.worst).toMatchObject({ at: { x: 300, y: 130 }, farthest: { x: 300, y: 0 }, side: 'right', toFrame: { x: 0, y: -1 } });
    expect(reach?.worst.frame).toEqual([
      { x: 330, y: 130 },
      { x: 270, y: 130 },
      { x: 270, y: 40 },
      { x: 330, y: 40 },
    ]);
  });
});

describe('the frame’s width', () => {
  it('counts sheet beside the bead that a line through the dies would miss', () => {
    // A tongue 100 wide stands 200 out of the lower edge; the bead ends 20 short of being level with it.
    const outline = [
      { x: 0, y: 0 },
      { x: 300, y: 0 },
      { x: 300, y: -200 },
      { x: 400, y: -200 },
      { x: 400, y: 400 },
      { x: 0, y: 400 },
    ];
    const needed = (arm: number): number =>
      only(work(beaded(polygonPanel(outline, flat), [bead('rib', line(50, 150, 280, 150))], [roller(1000, arm)])).bead('rib'));
    expect(needed(38)).toBeCloseTo(150, 9);
    expect(needed(42)).toBeCloseTo(250, 9); // to the far edge: the tongue's end is 350 away
  });

  it('at a rounded corner, looks along the diagonal into the sheet’s corner', () => {
    const { bead: of } = work(beaded(rectangle(600, 400, flat), [bead('border', border(40, 25))], [roller(1000, 60)]));
    expect(only(of('border'))).toBeCloseTo(Math.hypot(65, 65) - 25, 9);
    expect(of('border').reaches[0]?.runs.map((run) => run.side)).toEqual(['right']);
  });
});

describe('a throat too short for one run', () => {
  // A strip from 200 to 300 high with a block below its left third and one above its right third. The bead runs along the strip's middle.
  const blocks = polygonPanel(
    [
      { x: 0, y: 0 },
      { x: 200, y: 0 },
      { x: 200, y: 200 },
      { x: 600, y: 200 },
      { x: 600, y: 500 },
      { x: 400, y: 500 },
      { x: 400, y: 300 },
      { x: 0, y: 300 },
    ],
    flat,
  );
  const reachWith = (throat: number) =>
    work(beaded(blocks, [bead('rib', line(20, 250, 580, 250))], [roller(throat, 40)])).bead('rib').reaches[0];

  it('is met by rolling part from the left and part from the right, changing over half-way through what both reach', () => {
    // Above, the block is met from 380 on; below, it is left behind at 220: change over at 300, 280 from the start.
    const reach = reachWith(120);
    expect(reach?.fits).toBe(true);
    expect(reach?.needed).toBeCloseTo(50, 9);
    expect(reach?.runs.map((run) => [run.side, Math.round(run.from), Math.round(run.to), Math.round(run.needed)])).toEqual([
      ['left', 0, 280, 50],
      ['right', 280, 560, 50],
    ]);
  });
  it('is told with what both sides together would need when neither is near enough', () => {
    expect(reachWith(45)).toMatchObject({ fits: false });
    expect(reachWith(45)?.needed).toBeCloseTo(50, 6);
  });
  it('is not parted where one side does', () => {
    expect(reachWith(260)?.runs).toHaveLength(1);
  });
});

describe('the limit of a throat', () => {
  it('leaves out a band down the middle, as wide as the sheet less twice the throat', () => {
    const { limit } =
      work(beaded(rectangle(600, 400, flat), [bead('rib', line(300, 50, 300, 350))], [roller(150, 60)])).bead('rib').reaches[0] ?? {};
    expect(limit?.beyond).toHaveLength(1);
    const xs = limit?.beyond[0]?.map((p) => Math.round(p.x * 1000) / 1000) ?? [];
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([150, 450]);
  });
  it('leaves out nothing where the throat is half the sheet', () => {
    const { limit } =
      work(beaded(rectangle(600, 400, flat), [bead('rib', line(300, 50, 300, 350))], [roller(300, 60)])).bead('rib').reaches[0] ?? {};
    expect(limit?.beyond).toEqual([]);
  });
});

describe('the deepest place', () => {
  const deepest = (one: Bead, throat: number) =>
    work(beaded(rectangle(600, 400, flat), [one], [roller(throat, 60)])).bead(one.id).reaches[0]?.deepest;
  it('of a straight bead is a shift square to itself toward the nearer edge', () => {
    expect(deepest(bead('rib', line(100, 130, 500, 130)), 90)).toEqual({ kind: 'shift', dx: 0, dy: -40 });
  });
  it('of a mirrored copy is given in the words as written', () => {
    const copy = { mirrorX: true, mirrorY: false, shift: { x: 600, y: 0 } };
    const shift = deepest(bead('rib', line(200, 50, 200, 350), { copy }), 150);
    expect(shift).toMatchObject({ kind: 'shift' });
    // The copy lies at x 400 and has to go to 450: as written, from 200 to 150.
    expect(shift?.kind === 'shift' ? shift.dx : 0).toBeCloseTo(-50, 6);
  });
  it('of a border is the largest inset the corners allow: (√2 − 1) of the corner’s radius more than the throat asks along the diagonal', () => {
    const one = bead('border', border(150, 25));
    const found = deepest(one, 100);
    // Square sides ask the inset; the diagonal asks √2 (inset + 25) − 25, which is more. Before rolling the sheet’s corner stands a take-in farther
    // out each way, and the border, marked half a take-in farther out all round, turns with as much more radius. Of that a millimetre is let go.
    const { takeIn } = work(beaded(rectangle(600, 400, flat), [one])).bead('border');
    const allowed = 100 - ((Math.SQRT2 - 0.5) * takeIn.used - 1);
    expect(found?.kind === 'inset' ? found.value : 0).toBeCloseTo((allowed + 25) / Math.SQRT2 - 25, 3);
  });
  it('of a bead along an edge is the throat itself', () => {
    const found = deepest(bead('rim', along(['top'], 150)), 100);
    expect(found?.kind === 'inset' ? found.value : 0).toBeCloseTo(100, 3);
  });
  it('of a ring, an arc or a path is a shift of all its points, toward the frame where most is asked', () => {
    const bow: Bead['path'] = {
      kind: 'arc',
      from: sourced({ x: 200, y: 180 }),
      through: sourced({ x: 300, y: 200 }),
      to: sourced({ x: 400, y: 180 }),
    };
    const bent = through(
      [
        { x: 200, y: 180 },
        { x: 300, y: 220 },
        { x: 400, y: 180 },
      ],
      20,
    );
    for (const [path, throat] of [
      [circle(300, 200, 60), 200],
      [bow, 130],
      [bent, 130],
    ] as const) {
      const one = bead('bow', path);
      const found = deepest(one, throat);
      if (found?.kind !== 'shift') throw new Error(`no shift of a ${path.kind}`);
      const put = ({ value }: { value: XY }) => sourced({ x: value.x + found.dx, y: value.y + found.dy });
      const moved: Bead['path'] =
        path.kind === 'circle'
          ? { ...path, centre: put(path.centre) }
          : path.kind === 'arc'
            ? { ...path, from: put(path.from), through: put(path.through), to: put(path.to) }
            : path.kind === 'path'
              ? { ...path, points: path.points.map(put) }
              : path;
      const { result, bead: of } = work(beaded(rectangle(600, 400, flat), [bead('bow', moved)], [roller(throat, 60)]));
      const there = of('bow').reaches[0];
      expect(result.unworked).toEqual([]);
      expect(there).toMatchObject({ fits: true });
      // And no farther than it has to be: hardly anything of the throat is left.
      expect(Math.max(there?.needed ?? 0, (there?.beforeRolling?.needed ?? 0) - 1)).toBeGreaterThan(throat - 0.01);
    }
  });
  it('is on the sheet and clear of bends: where there is no such place none is offered', () => {
    // Half a ring past the edge would be reached; a ring on the sheet is not, from any side.
    expect(deepest(bead('ring', circle(300, 200, 60)), 130)).toBeUndefined();
    // A rib between two flanges, deep in the sheet: nearer than 100 to the flat's edge, 80 in, are only places on the flange.
    const between = rectangle(600, 400, {
      sheet: crs,
      edges: [
        { edge: 'bottom', steps: [{ length: 120 }] },
        { edge: 'top', steps: [{ length: 120 }] },
      ],
    });
    const rib = bead('rib', line(100, 130, 500, 130));
    expect(work(beaded(between, [rib], [roller(100, 60)])).bead('rib').reaches[0]).toMatchObject({ fits: false, deepest: undefined });
    expect(work(beaded(between, [rib], [roller(200, 60)])).bead('rib').reaches[0]?.deepest).toMatchObject({ kind: 'shift', dx: 0 });
  });
  it('serves before rolling too, when the sheet is still larger', () => {
    // Ten ribs on either side draw in ten times what one does.
    const ribs = Array.from({ length: 20 }, (_, i) =>
      bead(`rib.${i + 1}`, line(0, i < 10 ? 8 + 9 * i : 311 + 9 * (i - 10), 600, i < 10 ? 8 + 9 * i : 311 + 9 * (i - 10)), {
        start: 'run off',
        finish: 'run off',
      }),
    );
    const at = (y: number) =>
      work(
        beaded(
          rectangle(600, 400, flat),
          [...ribs, bead('middle', line(0, y, 600, y), { start: 'run off', finish: 'run off' })],
          [roller(200, 60)],
        ),
      ).bead('middle').reaches[0];
    const first = at(195);
    const { used } = work(beaded(rectangle(600, 400, flat), [bead('one', line(0, 195, 600, 195))])).bead('one').takeIn;
    // On the finished sheet 195 of 200; before rolling ten ribs more on that side, and half of its own.
    expect(first).toMatchObject({ fits: true, beforeRolling: { fits: false } });
    expect(first?.needed).toBeCloseTo(195, 9);
    expect(first?.beforeRolling?.needed).toBeCloseTo(195 + 10.5 * used, 6);
    const shift = first?.deepest;
    expect(shift?.kind === 'shift' ? 195 + shift.dy : 0).toBeCloseTo(200 + 1 - 10.5 * used, 3);
  });
  it('is not looked for where the bead fits', () => {
    expect(deepest(bead('rib', line(100, 80, 500, 80)), 90)).toBeUndefined();
  });
});

describe('sheet that is not there', () => {
  it('a hole within the outline changes nothing: there is sheet all round it', () => {
    const panel = rectangle(600, 400, { sheet: crs, cuts: [hole('hole.1', 80, { x: 300, y: 60 })] });
    expect(only(work(beaded(panel, [bead('rib', line(280, 130, 320, 130))], [roller(500, 20)])).bead('rib'))).toBeCloseTo(130, 9);
  });
  it('a cut-out that breaks through the edge leaves only what stands beside it', () => {
    // 200 wide and 100 deep, cut out of the lower edge: beside the short bead sheet ends at y 50.
    const notch = cut('cut.1', { kind: 'rectangle', width: 200, height: 100, corner: 0 }, { x: 300, y: 0 });
    const panel = rectangle(600, 400, { sheet: crs, cuts: [notch] });
    expect(only(work(beaded(panel, [bead('rib', line(280, 130, 320, 130))], [roller(500, 20)])).bead('rib'))).toBeCloseTo(80, 9);
  });
});

/** Star-shaped sheets about the middle, with lines and holes in them. */
const sheets = fc.record({
  radii: fc.array(fc.integer({ min: 120, max: 300 }), { minLength: 5, maxLength: 9 }),
  holes: fc.array(
    fc.record({
      angle: fc.double({ min: 0, max: 6, noNaN: true }),
      away: fc.integer({ min: 10, max: 70 }),
      size: fc.integer({ min: 5, max: 20 }),
    }),
    {
      maxLength: 3,
    },
  ),
  arm: fc.integer({ min: 0, max: 120 }),
  track: fc.oneof(
    fc.record({
      kind: fc.constant('line' as const),
      a: fc.integer({ min: -60, max: 60 }),
      b: fc.integer({ min: -60, max: 60 }),
      c: fc.integer({ min: -60, max: 60 }),
      d: fc.integer({ min: 61, max: 80 }),
    }),
    fc.record({
      kind: fc.constant('circle' as const),
      x: fc.integer({ min: -20, max: 20 }),
      y: fc.integer({ min: -20, max: 20 }),
      radius: fc.integer({ min: 20, max: 60 }),
    }),
    fc.record({
      kind: fc.constant('bent' as const),
      a: fc.integer({ min: -70, max: -40 }),
      b: fc.integer({ min: 20, max: 60 }),
      corner: fc.integer({ min: 5, max: 20 }),
    }),
  ),
});
type Sheets = typeof sheets extends fc.Arbitrary<infer T> ? T : never;

const outlineOf = ({ radii }: Sheets): readonly XY[] =>
  radii.map((radius, i) => {
    const angle = (2 * Math.PI * i) / radii.length;
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
  });

const pathOf = ({ track }: Sheets, carry: (p: XY) => XY): Bead['path'] => {
  if (track.kind === 'circle') {
    const centre = carry({ x: track.x, y: track.y });
    return circle(centre.x, centre.y, track.radius);
  }
  if (track.kind === 'bent') {
    return through([carry({ x: track.a, y: -30 }), carry({ x: track.b, y: -20 }), carry({ x: 10, y: 60 })], track.corner);
  }
  const [from, to] = [carry({ x: track.a, y: track.b }), carry({ x: track.c, y: track.d })];
  return line(from.x, from.y, to.x, to.y);
};

const same = (p: XY): XY => p;
const reachOf = (one: Sheets, carry: (p: XY) => XY, throat: number, mirrored = false) => {
  const corners = outlineOf(one).map(carry);
  const holes = one.holes.map((h, i) =>
    hole(`hole.${i + 1}`, h.size, carry({ x: h.away * Math.cos(h.angle), y: h.away * Math.sin(h.angle) })),
  );
  const panel = polygonPanel(mirrored ? [...corners].reverse() : corners, { sheet: crs, cuts: holes });
  return work(beaded(panel, [bead('rib', pathOf(one, carry))], [roller(throat, one.arm)])).bead('rib');
};

describe('any sheet', () => {
  it('turned round or mirrored asks the same', () => {
    fc.assert(
      fc.property(sheets, fc.double({ min: 0, max: 6.28, noNaN: true }), fc.integer({ min: 60, max: 200 }), (one, angle, throat) => {
        const plain = reachOf(one, same, throat).reaches[0];
        const turned = reachOf(
          one,
          (p) => ({ x: p.x * Math.cos(angle) - p.y * Math.sin(angle), y: p.x * Math.sin(angle) + p.y * Math.cos(angle) }),
          throat,
        ).reaches[0];
        const mirrored = reachOf(one, (p) => ({ x: -p.x, y: p.y }), throat, true).reaches[0];
        expect(turned?.fits).toBe(plain?.fits);
        expect(mirrored?.fits).toBe(plain?.fits);
        expect(turned?.needed).toBeCloseTo(plain?.needed ?? 0, 4);
        expect(mirrored?.needed).toBeCloseTo(plain?.needed ?? 0, 4);
      }),
      { numRuns: runs(30) },
    );
  });

  it('asks what strips laid by hand at many places find, from the better side', () => {
    fc.assert(
      fc.property(sheets, (one) => {
        const worked = reachOf(one, same, 10_000);
        const low = outlineOf(one).reduce((m, p) => ({ x: Math.min(m.x, p.x), y: Math.min(m.y, p.y) }), { x: 0, y: 0 });
        const corners = outlineOf(one).map((p) => ({ x: p.x - low.x, y: p.y - low.y }));
        const holes = one.holes.map((h) => ({
          x: h.away * Math.cos(h.angle) - low.x,
          y: h.away * Math.sin(h.angle) - low.y,
          radius: h.size / 2,
        }));
        const sheetPoints = pointsOfSheet(corners, holes);
        const places = pathPoints(worked.tracks[0]?.path, 400, 100);
        // Between two places the strip moves by less than this at the farthest sheet.
        const slack = 8;
        const [narrow, wide] = worstByStrips(places, sheetPoints, [one.arm, one.arm + 2 * slack]) as [Sides, Sides];
        expect(only(worked)).toBeGreaterThanOrEqual(Math.min(narrow.left, narrow.right) - 1e-6);
        expect(only(worked)).toBeLessThanOrEqual(Math.min(wide.left, wide.right) + slack);
      }),
      { numRuns: runs(40) },
    );
  });

  it('is parted so that no place of any run asks more than the throat, by the same strips', () => {
    let parted = 0;
    fc.assert(
      fc.property(sheets, fc.integer({ min: 80, max: 99 }), (one, percent) => {
        // Less than the worst place asks for, so that only parting can help.
        const throat = (only(reachOf(one, same, 10_000)) * percent) / 100;
        const worked = reachOf(one, same, throat);
        const reach = worked.reaches[0];
        if (reach?.fits !== true || reach.runs.length < 2) return;
        parted += 1;
        const low = outlineOf(one).reduce((m, p) => ({ x: Math.min(m.x, p.x), y: Math.min(m.y, p.y) }), { x: 0, y: 0 });
        const sheetPoints = pointsOfSheet(
          outlineOf(one).map((p) => ({ x: p.x - low.x, y: p.y - low.y })),
          [],
        );
        const whole = worked.tracks[0]?.length ?? 0;
        const places = pathPoints(worked.tracks[0]?.path, 400, 100);
        for (const run of reach.runs) {
          const own = places.filter(({ s }) => [s, s + whole].some((at) => at >= run.from + 1e-3 && at <= run.to - 1e-3));
          expect(worstByStrips(own, sheetPoints, [one.arm])[0]?.[run.side]).toBeLessThanOrEqual(throat + 1e-3);
        }
        expect(reach.runs.reduce((sum, run) => sum + run.to - run.from, 0)).toBeCloseTo(whole, 6);
      }),
      { numRuns: runs(80) },
    );
    expect(parted).toBeGreaterThan(1);
  });
});

/** Points close together along the rim: the farthest sheet is among them, whatever is cut out within. */
const pointsOfSheet = (corners: readonly XY[], holes: readonly (XY & { radius: number })[]): readonly XY[] => {
  const out: XY[] = [];
  const inHole = (p: XY): boolean => holes.some((h) => Math.hypot(p.x - h.x, p.y - h.y) < h.radius);
  corners.forEach((a, i) => {
    const b = corners[(i + 1) % corners.length] as XY;
    for (let k = 0; k < 200; k++) {
      const p = { x: a.x + ((b.x - a.x) * k) / 200, y: a.y + ((b.y - a.y) * k) / 200 };
      if (!inHole(p)) out.push(p);
    }
  });
  return out;
};

interface Sides {
  left: number;
  right: number;
}
/** For each width of the frame, the farthest sheet seen from any of the places, on either side. */
const worstByStrips = (places: readonly { at: XY; along: XY }[], sheetPoints: readonly XY[], arms: readonly number[]): readonly Sides[] => {
  const xs = Float64Array.from(sheetPoints, ({ x }) => x);
  const ys = Float64Array.from(sheetPoints, ({ y }) => y);
  const worst = arms.map((): Sides => ({ left: 0, right: 0 }));
  for (const { at, along: t } of places) {
    for (let i = 0; i < xs.length; i++) {
      const dx = (xs[i] as number) - at.x;
      const dy = (ys[i] as number) - at.y;
      const aside = Math.abs(dx * t.x + dy * t.y);
      const out = dy * t.x - dx * t.y;
      for (let k = 0; k < arms.length; k++) {
        if (aside > (arms[k] as number) / 2) continue;
        const most = worst[k] as Sides;
        if (out > most.left) most.left = out;
        if (-out > most.right) most.right = -out;
      }
    }
  }
  return worst;
};

describe('round sheets and round tracks', () => {
  const disc = drawn(
    { x: 400, y: 200 },
    [
      { to: { x: 0, y: 200 }, name: 'over', arc: { centre: { x: 200, y: 200 }, turn: 'left' } },
      { to: { x: 400, y: 200 }, name: 'under', arc: { centre: { x: 200, y: 200 }, turn: 'left' } },
    ],
    flat,
  );
  it('a ring in a disc asks the difference of the radii', () => {
    expect(only(work(beaded(disc, [bead('ring', circle(200, 200, 150))], [roller(1000, 60)])).bead('ring'))).toBeCloseTo(50, 9);
  });
  it('a ring off the middle asks as much more as it is off', () => {
    expect(only(work(beaded(disc, [bead('ring', circle(220, 210, 150))], [roller(1000, 60)])).bead('ring'))).toBeCloseTo(
      50 + Math.hypot(20, 10),
      6,
    );
  });
  it('a straight bead asks the rise of the arc above it', () => {
    expect(only(work(beaded(disc, [bead('rib', line(150, 300, 250, 300))], [roller(1000, 0)])).bead('rib'))).toBeCloseTo(100, 9);
  });
});
