import {
  type CancellationToken,
  type Connection,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type FullDocumentDiagnosticReport,
  LSPErrorCodes,
  ResponseError,
  type UnchangedDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { Ask } from './ask.js';
import { diagnosticsOf } from './diagnostics.js';
import { type PictureChangedParams, pictureChangedMethod } from './protocol.js';
import type { Workspace } from './workspace.js';

/** How findings reach the client: asked for (pull), else sent (push). Both give the same list; a late answer is dropped. */
export interface Publisher {
  readonly pull: (uri: string, previous: string | undefined, token: CancellationToken) => Promise<DocumentDiagnosticReport>;
  /** A document's text, or something it reads, changed. */
  readonly changed: (uri: string) => void;
  readonly closed: (uri: string) => void;
  /** Every open document may read differently now: settings, folders or files on the disk changed. */
  readonly changedAll: () => void;
  readonly picturesWanted: () => void;
}

export interface PublisherAbilities {
  readonly pull: boolean;
  readonly related: boolean;
}

/** Milliseconds the server works before it looks for newer messages. */
const longestTurn = 8;

const dropped = (): ResponseError<{ readonly retriggerRequest: boolean }> =>
  new ResponseError(LSPErrorCodes.ServerCancelled, 'The text changed meanwhile.', { retriggerRequest: true });

/** Lets messages that have come in meanwhile, edits and cancellations among them, be taken first. */
export const nextTurn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

export const createPublisher = (connection: Connection, workspace: Workspace, abilities: () => PublisherAbilities): Publisher => {
  /** What each report was made from: while findings and text are the very same objects, so is the report. */
  const sent = new Map<string, { readonly id: string; readonly findings: unknown; readonly tree: unknown }>();
  let count = 0;
  let pictures = false;
  const waiting = new Set<string>();
  let running = false;

  const reportId = (uri: string, ask: Ask): string => {
    const findings = ask.project.findingsSoFar(ask.path);
    const tree = ask.project.tree(ask.path);
    const last = sent.get(uri);
    if (last !== undefined && last.findings === findings && last.tree === tree) return last.id;
    const id = String(++count);
    sent.set(uri, { id, findings, tree });
    return id;
  };

  /** Works a file's findings out part by part, making way for newer messages; false when it was overtaken. */
  const workOut = async (ask: Ask, overtaken: () => boolean): Promise<boolean> => {
    const steps = ask.project.findingsInSteps(ask.path);
    let started = performance.now();
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done === true) return step.value !== undefined;
      if (performance.now() - started < longestTurn) continue;
      await nextTurn();
      if (overtaken()) return false;
      started = performance.now();
    }
  };

  const pull: Publisher['pull'] = async (uri, previous, token) => {
    const version = workspace.version(uri);
    const overtaken = (): boolean => token.isCancellationRequested || workspace.version(uri) !== version;
    const ask = workspace.ask(uri);
    if (!(await workOut(ask, overtaken))) throw dropped();
    const resultId = reportId(uri, ask);
    const own: FullDocumentDiagnosticReport | UnchangedDocumentDiagnosticReport =
      resultId === previous
        ? { kind: DocumentDiagnosticReportKind.Unchanged, resultId }
        : { kind: DocumentDiagnosticReportKind.Full, resultId, items: diagnosticsOf(ask) };
    if (!abilities().related) return own;
    const relatedDocuments: Record<string, FullDocumentDiagnosticReport> = {};
    for (const other of workspace.dependents(uri)) {
      // Open documents are asked for by the client itself; those not open show nothing unless told along the way.
      if (workspace.version(other) !== undefined) continue;
      const otherAsk = workspace.ask(other);
      if (!(await workOut(otherAsk, overtaken))) throw dropped();
      const last = sent.get(other)?.id;
      const id = reportId(other, otherAsk);
      if (id !== last) relatedDocuments[other] = { kind: DocumentDiagnosticReportKind.Full, resultId: id, items: diagnosticsOf(otherAsk) };
    }
    return Object.keys(relatedDocuments).length === 0 ? own : { ...own, relatedDocuments };
  };

  const push = async (uri: string): Promise<void> => {
    // A newer edit asks for this document again: what remains of the older answer is dropped.
    const overtaken = (): boolean => waiting.has(uri);
    for (const other of [uri, ...workspace.dependents(uri)]) {
      const version = workspace.version(other);
      const ask = workspace.ask(other);
      if (!(await workOut(ask, overtaken)) || overtaken() || workspace.version(other) !== version) return;
      const last = sent.get(other)?.id;
      const id = reportId(other, ask);
      if (id !== last)
        await connection.sendDiagnostics({ uri: other, ...(version === undefined ? {} : { version }), diagnostics: diagnosticsOf(ask) });
    }
  };

  const tellPicture = async (uri: string): Promise<void> => {
    for (const other of [uri, ...workspace.dependents(uri)]) {
      const version = workspace.version(other);
      if (version === undefined) continue;
      const params: PictureChangedParams = { uri: other, version };
      await connection.sendNotification(pictureChangedMethod, params);
    }
  };

  const run = async (): Promise<void> => {
    running = true;
    try {
      await nextTurn();
      for (let uri = first(waiting); uri !== undefined; uri = first(waiting)) {
        waiting.delete(uri);
        if (workspace.version(uri) === undefined) continue;
        try {
          if (!abilities().pull) await push(uri);
          if (pictures && !waiting.has(uri)) await tellPicture(uri);
        } catch (error) {
          connection.console.error(`findings of ${uri}: ${describeError(error)}`);
        }
        await nextTurn();
      }
    } finally {
      running = false;
    }
  };
  const changed = (uri: string): void => {
    waiting.add(uri);
    if (!running) void run();
  };

  return {
    pull,
    changed,
    closed: (uri) => {
      waiting.delete(uri);
      sent.delete(uri);
      if (!abilities().pull) void connection.sendDiagnostics({ uri, diagnostics: [] });
    },
    changedAll: () => workspace.openUris().forEach(changed),
    picturesWanted: () => {
      pictures = true;
    },
  };
};

const first = <T>(items: ReadonlySet<T>): T | undefined => items.values().next().value;

export const describeError = (error: unknown): string => (error instanceof Error ? (error.stack ?? error.message) : String(error));
