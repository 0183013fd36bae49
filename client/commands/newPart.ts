/** planish.newPart: a new file that already computes, ready to be changed. */
import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { type TemplateParams, type TemplateResult, templateMethod } from '../../server/lsp/protocol.js';
import { LANGUAGE } from '../languageServer.js';
import { activePartFile } from '../target.js';

type NewKind = TemplateParams['kind'];
type NewUnits = NonNullable<TemplateParams['units']>;

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

/** Text of the shop file in a folder, as it stands in the editor. */
const shopIn = async (folder: vscode.Uri | undefined): Promise<string | undefined> => {
  const file = folder === undefined ? undefined : vscode.Uri.joinPath(folder, SHOP_FILE);
  return file === undefined || !(await exists(file)) ? undefined : (await vscode.workspace.openTextDocument(file)).getText();
};

/** A file written for a shop takes the shop's units; else the person chooses. */
const unitsFor = async (wanted: unknown, shop: string | undefined): Promise<NewUnits | 'the shop’s' | undefined> => {
  if (wanted === 'inch' || wanted === 'millimetre') return wanted;
  if (shop !== undefined) return 'the shop’s';
  return (await vscode.window.showQuickPick(UNITS, { placeHolder: 'Which units will you write in?' }))?.units;
};

const openText = async (name: string, content: string, folder: vscode.Uri | undefined): Promise<vscode.TextEditor | undefined> => {
  if (folder === undefined) {
    return vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: LANGUAGE, content }));
  }
  const place = vscode.Uri.joinPath(folder, `${name}.planish`);
  if (await exists(place)) {
    void vscode.window.showWarningMessage(`${name}.planish is already there; it stays as it is. Choose another name.`);
    return undefined;
  }
  await vscode.workspace.fs.writeFile(place, new TextEncoder().encode(content));
  return vscode.window.showTextDocument(place, { preview: false });
};

/** Takes a folder (from the explorer), or `{ kind, name, units }` to ask for nothing. */
export const newPart =
  (client: LanguageClient) =>
  async (argument?: unknown): Promise<vscode.Uri | undefined> => {
    const template = (params: TemplateParams): Promise<TemplateResult> => client.sendRequest<TemplateResult>(templateMethod, params);
    const wanted: Wanted = typeof argument === 'object' && argument !== null && !(argument instanceof vscode.Uri) ? argument : {};
    const kind =
      KINDS.find((each) => each.starts === wanted.kind)?.starts ??
      (await vscode.window.showQuickPick(KINDS, { placeHolder: 'What is it?' }))?.starts;
    if (kind === undefined) return undefined;
    const folder = await folderFor(argument);
    const faultOfName = async (name: string): Promise<string | undefined> => (await template({ kind, name })).fault;
    const asked = typeof wanted.name === 'string' && (await faultOfName(wanted.name)) === undefined ? wanted.name : undefined;
    const name =
      kind === 'shop'
        ? 'shop'
        : (asked ??
          (await vscode.window.showInputBox({ prompt: 'Name of the part', placeHolder: 'drop_gate', validateInput: faultOfName })));
    if (name === undefined) return undefined;
    const shop = kind === 'shop' ? undefined : await shopIn(folder);
    const units = await unitsFor(wanted.units, shop);
    if (units === undefined) return undefined;
    const made = await template({
      kind,
      name,
      ...(units === 'the shop’s' ? {} : { units }),
      ...(shop === undefined ? {} : { shop }),
    });
    if (made.text === undefined) {
      void vscode.window.showWarningMessage(made.fault ?? 'There is no such file to start from.');
      return undefined;
    }
    return (await openText(name, made.text, folder))?.document.uri;
  };
