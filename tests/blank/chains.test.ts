/**
 * Chains worked by hand in 2 mm sheet bent to 3 mm inside, K 0.40, so that at 90°
 *   allowance = π/2 · (3 + 0.8) = 5.969026, and each size loses 5 at a bend.
 */
import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import type { Blank } from '../../server/blank/types.js';
import { foldPart } from '../../server/fold/index.js';
import type { CornerTreatment, HemStep } from '../../server/model/part.js';
import { byK, corner, degrees, type EdgeSketch, hole, polygonPanel, rectangle, type StepSketch, sheet } from './build.js';
import { foldedRims } from './fold-up.js';
import { expectAreaAgrees, expectWellFormed, laidOut, laidOutThough } from './judge.js';

const plate = sheet(2, 3, byK(0.4));
const square = (Math.PI / 2) * 3.8;
const top = (...steps: readonly StepSketch[]): Blank => {
  const blank = laidOut(rectangle(100, 60, { sheet: plate, edges: [{ edge: 'top', steps }] }));
  expectWellFormed(blank);
  expectAreaAgrees(blank);
  return blank;
};
const span = (blank: Blank, feature: string, axis: 'y' | 'z') => {
  const all = foldedRims(blank, 400)
    .filter((p) => p.feature === feature)
    .map(({ at }) => at[axis] + (axis === 'y' ? blank.datum.y : 0));
  return { low: Math.min(...all), high: Math.max(...all) };
};

describe('hems: depth runs from the outermost of the fold, and the finished size stays what it was', () => {
  test('closed: radius 0, half a turn', () => {
    const blank = top({ hem: 10 });
    // base 60 − 2, fold π · 0.4 · 2, return 10 − 2
    expect(blank.height).toBeCloseTo(58 + Math.PI * 0.8 + 8, 6);
    expect(blank.bends[0]).toMatchObject({ make: 'hem', step: 'top.1', id: 'top.1', radius: 0, turn: Math.PI });
    expect(span(blank, 'bend:top.1', 'y').high).toBeCloseTo(60, 6);
    expect(span(blank, 'top.1', 'y').low).toBeCloseTo(50, 6);
  });
  test('open by a gap of 3: radius 1.5', () => {
    const blank = top({ hem: 12, style: { kind: 'open', gap: 3 } });
    expect(blank.height).toBeCloseTo(60 - 3.5 + Math.PI * (1.5 + 0.8) + (12 - 3.5), 6);
    expect(span(blank, 'bend:top.1', 'y').high).toBeCloseTo(60, 6);
    expect(span(blank, 'top.1', 'y').low).toBeCloseTo(48, 6);
    // The sheet’s upper face is at +1; the return’s inner face 3 above it.
    expect(span(blank, 'top.1', 'z').low).toBeCloseTo(4, 6);
  });
  test('teardrop: the cut edge comes down to touch the sheet, its farthest corner at the depth', () => {
    const style: HemStep['style'] = { kind: 'teardrop', diameter: 4 };
    const blank = top({ hem: 15, style });
    expect(blank.bends[0]?.turn).toBeGreaterThan(Math.PI);
    expect(span(blank, 'top.1', 'z').low).toBeCloseTo(1, 6);
    expect(span(blank, 'bend:top.1', 'y').high).toBeCloseTo(60, 3);
    expect(span(blank, 'top.1', 'y').low).toBeCloseTo(45, 6);
  });
  test('behind a flange, and behind a return', () => {
    expect(top({ length: 20 }, { hem: 8 }).height).toBeCloseTo(55 + square + (20 - 5 - 2) + Math.PI * 0.8 + 6, 6);
    expect(top({ length: 20 }, { length: 15 }, { hem: 8 }).height).toBeCloseTo(
      55 + square + (20 - 5 - 5) + square + (15 - 5 - 2) + Math.PI * 0.8 + 6,
      6,
    );
  });
  test('double: half round about one thickness, then about nothing, the cut edge back at the first fold', () => {
    const blank = top({ hem: 12, style: { kind: 'double' } });
    // base 60 − 3; folds π (1 + 0.8) and π 0.8; straights 12 − 3 − 2.
    expect(blank.height).toBeCloseTo(57 + Math.PI * 1.8 + 7 + Math.PI * 0.8 + 7, 6);
    expect(blank.bends.map(({ id, make, step, radius, parent, child }) => [id, make, step, radius, parent, child])).toEqual([
      ['top.1', 'hem', 'top.1', 1, 'base', 'top.1'],
      ['top.1.inner', 'hem', 'top.1', 0, 'top.1', 'top.1.inner'],
    ]);
    // Outermost at the finished edge, all 12 deep, three layers thick.
    expect(span(blank, 'bend:top.1', 'y').high).toBeCloseTo(60, 6);
    expect(span(blank, 'bend:top.1.inner', 'y').low).toBeCloseTo(48, 6);
    expect(span(blank, 'top.1', 'z')).toEqual({ low: expect.closeTo(3, 6) as number, high: expect.closeTo(5, 6) as number });
    expect(span(blank, 'top.1.inner', 'z')).toEqual({ low: expect.closeTo(1, 6) as number, high: expect.closeTo(3, 6) as number });
    expect(span(blank, 'top.1.inner', 'y').high).toBeCloseTo(57, 6);
  });
  test('three layers that lie on one another do not run into one another', () => {
    for (const style of [{ kind: 'closed' }, { kind: 'double' }] as const) {
      const part = rectangle(100, 60, { sheet: plate, edges: ['top', 'right'].map((edge) => ({ edge, steps: [{ hem: 12, style }] })) });
      expect(foldPart(part, laidOut(part)).collisions).toEqual([]);
    }
  });
  test('y on a hem counts from the outermost of its fold', () => {
    const blank = laidOut(
      rectangle(100, 60, {
        sheet: plate,
        edges: [{ edge: 'top', steps: [{ hem: 14 }] }],
        cuts: [hole('hole.1', 4, { x: 30, y: 9 }, 'top.1')],
      }),
    );
    expect(blank.cutouts[0]?.centre.y).toBeCloseTo(58 + Math.PI * 0.8 + (9 - 2), 6);
  });
  test('inside its own fold there is no hem', () => {
    const { blank, findings } = layOut(
      rectangle(100, 60, { sheet: plate, edges: [{ edge: 'top', steps: [{ hem: 3, style: { kind: 'open', gap: 3 } }] }] }),
    );
    expect(blank).toBeUndefined();
    expect(findings.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([
      'hem/shorter-than-its-fold: this hem is 3 mm deep, but its fold alone takes 3.5 mm of that, so nothing lies back on the sheet; make it 5.5 mm or more, or the fold tighter',
    ]);
  });
});

describe('curls and rolled edges: the outline is the outermost of the fold', () => {
  test('a curl round a wire of 4 turns until its cut edge touches the sheet', () => {
    const blank = top({ curl: 4 });
    const turn = 2 * Math.PI - Math.acos(2 / 4);
    expect(blank.height).toBeCloseTo(60 - 4 + turn * (2 + 0.8), 6);
    expect(blank.faces.map(({ id }) => id)).toEqual(['base']);
    expect(blank.bends[0]).toMatchObject({ make: 'curl', child: 'top.1' });
    expect(span(blank, 'bend:top.1', 'y').high).toBeCloseTo(60, 3);
    // The far end of the zone is the cut edge: its outer corner comes down to the sheet’s upper face at +1, the whole at 1 + 4 + 2.
    const [from, to] = blank.bends[0]?.tangentChild ?? [];
    expect(from?.y).toBeCloseTo(blank.height, 9);
    expect(to?.y).toBeCloseTo(blank.height, 9);
    expect(span(blank, 'bend:top.1', 'z').high).toBeCloseTo(7, 3);
    const turned = blank.bends[0]?.turn ?? Number.NaN;
    expect(1 + 2 - (2 + 2) * Math.cos(turned)).toBeCloseTo(1, 9);
  });
  test('rolled a quarter turn, then a flange square to its end', () => {
    const blank = top({ rolled: 20, turn: 90 }, { length: 30, direction: 'down' });
    expect(blank.height).toBeCloseTo(60 - 22 + (Math.PI / 2) * 20.8 + square + (30 - 5), 6);
    expect(blank.bends.map(({ id, make, parent }) => [id, make, parent])).toEqual([
      ['top.1', 'roll', 'base'],
      ['top.2', 'turn', 'top.1'],
    ]);
    expect(blank.faces.map(({ id }) => id)).toEqual(['base', 'top.2']);
  });
  test('rolled less than square, it ends short of any apex', () => {
    const blank = top({ rolled: 30, turn: 60 });
    expect(blank.height).toBeCloseTo(60 - 32 * Math.sin(degrees(60)) + degrees(60) * 30.8, 6);
    expect(span(blank, 'bend:top.1', 'y').high).toBeCloseTo(60, 6);
  });
});

describe('joggles', () => {
  // r = 3 + 2/2 = 4. Depth 4 at 45°: straight (4 − 8 (1 − cos 45°)) / sin 45° = 2.343146, run 8 sin 45° + straight · cos 45° = 7.313708.
  const straight = (4 - 8 * (1 - Math.SQRT1_2)) / Math.SQRT1_2;
  const run = 8 * Math.SQRT1_2 + straight * Math.SQRT1_2;
  test('45° where the depth allows it; land and slope together run over what is written', () => {
    const blank = top({ joggle: 4, over: 20 });
    expect(blank.height).toBeCloseTo(40 + 2 * (Math.PI / 4) * 3.8 + straight + (20 - run), 6);
    expect(blank.bends.map(({ id, make, parent, child, direction, step }) => [id, make, parent, child, direction, step])).toEqual([
      ['top.1.near', 'joggle', 'base', 'top.1.slope', 'up', 'top.1'],
      ['top.1.far', 'joggle', 'top.1.slope', 'top.1', 'down', 'top.1'],
    ]);
    expect(span(blank, 'top.1', 'z')).toEqual({ low: expect.closeTo(3, 6) as number, high: expect.closeTo(5, 6) as number });
    expect(span(blank, 'top.1', 'y').high).toBeCloseTo(60, 6);
  });
  test('by its run: 8 sin A + straight · cos A comes to what is written', () => {
    const blank = top({ joggle: 4, over: 30, run: 15 });
    expect(span(blank, 'top.1', 'z').high).toBeCloseTo(5, 6);
    expect(span(blank, 'top.1', 'y').low).toBeCloseTo(60 - 30 + 15, 6);
  });
  test('shallow: the two bends run into each other, and the slope is no face', () => {
    const blank = top({ joggle: 1, over: 20 });
    const angle = Math.acos(1 - 1 / 8);
    expect(blank.faces.map(({ id }) => id)).toEqual(['base', 'top.1']);
    expect(blank.height).toBeCloseTo(40 + 2 * angle * 3.8 + (20 - 8 * Math.sin(angle)), 6);
    expect(span(blank, 'top.1', 'z').high).toBeCloseTo(2, 6);
  });
  test('then a flange: the land runs to the flange’s outside', () => {
    const blank = top({ joggle: 4, over: 30 }, { length: 20 });
    expect(span(blank, 'top.2', 'y').high).toBeCloseTo(60, 6);
    expect(span(blank, 'top.2', 'z').high - 3).toBeCloseTo(20, 6);
  });
  test('too steep or too short is refused with the numbers', () => {
    const said = (step: StepSketch) =>
      layOut(rectangle(100, 60, { sheet: plate, edges: [{ edge: 'top', steps: [step] }] })).findings.map(({ message }) => message);
    // Square turns: 2 r = 8 deep would run 8; 4 deep runs 8 sin 60° where 1 − cos 60° = 4/8.
    expect(said({ joggle: 4, over: 20, run: 5 })[0]).toContain(
      'a step of 4 mm can’t slope in 5 mm: bent to 3 mm inside it takes at least 6.93 mm',
    );
    expect(said({ joggle: 4, over: 7 })[0]).toContain('the slope of this joggle takes 7.31 mm of the 7 mm that it runs over');
  });
  test('two opposite bends and their like again: a chain whose turns come to nothing lies level', () => {
    const blank = top({ joggle: 4, over: 40 }, { joggle: 4, over: 20, direction: 'down' });
    expect(span(blank, 'top.2', 'z')).toEqual({ low: expect.closeTo(-1, 6) as number, high: expect.closeTo(1, 6) as number });
  });
});

describe('tabs', () => {
  test('stand out of the cut edge at their middles; the piece is one face', () => {
    const edges: EdgeSketch[] = [
      { edge: 'right', steps: [{ tab: 10, by: 6, at: [15, 45] }] },
      { edge: 'top', steps: [{ tab: 20, by: 5 }] },
      { edge: 'left', steps: [{ length: 20 }, { tab: 10, by: 5, at: [10, 50] }] },
    ];
    const blank = laidOut(rectangle(100, 60, { sheet: plate, edges }));
    expectWellFormed(blank);
    expectAreaAgrees(blank);
    expect(blank.area).toBeCloseTo(95 * 60 + 60 * (square + 15) + 2 * 60 + 100 + 2 * 50, 6);
    const right = blank.outline.filter((move) => move.id === 'face:right.1').map(({ to }) => Math.round(to.y * 1e6) / 1e6);
    expect(right).toEqual(expect.arrayContaining([10, 20, 40, 50]));
  });
  test('off the edge, and too slender', () => {
    const said = (step: StepSketch) =>
      layOut(rectangle(100, 60, { sheet: plate, edges: [{ edge: 'top', steps: [step] }] })).findings.map(({ rule }) => rule);
    expect(said({ tab: 20, by: 5, at: [95] })).toEqual(['shape/tab-off-the-edge']);
    expect(said({ tab: 3, by: 5 })).toEqual(['shape/tab-too-narrow']);
    expect(said({ tab: 5, by: 26 })).toEqual(['shape/tab-too-narrow']);
    expect(said({ tab: 5, by: 25 })).toEqual([]);
  });
});

describe('tapered and slanted flanges', () => {
  test('from 20 at the low end to 40 at the high end: a trapezium', () => {
    const blank = top({ length: 20, taper: 40 });
    expect(blank.area).toBeCloseTo(100 * (55 + square) + (100 * (15 + 35)) / 2, 6);
    expect(blank.height).toBeCloseTo(55 + square + 35, 6);
  });
  test('on the left edge the far end is the upper one', () => {
    const blank = laidOut(rectangle(100, 60, { sheet: plate, edges: [{ edge: 'left', steps: [{ length: 20, taper: 40 }] }] }));
    const leftmost = blank.outline.filter(({ to }) => to.x < 1e-9);
    expect(leftmost.map(({ to }) => to.y)).toEqual([expect.closeTo(60, 9)]);
  });
  test('a hem on the sloping free edge: its fold lies square to the slope, and the finished slope stays where it was', () => {
    const blank = top({ length: 20, taper: 40 }, { hem: 8 });
    // Folded, the flange’s outermost corners stand 20 and 40 up from the base’s outside at z = −1.
    const heights = foldedRims(blank, 40).filter(({ feature }) => feature.startsWith('bend:top.2') || feature === 'top.1');
    const rise = (p: { at: { x: number; z: number } }) => p.at.z + 1 - (20 + (20 * (p.at.x + blank.datum.x)) / 100);
    expect(Math.max(...heights.map(rise))).toBeLessThan(1e-6);
    expect(Math.max(...heights.map(rise))).toBeGreaterThan(-0.05);
    // Nothing of the hem stands past the flange’s ends.
    const xs = foldedRims(blank, 40).map(({ at }) => at.x + blank.datum.x);
    expect(Math.min(...xs)).toBeGreaterThan(-1e-6);
    expect(Math.max(...xs)).toBeLessThan(100 + 1e-6);
  });
  test('ends mitred by 45° lose as much as the flat is long, ends set back the distance', () => {
    const mitred = top({ length: 20, ends: { kind: 'mitred', angle: Math.PI / 4 } });
    expect(mitred.area).toBeCloseTo(100 * (55 + square) + 15 * (100 - 15), 6);
    const back = top({ length: 20, ends: { kind: 'back', distance: 4 } });
    expect(back.area).toBeCloseTo(100 * 55 + 92 * (square + 15), 6);
  });
});

describe('corners worked by hand', () => {
  const box = (treatment: CornerTreatment | undefined, ...steps: readonly StepSketch[]) =>
    rectangle(100, 60, {
      sheet: plate,
      edges: ['top', 'left'].map((edge) => ({ edge, steps })),
      corners: treatment === undefined ? [] : [corner(treatment, 'top', 'left')],
    });
  const none = { kind: 'none' } as const;

  test('square walls mitred with a gap of 1: inside faces end 3 − 1/√2 past the crossing', () => {
    const blank = laidOutThough(['corner/relief-missing'], box({ kind: 'mitred', gap: 1, relief: none }, { length: 20 }));
    expectWellFormed(blank);
    const face = blank.faces.find(({ id }) => id === 'top.1');
    const xs = face?.polygon.map(({ to }) => to.x) ?? [];
    const tangent = blank.bends.find(({ id }) => id === 'left.1')?.tangentParent[0].x ?? Number.NaN;
    expect(tangent - Math.min(...xs)).toBeCloseTo(3 - Math.SQRT1_2, 6);
  });
  test('closed hems of 10 meet cut to 45° from the crossing, one thickness apart at the cut edge', () => {
    const blank = laidOut(box(undefined, { hem: 10 }));
    expectWellFormed(blank);
    expectAreaAgrees(blank);
    // 98 wide; the return 8 deep loses a triangle from 0 to 8 + 2/(2 cos 45°).
    expect(blank.area).toBeCloseTo(98 * 58 + (98 + 58) * (Math.PI * 0.8 + 8) - 8 * (8 + Math.SQRT2), 6);
    expect(blank.reliefs).toEqual([]);
  });
  test('what can’t be mitred is said with the reason', () => {
    const said = (a: StepSketch, b: StepSketch) =>
      layOut(
        rectangle(100, 60, {
          sheet: plate,
          edges: [
            { edge: 'top', steps: [a] },
            { edge: 'left', steps: [b] },
          ],
          corners: [corner({ kind: 'mitred', gap: 0, relief: undefined }, 'top', 'left')],
        }),
      ).findings.map(({ rule, message }) => `${rule}: ${message}`)[0];
    expect(said({ length: 20 }, { length: 20, direction: 'down' })).toContain(
      'so they never meet; turn both the same way, or leave the corner open',
    );
    expect(said({ length: 20 }, { hem: 10 })).toContain(
      'corner/mitre-impossible: top and left can’t be mitred: they turn by 90° and 180°, and one of them is folded flat',
    );
    expect(said({ hem: 10 }, { hem: 10, style: { kind: 'open', gap: 3 } })).toContain('their inside radii are 0 mm and 1.5 mm');
    // Flanges that turn differently, or to another radius, meet along the line where their planes cross.
    expect(said({ length: 20 }, { length: 20, turn: 60 })).toBeUndefined();
    expect(said({ length: 20 }, { length: 20, radius: 5 })).toBeUndefined();
  });
  test('in an inward corner the two flanges are parted in the flat by the gap', () => {
    const ell = polygonPanel(
      [
        { x: 0, y: 0 },
        { x: 150, y: 0 },
        { x: 150, y: 60 },
        { x: 80, y: 60 },
        { x: 80, y: 120 },
        { x: 0, y: 120 },
      ],
      {
        sheet: plate,
        edges: ['c', 'd'].map((edge) => ({ edge, steps: [{ length: 20 }] })),
        corners: [corner({ kind: 'mitred', gap: 2, relief: undefined }, 'c', 'd')],
      },
    );
    const blank = laidOut(ell);
    expectWellFormed(blank);
    // Outside the bend (3 + 2) sin θ runs ahead of 3.8 θ by most where cos θ = 3.8/5.
    const ahead = 5 * Math.sqrt(1 - 0.76 ** 2) - 3.8 * Math.acos(0.76);
    const c = blank.faces.find(({ id }) => id === 'c.1')?.polygon.map(({ to }) => to) ?? [];
    const d = blank.faces.find(({ id }) => id === 'd.1')?.polygon.map(({ to }) => to) ?? [];
    // The diagonal through the crossing of the tangent lines parts them, each 1 and what the bend swells by from it.
    const across = (p: { x: number; y: number }) => (p.x - p.y - (80 - 5 - (60 - 5))) / Math.SQRT2;
    expect(Math.min(...c.map(across))).toBeCloseTo(1 + ahead / Math.SQRT2, 6);
    expect(Math.max(...d.map(across))).toBeCloseTo(-1 - ahead / Math.SQRT2, 6);
  });
});

describe('stretches of a flange’s own edges', () => {
  test('a flange on part of the free edge, with its slits', () => {
    const blank = laidOut(
      rectangle(100, 60, {
        sheet: plate,
        edges: [{ edge: 'top', steps: [{ length: 30, edges: [{ edge: 'free', from: 20, to: 60, steps: [{ length: 15 }] }] }] }],
      }),
    );
    expectWellFormed(blank);
    // 40 wide: the flange loses 5 there, a bend and 10 are added; each slit 2 wide reaches 0.5 past the tangent line.
    expect(blank.area).toBeCloseTo(100 * (55 + square + 25) - 40 * 5 + 40 * (square + 10) - 2 * 2 * 5.5, 6);
  });
  test('and on part of an end', () => {
    const blank = laidOut(
      rectangle(100, 60, {
        sheet: plate,
        edges: [{ edge: 'top', steps: [{ length: 40, edges: [{ edge: 'right', from: 15, to: 30, steps: [{ length: 12 }] }] }] }],
      }),
    );
    expectWellFormed(blank);
    expect(blank.area).toBeCloseTo(100 * (55 + square + 35) - 15 * 5 + 15 * (square + 7) - 2 * 2 * 5.5, 6);
    expect(blank.width).toBeCloseTo(95 + square + 7, 6);
  });
});

describe('a stretch on a slanted free edge', () => {
  test('counts x as everything on that edge does', () => {
    const edges: EdgeSketch[] = [
      { edge: 'top', steps: [{ length: 20, taper: 40, edges: [{ edge: 'free', from: 20, to: 60, steps: [{ length: 15 }] }] }] },
    ];
    const blank = laidOut(rectangle(100, 60, { sheet: plate, edges }));
    expectWellFormed(blank);
    const bend = blank.bends.find(({ id }) => id === 'top.1.free.1');
    // The tangent line lies 5 inside the slope of 20 in 100, square to it.
    const shift = 5 * Math.sin(Math.atan(0.2));
    const xs = [bend?.tangentParent[0].x ?? Number.NaN, bend?.tangentParent[1].x ?? Number.NaN].sort((p, q) => p - q);
    const slid = (x: number): number => x + shift;
    expect(xs).toEqual([expect.closeTo(slid(20), 6), expect.closeTo(slid(60), 6)]);
  });
});

describe('a hole that goes on through', () => {
  test('comes out where its axis meets the base of the folded part', () => {
    const part = rectangle(100, 60, {
      sheet: plate,
      edges: [{ edge: 'top', steps: [{ length: 20 }, { length: 25 }] }],
      cuts: [{ ...hole('hole.1', 4, { x: 30, y: 15 }, 'top.2'), through: 'base' }],
    });
    const blank = laidOut(part);
    // y on the return counts from the outside of top.1, which is the finished edge: 15 in from it lies over y = 45 of the base.
    expect(blank.cutouts.map(({ id, face, centre }) => [id, face, centre])).toEqual([
      ['hole.1', 'top.2', expect.anything()],
      ['hole.1.through', 'base', { x: expect.closeTo(30, 6) as number, y: expect.closeTo(45, 6) as number }],
    ]);
  });
});
