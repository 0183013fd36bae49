/** A job cut for the editor: read as a page, saved as files, told of as it goes on, and given up. */
import { describe, expect, it } from 'vitest';
import { createCutting } from '../../server/lsp/cutting.js';
import type { CutResult } from '../../server/lsp/protocol.js';
import { readSettings } from '../../server/lsp/settings.js';
import { createWorkspace } from '../../server/lsp/workspace.js';

const shop = `units millimetre
currency "€"
material mild_steel { density 7850 kg/m3 }
sheet crs_12 { material mild_steel  thickness 1.2  size 1000 by 2000  bend radius 1.2 k 0.42  price 40 }
tube square_25 { material mild_steel  square 25  wall 2  length 6 m  price 21 }
`;
const frame = `with "../shop.planish"
units millimetre
piece rail { tube square_25  length 1500  end both mitre 45  quantity 4 }
`;
const box = `with "../shop.planish"
units millimetre
panel lid { sheet crs_12  outline rectangle 300 by 200  quantity 3 }
panel lost { outline rectangle 30 by 20 }
`;
const texts: Readonly<Record<string, string>> = {
  '/work/shop.planish': shop,
  '/work/trike/frame.planish': frame,
  '/work/trike/box.planish': box,
  '/work/other/box.planish': box.replace('quantity 3', 'quantity 70'),
};

const room = (settings: unknown = {}) => {
  const workspace = createWorkspace({ read: (path) => texts[path], real: (path) => path }, (folder) =>
    Object.keys(texts).filter((path) => path.startsWith(`${folder}/`)),
  );
  workspace.setFolders(['file:///work']);
  workspace.setSettings(readSettings(settings));
  const cutting = createCutting(workspace);
  const told: (readonly [number, string])[] = [];
  const cut = (
    uri: string,
    what: 'file' | 'folder',
    more: { readonly times?: number; readonly stop?: AbortSignal } = {},
  ): Promise<CutResult> =>
    cutting.cut(
      { uri, what, seconds: 0, ...(more.times === undefined ? {} : { times: more.times }) },
      { stop: more.stop ?? new AbortController().signal, progress: (share, words) => told.push([share, words]) },
    );
  const text = async ({ id = '' }: CutResult, format: 'page' | 'csv'): Promise<string> =>
    (await cutting.files({ id, format, nonce: 'n0nce' })).files[0]?.text ?? '';
  return { cutting, cut, text, told };
};

describe('a job cut for the editor', () => {
  it('of a folder: every part file in it, none beside it', async () => {
    const { cut, text, told } = room();
    const answer = await cut('file:///work/trike', 'folder');
    expect(answer.name).toBe('trike');
    const page = await text(answer, 'page');
    for (const words of ['lid', 'rail', 'both mitre 45°', '€40.00', 'lost: it names no sheet.', '<style nonce="n0nce">'])
      expect(page).toContain(words);
    expect(page).not.toMatch(/<script/);
    // By hand: 3 lids on one sheet, 4 rails in one tube.
    expect(await text(answer, 'csv')).toContain('sheet,crs_12,1000,2000,1,0,1,18.84,40,40,€');
    expect(told.map(([, words]) => words)).toEqual(expect.arrayContaining(['box.planish', 'frame.planish', 'done']));
  });

  it('of one file', async () => {
    const { cut, text } = room();
    const csv = await text(await cut('file:///work/trike/frame.planish', 'file'), 'csv');
    expect(csv).toContain('square_25');
    expect(csv).not.toContain('crs_12');
  });

  it('several times over, with the spaces of the settings', async () => {
    const { cut, text } = room({ cutting: { kerf: '10 mm', margin: '1/2 in', decimalComma: true } });
    const answer = await cut('file:///work/trike', 'folder', { times: 3 });
    expect(await text(answer, 'csv')).toContain('length;square_25;;6000;3;0;3;');
    const page = await text(answer, 'page');
    expect(page).toContain('10 mm between parts, 12.7 mm free at the edges');
    expect(page).toContain('trike, 3 times');
  });

  it('all files of it, drawings and tables, in base 64 where they are no text', async () => {
    const { cut, cutting } = room();
    const { id = '' } = await cut('file:///work/trike', 'folder');
    const { files } = await cutting.files({ id, format: 'all' });
    expect(files.map(({ name }) => name).sort()).toEqual([
      'bill.csv',
      'crs_12-1.dxf',
      'crs_12-1.pdf',
      'crs_12-1.svg',
      'cutting-list.html',
      'cutting-list.pdf',
      'lengths.csv',
      'parts.csv',
      'sheets.csv',
    ]);
    const pdf = files.find(({ name }) => name === 'cutting-list.pdf');
    expect(Buffer.from(pdf?.bytes ?? '', 'base64').toString('latin1')).toMatch(/^%PDF/);
  });

  it('given up, it stops before everything is laid out', async () => {
    const { cut, told } = room();
    const ender = new AbortController();
    ender.abort();
    expect((await cut('file:///work/other', 'folder', { stop: ender.signal })).id).toBeUndefined();
    expect(told.length).toBeLessThan(3);
  });

  it('nothing to cut, and a job long forgotten, are said in words', async () => {
    const { cut, cutting } = room();
    expect((await cut('file:///work/shop.planish', 'file')).reason).toContain('There is nothing to cut in shop.planish.');
    expect((await cutting.files({ id: '99', format: 'pdf' })).reason).toContain('no longer known');
  });
});
