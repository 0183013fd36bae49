/** `planish pattern --view bends|beads`: the sheets are read back as a reader of PDF sees them. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { folder, gate, planish, shop, twoParts } from './bench.js';

const ribbed = `${gate}
panel floor {
  sheet crs_18
  outline rectangle 12 by 8
  bead rib { die round_3_8  up  line from (3, 4) to (9, 4) }
}
`;
const roller = `${shop}
roller hand_roller { throat 18  thickest 18 ga of mild_steel }
die round_3_8 { round  width 3/8  depth 1/8  tightest turn 3/4  per pass 1/16 }
`;
const here = folder({ 'shop.planish': roller, 'gate.planish': ribbed, 'two.planish': twoParts });
const textOf = (name: string): string => execFileSync('pdftotext', ['-layout', join(here, name), '-'], { encoding: 'utf8' });

test('the bend sheet has a step for every bend, with the turn to set', async () => {
  const ran = await planish(here, ['pattern', 'gate.planish', 'gate', '--view', 'bends', '-o', 'bends.pdf']);
  expect(ran).toEqual({ code: 0, text: 'bends.pdf\n', errors: '' });
  const text = textOf('bends.pdf');
  expect(text).toContain('bend sheet');
  for (const bend of ['top.1', 'left.1', 'right.1']) expect(text).toContain(bend);
  // The order is the same that `planish plan` tells.
  const told = (await planish(here, ['plan', 'gate.planish', 'gate'])).text.match(/^ +\d {2}(\S+)$/gm)?.map((line) => line.trim());
  expect(told).toHaveLength(3);
  const [, steps = ''] = text.split(/on bench_leaf/);
  const places = (told ?? []).map((line) => steps.search(new RegExp(`${line.replace(/\s+/g, '\\W+')}`)));
  expect(places.every((place) => place >= 0)).toBe(true);
  expect([...places].sort((a, b) => a - b)).toEqual(places);
});

test('the bead sheet tells dies, ends and depths; a part without beads says so, alone or among others', async () => {
  expect(await planish(here, ['pattern', 'gate.planish', '--view', 'beads', '-o', 'sheets/'])).toEqual({
    code: 0,
    text: 'gate has no beads.\nsheets/floor-beads.pdf\n',
    errors: '',
  });
  const text = textOf('sheets/floor-beads.pdf');
  expect(text).toContain('bead sheet');
  expect(text).toContain('round_3_8');
  // Two passes of 1/16 in for a bead 1/8 in deep.
  expect(text).toMatch(/0\.063, 0\.125/);
  expect(await planish(here, ['pattern', 'gate.planish', 'gate', '--view', 'beads', '-o', 'none.pdf'])).toEqual({
    code: 1,
    text: '',
    errors: 'gate has no beads.\n',
  });
  expect(existsSync(join(here, 'none.pdf'))).toBe(false);
});

test('pictures are a file for each sheet; other kinds of file are refused with those there are', async () => {
  const ran = await planish(here, ['pattern', 'gate.planish', 'gate', '--view', 'bends', '--paper', 'a4', '-o', 'pictures.svg']);
  expect(ran.code).toBe(0);
  const made = readdirSync(here).filter((name) => /^pictures.*\.svg$/.test(name));
  expect(ran.text.trim().split('\n').sort()).toEqual(made.sort());
  for (const name of made) expect(readFileSync(join(here, name), 'utf8')).toMatch(/<svg[^>]* width="210mm" height="297mm"/);
  expect(await planish(here, ['pattern', 'two.planish', '--view', 'bends', '-o', 'x.dxf'])).toMatchObject({
    code: 2,
    errors: expect.stringContaining('The bends are drawn as .pdf, .svg or .png, not as .dxf.') as string,
  });
});
