/** planish.openSample: a copy of one of the sample projects, to read and to spoil. */
import * as vscode from 'vscode';

const DESCRIPTIONS: Readonly<Record<string, string>> = {
  'cargo-trike': 'a market gardener’s cargo trike, in inches',
  'tool-cabinet': 'a wall cabinet for a joiner’s tools, in millimetres',
};

interface Wanted {
  readonly sample?: unknown;
  readonly folder?: unknown;
  readonly open?: unknown;
}

const uriFrom = (value: unknown): vscode.Uri | undefined =>
  value instanceof vscode.Uri ? value : typeof value === 'string' ? vscode.Uri.parse(value) : undefined;

/** A folder of that name that is not there yet: an earlier copy, with the reader's changes, is never written over. */
const freePlace = async (folder: vscode.Uri, name: string, turn = 1): Promise<vscode.Uri> => {
  const place = vscode.Uri.joinPath(folder, turn === 1 ? name : `${name}-${turn}`);
  try {
    await vscode.workspace.fs.stat(place);
  } catch {
    return place;
  }
  return freePlace(folder, name, turn + 1);
};

/** `{ sample, folder, open: false }` asks for nothing and opens nothing; the result is where the copy stands. */
export const openSample =
  (context: vscode.ExtensionContext) =>
  async (argument?: unknown): Promise<vscode.Uri | undefined> => {
    const wanted: Wanted = typeof argument === 'object' && argument !== null ? argument : {};
    const shelf = vscode.Uri.joinPath(context.extensionUri, 'samples');
    const there = (await vscode.workspace.fs.readDirectory(shelf)).map(([name]) => name);
    const names = Object.keys(DESCRIPTIONS).filter((name) => there.includes(name));
    const items = names.map((name) => ({ label: name, description: DESCRIPTIONS[name] }));
    const sample =
      names.find((name) => name === wanted.sample) ??
      (await vscode.window.showQuickPick(items, { placeHolder: 'Which sample project?' }))?.label;
    if (sample === undefined) return undefined;
    const chosen =
      uriFrom(wanted.folder) ??
      (
        await vscode.window.showOpenDialog({
          canSelectFiles: false,
          canSelectFolders: true,
          openLabel: 'Copy the sample here',
          title: `Where shall the copy of ${sample} go?`,
        })
      )?.[0];
    if (chosen === undefined) return undefined;
    const place = await freePlace(chosen, sample);
    await vscode.workspace.fs.copy(vscode.Uri.joinPath(shelf, sample), place);
    if (wanted.open !== false) {
      const forceNewWindow = vscode.workspace.workspaceFolders !== undefined;
      await vscode.commands.executeCommand('vscode.openFolder', place, { forceNewWindow });
    }
    return place;
  };
