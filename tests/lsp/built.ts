import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import {
  type ClientCapabilities,
  createProtocolConnection,
  type InitializeResult,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';

/** The server as it is shipped: one file, made in a folder of its own. */
export const builtServer = async (): Promise<string> => {
  const outfile = join(mkdtempSync(join(tmpdir(), 'planish-server-')), 'server.cjs');
  await build({
    entryPoints: ['server/lsp/main.ts'],
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    outfile,
    logLevel: 'error',
  });
  return outfile;
};

export interface Client {
  readonly connection: ProtocolConnection;
  readonly process: ChildProcess;
  readonly initialized: InitializeResult;
  /** What the server wrote to the client's log. */
  readonly log: readonly string[];
  readonly stop: () => Promise<number | null>;
}

/** Starts the server on standard input and output and shakes hands with it. */
export const startClient = async (
  server: string,
  capabilities: ClientCapabilities,
  rootUri: string | null,
  settings: unknown = {},
): Promise<Client> => {
  const child = spawn(process.execPath, [server, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  const log: string[] = [];
  connection.onNotification('window/logMessage', (params: { message: string }) => {
    log.push(params.message);
  });
  connection.onRequest('workspace/configuration', (params: { items: unknown[] }) => params.items.map(() => settings));
  connection.onRequest('client/registerCapability', () => null);
  for (const view of ['diagnostic', 'inlayHint', 'codeLens']) connection.onRequest(`workspace/${view}/refresh`, () => null);
  connection.listen();
  const initialized: InitializeResult = await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri,
    workspaceFolders: rootUri === null ? null : [{ uri: rootUri, name: 'shop' }],
    capabilities,
  });
  await connection.sendNotification('initialized', {});
  return {
    connection,
    process: child,
    initialized,
    log,
    stop: async () => {
      const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
      await connection.sendRequest('shutdown');
      await connection.sendNotification('exit');
      const code = await ended;
      connection.dispose();
      return code;
    },
  };
};
