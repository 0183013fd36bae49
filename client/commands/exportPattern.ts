/** planish.exportPattern: one part's true-size pattern into a file. */
import * as path from 'node:path';
import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type PatternParams,
  type PatternResult,
  type PictureParams,
  type PictureResult,
  patternMethod,
  pictureMethod,
} from '../../server/lsp/protocol.js';
import type { PicturePanel } from '../picturePanel.js';
import { type Target, targetFromArgument } from '../target.js';
import { targetUnderCursor } from './showPicture.js';

type Format = PatternParams['format'];

type View = NonNullable<PatternParams['view']>;

const FORMATS: readonly (vscode.QuickPickItem & { readonly format: Format; readonly view?: View })[] = [
  { format: 'dxf', label: 'DXF', description: 'for a cutting table or another drawing program; arcs stay arcs' },
  { format: 'pdf', label: 'PDF', description: 'true size to print: one sheet, or tiles of the paper set under Planish: Paper' },
  { format: 'svg', label: 'SVG', description: 'true size in millimetres, for printing or a laser' },
  { format: 'png', label: 'PNG', description: 'a picture to look at or to send' },
  { format: 'glb', label: 'GLB', description: 'the part folded, in space: glTF 2.0, metres' },
  { format: 'stl', label: 'STL', description: 'the part folded, as triangles: millimetres' },
  { format: 'pdf', view: 'folded', label: 'Folded view', description: 'a line drawing of the folded part, as PDF' },
  { format: 'pdf', view: 'section', label: 'Section', description: 'a section of the folded part with its sizes, as PDF' },
];
const FILTERS: Readonly<Record<Format, Record<string, string[]>>> = {
  dxf: { 'DXF drawing': ['dxf'] },
  svg: { 'SVG picture': ['svg'] },
  pdf: { 'PDF document': ['pdf'] },
  png: { 'PNG picture': ['png'] },
  glb: { 'glTF, binary': ['glb'] },
  stl: { 'STL, binary': ['stl'] },
};

interface Wanted {
  readonly kind: { readonly format: Format; readonly view?: View } | undefined;
  readonly file: vscode.Uri | undefined;
}

/** Further wishes in the argument: `format`, `view`, and `target` to write to without asking. */
const readWanted = (argument: unknown): Wanted => {
  if (typeof argument !== 'object' || argument === null || argument instanceof vscode.Uri) return { kind: undefined, file: undefined };
  const { format, view, target } = argument as { readonly format?: unknown; readonly view?: unknown; readonly target?: unknown };
  return {
    kind: FORMATS.find((each) => each.format === format && each.view === view) ?? FORMATS.find((each) => each.format === format),
    file: target instanceof vscode.Uri ? target : typeof target === 'string' ? vscode.Uri.parse(target) : undefined,
  };
};

const partsOf = async (client: LanguageClient, uri: vscode.Uri): Promise<PictureResult['parts']> => {
  const params: PictureParams = { uri: client.code2ProtocolConverter.asUri(uri) };
  return (await client.sendRequest<PictureResult>(pictureMethod, params)).parts;
};

const choosePart = async (client: LanguageClient, target: Target): Promise<string | undefined> => {
  if (target.part !== undefined) return target.part;
  const parts = await partsOf(client, target.uri);
  if (parts.length === 0) {
    void vscode.window.showWarningMessage(`${path.basename(target.uri.path)} has no part to make a pattern of.`);
    return undefined;
  }
  if (parts.length === 1) return parts[0]?.name;
  const items = parts.map(({ name, kind, summary }) => ({
    label: name,
    description: [kind, summary].filter((word) => word !== '').join(', '),
  }));
  return (await vscode.window.showQuickPick(items, { placeHolder: 'Pattern of which part?' }))?.label;
};

const offerToOpen = async (file: vscode.Uri, format: Format): Promise<void> => {
  const open = 'Open';
  const folder = 'Show in Folder';
  const answer = await vscode.window.showInformationMessage(`Saved ${path.basename(file.path)}.`, open, folder);
  if (answer === folder) await vscode.commands.executeCommand('revealFileInOS', file);
  // A DXF read as text helps nobody: it goes to whatever program the system keeps for it.
  if (answer === open && (format === 'svg' || format === 'png')) await vscode.commands.executeCommand('vscode.open', file);
  if (answer === open && format !== 'svg' && format !== 'png') await vscode.env.openExternal(file);
};

export const exportPattern =
  (client: LanguageClient, pictures: PicturePanel) =>
  async (argument?: unknown): Promise<vscode.Uri | undefined> => {
    const target = targetFromArgument(argument) ?? (await targetUnderCursor(client)) ?? pictures.state().target;
    if (target === undefined) {
      void vscode.window.showWarningMessage('Open a part file (.planish) first; then its pattern can be exported.');
      return undefined;
    }
    const wanted = readWanted(argument);
    const part = await choosePart(client, target);
    if (part === undefined) return undefined;
    const chosen = wanted.kind ?? (await vscode.window.showQuickPick(FORMATS, { placeHolder: `Pattern of ${part}: which kind of file?` }));
    if (chosen === undefined) return undefined;
    const { format, view } = chosen;
    const params: PatternParams = {
      uri: client.code2ProtocolConverter.asUri(target.uri),
      part,
      format,
      ...(view === undefined ? {} : { view }),
    };
    const { name, text, bytes, reason } = await client.sendRequest<PatternResult>(patternMethod, params);
    if (name === undefined || (text === undefined && bytes === undefined)) {
      void vscode.window.showWarningMessage(`No pattern of ${part}: ${reason ?? 'it cannot be laid out yet.'}`);
      return undefined;
    }
    const folder = target.uri.scheme === 'file' ? vscode.Uri.joinPath(target.uri, '..') : vscode.workspace.workspaceFolders?.[0]?.uri;
    const defaultUri = folder === undefined ? undefined : vscode.Uri.joinPath(folder, name);
    const file = wanted.file ?? (await vscode.window.showSaveDialog({ defaultUri, filters: FILTERS[format], title: `Pattern of ${part}` }));
    if (file === undefined) return undefined;
    await vscode.workspace.fs.writeFile(file, bytes === undefined ? new TextEncoder().encode(text) : Buffer.from(bytes, 'base64'));
    if (wanted.file === undefined) void offerToOpen(file, format);
    return file;
  };
