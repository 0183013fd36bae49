/** planish.showPicture: the picture beside the text, at the part under the cursor unless one is named. */
import type { LanguageClient } from 'vscode-languageclient/node';
import { type PartAtParams, type PartAtResult, partAtMethod } from '../../server/lsp/protocol.js';
import type { PicturePanel } from '../picturePanel.js';
import { activePartFile, type Target, targetFromArgument } from '../target.js';

/** The part file and part that a command without arguments is about. */
export const targetUnderCursor = async (client: LanguageClient): Promise<Target | undefined> => {
  const editor = activePartFile();
  if (editor === undefined) return undefined;
  if (!client.isRunning()) return { uri: editor.document.uri, part: undefined };
  const params: PartAtParams = {
    uri: client.code2ProtocolConverter.asUri(editor.document.uri),
    position: client.code2ProtocolConverter.asPosition(editor.selection.active),
  };
  const { part } = await client.sendRequest<PartAtResult>(partAtMethod, params);
  return { uri: editor.document.uri, part: part?.name };
};

/** What a command that shows a part is about: what it is given, with the cursor saying which part of a whole file. */
export const targetToShow = async (client: LanguageClient, argument: unknown): Promise<Target | undefined> => {
  const target = targetFromArgument(argument);
  // A title bar button passes the file; the cursor in it still says which part.
  const cursor = target?.part === undefined ? await targetUnderCursor(client) : undefined;
  return target === undefined || target.uri.toString() === cursor?.uri.toString() ? (cursor ?? target) : target;
};

export const showPicture =
  (client: LanguageClient, pictures: PicturePanel) =>
  async (argument?: unknown): Promise<void> => {
    const chosen = await targetToShow(client, argument);
    if (chosen !== undefined) pictures.show(chosen, 'flat');
  };
