import type { Position, SelectionRange } from 'vscode-languageserver';
import type { Span } from '../../grammar/syntax.js';
import { type Ask, covers, linesOf, rangeOf, sameSpan, touches } from './ask.js';
import { argumentsOf, expressionsAt, headSpan, identsOf, statementsAt, wordAt } from './walk.js';

/** What "grow the selection" takes step by step: a word, its value, its argument, its statement, the braces, the file. */
export const selectionRanges = (ask: Ask, positions: readonly Position[]): SelectionRange[] => {
  const tree = ask.project.tree(ask.path);
  const lines = linesOf(ask);
  return positions.map((position) => {
    const offset = lines.offsetAt(position);
    const spans: Span[] = [{ start: 0, end: tree.text.length }];
    for (const statement of statementsAt(tree, offset)) {
      spans.push(statement.span);
      if (statement.block !== undefined && touches(statement.block.span, offset))
        spans.push(statement.block.span, within(tree.text, statement.block.span));
      else spans.push(headSpan(statement));
      spans.push(...[...argumentsOf(statement.fields)].map((argument) => argument.span));
      spans.push(...expressionsAt(statement, offset).map((expr) => expr.span));
      spans.push(...[...identsOf(statement)].map((ident) => ident.span), statement.word.span);
    }
    const word = wordAt(tree.text, offset);
    if (word !== undefined) spans.push(word);
    const around = spans.filter((span) => touches(span, offset) && span.end > span.start);
    around.sort((a, b) => b.end - b.start - (a.end - a.start));
    let range: SelectionRange | undefined;
    let outer: Span | undefined;
    for (const span of around) {
      if (outer !== undefined && (sameSpan(outer, span) || !covers(outer, span))) continue;
      range = range === undefined ? { range: rangeOf(lines, span) } : { range: rangeOf(lines, span), parent: range };
      outer = span;
    }
    return range ?? { range: { start: position, end: position } };
  });
};

const within = (text: string, braces: Span): Span => ({
  start: braces.start + 1,
  end: text[braces.end - 1] === '}' ? braces.end - 1 : braces.end,
});
