import { describe, expect, test } from 'vitest';
import { naming, saying } from './saying.js';

const part = (metal: string, sheet: string, ...lines: readonly string[]): string =>
  `units millimetre\nmaterial metal { ${metal} }\nsheet stock { material metal  ${sheet} }\npanel shelf {\n  sheet stock\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;

describe('the tightest inside radius', () => {
  const steel = 'gauge table steel  density 7850 kg/m3  tensile 330 MPa';
  // DIN 6935:1975-10: up to 390 MPa 1.6 mm for sheet over 1 to 1.5 mm; over 120° or along the grain the next thickness counts, 2.5 mm.
  test.each([
    ['thickness 1.2  bend radius 1.6 k 0.42', 'edge top { flange 20 up }', []],
    ['thickness 1.2  bend radius 1/16 in k 0.42', 'edge top { flange 20 up }', []],
    ['thickness 1.2  bend radius 1.5 k 0.42', 'edge top { flange 20 up }', ['bend/radius-too-tight']],
    ['thickness 1.2  bend radius 1.6 k 0.42', 'edge top { flange 20 up 130 }', ['bend/radius-too-tight']],
    ['thickness 1.2  bend radius 2.5 k 0.42', 'edge top { flange 20 up 130 }', []],
    ['thickness 1.2  bend radius 1.6 k 0.42', 'grain along x  edge top { flange 20 up }', ['bend/grain-along-the-bend']],
    ['thickness 1.2  bend radius 1.5 k 0.42', 'grain along x  edge top { flange 20 up }', ['bend/radius-too-tight']],
    ['thickness 1.2  bend radius 1.6 k 0.42', 'grain along any  edge top { flange 20 up }', []],
    ['thickness 1.2  bend radius 1.6 k 0.42', 'grain along x  edge top, left { flange 20 up }', ['bend/grain-along-the-bend']],
    ['thickness 1.2  bend radius 2.5 k 0.42', 'grain along x  edge top { flange 20 up }', []],
    ['thickness 1.2  bend radius 1.6 k 0.42', 'grain along y  edge top { flange 20 up }', []],
  ])('steel by DIN 6935: %s, %s', (sheet, line, expected) => {
    expect(naming(part(steel, sheet, 'outline rectangle 200 by 100', line)).map((said) => said.replace(/^.* \| /s, ''))).toEqual(expected);
  });

  test('a metal that is not steel is judged by its own table only', () => {
    const sheet = 'thickness 1.5  bend radius 0.5 k 0.42';
    expect(naming(part('density 2700 kg/m3  tensile 230 MPa', sheet, 'outline rectangle 200 by 100', 'edge top { flange 20 up }'))).toEqual(
      [],
    );
  });
});

describe('sizes that stand against each other', () => {
  const steel = 'gauge table steel  density 7850 kg/m3  tensile 330 MPa';
  const radius = (size: string): readonly string[] =>
    saying(part(steel, `thickness 1.2  bend radius ${size} k 0.42`, 'outline rectangle 200 by 100', 'edge top { flange 20 up }'));
  // DIN 6935:1975-10 wants 1.6 mm here.
  test('nominal radii within a twentieth of a millimetre are one radius', () => {
    expect(radius('1/16 in')).toEqual([]);
    expect(radius('1.56')).toEqual([]);
  });
  test('are told apart in decimals where they would read alike', () => {
    expect(radius('1.549')).toEqual([expect.stringContaining('inside radius of 1.5 mm; across the grain this metal wants 1.6 mm')]);
    // 1.5494 mm: as a fraction both would be 1/16 in.
    const inches = part(
      steel,
      'thickness 0.047  bend radius 0.061 k 0.42',
      'outline rectangle 8 by 4',
      'edge top { flange 3/4 up }',
    ).replace('units millimetre', 'units inch');
    expect(saying(inches)).toEqual([
      expect.stringMatching(/inside radius of 0\.061 in; across the grain this metal wants 0\.063 in or more .*: write `radius 1\/16`$/),
    ]);
    // 1250.02 mm and 1250 mm would both be 1250 mm.
    const sheet = 'thickness 1  size 1250 by 2500  bend radius 1 k 0.42';
    expect(saying(part('density 7850 kg/m3', sheet, 'outline rectangle 2400 by 1250.02'))).toEqual([
      expect.stringContaining('the blank is 2400 mm by 1250.02 mm; stock comes 1250 mm by 2500 mm'),
    ]);
    // Two thicknesses are 2.4 mm; 200 − 3 − 194.62 = 2.38 mm are left beside the hole.
    expect(saying(part(steel, 'thickness 1.2  bend radius 1.6 k 0.42', 'outline rectangle 200 by 100', 'hole 6 at (194.62, 50)'))).toEqual([
      expect.stringContaining('only 2.38 mm of sheet is left between this cut and the edge of the blank; two thicknesses are 2.4 mm'),
    ]);
  });
});

describe('the blank against the stock sheet', () => {
  const size = 'thickness 1  size 1250 by 2500  bend radius 1 k 0.42';
  test.each([
    ['outline rectangle 2500 by 1250', []],
    ['outline rectangle 1250 by 2500', []],
    ['outline rectangle 1251 by 2500', ['stock | sheet/blank-too-large']],
    ['outline rectangle 1400 by 1300', ['stock | sheet/blank-too-large']],
    ['outline rectangle 2000 by 500  grain along x', []],
    ['outline rectangle 2000 by 500  grain along y', [expect.stringMatching(/\| sheet\/blank-too-large$/)]],
  ])('%s', (line, expected) => {
    expect(naming(part('density 7850 kg/m3', size, line))).toEqual(expected);
  });

  test('says both sizes', () => {
    expect(saying(part('density 7850 kg/m3', size, 'outline rectangle 1400 by 1300'))).toEqual([
      'stock | error sheet/blank-too-large: the blank is 1400 mm by 1300 mm; stock comes 1250 mm by 2500 mm: take a larger sheet, or make the part in two with a seam',
    ]);
  });
});
