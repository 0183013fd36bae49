import { type Range, type SemanticTokens, SemanticTokensBuilder, type SemanticTokensLegend } from 'vscode-languageserver';
import type { Expr, Span, Statement } from '../../grammar/syntax.js';
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import { type Ask, linesOf } from './ask.js';
import { allStatements, argumentsOf, expressionsIn, headSpan } from './walk.js';

const types = [
  'keyword',
  'variable',
  'property',
  'class',
  'type',
  'number',
  'string',
  'comment',
  'function',
  'enumMember',
  'namespace',
  'parameter',
] as const;
type TokenType = (typeof types)[number];
export const semanticTokensLegend: SemanticTokensLegend = { tokenTypes: [...types], tokenModifiers: ['declaration', 'documentation'] };

interface Token {
  readonly span: Span;
  readonly type: TokenType;
  readonly declaration?: boolean;
  readonly documentation?: boolean;
}

/** Colours by meaning: a word is a keyword only where the language takes it as one, a name by what it names. */
export const semanticTokens = (ask: Ask, range?: Range): SemanticTokens => {
  const lines = linesOf(ask);
  const window = range === undefined ? undefined : { start: lines.offsetAt(range.start), end: lines.offsetAt(range.end) };
  const builder = new SemanticTokensBuilder();
  let reached = 0;
  for (const token of tokensOf(ask, window)) {
    if (token.span.start < reached || token.span.end <= token.span.start) continue;
    reached = token.span.end;
    const at = lines.positionAt(token.span.start);
    const modifiers = (token.declaration === true ? 1 : 0) | (token.documentation === true ? 2 : 0);
    builder.push(at.line, at.character, token.span.end - token.span.start, types.indexOf(token.type), modifiers);
  }
  return builder.build();
};

const tokensOf = (ask: Ask, window: Span | undefined): readonly Token[] => {
  const inWindow = (span: Span): boolean => window === undefined || (span.start < window.end && window.start < span.end);
  const tree = ask.project.tree(ask.path);
  const { symbols } = ask.project.model(ask.path);
  const tokens: Token[] = [];
  for (const comment of tree.comments)
    tokens.push({ span: comment, type: 'comment', documentation: tree.text.startsWith('///', comment.start) });
  for (const one of symbols.definitions) tokens.push({ span: one.span, type: nameTypes[one.kind], declaration: true });
  for (const one of symbols.references) tokens.push({ span: one.span, type: nameTypes[one.kind] });
  const named = new Set(tokens.map((token) => token.span.start));
  for (const statement of allStatements(tree.statements)) {
    if (inWindow(headSpan(statement))) tokens.push(...tokensOfHead(statement, tree.text, named));
  }
  return tokens.filter((token) => inWindow(token.span)).sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
};

/** Words and values of one statement, its braces left out; `named` are the starts of names already told apart by meaning. */
const tokensOfHead = (statement: Statement, text: string, named: ReadonlySet<number>): readonly Token[] => {
  const tokens: Token[] = [];
  const taken: Span[] = [];
  for (const argument of argumentsOf(statement.fields)) {
    if (argument.kind === 'list' || argument.kind === 'group' || argument.kind === 'word') continue;
    taken.push(argument.span);
    if (argument.kind === 'text') tokens.push({ span: argument.span, type: 'string' });
    if (argument.kind === 'size') tokens.push({ span: argument.span, type: 'number' });
    if (argument.kind === 'value') for (const expr of expressionsIn(argument.value)) tokens.push(...tokensOfExpression(expr, text, named));
  }
  if (statement.entry === undefined) return tokens;
  const head = headSpan(statement);
  taken.sort((a, b) => a.start - b.start);
  let next = 0;
  // What is left of a statement once its values and names are set aside are the language's own words.
  for (const match of text.slice(head.start, head.end).matchAll(/\/\/.*|[\p{L}_][\p{L}\p{N}_]*/gu)) {
    if (match[0].startsWith('//')) continue;
    const start = head.start + match.index;
    while (next < taken.length && (taken[next] as Span).end <= start) next++;
    const argument = taken[next];
    if (argument !== undefined && argument.start <= start) continue;
    if (!named.has(start)) tokens.push({ span: { start, end: start + match[0].length }, type: 'keyword' });
  }
  return tokens;
};

const tokensOfExpression = (expr: Expr, text: string, named: ReadonlySet<number>): readonly Token[] => {
  switch (expr.kind) {
    case 'number':
      return expr.terms.map((term) => ({ span: term.span, type: 'number' }));
    case 'name':
      return expr.path
        .filter((step) => !named.has(step.span.start))
        .map((step, index) => ({ span: step.span, type: index === 0 ? 'variable' : 'property' }));
    case 'member':
      return [{ span: expr.name.span, type: 'property' }];
    case 'call':
      return [{ span: expr.name.span, type: 'function' }];
    case 'text':
      return [{ span: expr.span, type: 'string' }];
    case 'yesno':
      return [{ span: expr.span, type: 'keyword' }];
    case 'unary':
      return expr.op === 'not' ? [{ span: expr.opSpan, type: 'keyword' }] : [];
    case 'binary':
      return /^\p{L}/u.test(text.slice(expr.opSpan.start, expr.opSpan.end)) ? [{ span: expr.opSpan, type: 'keyword' }] : [];
    case 'point':
    case 'paren':
    case 'missing':
      return [];
  }
};

const nameTypes: Readonly<Record<NameKind, TokenType>> = {
  value: 'variable',
  part: 'class',
  material: 'type',
  sheet: 'type',
  stock: 'type',
  die: 'type',
  roller: 'type',
  brake: 'type',
  saw: 'type',
  welder: 'type',
  trial: 'type',
  file: 'namespace',
  edge: 'enumMember',
  flange: 'enumMember',
  feature: 'enumMember',
  leg: 'enumMember',
  curve: 'enumMember',
  index: 'parameter',
  place: 'enumMember',
};
