/** planish.newPart: a new file that already computes, ready to be changed. */
import * as vscode from 'vscode';
import { LANGUAGE } from '../languageServer.js';
import { activePartFile } from '../target.js';
import { faultOfName, type NewFile, type NewKind, type NewUnits, newFileText, readShopOutline } from '../templates.js';

const KINDS: readonly (vscode.QuickPickItem & { readonly starts: NewKind })[] = [
  { starts: 'panel', label: 'Panel', description: 'a flat piece with flanges, holes and cut-outs' },
  { starts: 'section', label: 'Section', description: 'a strip bent to the same shape all along its length' },
  { starts: 'shop', label: 'Shop file', description: 'the sheets and machines of this bench, for all part files to share' },
];
const UNITS: readonly (vscode.QuickPickItem & { readonly units: NewUnits })[] = [
  { units: 'inch', label: 'Inches' },
  { units: 'millimetre', label: 'Millimetres' },
];
const SHOP_FILE = 'shop.planish';

interface Wanted {
  readonly kind?: unknown;
  readonly name?: unknown;
  readonly units?: unknown;
}

const exists = async (file: vscode.Uri): Promise<boolean> => {
  try {
    await vscode.workspace.fs.stat(file);
    return true;
  } catch {
    return false;
  }
};

const folderFor = async (argument: unknown): Promise<vscode.Uri | undefined> => {
  if (argument instanceof vscode.Uri) {
    const { type } = await vscode.workspace.fs.stat(argument);
    return type & vscode.FileType.Directory ? argument : vscode.Uri.joinPath(argument, '..');
  }
  const active = activePartFile()?.document.uri;
  return active?.scheme === 'file' ? vscode.Uri.joinPath(active, '..') : vscode.workspace.workspaceFolders?.[0]?.uri;
};

const shopIn = async (folder: vscode.Uri | undefined): Promise<{ readonly sheet: string; readonly units: NewUnits } | undefined> => {
  const file = folder === undefined ? undefined : vscode.Uri.joinPath(folder, SHOP_FILE);
  if (file === undefined || !(await exists(file))) return undefined;
  const { sheet, units } = readShopOutline((await vscode.workspace.openTextDocument(file)).getText());
  return sheet === undefined ? undefined : { sheet, units };
};

const unitsFor = async (wanted: unknown, shop: NewUnits | undefined): Promise<NewUnits | undefined> => {
  if (wanted === 'inch' || wanted === 'millimetre') return wanted;
  return shop ?? (await vscode.window.showQuickPick(UNITS, { placeHolder: 'Which units will you write in?' }))?.units;
};

const openText = async (file: NewFile, folder: vscode.Uri | undefined): Promise<vscode.TextEditor | undefined> => {
  const content = newFileText(file);
  if (folder === undefined) {
    return vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: LANGUAGE, content }));
  }
  const place = vscode.Uri.joinPath(folder, `${file.name}.planish`);
  if (await exists(place)) {
    void vscode.window.showWarningMessage(`${file.name}.planish is already there; it stays as it is. Choose another name.`);
    return undefined;
  }
  await vscode.workspace.fs.writeFile(place, new TextEncoder().encode(content));
  return vscode.window.showTextDocument(place, { preview: false });
};

/** Takes a folder (from the explorer), or `{ kind, name, units }` to ask for nothing. */
export const newPart = async (argument?: unknown): Promise<vscode.Uri | undefined> => {
  const wanted: Wanted = typeof argument === 'object' && argument !== null && !(argument instanceof vscode.Uri) ? argument : {};
  const kind =
    KINDS.find((each) => each.starts === wanted.kind)?.starts ??
    (await vscode.window.showQuickPick(KINDS, { placeHolder: 'What is it?' }))?.starts;
  if (kind === undefined) return undefined;
  const folder = await folderFor(argument);
  const asked = typeof wanted.name === 'string' && faultOfName(wanted.name) === undefined ? wanted.name : undefined;
  const name =
    kind === 'shop'
      ? 'shop'
      : (asked ?? (await vscode.window.showInputBox({ prompt: 'Name of the part', placeHolder: 'drop_gate', validateInput: faultOfName })));
  if (name === undefined) return undefined;
  const shop = kind === 'shop' ? undefined : await shopIn(folder);
  const units = await unitsFor(wanted.units, shop?.units);
  if (units === undefined) return undefined;
  const file: NewFile = { kind, name, units, shop: shop === undefined ? undefined : { file: SHOP_FILE, sheet: shop.sheet } };
  return (await openText(file, folder))?.document.uri;
};
