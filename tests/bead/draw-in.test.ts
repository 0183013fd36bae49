/** What beads take of the sheet, and where features have to be marked before rolling. */
import { describe, expect, it } from 'vitest';
import { byK, hole, polygonPanel, rectangle, sheet } from '../blank/build.js';
import { bead, beaded, border, circle, line, sourced, stepDie, work } from './build.js';

const crs = sheet(1, 1, byK(0.42));
const flat = { sheet: crs };
const tray = rectangle(600, 400, flat);
const drawInOf = (...args: Parameters<typeof beaded>) => {
  const { drawIn } = work(beaded(...args)).result;
  if (drawIn === undefined) throw new Error('no draw-in');
  return drawIn;
};
const across = (id: string, x: number) => bead(id, line(x, 100, x, 300), { start: 'run off', finish: 'run off' });
/** What one rib takes at one crossing; the section is checked elsewhere. */
const one = work(beaded(tray, [across('rib', 300)])).bead('rib').takeIn;

describe('draw-in', () => {
  it('of one bead right across is its take-in, with no bow', () => {
    const { growth, bows, asCut } = drawInOf(tray, [across('rib', 200)]);
    expect(growth.used.width).toBeCloseTo(one.used, 9);
    expect(growth.full.width).toBeCloseTo(one.full, 9);
    expect(growth.none).toEqual({ width: 0, height: 0 });
    expect(growth.used.height).toBeCloseTo(0, 9);
    expect(bows).toEqual([]);
    expect(asCut.width).toBeCloseTo(600 + one.used, 9);
  });

  it('of n beads alike is n times that of one', () => {
    for (let n = 1; n <= 8; n++) {
      const ribs = Array.from({ length: n }, (_, i) => across(`rib.${i + 1}`, (600 * (i + 0.5)) / n));
      const { growth } = drawInOf(tray, ribs);
      expect(growth.used.width).toBeCloseTo(n * one.used, 9);
      expect(growth.full.width).toBeCloseTo(n * one.full, 9);
      expect(growth.used.height).toBeCloseTo(0, 9);
    }
  });

  it('of a slanting bead is its part along the edge: the cosine of the slant', () => {
    const slanting = bead('rib', line(200, 100, 400, 300), { start: 'run off', finish: 'run off' });
    const { growth } = drawInOf(tray, [slanting]);
    expect(growth.used.width).toBeCloseTo(one.used * Math.SQRT1_2, 6);
    expect(growth.used.height).toBeCloseTo(one.used * Math.SQRT1_2, 6);
  });

  it('of a border counts both its sides each way', () => {
    const { growth } = drawInOf(tray, [bead('border', border(40, 25))]);
    expect(growth.used.width).toBeCloseTo(2 * one.used, 6);
    expect(growth.used.height).toBeCloseTo(2 * one.used, 6);
  });

  it('of a band counts its two steps', () => {
    const band = bead('raised', line(300, 100, 300, 300), {
      kind: 'band',
      width: 80,
      die: sourced(stepDie()),
      start: 'run off',
      finish: 'run off',
    });
    const worked = work(beaded(tray, [band]));
    expect(worked.result.drawIn?.growth.used.width).toBeCloseTo(2 * worked.bead('raised').takeIn.used, 9);
  });

  it('is not carried across a notch to sheet that is not pulled', () => {
    // Two legs up from a foot; the bead stands in the left leg only.
    const fork = polygonPanel(
      [
        { x: 0, y: 0 },
        { x: 600, y: 0 },
        { x: 600, y: 400 },
        { x: 400, y: 400 },
        { x: 400, y: 100 },
        { x: 200, y: 100 },
        { x: 200, y: 400 },
        { x: 0, y: 400 },
      ],
      { sheet: crs, cuts: [hole('hole.1', 10, { x: 500, y: 250 })] },
    );
    const { moved, shift } = drawInOf(fork, [bead('rib', line(100, 150, 100, 350))]);
    expect(moved[0]?.to.x).toBeCloseTo(500 + shift.x, 9);
  });
});

describe('where crossings differ', () => {
  const { bows, growth } = drawInOf(tray, [bead('rib', line(300, 100, 300, 300))]);
  it('the edges across bow by half a take-in each', () => {
    expect(growth.used.width).toBeCloseTo(one.used, 9);
    expect(bows.map((bow) => bow.edge)).toEqual(['edge:right', 'edge:left']);
    for (const bow of bows) expect(bow.amount).toBeCloseTo(one.used / 2, 9);
  });
  it('the edge cut straight comes to lie on the net edge beside the bead, and stands proud elsewhere', () => {
    const right = bows[0];
    expect(right?.rough[0].x).toBeCloseTo(600 + one.used / 2, 9);
    expect(right?.trim[0].x).toBe(600);
    for (const { x, y } of right?.lies ?? []) expect(x).toBeCloseTo(y > 100 && y < 300 ? 600 : 600 + one.used / 2, 9);
    expect(right?.dimension[1].x).toBeCloseTo(600 + one.used / 2, 9);
  });
});

describe('features', () => {
  const holed = rectangle(600, 400, {
    sheet: crs,
    cuts: [hole('hole.1', 10, { x: 50, y: 200 }), hole('hole.2', 10, { x: 300, y: 200 }), hole('hole.3', 10, { x: 550, y: 200 })],
  });
  it('are marked further on by the take-in of the beads before them', () => {
    const { moved, marks } = drawInOf(holed, [across('rib.1', 150), across('rib.2', 450)]);
    // From the cut blank's lower left corner: nothing, one and two take-ins on.
    expect(moved.map((feature) => feature.to.x)).toEqual([50, 300 + one.used, 550 + 2 * one.used].map((x) => expect.closeTo(x, 6)));
    // A bead's own middle moves with half of itself.
    expect(marks.map((mark) => mark.path.start.x)).toEqual([150 + one.used / 2, 450 + 1.5 * one.used].map((x) => expect.closeTo(x, 6)));
  });
  it('keep their shape, and their blank its count of everything', () => {
    const { asCut } = drawInOf(holed, [across('rib.1', 150)]);
    expect(asCut.cutouts.map((cut) => cut.circle?.radius)).toEqual([5, 5, 5]);
    expect(asCut.area).toBeCloseTo((600 + one.used) * 400 - 3 * Math.PI * 25, 6);
    expect(asCut.mass).toBeCloseTo(asCut.area * 7850e-9, 9);
  });
  it('bends move square to themselves and say how unevenly', () => {
    const bent = rectangle(600, 400, { sheet: crs, edges: [{ edge: 'top', steps: [{ length: 30 }] }] });
    const level = bead('rib', line(100, 200, 500, 200), { start: 'run off', finish: 'run off' });
    const even = drawInOf(bent, [level]);
    const net = work(beaded(bent, [level])).blank.bends[0];
    expect(even.moved[0]).toMatchObject({ kind: 'bend', id: 'top.1' });
    expect(even.moved[0]?.uneven).toBeCloseTo(0, 9);
    expect((even.asCut.bends[0]?.from.y ?? 0) - (net?.from.y ?? 0)).toBeCloseTo(one.used, 6);
    const short = drawInOf(bent, [bead('rib', line(250, 200, 350, 200))]);
    expect(short.moved[0]?.uneven).toBeCloseTo(one.used / 2, 9);
  });
});

describe('a disc of beads', () => {
  it('a ring takes in at both sides', () => {
    const { growth } = drawInOf(tray, [bead('ring', circle(300, 200, 100))]);
    expect(growth.used.width).toBeCloseTo(2 * one.used, 3);
  });
});

describe('marks of straight beads before rolling', () => {
  const upright = (id: string, x: number, from: number, to: number) =>
    bead(id, line(x, from, x, to), { start: 'closed', finish: 'closed' });
  /** How far the start and the finish of a mark lie from where they come to lie, on the sheet as cut. */
  const moves = (drawIn: ReturnType<typeof drawInOf>, id: string, from: { x: number; y: number }, to: { x: number; y: number }) => {
    const found = drawIn.marks.find(({ track }) => track === id)?.path;
    const end = found?.moves.at(-1)?.to;
    if (found === undefined || end === undefined) throw new Error(`no mark ${id}`);
    const less = (a: { x: number; y: number }, b: { x: number; y: number }) => ({
      x: a.x - b.x - drawIn.shift.x,
      y: a.y - b.y - drawIn.shift.y,
    });
    return { start: less(found.start, from), finish: less(end, to) };
  };

  it('neighbours of the same height move a rib whole: its mark stands as upright as the rib', () => {
    const drawIn = drawInOf(
      tray,
      [150, 300, 450].map((x, i) => upright(`rib.${i + 1}`, x, 100, 300)),
    );
    const first = moves(drawIn, 'rib.1', { x: 150, y: 100 }, { x: 150, y: 300 });
    const third = moves(drawIn, 'rib.3', { x: 450, y: 100 }, { x: 450, y: 300 });
    // Two beads stand on its right, none on its left; half of what they take in moves it.
    for (const end of [first.start, first.finish]) expect(end.x).toBeCloseTo(-one.used, 9);
    for (const end of [third.start, third.finish]) expect(end.x).toBeCloseTo(one.used, 9);
    for (const end of [first.start, first.finish, third.start, third.finish]) expect(end.y).toBeCloseTo(0, 9);
  });

  it('a neighbour that covers half its length moves it by half as much, and still whole', () => {
    const drawIn = drawInOf(tray, [upright('long', 200, 100, 300), upright('short', 400, 200, 300)]);
    const { start, finish } = moves(drawIn, 'long', { x: 200, y: 100 }, { x: 200, y: 300 });
    for (const end of [start, finish]) expect(end.x).toBeCloseTo(-one.used / 4, 9);
  });

  it('a slanting line that crosses ribs is marked as much longer as they take in', () => {
    const ribs = [200, 300, 400].map((x, i) => bead(`rib.${i + 1}`, line(x, 0, x, 400), { start: 'run off', finish: 'run off' }));
    const drawIn = drawInOf(tray, [...ribs, bead('slant', line(100, 100, 500, 300), { start: 'closed', finish: 'closed' })]);
    const { start, finish } = moves(drawIn, 'slant', { x: 100, y: 100 }, { x: 500, y: 300 });
    expect(finish.x - start.x).toBeCloseTo(3 * one.used, 9);
  });

  it('sides of a border stay upright and level beside ribs that are shorter', () => {
    const drawIn = drawInOf(tray, [bead('border', border(40, 25)), upright('rib', 250, 150, 250)]);
    const marked = drawIn.marks.find(({ track }) => track === 'border')?.path;
    if (marked === undefined) throw new Error('no border');
    let from = marked.start;
    for (const move of marked.moves) {
      if (move.kind === 'line') expect(Math.min(Math.abs(move.to.x - from.x), Math.abs(move.to.y - from.y))).toBeCloseTo(0, 9);
      from = move.to;
    }
  });

  it('a line that leans a little does not move itself along', () => {
    for (const rise of [1, 5, 20, 60]) {
      const drawIn = drawInOf(tray, [bead('rib', line(100, 200, 500, 200 + rise))]);
      const { start, finish } = moves(drawIn, 'rib', { x: 100, y: 200 }, { x: 500, y: 200 + rise });
      for (const end of [start, finish]) {
        expect(end.x).toBeCloseTo(0, 6);
        expect(end.y).toBeCloseTo(0, 6);
      }
    }
  });
});

describe('a hole level with the end of a bead', () => {
  it('moves alike at either end and on either hand', () => {
    const cuts = [
      [100, 100],
      [500, 100],
      [100, 300],
      [500, 300],
    ].map(([x, y], i) => hole(`hole.${i + 1}`, 5, { x: x as number, y: y as number }));
    const { moved, asCut } = drawInOf(rectangle(600, 400, { sheet: crs, cuts }), [bead('rib', line(300, 100, 300, 300))]);
    const by = moved.map(({ from, to }) => [Math.sign(from.x - 300) * (to.x - asCut.width / 2 - (from.x - 300)), to.y - from.y]);
    expect(by).toHaveLength(4);
    for (const [x, y] of by) {
      expect(x).toBeCloseTo(one.used / 4, 6);
      expect(y).toBeCloseTo(0, 6);
    }
  });
});
