import { describe, expect, it } from 'vitest';
import { placeCopy } from '../../server/model/bead-copies.js';
import type { Bead, Panel } from '../../server/model/part.js';
import { build, modelOf, panelOf } from './build.js';
import { checkFindings } from './check.js';

const shop = `units inch
sheet crs_18 { thickness 0.048  bend radius 1/16 k 0.42 }
die half_round_3_8 { round  width 3/8  depth 1/8  tightest turn 3/4  per pass 1/16 }
die step_16 { step  width 1/4  depth 1/16  nose 1/16  shoulder 1/8 }
die tip_4 { tipping  width 1/4 }
`;
const head = 'panel floor {\n  sheet crs_18\n  outline rectangle 36 by 24\n';
const floor = (...lines: readonly string[]): Panel => panelOf(`${shop}${head}${lines.join('\n')}\n}`, 'floor');
const inch = (mm: number): number => Math.round((mm / 25.4) * 1e6) / 1e6 + 0;
/** A length in inches, as the model holds it. */
const mm = (inches: number): unknown => expect.closeTo(inches * 25.4, 9);
const rolled = 'die half_round_3_8  up';

/** Where the two ends of a straight bead come to lie, inches. */
const ends = (bead: Bead): string => {
  if (bead.path.kind !== 'line') return bead.path.kind;
  const at = [bead.path.from.value, bead.path.to.value].map((point) => placeCopy(bead.copy, point));
  return `${bead.id} ${at.map(({ x, y }) => `(${inch(x)}, ${inch(y)})`).join(' ')}`;
};

describe('a bead', () => {
  it('has its die, its side, its path and its ends', () => {
    const [bead, ...more] = floor(`bead border { ${rolled}  rectangle inset 1 3/4 corner 1 }`).beads;
    expect(more).toEqual([]);
    expect(bead).toMatchObject({ kind: 'bead', id: 'border', direction: 'up', start: 'open', finish: 'open', width: undefined });
    expect(bead?.die?.value).toMatchObject({
      name: 'half_round_3_8',
      shape: 'round',
      width: mm(3 / 8),
      depth: mm(1 / 8),
      tightestTurn: mm(3 / 4),
    });
    expect(bead?.path).toMatchObject({ kind: 'rectangle', inset: { value: mm(1.75) }, corner: { value: mm(1) } });
  });
  it('keeps the place of each number, counted from the part', () => {
    const text = `${shop}${head}bead border { ${rolled}  rectangle inset 1 3/4 corner 1 }\n}`;
    const zero = text.indexOf('panel');
    const [bead] = panelOf(text, 'floor').beads;
    const words = (span: { readonly start: number; readonly end: number } | undefined) =>
      span === undefined ? undefined : text.slice(zero + span.start, zero + span.end);
    if (bead?.path.kind !== 'rectangle') throw new Error('no rectangle');
    expect(words(bead.path.inset.span)).toBe('1 3/4');
    expect(words(bead.path.corner?.span)).toBe('1');
    expect(words(bead.pathSpan)).toBe('rectangle inset 1 3/4 corner 1');
    expect(words(bead.die?.span)).toBe('half_round_3_8');
    expect(words(bead.nameSpan)).toBe('border');
  });
  it('takes two ends, start then finish, or one for both', () => {
    const rib = (words: string) => floor(`bead rib { ${rolled}  line from (4, 4) to (12, 4)  ends ${words} }`).beads[0];
    expect(rib('closed')).toMatchObject({ start: 'closed', finish: 'closed' });
    expect(rib('run off closed')).toMatchObject({ start: 'run off', finish: 'closed' });
  });
  it('follows edges, points, arcs and circles', () => {
    const [rim, zigzag, bow, ring] = floor(
      `bead rim { ${rolled}  along left, bottom inset 2 corner 1 1/2 }`,
      `bead zigzag { ${rolled}  path (4, 4), (18, 20), (32, 4) corner 2 }`,
      `bead bow { ${rolled}  arc from (6, 6) through (18, 16) to (30, 6) }`,
      `bead ring { die half_round_3_8  down  circle round (18, 12) radius 6 }`,
    ).beads;
    expect(rim?.path).toMatchObject({ kind: 'along', edges: [{ value: 'left' }, { value: 'bottom' }], inset: { value: mm(2) } });
    expect(zigzag?.path).toMatchObject({ kind: 'path', points: [{}, { value: { x: mm(18), y: mm(20) } }, {}], corner: { value: mm(2) } });
    expect(bow?.path).toMatchObject({ kind: 'arc', through: { value: { x: mm(18) } } });
    expect(ring).toMatchObject({ direction: 'down', path: { kind: 'circle', radius: { value: mm(6) } } });
  });
});

describe('a band', () => {
  it('has a width over both shoulders, and a step die with its radii', () => {
    const [band] = floor('band raised { die step_16  up  width 3  line from (8, 12) to (28, 12) }').beads;
    expect(band).toMatchObject({ kind: 'band', id: 'raised', width: mm(3) });
    expect(band?.die?.value.nose).toBeCloseTo(25.4 / 16, 9);
    expect(band?.die?.value.shoulder).toBeCloseTo(25.4 / 8, 9);
  });
});

describe('repeats and mirrors', () => {
  const rib = `bead rib { ${rolled}  line from (8, 4) to (8, 7) }`;
  it('number the copies and move them', () => {
    expect(floor(`repeat 3 every 7 along x { ${rib} }`).beads.map(ends)).toEqual([
      'rib.1 (8, 4) (8, 7)',
      'rib.2 (15, 4) (15, 7)',
      'rib.3 (22, 4) (22, 7)',
    ]);
  });
  it('put the first and the last one evenly where they are wanted', () => {
    expect(floor(`repeat 3 evenly from 6 to 30 along x { ${rib} }`).beads.map(ends)).toEqual([
      'rib.1 (6, 4) (6, 7)',
      'rib.2 (18, 4) (18, 7)',
      'rib.3 (30, 4) (30, 7)',
    ]);
    // The middle of a bead that lies along the way it steps.
    expect(floor(`repeat 2 evenly from 9 to 27 along x { bead rib { ${rolled}  line from (0, 4) to (6, 4) } }`).beads.map(ends)).toEqual([
      'rib.1 (6, 4) (12, 4)',
      'rib.2 (24, 4) (30, 4)',
    ]);
  });
  it('mirror left and right, and top and bottom', () => {
    expect(floor(`opposite across x = 18 { bead rib { ${rolled}  line from (8, 4) to (10, 7) } }`).beads.map(ends)).toEqual([
      'rib (8, 4) (10, 7)',
      'rib.opposite (28, 4) (26, 7)',
    ]);
    expect(floor(`opposite across y = 12 { repeat 2 every 7 along x { ${rib} } }`).beads.map(ends)).toEqual([
      'rib.1 (8, 4) (8, 7)',
      'rib.2 (15, 4) (15, 7)',
      'rib.1.opposite (8, 20) (8, 17)',
      'rib.2.opposite (15, 20) (15, 17)',
    ]);
    expect(floor(`repeat 2 every 2 along x { opposite across x = 15 { ${rib} } }`).beads.map(ends)).toEqual([
      'rib.1 (8, 4) (8, 7)',
      'rib.1.opposite (22, 4) (22, 7)',
      'rib.2 (10, 4) (10, 7)',
      'rib.2.opposite (24, 4) (24, 7)',
    ]);
  });
});

describe('other roller work', () => {
  it('tips edges', () => {
    const { tips } = floor('tip top, bottom width 1/4 down', 'tip left width 3/16 up 60 die tip_4 as lip');
    expect(tips).toMatchObject([
      { id: 'tip.1', edges: [{ value: 'top' }, { value: 'bottom' }], direction: 'down', turn: Math.PI / 2, die: undefined },
      { id: 'lip', width: { value: mm(3 / 16) }, direction: 'up', turn: Math.PI / 3, die: { value: { name: 'tip_4' } } },
    ]);
  });
  it('breaks across: an eighth of an inch, 3 mm in metric files, unless told', () => {
    expect(floor('cross_break up').crossBreaks).toMatchObject([{ direction: 'up', depth: mm(1 / 8), inset: 0 }]);
    expect(floor('cross_break down depth 1/4 inset 2').crossBreaks).toMatchObject([{ depth: mm(1 / 4), inset: mm(2) }]);
    const metric = 'units millimetre\npanel lid { outline rectangle 300 by 200\n cross_break up }';
    expect(panelOf(metric, 'lid').crossBreaks[0]?.depth).toBe(3);
  });
  it('presses rims of holes, which are cut first', () => {
    const { dimples, cuts } = floor('dimple 1 up depth 1/8 at (6, 4), (12, 4) as light');
    expect(dimples.map(({ id, diameter, depth, at }) => [id, diameter, depth, inch(at.x)])).toEqual([
      ['light.1', 25.4, 3.175, 6],
      ['light.2', 25.4, 3.175, 12],
    ]);
    expect(cuts.map(({ id, shape }) => [id, shape.kind])).toEqual([
      ['light.1', 'hole'],
      ['light.2', 'hole'],
    ]);
  });
  it('carries loads', () => {
    // 150 lbf is 667.23 N; 1 psi is 0.0068948 MPa.
    const [patch, spread] = floor(
      'load patch 150 lbf at (18, 12) over 8 by 6 held all clamped',
      'load spread 1 psi held left, right',
    ).loads;
    expect(patch).toMatchObject({ held: 'all', fixing: 'clamped', load: { kind: 'patch', width: mm(8), height: mm(6) } });
    expect(patch?.load.kind === 'patch' ? patch.load.force : 0).toBeCloseTo(667.23, 2);
    expect(spread).toMatchObject({ held: [{ value: 'left' }, { value: 'right' }], fixing: 'simply' });
    expect(spread?.load.kind === 'spread' ? spread.load.pressure : 0).toBeCloseTo(0.0068948, 7);
  });
});

describe('a brake’s profiles', () => {
  it('are points across it, closed or not as written', () => {
    const of = (points: string) =>
      modelOf(`units millimetre\nbrake leaf_brake { leaf  nose ${points} }\npanel lid { outline rectangle 300 by 200 }`).part('lid')
        ?.brakes[0]?.nose;
    const corners = [
      { x: 0, y: 0 },
      { x: -30, y: 40 },
      { x: -60, y: 0 },
    ];
    expect(of('(0, 0), (-30, 40), (-60, 0)')).toEqual(corners);
    expect(of('(0, 0), (-30, 40), (-60, 0), (0, 0)')).toHaveLength(3);
  });
});

describe('what cannot be', () => {
  it('is said at the words at fault', () => {
    checkFindings(`${shop}panel floor {
  outline rectangle 36 by 24
  bead one { up  line from (4, 4) to (12, 4) }
//     ^^^ bead/incomplete: Bead one doesn’t say the die it is rolled with (die half_round_3_8).
  bead two { die no_such  up  line from (4, 8) to (12, 8) }
//               ^^^^^^^ name/unknown: There is no die no_such in sight. There is half_round_3_8, step_16 and tip_4.
  bead three { die half_round_3_8  line from (4, 9) to (12, 9) }
//     ^^^^^ bead/incomplete: Bead three doesn’t say which way its crown stands (up or down).
  bead four { die half_round_3_8  up  line from (4, 10) to (12, 10)  down }
//                                                                   ^^^^ bead/said-twice: A crown stands up or down, and this bead says both. Keep one of the two.
  bead five { die half_round_3_8  up  line from (4, 11) to (12, 11)  circle round (18, 12) radius 6 }
//                                                                   ^^^^^^ bead/said-twice: A bead has one path, and line is given above. Keep one of the two.
  bead six { }
//     ^^^ bead/incomplete: six is empty. Say the die it is rolled with (die half_round_3_8), which way its crown stands (up or down) and its path (line from (4, 4) to (12, 4), or rectangle inset 2 corner 1).
  band seven { die half_round_3_8  up  width 3  line from (4, 12) to (12, 12) }
//                 ^^^^^^^^^^^^^^ bead/wrong-die: A band is two steps side by side and wants a step die; half_round_3_8 leaves a half-round bead. Name a step die, or make this a bead.
  band eight { die step_16  up  width 3/8  line from (4, 12) to (12, 12) }
//                                    ^^^ bead/band-too-narrow: The two shoulders of die step_16 take 1/2 in, and the band is 3/8 in over both. Make it wider.
  band nine { die step_16  up  line from (4, 12) to (12, 12) }
//     ^^^^ bead/incomplete: Band nine doesn’t say how wide it is over both shoulders (width 3).
  bead ten { die half_round_3_8  up  along left, right inset 2 }
//                                               ^^^^^ bead/edges-apart: right doesn’t meet left, so a bead can’t go on from the one to the other. Name edges in the order they follow round the outline, or write two beads.
  bead eleven { die half_round_3_8  up  rectangle inset 12 }
//                                                      ^^ bead/inset-too-great: An inset of 12 in on both sides leaves nothing of an outline 24 in across. It must be less than 12 in.
}
`);
  });
  it('a name given twice', () => {
    checkFindings(`${shop}panel floor {
  outline rectangle 36 by 24
  bead rib { ${rolled}  line from (4, 4) to (12, 4) }
  bead rib { ${rolled}  line from (4, 8) to (12, 8) }
//     ^^^ name/repeated: rib already names another feature of this part. Give this one another name.
}
`);
  });
});

describe('a part kept over an edit elsewhere', () => {
  it('has the die as it stands now', () => {
    const shopFile = 'units inch\ndie bead_3_8 { round  width 3/8  depth 1/8 }\n';
    const job = build({
      'shop.planish': shopFile,
      'job.planish':
        'with "shop.planish"\nunits inch\npanel a { outline rectangle 9 by 9\n bead b { die bead_3_8  up  line from (2, 2) to (6, 2) } }\n',
    });
    const die = (of: typeof job) => {
      const part = of.model('job.planish').part('a');
      return part?.kind === 'panel' ? part.beads[0]?.die?.value : undefined;
    };
    expect(die(job)?.depth).toBeCloseTo(3.175, 9);
    const moved = job.edit('shop.planish', `// one line more\n${shopFile}`);
    expect(die(moved)?.span.start).toBe((die(job)?.span.start ?? 0) + '// one line more\n'.length);
    expect(die(job.edit('shop.planish', shopFile.replace('depth 1/8', 'depth 1/4')))?.depth).toBeCloseTo(6.35, 9);
  });
});
