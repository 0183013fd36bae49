/** What a job is made of, for commands that take a file or a folder of them: from their argument, the text in front, or by asking. */
import * as path from 'node:path';
import * as vscode from 'vscode';
import { activePartFile, targetFromArgument } from './target.js';

export interface JobPlace {
  readonly uri: vscode.Uri;
  readonly what: 'file' | 'folder';
}

const isFolder = async (uri: vscode.Uri): Promise<boolean> => {
  try {
    return ((await vscode.workspace.fs.stat(uri)).type & vscode.FileType.Directory) !== 0;
  } catch {
    // Never saved, so a file.
    return false;
  }
};

/** The place that an argument names, the part file in front, or else the workspace; undefined when there is none. */
export const placeInSight = (argument: unknown): vscode.Uri | undefined =>
  targetFromArgument(argument)?.uri ?? activePartFile()?.document.uri ?? vscode.workspace.workspaceFolders?.[0]?.uri;

/**
 * A folder is itself; of a file is asked whether all of its folder is meant.
 *
 * @returns undefined when nothing was chosen
 */
export const chooseJob = async (uri: vscode.Uri, question: string): Promise<JobPlace | undefined> => {
  if (await isFolder(uri)) return { uri, what: 'folder' };
  if (uri.scheme !== 'file') return { uri, what: 'file' };
  const folder = vscode.Uri.joinPath(uri, '..');
  const items = [
    { label: `All of ${path.basename(folder.path)}`, description: 'every part file in the folder', uri: folder, what: 'folder' as const },
    { label: `Only ${path.basename(uri.path)}`, description: 'the parts of this file', uri, what: 'file' as const },
  ];
  return vscode.window.showQuickPick(items, { placeHolder: question });
};
