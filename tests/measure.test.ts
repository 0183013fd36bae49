import { describe, expect, test } from 'vitest';
import { memoryFiles } from '../server/files.js';
import { lineIndex } from '../server/lines.js';
import { measuredTree, measureJson, measureTable } from '../server/measure/index.js';
import { createProject } from '../server/project.js';

const path = '/job/plate.planish';
const text = `units millimetre
material mild { density 7850 kg/m3 }
sheet one { material mild  thickness 1  size 1000 by 2000  bend radius 1 k 0.5 }
brake bench { leaf  length 1000  least flange 30 }
panel plate {
  sheet one
  outline rectangle 100 by 60
  quantity 3
  edge top { flange 20 up }
  hole 10 at (20, 20)
  slot 10 by 30 at (60, 20)
}
panel torn { sheet one  outline rectangle 100 by }
`;
const project = createProject({ files: memoryFiles({ [path]: text }), root: '/job' });
const results = project.parts(path);
const plate = results[0];
const blank = plate?.blank.blank;
if (plate === undefined || blank === undefined) throw new Error('the sample does not lay out');

// By hand: K 0.5, R 1, T 1, 90°: allowance π/2 · 1.5 = 2.35619, deduction 2 · 2 − 2.35619 = 1.64381; height 60 + 20 − 1.64381 = 78.35619.
// Net area 100 · 78.35619 − π · 25 (hole) − (10 · 20 + π · 25) (slot) = 7835.619 − 78.540 − 278.540 = 7478.540 mm².
// Mass 7478.540 mm² · 1 mm · 7850 kg/m³ = 0.0587065 kg.
const allowance = (Math.PI / 2) * 1.5;
const height = 80 - (4 - allowance);
const area = 100 * height - 200 - 50 * Math.PI;

describe('measure --json', () => {
  const json = measureJson('plate.planish', results, project.findings(path), lineIndex(text));
  const part = json.parts[0] as { readonly blank: Readonly<Record<string, unknown>> } & Readonly<Record<string, unknown>>;

  test('says schema, file and part', () => {
    expect(json).toMatchObject({ schema: 1, file: 'plate.planish' });
    expect(part).toMatchObject({ name: 'plate', kind: 'panel', sheet: 'one', thickness_mm: 1, quantity: 3 });
  });

  test('says the blank in mm, kg and degrees', () => {
    expect(Object.keys(part.blank)).toEqual([
      'width_mm',
      'height_mm',
      'area_mm2',
      'mass_kg',
      'cut_length_mm',
      'pierces',
      'outline',
      'holes',
      'cutouts',
      'bends',
    ]);
    expect(part.blank.width_mm).toBeCloseTo(100, 6);
    expect(part.blank.height_mm).toBeCloseTo(height, 6);
    expect(part.blank.area_mm2).toBeCloseTo(area, 3);
    expect(part.blank.mass_kg).toBeCloseTo(area * 7850e-9, 6);
    expect(part.blank.pierces).toBe(3);
    expect(part.blank.cut_length_mm).toBeCloseTo(2 * (100 + height) + 10 * Math.PI + (40 + 10 * Math.PI), 3);
    expect(part.blank.holes).toEqual([{ at: [20, 20], diameter_mm: 10 }]);
    expect(part.blank.bends).toMatchObject([{ name: 'top.1', turn_deg: 90, direction: 'up', radius_mm: 1 }]);
  });

  test('gives outlines as closed lists of moves from the lower left, anticlockwise', () => {
    const outline = part.blank.outline as readonly { readonly to: readonly [number, number] }[];
    expect(outline.at(-1)?.to).toEqual([0, 0]);
    expect(outline[0]?.to[1]).toBe(0);
  });

  test('leaves out what could not be worked out, and tells why from line 1', () => {
    expect(json.parts[1]).not.toHaveProperty('blank');
    const short = json.findings.find(({ rule }) => rule === 'brake/flange-too-short');
    expect(short).toMatchObject({ file: 'plate.planish', line: 9, column: 21, endLine: 9, endColumn: 23, severity: 'error' });
    expect(json.findings.some(({ line }) => line === 13)).toBe(true);
  });
});

describe('the same properties elsewhere', () => {
  test('as values of the language', () => {
    const tree = measuredTree(plate.part, blank) as Readonly<Record<string, Readonly<Record<string, unknown>>>>;
    expect(tree.blank?.height).toMatchObject({ kind: 'number', value: expect.closeTo(height, 6), bare: false });
    expect(tree.mass).toMatchObject({ kind: 'number', value: expect.closeTo(area * 7850e-9, 8) });
    expect(tree.bends).toMatchObject({ top: { 1: { allowance: { value: expect.closeTo(allowance, 9) } } } });
    expect(tree.sheet).toMatchObject({ thickness: { value: 1 }, name: { kind: 'text', text: 'one' } });
  });

  test('as rows for people', () => {
    const rows = measureTable(plate.part, blank, { name: 'millimetre', mm: 1 });
    expect(rows.find((row) => row.path === 'plate.blank.height')?.text).toBe('78.4 mm');
    expect(rows.find((row) => row.path === 'plate.bends.top.1.turn')?.text).toBe('90°');
  });
});

describe('the folded part', () => {
  test('is measured along x, along y and square to its base', () => {
    // 100 by 60 outside with a flange of 20 up.
    const json = measureJson('plate.planish', results, [], lineIndex(text));
    expect((json.parts[0] as { readonly folded: unknown }).folded).toEqual({ envelope_mm: [100, 60, 20], collides: false });
  });
  test('can be checked in the text', () => {
    const checked = createProject({
      files: memoryFiles({ [path]: `${text}check plate.folded.depth = 20\ncheck plate.folded.depth < 15\n` }),
      root: '/job',
    });
    expect(
      checked
        .findings(path)
        .map(({ rule }) => rule)
        .filter((rule) => rule.startsWith('check/')),
    ).toEqual(['check/failed']);
  });
});
