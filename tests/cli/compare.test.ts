import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Io } from '../../server/cli/io.js';
import { runProgram } from '../../server/cli/program.js';

const shop = `units inch
material mild_steel { density 7850 kg/m3 }
sheet crs_18 { material mild_steel  thickness 0.048  bend radius 1/16 k 0.42 }
`;
const gate = (height: string, flange: string): string => `with "shop.planish"
units inch
panel gate {
  sheet crs_18
  outline rectangle 30 by ${height}
  edge top { flange ${flange} down }
  hole 1/4 at (2, 2)
}
panel stay { sheet crs_18  outline rectangle 4 by 2 }
`;

let folder = '';
const git = (...words: readonly string[]): void => {
  execFileSync('git', ['-c', 'user.name=bench', '-c', 'user.email=bench@example.invalid', ...words], { cwd: folder, stdio: 'ignore' });
};
const call = async (...argv: readonly string[]): Promise<{ readonly code: number; readonly out: string; readonly errors: string }> => {
  let [out, errors] = ['', ''];
  const io: Io = {
    write: (text) => {
      out += text;
    },
    writeError: (text) => {
      errors += text;
    },
    cwd: folder,
    columns: Number.POSITIVE_INFINITY,
    colour: false,
    interactive: false,
  };
  const code = await runProgram(['compare', ...argv], io);
  return { code, out, errors };
};
/** Rows of the printed tables: what, old, new. */
const rowsOf = (out: string): readonly (readonly string[])[] =>
  out
    .split('\n')
    .filter((line) => line.startsWith('│'))
    .map((line) =>
      line
        .split('│')
        .slice(1, -1)
        .map((cell) => cell.trim()),
    );

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'planish-compare-'));
  writeFileSync(join(folder, 'shop.planish'), shop);
  writeFileSync(join(folder, 'gate.planish'), gate('11', '3/4'));
  return () => rmSync(folder, { recursive: true, force: true });
});

describe('planish compare', () => {
  it('tells what was written differently, and what follows from it', async () => {
    writeFileSync(join(folder, 'new.planish'), gate('12', '3/4'));
    const { code, out } = await call('gate.planish', 'new.planish');
    expect(code).toBe(0);
    const rows = rowsOf(out);
    expect(rows).toContainEqual(['outline height', '11 in', '12 in']);
    const [, before, after] = rows.find(([what]) => what === 'blank: height') ?? [];
    // One inch more of panel is one inch more of blank.
    expect([before, after].map((text) => Number((text ?? '').split(' ')[0]))).toEqual([11, 12]);
    expect(rows.some(([what]) => what?.includes('hole.1'))).toBe(false);
    expect(out).toContain('1 changed, 1 the same.');
  });

  it('against the committed version, with the shop as it was then', async () => {
    git('init', '-q');
    git('add', '.');
    git('commit', '-q', '-m', 'first');
    expect((await call('gate.planish')).out).toBe('Nothing changed: 2 parts are the same.\n');
    writeFileSync(join(folder, 'shop.planish'), shop.replace('0.048', '0.060'));
    writeFileSync(join(folder, 'gate.planish'), gate('11', '7/8'));
    const { out } = await call('gate.planish');
    expect(rowsOf(out)).toContainEqual(['edge top, flange top.1: length', '3/4 in', '7/8 in']);
    expect(rowsOf(out)).toContainEqual(['sheet thickness', '0.048 in', '0.060 in']);
    // The other part's sheet is thicker too.
    expect(out).toContain('2 changed, 0 the same.');
  });

  it('revisions and folders; parts that came and went', async () => {
    mkdirSync(join(folder, 'parts'));
    writeFileSync(join(folder, 'parts/a.planish'), gate('11', '3/4').replace('shop.planish', '../shop.planish'));
    git('init', '-q');
    git('add', '.');
    git('commit', '-q', '-m', 'first');
    writeFileSync(
      join(folder, 'parts/a.planish'),
      gate('11', '3/4').replace('shop.planish', '../shop.planish').replace('panel stay', 'panel brace'),
    );
    const { out } = await call('HEAD:parts', 'parts', '--json');
    const parsed = JSON.parse(out) as { readonly parts: readonly { readonly name: string; readonly state: string }[] };
    expect(parsed.parts.map(({ name, state }) => [name, state])).toEqual([
      ['gate', 'same'],
      ['stay', 'removed'],
      ['brace', 'added'],
    ]);
  });

  it('pieces and straps: lengths, ends, bends and eyes, and what follows from them', async () => {
    const frame = (length: string, end: string, wrap: string): string => `units inch
material mild_steel { density 7850 kg/m3 }
tube square_1 { material mild_steel  square 1  wall 0.065  length 20 ft }
bar flat_1 { material mild_steel  flat 1 by 1/8  length 20 ft }
piece rail { tube square_1  length ${length}  end both ${end}  hole 1/4 through at (2, 1/2)  bend at 10 by 30 radius 4 }
strap eye { bar flat_1  round pin 3/8  wrap ${wrap}  tail 2 }
`;
    writeFileSync(join(folder, 'old.planish'), frame('30', 'mitre 45', '180'));
    writeFileSync(join(folder, 'new.planish'), frame('31', 'mitre 30', '270'));
    const { out } = await call('old.planish', 'new.planish', '-o', 'both.svg');
    const rows = rowsOf(out);
    expect(rows).toContainEqual(['length', '30 in', '31 in']);
    expect(rows).toContainEqual(['start', 'mitre 45°', 'mitre 30°']);
    // By hand: 30 − 2 · 1 · tan 45°; 31 − 2 · tan 30° = 29.8453 in.
    expect(rows).toContainEqual(['short length', '28 in', '29 27/32 in']);
    expect(rows).toContainEqual(['wrap', '180°', '270°']);
    // By hand: 2 + π/4 = 2.7854 in; 2 + 3π/8 = 3.1781 in.
    expect(rows).toContainEqual(['length', '2 25/32+ in', '3 11/64+ in']);
    expect(rows.some(([what]) => what?.startsWith('hole.1') || what?.startsWith('bend'))).toBe(false);
    expect(readFileSync(join(folder, 'both-rail.svg'), 'utf8')).toContain('stroke="#a03020"');
  });

  it('what the sheet says is told as written, each change once; the order of the bends when it is another', async () => {
    const box = (radius: string, flange: string): string => `units inch
material mild_steel { density 7850 kg/m3  tensile 330 MPa }
sheet crs_18 { material mild_steel  thickness 0.048  bend radius ${radius} k 0.42 }
brake bench_leaf {
  leaf  length 36  capacity 0.06 of mild_steel  least flange 3/8  greatest turn 140  jaw 2
  nose (0, 0), (-5/8, 1), (-3/4, 4), (-4, 6), (-5, 6), (-1 1/8, 3), (-1 1/8, 0)
  bed (0, 0), (-5, 0), (-5, -3), (-1/2, -3)
  apron (0, 0), (1/2, 0), (1/2, -2 1/2), (0, -2 1/2)
}
panel lid { sheet crs_18  outline rectangle 12 by 8  edge top { flange 1 up  flange ${flange} up } }
`;
    writeFileSync(join(folder, 'old.planish'), box('1/16', '1/2'));
    writeFileSync(join(folder, 'new.planish'), box('3/32', '1/2'));
    const rows = rowsOf((await call('old.planish', 'new.planish')).out);
    expect(rows).toContainEqual(['sheet bend radius', '1/16 in', '3/32 in']);
    expect(rows.filter(([what]) => what?.includes('thickness') || what?.includes('turn'))).toEqual([]);
    writeFileSync(
      join(folder, 'new.planish'),
      box('1/16', '1/2').replace('edge top { flange 1 up  flange 1/2 up }', 'edge top, left { flange 1 up }'),
    );
    const order = rowsOf((await call('old.planish', 'new.planish')).out).find(([what]) => what === 'order of bending');
    expect(order?.[1]).toBe('top.2, top.1 on bench_leaf');
    expect(order?.[2]).toMatch(/^(top\.1, left\.1|left\.1, top\.1) on bench_leaf$/);
  });

  it('an overlay shows both', async () => {
    writeFileSync(join(folder, 'new.planish'), gate('12', '3/4'));
    expect((await call('gate.planish', 'new.planish', '-o', 'both.svg')).out).toContain('both.svg');
    const svg = readFileSync(join(folder, 'both.svg'), 'utf8');
    expect(svg).toContain('stroke="#a03020"');
    expect(svg).toContain('old thin and dashed, new solid');
    await call('gate.planish', 'new.planish', '-o', 'changes.html');
    const html = readFileSync(join(folder, 'changes.html'), 'utf8');
    for (const words of ['Old: gate.planish. New: new.planish.', 'outline height', 'stroke="#a03020"']) expect(html).toContain(words);
    await call('gate.planish', 'new.planish', '-o', 'changes.pdf');
    expect(readFileSync(join(folder, 'changes.pdf'), 'latin1')).toMatch(/^%PDF/);
  });

  it.each([
    [['nothing.planish'], 'is not in a git repository'],
    [['nothing.planish', 'gate.planish'], 'There is no file or folder nothing.planish'],
    [[], 'wants an old version'],
    [['gate.planish', 'shop.planish', '-o', 'x.doc'], 'ends in .pdf, .html, .svg or .png'],
  ])('%j is answered with what is wrong', async (argv, words) => {
    const { code, errors } = await call(...argv);
    expect(code).toBe(2);
    expect(errors).toContain(words);
  });

  it('a revision that is not there', async () => {
    git('init', '-q');
    git('add', '.');
    git('commit', '-q', '-m', 'first');
    expect((await call('v9:gate.planish', 'gate.planish')).errors).toContain('There is no revision v9');
    expect((await call('HEAD:door.planish', 'gate.planish')).errors).toContain('HEAD holds no part file at door.planish');
  });
});
