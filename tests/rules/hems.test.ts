import { describe, expect, test } from 'vitest';
import { mended, naming, saying } from './saying.js';

/** A millimetre sheet, so that sizes can be read as thicknesses. */
const lid = (metal: string, ...lines: readonly string[]): string =>
  `units millimetre\nmaterial metal { ${metal} }\nsheet one { material metal  thickness 1  bend radius 3 k 0.42 }\npanel lid {\n  sheet one\n  outline rectangle 200 by 100\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;
const rulesOf = (text: string): readonly string[] => naming(text).map((said) => said.replace(/^.* \| /s, ''));

describe('a hem against the metal’s own tightest radius', () => {
  const own = 'density 2700 kg/m3  tightest radius 1 across  tightest radius 2 along';
  test.each([
    ['edge top { hem 8 closed down }', ['hem/too-tight-for-the-metal']],
    ['edge top { hem 8 open 1 down }', ['hem/too-tight-for-the-metal']],
    ['edge top { hem 8 open 2 down }', []],
    ['edge top { hem 8 teardrop 1.8 down }', ['hem/too-tight-for-the-metal']],
    ['edge top { hem 8 teardrop 2 down }', []],
    // With the grain 2 mm, a gap of 4.
    ['grain along x  edge top { hem 9 open 2 down }', ['hem/too-tight-for-the-metal']],
    ['grain along x  edge top { hem 9 open 4 down }', []],
    ['grain along y  edge top { hem 9 open 2 down }', []],
  ])('%s', (line, expected) => expect(rulesOf(lid(own, line))).toEqual(expected));

  test('says which size fits, at the words at fault', () => {
    expect(saying(lid(own, 'edge top, left { hem 8 closed down }'))).toEqual([
      'closed | error hem/too-tight-for-the-metal: the hems left.1 and top.1 are closed, folded to no radius at all; across the grain this metal wants 1 mm or more (material metal): write `open 2`, or `teardrop 2` where the cut edge has to close',
    ]);
  });
  test('the fix opens it, and deepens it where the return would be lost', () => {
    expect(mended(lid(own, 'edge top { hem 8 closed down }'))).toContain('hem 8 open 2 down');
    // Half the gap and 5 mm of return.
    expect(mended(lid(own, 'edge top { hem 5 closed down }'))).toContain('hem 6 open 2 down');
    expect(rulesOf(mended(lid(own, 'edge top { hem 5 closed down }')))).toEqual([]);
  });
});

describe('a hem in steel that has no lines of its own', () => {
  // DIN 6935:1975-10, 490 to 640 MPa: 1.6 mm up to 1 mm thick; a hem turns more than 120°, so the next column counts, 2.5 mm: a gap of 5.
  test.each([
    ['tensile 330 MPa', 'closed', []],
    ['tensile 390 MPa', 'closed', []],
    ['tensile 600 MPa', 'closed', ['hem/too-tight-for-the-metal']],
    ['tensile 600 MPa', 'open 4', ['hem/too-tight-for-the-metal']],
    ['tensile 600 MPa', 'open 5', []],
  ])('%s, %s', (strength, style, expected) => {
    expect(rulesOf(lid(`gauge table steel  density 7850 kg/m3  ${strength}`, `edge top { hem 12 ${style} down }`))).toEqual(expected);
  });
});

describe('a hem in an aluminium of the table', () => {
  // Aluminum Design Manual 2005, table 3-1, at 1/16 in: 3003-H14 0, 5052-H32 1 T, 6061-T6 1.5 T. One millimetre lies under that column.
  test.each([
    ['3003-H14', 'closed', []],
    ['5052-O', 'closed', []],
    ['5052-H32', 'closed', ['hem/too-tight-for-the-metal']],
    ['5052 h32', 'open 2', []],
    ['6061-T6', 'open 2', ['hem/too-tight-for-the-metal']],
    ['EN AW-6061-T6', 'teardrop 3', []],
    // Hard by its elongation, and yet the table lets it be folded flat.
    ['3003-H14"  elongation 12 %  coating "none', 'closed', []],
  ])('%s %s', (alloy, style, expected) => {
    expect(rulesOf(lid(`density 2700 kg/m3  alloy "${alloy}"`, `edge top { hem 12 ${style} down }`))).toEqual(expected);
  });
});

describe('a hard temper', () => {
  // Outer strain 1 / (2 R/T + 1) = 0.12 at 2 R = T (1/0.12 − 1) = 7.33 mm.
  const hard = 'density 2700 kg/m3  elongation 12 %';
  test.each([
    [hard, 'hem 14 closed down', ['hem/teardrop-needed']],
    [hard, 'hem 14 open 0.5 down', ['hem/teardrop-needed']],
    [hard, 'hem 14 teardrop 7.4 down', []],
    ['density 2700 kg/m3  elongation 20 %', 'hem 14 closed down', []],
    ['density 2700 kg/m3', 'hem 14 closed down', []],
    [`${hard}  tightest radius 0`, 'hem 14 closed down', []],
    [`${hard}  tightest radius 1`, 'hem 14 closed down', ['hem/too-tight-for-the-metal']],
  ])('%s, %s', (metal, hem, expected) => expect(rulesOf(lid(metal, `edge top { ${hem} }`))).toEqual(expected));

  test('says how far the fold stretches, and the fix makes the teardrop', () => {
    const text = lid(hard, 'edge top { hem 14 closed down }');
    expect(saying(text)[0]).toContain('stretches the outside of the fold by 100 %, and this metal breaks at 12 %: write `teardrop 7.4`');
    expect(mended(text)).toContain('hem 14 teardrop 7.4 down');
  });
});

describe('hems and curls of a section', () => {
  const rail = (metal: string, first: string, last = ''): string =>
    `units millimetre\nmaterial metal { ${metal} }\nsheet one { material metal  thickness 1  bend radius 3 k 0.42 }\nsection rail {\n  sheet one\n  length 200\n${first}\n  leg 40\n  turn up 90\n  leg 40\n${last}\n}\n`;
  const own = 'density 2700 kg/m3  tightest radius 1';
  test.each([
    ['hem 8 closed', '', ['hem/too-tight-for-the-metal']],
    ['hem 8 open 2', 'hem 3 open 2', ['hem/too-shallow']],
    ['hem 8 open 2', 'curl round 1.8', ['hem/curl-too-tight']],
    ['hem 10 double', '', ['hem/too-tight-for-the-metal']],
    ['curl round 4', 'hem 8 teardrop 2', []],
  ])('%s … %s', (first, last, expected) => expect(rulesOf(rail(own, first, last))).toEqual(expected));
});

describe('a double hem', () => {
  test('is judged by its inner fold, and named once', () => {
    expect(saying(lid('density 2700 kg/m3  tightest radius 1', 'edge top { hem 12 double down }'))).toEqual([
      'double | error hem/too-tight-for-the-metal: the hem top.1 is folded twice, its inner fold to no radius at all; across the grain this metal wants 1 mm or more (material metal): write `open 2`, or `teardrop 2` where the cut edge has to close',
    ]);
    expect(rulesOf(lid('density 7850 kg/m3  tensile 330 MPa  gauge table steel', 'edge top { hem 12 double down }'))).toEqual([]);
    expect(rulesOf(lid('density 2700 kg/m3  elongation 12 %', 'edge top { hem 12 double down }'))).toEqual(['hem/teardrop-needed']);
  });
});

describe('how deep a hem is', () => {
  // Four thicknesses are 4 mm, by hand 5; an open fold adds half its gap. A teardrop of 2: 1 + 1 + 4 + 2·1·1·4/(16 + 1) = 6.47.
  test.each([
    ['hem 5 closed down', []],
    ['hem 4.9 closed down', ['hem/too-shallow']],
    ['hem 6 open 2 down', []],
    ['hem 5.9 open 2 down', ['hem/too-shallow']],
    ['hem 6.5 teardrop 2 down', []],
    ['hem 6.4 teardrop 2 down', ['hem/too-shallow']],
  ])('%s', (hem, expected) => expect(rulesOf(lid('density 2700 kg/m3', `edge top { ${hem} }`))).toEqual(expected));
  test('in thick sheet four thicknesses count', () => {
    const thick = lid('density 2700 kg/m3', 'edge top { hem 7.9 closed down }').replace('thickness 1 ', 'thickness 2 ');
    expect(saying(thick)).toEqual([
      '7.9 | warning hem/too-shallow: the hem top.1 is 7.9 mm deep; folded by hand a hem here wants 8 mm or more',
    ]);
    expect(mended(thick)).toContain('hem 8 closed down');
  });
});

describe('a curl', () => {
  test.each([
    ['density 2700 kg/m3', 'flange 30 down  curl round 2', []],
    ['density 2700 kg/m3', 'flange 30 down  curl round 1.9', ['hem/curl-too-tight']],
    ['density 2700 kg/m3  tightest radius 2', 'flange 30 down  curl round 3', ['hem/curl-too-tight']],
    ['density 2700 kg/m3  tightest radius 2', 'flange 30 down  curl round 4', []],
    // Setback of the flange's bend 3 + 1 and the curl's 2 + 1 leave 7 less than the flange flat; wanted are 6 T and 3, against the bend 9 T and 3.
    ['density 2700 kg/m3', 'flange 16 down  curl round 4', []],
    ['density 2700 kg/m3', 'flange 15.9 down  curl round 4', ['hem/curl-too-near-a-bend']],
    // Of a flange that tapers the narrower end counts, whichever it is.
    ['density 2700 kg/m3', 'flange 15 down to 30  curl round 4', ['hem/curl-too-near-a-bend']],
    ['density 2700 kg/m3', 'flange 30 down to 15  curl round 4', ['hem/curl-too-near-a-bend']],
    ['density 2700 kg/m3', 'flange 30 down to 16.1  curl round 4', []],
    ['density 2700 kg/m3', 'flange 19 down  curl round 4 up', []],
    ['density 2700 kg/m3', 'flange 18.9 down  curl round 4 up', ['hem/curl-too-near-a-bend']],
  ])('%s, %s', (metal, edge, expected) => expect(rulesOf(lid(metal, `edge top { ${edge} }`))).toEqual(expected));

  test('the fix takes the thicker wire', () => {
    expect(mended(lid('density 2700 kg/m3', 'edge top { flange 30 down  curl round 3/2 }'))).toContain('curl round 2');
  });
  test('a hole keeps the curl’s radius and a thickness from where it begins', () => {
    // The curl takes 4 + 1 of 100, so it begins at 95; a hole of 6 keeps 4 + 1 from there: its centre at 87.
    const hole = (y: number): readonly string[] =>
      rulesOf(lid('density 2700 kg/m3', 'edge top { curl round 8 down }', `hole 6 at (60, ${y})`));
    expect(hole(87)).toEqual([]);
    expect(hole(87.1)).toEqual(['bend/hole-too-near']);
  });
});

describe('a brake of the shop', () => {
  test('a hem is closed by hand, a curl rolled over its wire: how far the leaf turns is not asked of them', () => {
    const bench = 'brake leaf_1 { leaf  length 150  capacity 1.2  greatest turn 135 }\n';
    const text = (edge: string): string => bench.replace('1.2', '1.2 of metal') + lid('density 2700 kg/m3', `edge left { ${edge} }`);
    expect(rulesOf(`units millimetre\n${text('hem 8 closed down').replace('units millimetre\n', '')}`)).toEqual([]);
    expect(rulesOf(`units millimetre\n${text('curl round 4 down').replace('units millimetre\n', '')}`)).toEqual([]);
  });
});
