import { describe, expect, it } from 'vitest';
import {
  figures,
  sayAngle,
  sayArea,
  sayBendSum,
  sayBothLengths,
  sayExactly,
  sayLength,
  sayMass,
  sayOther,
  saySize,
  sayThickness,
  writeAngle,
  writeLength,
} from '../../server/model/display.js';
import type { HomeUnit } from '../../server/model/model.js';

const inch: HomeUnit = { name: 'inch', mm: 25.4 };
const metric: HomeUnit = { name: 'millimetre', mm: 1 };

describe('lengths as read off a rule', () => {
  it.each([
    [30.25, '30 1/4 in'],
    [0.375, '3/8 in'],
    [12, '12 in'],
    [0, '0 in'],
    [-0.5, '-1/2 in'],
    [-30.25, '-30 1/4 in'],
    [1 / 64, '1/64 in'],
    [63.999 / 64, '1 in'],
    // 3/8 in and half a 64th: as far off as rounding goes; 3/8 and 0.2 of one: less than half of that.
    [0.375 + 0.45 / 64, '3/8+ in'],
    [0.375 - 0.45 / 64, '3/8− in'],
    [0.375 + 0.2 / 64, '3/8 in'],
    [-0.375 - 0.45 / 64, '-3/8+ in'],
  ])('%d in is %s', (inches, said) => {
    expect(sayLength(inches * 25.4, inch)).toBe(said);
  });
  it('goes by the denominator asked for', () => {
    expect(sayLength(0.375 * 25.4, inch, 4)).toBe('1/2− in');
    expect(sayLength(0.375 * 25.4, inch, 8)).toBe('3/8 in');
    expect(sayLength(1.6, inch, 16)).toBe('1/16 in');
  });
  it('is a tenth of a millimetre in metric files', () => {
    expect(sayLength(12.345, metric)).toBe('12.3 mm');
    expect(sayLength(12, metric)).toBe('12 mm');
    expect(sayLength(-0.04, metric)).toBe('0 mm');
    expect(sayLength(12.5, undefined)).toBe('12.5 mm');
    expect(sayOther(25.4, inch)).toBe('25.4 mm');
    expect(sayOther(25.4, metric)).toBe('1 in');
  });
});

describe('lengths that want more figures', () => {
  it('exactly, for a hover', () => {
    expect(sayExactly(1.375 * 25.4, inch)).toBe('1.375 in');
    expect(sayExactly(12.3456, metric)).toBe('12.346 mm');
  });
  it('sheet and what a bend takes up: thousandths of an inch, hundredths of a millimetre', () => {
    expect(sayThickness(0.0478 * 25.4, inch)).toBe('0.048 in');
    expect(sayThickness(1.2, metric)).toBe('1.2 mm');
    expect(sayBendSum(0.13 * 25.4, inch)).toBe('0.130 in');
    expect(sayBendSum(3.3, metric)).toBe('3.30 mm');
    expect(sayBendSum(-0.001, metric)).toBe('0.00 mm');
  });
  it('two sizes, the unit said once', () => {
    expect(saySize(30.25 * 25.4, (11 + 0.45 / 64) * 25.4, inch)).toBe('30 1/4 × 11+ in');
    expect(saySize(300, 200.04, metric)).toBe('300 × 200 mm');
  });
  it('two sizes against each other never read alike when they differ', () => {
    expect(sayBothLengths(9.525, 12.7, inch)).toEqual(['3/8 in', '1/2 in']);
    // 1/16 in is 1.5875 mm: to three places both would be 0.063.
    expect(sayBothLengths(1.5875, 1.6, inch)).toEqual(['0.0625 in', '0.063 in']);
    expect(sayBothLengths(12.31, 12.34, metric)).toEqual(['12.31 mm', '12.34 mm']);
    expect(sayBothLengths(12, 12, metric)).toEqual(['12 mm', '12 mm']);
  });
});

describe('lengths as typed', () => {
  it('never go past a limit the wrong way', () => {
    expect(writeLength(0.38 * 25.4, inch, 'up')).toBe('25/64');
    expect(writeLength(0.38 * 25.4, inch, 'down')).toBe('3/8');
    expect(writeLength(0.38 * 25.4, inch, 'nearest')).toBe('3/8');
    expect(writeLength(12.31, metric, 'up')).toBe('12.4');
    expect(writeLength(12.39, metric, 'down')).toBe('12.3');
    expect(writeLength(12.31, undefined, 'up')).toBe('12.4 mm');
  });
  it('stay put when they are on a step already', () => {
    expect(writeLength(9.525, inch, 'up')).toBe('3/8');
    expect(writeLength(3 * 0.1, metric, 'up')).toBe('0.3');
    expect(writeLength(3 * 0.1, metric, 'down')).toBe('0.3');
  });
});

it('angles, masses and areas', () => {
  expect(sayAngle(Math.PI / 2)).toBe('90°');
  expect(sayAngle((37.25 * Math.PI) / 180)).toBe('37.3°');
  expect(writeAngle((37.25 * Math.PI) / 180)).toBe('37.25');
  expect(sayMass(1.2356, metric)).toBe('1.24 kg');
  expect(sayMass(0.85, metric)).toBe('850 g');
  expect(sayMass(0.45359237 * 2.5, inch)).toBe('2.5 lb');
  expect(sayArea(645.16 * 312, inch)).toBe('312 in²');
  expect(sayArea(4500, metric)).toBe('4500 mm²');
  expect(sayArea(215_000, metric)).toBe('0.215 m²');
  expect([figures(7849.6, 4), figures(0.0012345, 3), figures(123456, 3), figures(0, 3)]).toEqual(['7850', '0.00123', '123000', '0']);
});
