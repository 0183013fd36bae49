import { describe, expect, test } from 'vitest';
import { mended, naming, saying } from './saying.js';

const metal = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3  elongation 34 %  hardening 0.20 }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
die shallow { round  width 3/8  depth 1/16  tightest turn 3/4  per pass 1/16 }
die tip_4 { tipping  width 1/4 }
`;
const roller = 'roller hand_roller { throat 8  thickest 16 ga of mild_steel  arm 2 }\n';
const floor = (...rows: readonly string[]): string =>
  `panel floor {\n  sheet crs_18\n  outline rectangle 36 by 24\n  ${rows.join('\n  ')}\n}\n`;
const rib = (y: string): string => floor(`bead rib { die shallow  up  line from (8, ${y}) to (28, ${y}) }`);

describe('a bead beyond the throat', () => {
  // A straight bead 11 in from the nearer long edge asks for 11 in of throat.
  test('is told at its path, with the reach it asks and the throat there is', () => {
    expect(saying(metal + roller + rib('11'))).toEqual([
      'line from (8, 11) to (28, 11) | error bead/out-of-reach: hand_roller does not reach it: near (18 in, 11 in) rib has 11 in of sheet between the dies and the frame, whichever way it is fed, and the throat is 8 in: it fits when it is moved 3 in toward the bottom',
    ]);
  });
  test('is mended by the deepest place that fits, and then nothing is said', () => {
    const text = mended(metal + roller + rib('11'));
    expect(text).toContain('line from (8, 8) to (28, 8)');
    expect(saying(text)).toEqual([]);
  });
  test('just at the throat fits, and from the far edge too', () => {
    expect(naming(metal + roller + rib('8'))).toEqual([]);
    expect(naming(metal + roller + rib('16'))).toEqual([]);
  });
  test('keeps its words where they are worked out: no number is written over a sum', () => {
    const text = metal + roller + floor('let deep = 12', 'bead rib { die shallow  up  line from (8, deep) to (28, deep) }');
    expect(naming(text)).toEqual(['line from (8, deep) to (28, deep) | bead/out-of-reach']);
    expect(mended(text)).toBe(text);
  });
  test('all round is mended by the inset', () => {
    const text = metal + roller + floor('bead border { die shallow  up  rectangle inset 9 corner 2 }');
    expect(naming(text)).toEqual(['rectangle inset 9 corner 2 | bead/out-of-reach']);
    const good = mended(text);
    expect(naming(good)).toEqual([]);
    // The least change: a thirty-second deeper does not fit.
    const [, whole = '', over = '', under = ''] = /inset (\d+) (\d+)\/(\d+)/.exec(good) ?? [];
    const deeper = Number(whole) + Number(over) / Number(under) + 1 / 32;
    expect(naming(good.replace(/inset [\d /]+ corner/, `inset ${deeper} corner`))).toEqual([expect.stringContaining('bead/out-of-reach')]);
  });
  test('of many copies is told once, and no fix is offered that would move them all', () => {
    const text = metal + roller + floor('repeat 3 every 2 along x { bead rib { die shallow  up  line from (16, 4) to (16, 20) } }');
    expect(naming(text)).toEqual(['line from (16, 4) to (16, 20) | bead/out-of-reach']);
  });
  test('is no matter where the shop has no roller', () => {
    expect(naming(metal + rib('12'))).toEqual([]);
  });
  test('fits when one of two rollers reaches it', () => {
    const large = 'roller floor_roller { throat 18  arm 3 }\n';
    expect(naming(metal + roller + large + rib('12'))).toEqual([]);
  });
  test('counts a notch as no sheet', () => {
    // Below the bead the notch leaves 3 in, from y = 9 to 12; above it 12 in stand.
    const notched = 'outline { from (0, 0)  right 9  up 9  right 12  down 9  right 15  up 24  left 36  close }';
    const text = metal + roller + floor('bead rib { die shallow  up  line from (14, 12) to (16, 12) }');
    expect(naming(text)).toEqual([expect.stringContaining('bead/out-of-reach')]);
    expect(naming(text.replace('outline rectangle 36 by 24', notched))).toEqual([]);
  });
});

describe('a turn tighter than the die allows', () => {
  test('is told at the corner, with the rod it is finished over', () => {
    // Middle of the bead at 1/2 in, its inner foot half of 3/8 in nearer to the centre: 5/16 in.
    expect(saying(metal + roller + floor('bead border { die shallow  up  rectangle inset 4 corner 1/2 }'))).toEqual([
      '1/2 | information bead/turn-too-tight: 4 turns of border, the first at (4 9/64+ in, 19 55/64− in), are of 1/2 in radius and shallow goes round 3/4 in: roll up to there and finish by hand over a rod or dolly of 5/16 in radius',
    ]);
  });
  test('is no matter where the die does not say how tightly it turns', () => {
    const loose = metal.replace('tightest turn 3/4  ', '');
    expect(naming(loose + roller + floor('bead border { die shallow  up  rectangle inset 4 corner 1/2 }'))).toEqual([]);
  });
});

describe('a sheet thicker than the roller takes', () => {
  test('is told at the sheet', () => {
    const thick = metal.replace('thickness 18 ga', 'thickness 12 ga');
    // 16 ga is 0.0598 in, 12 ga 0.1046 in, shown to the nearest sixty-fourth.
    expect(saying(thick + roller + rib('4'))).toEqual([
      'crs_18 | error roller/too-thick: hand_roller takes 1/16 in; the sheet is 7/64− in: take a thinner sheet, or have it beaded elsewhere',
    ]);
  });
});

describe('a bead and a bend', () => {
  test('crossing are told at the path, with the place', () => {
    expect(
      saying(metal + roller + floor('edge left { flange 1 up }', 'bead rib { die shallow  up  line from (0, 4) to (28, 4) }')),
    ).toEqual([
      expect.stringMatching(/^line from \(0, 4\) to \(28, 4\) \| error bead\/crosses-a-bend: rib runs through the bend left\.1 at /),
    ]);
  });
});

describe('beads beside one another', () => {
  test('are told at the second, never at both', () => {
    const two = floor(
      'bead one { die shallow  up  line from (8, 4) to (28, 4) }',
      'bead two { die shallow  up  line from (8, 4 1/2) to (28, 4 1/2) }',
    );
    expect(naming(metal + roller + two)).toEqual(['line from (8, 4 1/2) to (28, 4 1/2) | bead/too-near-another']);
  });
});

describe('a tipped edge', () => {
  const guard = (width: string): string =>
    `panel guard {\n  sheet crs_18\n  outline { from (0, 0)  right 12 as bottom  arc out to (0, 0) radius 6 as crown }\n  tip crown width ${width} up die tip_4\n}\n`;
  // The cut edge lay about its width outside the curve before: 3/16 in on 6 in is some 3 %, 3/8 in some 6 %.
  test('on a round curve puckers beyond 3 % of shrink', () => {
    expect(naming(metal + guard('3/16'))).toEqual([]);
    expect(saying(metal + guard('3/8'))).toEqual([
      expect.stringMatching(
        /^3\/8 \| warning tip\/strains-too-much: the tipped crown has to shrink by [456](\.\d)? % on its radius of 6 in, and 3 % goes without puckers: on this curve a tip .* wide would do/,
      ),
    ]);
  });
});

describe('a bead’s strain', () => {
  const strained = (material: string, die: string, sheet = ''): string =>
    `units millimetre
material ${material}
sheet plate { material ${material.split(' ')[0]}  thickness 1.2  bend radius 1.2 k 0.42 }
die deep { round  ${die}  per pass 3 }
${sheet}panel floor { sheet plate  outline rectangle 600 by 400  bead rib { die deep  up  line from (0, 200) to (600, 200)  ends run off } }
`;
  test('is told against the forming limit where that is less than half the elongation', () => {
    // (23.3 + 14.13 · 1.2) 0.12/0.21 = 23.0 % less 10: 13 %. Half of 60 % would be 30.
    const said = saying(strained('mild_steel { density 7850 kg/m3  elongation 60 %  hardening 0.12 }', 'width 10  depth 4.5'));
    expect(said).toEqual([
      expect.stringMatching(
        /^deep \| warning bead\/strains-too-much: rib stretches the sheet 1\d(\.\d)? % on the average, within 10 % of the forming limit of 23 %: take/,
      ),
    ]);
    expect(saying(strained('mild_steel { density 7850 kg/m3  elongation 60 %  hardening 0.21 }', 'width 10  depth 4.5'))).toEqual([]);
  });
  test('at the tightest radius is told by the radius the metal wants, and where no table knows that, not at all', () => {
    // A nose of half the thickness: DIN 6935 wants 1.6 mm in this steel.
    const sharp = 'width 12  depth 2  nose 0.6  shoulder 4';
    expect(saying(strained('steel { density 7850 kg/m3  tensile 380 MPa  elongation 30 % }', sharp))).toEqual([
      expect.stringMatching(
        /strains-too-much: rib stretches the outer skin round an inside radius of 0\.6 mm, and this metal wants 1\.6 mm or more \(DIN/,
      ),
    ]);
    expect(saying(strained('mystery { density 7850 kg/m3  elongation 30 % }', sharp))).toEqual([]);
  });
});
