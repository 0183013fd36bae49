/** How near beads come to what stands round them. */
import { describe, expect, it } from 'vitest';
import type { Dimple } from '../../server/model/part.js';
import { byK, drawn, hole, rectangle, sheet } from '../blank/build.js';
import { bead, beaded, border, line, work } from './build.js';

const crs = sheet(1, 1, byK(0.42));
const flat = { sheet: crs };
const nearest = (of: ReturnType<typeof work>, id: string, to: string) => of.bead(id).spacings.find((spacing) => spacing.to === to);

describe('room round a bead', () => {
  const panel = rectangle(600, 400, {
    sheet: crs,
    edges: [{ edge: 'top', steps: [{ length: 30 }] }],
    cuts: [hole('hole.1', 20, { x: 120, y: 300 })],
  });
  const worked = work(beaded(panel, [bead('rib', line(100, 100, 100, 350)), bead('rib.2', line(125, 100, 125, 200))]));
  it('to the edge: four thicknesses and half its width', () => {
    const plain = work(beaded(rectangle(600, 400, flat), [bead('rib', line(100, 120, 100, 280))]));
    expect(nearest(plain, 'rib', 'edge')).toMatchObject({ found: 100, wanted: 4 + 5, id: 'edge:left' });
  });
  it('to a hole’s edge: three thicknesses and half its width', () => {
    expect(nearest(worked, 'rib', 'hole')).toMatchObject({ found: 10, wanted: 3 + 5, id: 'hole.1' });
  });
  it('to a bend: from the tangent line, which an outside radius of 2 puts 2 within the finished edge', () => {
    expect(nearest(worked, 'rib', 'bend')).toMatchObject({ id: 'bend:top.1', wanted: 4 + 5 });
    expect(nearest(worked, 'rib', 'bend')?.found).toBeCloseTo(398 - 350, 9);
  });
  it('to a bead beside it: three times the width, middle to middle', () => {
    expect(nearest(worked, 'rib', 'bead')).toMatchObject({ found: 25, wanted: 30, id: 'rib.2' });
  });
  it('to a bead it runs toward: three thicknesses between the feet', () => {
    const end = work(beaded(panel, [bead('border', border(40, 25)), bead('rib', line(300, 100, 300, 200))]));
    expect(nearest(end, 'rib', 'bead')).toMatchObject({ found: 60, wanted: 3 + 10, id: 'border' });
  });
  it('an edge that it runs off is not too near', () => {
    const off = work(beaded(rectangle(600, 400, flat), [bead('rib', line(100, 200, 500, 200), { start: 'run off', finish: 'run off' })]));
    expect(nearest(off, 'rib', 'edge')).toMatchObject({ found: 200 });
  });
});

describe('a bead in a bend', () => {
  const panel = rectangle(600, 400, { sheet: crs, edges: [{ edge: 'top', steps: [{ length: 30 }] }] });
  it('is told where it enters', () => {
    const { crossings } = work(beaded(panel, [bead('rib', line(300, 200, 300, 410))])).bead('rib');
    expect(crossings).toHaveLength(1);
    expect(crossings[0]).toMatchObject({ bend: 'top.1', track: 'rib' });
    expect(crossings[0]?.at.y).toBeCloseTo(398, 6);
  });
  it('also when it lies wholly within the zone', () => {
    // The zone runs from 398 on for π/2 · 1.42 = 2.23.
    expect(work(beaded(panel, [bead('rib', line(100, 399, 500, 399))])).bead('rib').crossings).toHaveLength(1);
  });
  it('and not when it stays clear', () => {
    expect(work(beaded(panel, [bead('rib', line(300, 100, 300, 380))])).bead('rib').crossings).toEqual([]);
  });
});

describe('other work on the roller', () => {
  const span = { start: 0, end: 1 };
  it('pressed holes keep their room', () => {
    const dimple: Dimple = { id: 'dimple.1', on: undefined, diameter: 25, depth: undefined, direction: 'up', at: { x: 20, y: 200 }, span };
    const { result } = work({ ...rectangle(600, 400, flat), dimples: [dimple] });
    expect(result.dimples[0]?.spacings).toMatchObject([{ to: 'edge', found: 20, wanted: 4 + 12.5, id: 'edge:left' }]);
  });
  it('cross-breaks run from corner to corner, short of them by the inset', () => {
    const { result } = work({ ...rectangle(300, 400, flat), crossBreaks: [{ direction: 'up', depth: 3, inset: 50, span }] });
    expect(result.crossBreaks[0]?.lines).toEqual([
      [
        { x: 30, y: 40 },
        { x: 270, y: 360 },
      ],
      [
        { x: 30, y: 360 },
        { x: 270, y: 40 },
      ],
    ]);
  });
  it('a tipped edge has its sheet beyond the finished outline in the blank as cut', () => {
    const named = { value: 'top', span };
    const tip = {
      id: 'tip.1',
      edges: [named],
      width: { value: 6, span },
      direction: 'down' as const,
      turn: Math.PI / 2,
      die: undefined,
      span,
    };
    const { result } = work({ ...rectangle(300, 400, flat), tips: [tip] });
    // Outside setback 2 twice off, the neutral line of the bend on: 6 − 2 · 2 + π/2 · 1.42.
    const added = 2 + (Math.PI / 2) * 1.42;
    expect(result.tips[0]?.edges[0]).toMatchObject({ edge: 'top', radius: undefined });
    expect(result.drawIn?.asCut.height).toBeCloseTo(400 + added, 9);
    expect(result.drawIn?.asCut.width).toBeCloseTo(300, 9);
    expect(result.drawIn?.growth.none.height).toBeCloseTo(added, 9);
    expect(result.drawIn?.bows).toEqual([]);
  });
  it('two tipped edges that meet are cut square out at their corner, to where their tangent lines cross', () => {
    const names = ['top', 'right'].map((value) => ({ value, span }));
    const tip = {
      id: 'tip.1',
      edges: names,
      width: { value: 6, span },
      direction: 'down' as const,
      turn: Math.PI / 2,
      die: undefined,
      span,
    };
    const { result } = work({ ...rectangle(300, 400, flat), tips: [tip] });
    const added = 2 + (Math.PI / 2) * 1.42;
    const corners = result.drawIn?.asCut.outline.map((move) => [move.to.x, move.to.y]);
    // Tangent lines lie the setback, 2, within the finished outline.
    const near = (...p: readonly number[]) => p.map((v) => expect.closeTo(v, 9));
    expect(corners).toContainEqual(near(300 + added, 398));
    expect(corners).toContainEqual(near(298, 398));
    expect(corners).toContainEqual(near(298, 400 + added));
    expect(result.drawIn?.tipMarks.find((mark) => mark.edge === 'top')?.path.start.y).toBeCloseTo(398, 9);
  });
  it('a tipped round edge grows about its own middle', () => {
    const named = { value: 'arch', span };
    const tip = {
      id: 'tip.1',
      edges: [named],
      width: { value: 6, span },
      direction: 'down' as const,
      turn: Math.PI / 2,
      die: undefined,
      span,
    };
    const arch = drawn(
      { x: 0, y: 0 },
      [
        { to: { x: 400, y: 0 }, name: 'sill' },
        { to: { x: 0, y: 0 }, name: 'arch', arc: { centre: { x: 200, y: 0 }, turn: 'left' } },
      ],
      flat,
    );
    const { result } = work({ ...arch, tips: [tip] });
    const added = 2 + (Math.PI / 2) * 1.42;
    expect(result.tips[0]?.edges[0]).toMatchObject({ radius: 200, strains: 'shrink' });
    expect(result.drawIn?.asCut.height).toBeCloseTo(200 + added, 6);
    expect(result.drawIn?.asCut.width).toBeCloseTo(400 + 2 * added, 6);
  });
});
