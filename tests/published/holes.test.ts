import { describe, expect, test } from 'vitest';
import { holeDiameter } from '../../server/trade/threads.js';

describe('metric screws', () => {
  // Sources: ISO 273:1979 clearance holes (fine, medium, coarse); tap drills M3 to M16 Carvill, Mechanical Engineer's Data Handbook p. 299 (M3.5, M14 from memory).
  test.each([
    ['M3', 3.2, 3.4, 3.6, 2.5],
    ['M3.5', 3.7, 3.9, 4.2, 2.9],
    ['M4', 4.3, 4.5, 4.8, 3.3],
    ['M5', 5.3, 5.5, 5.8, 4.2],
    ['M6', 6.4, 6.6, 7, 5],
    ['M8', 8.4, 9, 10, 6.8],
    ['M10', 10.5, 11, 12, 8.5],
    ['M12', 13, 13.5, 14.5, 10.2],
    ['M14', 15, 15.5, 16.5, 12],
    ['M16', 17, 17.5, 18.5, 14],
  ])('%s', (size, close, normal, loose, tap) => {
    expect(holeDiameter('clearance', size, 'close')).toBe(close);
    expect(holeDiameter('clearance', size)).toBe(normal);
    expect(holeDiameter('clearance', size, 'loose')).toBe(loose);
    expect(holeDiameter('tapped', size)).toBe(tap);
  });
  test('a fine thread is drilled to its diameter less its pitch', () => {
    expect(holeDiameter('tapped', 'M8x1')).toBe(7);
    expect(holeDiameter('tapped', 'M8x1.25')).toBe(6.8);
    expect(holeDiameter('clearance', 'M8x1')).toBe(9);
  });
});

describe('inch screws', () => {
  // Source: ASME B18.2.8-1999 (R2017), normal fit, Machinery's Handbook 31st ed. p. 1741 (1/2 from memory). Inches.
  test.each([
    ['#6', 0.1695],
    ['#8', 0.196],
    ['#10', 0.221],
    ['1/4', 0.28125],
    ['5/16', 0.34375],
    ['3/8', 0.40625],
    ['7/16', 0.46875],
    ['1/2', 0.5625],
  ])('%s clears at %d', (size, inches) => {
    expect((holeDiameter('clearance', size) ?? 0) / 25.4).toBeCloseTo(inches, 9);
  });

  // Source: D − 0.75 × 1.299 / threads per inch for 75 % thread; the chart's drill is the nearest. Inches: size, formula, drill.
  test.each([
    ['#6-32', 0.1076, '#36'],
    ['#8-32', 0.1336, '#29'],
    ['#10-24', 0.1494, '#25'],
    ['#10-32', 0.1596, '#21'],
    ['1/4-20', 0.2013, '#7'],
    ['5/16-18', 0.2584, 'F'],
    ['3/8-16', 0.3141, '5/16'],
    ['1/2-13', 0.4251, '27/64'],
  ])('%s is tapped after %d, drill %s', (size, inches, drill) => {
    const tap = holeDiameter('tapped', size) ?? 0;
    expect(Math.abs(tap / 25.4 - inches)).toBeLessThan(0.0035);
    expect(tap).toBeCloseTo(holeDiameter('drill', drill) ?? 0, 9);
  });
});

describe('drills by number, letter and fraction', () => {
  // Source: ASME B94.11M, from memory.
  test.each([
    ['#1', 0.228],
    ['#7', 0.201],
    ['#30', 0.1285],
    ['#60', 0.04],
    ['#80', 0.0135],
    ['A', 0.234],
    ['F', 0.257],
    ['Z', 0.413],
    ['9/32', 0.28125],
    ['1-1/8', 1.125],
  ])('%s is %d in', (size, inches) => {
    expect((holeDiameter('drill', size) ?? 0) / 25.4).toBeCloseTo(inches, 9);
  });
  test('sizes no table has', () => {
    for (const size of ['#0', '#81', 'AA', '1/0', '']) expect(holeDiameter('drill', size)).toBeUndefined();
    for (const size of ['M7.3', '#30', '1/4-21']) expect(holeDiameter('tapped', size)).toBeUndefined();
    expect(holeDiameter('clearance', 'F')).toBeUndefined();
  });
});
