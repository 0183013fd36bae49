import { describe, expect, it } from 'vitest';
import type { Cut, OutlineEdge } from '../../server/model/part.js';
import { modelOf, panelOf } from './build.js';
import { checkFindings } from './check.js';

const panel = (...lines: readonly string[]) =>
  panelOf(`units millimetre\nsheet crs { thickness 1 }\npanel gate {\n${lines.join('\n')}\n}`, 'gate');
const at = (cuts: readonly Cut[]) => cuts.map((cut) => `${cut.id} ${cut.on ?? 'base'} (${round(cut.at.x)}, ${round(cut.at.y)})`);
const round = (n: number): number => Math.round(n * 1e6) / 1e6 + 0;
const corners = (edges: readonly OutlineEdge[]) => edges.map((edge) => `${edge.name ?? '-'} ${round(edge.to.x)},${round(edge.to.y)}`);

describe('outlines', () => {
  it('of a rectangle start at the lower left and run anticlockwise', () => {
    const { outline } = panel('outline rectangle 30 by 11 inside');
    expect(outline?.start).toEqual({ x: 0, y: 0 });
    expect(outline?.convention).toBe('inside');
    expect(corners(outline?.edges ?? [])).toEqual(['bottom 30,0', 'right 30,11', 'top 0,11', 'left 0,0']);
  });
  it('drawn: steps, names and conventions of their own', () => {
    const { outline } = panel('outline flat { from (1, 2) right 5 as bottom; up 3 inside; line to (3, 8); line 2 at 180; close as slant }');
    expect(outline?.start).toEqual({ x: 1, y: 2 });
    expect(corners(outline?.edges ?? [])).toEqual(['bottom 6,2', '- 6,5', '- 3,8', '- 1,8', 'slant 1,2']);
    expect(outline?.edges[1]?.convention).toBe('inside');
    expect(outline?.rectangle).toBe(false);
  });
  it('drawn clockwise stay as drawn, and bulges still speak of the metal', () => {
    const { outline } = panel('outline { from (0, 0) up 10 as west; arc out to (10, 10) radius 5; down 10 as east; close as south }');
    expect(corners(outline?.edges ?? [])).toEqual(['west 0,10', '- 10,10', 'east 10,0', 'south 0,0']);
    // The half circle above the top bulges away from the metal: about (5, 10), clockwise.
    expect(outline?.edges[1]?.arc).toEqual({ centre: { x: 5, y: 10 }, turn: 'right' });
  });
  it('arcs bulge away from the metal or into it, the short way or the long', () => {
    const arc = (step: string) => panel(`outline { from (0, 0) right 10 up 10 ${step} close }`).outline?.edges[2]?.arc;
    const rise = Math.sqrt(10 ** 2 - 5 ** 2);
    expect(arc('arc out to (0, 10) radius 10')).toMatchObject({ turn: 'left', centre: { x: 5 } });
    expect(arc('arc out to (0, 10) radius 10')?.centre.y).toBeCloseTo(10 - rise, 9);
    expect(arc('arc in to (0, 10) radius 10')).toMatchObject({ turn: 'right' });
    expect(arc('arc in to (0, 10) radius 10')?.centre.y).toBeCloseTo(10 + rise, 9);
    expect(arc('arc out to (0, 10) radius 10 large')?.centre.y).toBeCloseTo(10 + rise, 9);
    expect(arc('arc out to (0, 10) radius 10 large')).toMatchObject({ turn: 'left' });
    // Through (5, 12): a rise of 2 over a chord of 10 has radius (25 + 4) / 4 = 7.25.
    expect(arc('arc through (5, 12) to (0, 10)')?.centre.y).toBeCloseTo(12 - 7.25, 9);
    expect(arc('arc through (5, 12) to (0, 10)')?.turn).toBe('left');
  });
  it('that can’t be drawn say why', () => {
    checkFindings(`units millimetre
panel a {
  outline {
    from (0, 0)
    right 10
    up 5
//  ^^^^ shape/open-outline: The outline stops at (10 mm, 5 mm) and began at (0 mm, 0 mm), 11.2 mm apart. End it with close.
  }
}
panel b {
  outline {
    from (0, 0)
    right 10
    arc out to (0, 10) radius 5
//                            ^ shape/arc-too-tight: A radius of 5 mm can't reach across 14.1 mm. It must be 7.1 mm or more.
    close
  }
}
panel c {
  outline {
    right 10
//  ^^^^^ shape/no-start: An outline begins with the point it starts from: from (0, 0).
    close
  }
}
panel d {
  outline {
    from (0, 0)
    right 10
    line to (10, 0)
//  ^^^^^^^^^^^^^^^ shape/no-length: This step ends where it begins. Take it out, or give it another end.
    close
    up 3
//  ^^ shape/after-close: The outline is closed above; nothing can be drawn after that.
  }
}
panel e {
  outline {
    from (0, 0)
    arc through (20, 0) to (30, 0)
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ shape/arc-is-straight: The arc’s three points lie on one line. Draw it with line to, or move the middle point off the line.
    up 10
    close
  }
}`);
  });
});

describe('edges', () => {
  it('give each edge of a block a chain of its own, steps in order', () => {
    const { edges, findings, broken } = panel(
      'outline rectangle 30 by 11',
      'edge top, left { flange 5 down  flange 3 up 45 radius 2 inside as lip }',
    );
    expect(findings.map((finding) => finding.rule)).toEqual(['name/repeated']);
    expect(broken).toBe(false);
    expect(edges.map((chain) => [chain.edge, chain.steps.map((step) => step.id)])).toEqual([
      ['top', ['top.1', 'lip']],
      ['left', ['left.1', 'left.2']],
    ]);
    expect(edges[0]?.steps[1]).toMatchObject({
      kind: 'flange',
      length: 3,
      direction: 'up',
      turn: Math.PI / 4,
      radius: 2,
      convention: 'inside',
      name: 'lip',
    });
    expect(edges[0]?.steps[0]).toMatchObject({ length: 5, turn: Math.PI / 2, radius: undefined, convention: undefined });
  });
  it('hold stretches, flanges on flanges, and holes on the flange above', () => {
    const { edges, cuts } = panel(
      'outline rectangle 30 by 11',
      'edge top from 5 to 12 { flange 5 down { edge left { flange 2 down } hole 1 at (6, 2) } hole 1 at (7, 2) flange 3 up hole 1 at (8, 1) }',
      'edge top from 15 to 20 { flange 4 up }',
    );
    expect(edges.map((chain) => [chain.edge, chain.from, chain.to])).toEqual([
      ['top', 5, 12],
      ['top', 15, 20],
    ]);
    const first = edges[0]?.steps[0];
    expect(first?.kind === 'flange' && first.edges[0]?.steps[0]?.id).toBe('top.1.left.1');
    expect(edges[1]?.steps[0]?.id).toBe('top.3');
    expect(at(cuts)).toEqual(['hole.1 top.1 (6, 2)', 'hole.2 top.1 (7, 2)', 'hole.3 top.2 (8, 1)']);
  });
});

describe('corners', () => {
  it('are read with their treatment', () => {
    const treatments = (text: string) =>
      panel('outline rectangle 30 by 11', text).corners.map(({ edges, treatment }) => [edges, treatment]);
    expect(treatments('corner all relief round 3')).toEqual([[undefined, { kind: 'open', relief: { kind: 'round', diameter: 3 } }]]);
    expect(treatments('corner top left open relief square 2')).toEqual([
      [['top', 'left'], { kind: 'open', relief: { kind: 'square', side: 2 } }],
    ]);
    expect(treatments('corner top left relief none')).toEqual([[['top', 'left'], { kind: 'open', relief: { kind: 'none' } }]]);
    expect(treatments('corner bottom right radius 4')).toEqual([[['bottom', 'right'], { kind: 'radius', radius: 4 }]]);
    expect(treatments('corner bottom right chamfer 4')).toEqual([[['bottom', 'right'], { kind: 'chamfer', size: 4 }]]);
    expect(treatments('corner bottom right notch 4 by 5')).toEqual([[['bottom', 'right'], { kind: 'notch', width: 4, depth: 5 }]]);
  });
});

describe('cuts', () => {
  const base = 'outline rectangle 300 by 200';
  it('lie at points, along lines, on grids and round centres', () => {
    expect(at(panel(base, 'hole 5 at (1, 2), (3, 4)').cuts)).toEqual(['hole.1 base (1, 2)', 'hole.2 base (3, 4)']);
    expect(at(panel(base, 'hole 5 along line from (0, 0) to (30, 40) count 3').cuts)).toEqual([
      'hole.1 base (0, 0)',
      'hole.2 base (15, 20)',
      'hole.3 base (30, 40)',
    ]);
    expect(at(panel(base, 'hole 5 along line from (0, 0) to (30, 40) every 20').cuts)).toEqual([
      'hole.1 base (0, 0)',
      'hole.2 base (12, 16)',
      'hole.3 base (24, 32)',
    ]);
    expect(at(panel(base, 'hole 5 grid 2 by 2 every 10 by 20 from (1, 1)').cuts)).toEqual([
      'hole.1 base (1, 1)',
      'hole.2 base (11, 1)',
      'hole.3 base (1, 21)',
      'hole.4 base (11, 21)',
    ]);
    expect(at(panel(base, 'hole 5 round (50, 50) radius 10 count 4 start 90').cuts)).toEqual([
      'hole.1 base (50, 60)',
      'hole.2 base (40, 50)',
      'hole.3 base (50, 40)',
      'hole.4 base (60, 50)',
    ]);
  });
  it('take their size from a diameter, a thread or a drill', () => {
    const sizes = panel(
      base,
      'hole 5 at (1, 1)',
      'hole clearance M6 at (2, 2)',
      'hole tapped M6 at (3, 3)',
      'hole drill F at (4, 4)',
      'hole clearance #10 at (5, 5)',
    ).cuts.map(({ shape }) => (shape.kind === 'hole' ? [round(shape.diameter), shape.thread] : []));
    // ISO 273 medium: M6 in 6.6; ISO 2306: M6 tapped from 5.0; letter drill F is 0.257 in; ASME B18.2.8 normal: #10 in 0.221 in.
    expect(sizes).toEqual([
      [5, undefined],
      [6.6, 'clearance M6'],
      [5, 'tapped M6'],
      [round(0.257 * 25.4), 'drill F'],
      [round(0.221 * 25.4), 'clearance #10'],
    ]);
  });
  it('may be slots, rectangles, circles and drawn shapes', () => {
    const { cuts } = panel(
      base,
      'slot 6 by 20 at (50, 50) turned 30',
      'cut rectangle 50 by 20 radius 4 at (100, 100) as handle',
      'cut circle 30 at (150, 50)',
      'cut drawn at (200, 100) { from (0, 0) right 20 line to (10, 20) close }',
    );
    expect(cuts.map(({ id }) => id)).toEqual(['slot.1', 'handle', 'cut.1', 'cut.2']);
    expect(cuts[0]).toMatchObject({ shape: { kind: 'slot', width: 6, length: 20 }, turned: Math.PI / 6 });
    expect(cuts[1]?.shape).toEqual({ kind: 'rectangle', width: 50, height: 20, corner: 4 });
    expect(cuts[2]?.shape).toEqual({ kind: 'hole', diameter: 30, thread: undefined });
    expect(cuts[3]?.shape.kind === 'drawn' && corners(cuts[3].shape.edges)).toEqual(['- 20,0', '- 10,20', '- 0,0']);
  });
  it('are multiplied out by repeats, one within the other, with their numbers', () => {
    expect(at(panel(base, 'repeat 3 every 10 along x { hole 5 at (1, 1) as rib }').cuts)).toEqual([
      'rib.1 base (1, 1)',
      'rib.2 base (11, 1)',
      'rib.3 base (21, 1)',
    ]);
    expect(at(panel(base, 'repeat 2 every 10 along x { repeat 2 every 5 along y { hole 5 at (1, 1) } }').cuts)).toEqual([
      'hole.1 base (1, 1)',
      'hole.2 base (1, 6)',
      'hole.3 base (11, 1)',
      'hole.4 base (11, 6)',
    ]);
    expect(at(panel(base, 'repeat 3 every 10 along x as i from 0 { let up = i * 2  hole 5 at (1, up + 1) }').cuts)).toEqual([
      'hole.1 base (1, 1)',
      'hole.2 base (11, 3)',
      'hole.3 base (21, 5)',
    ]);
  });
  it('shared evenly: the first lands on A, the last on B, wherever the braces drew it', () => {
    for (const x of [0, 20, 77]) {
      expect(at(panel(base, `repeat 3 evenly from 20 to 60 along x { hole 5 at (${x}, 5) }`).cuts)).toEqual([
        'hole.1 base (20, 5)',
        'hole.2 base (40, 5)',
        'hole.3 base (60, 5)',
      ]);
    }
  });
  it('stop at a number nobody draws', () => {
    const many = panel(
      base,
      'repeat 9000 every 1 along x { repeat 9000 every 1 along y { bead rib { die d up line from (1, 1) to (2, 2) } } }',
    );
    expect(many.broken).toBe(true);
    expect(many.findings.map((finding) => finding.rule).sort()).toEqual(['name/unknown', 'number/out-of-range']);
    expect(panel(base, 'hole 5 grid 5000 by 5000 every 1 by 1 from (0, 0)').findings.map((finding) => finding.rule)).toEqual([
      'number/out-of-range',
    ]);
  });
  it('that make no sense say why', () => {
    checkFindings(`units millimetre
panel gate {
  outline rectangle 300 by 200
  slot 20 by 6 at (50, 50)
//     ^^^^^^^ shape/slot-shorter-than-wide: A slot is written width by length overall, and this length is less than the width. Change the two round and turn the slot by 90.
  hole clearance M7 at (1, 1)
//               ^^ hole/unknown-size: The tables have no clearance hole for M7. Did you mean M6 or M8?
  hole 5 at 3
//          ^ unit/wrong-kind: A point is wanted here, such as (3, 4), and 3 is a number without a unit.
  hole 5 at 20, 30
//          ^^^^^^ unit/wrong-kind: A point is written in brackets: (20, 30).
  hole M6 at (4, 4)
//     ^^ name/unknown: A hole that M6 passes is written clearance M6; one for its thread, tapped M6.
  hole 5 at (1, 1) as a
  hole 5 at (2, 1) as a
//                    ^ name/repeated: a already names another feature of this part. Give this one another name.
}`);
  });
});

describe('a part as a whole', () => {
  it('carries its quantity, grain, finish and notes', () => {
    const model = modelOf(`units inch
sheet crs { thickness 1/16 }
/// Drop gate, one off.
/// Beads stand out toward the road.
panel gate {
  sheet crs
  outline rectangle 30 by 11
  grain along x
  quantity 2 and 3 opposite hand
  finish "green"
  note "mind the paint"
}`);
    expect(model.part('gate')).toMatchObject({
      quantity: 2,
      quantityOpposite: 3,
      finish: 'green',
      grain: { value: 'x' },
      note: 'Drop gate, one off.\nBeads stand out toward the road.\nmind the paint',
      broken: false,
    });
  });
  it('is broken while anything its shape stands on is', () => {
    const broken = (line: string) => panel('outline rectangle 30 by 11', line).broken;
    expect(broken('hole 5 at (1, 1)')).toBe(false);
    expect(broken('hole nothing at (1, 1)')).toBe(true);
    expect(broken('sheet none')).toBe(true);
    expect(broken('hole 5 at')).toBe(true);
    expect(broken('check')).toBe(false);
    expect(broken('let unused = 3 in + 2 deg')).toBe(false);
    expect(broken('edge top { flange 3 up 200 }')).toBe(true);
  });
  it('counts its spans from its own statement', () => {
    const text = 'units inch\npanel gate { outline rectangle 30 by 11 hole 1/4 at (1, 2) }';
    const above = `units inch\n\n// a line more\npanel gate { outline rectangle 30 by 11 hole 1/4 at (1, 2) }`;
    expect(panelOf(above, 'gate')).toEqual(panelOf(text, 'gate'));
    const { cuts } = panelOf(text, 'gate');
    const start = text.indexOf('panel') + (cuts[0]?.sizeSpan.start ?? 0);
    expect(text.slice(start, start + 3)).toBe('1/4');
  });
});
