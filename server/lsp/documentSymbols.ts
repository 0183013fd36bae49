import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import type { Statement } from '../../grammar/syntax.js';
import { type Ask, linesOf, rangeOf } from './ask.js';
import { argumentsOf, headSpan, nameOf } from './walk.js';

/** The file's outline: parts, what the shop owns, values, and within parts whatever has braces or a name. */
export const documentSymbols = (ask: Ask): DocumentSymbol[] => {
  const tree = ask.project.tree(ask.path);
  const lines = linesOf(ask);
  const symbolOf = (statement: Statement): DocumentSymbol[] => {
    const children = (statement.block?.statements ?? []).flatMap(symbolOf);
    const ident = nameOf(statement);
    if (ident === undefined && statement.block === undefined) return children;
    const head = headSpan(statement);
    const words = tree.text.slice(head.start, head.end).trim().replace(/\s+/g, ' ');
    return [
      {
        name: ident?.name || words || statement.word.name,
        detail: ident === undefined ? '' : detailOf(statement, tree.text),
        kind: symbolKindOf(statement),
        range: rangeOf(lines, statement.span),
        selectionRange: rangeOf(lines, ident?.span ?? statement.word.span),
        children,
      },
    ];
  };
  return tree.statements.flatMap(symbolOf);
};

const detailOf = (statement: Statement, text: string): string => {
  if (statement.word.name !== 'let') return statement.word.name;
  for (const argument of argumentsOf(statement.fields))
    if (argument.kind === 'value') return text.slice(argument.span.start, argument.span.end);
  return statement.word.name;
};

/** Symbol kinds of the protocol, by what a statement makes. The protocol knows programs only; these give fitting icons. */
const symbolKindOf = (statement: Statement): SymbolKind => {
  switch (statement.entry?.family) {
    case 'part':
    case 'section':
    case 'piece':
    case 'survey':
    case 'assembly':
      return statement.block === undefined ? SymbolKind.Property : SymbolKind.Class;
    case 'shop':
    case 'trial':
      return SymbolKind.Object;
    case 'edge':
    case 'corner':
      return SymbolKind.Property;
    case 'cut':
    case 'bead':
    case 'shape':
      return SymbolKind.Field;
    case 'pattern':
      return SymbolKind.Array;
    case 'file':
      return statement.word.name === 'let' ? SymbolKind.Constant : SymbolKind.Namespace;
    case undefined:
      return SymbolKind.Null;
  }
};
