/** A statement's form as one line of text, with where each argument stands in it: for signature help and messages. */
import type { Pattern, StatementEntry } from './vocabulary/pattern.js';

export interface Parameter {
  readonly field: string;
  /** Half open, in the label. */
  readonly start: number;
  readonly end: number;
}
export interface Usage {
  readonly label: string;
  readonly parameters: readonly Parameter[];
}

const capitals = (field: string): string => field.replace(/[A-Z]/g, (letter) => `_${letter}`).toUpperCase();

const write = (entry: StatementEntry): Usage => {
  let label = entry.word;
  const parameters: Parameter[] = [];
  // A blank is due before the next piece; brackets and bars swallow it.
  let due = true;
  const put = (text: string, field?: string): void => {
    if (due) label += ' ';
    const start = label.length;
    label += text;
    if (field !== undefined && field !== '') parameters.push({ field, start, end: label.length });
    due = true;
  };
  const glue = (text: string): void => {
    label += text;
  };
  const enclosed = (open: string, close: string, inner: () => void): void => {
    put(open);
    due = false;
    inner();
    glue(close);
    due = true;
  };
  const pieces = (items: readonly Pattern[]): void => items.forEach(piece);
  const piece = (pattern: Pattern): void => {
    switch (pattern.kind) {
      case 'word':
        put(pattern.word, pattern.field);
        return;
      case 'sign':
        put(pattern.sign);
        return;
      case 'choice':
        put(pattern.words.join('|'), pattern.field);
        return;
      case 'text':
        put(`"${capitals(pattern.field)}"`, pattern.field);
        return;
      case 'value':
      case 'name':
      case 'newName':
      case 'size':
        put(capitals(pattern.field), pattern.field);
        return;
      case 'run':
        put(`${capitals(pattern.of)} ${capitals(pattern.of)} …`, pattern.field);
        return;
      case 'list': {
        const start = label.length + (due ? 1 : 0);
        piece(pattern.item);
        for (let i = 1; i < (pattern.least ?? 1); i++) {
          glue(',');
          piece(pattern.item);
        }
        glue(', …');
        parameters.push({ field: pattern.field, start, end: label.length });
        return;
      }
      case 'sequence':
        pieces(pattern.items);
        return;
      case 'optional':
        if (pattern.item.kind === 'anyOrder') piece(pattern.item);
        else enclosed('[', ']', () => (pattern.item.kind === 'oneOf' ? barred(pattern.item.items) : piece(pattern.item)));
        return;
      case 'anyOrder':
        for (const item of pattern.items) enclosed('[', ']', () => (item.kind === 'oneOf' ? barred(item.items) : piece(item)));
        return;
      case 'oneOf':
        enclosed('(', ')', () => barred(pattern.items));
        return;
      case 'block':
        put('{ … }');
        return;
    }
  };
  const barred = (items: readonly Pattern[]): void =>
    items.forEach((item, i) => {
      if (i > 0) {
        glue(' |');
        due = true;
      }
      piece(item);
    });
  piece(entry.pattern);
  return { label, parameters: parameters.filter((p) => p.end > p.start) };
};

/** Words as they stand, arguments in capitals, what may be left out in square brackets: `flange LENGTH up|down [ANGLE] [radius RADIUS]`. */
export const usage = (entry: StatementEntry): string => write(entry).label;

/** The same line, and where each argument stands in it (a field may stand in several places). */
export const usageWithParameters = (entry: StatementEntry): Usage => write(entry);

const longestForm = 80;
/** For the end of a message; nothing where the form is long, which is no help in one line: hovering over the word shows it. */
export const usageInWords = (entry: StatementEntry): string => {
  const label = usage(entry);
  return label.length > longestForm ? '' : ` It is written \`${label}\`.`;
};
