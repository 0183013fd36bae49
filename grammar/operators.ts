/** How tightly operators bind, and the nodes they make. */
import type { IToken } from 'chevrotain';
import type { BinaryOp, Expr } from './syntax.js';
import { endOf } from './tokens.js';

const operators: Readonly<Record<string, BinaryOp>> = {
  '+': '+',
  '-': '-',
  '−': '-',
  '*': '*',
  '×': '*',
  '/': '/',
  '^': '^',
  '=': '=',
  '==': '=',
  '<': '<',
  '<=': '<=',
  '≤': '<=',
  '!=': '!=',
  '≠': '!=',
  '>=': '>=',
  '≥': '>=',
  '>': '>',
  and: 'and',
  or: 'or',
};
const tightness: Readonly<Record<BinaryOp, number>> = {
  or: 1,
  and: 2,
  '=': 4,
  '<': 4,
  '<=': 4,
  '!=': 4,
  '>=': 4,
  '>': 4,
  '+': 5,
  '-': 5,
  '*': 6,
  '/': 6,
  '^': 8,
};
// `not a = b` denies the comparison; `-2^2` is -4.
const prefixTightness = { not: 3, '-': 7, '+': 7 } as const;

const operatorOf = (token: IToken): BinaryOp => operators[token.image] as BinaryOp;
export const prefixOf = (token: IToken): '-' | '+' | 'not' => (token.image === 'not' ? 'not' : token.image === '+' ? '+' : '-');

const combine = (left: Expr, token: IToken, op: BinaryOp, right: Expr): Expr => {
  if (left.kind === 'unary' && tightness[op] > prefixTightness[left.op]) {
    const operand = combine(left.operand, token, op, right);
    return { ...left, span: { start: left.span.start, end: operand.span.end }, operand };
  }
  return {
    kind: 'binary',
    span: { start: left.span.start, end: right.span.end },
    op,
    opSpan: { start: token.startOffset, end: endOf(token) },
    left,
    right,
  };
};

/** Builds the tree of operands and the operators between them. `^` binds from the right, all others from the left. */
export const foldOperators = (operands: readonly Expr[], between: readonly IToken[]): Expr => {
  const values: Expr[] = [operands[0] as Expr];
  const waiting: IToken[] = [];
  const reduce = (): void => {
    const token = waiting.pop() as IToken;
    const right = values.pop() as Expr;
    values.push(combine(values.pop() as Expr, token, operatorOf(token), right));
  };
  between.forEach((token, i) => {
    const tight = tightness[operatorOf(token)];
    for (let top = waiting.at(-1); top !== undefined; top = waiting.at(-1)) {
      const above = tightness[operatorOf(top)];
      if (above > tight || (above === tight && tight !== 8)) reduce();
      else break;
    }
    waiting.push(token);
    values.push(operands[i + 1] as Expr);
  });
  while (waiting.length > 0) reduce();
  return values[0] as Expr;
};
