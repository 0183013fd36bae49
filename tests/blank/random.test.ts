import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import type { Convention, CornerTreatment, Direction, FlangeEnds, HemStep, Panel } from '../../server/model/part.js';
import { signedArea } from '../../server/shape/index.js';
import { runs } from '../runs.js';
import {
  byK,
  corner,
  type DrawnStep,
  drawn,
  type EdgeSketch,
  type FlangeSketch,
  polygonPanel,
  rectangle,
  type StepSketch,
  sheet,
} from './build.js';
import { expectAreaAgrees, expectWellFormed } from './judge.js';

const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const convention = fc.constantFrom<Convention>('outside', 'inside', 'flat');
const direction = fc.constantFrom<Direction>('up', 'down');

const flange: fc.Arbitrary<FlangeSketch> = fc.record({
  length: number(18, 40),
  direction,
  turn: fc.oneof(fc.constantFrom(90, 45, 120, 135), number(25, 170)),
  radius: number(0.5, 3),
  convention: fc.option(convention, { nil: undefined }),
});
const steps = fc.array(flange, { minLength: 1, maxLength: 3 });

const hemStyle = fc.oneof(
  fc.constant<HemStep['style']>({ kind: 'closed' }),
  number(0.5, 3).map((gap): HemStep['style'] => ({ kind: 'open', gap })),
  number(2, 4).map((diameter): HemStep['style'] => ({ kind: 'teardrop', diameter })),
  fc.constant<HemStep['style']>({ kind: 'double' }),
);
const optional = <T>(of: fc.Arbitrary<T>): fc.Arbitrary<readonly T[]> => fc.option(of).map((one) => (one === null ? [] : [one]));
const ends = fc.option(
  fc.oneof(
    fc.constant<FlangeEnds>({ kind: 'square' }),
    number(0.1, 0.7).map((angle): FlangeEnds => ({ kind: 'mitred', angle })),
    number(0, 4).map((distance): FlangeEnds => ({ kind: 'back', distance })),
  ),
  { nil: undefined },
);
const slanted: fc.Arbitrary<StepSketch> = fc.record({
  length: number(18, 40),
  taper: number(18, 40),
  direction,
  turn: number(30, 150),
  ends,
});
/** Joggled or rolled first, flanges of all kinds, and hemmed, curled or with tabs at the end: whatever can stand on an edge. */
const anyChain: fc.Arbitrary<readonly StepSketch[]> = fc
  .tuple(
    optional<StepSketch>(
      fc.oneof(
        fc.record({ joggle: number(0.5, 8), over: number(55, 80), direction }),
        fc.record({ rolled: number(8, 20), turn: number(20, 170), direction }),
      ),
    ),
    optional<StepSketch>(fc.oneof(flange, slanted)),
    optional<StepSketch>(flange),
    optional<StepSketch>(
      fc.oneof(
        fc.record({ hem: number(8, 14), style: hemStyle, direction }),
        fc.record({ curl: number(2, 5), direction }),
        fc.record({ tab: number(5, 10), by: number(4, 12) }),
      ),
    ),
  )
  .map((parts) => parts.flat())
  .filter((chain) => chain.length > 0);
const joint: fc.Arbitrary<CornerTreatment> = fc.oneof(
  fc.constant<CornerTreatment>({ kind: 'open', relief: undefined }),
  number(0, 2).map((gap): CornerTreatment => ({ kind: 'mitred', gap, relief: undefined })),
  number(2, 6).map((diameter): CornerTreatment => ({ kind: 'mitred', gap: 0.2, relief: { kind: 'round', diameter } })),
);
const over = fc.option(
  fc.oneof(
    fc.constant<CornerTreatment>({ kind: 'butt', over: 'top', under: 'left', relief: undefined }),
    number(0, 8).map((by): CornerTreatment => ({ kind: 'lap', over: 'left', under: 'top', by, relief: undefined })),
  ),
);
const everything = fc
  .record({
    width: number(250, 600),
    height: number(250, 600),
    thickness: number(0.5, 2),
    k: number(0.33, 0.5),
    convention,
    joint,
    over,
    chains: fc.record({ bottom: fc.option(anyChain), right: fc.option(anyChain), top: fc.option(anyChain), left: fc.option(anyChain) }),
  })
  .map((r) => {
    const edges = Object.entries(r.chains).flatMap(([edge, chain]): EdgeSketch[] => (chain === null ? [] : [{ edge, steps: chain }]));
    const corners = [corner(r.joint), ...(r.over === null ? [] : [corner(r.over, 'top', 'left')])];
    return rectangle(r.width, r.height, { sheet: sheet(r.thickness, 1, byK(r.k)), convention: r.convention, edges, corners });
  });

const rectangles = fc
  .record({
    width: number(120, 600),
    height: number(120, 600),
    thickness: number(0.5, 2),
    k: number(0.33, 0.5),
    convention,
    chains: fc.record({ bottom: fc.option(steps), right: fc.option(steps), top: fc.option(steps), left: fc.option(steps) }),
  })
  .map((r) => {
    const edges = Object.entries(r.chains).flatMap(([edge, chain]): EdgeSketch[] => (chain === null ? [] : [{ edge, steps: chain }]));
    return rectangle(r.width, r.height, { sheet: sheet(r.thickness, 1, byK(r.k)), convention: r.convention, edges });
  });

/** Convex outlines with corners on a circle, no two nearer than a twentieth of the turn. */
const convexCorners = fc
  .record({ radius: number(200, 500), shares: fc.array(number(1, 3), { minLength: 3, maxLength: 8 }), turned: number(0, 6) })
  .map(({ radius, shares, turned }) => {
    const whole = shares.reduce((a, b) => a + b, 0);
    let at = turned;
    return shares.map((share) => {
      at += (share / whole) * 2 * Math.PI;
      return { x: radius * Math.cos(at), y: radius * Math.sin(at) };
    });
  });
const convex = fc
  .record({
    corners: convexCorners,
    convention,
    thickness: number(0.5, 2),
    flanges: fc.array(fc.option(flange), { minLength: 8, maxLength: 8 }),
  })
  .map(({ corners, convention: as, thickness, flanges }) => {
    const edges = corners.flatMap((_, i): EdgeSketch[] => {
      const step = flanges[i];
      return step === null || step === undefined ? [] : [{ edge: String.fromCharCode(97 + i), steps: [step] }];
    });
    return polygonPanel(corners, { sheet: sheet(thickness, 1, byK(0.42)), convention: as, edges });
  });

type XY = { readonly x: number; readonly y: number };
/** The arc over a chord that stands out from its middle by this share of half the chord, to the right of the travel (outward) when positive. */
const arcOver = (from: XY, to: XY, bulge: number): NonNullable<DrawnStep['arc']> => {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const half = Math.hypot(dx, dy) / 2;
  const rise = bulge * half;
  // From the middle toward the centre: the radius less the rise, to the left of the travel for an arc that stands out.
  const back = (half * half) / (2 * rise) - rise / 2;
  const centre = { x: (from.x + to.x) / 2 - (back * dy) / (2 * half), y: (from.y + to.y) / 2 + (back * dx) / (2 * half) };
  return { centre, turn: bulge > 0 ? 'left' : 'right' };
};
/** The same outline drawn the other way round. */
const turnedBack = (start: XY, steps: readonly DrawnStep[]): readonly DrawnStep[] =>
  steps
    .map((step, i): DrawnStep => {
      const to = i === 0 ? start : (steps[i - 1] as DrawnStep).to;
      return step.arc === undefined
        ? { ...step, to }
        : { ...step, to, arc: { ...step.arc, turn: step.arc.turn === 'left' ? 'right' : 'left' } };
    })
    .reverse();

describe('the outline encloses exactly its faces and zones, less the reliefs', () => {
  test('rectangles with chains on any edges', () => {
    fc.assert(
      fc.property(rectangles, (part) => {
        const { blank, findings } = layOut(part);
        // Short legs between sharp turns and flanges longer than the panel are refused, with a word; the rest must agree.
        if (findings.length > 0) return fc.pre(false);
        if (blank === undefined) throw new Error('no blank and nothing said');
        expectWellFormed(blank);
        expectAreaAgrees(blank);
        return undefined;
      }),
      { numRuns: runs(70) },
    );
  });

  test('rectangles with everything that can be on an edge or a corner', () => {
    let compared = 0;
    fc.assert(
      fc.property(everything, (part) => {
        const { blank, findings } = layOut(part);
        if (findings.some(({ severity }) => severity === 'error')) return fc.pre(false);
        if (blank === undefined) throw new Error('no blank and nothing said');
        compared++;
        expectWellFormed(blank);
        expectAreaAgrees(blank);
        return undefined;
      }),
      { numRuns: runs(60) },
    );
    // What is refused is drawn anew, so every run compares.
    expect(compared).toBeGreaterThanOrEqual(runs(60));
  });

  test('convex drawn outlines with everything on any edges', () => {
    fc.assert(
      fc.property(convexCorners, fc.array(fc.option(anyChain), { minLength: 8, maxLength: 8 }), joint, (corners, chains, treatment) => {
        const edges = corners.flatMap((_, i): EdgeSketch[] => {
          const steps = chains[i];
          return steps === null || steps === undefined ? [] : [{ edge: String.fromCharCode(97 + i), steps }];
        });
        const { blank, findings } = layOut(polygonPanel(corners, { sheet: sheet(1.2, 1, byK(0.42)), edges, corners: [corner(treatment)] }));
        if (findings.some(({ severity }) => severity === 'error')) return fc.pre(false);
        if (blank === undefined) throw new Error('no blank and nothing said');
        expectWellFormed(blank);
        expectAreaAgrees(blank);
        return undefined;
      }),
      { numRuns: runs(40) },
    );
  });

  test('outlines of lines and arcs, with everything on any straight edge', () => {
    let compared = 0;
    fc.assert(
      fc.property(
        convexCorners,
        fc.array(fc.oneof(anyChain, number(-0.6, 0.6), fc.constant(0)), { minLength: 8, maxLength: 8 }),
        joint,
        fc.boolean(),
        (corners, wanted, treatment, clockwise) => {
          const name = (i: number): string => String.fromCharCode(97 + i);
          // A number is how far an arc bulges, as a share of half its chord: outward above 0, into the sheet below.
          const steps = corners.map((from, i): DrawnStep => {
            const to = corners[(i + 1) % corners.length] as typeof from;
            const bulge = wanted[i];
            return typeof bulge === 'number' && Math.abs(bulge) > 0.02 ? { to, arc: arcOver(from, to, bulge) } : { to, name: name(i) };
          });
          const edges = corners.flatMap((_, i): EdgeSketch[] => {
            const chain = wanted[i];
            return chain === undefined || typeof chain === 'number' ? [] : [{ edge: name(i), steps: chain }];
          });
          if (edges.length === 0 || steps.every(({ arc }) => arc === undefined)) return fc.pre(false);
          const [start] = corners as [(typeof corners)[number]];
          const way = clockwise ? turnedBack(start, steps) : steps;
          const part = drawn(start, way, { sheet: sheet(1.2, 1, byK(0.42)), edges, corners: [corner(treatment)] });
          const { blank, findings } = layOut(part);
          if (findings.some(({ severity }) => severity === 'error')) return fc.pre(false);
          if (blank === undefined) throw new Error('no blank and nothing said');
          compared++;
          expectWellFormed(blank);
          // The judge does not know of slits, which are cut where an arc happens to run on from a bent edge.
          if (blank.reliefs.every(({ kind }) => kind === 'round')) expectAreaAgrees(blank);
          // Arcs that are left keep their centre and radius.
          const radii = (moves: readonly { centre: { x: number; y: number }; to: { x: number; y: number } }[]): readonly number[] =>
            moves.map(({ centre, to }) => Math.hypot(to.x - centre.x, to.y - centre.y));
          const written = radii(steps.flatMap(({ arc, to }) => (arc === undefined ? [] : [{ centre: arc.centre, to }])));
          const left = radii(blank.outline.flatMap((move) => (move.kind === 'arc' && !String(move.id).startsWith('relief') ? [move] : [])));
          expect(left).toHaveLength(written.length);
          for (const radius of left) expect(Math.min(...written.map((own) => Math.abs(own - radius)))).toBeLessThan(1e-6);
          return undefined;
        },
      ),
      { numRuns: runs(50) },
    );
    expect(compared).toBeGreaterThanOrEqual(runs(50));
  });

  test('convex drawn outlines with flanges on any edges', () => {
    fc.assert(
      fc.property(convex, (part) => {
        const { blank, findings } = layOut(part);
        if (findings.length > 0) return fc.pre(false);
        if (blank === undefined) throw new Error('no blank and nothing said');
        expectWellFormed(blank);
        expectAreaAgrees(blank);
        return undefined;
      }),
      { numRuns: runs(70) },
    );
  });
});

describe('a part moved, turned or mirrored gives the same blank moved, turned or mirrored', () => {
  type Point = { readonly x: number; readonly y: number };
  type Carry = (p: Point) => Point;
  const carryBy =
    (angle: number, shift: number, flip: boolean): Carry =>
    ({ x, y: up }) => {
      const y = flip ? -up : up;
      return { x: Math.cos(angle) * x - Math.sin(angle) * y + shift, y: Math.sin(angle) * x + Math.cos(angle) * y - shift };
    };
  const blankOf = (part: Panel): Blank => {
    const { blank } = layOut(part);
    if (blank === undefined) throw new Error('no blank');
    return blank;
  };
  /** Corners of the outline and centres of its arcs, in the part's own coordinates. */
  const placesOf = ({ outline, datum }: Blank): readonly Point[] =>
    outline
      .flatMap((move) => (move.kind === 'arc' ? [move.to, move.centre] : [move.to]))
      .map(({ x, y }) => ({ x: x + datum.x, y: y + datum.y }));
  const farthest = (from: readonly Point[], to: readonly Point[]): number =>
    Math.max(...from.map((p) => Math.min(...to.map((q) => Math.hypot(p.x - q.x, p.y - q.y)))));
  /** The part carried along is laid out as the blank carried along: every corner, arc and bend line, and no others. */
  const expectCarried = (part: Panel, carry: Carry): void => {
    const { outline } = part;
    if (outline === undefined) throw new Error('no outline');
    const moved = { ...outline, start: carry(outline.start), edges: outline.edges.map((e) => ({ ...e, to: carry(e.to) })) };
    const [one, other] = [blankOf(part), blankOf({ ...part, outline: moved })];
    const [carried, there] = [placesOf(one).map(carry), placesOf(other)];
    expect(farthest(carried, there)).toBeLessThan(1e-6);
    expect(farthest(there, carried)).toBeLessThan(1e-6);
    expect(signedArea(other.outline)).toBeCloseTo(signedArea(one.outline), 4);
    expect(other.cutLength).toBeCloseTo(one.cutLength, 5);
    const bends = (blank: Blank): readonly Point[] =>
      blank.bends.flatMap(({ from, to }) => [from, to].map(({ x, y }) => ({ x: x + blank.datum.x, y: y + blank.datum.y })));
    if (one.bends.length > 0) expect(farthest(bends(one).map(carry), bends(other))).toBeLessThan(1e-6);
  };

  test('any convex outline', () => {
    fc.assert(
      fc.property(convex, number(0, 6), number(-300, 300), (part, angle, shift) => {
        if (layOut(part).findings.length > 0) return fc.pre(false);
        for (const flip of [false, true]) expectCarried(part, carryBy(angle, shift, flip));
        return undefined;
      }),
      { numRuns: runs(60) },
    );
  });

  test('any convex outline with everything on its edges and corners', () => {
    fc.assert(
      fc.property(
        convexCorners,
        fc.array(fc.option(anyChain), { minLength: 8, maxLength: 8 }),
        joint,
        number(0, 6),
        number(-300, 300),
        (corners, chains, treatment, angle, shift) => {
          const edges = corners.flatMap((_, i): EdgeSketch[] => {
            const steps = chains[i];
            return steps === null || steps === undefined ? [] : [{ edge: String.fromCharCode(97 + i), steps }];
          });
          const part = polygonPanel(corners, { sheet: sheet(1.2, 1, byK(0.42)), edges, corners: [corner(treatment)] });
          if (layOut(part).findings.some(({ severity }) => severity === 'error')) return fc.pre(false);
          for (const flip of [false, true]) expectCarried(part, carryBy(angle, shift, flip));
          return undefined;
        },
      ),
      { numRuns: runs(40) },
    );
  });

  test('a drawn rectangle gives what `rectangle` gives', () => {
    fc.assert(
      fc.property(number(100, 400), number(100, 400), (w, h) => {
        const sketch = {
          sheet: sheet(1.2, 1.2, byK(0.42)),
          edges: ['top', 'left', 'bottom', 'right'].map((edge) => ({ edge, steps: [{ length: 20 }] })),
        };
        const steps = [
          { to: { x: w, y: 0 }, name: 'bottom' },
          { to: { x: w, y: h }, name: 'right' },
          { to: { x: 0, y: h }, name: 'top' },
          { to: { x: 0, y: 0 }, name: 'left' },
        ];
        const one = layOut(rectangle(w, h, sketch)).blank;
        const other = layOut(drawn({ x: 0, y: 0 }, steps, sketch)).blank;
        expect(other?.outline).toEqual(one?.outline);
      }),
    );
  });
});

test('beside a flange that leaves less of its edge than a slit is wide, the slit takes what is left', () => {
  for (const [from, to, edge] of [
    [20, 197.5, 'right'],
    [2.5, 180, 'left'],
  ] as const) {
    const { blank, findings } = layOut(
      rectangle(200, 100, {
        sheet: sheet(1, 1, byK(0.4)),
        edges: [
          { edge: 'top', from, to, steps: [{ length: 20, direction: 'down' }] },
          { edge, steps: [{ length: 20, direction: 'down' }] },
        ],
      }),
    );
    expect(findings).toEqual([]);
    if (blank === undefined) throw new Error('no blank and nothing said');
    expectWellFormed(blank);
    // The other flange's bend begins 2 from its outside, 0.5 from this one's end: nothing stands between them, nor does the outline double back.
    const at = (edge === 'right' ? 198 : 2) - blank.datum.x;
    expect(blank.outline.filter(({ to: p }) => Math.abs(p.x - at) < 1e-6)).toHaveLength(2);
  }
});
