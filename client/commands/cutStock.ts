/** planish.cutStock: the parts of a job laid on sheets and lengths, and what to buy for it. planish.saveCutting: the same as files. */
import * as path from 'node:path';
import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type CutFilesParams,
  type CutFilesResult,
  type CutParams,
  type CutResult,
  cutFilesMethod,
  cutMethod,
} from '../../server/lsp/protocol.js';
import type { DocumentPanel, PageAction } from '../documentPanel.js';
import { chooseJob, type JobPlace, placeInSight } from '../jobPlace.js';
import { longWork } from '../longWork.js';

/** What is cut, as the command hands it to itself from the page. */
interface Job extends JobPlace {
  readonly times: number;
  readonly seconds: number | undefined;
}
interface LooseJob {
  readonly what?: unknown;
  readonly times?: unknown;
  readonly seconds?: unknown;
}

const jobOf = async (argument: unknown): Promise<Job | undefined> => {
  const uri = placeInSight(argument);
  if (uri === undefined) {
    void vscode.window.showWarningMessage(
      'Open a part file (.planish) or a folder of them first; then its parts can be laid out for cutting.',
    );
    return undefined;
  }
  const loose: LooseJob = typeof argument === 'object' && argument !== null && !(argument instanceof vscode.Uri) ? argument : {};
  const times = typeof loose.times === 'number' ? loose.times : 1;
  const seconds = typeof loose.seconds === 'number' ? loose.seconds : undefined;
  if (loose.what === 'file' || loose.what === 'folder') return { uri, what: loose.what, times, seconds };
  const chosen = await chooseJob(uri, 'Cut lists and nesting for what?');
  return chosen === undefined ? undefined : { ...chosen, times, seconds };
};

const askTimes = async (): Promise<number | undefined> => {
  const words = await vscode.window.showInputBox({
    title: 'How many times is the job made?',
    value: '2',
    validateInput: (text) => (/^[1-9]\d{0,3}$/.test(text.trim()) ? undefined : 'A whole number from 1 to 9999'),
  });
  return words === undefined ? undefined : Number(words.trim());
};

/** What can be done with the page of a job, above it. */
const actionsOf = (job: Job, id: string, settled: boolean, usualSeconds: number): readonly PageAction[] => {
  const again = { uri: job.uri.toString(), what: job.what, times: job.times };
  return [
    { label: 'Save…', command: 'planish.saveCutting', argument: { id } },
    ...(settled
      ? []
      : [{ label: 'Search longer', command: 'planish.cutStock', argument: { ...again, seconds: 3 * (job.seconds ?? usualSeconds) } }]),
    { label: 'More than once…', command: 'planish.cutStock', argument: { ...again, times: 'ask' } },
    { label: 'Lay out again', command: 'planish.cutStock', argument: again },
  ];
};

/** The job shown last, for saving from the title bar. */
export interface ShownJob {
  id: string | undefined;
}

export const cutStock =
  (client: LanguageClient, documents: DocumentPanel, shown: ShownJob) =>
  async (argument?: unknown): Promise<boolean> => {
    const asks = typeof argument === 'object' && argument !== null && (argument as LooseJob).times === 'ask';
    const times = asks ? await askTimes() : undefined;
    if (asks && times === undefined) return false;
    const found = await jobOf(argument);
    if (found === undefined) return false;
    const job = { ...found, times: times ?? found.times };
    const name = path.basename(job.uri.path);
    const params: CutParams = {
      uri: client.code2ProtocolConverter.asUri(job.uri),
      what: job.what,
      times: job.times,
      ...(job.seconds === undefined ? {} : { seconds: job.seconds }),
    };
    const answer = await longWork<CutResult>(client, `Laying out ${name}`, cutMethod, params);
    if (answer === undefined) return false;
    const { id, reason, settled = true } = answer;
    if (id === undefined) {
      void vscode.window.showWarningMessage(reason ?? `${name} could not be laid out.`);
      return false;
    }
    const usual = vscode.workspace.getConfiguration('planish').get<number>('cutting.seconds', 10);
    const opened = await documents.show(
      'planish.cutting',
      `Cutting: ${answer.name ?? name}`,
      async (nonce) => {
        const wanted: CutFilesParams = { id, format: 'page', nonce };
        const { files, reason: why } = await client.sendRequest<CutFilesResult>(cutFilesMethod, wanted);
        if (files[0]?.text === undefined) void vscode.window.showWarningMessage(why ?? `${name} could not be shown.`);
        return files[0]?.text;
      },
      () => actionsOf(job, id, settled, usual),
    );
    if (opened) shown.id = id;
    return opened;
  };

type Kind = vscode.QuickPickItem & { readonly format: CutFilesParams['format'] };
const KINDS: readonly Kind[] = [
  { format: 'pdf', label: 'Cutting list as PDF', description: 'to print: what to buy, sheets, lengths' },
  { format: 'csv', label: 'Bill of materials as CSV', description: 'for a spreadsheet' },
  { format: 'dxf', label: 'Nested sheets as DXF', description: 'for a cutting table, true size' },
  { format: 'svg', label: 'Nested sheets as SVG', description: 'true size' },
  { format: 'html', label: 'Cutting list as a web page', description: 'to send or to read elsewhere' },
  { format: 'all', label: 'Everything, into a folder', description: 'list, tables, and every sheet as SVG, DXF and PDF' },
];
const FILTERS: Readonly<Partial<Record<CutFilesParams['format'], Record<string, string[]>>>> = {
  pdf: { 'PDF document': ['pdf'] },
  csv: { 'Comma-separated values': ['csv'] },
  dxf: { 'DXF drawing': ['dxf'] },
  svg: { 'SVG picture': ['svg'] },
  html: { 'Web page': ['html'] },
};

/** Where the files go: one is named, several get a folder. */
const chooseTargets = async (
  names: readonly string[],
  format: CutFilesParams['format'],
  given: vscode.Uri | undefined,
): Promise<readonly vscode.Uri[] | undefined> => {
  const home = vscode.workspace.workspaceFolders?.[0]?.uri;
  const [only] = names;
  if (names.length === 1 && only !== undefined && format !== 'all') {
    const defaultUri = home === undefined ? undefined : vscode.Uri.joinPath(home, only);
    const file =
      given ?? (await vscode.window.showSaveDialog({ defaultUri, filters: FILTERS[format] ?? {}, title: 'Save the cutting list' }));
    return file === undefined ? undefined : [file];
  }
  const folder =
    given ??
    (
      await vscode.window.showOpenDialog({
        canSelectFiles: false,
        canSelectFolders: true,
        defaultUri: home,
        openLabel: 'Save here',
        title: `A folder for ${names.length} files`,
      })
    )?.[0];
  return folder === undefined ? undefined : names.map((name) => vscode.Uri.joinPath(folder, name));
};

const offerToOpen = async (files: readonly vscode.Uri[]): Promise<void> => {
  const [first] = files;
  if (first === undefined) return;
  const words = files.length === 1 ? path.basename(first.path) : `${files.length} files in ${path.basename(path.dirname(first.path))}`;
  const answer = await vscode.window.showInformationMessage(`Saved ${words}.`, ...(files.length === 1 ? ['Open'] : []), 'Show in Folder');
  if (answer === 'Show in Folder') await vscode.commands.executeCommand('revealFileInOS', first);
  if (answer === 'Open') await vscode.env.openExternal(first);
};

export const saveCutting =
  (client: LanguageClient, shown: ShownJob) =>
  async (argument?: unknown): Promise<readonly vscode.Uri[] | undefined> => {
    const {
      id = shown.id,
      format,
      target,
    } = (typeof argument === 'object' && argument !== null ? argument : {}) as {
      readonly id?: string;
      readonly format?: unknown;
      readonly target?: unknown;
    };
    if (typeof id !== 'string') {
      void vscode.window.showWarningMessage('There is no cutting list yet: ask for Cut Lists and Nesting first.');
      return undefined;
    }
    const kind = KINDS.find((each) => each.format === format) ?? (await vscode.window.showQuickPick(KINDS, { placeHolder: 'Save what?' }));
    if (kind === undefined) return undefined;
    const params: CutFilesParams = { id, format: kind.format };
    const { files, reason } = await client.sendRequest<CutFilesResult>(cutFilesMethod, params);
    if (files.length === 0) {
      void vscode.window.showWarningMessage(reason ?? 'There is no nested sheet in this job.');
      return undefined;
    }
    const given = target instanceof vscode.Uri ? target : typeof target === 'string' ? vscode.Uri.parse(target) : undefined;
    const targets = await chooseTargets(
      files.map((file) => file.name),
      kind.format,
      given,
    );
    if (targets === undefined) return undefined;
    for (const [i, { text, bytes }] of files.entries()) {
      const place = targets[i];
      if (place === undefined) continue;
      await vscode.workspace.fs.writeFile(place, bytes === undefined ? new TextEncoder().encode(text ?? '') : Buffer.from(bytes, 'base64'));
    }
    void offerToOpen(targets);
    return targets;
  };
