import { partsOfExpression } from '../../grammar/index.js';
import type { Argument, Expr, Fields, Ident, Span, Statement, Tree } from '../../grammar/syntax.js';
import { touches } from './ask.js';

/** Every statement of a file, outer ones before those in their braces. */
export function* allStatements(statements: readonly Statement[]): Generator<Statement> {
  for (const statement of statements) {
    yield statement;
    if (statement.block !== undefined) yield* allStatements(statement.block.statements);
  }
}

/** The statements around an offset, outermost first. */
export const statementsAt = (tree: Tree, offset: number): readonly Statement[] => {
  const found: Statement[] = [];
  let level: readonly Statement[] = tree.statements;
  for (;;) {
    const candidates: readonly Statement[] = level.filter((statement) => touches(statement.span, offset));
    // Two statements may touch the same offset (`a;b`): the later one is where the person is typing.
    const next = candidates.at(-1);
    if (next === undefined) return found;
    found.push(next);
    if (next.block === undefined || !touches(next.block.span, offset)) return found;
    level = next.block.statements;
  }
};

/** Every argument of a statement, those within lists and groups included, in no promised order. */
export function* argumentsOf(fields: Fields): Generator<Argument> {
  for (const argument of Object.values(fields)) yield* withParts(argument);
}
function* withParts(argument: Argument): Generator<Argument> {
  yield argument;
  if (argument.kind === 'list') for (const item of argument.items) yield* withParts(item);
  if (argument.kind === 'group') yield* argumentsOf(argument.fields);
}

/** An expression and everything it is made of, outer ones first. */
export function* expressionsIn(expr: Expr): Generator<Expr> {
  yield expr;
  for (const part of partsOfExpression(expr)) yield* expressionsIn(part);
}

/** The expressions around an offset within one statement's own words, outermost first. */
export const expressionsAt = (statement: Statement, offset: number): readonly Expr[] => {
  for (const argument of argumentsOf(statement.fields)) {
    if (argument.kind !== 'value' || !touches(argument.span, offset)) continue;
    return [...expressionsIn(argument.value)].filter((expr) => touches(expr.span, offset));
  }
  return [];
};

/** Every name a statement speaks of or brings into being, with the words it is made of. */
export function* identsOf(statement: Statement): Generator<Ident> {
  for (const argument of argumentsOf(statement.fields)) {
    if (argument.kind === 'newName') yield argument.name;
    if (argument.kind === 'name') yield* argument.path;
    if (argument.kind === 'value')
      for (const expr of expressionsIn(argument.value)) {
        if (expr.kind === 'name') yield* expr.path;
        if (expr.kind === 'number' && expr.ofMaterial !== undefined) yield* expr.ofMaterial;
      }
  }
}

/** The name a statement brings into being, when it does. */
export const nameOf = (statement: Statement): Ident | undefined => {
  for (const argument of argumentsOf(statement.fields)) if (argument.kind === 'newName') return argument.name;
  return undefined;
};

/** A statement's own words, without its braces. */
export const headSpan = (statement: Statement): Span => ({
  start: statement.span.start,
  end: statement.block?.span.start ?? statement.span.end,
});

/** The whole word at a place, or just behind or before it. */
export const wordAt = (text: string, offset: number): Span | undefined => {
  const letter = /[\p{L}\p{N}_]/u;
  let start = offset;
  while (start > 0 && letter.test(text[start - 1] as string)) start--;
  let end = offset;
  while (end < text.length && letter.test(text[end] as string)) end++;
  return end > start ? { start, end } : undefined;
};
