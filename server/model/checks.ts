/** `check` statements: whether they hold, with the numbers when they don't. */
import type { Expr, Statement } from '../../grammar/syntax.js';
import { exprOf, textField } from './arguments.js';
import { angle, length, sameDimension, valueInWords } from './dimension.js';
import { sayBothLengths } from './display.js';
import { evaluate } from './evaluate.js';
import { inFile } from './names.js';
import { type Reading, silence, wordsAt } from './reading.js';
import { sayValue } from './say.js';

/** Calls `each` for every expression within one, itself first. */
export const walkExpr = (expr: Expr, each: (expr: Expr) => void): void => {
  const waiting: Expr[] = [expr];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    each(at);
    switch (at.kind) {
      case 'unary':
        waiting.push(at.operand);
        break;
      case 'binary':
        waiting.push(at.right, at.left);
        break;
      case 'call':
        for (const arg of at.args.toReversed()) waiting.push(arg.value);
        break;
      case 'point':
        waiting.push(at.y, at.x);
        break;
      case 'paren':
        waiting.push(at.inner);
        break;
      case 'member':
        waiting.push(at.of);
        break;
      default:
        break;
    }
  }
};

/** Whether a check reads measured sizes of the part it stands in. */
export const readsOwnMeasures = (check: Statement, reading: Reading): boolean => {
  const condition = exprOf(check.fields.condition);
  if (condition === undefined || reading.part === undefined) return false;
  let own = false;
  walkExpr(condition, (expr) => {
    if (expr.kind !== 'name' || expr.path.length < 2 || expr.path[0]?.name !== reading.part) return;
    const part = inFile('part', reading.part ?? '', reading.names);
    own ||= part.kind === 'one' && part.entry.file === reading.names.path;
  });
  return own;
};

/** Decides one check: nothing when it holds, `check/failed` with both sides when it doesn't, `check/not-decided` when something in it is broken. */
export const decideCheck = (check: Statement, reading: Reading): void => {
  const condition = exprOf(check.fields.condition);
  if (condition === undefined || condition.kind === 'missing') return;
  let said = false;
  const listening: Reading = {
    ...reading,
    sink: {
      ...reading.sink,
      report: (span, rule, message, note) => {
        said = true;
        reading.sink.report(span, rule, message, note);
      },
    },
  };
  const value = evaluate(condition, listening);
  if (value.kind === 'yesno') {
    if (!value.yes) reportFailed(check, condition, reading);
    return;
  }
  if (value.kind === 'unknown') {
    if (!said && !check.broken) {
      reading.sink.report(
        condition.span,
        'check/not-decided',
        `${wordsAt(reading.names.tree, condition.span)}: not decided, since something it reads can’t be worked out.`,
        {
          severity: 'information',
        },
      );
    }
    return;
  }
  reading.sink.report(
    condition.span,
    'unit/wrong-kind',
    `A check wants a condition, such as a <= b, and ${wordsAt(reading.names.tree, condition.span)} is ${valueInWords(value)}.`,
  );
};

const reportFailed = (check: Statement, condition: Expr, reading: Reading): void => {
  const message = textField(check, 'message');
  const silent: Reading = { ...reading, sink: silence };
  const why = numbersOf(condition, silent);
  const words = wordsAt(reading.names.tree, condition.span);
  const numbers = why === '' ? '' : ` (${why})`;
  reading.sink.report(
    condition.span,
    'check/failed',
    message === undefined ? `This doesn’t hold: ${words}${numbers}.` : `${message}: ${words} doesn’t hold${numbers}.`,
  );
};

/** Both sides of the comparisons that make a condition false. */
const numbersOf = (expr: Expr, reading: Reading): string => {
  if (expr.kind === 'paren') return numbersOf(expr.inner, reading);
  if (expr.kind !== 'binary') return '';
  if (expr.op === 'and' || expr.op === 'or') {
    const left = evaluate(expr.left, reading);
    const right = evaluate(expr.right, reading);
    const sides = [
      left.kind === 'yesno' && !left.yes ? numbersOf(expr.left, reading) : '',
      right.kind === 'yesno' && !right.yes ? numbersOf(expr.right, reading) : '',
    ];
    return sides.filter((side) => side !== '').join(', ');
  }
  const left = evaluate(expr.left, reading);
  const right = evaluate(expr.right, reading);
  // Beside a length, a bare number is one too.
  const [a, b] = likeOneAnother(left, right, reading);
  return `${a} against ${b}`;
};

const likeOneAnother = (
  left: ReturnType<typeof evaluate>,
  right: ReturnType<typeof evaluate>,
  reading: Reading,
): readonly [string, string] => {
  const asOther = (value: typeof left, other: typeof left): typeof left => {
    if (value.kind !== 'number' || other.kind !== 'number' || !value.bare || other.bare) return value;
    if (sameDimension(other.dim, length))
      return { ...value, value: value.value * (reading.names.units?.mm ?? 1), dim: other.dim, bare: false };
    return sameDimension(other.dim, angle) ? { ...value, value: (value.value * Math.PI) / 180, dim: other.dim, bare: false } : value;
  };
  const a = asOther(left, right);
  const b = asOther(right, left);
  if (a.kind === 'number' && b.kind === 'number' && !a.bare && !b.bare && sameDimension(a.dim, length) && sameDimension(b.dim, length)) {
    return sayBothLengths(a.value, b.value, reading.names.units);
  }
  return [sayValue(a, reading), sayValue(b, reading)];
};
