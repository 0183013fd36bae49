/** Notes, texts in quotes, and characters that are no part of the language. */
import type { IToken } from 'chevrotain';
import type { Problem, Span } from './syntax.js';

/** Gives the note lines above an offset that no earlier call has given or passed by. */
export type NoteReader = (offset: number) => string | undefined;

const beginsLine = (text: string, offset: number): boolean => {
  for (let i = offset - 1; i >= 0; i--) {
    const code = text.charCodeAt(i);
    if (code === 10 || code === 13) return true;
    if (code !== 32 && code !== 9 && code !== 0xfeff) return false;
  }
  return true;
};

/** Reads notes in the order of the text. */
export const noteReader = (text: string, comments: readonly IToken[]): NoteReader => {
  let next = 0;
  return (offset) => {
    let note: string | undefined;
    for (let comment = comments[next]; comment !== undefined && comment.startOffset < offset; comment = comments[++next]) {
      if (!comment.image.startsWith('///') || !beginsLine(text, comment.startOffset)) continue;
      const line = comment.image.slice(3).trim();
      note = note === undefined ? line : `${note}\n${line}`;
    }
    return note;
  };
};

/** The value of a text token, and whether its closing quote is there. */
export const textOf = (token: IToken): { readonly value: string; readonly closed: boolean } => {
  const last = token.image.at(-1);
  const closed = token.image.length > 1 && (last === '"' || last === '”');
  return { value: token.image.slice(1, closed ? -1 : undefined), closed };
};

export const strayProblem = (text: string, span: Span): Problem => {
  const written = text.slice(span.start, span.end);
  // What a reader puts where the bytes of a file are no UTF-8.
  if (written.includes('\ufffd'))
    return {
      span,
      rule: 'text/stray-character',
      message: "A letter here can't be read. Save the file as UTF-8, and write the letter anew.",
      fixes: [],
    };
  return {
    span,
    rule: 'text/stray-character',
    message: `\`${written}\` is no part of the language here.`,
    fixes: [{ title: 'Take it out', edits: [{ span, text: '' }] }],
  };
};
