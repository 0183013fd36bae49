/** planish.exportPattern: one part into a file: its true-size pattern, the folded part in space or drawn, its section. */
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
import type { ViewName } from '../messages.js';
import type { PicturePanel } from '../picturePanel.js';
import { type Target, targetFromArgument } from '../target.js';
import { targetUnderCursor } from './showPicture.js';

type Format = PatternParams['format'];

type View = NonNullable<PatternParams['view']>;

interface Kind extends vscode.QuickPickItem {
  readonly format: Format;
  readonly view?: View;
}

const FLAT: readonly Kind[] = [
  { format: 'dxf', label: 'DXF', description: 'for a cutting table or another drawing program; arcs stay arcs' },
  { format: 'pdf', label: 'PDF', description: 'true size to print: one sheet, or tiles of the paper set under Planish: Paper' },
  { format: 'svg', label: 'SVG', description: 'true size in millimetres, for printing or a laser' },
  { format: 'png', label: 'PNG', description: 'a picture to look at or to send' },
];
const FOLDED: readonly Kind[] = [
  { format: 'glb', label: 'GLB', description: 'in space, for viewers and web pages: glTF 2.0, metres; beads left out' },
  { format: 'stl', label: 'STL', description: 'in space, as triangles, for printing a model: millimetres; beads left out' },
  { format: 'pdf', view: 'folded', label: 'Folded drawing, PDF', description: 'lines seen from a corner, with overall sizes' },
  { format: 'svg', view: 'folded', label: 'Folded drawing, SVG' },
  { format: 'png', view: 'folded', label: 'Folded drawing, PNG' },
];
const SECTION: readonly Kind[] = [
  { format: 'pdf', view: 'section', label: 'Section, PDF', description: 'cut across the bends, with sizes and angles' },
  { format: 'svg', view: 'section', label: 'Section, SVG' },
  { format: 'png', view: 'section', label: 'Section, PNG' },
];
const KINDS: readonly Kind[] = [...FLAT, ...FOLDED, ...SECTION];
const heading = (label: string): vscode.QuickPickItem => ({ label, kind: vscode.QuickPickItemKind.Separator });

/** What is in the picture stands first. */
const offered = (view: ViewName | undefined): readonly (Kind | vscode.QuickPickItem)[] => {
  const flat = [heading('the flat blank'), ...FLAT];
  const folded = [heading('the folded part'), ...FOLDED, heading('a section of it'), ...SECTION];
  return view === 'folded' ? [...folded, ...flat] : [...flat, ...folded];
};
const isKind = (item: vscode.QuickPickItem | undefined): item is Kind => item !== undefined && 'format' in item;

/** How the file to save is spoken of. */
const titleOf = (part: string, { format, view }: Pick<Kind, 'format' | 'view'>): string => {
  if (view === 'section') return `Section of ${part}`;
  return view === 'folded' || format === 'glb' || format === 'stl' ? `Folded ${part}` : `Pattern of ${part}`;
};
const FILTERS: Readonly<Record<Format, Record<string, string[]>>> = {
  dxf: { 'DXF drawing': ['dxf'] },
  svg: { 'SVG picture': ['svg'] },
  pdf: { 'PDF document': ['pdf'] },
  png: { 'PNG picture': ['png'] },
  glb: { 'glTF, binary': ['glb'] },
  stl: { 'STL, binary': ['stl'] },
};

interface Wanted {
  readonly kind: Kind | undefined;
  readonly file: vscode.Uri | undefined;
}

/** Further wishes in the argument: `format`, `view`, and `target` to write to without asking. */
const readWanted = (argument: unknown): Wanted => {
  if (typeof argument !== 'object' || argument === null || argument instanceof vscode.Uri) return { kind: undefined, file: undefined };
  const { format, view, target } = argument as { readonly format?: unknown; readonly view?: unknown; readonly target?: unknown };
  return {
    kind: KINDS.find((each) => each.format === format && each.view === view) ?? KINDS.find((each) => each.format === format),
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
    void vscode.window.showWarningMessage(`${path.basename(target.uri.path)} has no part to export.`);
    return undefined;
  }
  if (parts.length === 1) return parts[0]?.name;
  const items = parts.map(({ name, kind, summary }) => ({
    label: name,
    description: [kind, summary].filter((word) => word !== '').join(', '),
  }));
  return (await vscode.window.showQuickPick(items, { placeHolder: 'Export which part?' }))?.label;
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
    const chosen =
      wanted.kind ??
      (await vscode.window.showQuickPick(offered(pictures.state().view), {
        placeHolder: `Export ${part}: which kind of file?`,
        matchOnDescription: true,
      }));
    if (!isKind(chosen)) return undefined;
    const { format, view } = chosen;
    const params: PatternParams = {
      uri: client.code2ProtocolConverter.asUri(target.uri),
      part,
      format,
      ...(view === undefined ? {} : { view }),
    };
    const { name, text, bytes, reason } = await client.sendRequest<PatternResult>(patternMethod, params);
    if (name === undefined || (text === undefined && bytes === undefined)) {
      void vscode.window.showWarningMessage(`No file of ${part}: ${reason ?? 'it cannot be laid out yet.'}`);
      return undefined;
    }
    const folder = target.uri.scheme === 'file' ? vscode.Uri.joinPath(target.uri, '..') : vscode.workspace.workspaceFolders?.[0]?.uri;
    const defaultUri = folder === undefined ? undefined : vscode.Uri.joinPath(folder, name);
    const file =
      wanted.file ?? (await vscode.window.showSaveDialog({ defaultUri, filters: FILTERS[format], title: titleOf(part, chosen) }));
    if (file === undefined) return undefined;
    await vscode.workspace.fs.writeFile(file, bytes === undefined ? new TextEncoder().encode(text) : Buffer.from(bytes, 'base64'));
    if (wanted.file === undefined) void offerToOpen(file, format);
    return file;
  };
