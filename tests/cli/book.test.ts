import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { titleOf } from '../../server/cli/book.js';
import type { Io } from '../../server/cli/io.js';
import { runProgram } from '../../server/cli/program.js';

const shop = `units millimetre
material mild_steel { density 7850 kg/m3 }
sheet crs_12 { material mild_steel  thickness 1.2  size 600 by 900  bend radius 1.2 k 0.42 }
brake folder { leaf  length 1000  capacity 1.6 of mild_steel  least flange 8 }
`;
const lid = `with "shop.planish"
units millimetre
panel lid { sheet crs_12  outline rectangle 300 by 200  edge top { flange 25 up } }
`;

let folder = '';
const call = async (
  argv: readonly string[],
  more: Partial<Io> = {},
): Promise<{ readonly code: number; readonly out: string; readonly errors: string }> => {
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
    ...more,
  };
  return { code: await runProgram(['book', ...argv], io), out, errors };
};
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'planish-book-'));
  writeFileSync(join(folder, 'shop.planish'), shop);
  writeFileSync(join(folder, 'lid.planish'), lid);
  return () => rmSync(folder, { recursive: true, force: true });
});

describe('planish book', () => {
  it('writes a PDF of every part under the folder, with as many pages as it says', async () => {
    const { code, out, errors } = await call(['-o', 'job.pdf', '--title', 'Bench lid', '--owner', 'Bench 4', '--date', '2026-01-01']);
    expect({ code, errors }).toEqual({ code: 0, errors: '' });
    const [, sheets] = /^job\.pdf: 1 part, (\d+) sheets\n$/.exec(out) ?? [];
    expect(Number(sheets)).toBeGreaterThan(3);
    expect(readdirSync(folder).sort()).toEqual(['job.pdf', 'lid.planish', 'shop.planish']);
    if (!existsSync('/usr/bin/pdfinfo')) return;
    const info = spawnSync('pdfinfo', [join(folder, 'job.pdf')], { encoding: 'utf8' }).stdout;
    expect(info).toMatch(new RegExp(`Pages: +${sheets}\\n`));
    expect(info).toMatch(/Title: +Bench lid\n/);
    expect(info).toMatch(/Page size: +595\.\d+ x 841\.\d+ pts \(A4\)/);
  });

  it('writes a web page that fetches nothing', async () => {
    const { code, out } = await call(['lid.planish', '-o', 'job.html', '--both-units']);
    expect({ code, out }).toEqual({ code: 0, out: 'job.html: 1 part\n' });
    const html = readFileSync(join(folder, 'job.html'), 'utf8');
    expect(html.match(/<script|<link|<iframe|<img| src=| srcset=|@import|url\((?!data:|#)[^)]*/g)).toBeNull();
    // Addresses are names of the drawing's language, and places within the page.
    const addresses = html.replace(/base64,[^)]*/g, '').match(/[a-z]+:\/\/[^"' <)]+/g) ?? [];
    expect(new Set(addresses)).toEqual(new Set(['http://www.w3.org/2000/svg']));
    expect(html.includes(new Date().toISOString().slice(0, 10))).toBe(true);
    // By hand: 200 + 25 − 2 · 2.4 + π/2 · (1.2 + 0.42 · 1.2) = 222.877.
    expect(html.includes('300 × 222.9 mm (11.811 × 8.775 in)')).toBe(true);
  });

  it('ends with 1 when something is wrong in a part, and still writes the booklet, which lists it', async () => {
    writeFileSync(join(folder, 'lid.planish'), lid.replace('flange 25', 'flange 4'));
    const { code, errors } = await call(['-o', 'job.html']);
    expect(code).toBe(1);
    expect(errors).toMatch(/error.* open in the files/);
    expect(readFileSync(join(folder, 'job.html'), 'utf8').includes('brake/flange-too-short')).toBe(true);
  });

  it('stopped half-way, leaves the old file as it was', async () => {
    writeFileSync(join(folder, 'job.pdf'), 'the old one');
    const stop = new AbortController();
    stop.abort();
    const { code, errors } = await call(['-o', 'job.pdf'], { stop: stop.signal });
    expect(code).toBe(1);
    expect(errors).toBe('Stopped; nothing was written.\n');
    expect(readFileSync(join(folder, 'job.pdf'), 'utf8')).toBe('the old one');
    expect(readdirSync(folder).sort()).toEqual(['job.pdf', 'lid.planish', 'shop.planish']);
  });

  it('says what is right when the call is wrong', async () => {
    const wrong = async (...argv: readonly string[]): Promise<string> => {
      const { code, out, errors } = await call(argv);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(readdirSync(folder).sort()).toEqual(['lid.planish', 'shop.planish']);
      return errors;
    };
    expect(await wrong()).toContain('Say where to write it: -o OUT.pdf or -o OUT.html.');
    expect(await wrong('-o', 'job.docx')).toContain('A booklet ends in .pdf or .html, not in .docx.');
    expect(await wrong('-o', 'job')).toContain('.pdf or .html, not in nothing.');
    expect(await wrong('-o', 'job.pdf', '--paper', 'lettter')).toContain('Did you mean letter?');
    expect(await wrong('-o', 'job.pdf', '--date', '2026-02-30')).toContain('--date is written YYYY-MM-DD, not 2026-02-30.');
    expect(await wrong('-o', 'job.pdf', '--seconds', 'soon')).toContain('--seconds is a number from 0 to 86400, not soon.');
    expect(await wrong('missing.planish', '-o', 'job.pdf')).toContain('missing.planish');
    expect(await wrong('-o', 'job.pdf', '--papr', 'a4')).toContain('--papr');
  });

  it('says so when there is no part', async () => {
    const { code, errors } = await call(['shop.planish', '-o', 'job.pdf']);
    expect(code).toBe(1);
    expect(errors).toBe('There is no part in these files, so there is nothing to write a booklet about.\n');
  });
});

it('is called after the file, or after the folder that holds all files', () => {
  expect(titleOf(['/job/lid.planish'])).toBe('lid');
  expect(titleOf(['/job/trike/lid.planish', '/job/trike/parts/floor.planish'])).toBe('trike');
  expect(titleOf(['/a.planish', '/b.planish'])).toBe('job');
});
