import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Convention, Direction } from '../../server/model/part.js';
import { signedArea } from '../../server/shape/index.js';
import { byK, drawn, type EdgeSketch, type FlangeSketch, polygonPanel, rectangle, sheet } from './build.js';
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
      { numRuns: 300 },
    );
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
      { numRuns: 300 },
    );
  });
});

describe('a part moved, turned or mirrored gives the same blank moved, turned or mirrored', () => {
  const areaAndLength = (part: Parameters<typeof layOut>[0]): readonly [number, number] => {
    const { blank } = layOut(part);
    if (blank === undefined) throw new Error('no blank');
    return [signedArea(blank.outline), blank.cutLength];
  };

  test('any convex outline', () => {
    fc.assert(
      fc.property(convex, number(0, 6), number(-300, 300), (part, angle, shift) => {
        if (layOut(part).findings.length > 0 || part.outline === undefined) return fc.pre(false);
        const [area, length] = areaAndLength(part);
        const carry = (flip: boolean) => (p: { x: number; y: number }) => {
          const y = flip ? -p.y : p.y;
          return { x: Math.cos(angle) * p.x - Math.sin(angle) * y + shift, y: Math.sin(angle) * p.x + Math.cos(angle) * y - shift };
        };
        const outline = part.outline;
        for (const flip of [false, true]) {
          const moved = {
            ...part,
            outline: { ...outline, start: carry(flip)(outline.start), edges: outline.edges.map((e) => ({ ...e, to: carry(flip)(e.to) })) },
          };
          const [a, l] = areaAndLength(moved);
          expect(a).toBeCloseTo(area, 5);
          expect(l).toBeCloseTo(length, 6);
        }
        return undefined;
      }),
      { numRuns: 100 },
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
