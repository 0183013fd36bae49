import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
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
    .replace('\ufeff', '')
    .trim()
    .split('\r\n')
    .map((line) => line.split(','));
  return rows.map((row) => Object.fromEntries(row.map((cell, i) => [head[i] ?? '', cell])));
};

/** Quick, and the same on every machine. */
const quick = ['--rounds', '2'];

describe('planish cut', () => {
  it('says what to buy: remnants first, then what is at hand', async () => {
    const { code, out } = await call('--csv', ...quick);
    // One part names no sheet, and that is a finding.
    expect(code).toBe(1);
    const rows = records(out);
    const sheets = rows.filter(({ stock }) => stock === 'crs_12');
    // The lid goes on the remnant.
    expect(sheets.find(({ kind }) => kind === 'sheet remnant')).toMatchObject({
      width_mm: '320',
      length_mm: '220',
      needed: '1',
      to_buy: '0',
      cost: '',
    });
    // Three doors of 700 × 900 do not go two abreast on 1000, so two lie on one sheet of 2000 and the third takes another; one is at hand.
    expect(sheets.find(({ kind }) => kind === 'sheet')).toMatchObject({
      width_mm: '1000',
      length_mm: '2000',
      needed: '2',
      at_hand: '1',
      to_buy: '1',
      price_each: '40',
      cost: '40',
      currency: '£',
    });
    // By hand: 2 × 1000 × 2000 × 1.2 mm³ at 7850 kg/m³.
    expect(Number(sheets.find(({ kind }) => kind === 'sheet')?.mass_kg)).toBeCloseTo(37.68, 3);
    // Four rails of 1500 that share their mitres: 1500 + 3 × (1500 − 25 + 2) = 5931 of 6000.
    expect(rows.find(({ stock }) => stock === 'square_25')).toMatchObject({ needed: '1', to_buy: '1', cost: '21', length_mm: '6000' });
    expect(rows.find(({ stock }) => stock === 'flat_25')).toMatchObject({ needed: '1', price_each: '' });
  });

  it('a table for people, with what is left out and why', async () => {
    const { out } = await call(...quick);
    expect(out).toContain('£40.00');
    expect(out).toContain('broken: it names no sheet.');
    expect(out).toContain('no other way of cutting buys less');
    expect(out).toContain('square_25: 4 × rail 1500 mm');
    expect(out).toContain('both mitre 45°');
  });

  it('a folder gets the list, its tables, and every sheet to cut', async () => {
    await call(...quick, '-o', 'list');
    const written = readdirSync(join(folder, 'list')).sort();
    expect(written).toEqual([
      'bill.csv',
      ...['1', '2', '3'].flatMap((sheet) => ['dxf', 'pdf', 'svg'].map((ending) => `crs_12-${sheet}.${ending}`)),
      'cutting-list.html',
      'cutting-list.pdf',
      'lengths.csv',
      'parts.csv',
      'sheets.csv',
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
    const parts = records(readFileSync(join(folder, 'list/parts.csv'), 'utf8'));
    expect(parts.map(({ part, quantity, opposite_hand }) => [part, quantity, opposite_hand])).toEqual([
      ['lid', '1', '0'],
      ['door', '2', '1'],
      ['rail', '4', '0'],
      ['eye', '2', '0'],
    ]);
    // By hand: (1500 − 25) of 25 × 25 × 2 tube; its section by EN 10219-2 annex B is 2·2·(50 − 4) − (4 − π)(4² − 2²) = 173.7 mm².
    expect(Number(parts[2]?.mass_each_kg)).toBeCloseTo(1475 * 173.699 * 7.85e-6, 4);
    expect(parts[2]).toMatchObject({ length_mm: '1500', start: 'mitre 45', finish: 'mitre 45' });
  });

  it('nested sheets are as large in every drawing as they are', async () => {
    await call(...quick, '-o', 'list');
    // Whole sheets lie down: 2000 across, 1000 up.
    const svg = readFileSync(join(folder, 'list/crs_12-2.svg'), 'utf8');
    expect(svg).toMatch(/<svg [^>]*width="2000mm" height="1000mm" viewBox="0 0 2000 1000"/);
    const points = readFileSync(join(folder, 'list/crs_12-2.pdf'), 'latin1').match(/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/);
    expect([Number(points?.[1]), Number(points?.[2])].map((point) => Math.round((point / 72) * 25.4 * 10) / 10)).toEqual([2000, 1000]);
    const places = records(readFileSync(join(folder, 'list/sheets.csv'), 'utf8'));
    const dxf = new DxfParser().parseSync(readFileSync(join(folder, 'list/crs_12-2.dxf'), 'latin1'));
    const door = dxf?.entities.find(({ layer }) => layer === 'cut') as unknown as {
      readonly vertices: readonly { readonly x: number; readonly y: number }[];
    };
    const size = (along: 'x' | 'y'): number =>
      Math.max(...door.vertices.map((at) => at[along])) - Math.min(...door.vertices.map((at) => at[along]));
    expect([size('x'), size('y')].sort((a, b) => a - b)).toEqual([expect.closeTo(700, 6), expect.closeTo(900, 6)]);
    // The table says where it lies.
    const row = places.find(({ sheet }) => sheet === '2');
    expect(Number(row?.from_left_mm)).toBeGreaterThanOrEqual(6);
    expect(places).toHaveLength(4);
  });

  it('round holes stay circles on the nested sheet', async () => {
    writeFileSync(
      join(folder, 'job.planish'),
      'with "shop.planish"\nunits millimetre\npanel lid { sheet crs_12  outline rectangle 300 by 200  hole 12 at (40, 50), (250, 50) }\n',
    );
    await call(...quick, '-o', 'lid.dxf');
    const circles = new DxfParser()
      .parseSync(readFileSync(join(folder, 'lid.dxf'), 'latin1'))
      ?.entities.filter(({ type, layer }) => type === 'CIRCLE' && layer === 'cut_inside') as unknown as readonly {
      readonly radius: number;
    }[];
    expect(circles.map(({ radius }) => radius)).toEqual([6, 6]);
  });

  it('the same seed and the same rounds give the same layout, drawing for drawing', async () => {
    writeFileSync(join(folder, 'job.planish'), job.replace('panel broken { outline rectangle 100 by 50 }\n', ''));
    const first = await call('--seconds', '600', ...quick, '-o', 'a');
    await call('--seconds', '600', ...quick, '-o', 'b');
    expect(first.code).toBe(0);
    for (const name of readdirSync(join(folder, 'a')))
      expect(readFileSync(join(folder, 'b', name)).equals(readFileSync(join(folder, 'a', name))), name).toBe(true);
  });

  it('twice the job', async () => {
    const rows = records((await call('--csv', ...quick, '--times', '2')).out);
    expect(rows.find(({ stock }) => stock === 'square_25')).toMatchObject({ needed: '2' });
  });

  it('--json says all of it in mm and kg', async () => {
    const said = JSON.parse((await call('--json', ...quick)).out) as {
      readonly schema: number;
      readonly sheets: readonly { readonly sheets: readonly { readonly pieces: readonly { readonly name: string }[] }[] }[];
      readonly lengths: readonly { readonly proven: boolean; readonly cuts: readonly { readonly left_mm: number }[] }[];
      readonly not_cut: readonly unknown[];
    };
    expect(said.schema).toBe(1);
    expect(said.sheets[0]?.sheets.flatMap(({ pieces }) => pieces.map(({ name }) => name)).sort()).toEqual([
      'door',
      'door',
      'door (opposite hand)',
      'lid',
    ]);
    // Four rails, and at each cut, the one after the last among them, what a disc of 2 takes at 45°: 6000 − (4 × 1500 − 3 × 25) − 4 × 2 / cos 45°.
    expect(said.lengths[0]).toMatchObject({
      proven: true,
      cuts: [{ times: 1, left_mm: expect.closeTo(75 - 8 * Math.SQRT2, 5) as number }],
    });
    expect(said.not_cut).toEqual([{ name: 'broken', reason: 'it names no sheet' }]);
  });

  it('a job in inches has its tables in inches and pounds; commas for spreadsheets that want them', async () => {
    writeFileSync(
      join(folder, 'shop.planish'),
      'units inch\nmaterial steel { density 7850 kg/m3 }\nbar flat_1 { material steel  flat 1 by 1/8  length 10 ft  price 9.50 }\n',
    );
    writeFileSync(join(folder, 'job.planish'), 'with "shop.planish"\nunits inch\npiece bar { bar flat_1  length 30 1/4  quantity 3 }\n');
    const { out } = await call('--csv', ...quick);
    expect(records(out)).toEqual([expect.objectContaining({ length_in: '120', price_each: '9.5', cost: '9.5' })]);
    // By hand: 120 × 1 × 1/8 in³ of steel at 7850 kg/m³.
    expect(Number(records(out)[0]?.mass_lb)).toBeCloseTo((15 * 16.387064 * 7.85) / 453.59237, 3);
    expect((await call('--csv', '--decimal-comma', ...quick)).out).toContain(';9,5;9,5;');
  });

  it('prices of a part file asked for alone are those of the shop it brings', async () => {
    expect((await call('job.planish', ...quick)).out).toContain('£40.00');
  });

  it('parts of one name in two files are told apart, and so are two shops’ sheets', async () => {
    for (const bench of ['front', 'rear']) {
      mkdirSync(join(folder, bench));
      writeFileSync(join(folder, bench, 'shop.planish'), shop);
      writeFileSync(
        join(folder, bench, 'job.planish'),
        'with "shop.planish"\nunits millimetre\npanel lid { sheet crs_12  outline rectangle 300 by 200 }\n',
      );
    }
    const { out } = await call('front', 'rear', ...quick, '-o', 'both');
    expect(out).toContain('Sheet crs_12 (front/shop)');
    expect(readdirSync(join(folder, 'both')).filter((name) => name.endsWith('.dxf'))).toEqual([
      'crs_12_front_shop-1.dxf',
      'crs_12_rear_shop-1.dxf',
    ]);
    expect(records(readFileSync(join(folder, 'both/parts.csv'), 'utf8')).map(({ part }) => part)).toEqual([
      'lid (front/job)',
      'lid (rear/job)',
    ]);
  });

  it('sheets at hand are used before a cheaper size is bought', async () => {
    const sizes =
      'sheet crs_12 { material mild_steel  thickness 1.2  size 1000 by 2000  bend radius 1.2 k 0.42  price 40  stocked 1  also 500 by 1000 costing 8 }';
    writeFileSync(
      join(folder, 'job.planish'),
      'with "shop.planish"\nunits millimetre\npanel lid { sheet crs_12  outline rectangle 300 by 200 }\n',
    );
    const bought = async (text: string): Promise<unknown> => {
      writeFileSync(join(folder, 'shop.planish'), shop.replace(/^sheet.*$/m, text));
      return records((await call('--csv', ...quick)).out).map(({ width_mm, to_buy }) => [width_mm, to_buy]);
    };
    expect(await bought(sizes)).toEqual([['1000', '0']]);
    expect(await bought(sizes.replace('stocked 1', ''))).toEqual([['500', '1']]);
  });

  it.each([
    [['--kerf', 'thick'], '--kerf is a size such as 3, 3mm or 1/8in'],
    [['--times', '0'], '--times is a number from 1'],
    [['-o', 'list.doc'], 'A cutting list ends in .pdf, .html, .csv, .svg or .dxf'],
    [['--paper', 'a5'], 'There is no paper a5'],
    [['--csv', '--json'], 'Say --csv or --json'],
    [['nowhere'], 'There is no file or folder nowhere.'],
  ])('%j', async (argv, words) => {
    const { code, errors } = await call('--seconds', '0', ...argv);
    expect(code).toBe(2);
    expect(errors).toContain(words);
  });
});
