/** The language server: one process beside the editor, spoken to over its own channel. */
import * as path from 'node:path';
import * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions, type ServerOptions, TransportKind } from 'vscode-languageclient/node';
import type { CompletionData } from '../server/lsp/protocol.js';

export const LANGUAGE = 'planish';

/** A statement that was taken from the list and goes on with a name, such as that of a sheet, opens the list of those at once. */
const openNextList = (items: readonly vscode.CompletionItem[]): void => {
  for (const item of items as readonly (vscode.CompletionItem & { readonly data?: CompletionData })[])
    if (item.data?.kind === 'statement' && item.data.names === true)
      item.command = { title: 'Names', command: 'editor.action.triggerSuggest' };
};

/** Makes the client; the caller starts it. Part files are watched on disk too, since a file may bring others that are not open. */
export const createLanguageClient = (context: vscode.ExtensionContext): LanguageClient => {
  const module = context.asAbsolutePath(path.join('dist', 'server.cjs'));
  const server: ServerOptions = {
    run: { module, transport: TransportKind.ipc },
    debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--enable-source-maps'] } },
  };
  const watcher = vscode.workspace.createFileSystemWatcher('**/*.planish');
  context.subscriptions.push(watcher);
  const options: LanguageClientOptions = {
    documentSelector: [
      { scheme: 'file', language: LANGUAGE },
      { scheme: 'untitled', language: LANGUAGE },
    ],
    synchronize: { configurationSection: 'planish', fileEvents: watcher },
    initializationOptions: vscode.workspace.getConfiguration('planish'),
    outputChannelName: 'Planish',
    middleware: {
      provideCompletionItem: async (document, position, context, token, next) => {
        const offered = await next(document, position, context, token);
        openNextList(Array.isArray(offered) ? offered : (offered?.items ?? []));
        return offered;
      },
    },
  };
  return new LanguageClient('planish', 'Planish', server, options);
};
