import { type ClientCapabilities, CodeActionKind, type ServerCapabilities, TextDocumentSyncKind } from 'vscode-languageserver';
import { semanticTokensLegend } from './semanticTokens.js';

/** What the client can do, as far as the server behaves differently for it. */
export interface Abilities {
  readonly pull: boolean;
  readonly related: boolean;
  readonly snippets: boolean;
  readonly configuration: boolean;
  readonly configurationNews: boolean;
  readonly folders: boolean;
  readonly watching: boolean;
  readonly refreshDiagnostics: boolean;
  readonly refreshInlayHints: boolean;
  readonly refreshCodeLenses: boolean;
}

export const abilitiesOf = (client: ClientCapabilities): Abilities => ({
  pull: client.textDocument?.diagnostic !== undefined,
  related: client.textDocument?.diagnostic?.relatedDocumentSupport === true,
  snippets: client.textDocument?.completion?.completionItem?.snippetSupport === true,
  configuration: client.workspace?.configuration === true,
  configurationNews: client.workspace?.didChangeConfiguration?.dynamicRegistration === true,
  folders: client.workspace?.workspaceFolders === true,
  watching: client.workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
  refreshDiagnostics: client.workspace?.diagnostics?.refreshSupport === true,
  refreshInlayHints: client.workspace?.inlayHint?.refreshSupport === true,
  refreshCodeLenses: client.workspace?.codeLens?.refreshSupport === true,
});

export const serverCapabilities = (abilities: Abilities): ServerCapabilities => ({
  positionEncoding: 'utf-16',
  textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
  ...(abilities.pull ? { diagnosticProvider: { identifier: 'planish', interFileDependencies: true, workspaceDiagnostics: false } } : {}),
  completionProvider: { triggerCharacters: ['.', '"', '/', ' '], resolveProvider: true },
  hoverProvider: true,
  signatureHelpProvider: { triggerCharacters: ['(', ',', ' '], retriggerCharacters: [' '] },
  definitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  renameProvider: { prepareProvider: true },
  documentSymbolProvider: true,
  workspaceSymbolProvider: true,
  foldingRangeProvider: true,
  selectionRangeProvider: true,
  semanticTokensProvider: { legend: semanticTokensLegend, full: true, range: true },
  inlayHintProvider: true,
  codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix] },
  codeLensProvider: { resolveProvider: false },
  documentFormattingProvider: true,
  documentRangeFormattingProvider: true,
  documentOnTypeFormattingProvider: { firstTriggerCharacter: '}' },
  documentLinkProvider: { resolveProvider: false },
  ...(abilities.folders ? { workspace: { workspaceFolders: { supported: true, changeNotifications: true } } } : {}),
});
