/** The status bar's line: the part under the cursor and the size of its blank, or the length it is cut to. */
import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { type PartAtParams, type PartAtResult, partAtMethod } from '../server/lsp/protocol.js';
import { createCoalescer, wallClock } from './coalesce.js';
import { activePartFile } from './target.js';

export const createStatusBar = (client: LanguageClient): vscode.Disposable => {
  const item = vscode.window.createStatusBarItem('planish.part', vscode.StatusBarAlignment.Right, 100);
  item.name = 'Planish: part and blank size';

  const update = async (): Promise<void> => {
    const editor = activePartFile();
    if (editor === undefined || !client.isRunning()) {
      item.hide();
      return;
    }
    const params: PartAtParams = {
      uri: client.code2ProtocolConverter.asUri(editor.document.uri),
      position: client.code2ProtocolConverter.asPosition(editor.selection.active),
    };
    const { part } = await client.sendRequest<PartAtResult>(partAtMethod, params);
    if (part === undefined) {
      item.hide();
      return;
    }
    item.text = part.summary === '' ? part.name : `${part.name}: ${part.summary}`;
    const cutFromLength = part.kind === 'piece' || part.kind === 'strap';
    const what = cutFromLength ? `Length to cut for ${part.kind} ${part.name}` : `Blank of ${part.kind} ${part.name}`;
    item.tooltip =
      part.summary === '' ? `${part.kind} ${part.name}: no ${cutFromLength ? 'length' : 'blank'} yet` : `${what}. Click for the picture.`;
    item.command = {
      title: 'Show the picture',
      command: 'planish.showPicture',
      arguments: [{ uri: editor.document.uri, part: part.name }],
    };
    item.show();
  };

  const updates = createCoalescer<void>(update, wallClock, (reason) => client.outputChannel.appendLine(`status bar: ${String(reason)}`));
  const push = (): void => updates.push();
  const subscriptions = [
    vscode.window.onDidChangeActiveTextEditor(push),
    vscode.window.onDidChangeTextEditorSelection(push),
    vscode.workspace.onDidChangeTextDocument(push),
    client.onDidChangeState(push),
  ];
  push();
  return vscode.Disposable.from(item, updates, ...subscriptions);
};
