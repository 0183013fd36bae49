/** `planish serve`: the language server on standard input and output. */
import type { Io } from './io.js';

export const help = `planish serve

The language server, speaking the Language Server Protocol on standard input and output, for
any editor that speaks it. --node-ipc, --socket and --pipe are taken too.
`;

/** Never answers: the server ends the process when its client says so or goes away. */
export const run = async (_argv: readonly string[], _io: Io): Promise<number> => {
  await import('../lsp/main.js');
  return new Promise<number>(() => undefined);
};
