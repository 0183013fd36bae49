import { describe, expect, it } from 'vitest';
import { handbookEdges, hemSheet, joggleSheet, leastOffset, rolledSheet, teardropHem, wiredEdge } from '../../server/trade/edges.js';

const inch = 25.4;
const degrees = (n: number): number => (n * Math.PI) / 180;
/** Rows give four decimals (wired edges three, angles two): half the last figure is allowed. */
const near = (value: number | undefined, row: number, digits = 4): void => {
  expect(Math.abs((value ?? Number.NaN) - row)).toBeLessThanOrEqual(0.5 * 10 ** -digits + 1e-12);
};

// Source: US Navy, Steelworker Volume 2, NAVEDTRA 14251 (1996), ch. 2.
describe('allowances of the sheet-metal worker’s handbook', () => {
  it('single hem W, double hem 2 W, with the text’s 1/4 in', () => {
    expect(handbookEdges.singleHem(0.25 * inch)).toBeCloseTo(0.25 * inch, 9);
    expect(handbookEdges.doubleHem(0.25 * inch)).toBeCloseTo(0.5 * inch, 9);
  });
  it('wired edge 2 1/2 d: 1/8 in wire takes 5/16 in, the text’s own example', () => {
    expect(handbookEdges.wiredEdge(inch / 8)).toBeCloseTo((5 / 16) * inch, 9);
  });
  it('grooved seam 3 W in all: 1/4 in takes 3/4 in', () => {
    expect(handbookEdges.groovedSeam(0.25 * inch)).toBeCloseTo(0.75 * inch, 9);
  });
});

// Source: plane geometry, worked by hand: (W − (R + T)) + π (R + K T), less R + T for what stands beyond the outside size.
describe('hems by geometry', () => {
  it.each([
    [10, 1.0, 0, 0.5, 10.5708, 9.5708],
    [10, 1.0, 0.5, 0.42, 11.3903, 9.8903],
    [12, 1.2, 0.6, 0.42, 13.6683, 11.8683],
  ])('W %d T %d R %d K %d', (depth, sheet, inside, k, beyondTangent, beyondOutside) => {
    const hem = hemSheet(depth, inside, sheet, k);
    near(hem?.beyondTangent, beyondTangent);
    near(hem?.beyondOutside, beyondOutside);
  });
  it('the handbook’s W is right to half a thickness for a closed hem', () => {
    const hem = hemSheet(10, 0, 1, 0.5);
    expect(Math.abs((hem?.beyondOutside ?? 0) - handbookEdges.singleHem(10))).toBeLessThan(0.5);
  });
  it('no return, no hem', () => {
    expect(hemSheet(1.9, 1, 1, 0.42)).toBeUndefined();
  });
});

// Source: plane geometry: the inner corner of the cut edge lies on the sheet, drawn out point by point.
describe('teardrop hems by geometry', () => {
  it.each([
    [6, 2, 1],
    [3, 3, 0.8],
    [20, 1.5, 1.2],
  ])('straight %d, drop %d, T %d: walked round, the return ends on the sheet and as deep as said', (straight, diameter, sheet) => {
    const { turn, depth, beyondTangent } = teardropHem(straight, diameter, sheet, 0.5);
    // From the tangent at (0, 0) along x, turning left about (0, r): the inside face of the arc's end, then the straight.
    const r = diameter / 2;
    const corner = {
      x: r * Math.sin(turn) + straight * Math.cos(turn),
      y: r - r * Math.cos(turn) + straight * Math.sin(turn),
    };
    expect(corner.y).toBeCloseTo(0, 9);
    const outer = corner.x + sheet * Math.sin(turn);
    expect(r + sheet - Math.min(corner.x, outer)).toBeCloseTo(depth, 9);
    // With the neutral axis in the middle, the middle line is as long as it was flat.
    expect(beyondTangent).toBeCloseTo(straight + turn * (r + sheet / 2), 9);
  });
});

// Source: plane geometry: wrap 2π − arccos(r / (r + T)), worked by hand to three decimals.
describe('wired edges by geometry', () => {
  it.each([
    [3.0, 0.7, 312.99, 10.106, 7.906, 7.5],
    [3.175, 0.75, 312.78, 10.713, 8.376, 7.94],
    [4.0, 0.8, 315.58, 13.219, 10.419, 10.0],
  ])('wire %d T %d', (wire, sheet, turn, wrap, allowance, handbook) => {
    const edge = wiredEdge(wire, sheet, 0.5);
    near((edge.turn * 180) / Math.PI, turn, 2);
    near(edge.beyondTangent, wrap, 3);
    near(edge.beyondOutside, allowance, 3);
    near(handbookEdges.wiredEdge(wire), handbook, 2);
  });
  it('the cut edge touches the sheet: its inner corner lies on the sheet’s inside face', () => {
    const [r, sheet] = [1.5, 0.7];
    const { turn } = wiredEdge(2 * r, sheet, 0.5);
    // The outer corner of the cut edge is the one that comes to the sheet.
    expect(r - (r + sheet) * Math.cos(turn)).toBeCloseTo(0, 9);
  });
});

// Source: plane geometry, worked by hand: 270° round an outside diameter of 6 in 0.8 sheet, 4.7124 · 2.6.
describe('curls and rolled edges by geometry', () => {
  it('a curl of three quarters', () => {
    near(rolledSheet(2.2, degrees(270), 0.8, 0.5).beyondTangent, 12.252, 3);
  });
  it('an edge rolled to a square turn gains what one bend does', () => {
    const { beyondTangent, beyondOutside } = rolledSheet(38, degrees(90), 1, 0.5);
    expect(beyondTangent).toBeCloseTo((Math.PI / 2) * 38.5, 9);
    expect(beyondOutside).toBeCloseTo((Math.PI / 2) * 38.5 - 39, 9);
  });
  it('short of square it stands out to its own outer corner', () => {
    expect(rolledSheet(38, degrees(30), 1, 0.5).beyondOutside).toBeCloseTo((Math.PI / 6) * 38.5 - 39 / 2, 9);
  });
});

// Source: plane geometry, worked by hand to four decimals.
describe('joggles by geometry', () => {
  it.each([
    [1.2, 1.2, 1.2, 30, 1.4354, 3.0431, 3.2198, 0.1767],
    [1.2, 1.2, 1.2, 45, 0.2059, 2.6912, 2.8825, 0.1914],
    [10, 1.5, 2.0, 90, 4.5, 5.5, 12.7624, 7.2624],
  ])('offset %d T %d R %d at %d°', (offset, sheet, inside, turn, straight, run, developed, extra) => {
    const joggle = joggleSheet(offset, degrees(turn), inside, sheet, 0.42);
    near(joggle?.straight, straight);
    near(joggle?.run, run);
    near(joggle?.developed, developed);
    near(joggle?.extra, extra);
  });
  it('the least offset at 45° in 1.2 sheet to a radius of 1.2, and none below it', () => {
    near(leastOffset(degrees(45), 1.2, 1.2), 1.0544);
    expect(joggleSheet(1.05, degrees(45), 1.2, 1.2, 0.42)).toBeUndefined();
  });
});
