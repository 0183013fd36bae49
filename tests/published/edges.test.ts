/** Hems, wired edges, curls and joggles by the formulas alone. The same rows are laid out as whole panels in edges-folded.test.ts. */
import { describe, expect, it } from 'vitest';
import { bendAllowance } from '../../server/trade/bends.js';
import {
  curlTurn,
  dropReach,
  handbookEdges,
  hemFolds,
  hemRadius,
  joggleSlope,
  leastOffset,
  rollReach,
  sheetTaken,
  slopeAt,
} from '../../server/trade/edges.js';
import { degrees } from '../blank/build.js';
import * as rows from './rows.js';

describe('allowances of the sheet-metal worker’s handbook', () => {
  it('single hem W, double hem 2 W, wired edge 2 1/2 d: the text’s own examples', () => {
    rows.steelworker('single hem of 1/4', handbookEdges.singleHem(0.25), '0.250');
    rows.steelworker('double hem of 1/4', handbookEdges.doubleHem(0.25), '0.500');
    rows.steelworker('wired edge round 1/8', handbookEdges.wiredEdge(0.125), '0.3125');
  });
});

describe('hems by geometry', () => {
  it.each(rows.hemRows)('W %s T %s R %s K %s', (W, t, R, K, beyondTangent, beyondOutside) => {
    const [depth, T, k] = [Number(W), Number(t), Number(K)];
    const style = Number(R) === 0 ? ({ kind: 'closed' } as const) : ({ kind: 'open', gap: 2 * Number(R) } as const);
    const folds = hemFolds(style, depth, T) ?? [];
    expect(folds.map(({ turn }) => turn)).toEqual([Math.PI]);
    const taken = sheetTaken(
      folds.map(({ turn, radius, flat }) => ({ allowance: bendAllowance(turn, radius, T, k), flat })),
      hemRadius(style, T) + T,
    );
    rows.hems(`W ${W} T ${t} R ${R} K ${K}: beyond the tangent`, taken.beyondTangent, beyondTangent as string);
    rows.hems(`W ${W} T ${t} R ${R} K ${K}: beyond the outside`, taken.beyondOutside, beyondOutside as string);
  });
  it('no return, no hem', () => {
    expect(hemFolds({ kind: 'open', gap: 2 }, 1.9, 1)).toBeUndefined();
    expect(hemFolds({ kind: 'double' }, 2.5, 1)).toBeUndefined();
  });
  it('a double hem is two folds, the inner one about nothing, its cut edge back where the outer one begins', () => {
    // Outermost of the fold T/2 + T beyond its tangent, the inner fold T beyond its own: 10 − 1.5 − 1.
    expect(hemFolds({ kind: 'double' }, 10, 1)).toEqual([
      { radius: 0.5, turn: Math.PI, flat: 7.5 },
      { radius: 0, turn: Math.PI, flat: 7.5 },
    ]);
  });
});

// Source: plane geometry: the inner corner of the cut edge lies on the sheet, drawn out point by point.
describe('teardrop hems by geometry', () => {
  it.each([
    [10, 2, 1],
    [7, 3, 0.8],
    [24, 1.5, 1.2],
  ])('depth %d, drop %d, T %d: walked round, the return ends on the sheet and as deep as said', (depth, diameter, sheet) => {
    const [fold, none] = hemFolds({ kind: 'teardrop', diameter }, depth, sheet) ?? [];
    if (fold === undefined) throw new Error('no hem');
    expect(none).toBeUndefined();
    // From the tangent at (0, 0) along x, turning left about (0, r): the inside face of the arc's end, then the straight.
    const { radius: r, turn, flat } = fold;
    const corner = { x: r * Math.sin(turn) + flat * Math.cos(turn), y: r - r * Math.cos(turn) + flat * Math.sin(turn) };
    expect(corner.y).toBeCloseTo(0, 9);
    const outer = corner.x + sheet * Math.sin(turn);
    expect(r + sheet - Math.min(corner.x, outer)).toBeCloseTo(depth, 9);
    expect(dropReach(flat, r, sheet)).toBeCloseTo(depth - r - sheet, 9);
  });
});

describe('wired edges by geometry', () => {
  it.each(rows.wireRows)('wire %s T %s', (d, t, turn, wrap, allowance, bookRule, withT, fourT) => {
    const [wire, T] = [Number(d), Number(t)];
    const own = curlTurn(wire, T);
    const taken = sheetTaken([{ allowance: bendAllowance(own, wire / 2, T, 0.5), flat: 0 }], wire / 2 + T);
    rows.wires(`d ${d} T ${t}: φ, degrees`, (own * 180) / Math.PI, turn as string);
    rows.wires(`d ${d} T ${t}: wrap`, taken.beyondTangent, wrap as string);
    rows.wires(`d ${d} T ${t}: allowance`, taken.beyondOutside, allowance as string);
    rows.wires(`d ${d} T ${t}: 2 1/2 d`, handbookEdges.wiredEdge(wire), bookRule as string);
    // 2 1/2 d leaves a slight gap, 2 1/2 d + T (common practice) is slightly long, 2 d + 4 T longer.
    const rules = [bookRule, withT, fourT].map(Number);
    rules.slice(1).forEach((rule, i) => {
      expect(rule).toBeCloseTo(i === 0 ? 2.5 * wire + T : 2 * wire + 4 * T, 1);
    });
    expect(taken.beyondOutside).toBeGreaterThan(rules[0] as number);
    expect(taken.beyondOutside).toBeLessThan(rules[1] as number);
    expect(rules[1]).toBeLessThan(rules[2] as number);
  });
  it('the cut edge touches the sheet: its outer corner lies on the sheet’s inside face', () => {
    const [r, sheet] = [1.5, 0.7];
    expect(r - (r + sheet) * Math.cos(curlTurn(2 * r, sheet))).toBeCloseTo(0, 9);
  });
});

describe('curls and rolled edges by geometry', () => {
  it('three quarters round an outside diameter of 6 in 0.8 sheet: 4.7124 × 2.6', () => {
    rows.curls('270° outside diameter 6 T 0.8', bendAllowance(degrees(270), 2.2, 0.8, 0.5), '12.252');
  });
  it('beyond square the outermost is the outer tangent, short of it its own outer corner', () => {
    expect(rollReach(38, degrees(200), 1).outside).toBeCloseTo(39, 12);
    expect(rollReach(38, degrees(30), 1).outside).toBeCloseTo(39 / 2, 12);
    expect(rollReach(38, degrees(30), 1).inside).toBeCloseTo(19, 12);
  });
});

describe('joggles by geometry', () => {
  it.each(rows.joggleRows)('offset %s T %s R %s K %s at %s°', (h, t, R, K, A, straight, run, developed, extra) => {
    const [offset, T, radius, turn] = [Number(h), Number(t), Number(R), degrees(Number(A))];
    const slope = slopeAt(turn, offset, radius + T / 2);
    const allowance = bendAllowance(turn, radius, T, Number(K));
    const taken = sheetTaken(
      [
        { allowance, flat: slope.flat },
        { allowance, flat: 0 },
      ],
      slope.run,
    );
    const name = `h ${h} T ${t} R ${R} at ${A}°`;
    rows.joggles(`${name}: straight`, slope.flat, straight as string);
    rows.joggles(`${name}: run`, slope.run, run as string);
    rows.joggles(`${name}: developed`, taken.beyondTangent, developed as string);
    rows.joggles(`${name}: extra`, taken.beyondOutside, extra as string);
    // Asked by its run the slope comes out at the same angle.
    expect(joggleSlope(offset, slope.run, radius + T / 2)?.turn).toBeCloseTo(turn, 9);
  });
  it('the least offset at 45° in 1.2 sheet to a radius of 1.2, and no slope as steep below it', () => {
    rows.joggles('least offset T 1.2 R 1.2 at 45°', leastOffset(degrees(45), 1.8), '1.0544');
    expect(joggleSlope(1.05, undefined, 1.8)?.turn).toBeLessThan(degrees(45));
    expect(joggleSlope(1.05, 2, 1.8)).toBeUndefined();
  });
});
