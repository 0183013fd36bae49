import { describe, expect, test } from 'vitest';
import { memoryFiles } from '../server/files.js';
import { lineIndex } from '../server/lines.js';
import { measureJson, measureTable } from '../server/measure/index.js';
import { createProject } from '../server/project.js';

const path = '/job/door.planish';
/** A flat panel with two beads right across it, 120 and 380 mm up; the roller reaches 200 mm. */
const door = (...checks: readonly string[]): string => `units millimetre
material mild_steel { density 7850 kg/m3  modulus 205 GPa  elongation 34 % }
sheet steel_10 { material mild_steel  thickness 1  bend radius 1 k 0.42 }
die round_10 { round  width 10  depth 2  per pass 1 }
roller hand_roller { throat 200  arm 60 }
panel door {
  sheet steel_10
  outline rectangle 600 by 500
  repeat 2 every 260 along y {
    bead rib { die round_10  up  line from (0, 120) to (600, 120)  ends run off }
  }
  load spread 0.00001 MPa held all simply
${checks.map((check) => `  ${check}\n`).join('')}}
`;
const project = (text: string) => createProject({ files: memoryFiles({ [path]: text }), root: '/job' });
const rules = (text: string): readonly string[] =>
  project(text)
    .findings(path)
    .map(({ rule }) => rule);

describe('what is measured of beads', () => {
  test('in a file, one by one and of all copies', () => {
    expect(
      rules(
        door(
          'check door.beads.rib.1.length = 600',
          'check door.beads.rib.1.reach = 120',
          'check door.beads.rib.2.reach = 120',
          'check max(door.beads.rib.all.reach) = 120',
          'check door.beads.rib.1.throat = 200',
          'check door.beads.rib.1.passes = 2',
          'check door.beads.rib.1.fits',
          'check sum(door.beads.rib.all.draw_in) > 0.5',
          'check door.beads.rib.1.draw_in < door.beads.rib.1.draw_in_most',
          'check door.stiffness.ratio > 1',
          'check door.stiffness.deflection < door.stiffness.flat_deflection',
        ),
      ),
    ).toEqual([]);
    expect(rules(door('check door.beads.rib.1.reach <= 100'))).toEqual(['check/failed']);
    expect(rules(door('check door.beads.ribb.1.reach <= 100'))).toEqual(['name/unknown-property']);
  });
  test('as JSON, and as rows', () => {
    const text = door();
    const results = project(text).parts(path);
    const [part] = measureJson('door.planish', results, [], lineIndex(text)).parts as unknown as [
      { beads: readonly Readonly<Record<string, unknown>>[]; stiffness: Readonly<Record<string, number>> },
    ];
    expect(part.beads.map(({ name }) => name)).toEqual(['rib.1', 'rib.2']);
    expect(part.beads[0]).toMatchObject({ die: 'round_10', length_mm: 600, reach_mm: 120, throat_mm: 200, passes: 2, fits: true });
    expect(part.beads[0]?.draw_in_mm).toBeGreaterThan(0.2);
    expect(part.stiffness.ratio).toBeGreaterThan(1);
    expect(part.stiffness.first_mode_hz).toBeGreaterThan(0);
    const [result] = results;
    if (result === undefined) throw new Error('no part');
    const rows = measureTable(result.part, result.blank.blank, { name: 'millimetre', mm: 1 }, 64, result.beads);
    expect(rows.find((row) => row.path === 'door.beads.rib.2.fits')?.text).toBe('yes');
    expect(rows.find((row) => row.path === 'door.beads.rib.2.reach')?.text).toBe('120 mm');
  });
  test('is left out for parts without beads', () => {
    const text = 'units millimetre\nsheet s { thickness 1 }\npanel p { sheet s\n outline rectangle 60 by 50 }\n';
    const [part] = measureJson('p.planish', project(text).parts(path), [], lineIndex(text)).parts;
    expect(part).not.toHaveProperty('beads');
    expect(part).not.toHaveProperty('stiffness');
  });
});

describe('the flat panel’s first note', () => {
  // (π/2)(1/a² + 1/b²) √(D/ρt), simply held: D = 205 000 / (12 · 0.91) = 18 772.9 N mm, ρt = 7.85e-9 t/mm², a = b = 500 mm: 19.43 Hz.
  // Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, thin plate simply supported on four edges.
  test('of 500 by 500 by 1 mm steel is 19.43 Hz', () => {
    const text = door()
      .replace('600 by 500', '500 by 500')
      .replace(/ {2}repeat[\s\S]*?\n {2}\}\n/, '');
    const [part] = measureJson('d.planish', project(text).parts(path), [], lineIndex(text)).parts as unknown as [
      { stiffness: Readonly<Record<string, number>> },
    ];
    expect(part.stiffness.first_mode_hz).toBeCloseTo(19.43, 1);
    expect(part.stiffness.ratio).toBe(1);
  });
});
