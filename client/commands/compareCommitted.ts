/** planish.compareCommitted: what changed in the file since it was committed. */
import * as path from 'node:path';
import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { type CompareParams, type CompareResult, compareMethod } from '../../server/lsp/protocol.js';
import type { DocumentPanel } from '../documentPanel.js';
import { targetFromArgument } from '../target.js';
import { targetUnderCursor } from './showPicture.js';

export const compareCommitted =
  (client: LanguageClient, documents: DocumentPanel) =>
  async (argument?: unknown): Promise<boolean> => {
    const target = targetFromArgument(argument) ?? (await targetUnderCursor(client));
    if (target === undefined) {
      void vscode.window.showWarningMessage('Open a part file (.planish) first; then it can be compared with its committed version.');
      return false;
    }
    const name = path.basename(target.uri.path);
    return documents.show('planish.comparison', `Changes: ${name}`, async (nonce) => {
      const params: CompareParams = { uri: client.code2ProtocolConverter.asUri(target.uri), nonce };
      const { html, reason } = await client.sendRequest<CompareResult>(compareMethod, params);
      if (html === undefined) void vscode.window.showWarningMessage(reason ?? `${name} could not be compared.`);
      return html;
    });
  };
