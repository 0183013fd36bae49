import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Panel, Section } from '../../server/model/part.js';
import { byK, corner, drawn, type EdgeSketch, leg, polygonPanel, rectangle, section, sheet, turn } from './build.js';

const crs = sheet(1.5, 2, byK(0.42));
const wall = (edge: string, length = 20): EdgeSketch => ({ edge, steps: [{ length }] });
const said = (part: Panel | Section) => layOut(part).findings.map((f) => `${f.severity} ${f.rule}: ${f.message}`);

describe('what can’t be laid out is said, with the numbers and a cure', () => {
  test('a flange shorter than its bend', () => {
    const part = rectangle(200, 100, { sheet: crs, edges: [wall('top', 3)] });
    expect(said(part)).toEqual([
      'error bend/flange-inside-its-bend: top.1 is 3 mm, but its bend takes up 3.5 mm of it, so no flat is left; make it longer than 3.5 mm or the inside radius smaller',
    ]);
    expect(layOut(part).blank).toBeUndefined();
    const step = part.edges[0]?.steps[0];
    expect(layOut(part).findings[0]?.span).toEqual(step?.kind === 'flange' ? step.lengthSpan : undefined);
    const inches = { say: (mm: number) => `${(mm / 25.4).toFixed(3)} in`, write: (mm: number) => (mm / 25.4).toFixed(3) };
    expect(layOut(part, inches).findings[0]?.fixes[0]).toMatchObject({ title: 'Make it 0.197 in', edits: [{ text: '0.197' }] });
  });

  test('a flange between two bends', () => {
    expect(said(rectangle(200, 100, { sheet: crs, edges: [{ edge: 'top', steps: [{ length: 6 }, { length: 20 }] }] }))[0]).toContain(
      'the bends at its two ends take up 7 mm',
    );
  });

  test('no radius, no method, a trial', () => {
    expect(said(rectangle(200, 100, { sheet: sheet(1.5, undefined, byK(0.4)), edges: [wall('top')] }))[0]).toContain(
      'error bend/no-radius',
    );
    expect(said(rectangle(200, 100, { sheet: sheet(1.5, 2, undefined), edges: [wall('top'), wall('left')] }))).toHaveLength(1);
    expect(said(rectangle(200, 100, { sheet: sheet(1.5, 2, { kind: 'trial', trial: 'strip_3' }), edges: [wall('top')] }))[0]).toContain(
      'error bend/no-method: sheet crs takes its bends from trial strip_3',
    );
  });

  test('a part without bends needs neither radius nor method', () => {
    expect(layOut(rectangle(200, 100, { sheet: sheet(1.5, undefined, undefined) })).blank?.area).toBe(20000);
  });

  test('bends that eat the base', () => {
    expect(said(rectangle(200, 6, { sheet: crs, edges: [wall('top'), wall('bottom')] }))[0]).toContain(
      'error shape/nothing-left: nothing is left of right between the bends, which take up bottom 3.5 mm, top 3.5 mm',
    );
  });

  test('a rounding that its two bends take up', () => {
    const steps = [
      { to: { x: 98, y: 0 }, name: 'sill' },
      { to: { x: 100, y: 2 }, arc: { centre: { x: 98, y: 2 }, turn: 'left' as const } },
      { to: { x: 100, y: 60 }, name: 'side' },
      { to: { x: 0, y: 60 } },
      { to: { x: 0, y: 0 } },
    ];
    expect(said(drawn({ x: 0, y: 0 }, steps, { sheet: crs, edges: [wall('sill'), wall('side')] }))[0]).toContain(
      'nothing is left of an unnamed edge between the bends, which take up sill 3.5 mm, side 3.5 mm; draw this corner sharp, or round it further than the bends reach',
    );
  });
  test('a crossing outline, and an open one', () => {
    const bow = polygonPanel(
      [
        { x: 0, y: 0 },
        { x: 100, y: 100 },
        { x: 100, y: 0 },
        { x: 0, y: 100 },
      ],
      { sheet: crs },
    );
    expect(said(bow)[0]).toContain('error shape/self-crossing: this step meets an earlier one at (50 mm, 50 mm)');
    const open = drawn({ x: 0, y: 0 }, [{ to: { x: 100, y: 0 } }, { to: { x: 100, y: 50 } }], { sheet: crs });
    expect(said(open)[0]).toContain('error shape/open-outline: the outline is open');
  });

  test('edges that no longer meet', () => {
    // A shallow arc touches the bent edge’s line only near it: moved in by 3.5 it passes the arc’s circle by.
    const lens = drawn(
      { x: 0, y: 0 },
      [
        { to: { x: 100, y: 0 }, name: 'sill' },
        { to: { x: 0, y: 0 }, arc: { centre: { x: 50, y: -500 }, turn: 'left' } },
      ],
      { sheet: crs, edges: [wall('sill')] },
    );
    expect(said(lens)[0]).toContain('shape/edges-do-not-meet');
    const split = polygonPanel(
      [
        { x: 0, y: 0 },
        { x: 50, y: 0 },
        { x: 100, y: 0 },
        { x: 100, y: 80 },
        { x: 0, y: 80 },
      ],
      { sheet: crs, edges: [wall('a'), { edge: 'b', steps: [{ length: 20, turn: 60 }] }] },
    );
    expect(said(split)[0]).toContain('shape/edges-do-not-meet: a and b no longer meet once bent: a moves in by 3.5 mm');
  });

  test('flanges over each other in an inward corner, with both names and the blank still shown', () => {
    const ell = polygonPanel(
      [
        { x: 0, y: 0 },
        { x: 200, y: 0 },
        { x: 200, y: 90 },
        { x: 120, y: 90 },
        { x: 120, y: 150 },
        { x: 0, y: 150 },
      ],
      { sheet: crs, edges: [wall('c'), wall('d')] },
    );
    const { blank, findings } = layOut(ell);
    expect(findings.map((f) => f.rule)).toEqual(['fold/overlap-in-the-flat']);
    expect(findings[0]?.message).toContain('d.1 and c.1 lie over each other by 20.63 mm');
    expect(findings[0]?.features).toEqual(['face:d.1', 'face:c.1']);
    expect(blank).toBeDefined();
  });

  test('a flange in a narrow slot lies over the other side', () => {
    const fork = polygonPanel(
      [
        { x: 0, y: 0 },
        { x: 100, y: 0 },
        { x: 100, y: 80 },
        { x: 60, y: 80 },
        { x: 60, y: 20 },
        { x: 45, y: 20 },
        { x: 45, y: 80 },
        { x: 0, y: 80 },
      ],
      { sheet: crs, edges: [wall('d', 30)] },
    );
    expect(said(fork)[0]).toContain('error fold/overlap-in-the-flat: d.1, 30.63 mm long from its tangent line, lies over base');
  });

  test('corner rules that fit no corner', () => {
    const walls = [wall('top'), wall('left')];
    expect(
      said(rectangle(200, 100, { sheet: crs, edges: walls, corners: [corner({ kind: 'radius', radius: 5 }, 'top', 'left')] }))[0],
    ).toContain('error corner/both-bent');
    expect(said(rectangle(200, 100, { sheet: crs, corners: [corner({ kind: 'radius', radius: 5 }, 'top', 'bottom')] }))[0]).toContain(
      'error corner/edges-not-neighbours: top and bottom do not meet',
    );
    expect(
      said(
        rectangle(200, 100, { sheet: crs, edges: walls, corners: [corner({ kind: 'open', relief: { kind: 'round', diameter: 60 } })] }),
      )[0],
    ).toContain('error corner/relief-too-large');
    expect(said(rectangle(200, 100, { sheet: crs, corners: [corner({ kind: 'chamfer', size: 120 }, 'top', 'left')] }))[0]).toContain(
      'error corner/cut-too-large',
    );
  });

  test('stretches that miss the edge or crowd each other', () => {
    const on = (from: number, to: number): EdgeSketch => ({ edge: 'top', from, to, steps: [{ length: 20 }] });
    expect(said(rectangle(200, 100, { sheet: crs, edges: [on(50, 250)] }))[0]).toContain(
      'bend/stretch-off-the-edge: this stretch does not lie on top, which is 200 mm long',
    );
    expect(said(rectangle(200, 100, { sheet: crs, edges: [on(50, 100), on(90, 120)] }))[0]).toContain('runs into another piece');
    const whole: EdgeSketch = { edge: 'top', steps: [{ length: 20 }] };
    expect(said(rectangle(200, 100, { sheet: crs, edges: [whole, whole] }))[0]).toContain(
      'top has its bends already: write these into the same braces',
    );
    expect(said(rectangle(200, 100, { sheet: crs, edges: [on(1, 100)] }))[0]).toContain('too little for the slit of 1.5 mm');
  });

  test('a section that begins with a turn, or has two in a row', () => {
    expect(said(section(100, crs, [turn('up'), leg(20)]))[0]).toContain('a section begins with a leg');
    expect(said(section(100, crs, [leg(20), turn('up'), turn('up'), leg(20)]))[0]).toContain('write a `leg` after it');
    expect(said(section(100, crs, [leg(20), turn('up'), leg(5), turn('up'), leg(20)]))[0]).toContain(
      'leg.2 is 5 mm, but the bends at its two ends take up 7 mm',
    );
  });

  test('a broken part is left alone', () => {
    expect(layOut({ ...rectangle(200, 100, { sheet: crs }), broken: true })).toEqual({ blank: undefined, findings: [] });
  });
});
