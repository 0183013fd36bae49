import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { entries } from '../../grammar/index.js';
import { rules } from '../../server/rules/index.js';
import { folder, gate, planish, read, shop, twoParts } from './bench.js';

const here = folder({ 'shop.planish': shop, 'gate.planish': gate, 'two.planish': twoParts });

describe('planish measure', () => {
  it('writes schema 1, in millimetres', async () => {
    const ran = await planish(here, ['measure', 'gate.planish', '--json']);
    expect(ran).toMatchObject({ code: 0, errors: '' });
    const measured = JSON.parse(ran.text) as {
      schema: number;
      file: string;
      parts: { name: string; kind: string; thickness_mm: number; blank: { bends: unknown[]; holes: unknown[] } }[];
    };
    expect(measured).toMatchObject({ schema: 1, file: 'gate.planish', findings: [] });
    // 18 gauge is 0.0478 in: Manufacturers' Standard Gauge.
    expect(measured.parts[0]?.thickness_mm).toBeCloseTo(0.0478 * 25.4, 6);
    expect(measured.parts[0]?.blank.bends).toHaveLength(3);
    expect(measured.parts[0]?.blank.holes).toHaveLength(2);
  });

  it('measures one part of several', async () => {
    const ran = await planish(here, ['measure', 'two.planish', 'rail', '--json']);
    expect((JSON.parse(ran.text) as { parts: { name: string }[] }).parts.map((part) => part.name)).toEqual(['rail']);
  });

  it('says which parts there are when the one asked for is not among them', async () => {
    const ran = await planish(here, ['measure', 'two.planish', 'lit']);
    expect(ran.code).toBe(2);
    expect(ran.errors).toBe('There is no part lit. The parts of two.planish: lid, rail. Did you mean lid?\n');
  });

  it('lays the numbers out as a table that fits a narrow terminal', async () => {
    const ran = await planish(here, ['measure', 'two.planish', 'lid']);
    expect(ran.text).toMatch(/lid, panel/);
    // A flat panel is its own blank.
    expect(ran.text).toMatch(/│ +20 in │ lid\.blank\.width +│/);
    const narrow = await planish(here, ['measure', 'two.planish', 'lid'], { columns: 60 });
    for (const line of narrow.text.split('\n')) expect(line.length).toBeLessThanOrEqual(60);
  });
});

describe('planish pattern', () => {
  it('writes one part to the file named, by its ending', async () => {
    const ran = await planish(here, ['pattern', 'gate.planish', '-o', 'gate.dxf']);
    expect(ran).toEqual({ code: 0, text: 'gate.dxf\n', errors: '' });
    expect(read(here, 'gate.dxf')).toContain('AC1009');
    await planish(here, ['pattern', 'gate.planish', 'gate', '-o', 'new/folder/gate.svg']);
    expect(read(here, 'new/folder/gate.svg')).toMatch(/^<\?xml[\s\S]*<\/svg>\n$/);
  });

  it('adds the part to the name when there are several', async () => {
    expect((await planish(here, ['pattern', 'two.planish', '-o', 'out.svg'])).text).toBe('out-lid.svg\nout-rail.svg\n');
    expect((await planish(here, ['pattern', 'two.planish', 'lid', '-o', 'out.svg'])).text).toBe('out.svg\n');
  });

  it('fills a folder with every form of every part, and leaves nothing else there', async () => {
    const ran = await planish(here, ['pattern', 'two.planish', '-o', 'all/']);
    expect(ran.code).toBe(0);
    expect(readdirSync(join(here, 'all')).sort()).toEqual(['lid.dxf', 'lid.pdf', 'lid.svg', 'rail.dxf', 'rail.pdf', 'rail.svg']);
  });

  it('says what it can’t write', async () => {
    expect((await planish(here, ['pattern', 'gate.planish', '-o', 'gate.doc'])).code).toBe(2);
    expect((await planish(here, ['pattern', 'gate.planish'])).errors).toContain('-o OUT.svg');
    expect((await planish(here, ['pattern', 'gate.planish', '-o', 'gate.svg', '--view', 'sideways'])).code).toBe(2);
    expect((await planish(here, ['pattern', 'gate.planish', '-o', 'gate.pdf', '--paper', 'a9'])).errors).toContain('There is no paper a9');
    expect((await planish(here, ['pattern', 'shop.planish', '-o', 'shop.svg'])).errors).toBe('There is no part in shop.planish.\n');
    expect(existsSync(join(here, 'shop.svg'))).toBe(false);
  });

  it('writes the first of two parts of one name, once, and says that the name is given twice', async () => {
    const doubled = folder({ 'shop.planish': shop, 'two.planish': `${twoParts}panel lid { sheet crs_18  outline rectangle 3 by 3 }\n` });
    const ran = await planish(doubled, ['pattern', 'two.planish', '-o', 'out.svg']);
    expect(ran.text).toBe('out-lid.svg\nout-rail.svg\n');
    expect(ran.errors).toContain('name/repeated');
    expect(read(doubled, 'out-lid.svg')).toContain('blank 20 × 14 in');
  });

  it('writes no pattern of a part that can’t be laid out', async () => {
    const broken = folder({ 'shop.planish': shop, 'gate.planish': gate.replace('by 11', 'by nothing') });
    const ran = await planish(broken, ['pattern', 'gate.planish', '-o', 'gate.svg']);
    expect(ran.code).toBe(1);
    expect(ran.errors).toContain('gate can\u2019t be laid out'.replace('\u2019', "'"));
    expect(existsSync(join(broken, 'gate.svg'))).toBe(false);
  });
});

describe('a file in UTF-16, as some systems write it', () => {
  it('is read like any other, and tidied into UTF-8', async () => {
    const wide = folder({ 'shop.planish': shop, 'gate.planish': '' });
    writeFileSync(join(wide, 'gate.planish'), Buffer.from(`\ufeff${gate.replace('hole', '  hole')}`, 'utf16le'));
    expect(await planish(wide, ['check', 'gate.planish'])).toMatchObject({ code: 0 });
    expect((await planish(wide, ['format'])).code).toBe(0);
    expect(read(wide, 'gate.planish')).toBe(gate);
  });
});

describe('planish format', () => {
  const untidy = 'units   inch\nlet a=3\n';
  it('names what would change and changes nothing with --check', async () => {
    const one = folder({ 'a.planish': untidy });
    expect(await planish(one, ['format', '--check'])).toEqual({ code: 1, text: 'a.planish\n1 of 1 file would change.\n', errors: '' });
    expect(read(one, 'a.planish')).toBe(untidy);
  });

  it('tidies in place, and then has nothing left to do', async () => {
    const one = folder({ 'a.planish': `\ufeff${untidy}` });
    expect((await planish(one, ['format'])).code).toBe(0);
    // The mark at the start of the file stays.
    expect(read(one, 'a.planish')).toBe('\ufeffunits inch\nlet a = 3\n');
    expect(await planish(one, ['format', '--check'])).toMatchObject({ code: 0, text: '1 file, all tidy.\n' });
  });
});

describe('planish explain', () => {
  it('has a page for every rule and every word', async () => {
    for (const name of [...rules.map((rule) => rule.name), ...new Set(entries.map((entry) => entry.word))]) {
      const ran = await planish(here, ['explain', name], { columns: 80 });
      expect(ran.code, name).toBe(0);
      expect(ran.text).toContain('For example:');
    }
  });

  it('names the nearest of what it does not know', async () => {
    const ran = await planish(here, ['explain', 'flang']);
    expect(ran.code).toBe(2);
    expect(ran.errors).toMatch(/^There is no rule and no word flang\. Did you mean flange/);
  });

  it('lists everything when asked nothing', async () => {
    const { text } = await planish(here, ['explain'], { columns: 80 });
    expect(text).toContain('flange');
    expect(text).toContain('brake/flange-too-short');
  });
});

describe('planish new', () => {
  it.each([
    ['panel', 'lid', 'inch'],
    ['panel', 'lid', 'millimetre'],
    ['section', 'rail', 'inch'],
    ['section', 'rail', 'millimetre'],
    ['shop', 'shop', 'inch'],
    ['shop', 'shop', 'millimetre'],
  ])('%s %s in %s checks clean and is tidy', async (kind, name, units) => {
    const one = folder({});
    expect(await planish(one, ['new', kind, name, '--units', units])).toEqual({ code: 0, text: `${name}.planish\n`, errors: '' });
    expect((await planish(one, ['check', '--fail-on', 'note'])).text).toBe('1 file checked, nothing wrong.\n');
    expect((await planish(one, ['format', '--check'])).code).toBe(0);
  });

  it('takes the sheet and the units of the shop that stands there', async () => {
    const one = folder({ 'shop.planish': shop });
    await planish(one, ['new', 'panel', 'lid']);
    expect(read(one, 'lid.planish')).toContain('units inch');
    expect(read(one, 'lid.planish')).toContain('sheet crs_18');
    expect((await planish(one, ['check', '--fail-on', 'note'])).text).toBe('2 files checked, nothing wrong.\n');
  });

  it('leaves a file that is there alone, and wants a real name', async () => {
    const one = folder({ 'lid.planish': 'units inch\n' });
    expect((await planish(one, ['new', 'panel', 'lid'])).code).toBe(2);
    expect(read(one, 'lid.planish')).toBe('units inch\n');
    expect((await planish(one, ['new', 'panel', '../lid'])).code).toBe(2);
    expect((await planish(one, ['new', 'panel', 'section'])).errors).toContain('word of the language');
    expect(existsSync(join(one, 'section.planish'))).toBe(false);
    expect((await planish(one, ['new', 'boat', 'lid'])).errors).toContain('panel, section, shop');
  });
});
