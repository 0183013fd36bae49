import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layOut } from '../../server/blank/index.js';
import { foldPart } from '../../server/fold/index.js';
import type { FoldResult } from '../../server/fold/types.js';
import type { Finding } from '../../server/model/finding.js';
import type { EdgeStep, Panel, Section } from '../../server/model/part.js';
import { byK, corner, type EdgeSketch, type FlangeSketch, leg, rectangle, section, sheet, turn } from '../blank/build.js';
import { runs } from '../runs.js';

const steel = sheet(1.5, 2, byK(0.42));
const sides = ['bottom', 'right', 'top', 'left'];
const each = (steps: readonly FlangeSketch[]): readonly EdgeSketch[] => sides.map((edge) => ({ edge, steps }));
const folded = (part: Panel | Section): FoldResult => {
  const { blank } = layOut(part);
  if (blank === undefined) throw new Error('not laid out');
  return foldPart(part, blank);
};
const pairs = ({ collisions }: FoldResult): readonly string[] => collisions.map(({ a, b }) => `${a} ${b}`);
const depths = ({ collisions }: FoldResult): readonly number[] => collisions.map(({ depth }) => Math.round(depth * 1e6) / 1e6);

describe('a part that has room', () => {
  test.each([
    ['a tray', rectangle(200, 100, { sheet: steel, edges: each([{ length: 30 }]) })],
    [
      'a tray with returns outward',
      rectangle(200, 100, { sheet: steel, edges: each([{ length: 30 }, { length: 12, direction: 'down' }]) }),
    ],
    ['a Z', section(100, steel, [leg(30), turn('up'), leg(20), turn('down'), leg(30)])],
    [
      'a channel with returns',
      rectangle(200, 100, { sheet: steel, edges: ['top', 'bottom'].map((edge) => ({ edge, steps: [{ length: 30 }, { length: 20 }] })) }),
    ],
    [
      'a flange leaning back over the base',
      rectangle(200, 100, { sheet: steel, edges: [{ edge: 'top', steps: [{ length: 30, turn: 150 }] }] }),
    ],
    [
      'a tray without reliefs',
      rectangle(200, 100, { sheet: steel, edges: each([{ length: 30 }]), corners: [corner({ kind: 'open', relief: { kind: 'none' } })] }),
    ],
  ])('is clear of itself: %s', (_, part) => {
    const result = folded(part);
    expect(result.collisions).toEqual([]);
    expect(result.findings).toEqual([]);
  });
});

describe('an edge folded back on itself', () => {
  const span = { start: 1, end: 2 };
  const step = { id: 'top.1', name: undefined, span, direction: 'up' as const };
  const hem = { ...step, kind: 'hem' as const, depth: 10, depthSpan: span, styleSpan: span };
  const edges: readonly (readonly [string, EdgeStep])[] = [
    ['a closed hem', { ...hem, style: { kind: 'closed' } }],
    ['an open hem', { ...hem, style: { kind: 'open', gap: 1 } }],
    ['a drop', { ...hem, style: { kind: 'teardrop', diameter: 4 } }],
    ['a curl round a wire', { ...step, kind: 'curl', wire: 5 }],
    ['a joggle', { ...step, kind: 'joggle', depth: 1.5, over: 15, run: undefined }],
    ['a large roll', { ...step, kind: 'rolled', radius: 20, turn: 4.5 }],
  ];
  test.each(edges)('touches the sheet and does not collide with it: %s', (_, one) => {
    const plain = rectangle(200, 100, { sheet: steel, edges: [{ edge: 'top', steps: [{ length: 10 }] }] });
    expect(folded({ ...plain, edges: plain.edges.map((chain) => ({ ...chain, steps: [one] })) }).collisions).toEqual([]);
  });
  test('a roll closed too far runs into the sheet it hangs on', () => {
    const plain = rectangle(200, 100, { sheet: steel, edges: [{ edge: 'top', steps: [{ length: 10 }] }] });
    const { blank } = layOut({
      ...plain,
      edges: plain.edges.map((chain) => ({ ...chain, steps: [{ ...step, kind: 'rolled', radius: 20, turn: 5 }] })),
    });
    if (blank === undefined) throw new Error('not laid out');
    // Almost all the way round: the end of the sheet comes through the base.
    const closed = { ...blank, bends: blank.bends.map((bend) => ({ ...bend, turn: 6.2, radius: 2, allowance: bend.allowance, k: 0.42 })) };
    const { collisions } = foldPart(plain, closed);
    expect(collisions.map(({ a, b }) => [a, b])).toEqual([['face:base', `bend:${blank.bends[0]?.id}`]]);
  });
});

const withWords = (part: Panel): readonly Finding[] => {
  const { blank } = layOut(part);
  if (blank === undefined) throw new Error('not laid out');
  return foldPart(part, blank, { say: (mm) => `${mm.toFixed(2)} mm`, write: (mm) => mm.toFixed(2) }).findings;
};

describe('a part that has no room', () => {
  test('a third flange runs through the base', () => {
    // Down from 30 outside: 35 long, so its tip is 5 below the base's back and 6.5 below its face; it must draw back that far.
    const result = folded(
      rectangle(200, 60, { sheet: steel, edges: [{ edge: 'top', steps: [{ length: 30 }, { length: 20 }, { length: 35 }] }] }),
    );
    expect(pairs(result)).toEqual(['face:base face:top.3']);
    expect(depths(result)).toEqual([6.5]);
    expect(result.findings).toMatchObject([
      {
        rule: 'fold/collides-with-itself',
        severity: 'error',
        message: 'folded up, top.3 runs 6.5 mm into base; make top.3 at least 6.5 mm shorter, or give it more room',
      },
    ]);
  });
  test('a third flange that ends on the base’s face only touches it', () => {
    // 30 outside less the base's wall of 1.5.
    const result = folded(
      rectangle(200, 60, { sheet: steel, edges: [{ edge: 'top', steps: [{ length: 30 }, { length: 20 }, { length: 28.5 }] }] }),
    );
    expect(result.collisions).toEqual([]);
  });
  test('a return reaches through the wall on the other side', () => {
    // 60 across outside, the return starts at one outside and is 62 long: through the far wall, 3.5 beyond its inside.
    const result = folded(
      rectangle(200, 60, {
        sheet: steel,
        edges: [
          { edge: 'top', steps: [{ length: 25 }, { length: 62 }] },
          { edge: 'bottom', steps: [{ length: 40 }] },
        ],
      }),
    );
    expect(pairs(result)).toEqual(['face:bottom.1 face:top.2']);
    expect(depths(result)).toEqual([3.5]);
  });
  test('returns from both sides at one height overlap in the middle, by a thickness at most', () => {
    const result = folded(
      rectangle(200, 40, { sheet: steel, edges: ['top', 'bottom'].map((edge) => ({ edge, steps: [{ length: 30 }, { length: 20.5 }] })) }),
    );
    // Together 41 of 40: an end of 1 to take off.
    expect(depths(result)).toEqual([1]);
    expect(result.findings[0]?.message).toContain('at least 1 mm shorter');
  });
  test('a folded strip runs into its own first leg', () => {
    const spiral = section(100, steel, [leg(30), turn('up'), leg(30), turn('up'), leg(30), turn('up'), leg(40)]);
    // The fourth leg lies along the first's end: 30 up, and 40 down past it.
    const result = folded(spiral);
    expect(pairs(result)).toEqual(['face:leg.1 face:leg.4']);
  });
  test('says the numbers at the words of the later step', () => {
    const part = rectangle(200, 60, { sheet: steel, edges: [{ edge: 'top', steps: [{ length: 30 }, { length: 20 }, { length: 35 }] }] });
    const third = part.edges[0]?.steps[2];
    expect(folded(part).findings[0]?.span).toEqual(third?.span);
  });
  test('the fix makes the flange as much shorter as it has to be', () => {
    const part = rectangle(200, 60, { sheet: steel, edges: [{ edge: 'top', steps: [{ length: 30 }, { length: 20 }, { length: 35 }] }] });
    const { blank } = layOut(part);
    if (blank === undefined) throw new Error('not laid out');
    const words = { say: (mm: number): string => `${mm.toFixed(2)} mm`, write: (mm: number): string => mm.toFixed(2) };
    expect(foldPart(part, blank, words).findings[0]?.fixes).toMatchObject([{ title: 'Make top.3 28.50 mm', edits: [{ text: '28.50' }] }]);
  });
  test('no fix is offered that would not cure: of a flange that tapers, whose ends would both have to change', () => {
    const steps = [{ length: 30 }, { length: 20 }, { length: 35, taper: 34 }];
    const [finding] = withWords(rectangle(200, 60, { sheet: steel, edges: [{ edge: 'top', steps }] }));
    expect(finding?.message).toContain('make top.3 at least 6.50 mm shorter');
    expect(finding?.fixes).toEqual([]);
  });
  test('no fix leaves a flange no longer than its bend, where a tab beyond it gives it depth', () => {
    const down = 'down' as const;
    const found = withWords(
      rectangle(226.96, 187.67, {
        sheet: sheet(0.8, 1.2, byK(0.42)),
        edges: [
          { edge: 'top', steps: [{ length: 36.9, direction: down, radius: 1.35 }] },
          {
            edge: 'left',
            steps: [
              { length: 19.22, direction: down },
              { length: 16.12, direction: down, turn: 57.02, ends: { kind: 'back', distance: 1.7 } },
              { tab: 7.45, by: 7.43 },
            ],
          },
        ],
        corners: [corner({ kind: 'lap', over: 'left', under: 'top', by: 5.5, relief: undefined }, 'top', 'left')],
      }),
    );
    const finding = found.find(({ message }) => message.startsWith('folded up, left.2 runs'));
    expect(finding?.message).toContain('into top.1');
    expect(finding?.fixes).toEqual([]);
  });
  test('no flange is to be shorter that is in the way beside its bend, where what its tip loses frees nothing', () => {
    // The lap carries the left flange, set back, across the bend of the top one, all the way up.
    const [finding] = withWords(
      rectangle(277.47, 158.06, {
        sheet: steel,
        edges: [
          { edge: 'top', steps: [{ length: 32.18, direction: 'down', radius: 2.72 }] },
          { edge: 'left', steps: [{ length: 32.25, direction: 'down', radius: 1.91, ends: { kind: 'back', distance: 2.56 } }] },
        ],
        corners: [corner({ kind: 'lap', over: 'left', under: 'top', by: 4.32, relief: undefined }, 'top', 'left')],
      }),
    );
    expect(finding?.message).toMatch(/^folded up, left\.1 runs .* into the bend of top\.1; cut the ends/);
    expect(finding?.fixes).toEqual([]);
  });

  test('runs in as deep as it is too long, for any length', () => {
    fc.assert(
      fc.property(fc.double({ min: 20.1, max: 44, noNaN: true }), (length) => {
        const result = folded(
          rectangle(200, 60, { sheet: steel, edges: [{ edge: 'top', steps: [{ length: 30 }, { length: 20 }, { length }] }] }),
        );
        const expected = length - 28.5;
        if (expected <= 0.009) expect(result.collisions).toEqual([]);
        else if (expected > 0.011) expect(result.collisions[0]?.depth).toBeCloseTo(expected, 5);
      }),
      { numRuns: runs(100) },
    );
  });
});

describe('corners of a folded tray', () => {
  test('stand apart by the diagonal of what the bends leave between the walls', () => {
    const { gaps } = folded(rectangle(200, 100, { sheet: steel, edges: each([{ length: 30 }]) }));
    // Each wall ends where its neighbour's bend begins, 3.5 from the outside; its inside face stands 1.5 from the outside, so 2 and 2 lie between.
    expect(gaps.map(({ gap }) => Math.round(gap * 1e9) / 1e9)).toEqual(
      Array.from({ length: 4 }, () => Math.round(2 * Math.SQRT2 * 1e9) / 1e9),
    );
    expect(gaps.map(({ a, b }) => `${a} ${b}`)).toEqual([
      'face:bottom.1 face:right.1',
      'face:right.1 face:top.1',
      'face:top.1 face:left.1',
      'face:left.1 face:bottom.1',
    ]);
  });
  test('are found where they are', () => {
    const { gaps, envelope } = folded(rectangle(200, 100, { sheet: steel, edges: each([{ length: 30 }]) }));
    const [first] = gaps;
    expect(first?.at.x).toBeCloseTo(envelope.max.x - 1.5 - 1, 9);
    expect(first?.at.y).toBeCloseTo(envelope.min.y + 1.5 + 1, 9);
  });
  test('are negative where walls lean into each other, by the least shift that frees them', () => {
    const { blank } = layOut(rectangle(200, 100, { sheet: steel, edges: each([{ length: 30 }]) }));
    if (blank === undefined) throw new Error('not laid out');
    // A square tray's blank bent too far: its walls, cut to stand upright, lean over one another.
    const leaning = { ...blank, bends: blank.bends.map((bend) => ({ ...bend, turn: 2 })) };
    const { gaps, collisions } = foldPart(rectangle(200, 100, { sheet: steel }), leaning);
    expect(gaps).toHaveLength(4);
    expect(collisions).toHaveLength(4);
    const deepest = [...collisions].map(({ depth }) => depth).sort((a, b) => b - a);
    expect(gaps.map(({ gap }) => -gap).sort((a, b) => b - a)).toEqual(deepest);
    expect(deepest.at(-1)).toBeGreaterThan(1);
  });
  test.each([0, 0.5, 2])('mitred with a gap of %d stand so far apart', (gap) => {
    const { gaps, collisions } = folded(
      rectangle(200, 100, { sheet: steel, edges: each([{ length: 30 }]), corners: [corner({ kind: 'mitred', gap, relief: undefined })] }),
    );
    expect(collisions).toEqual([]);
    for (const found of gaps) expect(found.gap).toBeCloseTo(gap, 9);
    expect(gaps).toHaveLength(4);
  });
  test.each(['lap', 'butt'] as const)('with one wall over the other (%s) touch and do not collide', (kind) => {
    const corners = sides.map((over, i) => {
      const under = sides[(i + 1) % 4] as string;
      return kind === 'lap'
        ? corner({ kind, over, under, by: 8, relief: undefined }, over, under)
        : corner({ kind, over, under, relief: undefined }, over, under);
    });
    const { gaps, collisions } = folded(rectangle(200, 100, { sheet: steel, edges: each([{ length: 30 }]), corners }));
    expect(collisions).toEqual([]);
    for (const { gap } of gaps) expect(gap).toBeCloseTo(0, 9);
    expect(gaps).toHaveLength(4);
  });
  test('closed by a tab are measured between the tab and the wall it lies inside', () => {
    const tabbed: readonly EdgeSketch[] = [
      { edge: 'top', steps: [{ length: 30, edges: [{ edge: 'left', steps: [{ length: 15 }] }] }] },
      { edge: 'left', steps: [{ length: 30 }] },
    ];
    const { gaps, collisions } = folded(rectangle(200, 100, { sheet: steel, edges: tabbed }));
    const tab = gaps.find(({ a }) => a === 'face:top.1.left.1');
    // The tab's outside lies where the wall's bend begins, 3.5 in; the wall itself is 1.5 thick.
    expect(tab?.gap).toBeCloseTo(2, 9);
    expect(tab?.b).toBe('face:left.1');
    expect(collisions).toEqual([]);
  });
  test('are not there between walls that do not meet', () => {
    const { gaps } = folded(
      rectangle(200, 100, { sheet: steel, edges: ['top', 'bottom'].map((edge) => ({ edge, steps: [{ length: 30 }] })) }),
    );
    expect(gaps).toEqual([]);
  });
});
