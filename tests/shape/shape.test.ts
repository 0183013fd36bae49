import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { differenceArea, overlapArea, unionArea } from '../../server/shape/booleans.js';
import {
  boundingBox,
  circleLoop,
  circlesMeet,
  fromLowerLeft,
  lineMeetsCircle,
  lineOf,
  linesMeet,
  loopLength,
  loopToLoop,
  movesMeet,
  movesShifted,
  moveToMove,
  placeLoop,
  pointInLoop,
  pointToLoop,
  polygon,
  reversed,
  selfMeeting,
  signedArea,
  startOf,
  tessellate,
} from '../../server/shape/index.js';
import type { Loop, Move, Point } from '../../server/shape/path.js';
import { runs } from '../runs.js';

const square = polygon([
  { x: 0, y: 0 },
  { x: 10, y: 0 },
  { x: 10, y: 10 },
  { x: 0, y: 10 },
]);
/** A slot 30 by 10 about (0, 0). */
const slot: Loop = [
  { kind: 'line', to: { x: 10, y: -5 } },
  { kind: 'arc', to: { x: 10, y: 5 }, centre: { x: 10, y: 0 }, turn: 'left' },
  { kind: 'line', to: { x: -10, y: 5 } },
  { kind: 'arc', to: { x: -10, y: -5 }, centre: { x: -10, y: 0 }, turn: 'left' },
];
/** A square of 20 with a half circle of radius 5 bitten out of its bottom edge. */
const bitten: Loop = [
  { kind: 'line', to: { x: 5, y: 0 } },
  { kind: 'arc', to: { x: 15, y: 0 }, centre: { x: 10, y: 0 }, turn: 'right' },
  { kind: 'line', to: { x: 20, y: 0 } },
  { kind: 'line', to: { x: 20, y: 20 } },
  { kind: 'line', to: { x: 0, y: 20 } },
  { kind: 'line', to: { x: 0, y: 0 } },
];
const coordinate = fc.double({ min: -40, max: 40, noNaN: true });
const point = fc.record({ x: coordinate, y: coordinate });

describe('measuring', () => {
  test('areas with arcs are exact', () => {
    expect(signedArea(square)).toBe(100);
    expect(signedArea(slot)).toBeCloseTo(200 + 25 * Math.PI, 9);
    expect(signedArea(bitten)).toBeCloseTo(400 - 12.5 * Math.PI, 9);
    expect(signedArea(circleLoop({ centre: { x: 3, y: -7 }, radius: 4 }))).toBeCloseTo(16 * Math.PI, 9);
    expect(signedArea(reversed(bitten))).toBeCloseTo(-signedArea(bitten), 9);
  });
  test('one arc that ends where it starts is a whole circle', () => {
    const ring: Loop = [{ kind: 'arc', to: { x: 5, y: 0 }, centre: { x: 0, y: 0 }, turn: 'left' }];
    expect(signedArea(ring)).toBeCloseTo(25 * Math.PI, 9);
    expect(loopLength(ring)).toBeCloseTo(10 * Math.PI, 9);
    expect(boundingBox(ring).min.x).toBeCloseTo(-5, 9);
    expect(pointInLoop({ x: 1, y: 1 }, ring)).toBe(true);
  });
  test('lengths and boxes', () => {
    expect(loopLength(slot)).toBeCloseTo(40 + 10 * Math.PI, 9);
    expect(boundingBox(slot)).toEqual({ min: { x: -15, y: -5 }, max: { x: 15, y: 5 } });
    expect(boundingBox(bitten)).toEqual({ min: { x: 0, y: 0 }, max: { x: 20, y: 20 } });
  });
  test('chords stay within the tolerance, inside an outer arc', () => {
    const points = tessellate(circleLoop({ centre: { x: 0, y: 0 }, radius: 50 }), 0.01);
    for (let i = 0; i < points.length; i++) {
      const [a, b] = [points[i] as Point, points[(i + 1) % points.length] as Point];
      const middle = Math.hypot((a.x + b.x) / 2, (a.y + b.y) / 2);
      expect(50 - middle).toBeLessThanOrEqual(0.01 + 1e-9);
    }
    expect(points.length).toBeLessThan(200);
  });
});

describe('moving', () => {
  test('turned, moved and mirrored loops keep area, length and form', () => {
    fc.assert(
      fc.property(fc.double({ min: -7, max: 7, noNaN: true }), point, fc.boolean(), (angle, by, mirrored) => {
        const placed = placeLoop({ cos: Math.cos(angle), sin: Math.sin(angle), tx: by.x, ty: by.y, mirrored }, bitten);
        expect(signedArea(placed)).toBeCloseTo(mirrored ? -signedArea(bitten) : signedArea(bitten), 8);
        expect(loopLength(placed)).toBeCloseTo(loopLength(bitten), 8);
      }),
    );
  });
  test('a loop begun elsewhere is the same loop', () => {
    expect(startOf(fromLowerLeft(reversed(square)), 0)).toEqual({ x: 0, y: 0 });
    expect(signedArea(fromLowerLeft(slot))).toBeCloseTo(signedArea(slot), 9);
  });
  test('shifted to the left, an anticlockwise loop closes in', () => {
    const shifted = movesShifted(slot, 2).map(({ move }) => move);
    expect(shifted[0]?.to).toEqual({ x: 10, y: -3 });
    expect(signedArea(shifted)).toBeCloseTo(20 * 6 + 9 * Math.PI, 9);
    expect(movesShifted(slot, 6)).toHaveLength(2);
  });
});

describe('meeting', () => {
  const line = (a: Point, b: Point) => lineOf(a, b) ?? { at: a, along: { x: 1, y: 0 } };
  test('lines and circles', () => {
    expect(linesMeet(line({ x: 0, y: 0 }, { x: 1, y: 1 }), line({ x: 0, y: 4 }, { x: 1, y: 3 }))?.x).toBeCloseTo(2, 12);
    expect(linesMeet(line({ x: 0, y: 0 }, { x: 1, y: 1 }), line({ x: 0, y: 4 }, { x: 1, y: 5 }))).toBeUndefined();
    const circle = { centre: { x: 0, y: 0 }, radius: 5 };
    expect(lineMeetsCircle(line({ x: -9, y: 3 }, { x: 9, y: 3 }), circle).map((p) => Math.round(p.x * 1e9) / 1e9)).toEqual([-4, 4]);
    expect(lineMeetsCircle(line({ x: -9, y: 5 }, { x: 9, y: 5 }), circle)).toHaveLength(1);
    expect(lineMeetsCircle(line({ x: -9, y: 6 }, { x: 9, y: 6 }), circle)).toHaveLength(0);
    expect(circlesMeet(circle, { centre: { x: 8, y: 0 }, radius: 5 }).map((p) => [p.x, Math.abs(p.y)])).toEqual([
      [4, 3],
      [4, 3],
    ]);
    expect(circlesMeet(circle, { centre: { x: 10, y: 0 }, radius: 5 })).toHaveLength(1);
    expect(circlesMeet(circle, circle)).toHaveLength(0);
  });
  test('moves that touch, cross, run along one another, or miss', () => {
    const to = (x: number, y: number): Move => ({ kind: 'line', to: { x, y } });
    expect(movesMeet({ x: 0, y: 0 }, to(10, 0), { x: 5, y: -5 }, to(5, 5))).toHaveLength(1);
    expect(movesMeet({ x: 0, y: 0 }, to(10, 0), { x: 5, y: 0 }, to(5, 5))).toHaveLength(1);
    expect(movesMeet({ x: 0, y: 0 }, to(10, 0), { x: 5, y: 0 }, to(15, 0))).toHaveLength(2);
    expect(movesMeet({ x: 0, y: 0 }, to(10, 0), { x: 5, y: 1 }, to(15, 1))).toHaveLength(0);
    const arc = slot[1] as Move;
    expect(movesMeet({ x: 10, y: -5 }, arc, { x: 0, y: 0 }, to(20, 0))).toHaveLength(1);
    expect(movesMeet({ x: 10, y: -5 }, arc, { x: 0, y: 0 }, to(9, 0))).toHaveLength(0);
  });
  test('a loop that crosses itself is found with and without the index', () => {
    expect(selfMeeting(square)).toBeUndefined();
    expect(selfMeeting(bitten)).toBeUndefined();
    const bow = polygon([
      { x: 0, y: 0 },
      { x: 10, y: 10 },
      { x: 10, y: 0 },
      { x: 0, y: 10 },
    ]);
    expect(selfMeeting(bow)?.at).toEqual({ x: 5, y: 5 });
    const spike = polygon([
      { x: 0, y: 0 },
      { x: 10, y: 0 },
      { x: 20, y: 0 },
      { x: 10, y: 0 },
      { x: 10, y: 10 },
    ]);
    expect(selfMeeting(spike)).toBeDefined();
    const many = Array.from({ length: 90 }, (_, i) => ({ x: 50 * Math.cos((i * Math.PI) / 45), y: 50 * Math.sin((i * Math.PI) / 45) }));
    expect(selfMeeting(polygon(many))).toBeUndefined();
    expect(selfMeeting(polygon(many.map((p, i) => (i === 40 ? { x: 60, y: 1 } : p))))).toBeDefined();
  });
});

describe('distances and containment, judged by many points on the lines themselves', () => {
  /** Points along a loop no more than a hundredth apart in chord error. */
  const dense = (loop: Loop): readonly Point[] => {
    const points: Point[] = [];
    const corners = tessellate(loop, 1e-4);
    corners.forEach((a, i) => {
      const b = corners[(i + 1) % corners.length] as Point;
      for (let t = 0; t < 20; t++) points.push({ x: a.x + ((b.x - a.x) * t) / 20, y: a.y + ((b.y - a.y) * t) / 20 });
    });
    return points;
  };
  test('from a point to a loop', () => {
    const points = dense(bitten);
    fc.assert(
      fc.property(point, (p) => {
        const judged = Math.min(...points.map((q) => Math.hypot(p.x - q.x, p.y - q.y)));
        expect(Math.abs(pointToLoop(p, bitten) - judged)).toBeLessThan(0.6);
        expect(pointToLoop(p, bitten)).toBeLessThanOrEqual(judged + 1e-3);
      }),
    );
  });
  test('from loop to loop', () => {
    const moved = (by: Point) => placeLoop({ cos: 0.6, sin: 0.8, tx: by.x, ty: by.y }, slot);
    const points = dense(bitten);
    fc.assert(
      fc.property(point, (by) => {
        const other = moved(by);
        const judged = Math.min(...points.map((p) => pointToLoop(p, other)));
        const found = loopToLoop(bitten, other);
        expect(found).toBeLessThanOrEqual(judged + 1e-3);
        expect(judged - found).toBeLessThan(0.6);
      }),
      { numRuns: runs(60) },
    );
  });
  test('exact cases: two round holes, a round hole and an edge, one hole within another', () => {
    const round = (x: number, y: number, radius: number) => circleLoop({ centre: { x, y }, radius });
    expect(loopToLoop(round(0, 0, 3), round(10, 0, 4))).toBeCloseTo(3, 12);
    expect(loopToLoop(round(5, 5, 2), square)).toBeCloseTo(3, 12);
    expect(loopToLoop(round(0, 0, 10), round(2, 0, 3))).toBeCloseTo(5, 12);
    expect(loopToLoop(round(0, 0, 3), round(5, 0, 3))).toBe(0);
    expect(
      moveToMove({ x: 0, y: 0 }, { kind: 'line', to: { x: 10, y: 0 } }, { x: 4, y: 3 }, { kind: 'line', to: { x: 20, y: 9 } }),
    ).toBeCloseTo(3, 12);
  });
  test('a point within a loop, against the chords alone', () => {
    const within = (p: Point, corners: readonly Point[]): boolean => {
      let inside = false;
      corners.forEach((a, i) => {
        const b = corners[(i + 1) % corners.length] as Point;
        if (a.y > p.y !== b.y > p.y && p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
      });
      return inside;
    };
    for (const loop of [square, slot, bitten, reversed(bitten), circleLoop({ centre: { x: 1, y: 2 }, radius: 9 })]) {
      const corners = tessellate(loop, 1e-5);
      fc.assert(
        fc.property(point, (p) => {
          if (pointToLoop(p, loop) < 1e-3) return;
          expect(pointInLoop(p, loop)).toBe(within(p, corners));
        }),
      );
    }
  });
  test('points level with corners and on chords', () => {
    expect(pointInLoop({ x: 5, y: 0 }, slot)).toBe(true);
    expect(pointInLoop({ x: 10, y: 0 }, slot)).toBe(true);
    expect(pointInLoop({ x: 12, y: 0 }, slot)).toBe(true);
    expect(pointInLoop({ x: 12, y: -5 }, slot)).toBe(false);
    expect(pointInLoop({ x: 20, y: 0 }, slot)).toBe(false);
    expect(pointInLoop({ x: 10, y: 2 }, bitten)).toBe(false);
    expect(pointInLoop({ x: 10, y: 6 }, bitten)).toBe(true);
  });
});

describe('polygon areas for checks', () => {
  test('union and overlap add up', () => {
    fc.assert(
      fc.property(point, (by) => {
        const other = placeLoop({ cos: 0.8, sin: 0.6, tx: by.x, ty: by.y }, bitten);
        const [union, overlap] = [unionArea([bitten, other]), overlapArea([bitten], [other])];
        const each = 2 * signedArea(bitten);
        expect(Math.abs(union + overlap - each) / each).toBeLessThan(1e-4);
        expect(Math.abs(differenceArea([bitten], [other]) + overlap - each / 2) / each).toBeLessThan(1e-4);
      }),
      { numRuns: runs(50) },
    );
  });
});
