/** What the editor says and shows of pieces and straps: length at a glance, hover, the drawing with its text, patterns. */
import { describe, expect, it } from 'vitest';
import { codeLenses } from '../../server/lsp/codeLens.js';
import { hover } from '../../server/lsp/hover.js';
import { inlayHints } from '../../server/lsp/inlayHints.js';
import { featureAt, partAt, patternOf, pictureOf } from '../../server/lsp/picture.js';
import { marked, type Scene, scene, wordsIn } from './support.js';

const stock = `units inch
material mild_steel { density 7850 kg/m3 }
tube square_1 { material mild_steel  square 1  wall 0.065  length 20 ft }
tube round_1 { material mild_steel  round 1  wall 0.065  length 20 ft }
tube round_2 { material mild_steel  round 2  wall 0.065  length 20 ft }
bar flat_1 { material mild_steel  flat 1 by 1/8  length 20 ft }
`;
const here = (parts: string): Scene => scene(`with "stock.planish"\nunits inch\n${parts}`, { 'stock.planish': stock });
const rail = 'piece rail {\n  tube square_1\n  length 30\n  end both mitre 45\n  hole 1/4 through at (6, 1/2)\n}\n';
const eye = 'strap eye {\n  bar flat_1\n  round pin 3/8\n  wrap 270\n  tail 1 1/2\n}\n';
const said = (source: string): string => {
  const { ask, position } = here(source);
  const contents = hover(ask, position)?.contents;
  return typeof contents === 'object' && 'value' in contents ? contents.value : '';
};
const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

describe('at a glance', () => {
  it('the status bar and the lens above a piece have its length, long and short, and its mass', () => {
    const { ask, position } = here(rail.replace('length 30', 'length 3|0'));
    // By hand: 30 − 2 · 1 · tan 45° = 28; mass of 29 in of 1 in tube, 0.065 in wall, corners by EN 10219-2: 0.2322 in² · 29 in · 7.85 g/cm³.
    expect(partAt(ask, position).part).toMatchObject({
      name: 'rail',
      kind: 'piece',
      summary: '30 in, 28 in between short points, 1.91 lb',
    });
    expect(codeLenses(ask).map(({ command }) => command?.title)).toEqual([
      'cut 30 in, 28 in between short points, 1.91 lb',
      'export pattern',
    ]);
  });
  it('a strap has its worked-out length beside its name', () => {
    const { ask } = here(eye);
    // By hand: 1 1/2 + 3π/2 · (3/16 + 1/16) = 2.678 in.
    expect(inlayHints(ask, whole).map(({ label }) => label)).toEqual(['2 43/64+ in']);
  });
});

describe('hover', () => {
  it('of a piece’s name: what it is cut from, how long, how its ends are cut', () => {
    const words = said(rail.replace('rail', 'ra|il'));
    for (const each of [
      'from square\\_1, square tube 1, wall 0.065 in',
      'cut 30 in',
      'over the long points',
      '28 in',
      'start: mitre 45°',
      'finish: mitre 45°',
    ])
      expect(words).toContain(each);
  });
  it('of an end: how far its short point lies behind the long one', () => {
    expect(said(rail.replace('end both', 'en|d both'))).toContain('start: mitre 45°, its short point 1 behind the long one');
  });
  it('of a cope onto a wider tube', () => {
    const cope = rail.replace('square_1', 'round_1').replace('mitre 45', 'cope onto round_2').replace('end both', 'e|nd both');
    // By hand: 1 − √(1² − ½²) = 0.134 in.
    expect(said(cope)).toContain('cope 90° onto round\\_2, its short point 9/64− behind the long one');
  });
  it('of a bend: where it starts and ends along the straight stock', () => {
    // By hand: 10 + 4 · π/6 = 12.094 in.
    expect(said(rail.replace('hole 1/4 through at (6, 1/2)', 'be|nd at 10 by 30 radius 4'))).toContain(
      'from 10 to 12 3/32 along the straight stock',
    );
  });
  it('of a wrap: how much of the bar the eye takes', () => {
    expect(said(eye.replace('wrap', 'wr|ap'))).toContain('takes 1 11/64+ of the bar');
  });
});

describe('the drawing', () => {
  it('has each drawn thing where it is written, and lights it up under the cursor', () => {
    const { ask, text } = here(rail);
    const drawn = pictureOf(ask, 1, 'rail', undefined);
    expect(drawn.reason).toBeUndefined();
    expect(drawn.title).toContain('30 in over the long points');
    const written = new Map(drawn.features.map(({ id, range }) => [id, wordsIn(text, range)]));
    expect(written.get('end:start')).toBe('end both mitre 45');
    expect(written.get('cut:hole.1')).toBe('hole 1/4 through at (6, 1/2)');
    expect(written.get('outline')).toBe('30');
    const { position } = marked(`with "stock.planish"\nunits inch\n${rail.replace('end both', 'end b|oth')}`);
    expect(featureAt(ask, position)).toEqual({ part: 'rail', ids: ['end:start', 'end:finish'] });
  });
  it('stays as it last was, marked stale, while the text is broken', () => {
    const { ask } = here(rail);
    const before = pictureOf(ask, 1, 'rail', undefined);
    ask.project.setText(ask.path, `with "stock.planish"\nunits inch\n${rail.replace('mitre 45', 'mitre 95')}`);
    const after = pictureOf(ask, 2, 'rail', undefined);
    expect(after.stale).toBe(true);
    expect(after.reason).toContain('A mitre is counted from square');
    expect(after.svg?.replace(' stale', '')).toBe(before.svg);
  });
  it('is not there before the length is known, and says so', () => {
    const { ask } = here(rail.replace('  length 30\n', ''));
    const drawn = pictureOf(ask, 1, 'rail', undefined);
    expect(drawn.svg).toContain('not drawn until its stock and its length are known');
    expect(drawn.reason).toContain("rail doesn't say how long it is");
  });
});

describe('a pattern', () => {
  it('of a piece is its drawing, or the papers for its coped ends; DXF there is none', async () => {
    const { ask } = here(rail + rail.replace('rail', 'bar').replace('square_1', 'round_1').replace('mitre 45', 'cope onto round_2'));
    expect((await patternOf(ask, 'rail', 'svg')).text?.includes('28 between the short points')).toBe(true);
    expect((await patternOf(ask, 'bar', 'svg')).text?.includes('wrap it printing outward')).toBe(true);
    const pdf = await patternOf(ask, 'rail', 'pdf');
    expect(pdf.name).toBe('rail.pdf');
    expect(Buffer.from(pdf.bytes ?? '', 'base64').toString('latin1')).toMatch(/^%PDF/);
    expect((await patternOf(ask, 'rail', 'dxf')).reason).toBe('a piece has no DXF; its drawing comes as PDF, SVG or PNG.');
  });
});
