/** The language server: one process beside the editor, spoken to over its own channel. */
import * as path from 'node:path';
import * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions, type ServerOptions, TransportKind } from 'vscode-languageclient/node';

export const LANGUAGE = 'planish';

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
  };
  return new LanguageClient('planish', 'Planish', server, options);
};
