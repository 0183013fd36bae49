/** Which document, and which part of it, a command is about: from its arguments, the picture, or the text in front of the reader. */
import * as vscode from 'vscode';
import { LANGUAGE } from './languageServer.js';

export interface Target {
  readonly uri: vscode.Uri;
  readonly part: string | undefined;
}

interface LooseTarget {
  readonly uri?: unknown;
  readonly part?: unknown;
}

const uriFrom = (value: unknown): vscode.Uri | undefined => {
  if (value instanceof vscode.Uri) return value;
  return typeof value === 'string' && value !== '' ? vscode.Uri.parse(value) : undefined;
};

/** Reads a command's first argument: an address, or `{ uri, part }` as code lenses send it. */
export const targetFromArgument = (argument: unknown): Target | undefined => {
  const direct = uriFrom(argument);
  if (direct !== undefined) return { uri: direct, part: undefined };
  if (typeof argument !== 'object' || argument === null) return undefined;
  const { uri, part } = argument as LooseTarget;
  const address = uriFrom(uri);
  return address === undefined ? undefined : { uri: address, part: typeof part === 'string' ? part : undefined };
};

/** The part file in front of the reader. */
export const activePartFile = (): vscode.TextEditor | undefined => {
  const active = vscode.window.activeTextEditor;
  if (active?.document.languageId === LANGUAGE) return active;
  return undefined;
};
