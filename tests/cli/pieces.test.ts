/** Pieces and straps on the command line: measured, drawn, and held to their own checks. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folder, planish, read } from './bench.js';

const text = (check = ''): string => `units millimetre
material mild_steel { density 7850 kg/m3 }
tube round_25 { material mild_steel  round 25  wall 2  length 6 m }
tube round_40 { material mild_steel  round 40  wall 2  length 6 m }
bar flat_25 { material mild_steel  flat 25 by 4  length 3 m }
piece stay {
  tube round_25
  length 800
  end start cope onto round_40 at 60
  end finish mitre 30
  bend at 300 by 45 radius 100
  hole 8 through at (100, 12.5)
  ${check}
}
strap clamp { bar flat_25  round pin 40  wrap 180  tail 30 and 20 }
`;

describe('measuring pieces', () => {
  it('as data: lengths, ends, bends, eye', async () => {
    const cwd = folder({ 'a.planish': text() });
    const { parts } = JSON.parse((await planish(cwd, ['measure', 'a.planish', '--json'])).text) as {
      readonly parts: readonly Record<string, unknown>[];
    };
    const [stay, clamp] = parts;
    // By hand: a cope at 60° of 12.5 on 20 reaches from (√(20² − 12.5² sin²φ) + 12.5 cos φ cos 60°)/sin 60° least to (20 + 6.25)/sin 60° = 30.311.
    const least = Math.min(
      ...Array.from({ length: 3601 }, (_, i) => {
        const round = (i / 3600) * Math.PI;
        return (Math.sqrt(20 ** 2 - (12.5 * Math.sin(round)) ** 2) + 12.5 * Math.cos(round) * 0.5) / Math.sin(Math.PI / 3);
      }),
    );
    const run = 26.25 / Math.sin(Math.PI / 3) - least;
    const mitre = 25 * Math.tan(Math.PI / 6);
    expect(stay).toMatchObject({ name: 'stay', kind: 'piece', stock: 'round_25', quantity: 1, length_mm: 800 });
    expect(stay?.short_length_mm).toBeCloseTo(800 - run - mitre, 3);
    // Half of each sloping end is cut away, of a ring of 25 outside and 21 inside.
    expect(stay?.mass_kg).toBeCloseTo((800 - (run + mitre) / 2) * ((Math.PI / 4) * (25 ** 2 - 21 ** 2)) * 7.85e-6, 5);
    expect(stay?.ends).toMatchObject({
      start: { cut: 'cope', angle_deg: 60, onto: 'round_40' },
      finish: { cut: 'mitre', angle_deg: 30, run_mm: expect.closeTo(mitre, 5) as number },
    });
    expect(stay?.bends).toEqual([
      { name: '1', from_mm: 300, to_mm: expect.closeTo(300 + 25 * Math.PI, 5) as number, turn_deg: 45, radius_mm: 100, turned_deg: 0 },
    ]);
    expect(stay?.holes).toEqual([{ at: [100, 12.5], diameter_mm: 8 }]);
    // By hand: π (20 + 2) + 30 + 20.
    expect(clamp).toMatchObject({ kind: 'strap', length_mm: expect.closeTo(Math.PI * 22 + 50, 5) as number, tails_mm: [30, 20] });
    expect(clamp?.eye).toMatchObject({ pin_mm: 40, clear_mm: 0, wrap_deg: 180, length_mm: expect.closeTo(Math.PI * 22, 5) as number });
  });

  it('for people', async () => {
    const cwd = folder({ 'a.planish': text() });
    const { text: out } = await planish(cwd, ['measure', 'a.planish', 'stay']);
    expect(out).not.toContain('no blank');
    expect(out).toMatch(/length to cut +│ +800 mm │ stay\.length/);
    expect(out).toMatch(/start: onto +│ +round_40 │ stay\.start\.onto/);
    expect(out).toMatch(/│ 1 +│ 300 mm │ 378\.5 mm │ 45° +│ 100 mm +│/);
  });

  it('in the part’s own checks', async () => {
    const cwd = folder({
      'good.planish': text('check stay.length = 800  check stay.finish.run < 15 mm'),
      'bad.planish': text('check stay.mass < 0.5 kg "too heavy"'),
    });
    expect((await planish(cwd, ['check', 'good.planish'])).code).toBe(0);
    const bad = await planish(cwd, ['check', 'bad.planish']);
    expect(bad.code).toBe(1);
    expect(bad.text).toContain('too heavy');
  });
});

describe('patterns of pieces', () => {
  it('a folder gets drawings as SVG and PDF', async () => {
    const cwd = folder({ 'a.planish': text() });
    const { code, text: out } = await planish(cwd, ['pattern', 'a.planish', '-o', 'out/']);
    expect([code, out.trim().split('\n').sort()]).toEqual([0, ['out/clamp.pdf', 'out/clamp.svg', 'out/stay.pdf', 'out/stay.svg']]);
    expect(read(cwd, 'out/clamp.svg').includes('tail 30')).toBe(true);
    expect(read(cwd, 'out/stay.svg').includes('cope 60° onto round_40')).toBe(true);
  });

  it.each([
    [['clamp', '-o', 'clamp.dxf'], 'clamp is a strap: its drawing comes as .svg, .pdf or .png.'],
    [['stay', '-o', 'stay.svg', '--view', 'folded'], 'stay is a piece: it has no folded view.'],
  ])('%j is answered with what there is', async (argv, words) => {
    const cwd = folder({ 'a.planish': text() });
    const { code, errors } = await planish(cwd, ['pattern', 'a.planish', ...argv]);
    expect(code).toBe(1);
    expect(errors).toContain(words);
    expect(existsSync(join(cwd, argv[2] ?? ''))).toBe(false);
  });
});
