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
    expect(rowsOf(out).find(([what]) => what === 'sheet thickness')?.[2]).toMatch(/^1\/16/);
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

  it('an overlay shows both', async () => {
    writeFileSync(join(folder, 'new.planish'), gate('12', '3/4'));
    expect((await call('gate.planish', 'new.planish', '-o', 'both.svg')).out).toContain('both.svg');
    const svg = readFileSync(join(folder, 'both.svg'), 'utf8');
    expect(svg).toContain('stroke="#a03020"');
    expect(svg).toContain('old thin and dashed, new solid');
  });

  it.each([
    [['nothing.planish'], 'is not in a git repository'],
    [['nothing.planish', 'gate.planish'], 'There is no file or folder nothing.planish'],
    [[], 'wants an old version'],
    [['gate.planish', 'shop.planish', '-o', 'x.doc'], 'ends in .pdf, .svg or .png'],
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
