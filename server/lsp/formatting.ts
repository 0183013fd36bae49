import { type Position, type Range, TextEdit } from 'vscode-languageserver';
import { format } from '../../grammar/index.js';
import { type Ask, linesOf } from './ask.js';

/** Edits that turn the text into its formatted form, line by line, so that the cursor and marks elsewhere stay put. */
export const formatDocument = (ask: Ask): TextEdit[] => {
  const lines = linesOf(ask);
  const text = lines.getText();
  return lineEdits(text, format(text)).map((change) =>
    TextEdit.replace({ start: lines.positionAt(change.start), end: lines.positionAt(change.end) }, change.text),
  );
};

/** Only the changes on the lines of a selection. */
export const formatRange = (ask: Ask, range: Range): TextEdit[] => {
  // A selection that ends at the very start of a line doesn't mean that line.
  const lastLine = range.end.character === 0 && range.end.line > range.start.line ? range.end.line - 1 : range.end.line;
  return formatDocument(ask).filter((edit) => edit.range.start.line >= range.start.line && edit.range.start.line <= lastLine);
};

/** After a closing brace: tidies the statement it closes, nothing else. */
export const formatOnType = (ask: Ask, position: Position, typed: string): TextEdit[] => {
  if (typed !== '}') return [];
  const lines = linesOf(ask);
  const text = lines.getText();
  const close = lines.offsetAt(position) - 1;
  if (text[close] !== '}') return [];
  const first = openingLine(ask, close) ?? position.line;
  return formatRange(ask, { start: { line: first, character: 0 }, end: position });
};

const openingLine = (ask: Ask, close: number): number | undefined => {
  const lines = linesOf(ask);
  let level = ask.project.tree(ask.path).statements;
  for (;;) {
    const around = level.find(
      (statement) => statement.block !== undefined && statement.block.span.start < close && close < statement.block.span.end,
    );
    if (around?.block === undefined) return undefined;
    if (around.block.span.end === close + 1) return lines.positionAt(around.span.start).line;
    level = around.block.statements;
  }
};

interface Change {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * Smallest set of whole-line changes between two texts whose lines mostly agree once blanks are set aside: the formatter only
 * moves blanks and line breaks, so lines are matched by their other signs. Falls back to one change over the middle that differs.
 */
export const lineEdits = (before: string, after: string): readonly Change[] => {
  if (before === after) return [];
  const old = before.split(/(?<=\n)/);
  const fresh = after.split(/(?<=\n)/);
  const bare = (line: string): string => line.replace(/\s+/g, '');
  const changes: Change[] = [];
  let offset = 0;
  let i = 0;
  let j = 0;
  const push = (count: number, text: string): void => {
    const start = offset;
    for (let n = 0; n < count; n++) offset += (old[i++] as string).length;
    if (before.slice(start, offset) !== text) changes.push({ start, end: offset, text });
  };
  while (i < old.length || j < fresh.length) {
    const a = old[i];
    const b = fresh[j];
    if (a !== undefined && b !== undefined && bare(a) === bare(b)) {
      push(1, b);
      j++;
    } else if (a !== undefined && bare(a) === '') push(1, '');
    else if (b !== undefined && bare(b) === '') {
      push(0, b);
      j++;
    } else {
      // Lines were split or joined: gather both sides until their signs agree again.
      let left = bare(a ?? '');
      let right = bare(b ?? '');
      let taken = a === undefined ? 0 : 1;
      let text = b ?? '';
      j++;
      while (left !== right && (left.length < right.length ? i + taken < old.length : j < fresh.length)) {
        if (left.length < right.length) left += bare(old[i + taken++] as string);
        else {
          right += bare(fresh[j] as string);
          text += fresh[j++];
        }
      }
      if (left !== right) {
        taken = old.length - i;
        text += fresh.slice(j).join('');
        j = fresh.length;
      }
      push(taken, text);
    }
  }
  return changes;
};
