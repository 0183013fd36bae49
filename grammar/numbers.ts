/** Written numbers: whole, decimal, fraction, mixed, with units, and feet with inches. */
import type { IToken } from 'chevrotain';
import type { Expr, Fix, Ident, NumberTerm, Span, Unit } from './syntax.js';
import {
  Comma,
  Decimal,
  Divide,
  DotStep,
  endOf,
  Fraction,
  is,
  isNumber,
  isWord,
  Minus,
  touching,
  UnitMark,
  unitName,
  Vulgar,
  Word,
} from './tokens.js';

/** What number reading asks of the parser. `ahead(0)` is the token last taken. */
export interface NumberSource {
  readonly text: string;
  ahead(n: number): IToken;
  take(): IToken;
  report(span: Span, rule: string, message: string, fixes?: readonly Fix[]): void;
}

interface Shape {
  readonly value: number;
  readonly reading: string;
  readonly unit: Unit | undefined;
  readonly start: number;
  readonly end: number;
  /** Offset of the token after it. */
  readonly next: number;
  /** A fraction over nothing. */
  readonly zero: IToken | undefined;
  /** Joined by a hyphen: where the hyphen stands. */
  readonly hyphen: IToken | undefined;
}

const vulgarFractions: Readonly<Record<string, readonly [number, number]>> = {
  '½': [1, 2],
  '¼': [1, 4],
  '¾': [3, 4],
  '⅛': [1, 8],
  '⅜': [3, 8],
  '⅝': [5, 8],
  '⅞': [7, 8],
  '⅓': [1, 3],
  '⅔': [2, 3],
};
const isFraction = (token: IToken): boolean => is(token, Fraction) || is(token, Vulgar);
const isWhole = (token: IToken): boolean => {
  if (!is(token, Decimal)) return false;
  for (let i = 0; i < token.image.length; i++) {
    const code = token.image.charCodeAt(i);
    if (code < 48 || code > 57) return false;
  }
  return true;
};

const partsOf = (token: IToken): readonly [number, number] => {
  const written = vulgarFractions[token.image];
  if (written !== undefined) return written;
  const stroke = token.image.indexOf('/');
  return [Number(token.image.slice(0, stroke)), Number(token.image.slice(stroke + 1))];
};
const fractionReading = (token: IToken): string => (is(token, Vulgar) ? partsOf(token).join('/') : token.image);

/** The unit at an offset, with how many tokens it takes. */
const unitAt = (source: NumberSource, at: number): { readonly unit: Unit; readonly tokens: number } | undefined => {
  const token = source.ahead(at);
  if (is(token, UnitMark)) {
    const name = unitName(token.image);
    return name === undefined ? undefined : { unit: { span: { start: token.startOffset, end: endOf(token) }, name }, tokens: 1 };
  }
  if (!is(token, Word)) return undefined;
  const stroke = source.ahead(at + 1);
  if (is(stroke, Divide) && touching(token, stroke)) {
    const under = source.ahead(at + 2);
    if (is(under, Word) && touching(stroke, under)) {
      const name = unitName(source.text.slice(token.startOffset, endOf(under)));
      if (name !== undefined) return { unit: { span: { start: token.startOffset, end: endOf(under) }, name }, tokens: 3 };
    }
  }
  const name = unitName(token.image);
  return name === undefined ? undefined : { unit: { span: { start: token.startOffset, end: endOf(token) }, name }, tokens: 1 };
};

const readShape = (source: NumberSource, at: number): Shape => {
  const first = source.ahead(at);
  let value: number;
  let reading: string;
  let last = first;
  let next = at + 1;
  let zero: IToken | undefined;
  let hyphen: IToken | undefined;
  if (isFraction(first)) {
    const [over, under] = partsOf(first);
    value = over / under;
    reading = fractionReading(first);
    if (under === 0) zero = first;
  } else {
    value = Number(first.image);
    reading = first.image;
    const second = source.ahead(next);
    let fraction: IToken | undefined;
    if (isFraction(second)) fraction = second;
    else if (is(second, Minus) && touching(first, second)) {
      const third = source.ahead(next + 1);
      if (isFraction(third) && touching(second, third)) {
        fraction = third;
        hyphen = second;
      }
    }
    if (fraction !== undefined && isWhole(first)) {
      const [over, under] = partsOf(fraction);
      value += over / under;
      reading = `${reading} ${fractionReading(fraction)}`;
      last = fraction;
      next += hyphen === undefined ? 1 : 2;
      if (under === 0) zero = fraction;
    } else hyphen = undefined;
  }
  const unit = unitAt(source, next);
  if (unit !== undefined) next += unit.tokens;
  return {
    value,
    reading,
    unit: unit?.unit,
    start: first.startOffset,
    end: unit === undefined ? endOf(last) : unit.unit.span.end,
    next,
    zero,
    hyphen,
  };
};

const term = (shape: Shape): NumberTerm => ({ span: { start: shape.start, end: shape.end }, value: shape.value, unit: shape.unit });
const withUnit = (shape: Shape): string => (shape.unit === undefined ? shape.reading : `${shape.reading} ${shape.unit.name}`);

/** Inches after feet: `4 ft 2 1/2 in`, `4' 2-1/2"`, `4'-2"`. */
const inchesAfter = (source: NumberSource, feet: Shape): Shape | undefined => {
  const after = source.ahead(feet.next);
  let at = feet.next;
  if (is(after, Minus)) {
    if (after.startOffset !== feet.end || !touching(after, source.ahead(at + 1))) return undefined;
    at++;
  }
  if (!isNumber(source.ahead(at))) return undefined;
  const inches = readShape(source, at);
  return inches.unit?.name === 'in' ? inches : undefined;
};

const isHyphenated = (source: NumberSource, at: number, end: number): boolean => {
  const hyphen = source.ahead(at);
  return is(hyphen, Minus) && hyphen.startOffset === end && isNumber(source.ahead(at + 1)) && touching(hyphen, source.ahead(at + 1));
};

/** An unspaced hyphen that might join or subtract: nothing is guessed, each reading is offered. */
const reportHyphens = (source: NumberSource, first: Shape, after: Shape): Span & { readonly next: number } => {
  const shapes = first === after ? [first] : [first, after];
  let last = after;
  while (isHyphenated(source, last.next, last.end)) {
    last = readShape(source, last.next + 1);
    shapes.push(last);
  }
  const span = { start: first.start, end: last.end };
  const written = (shape: Shape, joined: boolean): string => {
    const text = source.text.slice(shape.start, shape.end);
    return shape.hyphen === undefined ? text : text.replace(/[-−]/, joined ? ' ' : ' - ');
  };
  const readings = new Set<string>();
  readings.add(shapes.map((shape) => written(shape, true)).join(' - '));
  readings.add(shapes.map((shape) => written(shape, false)).join(' - '));
  const [feet, inches, ...rest] = shapes;
  if (feet?.unit?.name === 'ft' && inches !== undefined && inches.unit === undefined && rest.length === 0)
    readings.add(`${written(feet, true)} ${written(inches, true)}"`);
  const choices = [...readings];
  source.report(
    span,
    'number/hyphen',
    `The hyphen in ${source.text.slice(span.start, span.end)} may join or subtract. Write ${choices.join(', or ')}.`,
    choices.map((reading) => ({ title: `Read it as ${reading}`, edits: [{ span, text: reading }] })),
  );
  return { ...span, next: last.next };
};

const reportZero = (source: NumberSource, zero: IToken, shape: Shape): void => {
  const span = { start: zero.startOffset, end: endOf(zero) };
  const whole =
    shape.start < zero.startOffset
      ? source.text.slice(shape.start, zero.startOffset).replace(/[\s\-−]+$/u, '')
      : (zero.image.split('/')[0] as string);
  source.report(span, 'number/zero-denominator', `${zero.image} has nothing under its stroke; a fraction needs 1 or more there.`, [
    { title: `Write ${whole}`, edits: [{ span: { start: shape.start, end: endOf(zero) }, text: whole }] },
  ]);
};

/** `1,250` or `1,5` where no comma may stand. Gives the offset after it, or nothing when the comma is none of a number's. */
const reportComma = (source: NumberSource, shape: Shape, first: IToken): number | undefined => {
  if (shape.next !== 1 || !isWhole(first)) return undefined;
  let next = 1;
  let last = first;
  let thousands = first.image.length <= 3;
  let digits = first.image;
  while (is(source.ahead(next), Comma) && touching(last, source.ahead(next))) {
    const group = source.ahead(next + 1);
    if (!is(group, Decimal) || !touching(source.ahead(next), group)) break;
    thousands &&= /^[0-9]{3}(?:\.|$)/.test(group.image);
    digits += group.image;
    last = group;
    next += 2;
  }
  if (next === 1) return undefined;
  const span = { start: first.startOffset, end: endOf(last) };
  const written = source.text.slice(span.start, span.end);
  if (thousands) {
    source.report(span, 'number/thousands-comma', `A comma parts two values; write ${written} as ${digits}.`, [
      { title: `Write ${digits}`, edits: [{ span, text: digits }] },
    ]);
  } else {
    const decimal = written.replace(',', '.');
    source.report(span, 'number/decimal-comma', `A comma parts two values; a decimal takes a point, as in ${decimal}.`, [
      { title: `Write ${decimal}`, edits: [{ span, text: decimal }] },
    ]);
  }
  return next;
};

const takeUpTo = (source: NumberSource, next: number): void => {
  for (let i = 1; i < next; i++) source.take();
};

/** ` of MATERIAL` after a gauge number: the path, and the offset after it. */
const materialAfter = (
  source: NumberSource,
  at: number,
): { readonly path: readonly Ident[]; readonly end: number; readonly next: number } | undefined => {
  const of = source.ahead(at);
  const named = source.ahead(at + 1);
  if (!isWord(of) || of.image !== 'of' || !is(named, Word)) return undefined;
  const path: Ident[] = [{ span: { start: named.startOffset, end: endOf(named) }, name: named.image }];
  let last = named;
  let next = at + 2;
  for (let step = source.ahead(next); is(step, DotStep) && touching(last, step) && step.image.length > 1; step = source.ahead(++next)) {
    path.push({ span: { start: step.startOffset + 1, end: endOf(step) }, name: step.image.slice(1) });
    last = step;
  }
  return { path, end: endOf(last), next };
};

/** Most numbers: one token with nothing after it that could belong to it. */
const plainNumber = (source: NumberSource, token: IToken, commaParts: boolean): Expr | undefined => {
  const next = source.ahead(1);
  if (isNumber(next) || is(next, UnitMark) || (is(next, Minus) && touching(token, next)) || (!commaParts && is(next, Comma)))
    return undefined;
  if (is(next, Word) && unitName(next.image) !== undefined) return undefined;
  let value: number;
  let reading = token.image;
  if (is(token, Decimal)) value = Number(reading);
  else {
    const [over, under] = partsOf(token);
    if (under === 0) return undefined;
    value = over / under;
    reading = fractionReading(token);
  }
  const span = { start: token.startOffset, end: endOf(token) };
  return { kind: 'number', span, terms: [{ span, value, unit: undefined }], reading, ofMaterial: undefined };
};

/**
 * Reads the number whose first token has just been taken.
 *
 * @param commaParts true where a comma may follow a value (a list, a point, a call)
 * @param ofFollows  true where the statement itself goes on with `of MATERIAL`: the metal is noted but left for the statement to read
 */
export const readNumber = (source: NumberSource, commaParts: boolean, ofFollows: boolean): Expr => {
  const token = source.ahead(0);
  const plain = plainNumber(source, token, commaParts);
  if (plain !== undefined) return plain;
  const first = readShape(source, 0);
  const inches = first.unit?.name === 'ft' ? inchesAfter(source, first) : undefined;
  const last = inches ?? first;
  const missing = (end: number): Expr => ({ kind: 'missing', span: { start: first.start, end } });
  if (isHyphenated(source, last.next, last.end)) {
    const joined = reportHyphens(source, first, last);
    takeUpTo(source, joined.next);
    return missing(joined.end);
  }
  const zero = first.zero ?? inches?.zero;
  if (zero !== undefined) {
    reportZero(source, zero, first.zero === undefined ? last : first);
    takeUpTo(source, last.next);
    return missing(last.end);
  }
  if (!commaParts && is(source.ahead(1), Comma)) {
    const next = reportComma(source, first, token);
    if (next !== undefined) {
      takeUpTo(source, next);
      return missing(endOf(source.ahead(0)));
    }
  }
  const material = last.unit?.name === 'ga' ? materialAfter(source, last.next) : undefined;
  const takesMaterial = material !== undefined && !ofFollows;
  takeUpTo(source, takesMaterial ? material.next : last.next);
  return {
    kind: 'number',
    span: { start: first.start, end: takesMaterial ? material.end : last.end },
    terms: inches === undefined ? [term(first)] : [term(first), term(inches)],
    reading: inches === undefined ? withUnit(first) : `${withUnit(first)} ${withUnit(inches)}`,
    ofMaterial: material?.path,
  };
};
