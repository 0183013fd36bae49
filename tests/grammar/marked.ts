/**
 * Marked texts: a line of `^^^^ rule: words` under a line of the language says what must be reported there, and nothing else may be.
 * The words may be the start of the message.
 */
import { expect } from 'vitest';
import type { Statement, Tree } from '../../grammar/index.js';
import { parse, walkStatements } from '../../grammar/index.js';

interface Mark {
  readonly start: number;
  readonly end: number;
  readonly words: string;
}

/** Takes the marks out of a text. */
export const unmarked = (marked: string): { readonly text: string; readonly marks: readonly Mark[] } => {
  let text = '';
  let lineStart = 0;
  const marks: Mark[] = [];
  for (const line of marked.replace(/^\n/, '').split('\n')) {
    const mark = /^(\s*)(?:\/\/)?(\s*)(\^+) (.*)$/.exec(line);
    if (mark === null) {
      lineStart = text.length;
      text += `${line}\n`;
      continue;
    }
    const start = lineStart + line.indexOf('^');
    marks.push({ start, end: start + (mark[3] as string).length, words: mark[4] as string });
  }
  return { text, marks };
};

/** Problems as `line: "text at fault" rule: message`. */
export const problemsOf = (tree: Tree): string[] =>
  tree.problems.map(
    (p) => `${tree.text.slice(0, p.span.start).split('\n').length}: "${tree.text.slice(p.span.start, p.span.end)}" ${p.rule}: ${p.message}`,
  );

/** Every statement as its words in a row, outer before inner: "panel gate > edge top > flange". */
export const outlineOf = (tree: Tree): string[] => {
  const all: string[] = [];
  const head = (statement: Statement): string =>
    tree.text
      .slice(statement.span.start, statement.block?.span.start ?? statement.span.end)
      .trim()
      .replace(/\s+/g, ' ');
  walkStatements(tree, (statement, parents) => all.push([...parents.map((p) => p.word.name), head(statement)].join(' > ')));
  return all;
};

/** The text must be reported exactly as marked. */
export const checkProblems = (marked: string): Tree => {
  const { text, marks } = unmarked(marked);
  const tree = parse(text);
  const wanted = marks.map((m) => `${text.slice(0, m.start).split('\n').length}: "${text.slice(m.start, m.end)}" ${m.words}`);
  const found = problemsOf(tree);
  const shortened = found.map((f, i) => (wanted[i] !== undefined && f.startsWith(wanted[i]) ? wanted[i] : f));
  expect(shortened).toEqual(wanted);
  return tree;
};
