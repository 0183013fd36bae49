import { describe, expect, test } from 'vitest';
import { mended, naming, saying } from './saying.js';

const metal = `units inch
material mild_steel { gauge table steel  density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
`;
const leaf = 'brake bench_leaf { leaf  length 48  capacity 16 ga of mild_steel  least flange 3/8  greatest turn 135 }\n';
const lid = (edge: string, size = '12 by 8'): string => `panel lid {\n  sheet crs_18\n  outline rectangle ${size}\n  ${edge}\n}\n`;

describe('a flange shorter than the brake grips', () => {
  test('is told at its length, with both lengths', () => {
    expect(saying(metal + leaf + lid('edge top { flange 1/8 up }'))).toEqual([
      '1/8 | error brake/flange-too-short: this brake grips 3/8 in or more; the flange reaches 1/8 in',
    ]);
  });

  test('is told once where two edges were written together', () => {
    expect(naming(metal + leaf + lid('edge left, right { flange 1/4 up }'))).toEqual(['1/4 | brake/flange-too-short']);
  });

  test('is mended by the least length in the file’s unit', () => {
    const text = mended(metal + leaf + lid('edge top { flange 1/8 up }'));
    expect(text).toContain('flange 3/8 up');
    expect(saying(text)).toEqual([]);
  });

  test('is mended upward where the least is no fraction of an inch', () => {
    const metric = 'brake bench_leaf { leaf  length 1220 mm  least flange 10 mm }\n';
    // 10 mm is 25.2 sixty-fourths of an inch, so 26/64.
    expect(mended(metal + metric + lid('edge top { flange 1/8 up }'))).toContain('flange 13/32 up');
  });

  test('passes exactly at the least, and when another brake takes it', () => {
    const small = 'brake hand_leaf { leaf  length 24  least flange 1/8 }\n';
    expect(saying(metal + leaf + lid('edge top { flange 3/8 up }'))).toEqual([]);
    expect(saying(metal + leaf + small + lid('edge top { flange 1/8 up }'))).toEqual([]);
    expect(naming(metal + leaf + small + lid('edge top { flange 1/8 up }', '30 by 8'))).not.toEqual([]);
  });

  test('is not judged without a brake', () => {
    expect(saying(metal + lid('edge top { flange 1/8 up }'))).toEqual([]);
  });

  test('counts each leg of a section', () => {
    const section = 'section rail {\n  sheet crs_18\n  length 20\n  leg 1/4\n  turn up 90\n  leg 1\n}\n';
    expect(naming(metal + leaf + section)).toEqual([expect.stringMatching(/^leg 1\/4 \| brake\/flange-too-short$/)]);
  });
});

describe('what else a brake cannot do', () => {
  test('a bend longer than its leaf', () => {
    expect(saying(metal + leaf + lid('edge top { flange 1 up }', '60 by 8'))).toEqual([
      expect.stringMatching(/error brake\/bend-too-long: this brake is 48 in long; the bend top\.1 is 60 in/),
    ]);
  });

  test('a turn past its stop', () => {
    expect(saying(metal + leaf + lid('edge top { flange 1 up 150 }'))).toEqual([
      expect.stringMatching(/^150 \| error brake\/turn-too-great: this brake turns 135° at most; the bend top\.1 turns 150°/),
    ]);
  });

  // 620 MPa against 400 MPa: 1.519 mm · √(400/620) = 1.220 mm, which 1.214 mm passes and 1.3 mm does not. Moment goes with strength and thickness squared.
  test.each([
    ['1.21 mm', []],
    ['1.3 mm', ['crs_18 | brake/too-thick']],
  ])('stainless %s on a brake rated 16 ga mild', (thickness, expected) => {
    const strong = `units inch
material mild { gauge table steel  tensile 400 MPa  density 7850 kg/m3 }
material stainless { tensile 620 MPa  density 7900 kg/m3 }
sheet crs_18 { material stainless  thickness ${thickness}  bend radius 1/16 k 0.42 }
brake bench_leaf { leaf  length 48  capacity 16 ga of mild }
`;
    expect(naming(strong + lid('edge top { flange 1 up }', '48 by 8'))).toEqual(expected);
  });

  // Rated at 48 in; over 12 in the moment is spread over a quarter: 1.519 mm · √4 = 3.04 mm, and shorter bends count as 12 in.
  test.each([
    ['12 by 8', '3 mm', []],
    ['12 by 8', '3.1 mm', ['crs_18 | brake/too-thick']],
    ['6 by 8', '3.1 mm', ['crs_18 | brake/too-thick']],
  ])('a shorter bend, %s, may be thicker: %s', (size, thickness, expected) => {
    const mild = `units inch
material mild { gauge table steel  tensile 400 MPa  density 7850 kg/m3 }
sheet crs_18 { material mild  thickness ${thickness}  bend radius 1/4 k 0.42 }
brake bench_leaf { leaf  length 48  capacity 16 ga of mild }
`;
    expect(naming(mild + lid('edge top { flange 1 up }', size)).filter((said) => said.includes('too-thick'))).toEqual(expected);
  });

  test('another metal of unknown strength is not judged', () => {
    const soft = `units inch
material mild { density 7850 kg/m3  tensile 400 MPa }
material lead { density 11340 kg/m3 }
sheet crs_18 { material lead  thickness 3 mm  bend radius 1/8 k 0.42 }
brake bench_leaf { leaf  length 48  capacity 1.5 mm of mild }
`;
    expect(naming(soft + lid('edge top { flange 1 up }'))).toEqual([]);
  });
});
