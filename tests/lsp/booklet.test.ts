/** The job booklet asked for by the editor: of a file or a folder, unsaved text included, told of as it goes on, and given up. */
import { describe, expect, it } from 'vitest';
import { bookletOf } from '../../server/lsp/booklet.js';
import type { BookletParams, BookletResult } from '../../server/lsp/protocol.js';
import { readSettings } from '../../server/lsp/settings.js';
import { createWorkspace } from '../../server/lsp/workspace.js';

const shop = `units millimetre
material mild_steel { density 7850 kg/m3 }
sheet crs_12 { material mild_steel  thickness 1.2  size 600 by 900  bend radius 1.2 k 0.42 }
brake folder { leaf  length 1000  capacity 1.6 of mild_steel  least flange 8 }
`;
const lid = `with "../shop.planish"
units millimetre
panel lid { sheet crs_12  outline rectangle 300 by 200  edge top { flange 25 up } }
`;
const texts: Readonly<Record<string, string>> = {
  '/work/shop.planish': shop,
  '/work/trike/lid.planish': lid,
  '/work/trike/parts/base.planish': lid.replace('../shop', '../../shop').replace('panel lid', 'panel base'),
  '/work/other/door.planish': lid.replace('panel lid', 'panel door'),
};

const room = (settings: unknown = {}) => {
  const workspace = createWorkspace({ read: (path) => texts[path], real: (path) => path }, (folder) =>
    Object.keys(texts).filter((path) => path.startsWith(`${folder}/`)),
  );
  workspace.setFolders(['file:///work']);
  workspace.setSettings(readSettings(settings));
  const told: string[] = [];
  const make = (
    params: Omit<BookletParams, 'format'> & Partial<BookletParams>,
    stop = new AbortController().signal,
  ): Promise<BookletResult> => bookletOf(workspace)({ format: 'html', ...params }, { stop, progress: (_, words) => told.push(words) });
  const text = ({ bytes = '' }: BookletResult): string =>
    Buffer.from(bytes, 'base64')
      .toString('utf8')
      .replace(/<style[\s\S]*?<\/style>/, '');
  return { workspace, make, text, told };
};

describe('a booklet for the editor', () => {
  it('of a folder: the parts of every file in it, none beside it', async () => {
    const { make, text, told } = room();
    const answer = await make({ uri: 'file:///work/trike', what: 'folder' });
    expect(answer).toMatchObject({ parts: 2, errors: 0 });
    const page = text(answer);
    expect(page.match(/<h1 id="chapter-\d">(lid|base|door): 1 off<\/h1>/g)).toHaveLength(2);
    expect(page.includes('from lid.planish, parts/base.planish.')).toBe(true);
    expect(page.includes('door')).toBe(false);
    expect(told).toEqual(expect.arrayContaining(['bending: lid.planish', 'bending: parts/base.planish', 'lid', 'base']));
  });

  it('of a file as it stands in the editor, with its errors counted', async () => {
    const { make, text, workspace } = room();
    workspace.setText('file:///work/trike/lid.planish', 2, lid.replace('flange 25', 'flange 4').replace('panel lid', 'panel cover'));
    const answer = await make({ uri: 'file:///work/trike/lid.planish', what: 'file' });
    expect(answer.parts).toBe(1);
    expect(answer.errors).toBeGreaterThan(0);
    const page = text(answer);
    for (const words of ['cover: 1 off', 'brake/flange-too-short']) expect(page.includes(words), words).toBe(true);
  });

  it('as PDF, on the paper and with the data fields of the settings', async () => {
    const { make } = room({ paper: 'letter', booklet: { owner: 'Bench 4', creator: 'A. Smith', bothUnits: true } });
    const { bytes = '', sheets } = await make({ uri: 'file:///work/trike/lid.planish', what: 'file', format: 'pdf' });
    const file = Buffer.from(bytes, 'base64').toString('latin1');
    expect(file.startsWith('%PDF-')).toBe(true);
    expect(file.match(/\/MediaBox \[0 0 612 792\]/g)).toHaveLength(sheets ?? 0);
    const { make: again, text } = room({ booklet: { owner: 'Bench 4', creator: 'A. Smith', bothUnits: true } });
    const page = text(await again({ uri: 'file:///work/trike/lid.planish', what: 'file' }));
    for (const words of ['Bench 4', 'A. Smith', '(11.811 × 8.775 in)']) expect(page.includes(words), words).toBe(true);
  });

  it('is given up when it is asked to, and says why there is none', async () => {
    const { make } = room();
    expect(await make({ uri: 'file:///work/trike', what: 'folder' }, AbortSignal.abort())).toEqual({});
    expect(await make({ uri: 'file:///work/shop.planish', what: 'file' })).toEqual({
      reason: 'There is no part in shop.planish, so there is nothing to write a booklet about.',
    });
  });
});
