/** Expressions to values. Never throws; what can't be worked out is reported at its words and then unknown, in silence. */
import type { Expr, Span } from '../../grammar/syntax.js';
import { type UnitEntry, units } from '../../grammar/vocabulary/units.js';
import { bareNumber, memberOf, operate, quantity, yesno } from './arithmetic.js';
import { dimensionOfUnitKind, length, plain, sameDimension, valueInWords } from './dimension.js';
import { callFunction } from './functions.js';
import { gaugeInMillimetres } from './gauge.js';
import { valueOfPath, valuesOfPath } from './paths.js';
import { type Reading, unknown, type ValueEntry, wordsAt } from './reading.js';
import type { Value } from './values.js';

const unitTable: ReadonlyMap<string, UnitEntry> = new Map(units.map((entry) => [entry.name, entry]));

/** The value of an expression, with names as the reading sees them. */
export const evaluate = (expr: Expr, reading: Reading): Value => {
  switch (expr.kind) {
    case 'number':
      return evaluateNumber(expr, reading);
    case 'name':
      return valueOfPath(expr, reading, valueOfEntry);
    case 'paren':
      return evaluate(expr.inner, reading);
    case 'unary':
      return evaluateUnary(expr, reading);
    case 'binary':
      return evaluateBinary(expr, reading);
    case 'point':
      return evaluatePoint(expr, reading);
    case 'member':
      return memberOf(evaluate(expr.of, reading), expr.name, expr.of.span, reading);
    case 'call':
      return callFunction(expr, reading, (arg) =>
        arg.kind === 'name' ? valuesOfPath(arg, reading, valueOfEntry) : [evaluate(arg, reading)],
      );
    case 'text':
      return { kind: 'text', text: expr.value };
    case 'yesno':
      return yesno(expr.value);
    case 'missing':
      return unknown;
  }
};

/** A long sum hangs deep on its left side, so that side is walked without calling oneself. */
const evaluateBinary = (expr: Extract<Expr, { kind: 'binary' }>, reading: Reading): Value => {
  const spine: Extract<Expr, { kind: 'binary' }>[] = [];
  let at: Expr = expr;
  while (at.kind === 'binary') {
    spine.push(at);
    at = at.left;
  }
  let value = evaluate(at, reading);
  for (let node = spine.pop(); node !== undefined; node = spine.pop()) {
    const right = evaluate(node.right, reading);
    value = operate(node.op, value, right, { span: node.opSpan, left: node.left.span, right: node.right.span }, reading);
  }
  return value;
};

const evaluateNumber = (expr: Extract<Expr, { kind: 'number' }>, reading: Reading): Value => {
  const first = expr.terms[0];
  if (first === undefined) return unknown;
  if (first.unit === undefined && expr.terms.length === 1)
    return Number.isFinite(first.value) ? bareNumber(first.value) : tooGreat(expr.span, reading);
  let sum = 0;
  let dim = plain;
  for (const term of expr.terms) {
    if (term.unit?.name === 'ga') {
      const mm = gaugeInMillimetres(term.value, expr, reading);
      return mm === undefined ? unknown : quantity(mm, length);
    }
    const unit = term.unit === undefined ? undefined : unitTable.get(term.unit.name);
    if (unit?.coherent === undefined) {
      reading.sink.report(
        term.span,
        'unit/unknown',
        `${wordsAt(reading.names.tree, term.span)} has no unit that is known. Lengths are written 12 mm, 3/4 in, 4 ft.`,
      );
      return unknown;
    }
    sum += term.value * unit.coherent;
    dim = dimensionOfUnitKind(unit.kind);
  }
  return Number.isFinite(sum) ? quantity(sum, dim) : tooGreat(expr.span, reading);
};
const tooGreat = (span: Span, reading: Reading): Value => {
  reading.sink.report(span, 'number/out-of-range', `${wordsAt(reading.names.tree, span)} is too great a number.`);
  return unknown;
};

const evaluateUnary = (expr: Extract<Expr, { kind: 'unary' }>, reading: Reading): Value => {
  const value = evaluate(expr.operand, reading);
  if (value.kind === 'unknown') return value;
  if (expr.op === 'not') {
    if (value.kind === 'yesno') return yesno(!value.yes);
    return refuseUnary(expr, value, 'It turns a condition round: not a <= b.', reading);
  }
  if (value.kind === 'number') return expr.op === '-' ? { ...value, value: -value.value } : value;
  if (value.kind === 'point') return expr.op === '-' ? { ...value, x: -value.x, y: -value.y } : value;
  return refuseUnary(expr, value, 'It wants a number.', reading);
};
const refuseUnary = (expr: Extract<Expr, { kind: 'unary' }>, value: Value, cure: string, reading: Reading): Value => {
  reading.sink.report(
    expr.opSpan,
    'unit/wrong-kind',
    `${expr.op} can't stand before ${valueInWords(value)} (${wordsAt(reading.names.tree, expr.operand.span)}). ${cure}`,
  );
  return unknown;
};

const evaluatePoint = (expr: Extract<Expr, { kind: 'point' }>, reading: Reading): Value => {
  const x = evaluate(expr.x, reading);
  const y = evaluate(expr.y, reading);
  for (const [value, at] of [
    [x, expr.x],
    [y, expr.y],
  ] as const) {
    if (value.kind === 'unknown') continue;
    if (value.kind !== 'number' || (!value.bare && !sameDimension(value.dim, length))) {
      reading.sink.report(
        at.span,
        'unit/wrong-kind',
        `A point is two lengths, (x, y), and ${wordsAt(reading.names.tree, at.span)} is ${valueInWords(value)}.`,
      );
      return unknown;
    }
  }
  if (x.kind !== 'number' || y.kind !== 'number') return unknown;
  // Most points are two written numbers without units.
  if (x.bare && y.bare && expr.x.kind === 'number' && expr.y.kind === 'number')
    return { kind: 'point', x: x.value, y: y.value, bare: true };
  // Adding a nought of the other's kind brings both to one kind and home.
  const asY = operate('+', x, { ...y, value: 0 }, { span: expr.span, left: expr.x.span, right: expr.y.span }, reading);
  if (asY.kind !== 'number') return unknown;
  const asX = operate('+', y, { ...x, value: 0 }, { span: expr.span, left: expr.y.span, right: expr.x.span }, reading);
  if (asX.kind !== 'number') return unknown;
  return { kind: 'point', x: asY.value, y: asX.value, bare: asY.bare, ...(asY.home === undefined ? {} : { home: asY.home }) };
};

/**
 * Value of a `let` or an index; worked out once. A ring of them is one finding, at its first member, and all of them unknown.
 */
export const valueOfEntry = (entry: ValueEntry): Value => {
  if (entry.state === 'done') return entry.value;
  const trail = entry.reading.names.env.trail.steps;
  if (entry.state === 'working') {
    reportRing(entry);
    return unknown;
  }
  if (entry.expr === undefined) return unknown;
  if (trail.length > longestTrail) {
    entry.reading.sink.report(
      entry.span,
      'name/long-chain',
      `${entry.name} hangs on more than ${longestTrail} other values, one through the other. Give one of them a value of its own.`,
    );
    return unknown;
  }
  entry.state = 'working';
  trail.push({ file: entry.file, kind: 'value', name: entry.name, span: entry.span, of: entry });
  let value = evaluate(entry.expr, entry.reading);
  trail.pop();
  entry.state = 'done';
  if (entry.ringed) value = unknown;
  if ((value.kind === 'number' || value.kind === 'point') && value.bare && value.home === undefined) value = { ...value, home: entry.file };
  entry.value = value;
  return value;
};

/** Values that hang on one another, one through the other: more than any drawing has, and few enough for the machine's stack. */
const longestTrail = 400;

const isEntry = (of: object): of is ValueEntry => 'reading' in of && 'state' in of;

const reportRing = (entry: ValueEntry): void => {
  const steps = entry.reading.names.env.trail.steps;
  const from = steps.findIndex((step) => step.of === entry);
  if (from < 0) return;
  const ring = steps.slice(from);
  const members = ring.flatMap((step) => (isEntry(step.of) ? [step.of] : []));
  if (members.some((member) => member.ringed)) return;
  for (const member of members) member.ringed = true;
  const first = members.reduce((a, b) => (b.file < a.file || (b.file === a.file && b.span.start < a.span.start) ? b : a));
  const at = ring.findIndex((step) => step.of === first);
  const order = [...ring.slice(at), ...ring.slice(0, at)].map((step) => step.name);
  const message =
    order.length === 1
      ? `${first.name} is worked out from itself. Give it a value that doesn't need ${first.name}.`
      : `These are worked out from one another, in a ring: ${[...order, first.name].join(' → ')}. Give one of them a value of its own.`;
  first.reading.sink.report(first.span, 'name/ring', message, {
    related: ring
      .filter((step) => step.of !== first)
      .map((step) => ({ file: step.file, span: step.span, message: `${step.name} is part of the ring` })),
  });
};
