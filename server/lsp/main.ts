/** The language server as a program: `--node-ipc`, `--socket`, `--pipe` as the client says, else standard input and output. */
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { startServer } from './server.js';

const told = process.argv.some((word) => /^--(stdio|node-ipc|socket|pipe)/.test(word));
startServer(told ? createConnection(ProposedFeatures.all) : createConnection(ProposedFeatures.all, process.stdin, process.stdout));
