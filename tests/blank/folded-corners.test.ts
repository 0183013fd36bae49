/** Corners judged on the folded part: the ends of two chains keep to their own side of the plane that halves the corner, and what is mitred meets there. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { BendLine, Blank } from '../../server/blank/types.js';
import { foldAt, foldPart } from '../../server/fold/index.js';
import type { CornerTreatment, Direction } from '../../server/model/part.js';
import { lineOf, linesMeet } from '../../server/shape/index.js';
import type { Line } from '../../server/shape/meetings.js';
import type { Point } from '../../server/shape/path.js';
import { difference, dotProduct, type Frame, pointFrom, times, type Vector, vectorLength } from '../../server/shape/space.js';
import { runs } from '../runs.js';
import { byK, corner, drawn, polygonPanel, rectangle, type StepSketch, sheet } from './build.js';
import { foldedRims } from './fold-up.js';
import { expectAreaAgrees, expectWellFormed, laidOut } from './judge.js';

const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const direction = fc.constantFrom<Direction>('up', 'down');

interface Wedge {
  /** Interior angle at the corner, rad. */
  readonly angle: number;
  readonly steps: readonly [readonly StepSketch[], readonly StepSketch[]];
  readonly treatment: CornerTreatment | undefined;
  readonly thickness: number;
  readonly radius: number;
}
/** Edge a runs 400 along x to the corner at the origin, edge b 400 away from it; edge c closes the triangle and is not bent. */
const wedge = ({ angle, steps, treatment, thickness, radius }: Wedge) =>
  polygonPanel([{ x: -400, y: 0 }, { x: 0, y: 0 }, awayFrom(angle)], {
    sheet: sheet(thickness, radius, byK(0.42)),
    edges: [
      { edge: 'a', steps: steps[0] },
      { edge: 'b', steps: steps[1] },
    ],
    corners: treatment === undefined ? [] : [corner(treatment, 'a', 'b')],
  });
const awayFrom = (angle: number) => ({ x: -400 * Math.cos(angle), y: 400 * Math.sin(angle) });

/** Signed distance to the plane that halves the corner where the two tangent lines cross, positive on edge a's side. */
const besidePlane = (blank: Blank, angle: number): ((p: Vector) => number) => {
  const line = (edge: string): Line => {
    const [from, to] = (blank.bends.find(({ id, parent }) => parent === 'base' && id.startsWith(edge)) as BendLine).tangentParent;
    return lineOf(to, from) as Line;
  };
  const at = linesMeet(line('a'), line('b')) as Point;
  const middle = { x: -Math.cos(angle / 2), y: Math.sin(angle / 2) };
  return (p) => middle.x * (p.y - at.y) - middle.y * (p.x - at.x);
};

const ids = (blank: Blank, edge: string): ReadonlySet<string> =>
  new Set([
    ...blank.faces.filter(({ id }) => id.startsWith(`${edge}.`)).map(({ id }) => id),
    ...blank.bends.filter(({ id }) => id.startsWith(`${edge}.`)).map(({ id }) => `bend:${id}`),
  ]);

const nearest = (blank: Blank, angle: number, edge: 'a' | 'b', only?: string): number => {
  const of = ids(blank, edge);
  const distance = besidePlane(blank, angle);
  const sign = edge === 'a' ? 1 : -1;
  return foldedRims(blank, 24)
    .filter(({ feature }) => (only === undefined ? of.has(feature) : feature === only))
    .reduce((least, { at }) => Math.min(least, sign * distance(at)), Number.POSITIVE_INFINITY);
};

describe('a mitre', () => {
  test('flanges of any turn at a corner of any angle meet with exactly the gap, and no part of either passes the middle', () => {
    fc.assert(
      fc.property(
        fc.record({
          angle: number(0.7, 2.6),
          turn: number(20, 150),
          gap: number(0, 2),
          thickness: number(0.6, 2),
          radius: number(0.5, 3),
          way: direction,
        }),
        ({ angle, turn, gap, thickness, radius, way }) => {
          const steps: readonly StepSketch[] = [{ length: 25, turn, direction: way }];
          const part = wedge({ angle, steps: [steps, steps], treatment: { kind: 'mitred', gap, relief: undefined }, thickness, radius });
          const { blank, findings } = layOut(part);
          if (blank === undefined || findings.some(({ severity }) => severity === 'error')) return fc.pre(false);
          expectWellFormed(blank);
          for (const edge of ['a', 'b'] as const) {
            expect(nearest(blank, angle, edge)).toBeGreaterThan(gap / 2 - 1e-6);
            expect(nearest(blank, angle, edge, `${edge}.1`)).toBeCloseTo(gap / 2, 5);
          }
          return undefined;
        },
      ),
      { numRuns: runs(60) },
    );
  });

  test('between flanges of unlike turns and radii lies in the plane that halves the angle of their flats', () => {
    fc.assert(
      fc.property(
        fc.record({
          angle: number(0.7, 2.6),
          turns: fc.tuple(number(25, 150), number(25, 150)),
          radii: fc.tuple(number(0.5, 3), number(0.5, 3)),
          gap: number(0, 2),
          thickness: number(0.6, 2),
          way: direction,
        }),
        ({ angle, turns, radii, gap, thickness, way }) => {
          const steps = ([0, 1] as const).map((i): readonly StepSketch[] => [
            { length: 25, turn: turns[i], radius: radii[i], direction: way },
          ]) as [readonly StepSketch[], readonly StepSketch[]];
          const part = wedge({ angle, steps, treatment: { kind: 'mitred', gap, relief: undefined }, thickness, radius: 1 });
          const { blank, findings } = layOut(part);
          if (blank === undefined || findings.some(({ severity }) => severity === 'error')) return fc.pre(false);
          expectWellFormed(blank);
          expectAreaAgrees(blank);
          // As far outside the one flange's middle plane as outside the other's, told by how the flanges stand and nothing else.
          const outside = (['a', 'b'] as const).map((edge) => {
            const frame = foldAt(blank).frames.get(`${edge}.1`) as Frame;
            const on = (blank.bends.find(({ child }) => child === `${edge}.1`) as BendLine).tangentChild[0];
            const at = pointFrom(frame, on.x, on.y, 0);
            // Away from the side that the bend turns to.
            const normal = times(frame.z, way === 'up' ? -1 : 1);
            return { normal, distance: (p: Vector) => dotProduct(normal, difference(p, at)) };
          });
          const [a, b] = outside as [(typeof outside)[number], (typeof outside)[number]];
          const length = vectorLength(difference(a.normal, b.normal));
          if (length < 1e-3) return fc.pre(false);
          const rims = foldedRims(blank, 24);
          for (const [edge, own, other] of [
            ['a', a, b],
            ['b', b, a],
          ] as const) {
            const inner = (p: Vector): number => (own.distance(p) - other.distance(p)) / length;
            const least = (features: ReadonlySet<string>): number =>
              Math.min(...rims.filter(({ feature }) => features.has(feature)).map(({ at }) => inner(at)));
            expect(least(ids(blank, edge))).toBeGreaterThan(gap / 2 - 1e-6);
            expect(least(new Set([`${edge}.1`]))).toBeCloseTo(gap / 2, 5);
          }
          return undefined;
        },
      ),
      { numRuns: runs(60) },
    );
  });

  test.each([
    [90, 60, 1, 1, 0.5],
    [90, 120, 1, 1, 0.5],
    [60, 75, 1, 3, 1],
    [90, 90, 1, 3, 0.25],
  ])(
    'walls turned %d° and %d° to radii of %d and %d stand the gap of %d apart once folded, and run into nothing',
    (one, other, r, s, gap) => {
      const part = rectangle(200, 100, {
        sheet: sheet(1.2, 1, byK(0.42)),
        edges: [
          { edge: 'top', steps: [{ length: 30, turn: one, radius: r }] },
          { edge: 'left', steps: [{ length: 30, turn: other, radius: s }] },
        ],
        corners: [corner({ kind: 'mitred', gap, relief: undefined }, 'top', 'left')],
      });
      const blank = laidOut(part);
      const { collisions, gaps } = foldPart(part, blank);
      expect(collisions).toEqual([]);
      expect(gaps).toHaveLength(1);
      expect(gaps[0]?.gap).toBeCloseTo(gap, 6);
    },
  );

  test('returns and Z flanges behind it meet too', () => {
    fc.assert(
      fc.property(
        fc.record({ angle: number(0.9, 2.4), second: number(30, 120), way: direction, gap: number(0, 1) }),
        ({ angle, second, way, gap }) => {
          const steps: readonly StepSketch[] = [
            { length: 30, direction: 'up' },
            { length: 14, turn: second, direction: way },
          ];
          const treatment: CornerTreatment = { kind: 'mitred', gap, relief: undefined };
          const { blank, findings } = layOut(wedge({ angle, steps: [steps, steps], treatment, thickness: 1.2, radius: 1.5 }));
          if (blank === undefined || findings.some(({ severity }) => severity === 'error')) return fc.pre(false);
          expectWellFormed(blank);
          for (const edge of ['a', 'b'] as const) {
            expect(nearest(blank, angle, edge)).toBeGreaterThan(gap / 2 - 1e-6);
            expect(nearest(blank, angle, edge, `${edge}.2`)).toBeCloseTo(gap / 2, 5);
          }
          return undefined;
        },
      ),
      { numRuns: runs(60) },
    );
  });
});

describe('an open corner', () => {
  test('hems, returns and steep flanges of both edges never pass the middle', () => {
    const chain = fc.oneof(
      number(8, 14).map((hem): readonly StepSketch[] => [{ hem }]),
      number(8, 14).map((hem): readonly StepSketch[] => [{ hem, style: { kind: 'open', gap: 2 } }]),
      number(9, 14).map((hem): readonly StepSketch[] => [{ hem, style: { kind: 'teardrop', diameter: 3 } }]),
      number(95, 160).map((turn): readonly StepSketch[] => [{ length: 18, turn }]),
      number(30, 120).map((turn): readonly StepSketch[] => [{ length: 20 }, { length: 12, turn }]),
      fc.constant<readonly StepSketch[]>([{ length: 20 }, { hem: 8 }]),
    );
    fc.assert(
      fc.property(number(0.8, 2.5), chain, chain, (angle, a, b) => {
        const { blank, findings } = layOut(wedge({ angle, steps: [a, b], treatment: undefined, thickness: 1.2, radius: 1.5 }));
        if (blank === undefined || findings.some(({ severity }) => severity === 'error')) return fc.pre(false);
        expectWellFormed(blank);
        // A chain that goes on where the other has ended has nothing beside it to keep clear of.
        for (const edge of ['a', 'b'] as const) {
          for (let depth = 1; depth <= Math.min(a.length, b.length); depth++) {
            expect(nearest(blank, angle, edge, `${edge}.${depth}`)).toBeGreaterThan(-1e-6);
            expect(nearest(blank, angle, edge, `bend:${edge}.${depth}`)).toBeGreaterThan(-1e-6);
          }
        }
        return undefined;
      }),
      { numRuns: runs(60) },
    );
  });
});

describe('a butt and a lap, square', () => {
  const crs = sheet(1.5, 2, byK(0.42));
  const box = (treatment: CornerTreatment) =>
    laidOut(
      rectangle(200, 100, {
        sheet: crs,
        edges: [
          { edge: 'top', steps: [{ length: 20 }] },
          { edge: 'left', steps: [{ length: 20 }] },
        ],
        corners: [corner(treatment, 'top', 'left')],
      }),
    );
  const extent = (blank: Blank, feature: string): { low: number; high: number } => {
    const all = foldedRims(blank).filter((p) => p.feature === feature);
    return { low: Math.min(...all.map(({ at }) => at.x + blank.datum.x)), high: Math.max(...all.map(({ at }) => at.y + blank.datum.y)) };
  };

  test('the flange over ends flush with the other’s outside, which is the finished edge; the one under ends at its inside', () => {
    const blank = box({ kind: 'butt', over: 'top', under: 'left', relief: undefined });
    expect(extent(blank, 'top.1').low).toBeCloseTo(0, 6);
    // The sheet of top stands from y = 98.5 to 100.
    expect(extent(blank, 'left.1').high).toBeCloseTo(98.5, 6);
    expectWellFormed(blank);
  });
  test('a lap goes on by so much more', () => {
    const blank = box({ kind: 'lap', over: 'left', under: 'top', by: 6, relief: undefined });
    expect(extent(blank, 'left.1').high).toBeCloseTo(106, 6);
    expect(extent(blank, 'top.1').low).toBeCloseTo(1.5, 6);
    expectWellFormed(blank);
  });
});

describe('a flange beside a cut edge at a slant', () => {
  test('folded square, nothing of it stands past the drawn outline', () => {
    fc.assert(
      fc.property(number(0.6, 2.6), number(0.8, 3), number(0.6, 2), direction, (angle, radius, thickness, way) => {
        const steps: readonly StepSketch[] = [{ length: 25, direction: way }];
        const part = wedge({ angle, steps: [steps, []], treatment: undefined, thickness, radius });
        const { blank, findings } = layOut(part);
        if (blank === undefined || findings.length > 0) return fc.pre(false);
        expectWellFormed(blank);
        const at = { x: -blank.datum.x, y: -blank.datum.y };
        const along = { x: awayFrom(angle).x / 400, y: awayFrom(angle).y / 400 };
        for (const p of foldedRims(blank, 24)) {
          const side = along.x * (p.at.y - at.y) - along.y * (p.at.x - at.x);
          expect(side).toBeGreaterThan(-1e-6);
        }
        return undefined;
      }),
      { numRuns: runs(60) },
    );
  });
});

describe('flanges between rounded corners', () => {
  const [w, h] = [200, 120];
  const box = (round: number, thickness: number, radius: number, way: Direction) => {
    const arc = (x: number, y: number) => ({ centre: { x, y }, turn: 'left' as const });
    const steps = [
      { to: { x: w - round, y: 0 }, name: 'a' },
      { to: { x: w, y: round }, arc: arc(w - round, round) },
      { to: { x: w, y: h - round }, name: 'b' },
      { to: { x: w - round, y: h }, arc: arc(w - round, h - round) },
      { to: { x: round, y: h }, name: 'c' },
      { to: { x: 0, y: h - round }, arc: arc(round, h - round) },
      { to: { x: 0, y: round }, name: 'd' },
      { to: { x: round, y: 0 }, arc: arc(round, round) },
    ];
    const edges = ['a', 'b', 'c', 'd'].map((edge) => ({ edge, steps: [{ length: 25, direction: way }] }));
    return layOut(drawn({ x: round, y: 0 }, steps, { sheet: sheet(thickness, radius, byK(0.42)), edges }));
  };

  test('folded square, nothing of them stands past the drawn outline, and the straights are flanged from end to end', () => {
    fc.assert(
      fc.property(number(2, 40), number(0.8, 3), number(0.6, 2), direction, (round, radius, thickness, way) => {
        const { blank, findings } = box(round, thickness, radius, way);
        if (blank === undefined || findings.length > 0) return fc.pre(false);
        expectWellFormed(blank);
        for (const { at } of foldedRims(blank, 24)) {
          const [x, y] = [at.x + blank.datum.x, at.y + blank.datum.y];
          const beyond = (v: number, size: number): number => Math.max(round - v, v - (size - round), 0);
          expect(Math.hypot(beyond(x, w), beyond(y, h))).toBeLessThan(round + 1e-6);
        }
        const xs = foldedRims(blank).flatMap(({ feature, at }) => (feature === 'a.1' ? [at.x + blank.datum.x] : []));
        expect(Math.min(...xs)).toBeCloseTo(round, 6);
        expect(Math.max(...xs)).toBeCloseTo(w - round, 6);
        return undefined;
      }),
      { numRuns: runs(40) },
    );
  });
  test('a wide rounding stays whole but for the slits that free the bends’ ends', () => {
    const [round, thickness, radius] = [20, 1.5, 2];
    const { blank, findings } = box(round, thickness, radius, 'up');
    if (blank === undefined) throw new Error('no blank');
    expect(findings).toEqual([]);
    expectWellFormed(blank);
    const [straights, allowance, setback, slit, past] = [2 * (w - 2 * round) + 2 * (h - 2 * round), (Math.PI / 2) * 2.63, 3.5, 1.5, 0.5];
    // A slit lies between the arc above it and the line half a millimetre past the tangent line.
    const under = round * slit - (slit / 2) * Math.sqrt(round ** 2 - slit ** 2) - (round ** 2 / 2) * Math.asin(slit / round);
    const whole = w * h - (4 - Math.PI) * round ** 2;
    expect(blank.area).toBeCloseTo(whole - straights * setback + straights * (allowance + 21.5) - 8 * (slit * (setback + past) - under), 6);
    const left = blank.outline.filter((move) => move.kind === 'arc');
    expect(
      left.map((move) =>
        move.kind === 'arc' ? Math.round(Math.hypot(move.to.x - move.centre.x, move.to.y - move.centre.y) * 1e6) / 1e6 : 0,
      ),
    ).toEqual([20, 20, 20, 20]);
  });
  test('so does a cut edge that runs straight on from a bent one', () => {
    const points = [
      { x: 0, y: 0 },
      { x: 120, y: 0 },
      { x: 200, y: 0 },
      { x: 200, y: 80 },
      { x: 0, y: 80 },
    ];
    const split = laidOut(polygonPanel(points, { sheet: sheet(1.5, 2, byK(0.42)), edges: [{ edge: 'a', steps: [{ length: 25 }] }] }));
    const stretch = laidOut(
      rectangle(200, 80, { sheet: sheet(1.5, 2, byK(0.42)), edges: [{ edge: 'bottom', from: 0, to: 120, steps: [{ length: 25 }] }] }),
    );
    expect(split.outline.map(({ to }) => to)).toEqual(stretch.outline.map(({ to }) => to));
  });
});
