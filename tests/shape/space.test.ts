import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Hinge, hang, pipeToSpace, spaceToPipe } from '../../server/shape/hinges.js';
import {
  boxAround,
  boxes3Meet,
  boxesJoined,
  composed,
  crossProduct,
  difference,
  dotProduct,
  type Frame,
  inverse,
  pointFrom,
  pointInto,
  unitVector,
  type Vector,
  vectorLength,
  WORLD,
} from '../../server/shape/space.js';

const number = fc.double({ min: -1000, max: 1000, noNaN: true });
const vectors = fc.record({ x: number, y: number, z: number });
/** Any frame, from two directions that are not one. */
const frames = fc
  .tuple(vectors, vectors, vectors)
  .filter(([, a, b]) => vectorLength(a) > 1 && vectorLength(b) > 1 && vectorLength(crossProduct(unitVector(a), unitVector(b))) > 0.01)
  .map(([origin, a, b]): Frame => {
    const x = unitVector(a);
    const z = unitVector(crossProduct(x, b));
    return { origin, x, y: crossProduct(z, x), z };
  });
const near = (a: Vector, b: Vector): number => vectorLength(difference(a, b));

describe('frames', () => {
  test('a point put into a frame and taken out again is where it was', () => {
    fc.assert(fc.property(frames, vectors, (frame, p) => near(outAndIn(frame, p), p) < 1e-9));
  });
  test('a frame and its inverse come to nothing', () => {
    fc.assert(
      fc.property(frames, vectors, (frame, p) => {
        const nothing = composed(inverse(frame), frame);
        expect(near(pointFrom(nothing, p.x, p.y, p.z), p)).toBeLessThan(1e-9);
      }),
    );
  });
  test('two frames composed carry a point as one after the other', () => {
    fc.assert(
      fc.property(frames, frames, vectors, (outer, inner, p) => {
        const q = pointFrom(inner, p.x, p.y, p.z);
        const both = composed(outer, inner);
        expect(near(pointFrom(both, p.x, p.y, p.z), pointFrom(outer, q.x, q.y, q.z))).toBeLessThan(1e-8);
      }),
    );
  });
});
const outAndIn = (frame: Frame, p: Vector): Vector => {
  const inside = pointInto(frame, p);
  return pointFrom(frame, inside.x, inside.y, inside.z);
};

describe('boxes', () => {
  const box = boxAround([
    { x: 0, y: 0, z: 0 },
    { x: 2, y: 1, z: 3 },
  ]);
  test('join to the box of both', () => {
    expect(boxesJoined(box, boxAround([{ x: 5, y: -1, z: 1 }]))).toEqual({ min: { x: 0, y: -1, z: 0 }, max: { x: 5, y: 1, z: 3 } });
    expect(boxesJoined(box, boxAround([]))).toEqual(box);
  });
  test('meet where they touch, and not where a gap is left', () => {
    const beside = boxAround([
      { x: 2, y: 0, z: 0 },
      { x: 3, y: 1, z: 1 },
    ]);
    expect(boxes3Meet(box, beside)).toBe(true);
    expect(boxes3Meet(box, beside, -0.1)).toBe(false);
  });
});

/** A strip along −y: the parent above the line y = 0, the child below −allowance. */
const hinge = (turn: number, allowance = 4, thickness = 1.5, inside = 2): Hinge => ({
  id: 'bend',
  parent: 'base',
  child: 'flange',
  tangentParent: [
    { x: 0, y: 0 },
    { x: 50, y: 0 },
  ],
  turn,
  allowance,
  thickness,
  k: (allowance / Math.abs(turn) - inside) / thickness,
});
const frameAfter = (of: Hinge, share = 1): Frame => hang('base', [of], () => share).frames.get('flange') as Frame;

describe('a hinge', () => {
  test('turned square up puts the flange upright, its mid plane an inside radius and half a sheet beyond the tangent line', () => {
    const frame = frameAfter(hinge(Math.PI / 2));
    // 10 mm beyond the child's tangent line, which lies 4 mm below the parent's.
    const p = pointFrom(frame, 25, -14, 0);
    expect(p.x).toBeCloseTo(25, 12);
    expect(p.y).toBeCloseTo(-2.75, 12);
    expect(p.z).toBeCloseTo(2.75 + 10, 12);
    // The face side looks back over the base.
    expect(frame.z.y).toBeCloseTo(1, 12);
  });

  test('turned down does the same on the other side', () => {
    const up = pointFrom(frameAfter(hinge(Math.PI / 2)), 10, -14, 0.75);
    const down = pointFrom(frameAfter(hinge(-Math.PI / 2)), 10, -14, -0.75);
    expect(near(up, { ...down, z: -down.z })).toBeLessThan(1e-12);
  });

  test('closed flat lays the leaf on the sheet', () => {
    const closed = frameAfter(hinge(Math.PI, 2.1, 1.5, 0));
    // Leaf's face side at 0.75: the base's own face side, touching.
    expect(pointFrom(closed, 10, -12.1, 0.75).z).toBeCloseTo(0.75, 12);
    expect(pointFrom(closed, 10, -12.1, 0.75).y).toBeCloseTo(10, 12);
  });

  test('keeps the length of the neutral line at any share of its turn', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 1, noNaN: true }), fc.double({ min: 0.2, max: 5.4, noNaN: true }), (share, turn) => {
        const of = hinge(turn, turn * (2 + 0.42 * 1.5));
        const pipe = hang('base', [of], () => share).pipes.get('bend');
        if (pipe === undefined) throw new Error('no pipe');
        // A hundred short steps along the line 0.42 T from the inside, against the allowance.
        const height = 1.5 / 2 - 0.42 * 1.5;
        let length = 0;
        for (let i = 0; i < 400; i++)
          length += near(
            pipeToSpace(pipe, (of.allowance * i) / 400, 0, height),
            pipeToSpace(pipe, (of.allowance * (i + 1)) / 400, 0, height),
          );
        expect(length / of.allowance).toBeCloseTo(1, 4);
      }),
    );
  });

  test('comes to the flat without a jump', () => {
    const flat = pointFrom(frameAfter(hinge(Math.PI / 2), 0), 5, -20, 0.3);
    for (const share of [1e-3, 1e-6, 1e-8]) {
      expect(near(pointFrom(frameAfter(hinge(Math.PI / 2), share), 5, -20, 0.3), flat)).toBeLessThan(60 * share);
    }
  });

  test('its zone maps to space and back, also past a half circle', () => {
    const shares = fc.double({ min: 0.01, max: 1, noNaN: true });
    const turns = fc.double({ min: 0.1, max: 5.5, noNaN: true });
    const places = fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), number, fc.double({ min: -0.75, max: 0.75, noNaN: true }));
    fc.assert(
      fc.property(shares, turns, fc.boolean(), places, (share, turn, up, [across, along, height]) => {
        const of = hinge(up ? turn : -turn, turn * 3);
        const pipe = hang('base', [of], () => share).pipes.get('bend');
        if (pipe === undefined) throw new Error('no pipe');
        const back = spaceToPipe(pipe, pipeToSpace(pipe, across * of.allowance, along, height));
        expect(near(back, { x: across * of.allowance, y: along, z: height })).toBeLessThan(1e-9);
      }),
    );
  });

  test('hangs on what comes later in the list too, and is left out where nothing holds it', () => {
    const second: Hinge = { ...hinge(1), id: 'second', parent: 'flange', child: 'return' };
    const { frames: found, pipes } = hang('base', [second, hinge(1), { ...hinge(1), id: 'loose', parent: 'nowhere' }], () => 1);
    expect([...found.keys()].sort()).toEqual(['base', 'flange', 'return']);
    expect([...pipes.keys()].sort()).toEqual(['bend', 'second']);
  });

  test('the world is where it is', () => {
    expect(dotProduct(WORLD.x, WORLD.y)).toBe(0);
    expect(crossProduct(WORLD.x, WORLD.y)).toEqual(WORLD.z);
  });
});
