/** Goes through a tree: every statement, every expression. */
import type { Argument, Expr, Fields, Statement, Tree } from './syntax.js';

/** Calls `visit` with each statement, outer before inner, in the order of the text. */
export const walkStatements = (
  tree: Pick<Tree, 'statements'>,
  visit: (statement: Statement, parents: readonly Statement[]) => void,
): void => {
  const go = (statements: readonly Statement[], parents: readonly Statement[]): void => {
    for (const statement of statements) {
      visit(statement, parents);
      if (statement.block !== undefined) go(statement.block.statements, [...parents, statement]);
    }
  };
  go(tree.statements, []);
};

/** An expression's own parts, left to right. */
export const partsOfExpression = (expr: Expr): readonly Expr[] => {
  switch (expr.kind) {
    case 'unary':
      return [expr.operand];
    case 'binary':
      return [expr.left, expr.right];
    case 'call':
      return expr.args.map((arg) => arg.value);
    case 'point':
      return [expr.x, expr.y];
    case 'paren':
      return [expr.inner];
    case 'member':
      return [expr.of];
    default:
      return [];
  }
};

/** Calls `visit` with each argument of a statement's own words, those inside lists and groups too, with its field. */
export const walkArguments = (fields: Fields, visit: (argument: Argument, field: string) => void): void => {
  const go = (argument: Argument, field: string): void => {
    visit(argument, field);
    if (argument.kind === 'list') for (const item of argument.items) go(item, field);
    else if (argument.kind === 'group') walkArguments(argument.fields, visit);
  };
  for (const [field, argument] of Object.entries(fields)) go(argument, field);
};

/** Calls `visit` with each expression of a statement's own words (not of its block), outer before inner. */
export const walkExpressions = (statement: Statement, visit: (expr: Expr) => void): void => {
  const go = (expr: Expr): void => {
    visit(expr);
    for (const part of partsOfExpression(expr)) go(part);
  };
  walkArguments(statement.fields, (argument) => {
    if (argument.kind === 'value') go(argument.value);
  });
};
