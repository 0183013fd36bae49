/** The functions of the language: `min max sum abs sqrt sin cos tan asin acos atan diagonal round floor ceil`. */
import type { Expr, Span } from '../../grammar/syntax.js';
import { functions } from '../../grammar/vocabulary/functions.js';
import { bareNumber, matched, type NumberValue, operate, quantity } from './arithmetic.js';
import { angle, combine, isPlain, plain, sameDimension, valueInWords } from './dimension.js';
import { either, nearestNames } from './nearest.js';
import { type Reading, replace, unknown, wordsAt } from './reading.js';
import type { Value } from './values.js';

type FunctionName =
  | ('min' | 'max' | 'sum' | 'abs' | 'sqrt' | 'sin' | 'cos' | 'tan')
  | ('asin' | 'acos' | 'atan' | 'diagonal' | 'round' | 'floor' | 'ceil');

const forms: ReadonlyMap<string, string> = new Map(functions.map((entry) => [entry.name, entry.usage]));
const isFunctionName = (name: string): name is FunctionName => forms.has(name);

type Call = Extract<Expr, { kind: 'call' }>;
interface Given {
  readonly value: Value;
  readonly span: Span;
}

/** A call; `valuesOf` gives one value for an expression, several for a path with `all` in it. */
export const callFunction = (call: Call, reading: Reading, valuesOf: (arg: Expr) => readonly Value[]): Value => {
  const name = call.name.name;
  if (!isFunctionName(name)) {
    const near = nearestNames(name, forms.keys());
    const cure = near.length > 0 ? `Did you mean ${either(near)}?` : `There are ${[...forms.keys()].join(', ')}.`;
    reading.sink.report(call.name.span, 'name/unknown', `There is no function ${name}. ${cure}`, {
      fixes: near.map((other) => replace(call.name.span, other, `Change to ${other}`)),
    });
    return unknown;
  }
  let step: Given | undefined;
  const given: Given[] = [];
  for (const arg of call.args) {
    const values = valuesOf(arg.value);
    if (arg.label !== undefined && rounding(name)) step = { value: values[0] ?? unknown, span: arg.value.span };
    else if (arg.label !== undefined)
      return refuse(call, `${forms.get(name)} has nothing called ${arg.label.name}.`, arg.label.span, reading);
    else for (const value of values) given.push({ value, span: arg.value.span });
  }
  if (given.length === 0) return refuse(call, `${name} wants a number in its brackets: ${forms.get(name)}.`, call.name.span, reading);
  if (given.some((item) => item.value.kind === 'unknown') || step?.value.kind === 'unknown') return unknown;
  for (const item of step === undefined ? given : [...given, step]) {
    if (item.value.kind === 'number') continue;
    return refuse(
      call,
      `${forms.get(name)} wants numbers, and ${wordsAt(reading.names.tree, item.span)} is ${valueInWords(item.value)}.`,
      item.span,
      reading,
    );
  }
  const numbers = given as readonly NumberGiven[];
  const limit = many(name) ? Number.POSITIVE_INFINITY : name === 'diagonal' ? 2 : 1;
  const extra = numbers[limit];
  if (extra !== undefined)
    return refuse(call, `${name} takes ${limit === 1 ? 'one number' : `${limit} numbers`}: ${forms.get(name)}.`, extra.span, reading);
  const value = apply(name, call, numbers, step as NumberGiven | undefined, reading);
  if (value.kind === 'number' && !Number.isFinite(value.value)) {
    return refuse(call, `${wordsAt(reading.names.tree, call.span)} has no real answer.`, call.span, reading, 'number/out-of-range');
  }
  return value;
};
interface NumberGiven {
  readonly value: NumberValue;
  readonly span: Span;
}
const rounding = (name: FunctionName): boolean => name === 'round' || name === 'floor' || name === 'ceil';
const many = (name: FunctionName): boolean => name === 'min' || name === 'max' || name === 'sum';

const refuse = (_call: Call, message: string, span: Span, reading: Reading, rule = 'unit/wrong-kind'): Value => {
  reading.sink.report(span, rule, message);
  return unknown;
};

const apply = (name: FunctionName, call: Call, given: readonly NumberGiven[], step: NumberGiven | undefined, reading: Reading): Value => {
  const first = given[0] as NumberGiven;
  const a = first.value;
  switch (name) {
    case 'min':
    case 'max':
      return fold(given, call, reading, name === 'min' ? (x, y) => Math.min(x, y) : (x, y) => Math.max(x, y));
    case 'sum':
      return fold(given, call, reading, (x, y) => x + y);
    case 'abs':
      return { ...a, value: Math.abs(a.value) };
    case 'sqrt':
      return squareRoot(first, reading);
    case 'sin':
    case 'cos':
    case 'tan':
      return turnedBy(name, first, reading);
    case 'asin':
    case 'acos':
    case 'atan':
      return angleOf(name, first, reading);
    case 'diagonal':
      if (given.length < 2) return refuse(call, 'diagonal wants two lengths: diagonal(width, height).', call.name.span, reading);
      return fold(given, call, reading, (x, y) => Math.hypot(x, y));
    default:
      return rounded(name, first, step, call, reading);
  }
};

const fold = (given: readonly NumberGiven[], call: Call, reading: Reading, join: (x: number, y: number) => number): Value => {
  let so: NumberGiven = given[0] as NumberGiven;
  for (const next of given.slice(1)) {
    const pair = matched(so.value, next.value, 'put beside', { span: next.span, left: so.span, right: next.span }, reading);
    if (pair === undefined) return unknown;
    const { dim, bare } = pair;
    so = {
      value: { kind: 'number', value: join(pair.a, pair.b), dim, bare, ...(pair.home === undefined ? {} : { home: pair.home }) },
      span: call.span,
    };
  }
  return so.value;
};

const squareRoot = (a: NumberGiven, reading: Reading): Value => {
  if (a.value.value < 0) {
    reading.sink.report(a.span, 'number/out-of-range', `${wordsAt(reading.names.tree, a.span)} is less than 0 and has no square root.`);
    return unknown;
  }
  const root = Math.sqrt(a.value.value);
  return a.value.bare ? { ...a.value, value: root } : quantity(root, combine(plain, a.value.dim, 0.5));
};

const turnedBy = (name: 'sin' | 'cos' | 'tan', a: NumberGiven, reading: Reading): Value => {
  if (!a.value.bare && !sameDimension(a.value.dim, angle)) {
    reading.sink.report(
      a.span,
      'unit/wrong-kind',
      `${name} wants an angle, and ${wordsAt(reading.names.tree, a.span)} is ${valueInWords(a.value)}. Write ${name}(30) or ${name}(30 deg).`,
    );
    return unknown;
  }
  const turn = a.value.bare ? (a.value.value * Math.PI) / 180 : a.value.value;
  if (name === 'tan' && Math.abs(Math.cos(turn)) < 1e-12) {
    reading.sink.report(a.span, 'number/out-of-range', 'The tangent of a right angle has no end.');
    return unknown;
  }
  return quantity(name === 'sin' ? Math.sin(turn) : name === 'cos' ? Math.cos(turn) : Math.tan(turn), plain);
};

const angleOf = (name: 'asin' | 'acos' | 'atan', a: NumberGiven, reading: Reading): Value => {
  const text = wordsAt(reading.names.tree, a.span);
  if (!a.value.bare && !isPlain(a.value.dim)) {
    reading.sink.report(
      a.span,
      'unit/wrong-kind',
      `${name} wants a plain number, such as one length over another, and ${text} is ${valueInWords(a.value)}.`,
    );
    return unknown;
  }
  const ratio = a.value.value;
  if (name !== 'atan' && Math.abs(ratio) > 1) {
    reading.sink.report(
      a.span,
      'number/out-of-range',
      `${name} wants a number from -1 to 1${text === String(ratio) ? `, not ${text}` : `, and ${text} comes to ${Number(ratio.toPrecision(4))}`}.`,
    );
    return unknown;
  }
  return quantity(name === 'asin' ? Math.asin(ratio) : name === 'acos' ? Math.acos(ratio) : Math.atan(ratio), angle);
};

/** Rounding shifted by a hair, so that 0.3 / 0.1 is three steps although the machine says 2.9999999999999996. */
const hair = 1e-9;

const rounded = (name: FunctionName, a: NumberGiven, step: NumberGiven | undefined, call: Call, reading: Reading): Value => {
  const whole = (n: number): number => (name === 'floor' ? Math.floor(n + hair) : name === 'ceil' ? Math.ceil(n - hair) : Math.round(n));
  if (step === undefined) {
    if (a.value.bare || isPlain(a.value.dim)) return { ...a.value, value: whole(a.value.value) };
    const text = wordsAt(reading.names.tree, a.span);
    reading.sink.report(call.name.span, 'unit/wrong-kind', `Say what to ${name} ${text} to: ${name}(${text}, to 1/16).`);
    return unknown;
  }
  if (step.value.value <= 0) {
    reading.sink.report(
      step.span,
      'number/out-of-range',
      `The step to ${name} to must be more than nothing, and ${wordsAt(reading.names.tree, step.span)} isn't.`,
    );
    return unknown;
  }
  const pair = matched(a.value, step.value, 'rounded to', { span: step.span, left: a.span, right: step.span }, reading);
  if (pair === undefined) return unknown;
  const steps = pair.bare ? bareNumber(whole(pair.a / pair.b)) : quantity(whole(pair.a / pair.b), plain);
  const one: Value = {
    kind: 'number',
    value: pair.b,
    dim: pair.dim,
    bare: pair.bare,
    ...(pair.home === undefined ? {} : { home: pair.home }),
  };
  return operate('*', steps, one, { span: call.span, left: a.span, right: step.span }, reading);
};
