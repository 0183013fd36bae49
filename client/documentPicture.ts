/** What the picture page is told about one answer of the server. Pure, so that it can be read and tested apart from any editor. */
import type { BendingResult, FoldedResult, PictureResult } from '../server/lsp/protocol.js';
import type { ToPage } from './messages.js';

/** What the page shows now, as the extension knows it. */
export interface Shown {
  readonly uri: string;
  readonly part: string;
  readonly svg: string;
}

/** The message for an answer, given what the page shows: a whole picture only when the drawing really differs. */
export const messageFor = (answer: PictureResult, fileName: string, shown: Shown | undefined): ToPage => {
  const { uri, version, parts, title, stale } = answer;
  const part = answer.part ?? '';
  const reason = answer.reason ?? '';
  if (answer.svg === undefined) {
    const words = parts.length === 0 ? `${fileName} has no parts to draw.` : `${part}: not laid out yet.`;
    return { type: 'nothing', uri, version, fileName, parts, part, reason: reason === '' ? words : reason };
  }
  if (shown !== undefined && shown.uri === uri && shown.part === part && shown.svg === answer.svg)
    return { type: 'unchanged', uri, version, parts, part, title, stale, reason };
  return { type: 'picture', uri, version, fileName, parts, part, title, svg: answer.svg, stale, reason };
};

/** The same for the part folded. It is always sent whole: what moves in space costs less to show than to compare. */
export const foldedMessageFor = (answer: FoldedResult, fileName: string): ToPage => {
  const { uri, version, parts, title, stale, model } = answer;
  const part = answer.part ?? '';
  const reason = answer.reason ?? '';
  if (model !== undefined) return { type: 'folded', uri, version, fileName, parts, part, title, model, stale, reason };
  const words = parts.length === 0 ? `${fileName} has no parts to fold.` : `${part}: nothing to fold yet.`;
  return { type: 'nothing', uri, version, fileName, parts, part, reason: reason === '' ? words : reason };
};

/** The same for how the part is bent. */
export const bendingMessageFor = (answer: BendingResult, fileName: string): ToPage => {
  const { uri, version, parts, title, stale, model } = answer;
  const part = answer.part ?? '';
  const reason = answer.reason ?? '';
  if (model !== undefined) return { type: 'bending', uri, version, fileName, parts, part, title, model, stale, reason };
  if (answer.working) return { type: 'planning', uri, version, parts, part, title };
  return { type: 'nothing', uri, version, fileName, parts, part, reason };
};

/** Whether the picture follows this move of the cursor. */
export const follows = (setting: string, byMouse: boolean): boolean => setting === 'always' || (setting === 'on click' && byMouse);
