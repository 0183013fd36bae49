import { describe, expect, it } from 'vitest';
import { memoryFiles } from '../../server/files.js';
import type { Piece, Strap } from '../../server/model/part.js';
import { createProject } from '../../server/project.js';

const shop = `units inch
material mild_steel { density 7850 kg/m3 }
tube square_1  { material mild_steel  square 1  wall 0.065  length 20 ft  offcut 30 times 2 }
tube round_1   { material mild_steel  round 1   wall 0.065  length 20 ft  price 18  stocked 3 }
bar flat_1     { material mild_steel  flat 1 by 1/8  length 20 ft }
angle angle_1  { material mild_steel  legs 1 by 1  thickness 1/8  length 20 ft }
saw cold_saw   { kerf 3/32 }
`;
const read = (text: string): { readonly part: unknown; readonly said: readonly string[] } => {
  const project = createProject({ files: memoryFiles({ '/bench/a.planish': `${shop}${text}` }), root: '/bench' });
  const part = project.parts('/bench/a.planish')[0]?.part;
  return { part, said: project.findings('/bench/a.planish').map(({ rule, message }) => `${rule}: ${message}`) };
};
const inch = 25.4;

describe('a piece', () => {
  it('its stock, its length, its ends, bends and holes', () => {
    const { part, said } = read(`piece top_rail {
  tube round_1
  length 30
  end start mitre 45
  end finish cope onto round_1 at 60
  hole 9/32 through at (6, 1/2), (24, 1/2)
  quantity 2
}`);
    expect(said).toEqual([]);
    const piece = part as Piece;
    expect(piece.kind).toBe('piece');
    expect(piece.broken).toBe(false);
    expect(piece.stock?.value.shape).toEqual({ kind: 'round tube', diameter: inch, wall: 0.065 * inch });
    expect(piece.length?.value).toBeCloseTo(30 * inch, 9);
    expect(piece.startEnd).toMatchObject({ kind: 'mitre', angle: Math.PI / 4 });
    expect(piece.finishEnd).toMatchObject({ kind: 'cope', onto: { name: 'round_1', stocked: 3, price: 18 }, angle: Math.PI / 3 });
    expect(piece.cuts.map(({ at }) => Math.round((at.x / inch) * 1e9) / 1e9)).toEqual([6, 24]);
    expect(piece.saws.map(({ kerf }) => kerf)).toEqual([(3 / 32) * inch]);
    expect(piece.quantity).toBe(2);
  });

  it('square tube, and remnants of it', () => {
    const { part } = read('piece rail { tube square_1  length 30 }');
    const stock = (part as Piece).stock?.value;
    expect(stock?.shape).toEqual({ kind: 'square tube', width: inch, height: inch, wall: 0.065 * inch });
    expect(stock?.offcuts).toEqual([{ width: 30 * inch, height: 0, count: 2 }]);
  });

  it('both ends at once, and bends', () => {
    const { part, said } = read(`piece bow {
  tube round_1
  length 60
  end both square
  bend at 20 by 90 radius 3
  bend at 40 by 90 radius 3 turned 180
}`);
    expect(said).toEqual([]);
    expect((part as Piece).bends.map(({ at, turned }) => [at / inch, turned])).toEqual([
      [20, 0],
      [40, Math.PI],
    ]);
  });

  it.each([
    ['piece rail { tube squar_1  length 30 }', 'name/unknown'],
    ['piece rail { bar square_1  length 30 }', 'name/other-kind: square_1 is a tube, not a bar.'],
    [
      'piece rail { tube square_1  length 30  end start mitre 90 }',
      'A mitre is counted from square: more than 0° and 85° at most, and this is 90°.',
    ],
    ['piece rail { tube square_1  length 30  end both square  end start mitre 45 }', 'How the start is cut is said already'],
    ['piece rail { tube square_1  length -3 }', 'The length must be more than 0, not -3 in'],
    ['piece rail { tube square_1  bar flat_1  length 3 }', 'A piece is cut from one stock'],
  ])('%s', (text, words) => expect(read(text).said.join('\n')).toContain(words));
});

describe('a strap', () => {
  it('the pin, the wrap, the tails', () => {
    const { part, said } = read(`strap hinge_eye {
  bar flat_1
  round pin 3/8 clear 1/64
  wrap 270
  tail 1 1/2 and 1/2
  quantity 4
}`);
    expect(said).toEqual([]);
    const strap = part as Strap;
    expect([strap.pin, strap.clear, ...strap.tails].map((mm) => Math.round(((mm ?? 0) / inch) * 1e9) / 1e9)).toEqual([
      3 / 8,
      1 / 64,
      1.5,
      0.5,
    ]);
    expect(strap.wrap).toBeCloseTo(1.5 * Math.PI, 12);
  });
  it('cannot go round more than once', () =>
    expect(read('strap eye { bar flat_1  round pin 3/8  wrap 400  tail 1 }').said.join()).toContain('more than 0° and less than 360°'));
});

describe('stock', () => {
  it.each([
    ['tube t { material mild_steel  square 1 }', "t doesn't say how thick its wall is. Add wall 1.5."],
    ['tube t { material mild_steel  wall 0.065 }', "t doesn't say its outside size"],
    ['tube t { material mild_steel  square 1  wall 5/8 }', 'leaves nothing hollow'],
    ['rod r { material mild_steel }', "r doesn't say its diameter. Add round 10."],
    ['angle a { legs 1 by 1 }', "a doesn't say how thick it is"],
  ])('%s', (text, words) => expect(read(text).said.join('\n')).toContain(words));
  it('further sheet sizes and remnants', () => {
    const text = `sheet crs_18 { material mild_steel  thickness 0.048  size 48 by 96  price 58  also 36 by 96 costing 40 times 2  offcut 20 by 31 times 2 }
panel lid { sheet crs_18  outline rectangle 20 by 10 }`;
    const { part, said } = read(text);
    expect(said).toEqual([]);
    const sheet = (part as { readonly sheet: { readonly value: { readonly sizes: unknown; readonly offcuts: unknown } } }).sheet.value;
    expect(sheet.sizes).toEqual([{ width: 36 * inch, height: 96 * inch, price: 40, stocked: 2 }]);
    expect(sheet.offcuts).toEqual([{ width: 20 * inch, height: 31 * inch, count: 2 }]);
  });
});
