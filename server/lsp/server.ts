import {
  type CancellationToken,
  type Connection,
  type DefinitionLink,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type Location,
  LSPErrorCodes,
  ResponseError,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { nodeFiles } from '../node-files.js';
import { newFile } from '../templates.js';
import { bendingOf } from './bending.js';
import { createBendOrders } from './bendOrder.js';
import { bookletOf } from './booklet.js';
import { type Abilities, abilitiesOf, serverCapabilities } from './capabilities.js';
import { codeActions } from './codeActions.js';
import { codeLenses } from './codeLens.js';
import { compareCommitted } from './compare.js';
import { completions, resolveCompletion } from './completion.js';
import { createCutting } from './cutting.js';
import { definition } from './definition.js';
import { documentLinks } from './documentLinks.js';
import { documentSymbols } from './documentSymbols.js';
import { explain } from './explain.js';
import { foldedOf } from './folded.js';
import { foldingRanges } from './folding.js';
import { formatDocument, formatOnType, formatRange } from './formatting.js';
import { hover } from './hover.js';
import { inlayHints } from './inlayHints.js';
import { longRequest } from './longWork.js';
import { featureAt, partAt, patternOf, pictureOf } from './picture.js';
import { createPlanner } from './planning.js';
import * as protocol from './protocol.js';
import { createPublisher, describeError, nextTurn } from './publish.js';
import { documentHighlights, references } from './references.js';
import { type Answer, prepareRename, rename } from './rename.js';
import { selectionRanges } from './selectionRanges.js';
import { semanticTokens } from './semanticTokens.js';
import { readSettings } from './settings.js';
import { signatureHelp } from './signatureHelp.js';
import { createWorkspace, listPartFiles } from './workspace.js';
import { workspaceSymbols } from './workspaceSymbols.js';

/**
 * Answers a client over a connection until it is closed. Every request is fenced off: one that fails is written to the client's
 * log and answered with nothing, and the server lives on.
 */
export const startServer = (connection: Connection): void => {
  const workspace = createWorkspace(nodeFiles(), listPartFiles);
  const documents = new TextDocuments(TextDocument);
  let abilities: Abilities = abilitiesOf({});
  let linkSupport = false;
  const publisher = createPublisher(connection, workspace, () => abilities);
  // Who looks at a part asks for it again, and gets the order that is known by then.
  const orders = createBendOrders(
    (uri) => {
      const changed: protocol.PictureChangedParams = { uri, version: workspace.version(uri) ?? 0 };
      connection.sendNotification(protocol.pictureChangedMethod, changed).catch(() => undefined);
    },
    (error) => connection.console.error(`bend order: ${describeError(error)}`),
  );

  /** Fences a handler off; `otherwise` is the empty answer of its request. */
  const fenced =
    <P, R>(name: string, otherwise: R, handle: (params: P) => R) =>
    (params: P, token: CancellationToken): R | ResponseError<void> => {
      if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.');
      try {
        return handle(params);
      } catch (error) {
        if (error instanceof ResponseError) return error;
        connection.console.error(`${name}: ${describeError(error)}`);
        return otherwise;
      }
    };
  /** The same for answers that take their time. */
  const fencedLater =
    <P, R>(name: string, otherwise: R, handle: (params: P) => Promise<R>) =>
    async (params: P, token: CancellationToken): Promise<R | ResponseError<void>> => {
      if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'Cancelled.');
      try {
        return await handle(params);
      } catch (error) {
        if (error instanceof ResponseError) return error;
        connection.console.error(`${name}: ${describeError(error)}`);
        return otherwise;
      }
    };
  const quietly = (name: string, act: () => void): void => {
    try {
      act();
    } catch (error) {
      connection.console.error(`${name}: ${describeError(error)}`);
    }
  };
  const about = (params: { readonly textDocument: { readonly uri: string } }): ReturnType<typeof workspace.ask> =>
    workspace.ask(params.textDocument.uri);
  const orRefuse = <T>(answer: Answer<T>): T => {
    if (answer.ok) return answer.value;
    throw new ResponseError(LSPErrorCodes.RequestFailed, answer.reason);
  };

  const refreshViews = (): void => {
    if (abilities.refreshInlayHints) connection.languages.inlayHint.refresh().catch(() => undefined);
    if (abilities.refreshCodeLenses) connection.sendRequest('workspace/codeLens/refresh').catch(() => undefined);
  };
  const planner = createPlanner({
    workspace,
    planned: (uri) => {
      // What is pushed is pushed again; a client that asks is told to ask again. Who looks at a file that is not open is told so only.
      if (workspace.version(uri) !== undefined) publisher.changed(uri);
      else {
        const changed: protocol.PictureChangedParams = { uri, version: 0 };
        connection.sendNotification(protocol.pictureChangedMethod, changed).catch(() => undefined);
      }
      if (abilities.refreshDiagnostics) void connection.languages.diagnostics.refresh();
      refreshViews();
    },
    failed: (message) => connection.console.error(message),
  });
  let exploring = false;
  const explore = async (): Promise<void> => {
    if (exploring) return;
    exploring = true;
    try {
      for (const _ of workspace.explore()) await nextTurn();
    } catch (error) {
      connection.console.error(`reading the workspace: ${describeError(error)}`);
    } finally {
      exploring = false;
    }
  };
  const everythingChanged = (): void => {
    void explore();
    publisher.changedAll();
    planner.changedAll();
    if (abilities.refreshDiagnostics) void connection.languages.diagnostics.refresh();
    refreshViews();
  };
  const takeSettings = (raw: unknown): void => {
    workspace.setSettings(readSettings(raw));
    everythingChanged();
  };
  const fetchSettings = async (): Promise<void> => {
    try {
      takeSettings(await connection.workspace.getConfiguration('planish'));
    } catch (error) {
      connection.console.warn(`settings could not be read, the usual ones are used: ${describeError(error)}`);
    }
  };

  connection.onInitialize((params) => {
    abilities = abilitiesOf(params.capabilities);
    linkSupport = params.capabilities.textDocument?.definition?.linkSupport === true;
    const root = params.rootUri ?? undefined;
    workspace.setFolders(params.workspaceFolders?.map((folder) => folder.uri) ?? (root === undefined ? [] : [root]));
    const given: unknown = params.initializationOptions;
    if (typeof given === 'object' && given !== null && 'planish' in given) workspace.setSettings(readSettings(given.planish));
    return { capabilities: serverCapabilities(abilities), serverInfo: { name: 'planish' } };
  });
  connection.onInitialized(() => {
    void explore();
    if (abilities.configuration) {
      if (abilities.configurationNews) void connection.client.register(DidChangeConfigurationNotification.type, { section: 'planish' });
      void fetchSettings();
    }
    if (abilities.watching)
      void connection.client.register(DidChangeWatchedFilesNotification.type, { watchers: [{ globPattern: '**/*.planish' }] });
    if (abilities.folders) {
      connection.workspace.onDidChangeWorkspaceFolders(() => {
        void connection.workspace.getWorkspaceFolders().then((folders) => {
          workspace.setFolders((folders ?? []).map((folder) => folder.uri));
          everythingChanged();
        });
      });
    }
  });
  connection.onDidChangeConfiguration((change) => {
    if (abilities.configuration) void fetchSettings();
    else {
      const settings: unknown = change.settings;
      takeSettings(typeof settings === 'object' && settings !== null && 'planish' in settings ? settings.planish : settings);
    }
  });
  connection.onDidChangeWatchedFiles((change) =>
    quietly('files on the disk', () => {
      workspace.diskChanged(change.changes.map((one) => one.uri));
      everythingChanged();
    }),
  );

  documents.onDidChangeContent(({ document }) =>
    quietly('change', () => {
      workspace.setText(document.uri, document.version, document.getText());
      publisher.changed(document.uri);
      planner.changed(document.uri);
      if (workspace.dependents(document.uri).some((uri) => workspace.version(uri) !== undefined)) refreshViews();
    }),
  );
  documents.onDidClose(({ document }) =>
    quietly('close', () => {
      workspace.close(document.uri);
      publisher.closed(document.uri);
      planner.closed(document.uri);
      publisher.changedAll();
      void explore();
    }),
  );

  connection.languages.diagnostics.on(async (params, token) => {
    try {
      return await publisher.pull(params.textDocument.uri, params.previousResultId, token);
    } catch (error) {
      if (error instanceof ResponseError) throw error;
      connection.console.error(`findings: ${describeError(error)}`);
      return { kind: 'full', items: [] };
    }
  });
  connection.onCompletion(
    fenced('completion', null, (params) =>
      completions(about(params), params.position, { snippets: abilities.snippets, afterBlank: params.context?.triggerCharacter === ' ' }),
    ),
  );
  connection.onCompletionResolve((item) => {
    try {
      return resolveCompletion(item, workspace.ask);
    } catch (error) {
      connection.console.error(`completion: ${describeError(error)}`);
      return item;
    }
  });
  connection.onHover(fenced('hover', null, (params) => hover(about(params), params.position) ?? null));
  connection.onSignatureHelp(fenced('signature help', null, (params) => signatureHelp(about(params), params.position) ?? null));
  connection.onDefinition(
    fenced<Parameters<Parameters<Connection['onDefinition']>[0]>[0], DefinitionLink[] | Location[]>('definition', [], (params) => {
      const links = definition(about(params), params.position);
      return linkSupport ? links : links.map((link) => ({ uri: link.targetUri, range: link.targetSelectionRange }));
    }),
  );
  connection.onReferences(
    fenced('references', [], (params) => references(about(params), params.position, params.context.includeDeclaration)),
  );
  connection.onDocumentHighlight(fenced('highlight', [], (params) => documentHighlights(about(params), params.position)));
  connection.onPrepareRename(fenced('rename', null, (params) => orRefuse(prepareRename(about(params), params.position))));
  connection.onRenameRequest(fenced('rename', null, (params) => orRefuse(rename(about(params), params.position, params.newName))));
  connection.onDocumentSymbol(fenced('outline', [], (params) => documentSymbols(about(params))));
  connection.onWorkspaceSymbol(fenced('symbols', [], (params) => workspace.asks().flatMap((ask) => workspaceSymbols(ask, params.query))));
  connection.onFoldingRanges(fenced('folding', [], (params) => foldingRanges(about(params))));
  connection.onSelectionRanges(fenced('selection', [], (params) => selectionRanges(about(params), params.positions)));
  connection.languages.semanticTokens.on(fenced('colours', { data: [] }, (params) => semanticTokens(about(params))));
  connection.languages.semanticTokens.onRange(fenced('colours', { data: [] }, (params) => semanticTokens(about(params), params.range)));
  connection.languages.inlayHint.on(fenced('hints', [], (params) => inlayHints(about(params), params.range)));
  connection.onCodeAction(
    fenced('fixes', [], (params) => codeActions(about(params), params.range, params.context.only, params.context.diagnostics)),
  );
  connection.onCodeLens(fenced('code lens', [], (params) => codeLenses(about(params))));
  connection.onDocumentFormatting(fenced('format', [], (params) => formatDocument(about(params))));
  connection.onDocumentRangeFormatting(fenced('format', [], (params) => formatRange(about(params), params.range)));
  connection.onDocumentOnTypeFormatting(fenced('format', [], (params) => formatOnType(about(params), params.position, params.ch)));
  connection.onDocumentLinks(fenced('links', [], (params) => documentLinks(about(params))));

  connection.onRequest(
    protocol.pictureMethod,
    fenced<protocol.PictureParams, protocol.PictureResult | null>('picture', null, (params) => {
      publisher.picturesWanted();
      return pictureOf(workspace.ask(params.uri), workspace.version(params.uri) ?? 0, params.part, params.position);
    }),
  );
  connection.onRequest(
    protocol.foldedMethod,
    fenced<protocol.FoldedParams, protocol.FoldedResult | null>('folded part', null, (params) => {
      publisher.picturesWanted();
      const ask = workspace.ask(params.uri);
      return foldedOf(ask, workspace.version(params.uri) ?? 0, params.part, params.position, (result) =>
        orders.of(params.uri, ask, result),
      );
    }),
  );
  connection.onRequest(
    protocol.bendingMethod,
    fenced<protocol.BendingParams, protocol.BendingResult | null>('bending', null, (params) => {
      publisher.picturesWanted();
      const answer = bendingOf(workspace.ask(params.uri), workspace.version(params.uri) ?? 0, params.part, params.position);
      if (answer.part !== undefined) planner.wanted(params.uri, answer.part, answer.working);
      return answer;
    }),
  );
  connection.onRequest(
    protocol.featureAtMethod,
    fenced<protocol.FeatureAtParams, protocol.FeatureAtResult>('picture', { part: undefined, ids: [] }, (params) =>
      featureAt(workspace.ask(params.uri), params.position),
    ),
  );
  connection.onRequest(
    protocol.patternMethod,
    fencedLater<protocol.PatternParams, protocol.PatternResult>(
      'pattern',
      { reason: 'The pattern could not be written; the log of the language server says more.' },
      (params) => patternOf(workspace.ask(params.uri), params.part, params.format, params.view),
    ),
  );
  connection.onRequest(
    protocol.compareMethod,
    fenced<protocol.CompareParams, protocol.CompareResult>(
      'compare',
      { reason: 'The versions could not be compared; the log of the language server says more.' },
      (params) => compareCommitted(workspace.ask(params.uri), params.nonce),
    ),
  );
  const cutting = createCutting(workspace);
  connection.onRequest(
    protocol.cutMethod,
    longRequest<protocol.CutParams, protocol.CutResult>(
      connection,
      'cut',
      { reason: 'The job could not be laid out; the log of the language server says more.' },
      cutting.cut,
    ),
  );
  connection.onRequest(
    protocol.cutFilesMethod,
    fencedLater<protocol.CutFilesParams, protocol.CutFilesResult>(
      'cutting list',
      { files: [], reason: 'The files could not be written; the log of the language server says more.' },
      cutting.files,
    ),
  );
  connection.onRequest(
    protocol.bookletMethod,
    longRequest<protocol.BookletParams, protocol.BookletResult>(
      connection,
      'booklet',
      { reason: 'The booklet could not be made; the log of the language server says more.' },
      bookletOf(workspace),
    ),
  );
  connection.onRequest(
    protocol.partAtMethod,
    fenced<protocol.PartAtParams, protocol.PartAtResult>('part', { part: undefined }, (params) =>
      partAt(workspace.ask(params.uri), params.position),
    ),
  );
  connection.onRequest(
    protocol.explainMethod,
    fenced<protocol.ExplainParams, protocol.ExplainResult>('explain', { markdown: undefined }, (params) => explain(params.topic)),
  );
  connection.onRequest(
    protocol.templateMethod,
    fenced<protocol.TemplateParams, protocol.TemplateResult>(
      'template',
      { fault: 'The file could not be written; the log of the language server says more.' },
      newFile,
    ),
  );

  documents.listen(connection);
  connection.listen();
};
