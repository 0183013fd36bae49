import { describe, expect, it } from 'vitest';
import { defaultSettings } from '../../server/lsp/ask.js';
import { createWorkspace, type Workspace } from '../../server/lsp/workspace.js';
import { shop } from './support.js';

const gate = 'with "../shop.planish"\nunits inch\npanel gate {\n  sheet crs_18\n  outline rectangle 12 by 8\n}\n';

/** A disk that a test can change, and how often its folders were listed. */
const bench = (
  texts: Record<string, string>,
): { readonly workspace: Workspace; readonly listed: string[]; readonly texts: Record<string, string> } => {
  const listed: string[] = [];
  const workspace = createWorkspace({ read: (path) => texts[path], real: (path) => path }, (folder, deep) => {
    listed.push(`${folder}${deep ? ' and below' : ''}`);
    return Object.keys(texts).filter((path) => path.startsWith(`${folder}/`));
  });
  return { workspace, listed, texts };
};
const errors = (workspace: Workspace, uri: string): string[] => {
  const ask = workspace.ask(uri);
  return ask.project
    .findings(ask.path)
    .filter((one) => one.severity === 'error')
    .map((one) => one.rule);
};

describe('projects', () => {
  it('a file belongs to the innermost workspace folder that holds it, and may bring what lies within', () => {
    const { workspace, listed } = bench({ '/work/shop.planish': shop, '/work/parts/gate.planish': gate });
    workspace.setFolders(['file:///work/']);
    expect(errors(workspace, 'file:///work/parts/gate.planish')).toEqual([]);
    workspace.ask('file:///work/parts/gate.planish').files();
    expect(listed).toEqual(['/work and below']);
    workspace.setFolders(['file:///work', 'file:///work/parts']);
    expect(errors(workspace, 'file:///work/parts/gate.planish').length).toBeGreaterThan(0);
  });
  it('a file outside every folder has its own folder for a project, looked at alone', () => {
    const { workspace, listed } = bench({ '/home/me/gate.planish': 'units inch\n' });
    workspace.ask('file:///home/me/gate.planish').files();
    expect(listed).toEqual(['/home/me']);
  });
  it('an open text counts before the disk, in every file that brings it, until it is closed', () => {
    const { workspace } = bench({ '/work/shop.planish': shop, '/work/parts/gate.planish': gate });
    workspace.setFolders(['file:///work']);
    workspace.setText('file:///work/parts/gate.planish', 1, gate);
    expect(errors(workspace, 'file:///work/parts/gate.planish')).toEqual([]);
    workspace.setText('file:///work/shop.planish', 1, shop.replace('crs_18', 'crs_20'));
    expect(errors(workspace, 'file:///work/parts/gate.planish')).toHaveLength(1);
    expect(workspace.dependents('file:///work/shop.planish')).toEqual(['file:///work/parts/gate.planish']);
    workspace.close('file:///work/shop.planish');
    expect(errors(workspace, 'file:///work/parts/gate.planish')).toEqual([]);
    expect(workspace.version('file:///work/shop.planish')).toBeUndefined();
  });
  it('files that come, go and change on the disk are seen once told of', () => {
    const { workspace, texts } = bench({ '/work/parts/gate.planish': gate });
    workspace.setFolders(['file:///work']);
    workspace.setText('file:///work/parts/gate.planish', 1, gate);
    expect(errors(workspace, 'file:///work/parts/gate.planish').length).toBeGreaterThan(0);
    texts['/work/shop.planish'] = shop;
    workspace.diskChanged(['file:///work/shop.planish']);
    expect(errors(workspace, 'file:///work/parts/gate.planish')).toEqual([]);
    expect(workspace.ask('file:///work/parts/gate.planish').files()).toEqual(['/work/parts/gate.planish', '/work/shop.planish']);
  });
  it('new settings reach texts that are already open', () => {
    const { workspace } = bench({ '/work/parts/shop.planish': shop });
    workspace.setFolders(['file:///work']);
    const bare = gate.split('\n').slice(1).join('\n');
    workspace.setText('file:///work/gate.planish', 1, bare);
    expect(errors(workspace, 'file:///work/gate.planish')).toHaveLength(1);
    workspace.setSettings({ ...defaultSettings, shopFile: 'parts/shop.planish' });
    expect(errors(workspace, 'file:///work/gate.planish')).toEqual([]);
  });
  it('who brings whom is known of files nobody has opened, once the workspace was read', () => {
    const { workspace } = bench({ '/work/shop.planish': shop, '/work/parts/gate.planish': gate });
    workspace.setFolders(['file:///work']);
    expect(workspace.dependents('file:///work/shop.planish')).toEqual([]);
    expect([...workspace.explore()]).toHaveLength(2);
    expect(workspace.dependents('file:///work/shop.planish')).toEqual(['file:///work/parts/gate.planish']);
  });
});
