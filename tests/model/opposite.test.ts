import { describe, expect, it } from 'vitest';
import type { Cut } from '../../server/model/part.js';
import { measuredLengths, modelOf, panelOf } from './build.js';
import { checkFindings } from './check.js';

const floor = (...lines: readonly string[]) =>
  panelOf(`units millimetre\npanel floor {\n  outline rectangle 300 by 200\n${lines.map((line) => `  ${line}\n`).join('')}}`, 'floor');
const round = (n: number): number => Math.round(n * 1e6) / 1e6 + 0;
const said = (cuts: readonly Cut[]) => cuts.map((cut) => `${cut.id} ${cut.on ?? 'base'} (${round(cut.at.x)}, ${round(cut.at.y)})`);

describe('opposite', () => {
  it('keeps what stands in its braces and adds it as in a mirror', () => {
    const { cuts, findings, broken, uncomputed } = floor(
      'opposite across x = 150 { hole 5 at (20, 30), (40, 30)  hole 8 at (60, 60) as post }',
    );
    expect(findings).toEqual([]);
    expect(broken).toBe(false);
    expect(uncomputed).toEqual([]);
    expect(said(cuts)).toEqual([
      'hole.1 base (20, 30)',
      'hole.2 base (40, 30)',
      'post base (60, 60)',
      'hole.1.opposite base (280, 30)',
      'hole.2.opposite base (260, 30)',
      'post.opposite base (240, 60)',
    ]);
    expect(said(floor('opposite across y = 100 { hole 5 at (20, 30) }').cuts)[1]).toBe('hole.1.opposite base (20, 170)');
  });
  it('turns slots and openings the other way round', () => {
    const { cuts } = floor('opposite across x = 150 { slot 5 by 20 at (50, 50) turned 30  cut rectangle 20 by 10 at (50, 100) turned 10 }');
    expect(cuts.map((cut) => Math.round((cut.turned * 180) / Math.PI))).toEqual([30, 10, -30, -10]);
  });
  it('a drawn opening mirrors about its own point, arcs reversed', () => {
    const { cuts } = floor(
      'opposite across x = 150 { cut drawn at (50, 50) turned 20 { from (0, 0)  right 20  up 10  arc out to (0, 10) radius 10  close } }',
    );
    const [shape, copy] = cuts.map((cut) => cut.shape);
    if (shape?.kind !== 'drawn' || copy?.kind !== 'drawn') throw new Error('not drawn');
    expect(copy.edges.map((edge) => [round(edge.to.x), round(edge.to.y)])).toEqual(
      shape.edges.map((edge) => [round(-edge.to.x), round(edge.to.y)]),
    );
    expect([shape.edges[2]?.arc?.turn, copy.edges[2]?.arc?.turn]).toEqual(['left', 'right']);
    // Every corner of the copy, turned and placed, is the mirror of the corner it comes from.
    const placed = (cut: Cut | undefined, x: number, y: number) => {
      const [c, s] = [Math.cos(cut?.turned ?? 0), Math.sin(cut?.turned ?? 0)];
      return [(cut?.at.x ?? 0) + c * x - s * y, (cut?.at.y ?? 0) + s * x + c * y] as const;
    };
    for (const [i, edge] of shape.edges.entries()) {
      const [x, y] = placed(cuts[0], edge.to.x, edge.to.y);
      const other = copy.edges[i]?.to;
      const [mx, my] = placed(cuts[1], other?.x ?? 0, other?.y ?? 0);
      expect(mx).toBeCloseTo(300 - x, 9);
      expect(my).toBeCloseTo(y, 9);
    }
  });
  it('holds repeats, and stands in them: the mirror moves along', () => {
    expect(said(floor('opposite across x = 150 { repeat 2 every 10 along x { hole 5 at (20, 30) } }').cuts)).toEqual([
      'hole.1 base (20, 30)',
      'hole.2 base (30, 30)',
      'hole.1.opposite base (280, 30)',
      'hole.2.opposite base (270, 30)',
    ]);
    expect(said(floor('repeat 2 every 100 along x { opposite across x = 50 { hole 5 at (20, 30) } }').cuts)).toEqual([
      'hole.1 base (20, 30)',
      'hole.1.opposite base (80, 30)',
      'hole.2 base (120, 30)',
      'hole.2.opposite base (180, 30)',
    ]);
  });
  it('on a flange that runs along, mirrors along it; on one that faces another, takes the other', () => {
    const { cuts, findings } = floor(
      'opposite across x = 150 { hole 5 on top at (20, 10)  hole 5 on left at (30, 12)  hole 5 on top through to base at (40, 10) }',
      'edge top { flange 20 up }',
      'edge left { flange 20 up as west }',
      'edge right { flange 20 up as east }',
    );
    expect(findings).toEqual([]);
    expect(said(cuts)).toEqual([
      'hole.1 top.1 (20, 10)',
      'hole.2 west (30, 12)',
      'hole.3 top.1 (40, 10)',
      'hole.1.opposite top.1 (280, 10)',
      'hole.2.opposite east (30, 12)',
      'hole.3.opposite top.1 (260, 10)',
    ]);
    expect(cuts[5]?.through).toBe('base');
  });
  it('adds beads with the mirror they lie in', () => {
    const { beads } = panelOf(
      'units millimetre\ndie round_10 { round  width 10  depth 3 }\npanel floor {\n  outline rectangle 300 by 200\n  opposite across x = 150 { bead rib { die round_10  up  line from (20, 50) to (120, 50) } }\n}',
      'floor',
    );
    expect(beads.map((bead) => [bead.id, bead.copy])).toEqual([
      ['rib', { mirrorX: false, mirrorY: false, shift: { x: 0, y: 0 } }],
      ['rib.opposite', { mirrorX: true, mirrorY: false, shift: { x: 300, y: 0 } }],
    ]);
  });
  it('numbers repeated beads and names the copy of each', () => {
    const { beads } = panelOf(
      'units millimetre\ndie round_10 { round  width 10  depth 3 }\npanel floor {\n  outline rectangle 300 by 200\n  opposite across x = 150 { repeat 2 every 40 along y { bead rib { die round_10  up  line from (20, 50) to (120, 50) } } }\n}',
      'floor',
    );
    expect(beads.map((bead) => bead.id)).toEqual(['rib.1', 'rib.2', 'rib.1.opposite', 'rib.2.opposite']);
    expect(beads[3]?.copy).toEqual({ mirrorX: true, mirrorY: false, shift: { x: 300, y: 40 } });
  });
  it('all of a feature are its copies too, in checks', () => {
    const text = `units millimetre
panel floor {
  outline rectangle 300 by 200
  check max(floor.cuts.hole.all.x) <= 120
  check max(floor.cuts.eye.all.x) <= 120
  check min(floor.cuts.hole.all.opposite.x) <= 120
}`;
    const place = (x: number) => ({ x });
    const measured = () =>
      measuredLengths({
        cuts: {
          hole: { 1: { ...place(20), opposite: place(280) }, 2: { ...place(30), opposite: place(270) } },
          eye: { ...place(40), opposite: place(260) },
        },
      });
    const failed = modelOf(text).decide('floor', measured());
    expect(failed.map((finding) => finding.message)).toEqual([
      expect.stringContaining('280 mm against 120 mm'),
      expect.stringContaining('260 mm against 120 mm'),
      expect.stringContaining('270 mm against 120 mm'),
    ]);
  });
  it('says what can’t be mirrored', () => {
    checkFindings(`units millimetre
panel floor {
  outline rectangle 300 by 200
  edge top { flange 20 up { edge left { flange 8 up } } }
  edge left { flange 20 up }
  opposite across x = 100 {
    hole 3 on left at (20, 13)
//            ^^^^ shape/no-flange-opposite: This hole can’t be mirrored: the mirror line is not in the middle of the panel, so left is not seen in right. Put it in the middle, or write the other one out.
  }
  opposite across x = 150 {
    hole 3 on left at (20, 13)
//            ^^^^ shape/no-flange-opposite: This hole can’t be mirrored: edge right has no flange 1 to lie on. Turn one there, or write this outside the braces.
    hole 3 on top.1.left at (5, 5)
//            ^^^^^^^^^^ shape/no-flange-opposite: This hole can’t be mirrored: top.1.left.1 is on a flange that stands on another flange, and which flange faces it is not told. Write the other one out, with its own place.
    hole 9 at (150, 40)
//            ^^^^^^^^^ shape/on-the-mirror-line (warning): This hole lies on the mirror line itself, so its copy would fall on it again and is left out. Write it outside the braces.
    edge bottom { flange 9 up }
//  ^^^^ text/misplaced-word: \`edge\` stands in the braces of \`panel\` or in the braces of \`flange\`, not in the braces of \`opposite\`.
    corner all open
//  ^^^^^^ text/misplaced-word: \`corner\` stands in the braces of \`panel\`, not in the braces of \`opposite\`.
  }
}`);
  });
  it('stops at a number nobody draws', () => {
    const many = floor('opposite across x = 150 { hole 1 grid 90 by 90 every 1 by 1 from (0, 0) }');
    expect(many.broken).toBe(true);
    expect(many.findings.map((finding) => finding.rule)).toEqual(['number/out-of-range']);
  });
});
