/** Questions to the server that take a while: a notice that says how far it is, with a button to give up. */
import { randomUUID } from 'node:crypto';
import * as vscode from 'vscode';
import { type LanguageClient, LSPErrorCodes, ResponseError, WorkDoneProgress } from 'vscode-languageclient/node';

/** Whether a question was answered with "given up" rather than with a fault. */
const givenUp = (reason: unknown): boolean =>
  reason instanceof ResponseError && (reason.code === LSPErrorCodes.RequestCancelled || reason.code === LSPErrorCodes.ServerCancelled);

/**
 * Asks and waits, showing what the server says of its progress.
 *
 * @param title what is being done, over the progress: `Laying parts on sheets`
 * @param params of the request; the token by which the server tells how far it is is added to them
 * @returns undefined when the reader gave up
 * @throws what the server answered when it failed
 */
export const longWork = async <Result>(
  client: LanguageClient,
  title: string,
  method: string,
  params: object,
): Promise<Result | undefined> =>
  vscode.window.withProgress({ location: vscode.ProgressLocation.Notification, title, cancellable: true }, async (notice, stop) => {
    const workDoneToken = randomUUID();
    let shown = 0;
    const told = client.onProgress(WorkDoneProgress.type, workDoneToken, (value) => {
      if (value.kind === 'end') return;
      const { message, percentage } = value;
      // The notice counts in steps, the server says where it stands.
      const increment = percentage === undefined ? 0 : Math.max(0, percentage - shown);
      shown += increment;
      notice.report({ increment, ...(message === undefined ? {} : { message }) });
    });
    try {
      const result = await client.sendRequest<Result>(method, { ...params, workDoneToken }, stop);
      return stop.isCancellationRequested ? undefined : result;
    } catch (reason) {
      if (stop.isCancellationRequested || givenUp(reason)) return undefined;
      throw reason;
    } finally {
      told.dispose();
    }
  });
