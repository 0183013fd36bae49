import { describe, expect, test } from 'vitest';
import { mended, naming, saying } from './saying.js';

const shelf = (...lines: readonly string[]): string =>
  `units millimetre\nmaterial half_hard { density 2700 kg/m3  tightest radius 2 across  tightest radius 4 along }\nsheet al_15 { material half_hard  thickness 1.5  bend radius 3 k 0.42 }\npanel shelf {\n  sheet al_15\n  outline rectangle 200 by 100\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;
const rail = (...lines: readonly string[]): string =>
  shelf(...lines)
    .replace('panel shelf', 'section rail')
    .replace('  outline rectangle 200 by 100\n', '');

describe('a bend line with the grain', () => {
  test('says what holds which way, and both cures', () => {
    const text = shelf('grain along x', 'edge top, bottom { flange 20 up }');
    expect(saying(text)).toEqual([
      'flange 20 up | error bend/grain-along-the-bend: the grain runs along the bends bottom.1 and top.1, whose inside radius is 3 mm: enough across the grain, but along it this metal wants 4 mm or more (material half_hard); turn the part on the sheet: `grain along y`, or write `radius 4`',
    ]);
    expect(mended(text)).toContain('grain along y');
    expect(naming(mended(text))).toEqual([]);
  });
  test('turning is no cure where another bend then runs with the grain', () => {
    const text = shelf('grain along x', 'edge top, left { flange 20 up }');
    expect(saying(text)).toEqual([
      expect.stringMatching(/turning the part on the sheet would lay another bend along the grain, or write `radius 4`$/),
    ]);
    expect(mended(text)).toContain('flange 20 up radius 4');
  });
  test.each([
    ['grain along y', 'edge top { flange 20 up }', []],
    ['grain along any', 'edge top { flange 20 up }', []],
    ['', 'edge top { flange 20 up }', []],
    ['grain along x', 'edge top { flange 20 up radius 4 }', []],
    ['grain along x', 'edge top { flange 20 up 90 radius 1 }', ['bend/radius-too-tight']],
  ])('%s, %s', (grain, edge, expected) => {
    expect(naming(shelf(grain, edge)).map((said) => said.replace(/^.* \| /s, ''))).toEqual(expected);
  });
  test('of a section, whose bends run along it', () => {
    const text = rail('length 300', 'grain along x', 'leg 30', 'turn up 90', 'leg 30');
    expect(naming(text)).toEqual(['turn up 90 | bend/grain-along-the-bend']);
    expect(naming(mended(text))).toEqual([]);
    expect(naming(rail('length 300', 'leg 30', 'turn up 90', 'leg 30'))).toEqual([]);
  });
  test('of a joggle, whose radius is the sheet’s', () => {
    expect(saying(shelf('grain along x', 'edge top { joggle 3 over 20 up }'))).toEqual([
      expect.stringMatching(/give the sheet `bend radius 4`$/),
    ]);
  });
});

describe('a notch', () => {
  test.each([
    ['notch 2.3 by 10', []],
    ['notch 2.2 by 10', ['corner top left notch 2.2 by 10 | corner/notch-too-small']],
    ['notch 10 by 2', ['corner top left notch 10 by 2 | corner/notch-too-small']],
  ])('%s in sheet of 1.5', (notch, expected) => expect(naming(shelf(`corner top left ${notch}`))).toEqual(expected));
});
