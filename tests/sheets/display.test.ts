import { describe, expect, it } from 'vitest';
import { display, displayAngle, displayLength, displayMass, inchFraction } from '../../server/sheets/index.js';

describe('a length written for people', () => {
  it.each([
    [12.3125, '12 5/16'],
    [0, '0'],
    [0.375, '3/8'],
    [-1.5, '\u22121 1/2'],
    [3, '3'],
    [0.9999, '1'],
  ])('%f in reads %s', (inches, text) => expect(inchFraction(inches, 64)).toBe(text));

  it('says when the size is a shade over or under the fraction', () => {
    // 0.38 in is 24.32 sixty-fourths: 24 are shown and 0.32 of a step is lost, more than half of the most that rounding can lose.
    expect(inchFraction(0.38, 64)).toBe('3/8 +');
    expect(inchFraction(0.37, 64)).toBe('3/8 \u2212');
    expect(inchFraction(0.3755, 64)).toBe('3/8');
  });

  it('takes the denominator asked for', () => expect(inchFraction(0.19, 8)).toBe('1/4 \u2212'));

  it('writes tenths of a millimetre, and the unit where asked', () => {
    expect(displayLength(312.44, { unit: 'mm' })).toBe('312.4');
    expect(displayLength(-0.01, { unit: 'mm' })).toBe('0');
    expect(display(25.4, 'inch')).toBe('1 in');
    expect(display(25.4, 'mm')).toBe('25.4 mm');
  });

  it('writes angles and masses', () => {
    expect(displayAngle(Math.PI / 2)).toBe('90°');
    expect(displayAngle(Math.PI / 8)).toBe('22.5°');
    expect(displayMass(0.0841, 'mm')).toBe('0.084 kg');
    // One pound is 0.45359237 kg: the international yard and pound agreement, 1959.
    expect(displayMass(0.45359237, 'inch')).toBe('1 lb');
  });
});
