import { describe, expect, it } from 'vitest';
import { defaultSettings } from '../../server/lsp/ask.js';
import { codeLenses } from '../../server/lsp/codeLens.js';
import { inlayHints } from '../../server/lsp/inlayHints.js';
import { featureAt, partAt, patternOf, pictureOf } from '../../server/lsp/picture.js';
import { scene, shop, short, wordsIn } from './support.js';

const source = `with "shop.planish"
units inch
let wide = 12
let half = wide / 2
panel lid {
  sheet crs_18
  outline rectangle wide by 8
  hole 1/4 at (half, 1)
}
panel tray {
  sheet crs_18
  outline rectangle wide by 8 flat
  edge top, bottom { flange 1 up }
}
`;
const everything = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

describe('hints beside the text', () => {
  const hints = (settings = defaultSettings, range = everything): string[] => {
    const { ask } = scene(source, { 'shop.planish': shop }, settings);
    return inlayHints(ask, range).map((hint) => `${hint.position.line}:${hint.position.character} ${String(hint.label)}`);
  };
  // Allowance by hand: π/2 × (1/16 + 0.42 × 0.0478) = 0.12971 in. The lid is flat: its blank is its outline.
  it('the blank of each part, a value that had to be worked out, the allowance of a step', () => {
    const all = hints();
    expect(all[0]).toMatch(/^3:19 = 6( in)?$/);
    expect(all[1]).toBe('4:9 12 × 8 in');
    expect(all[2]).toMatch(/^9:10 12 × \S+ ?\S* ?\S? ?in$/);
    expect(all[3]).toBe('12:32 allowance 0.130 in');
    expect(all).toHaveLength(4);
  });
  it('each kind can be turned off', () => {
    expect(hints({ ...defaultSettings, inlayHints: { blankSize: false, values: false, allowance: false, bending: false } })).toEqual([]);
    expect(
      hints({ ...defaultSettings, inlayHints: { blankSize: true, values: false, allowance: false, bending: false } }).map(
        (one) => one.split(' ')[0],
      ),
    ).toEqual(['4:9', '9:10']);
  });
  it('only those in sight', () =>
    expect(hints(defaultSettings, { start: { line: 4, character: 0 }, end: { line: 5, character: 0 } })).toEqual(['4:9 12 × 8 in']));
});

describe('above each part', () => {
  it('its blank, which opens the picture, how it is bent, and the pattern', () => {
    const { ask, text } = scene(source, { 'shop.planish': shop });
    const lenses = codeLenses(ask);
    expect(lenses.map((lens) => wordsIn(text, lens.range))).toEqual(['lid', 'lid', 'tray', 'tray', 'tray']);
    // 12 × 8 × 0.0478 in of steel less the hole: 1.30 lb.
    expect(lenses[0]?.command).toEqual({
      title: 'blank 12 × 8 in, 1.3 lb, 0 bends',
      command: 'planish.showPicture',
      arguments: [{ uri: 'file:///shop/gate.planish', part: 'lid' }],
    });
    expect(lenses[1]?.command).toEqual({
      title: 'export pattern',
      command: 'planish.exportPattern',
      arguments: [{ uri: 'file:///shop/gate.planish', part: 'lid' }],
    });
    expect(lenses[2]?.command?.title).toContain('2 bends');
    expect(lenses[3]?.command).toMatchObject({ title: 'plan the bending', command: 'planish.planBending' });
  });
  it('a part that can not be laid out says so', () => {
    const { ask } = scene(source.replace('rectangle wide by 8\n', 'rectangle wide by\n'), { 'shop.planish': shop });
    expect(codeLenses(ask)[0]?.command?.title).toBe('not laid out: see the findings');
  });
});

describe('the picture', () => {
  it('of the part asked for, of the one under the cursor, of the first', () => {
    const { ask } = scene(source, { 'shop.planish': shop });
    expect(pictureOf(ask, 3, 'tray', undefined).part).toBe('tray');
    expect(pictureOf(ask, 3, undefined, { line: 11, character: 4 }).part).toBe('tray');
    const first = pictureOf(ask, 3, undefined, undefined);
    expect(first).toMatchObject({
      part: 'lid',
      version: 3,
      stale: false,
      parts: [
        { name: 'lid', kind: 'panel', summary: '12 × 8 in, 1.3 lb, 0 bends' },
        { name: 'tray', kind: 'panel' },
      ],
    });
    expect(short(first.partRange ?? everything)).toBe('4:0-8:1');
  });
  it('knows where each drawn thing is written, and back', () => {
    const { ask, text } = scene(source, { 'shop.planish': shop });
    const drawn = pictureOf(ask, 1, 'tray', undefined);
    const bend = drawn.features.find((feature) => feature.id === 'bend:top.1');
    expect(bend === undefined ? '' : wordsIn(text, bend.range)).toContain('flange 1 up');
    expect(featureAt(ask, { line: 7, character: 4 })).toEqual({ part: 'lid', ids: ['cut:hole.1'] });
    expect(featureAt(ask, { line: 12, character: 24 }).ids).toEqual(expect.arrayContaining(['bend:top.1', 'bend:bottom.1']));
    expect(featureAt(ask, { line: 2, character: 4 })).toEqual({ part: undefined, ids: [] });
  });
  it('an old one stays, marked, while the text is broken', () => {
    const { ask } = scene(source, { 'shop.planish': shop });
    const before = pictureOf(ask, 1, 'lid', undefined);
    ask.project.setText(ask.path, source.replace('rectangle wide by 8\n', 'rectangle wide by\n'));
    const after = pictureOf(ask, 2, 'lid', undefined);
    expect(after.stale).toBe(true);
    expect(after.reason).toBeTruthy();
    expect(after.svg).toContain('data-id="outline"');
    expect(after.features.map((feature) => feature.id)).toEqual(before.features.map((feature) => feature.id));
  });
  it('a file without parts has none, and says so', () => {
    const { ask } = scene('units inch\n');
    expect(pictureOf(ask, 1, undefined, undefined)).toMatchObject({
      part: undefined,
      svg: undefined,
      reason: 'There is no part in this file yet. One begins with panel, section or piece, and its name.',
    });
  });
});

describe('the pattern', () => {
  it('is a file of its own, named after the part', async () => {
    const { ask } = scene(source, { 'shop.planish': shop });
    const svg = await patternOf(ask, 'lid', 'svg');
    expect(svg.name).toBe('lid.svg');
    expect(svg.text).toMatch(/^<(\?xml|svg)/);
    expect((await patternOf(ask, 'lid', 'dxf')).text).toMatch(/EOF\s*$/);
    const pdf = await patternOf(ask, 'lid', 'pdf');
    expect(pdf.name).toBe('lid.pdf');
    expect(Buffer.from(pdf.bytes ?? '', 'base64').toString('latin1')).toMatch(/^%PDF-1\.7[\s\S]*%%EOF\s*$/);
    expect(Buffer.from((await patternOf(ask, 'lid', 'png')).bytes ?? '', 'base64').toString('latin1')).toMatch(/^\x89PNG/);
  });
  it('or the reason why there is none', async () => {
    const { ask } = scene(source.replace('rectangle wide by 8\n', 'rectangle wide by\n'), { 'shop.planish': shop });
    expect((await patternOf(ask, 'lid', 'dxf')).reason).toMatch(/^lid can’t be laid out: \S/);
    expect((await patternOf(ask, 'door', 'dxf')).reason).toBe('There is no part called door in this file.');
  });
  it('the part around the cursor, for the status bar', () => {
    const { ask } = scene(source, { 'shop.planish': shop });
    expect(partAt(ask, { line: 7, character: 3 }).part).toEqual({ name: 'lid', kind: 'panel', summary: '12 × 8 in, 1.3 lb, 0 bends' });
    expect(partAt(ask, { line: 2, character: 3 }).part).toBeUndefined();
  });
});
