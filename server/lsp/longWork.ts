/** Requests that take a while: their progress is told by the protocol's own `$/progress`, and `$/cancelRequest` ends them. */
import { type CancellationToken, type Connection, LSPErrorCodes, type ProgressToken, ResponseError } from 'vscode-languageserver';
import { describeError } from './publish.js';

/** What the work is given: how to say how far it is, and when to give up. */
export interface Working {
  readonly stop: AbortSignal;
  /** Share of the work done, 0 … 1, and what is being done. */
  readonly progress: (share: number, words: string) => void;
}
/** Parameters of such a request. */
export interface LongParams {
  /** By which the asker wants to be told of progress; without one it is told nothing. */
  readonly workDoneToken?: ProgressToken;
}

/** News closer together than this is not sent, ms. */
const pause = 100;

const teller = (connection: Connection, token: ProgressToken | undefined): ((value: object) => void) =>
  token === undefined
    ? () => undefined
    : (value) => {
        connection.sendNotification('$/progress', { token, value }).catch(() => undefined);
      };

/**
 * The handler of a request that takes a while. Fenced off as the others are: a fault is written to the log and answered with `otherwise`; work that was given
 * up is answered as cancelled, whatever it came to.
 */
export const longRequest =
  <P extends LongParams, R>(connection: Connection, name: string, otherwise: R, work: (params: P, working: Working) => Promise<R>) =>
  async (params: P, token: CancellationToken): Promise<R | ResponseError<void>> => {
    const ender = new AbortController();
    const cancelled = token.onCancellationRequested(() => ender.abort());
    if (token.isCancellationRequested) ender.abort();
    const tell = teller(connection, params.workDoneToken);
    let last = Number.NEGATIVE_INFINITY;
    const progress = (share: number, words: string): void => {
      const now = performance.now();
      if (now - last < pause) return;
      last = now;
      tell({ kind: 'report', message: words, percentage: Math.round(Math.min(1, Math.max(0, share)) * 100) });
    };
    tell({ kind: 'begin', title: '', percentage: 0 });
    try {
      const answer = await work(params, { stop: ender.signal, progress });
      return ender.signal.aborted ? new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.') : answer;
    } catch (error) {
      if (error instanceof ResponseError) return error;
      connection.console.error(`${name}: ${describeError(error)}`);
      return otherwise;
    } finally {
      tell({ kind: 'end' });
      cancelled.dispose();
    }
  };
