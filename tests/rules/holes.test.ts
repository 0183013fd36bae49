import { describe, expect, test } from 'vitest';
import { naming, saying } from './saying.js';

// One millimetre sheet, so that distances can be read as thicknesses.
const metal = `units millimetre
material mild { density 7850 kg/m3 }
sheet one { material mild  thickness 1  bend radius 1 k 0.42 }
`;
const plate = (...lines: readonly string[]): string =>
  `${metal}panel plate {\n  sheet one\n  outline rectangle 100 by 60\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;

describe('a hole against the edge of the blank: two thicknesses', () => {
  test.each([
    ['hole 6 at (5, 30)', []],
    ['hole 6 at (4.9, 30)', ['(4.9, 30) | hole/too-near-an-edge']],
    ['hole 6 at (97, 30)', ['(97, 30) | hole/outside-its-face']],
    ['hole 6 at (200, 30)', ['(200, 30) | hole/outside-its-face']],
    ['slot 4 by 20 at (50, 4)', []],
    ['slot 4 by 20 at (50, 3.5)', ['(50, 3.5) | hole/too-near-an-edge']],
    ['slot 4 by 20 at (50, 12) turned 90', []],
    ['slot 4 by 20 at (50, 11.9) turned 90', ['(50, 11.9) | hole/too-near-an-edge']],
  ])('%s', (line, expected) => {
    expect(naming(plate(line))).toEqual(expected);
  });

  test('says what is left and what is wanted', () => {
    expect(saying(plate('hole 6 at (4, 30)'))).toEqual([
      '(4, 30) | warning hole/too-near-an-edge: only 1 mm of sheet is left between this cut and the edge of the blank; two thicknesses are 2 mm: move it in by 1 or make it smaller',
    ]);
  });
});

describe('holes against one another: two thicknesses', () => {
  test.each([
    ['hole 6 at (30, 30), (38, 30)', []],
    ['hole 6 at (30, 30), (37.5, 30)', ['(37.5, 30) | hole/too-near-another']],
    ['hole 6 at (30, 30), (33, 30)', ['(33, 30) | hole/too-near-another']],
    ['hole 6 at (30, 30), (37.5, 30), (45, 30)', ['(37.5, 30) | hole/too-near-another', '(45, 30) | hole/too-near-another']],
  ])('%s', (line, expected) => {
    expect(naming(plate(line))).toEqual(expected);
  });
  test('two that overlap are not told a distance that would leave them overlapping', () => {
    expect(saying(plate('hole 6 at (30, 30), (30, 30)'))).toEqual([
      '(30, 30) | warning hole/too-near-another: this cut runs into hole.1: move them until two thicknesses, 2 mm, are left between them, or draw them as one cut',
    ]);
  });
});

describe('a hole beside a bend', () => {
  // Flange at the top, turned 90: the bend begins 60 − (1 + 1) = 58 from the bottom. A hole of 6 must keep 2.5 T = 2.5 from there: centre at 52.5 or lower.
  test.each([
    ['hole 6 at (50, 52.5)', []],
    ['hole 6 at (50, 52.6)', ['(50, 52.6) | bend/hole-too-near']],
    ['hole 6 at (50, 56)', ['(50, 56) | hole/crosses-a-bend']],
    // A slot of 4 keeps 4 T = 4: middle at 52 or lower.
    ['slot 4 by 20 at (50, 52)', []],
    ['slot 4 by 20 at (50, 52.2)', ['(50, 52.2) | bend/slot-too-near']],
  ])('%s', (line, expected) => {
    expect(naming(plate('edge top { flange 20 up }', line))).toEqual(expected);
  });

  // On the flange y runs from the outside of the parent: the flange is flat from y = 2, so a hole of 6 has its middle at 2 + 2.5 + 3 = 7.5 or higher.
  test.each([
    ['hole 6 on top at (50, 7.5)', []],
    ['hole 6 on top at (50, 7.4)', ['(50, 7.4) | bend/hole-too-near']],
  ])('%s', (line, expected) => {
    expect(naming(plate('edge top { flange 20 up }', line))).toEqual(expected);
  });
});

describe('a hole smaller than a punch likes: 1.2 T and not under 1.2 mm', () => {
  test.each([
    ['hole 1.2 at (50, 30)', []],
    ['hole 1.1 at (50, 30)', ['1.1 | hole/too-small']],
    ['hole 1.1 at (50, 30), (60, 30), (70, 30)', ['1.1 | hole/too-small']],
  ])('%s', (line, expected) => {
    expect(naming(plate(line))).toEqual(expected);
  });
});
