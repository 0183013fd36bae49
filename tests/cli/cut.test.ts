import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import DxfParser from 'dxf-parser';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Io } from '../../server/cli/io.js';
import { runProgram } from '../../server/cli/program.js';

const shop = `units millimetre
currency "£"
material mild_steel { density 7850 kg/m3 }
sheet crs_12 { material mild_steel  thickness 1.2  size 1000 by 2000  bend radius 1.2 k 0.42  price 40  stocked 1  offcut 320 by 220 }
tube square_25 { material mild_steel  square 25  wall 2  length 6 m  price 21 }
bar flat_25 { material mild_steel  flat 25 by 3  length 3 m }
saw cold_saw { kerf 2 }
`;
const job = `with "shop.planish"
units millimetre
panel lid { sheet crs_12  outline rectangle 300 by 200  quantity 1 }
panel door { sheet crs_12  outline rectangle 700 by 900  quantity 2 and 1 opposite hand }
piece rail { tube square_25  length 1500  end both mitre 45  quantity 4 }
strap eye { bar flat_25  round pin 10  wrap 270  tail 40  quantity 2 }
panel broken { outline rectangle 100 by 50 }
`;

let folder = '';
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
  return { code: await runProgram(['cut', ...argv], io), out, errors };
};
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'planish-cut-'));
  writeFileSync(join(folder, 'shop.planish'), shop);
  writeFileSync(join(folder, 'job.planish'), job);
  return () => rmSync(folder, { recursive: true, force: true });
});

/** `a,b` lines as records by the head's names. */
const records = (csv: string): readonly Readonly<Record<string, string>>[] => {
  const [head = [], ...rows] = csv
    .trim()
    .split('\r\n')
    .map((line) => line.split(','));
  return rows.map((row) => Object.fromEntries(row.map((cell, i) => [head[i] ?? '', cell])));
};

describe('planish cut', () => {
  it('says what to buy: remnants first, then what is at hand', async () => {
    const { code, out } = await call('--csv', '--seconds', '2');
    // One part names no sheet, and that is a finding.
    expect(code).toBe(1);
    const rows = records(out.replaceAll('"', ''));
    // The lid goes on the remnant. Three doors of 700 × 900 do not go two abreast on 1000, so two lie on one sheet of 2000 and the third takes another.
    const sheets = rows.filter(({ stock }) => stock === 'crs_12');
    expect(sheets.find(({ size }) => size === 'remnants')?.remnants).toBe('1');
    expect(sheets.find(({ remnants }) => remnants === '0')).toMatchObject({
      needed: '2',
      at_hand: '1',
      to_buy: '1',
      price_each: '40',
      cost: '40',
    });
    // By hand: 2 × 1000 × 2000 × 1.2 mm³ at 7850 kg/m³.
    expect(Number(sheets.find(({ remnants }) => remnants === '0')?.mass_kg)).toBeCloseTo(37.68, 3);
    // Four rails of 1500 that share their mitres: 1500 + 3 × (1500 − 25 + 2) = 5931 of 6000.
    expect(rows.find(({ stock }) => stock === 'square_25')).toMatchObject({ needed: '1', to_buy: '1', cost: '21' });
    expect(rows.find(({ stock }) => stock === 'flat_25')).toMatchObject({ needed: '1' });
  });

  it('a table for people, with what is left out and why', async () => {
    const { out } = await call('--seconds', '1');
    expect(out).toContain('£40.00');
    expect(out).toContain('broken: it names no sheet.');
    expect(out).toContain('no other way of cutting buys less');
    expect(out).toMatch(/square_25: rail 1500 mm, rail 1500 mm, rail 1500 mm, rail 1500 mm/);
  });

  it('a folder gets the list, the bill, and every sheet to cut', async () => {
    await call('--seconds', '1', '-o', 'list');
    const written = readdirSync(join(folder, 'list')).sort();
    expect(written).toEqual([
      'bill.csv',
      'crs_12-1.dxf',
      'crs_12-1.svg',
      'crs_12-2.dxf',
      'crs_12-2.svg',
      'crs_12-3.dxf',
      'crs_12-3.svg',
      'cutting-list.html',
      'cutting-list.pdf',
    ]);
    expect(readFileSync(join(folder, 'list/cutting-list.pdf'), 'latin1')).toMatch(/^%PDF/);
    const html = readFileSync(join(folder, 'list/cutting-list.html'), 'utf8');
    expect(html).not.toMatch(/(?:src|href)=["']?http|<script/);
    const pieces = written
      .filter((name) => name.endsWith('.dxf'))
      .map(
        (name) =>
          new DxfParser().parseSync(readFileSync(join(folder, 'list', name), 'latin1'))?.entities.filter(({ layer }) => layer === 'cut')
            .length,
      );
    expect(pieces.reduce((sum: number, count) => sum + (count ?? 0), 0)).toBe(4);
  });

  it('the same seed and enough time give the same layout', async () => {
    writeFileSync(join(folder, 'job.planish'), job.replace('panel broken { outline rectangle 100 by 50 }\n', ''));
    const first = await call('--seconds', '2', '-o', 'a');
    await call('--seconds', '2', '-o', 'b');
    expect(first.code).toBe(0);
    expect(readFileSync(join(folder, 'a/bill.csv'), 'utf8')).toBe(readFileSync(join(folder, 'b/bill.csv'), 'utf8'));
  });

  it('twice the job', async () => {
    const rows = records((await call('--csv', '--seconds', '1', '--times', '2')).out.replaceAll('"', ''));
    expect(rows.find(({ stock }) => stock === 'square_25')).toMatchObject({ needed: '2' });
  });

  it.each([
    [['--kerf', 'thick'], '--kerf is a size such as 3, 3mm or 1/8in'],
    [['--times', '0'], '--times is a number from 1'],
    [['-o', 'list.doc'], 'A cutting list ends in .pdf, .html or .csv'],
    [['nowhere'], 'There is no file or folder nowhere.'],
  ])('%j', async (argv, words) => {
    const { code, errors } = await call('--seconds', '0', ...argv);
    expect(code).toBe(2);
    expect(errors).toContain(words);
  });
});
