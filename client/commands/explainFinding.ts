/** planish.explainFinding: the manual's page for the finding, or the word, under the cursor. */
import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { type ExplainParams, type ExplainResult, explainMethod } from '../../server/lsp/protocol.js';
import { activePartFile } from '../target.js';

const MANUAL_SCHEME = 'planish-manual';

const ruleOf = ({ code }: vscode.Diagnostic): string =>
  typeof code === 'object' ? String(code.value) : code === undefined ? '' : String(code);

/** What may be explained here: the rules of the findings at the cursor, else the word. */
const topicsAt = (editor: vscode.TextEditor): readonly string[] => {
  const { document, selection } = editor;
  const rules = vscode.languages
    .getDiagnostics(document.uri)
    .filter((each) => each.range.contains(selection.active))
    .map(ruleOf)
    .filter((rule) => rule !== '');
  if (rules.length > 0) return [...new Set(rules)];
  const word = document.getWordRangeAtPosition(selection.active);
  return word === undefined ? [] : [document.getText(word)];
};

const topicFrom = async (argument: unknown): Promise<string | undefined> => {
  if (typeof argument === 'string') return argument;
  if (typeof argument === 'object' && argument !== null && !(argument instanceof vscode.Uri)) {
    const { rule, topic } = argument as { readonly rule?: unknown; readonly topic?: unknown };
    if (typeof rule === 'string') return rule;
    if (typeof topic === 'string') return topic;
  }
  const editor = activePartFile();
  const topics = editor === undefined ? [] : topicsAt(editor);
  return topics.length > 1 ? vscode.window.showQuickPick(topics, { placeHolder: 'Explain which finding?' }) : topics[0];
};

/** Serves the manual's pages as documents, so that the editor's own Markdown preview shows them. */
export const manualPages = (client: LanguageClient): vscode.Disposable =>
  vscode.workspace.registerTextDocumentContentProvider(MANUAL_SCHEME, {
    provideTextDocumentContent: async (uri) => {
      const params: ExplainParams = { topic: uri.query };
      const { markdown } = await client.sendRequest<ExplainResult>(explainMethod, params);
      return markdown ?? `The manual has no page on \`${uri.query.replaceAll('`', '')}\`.`;
    },
  });

export const explainFinding =
  (client: LanguageClient) =>
  async (argument?: unknown): Promise<vscode.Uri | undefined> => {
    const topic = await topicFrom(argument);
    if (topic === undefined) {
      void vscode.window.showInformationMessage('Put the cursor on an underlined finding, or on a word of the language, and ask again.');
      return undefined;
    }
    const params: ExplainParams = { topic };
    const { markdown } = await client.sendRequest<ExplainResult>(explainMethod, params);
    if (markdown === undefined) {
      void vscode.window.showInformationMessage(`The manual has no page on "${topic}": it is neither a rule nor a word of the language.`);
      return undefined;
    }
    const page = vscode.Uri.from({ scheme: MANUAL_SCHEME, path: `/${topic.replaceAll('/', ' ')}.md`, query: topic });
    await vscode.commands.executeCommand('markdown.showPreviewToSide', page);
    return page;
  };
