/** planish.makeBooklet: everything the bench needs of a job on paper, written where the reader says and opened. */
import * as path from 'node:path';
import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { type BookletParams, type BookletResult, bookletMethod } from '../../server/lsp/protocol.js';
import { chooseJob, type JobPlace, placeInSight } from '../jobPlace.js';
import { longWork } from '../longWork.js';

type Kind = vscode.QuickPickItem & { readonly format: BookletParams['format'] };
const KINDS: readonly Kind[] = [
  { format: 'pdf', label: 'PDF', description: 'to print and take to the bench' },
  { format: 'html', label: 'Web page', description: 'one file, to read on a screen with its boxes to tick' },
];
const FILTERS: Readonly<Record<BookletParams['format'], Record<string, string[]>>> = {
  pdf: { 'PDF document': ['pdf'] },
  html: { 'Web page': ['html'] },
};

/** What another extension or a test may give, so that nothing is asked. */
interface LooseWish {
  readonly what?: unknown;
  readonly format?: unknown;
  readonly target?: unknown;
}
const wishFrom = (argument: unknown): LooseWish =>
  typeof argument === 'object' && argument !== null && !(argument instanceof vscode.Uri) ? argument : {};

const chooseTarget = async (job: JobPlace, format: BookletParams['format'], given: unknown): Promise<vscode.Uri | undefined> => {
  if (given instanceof vscode.Uri) return given;
  if (typeof given === 'string') return vscode.Uri.parse(given);
  const name = `${path.basename(job.uri.path, '.planish')}-booklet.${format}`;
  const folder = job.what === 'folder' ? job.uri : vscode.Uri.joinPath(job.uri, '..');
  // A buffer that was never saved has no folder of its own.
  const home = job.uri.scheme === 'file' ? folder : vscode.workspace.workspaceFolders?.[0]?.uri;
  return vscode.window.showSaveDialog({
    ...(home === undefined ? {} : { defaultUri: vscode.Uri.joinPath(home, name) }),
    filters: FILTERS[format],
    title: 'Save the job booklet',
  });
};

const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

/** Opened at once: paper in the program that shows PDF, a page in the browser. What is wrong in the files is said. */
const openBooklet = async (file: vscode.Uri, { parts = 0, sheets, errors = 0 }: BookletResult): Promise<void> => {
  await vscode.env.openExternal(file);
  const size = [counted(parts, 'part'), ...(sheets === undefined ? [] : [counted(sheets, 'sheet')])].join(', ');
  const words = `Saved ${path.basename(file.path)}: ${size}.`;
  const answer =
    errors === 0
      ? await vscode.window.showInformationMessage(words, 'Show in Folder')
      : await vscode.window.showWarningMessage(
          `${words} ${counted(errors, 'error')} ${errors === 1 ? 'is' : 'are'} open in the files; the last sheets list ${errors === 1 ? 'it' : 'them'}.`,
          'Show in Folder',
          'Show Problems',
        );
  if (answer === 'Show in Folder') await vscode.commands.executeCommand('revealFileInOS', file);
  if (answer === 'Show Problems') await vscode.commands.executeCommand('workbench.actions.view.problems');
};

export const makeBooklet =
  (client: LanguageClient) =>
  async (argument?: unknown): Promise<vscode.Uri | undefined> => {
    const wish = wishFrom(argument);
    const uri = placeInSight(argument);
    if (uri === undefined) {
      void vscode.window.showWarningMessage('Open a part file (.planish) or a folder of them first; then a booklet can be made of it.');
      return undefined;
    }
    const job: JobPlace | undefined =
      wish.what === 'file' || wish.what === 'folder' ? { uri, what: wish.what } : await chooseJob(uri, 'The job booklet of what?');
    if (job === undefined) return undefined;
    const kind =
      KINDS.find(({ format }) => format === wish.format) ??
      (await vscode.window.showQuickPick(KINDS, { placeHolder: 'The job booklet as what?' }));
    if (kind === undefined) return undefined;
    const target = await chooseTarget(job, kind.format, wish.target);
    if (target === undefined) return undefined;
    const name = path.basename(job.uri.path, '.planish');
    const params: BookletParams = { uri: client.code2ProtocolConverter.asUri(job.uri), what: job.what, format: kind.format };
    const answer = await longWork<BookletResult>(client, `Making the booklet of ${name}`, bookletMethod, params);
    if (answer === undefined) return undefined;
    if (answer.bytes === undefined) {
      void vscode.window.showWarningMessage(answer.reason ?? `No booklet could be made of ${name}.`);
      return undefined;
    }
    await vscode.workspace.fs.writeFile(target, Buffer.from(answer.bytes, 'base64'));
    // A call that named its target reads the file itself.
    if (wish.target === undefined) void openBooklet(target, answer);
    return target;
  };
