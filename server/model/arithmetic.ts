/** Sums with units. A bare number waits for what is wanted of it; see `matched` for when it takes its file's unit. */
import type { BinaryOp, Ident, Span } from '../../grammar/syntax.js';
import { angle, combine, dimensionInWords, dimensionsInWords, isPlain, length, plain, sameDimension, valueInWords } from './dimension.js';
import { homeName, unitOfFile, writeUnitFixes } from './home.js';
import { type Reading, unknown, wordsAt } from './reading.js';
import type { Dimension, Mixed, Value } from './values.js';

export type NumberValue = Extract<Value, { kind: 'number' }>;
export type PointValue = Extract<Value, { kind: 'point' }>;

export const bareNumber = (value: number): NumberValue => ({ kind: 'number', value, dim: plain, bare: true });
export const quantity = (value: number, dim: Dimension): NumberValue => ({ kind: 'number', value, dim, bare: false });
export const yesno = (yes: boolean): Value => ({ kind: 'yesno', yes });
const degree = Math.PI / 180;

/** Two lengths are one within this, mm; two angles within this, rad. */
const sameLength = 0.001;
const sameAngle = 0.001 * degree;

interface At {
  readonly span: Span;
  readonly left: Span;
  readonly right: Span;
}

/** What a bare number is in the unit of the file it came from, mm. Undefined (said) when that file names none, or two files could be meant. */
export const bareLength = (
  value: number,
  of: { readonly home?: string; readonly mixed?: Mixed },
  span: Span,
  reading: Reading,
): number | undefined => {
  if (of.mixed !== undefined) {
    const [a, b] = of.mixed;
    reading.sink.report(
      span,
      'unit/bare-across-files',
      `${wordsAt(reading.names.tree, span)} is made of numbers without a unit from ${homeName(a, reading)} and ${homeName(b, reading)}, whose units differ, so its length can't be told. Write the unit where they are given.`,
      { fixes: writeUnitFixes(span, reading) },
    );
    return undefined;
  }
  const file = of.home ?? reading.names.path;
  const unit = unitOfFile(file, reading);
  if (unit === undefined) {
    reading.sink.needsUnits(file, span);
    return undefined;
  }
  return value * unit.mm;
};

/** Homes of two bare values put together: the one of the two that has one; both, when their units differ. */
const mergedHome = (a: Bare, b: Bare, reading: Reading): { home?: string; mixed?: Mixed } => {
  const mixed = a.mixed ?? b.mixed;
  const home = a.home ?? b.home;
  if (mixed !== undefined) return home === undefined ? { mixed } : { home, mixed };
  if (
    a.home !== undefined &&
    b.home !== undefined &&
    a.home !== b.home &&
    unitOfFile(a.home, reading)?.mm !== unitOfFile(b.home, reading)?.mm
  ) {
    return { home: a.home, mixed: [a.home, b.home] };
  }
  return home === undefined ? {} : { home };
};
interface Bare {
  readonly home?: string;
  readonly mixed?: Mixed;
}

/** Whether two bare values speak of the same unit; reports when not. A nought is the same in every unit. */
const agree = (a: Bare, b: Bare, nought: boolean, at: At, reading: Reading): boolean => {
  const here = reading.names.path;
  const fileA = a.home ?? here;
  const fileB = b.home ?? here;
  if (nought || (a.mixed === undefined && b.mixed === undefined && fileA === fileB)) return true;
  const unitA = unitOfFile(fileA, reading);
  const unitB = unitOfFile(fileB, reading);
  if (a.mixed === undefined && b.mixed === undefined && unitA?.mm === unitB?.mm) return true;
  const say = (file: string, unit: typeof unitA): string => `${homeName(file, reading)} (${unit === undefined ? 'no units' : unit.name})`;
  const places = a.mixed ?? b.mixed ?? [fileA, fileB];
  reading.sink.report(
    at.span,
    'unit/bare-across-files',
    `One number here has no unit and comes from ${say(places[0], unitOfFile(places[0], reading))}, the other from ${say(places[1], unitOfFile(places[1], reading))}. Write the unit where it is given.`,
    { fixes: writeUnitFixes({ start: at.left.start, end: at.right.end }, reading) },
  );
  return false;
};

interface Pair {
  readonly a: number;
  readonly b: number;
  readonly dim: Dimension;
  readonly bare: boolean;
  readonly home?: string;
  readonly mixed?: Mixed;
}

/**
 * Two numbers brought to the same kind, for adding and comparing. Bare and bare stay bare (of one home); bare beside a length takes its file's
 * unit, beside an angle degrees, beside a ratio it is a ratio; beside anything else it is refused.
 */
export const matched = (a: NumberValue, b: NumberValue, doing: string, at: At, reading: Reading): Pair | undefined => {
  if (a.bare && b.bare) {
    const nought = (a.value === 0 && a.home === undefined) || (b.value === 0 && b.home === undefined);
    if (!agree(a, b, nought, at, reading)) return undefined;
    const home = a.home ?? b.home;
    return { a: a.value, b: b.value, dim: plain, bare: true, ...(home === undefined ? {} : { home }) };
  }
  if (sameDimension(a.dim, b.dim) && (a.bare === b.bare || isPlain(a.bare ? b.dim : a.dim)))
    return { a: a.value, b: b.value, dim: a.dim, bare: false };
  if (a.bare !== b.bare) {
    const dim = a.bare ? b.dim : a.dim;
    const bare = a.bare ? a : b;
    const bareAt = a.bare ? at.left : at.right;
    const taken = sameDimension(dim, length)
      ? bareLength(bare.value, bare, bareAt, reading)
      : sameDimension(dim, angle)
        ? bare.value * degree
        : undefined;
    if (taken !== undefined) return { a: a.bare ? taken : a.value, b: b.bare ? taken : b.value, dim, bare: false };
    if (sameDimension(dim, length)) return undefined;
    reading.sink.report(
      at.span,
      'unit/wrong-kind',
      `${wordsAt(reading.names.tree, bareAt)} has no unit and can't be ${doing} ${dimensionInWords(dim)} (${wordsAt(reading.names.tree, a.bare ? at.right : at.left)}). Write its unit.`,
    );
    return undefined;
  }
  const text = reading.names.tree;
  reading.sink.report(
    at.span,
    'unit/wrong-kind',
    `${dimensionInWords(a.dim)} (${wordsAt(text, at.left)}) can't be ${doing} ${dimensionInWords(b.dim)} (${wordsAt(text, at.right)}). Both sides must be ${dimensionsInWords(a.dim)} or both ${dimensionsInWords(b.dim)}.`.replace(
      /^./,
      (letter) => letter.toUpperCase(),
    ),
  );
  return undefined;
};

const doingWords: Readonly<Record<'+' | '-', string>> = { '+': 'added to', '-': 'joined by − with' };

/** Anything but numbers and points in a sum. */
const refuse = (op: string, a: Value, b: Value, at: At, reading: Reading, cure: string): Value => {
  const text = reading.names.tree;
  reading.sink.report(
    at.span,
    'unit/wrong-kind',
    `${op} can't stand between ${valueInWords(a)} (${wordsAt(text, at.left)}) and ${valueInWords(b)} (${wordsAt(text, at.right)}). ${cure}`,
  );
  return unknown;
};

const add = (op: '+' | '-', a: Value, b: Value, at: At, reading: Reading): Value => {
  const sign = op === '+' ? 1 : -1;
  if (a.kind === 'number' && b.kind === 'number') {
    const pair = matched(a, b, doingWords[op], at, reading);
    if (pair === undefined) return unknown;
    const { dim, bare } = pair;
    return { kind: 'number', value: pair.a + sign * pair.b, dim, bare, ...(pair.home === undefined ? {} : { home: pair.home }) };
  }
  if (a.kind === 'point' && b.kind === 'point') {
    const pair = matchedPoints(a, b, at, reading);
    if (pair === undefined) return unknown;
    return { ...pair.shared, x: pair.a.x + sign * pair.b.x, y: pair.a.y + sign * pair.b.y };
  }
  if (a.kind === 'point' || b.kind === 'point') return refuse(op, a, b, at, reading, 'A point moves by a point: p + (1, 0).');
  return refuse(op, a, b, at, reading, 'Only numbers and points can be added.');
};

interface PointPair {
  readonly a: PointValue;
  readonly b: PointValue;
  readonly shared: PointValue;
}
const matchedPoints = (a: PointValue, b: PointValue, at: At, reading: Reading): PointPair | undefined => {
  if (a.bare && b.bare) {
    const nought = (v: PointValue): boolean => v.x === 0 && v.y === 0 && v.home === undefined;
    if (!agree(a, b, nought(a) || nought(b), at, reading)) return undefined;
    const home = a.home ?? b.home;
    return { a, b, shared: { kind: 'point', x: 0, y: 0, bare: true, ...(home === undefined ? {} : { home }) } };
  }
  const pa = a.bare ? pointInMillimetres(a, at.left, reading) : a;
  const pb = b.bare ? pointInMillimetres(b, at.right, reading) : b;
  if (pa === undefined || pb === undefined) return undefined;
  return { a: pa, b: pb, shared: { kind: 'point', x: 0, y: 0, bare: false } };
};
export const pointInMillimetres = (p: PointValue, span: Span, reading: Reading): PointValue | undefined => {
  if (!p.bare) return p;
  const one = bareLength(1, p, span, reading);
  return one === undefined ? undefined : { kind: 'point', x: p.x * one, y: p.y * one, bare: false };
};

const multiply = (a: Value, b: Value, at: At, reading: Reading): Value => {
  if (a.kind === 'number' && b.kind === 'number') {
    const loose = (a.bare || isPlain(a.dim)) && (b.bare || isPlain(b.dim)) && (a.bare || b.bare);
    if (loose)
      return { kind: 'number', value: a.value * b.value, dim: plain, bare: true, ...mergedHome(a.bare ? a : {}, b.bare ? b : {}, reading) };
    return quantity(a.value * b.value, combine(a.dim, b.dim, 1));
  }
  if (a.kind === 'point' && b.kind === 'number') return scale(a, b.value, b, '*', at, reading);
  if (a.kind === 'number' && b.kind === 'point') return scale(b, a.value, a, '*', at, reading);
  return refuse('*', a, b, at, reading, 'Only numbers can be multiplied, and a point by a plain number.');
};

const scale = (p: PointValue, factor: number, by: NumberValue, op: string, at: At, reading: Reading): Value => {
  if (!by.bare && !isPlain(by.dim)) return refuse(op, p, by, at, reading, 'A point is scaled by a plain number.');
  const home = p.bare ? mergedHome(p, by.bare ? by : {}, reading) : {};
  return { kind: 'point', x: p.x * factor, y: p.y * factor, bare: p.bare, ...home };
};

const divide = (a: Value, b: Value, at: At, reading: Reading): Value => {
  if (b.kind === 'number' && b.value === 0) {
    const words = wordsAt(reading.names.tree, at.right);
    reading.sink.report(at.right, 'number/divided-by-nought', `${words === '0' ? 'N' : `${words} is 0, and n`}othing can be divided by 0.`);
    return unknown;
  }
  if (a.kind === 'number' && b.kind === 'number') {
    const loose = (a.bare || isPlain(a.dim)) && (b.bare || isPlain(b.dim)) && (a.bare || b.bare);
    if (loose)
      return { kind: 'number', value: a.value / b.value, dim: plain, bare: true, ...mergedHome(a.bare ? a : {}, b.bare ? b : {}, reading) };
    return quantity(a.value / b.value, combine(a.dim, b.dim, -1));
  }
  if (a.kind === 'point' && b.kind === 'number') return scale(a, 1 / b.value, b, '/', at, reading);
  return refuse('/', a, b, at, reading, 'Only numbers can be divided, and a point by a plain number.');
};

const raise = (a: Value, b: Value, at: At, reading: Reading): Value => {
  if (a.kind !== 'number' || b.kind !== 'number') return refuse('^', a, b, at, reading, 'Only numbers can be raised.');
  if (!b.bare && !isPlain(b.dim)) return refuse('^', a, b, at, reading, 'A power is a plain number: 3 in ^ 2.');
  if (a.bare) return { ...a, value: a.value ** b.value };
  return quantity(a.value ** b.value, combine(plain, a.dim, b.value));
};

const compare = (op: BinaryOp, a: Value, b: Value, at: At, reading: Reading): Value => {
  if (a.kind === 'number' && b.kind === 'number') {
    const pair = matched(a, b, 'compared with', at, reading);
    if (pair === undefined) return unknown;
    return yesno(holds(op, pair.a - pair.b, toleranceOf(pair, reading)));
  }
  if (op === '=' || op === '!=') {
    const same = sameThing(a, b, at, reading);
    if (same === 'unknown') return unknown;
    if (same !== undefined) return yesno(same === (op === '='));
  }
  const cure =
    op === '=' || op === '!='
      ? 'Compare two of the same kind.'
      : a.kind === 'yesno'
        ? 'Say it in two: a <= b and b <= c.'
        : 'Only numbers are more or less than one another.';
  return refuse(op, a, b, at, reading, cure);
};
const sameThing = (a: Value, b: Value, at: At, reading: Reading): boolean | 'unknown' | undefined => {
  if (a.kind === 'text' && b.kind === 'text') return a.text === b.text;
  if (a.kind === 'yesno' && b.kind === 'yesno') return a.yes === b.yes;
  if (a.kind !== 'point' || b.kind !== 'point') return undefined;
  const pair = matchedPoints(a, b, at, reading);
  if (pair === undefined) return 'unknown';
  const tolerance = toleranceOf({ dim: length, bare: pair.shared.bare, home: pair.shared.home }, reading);
  return Math.hypot(pair.a.x - pair.b.x, pair.a.y - pair.b.y) <= tolerance;
};
const toleranceOf = (pair: { dim: Dimension; bare: boolean; home?: string }, reading: Reading): number => {
  // A bare number may be a length: the same thousandth of a millimetre, in its unit.
  if (pair.bare) return sameLength / (unitOfFile(pair.home ?? reading.names.path, reading)?.mm ?? 1000);
  return sameDimension(pair.dim, length) ? sameLength : sameDimension(pair.dim, angle) ? sameAngle : 1e-9;
};
/** Room for what floating point leaves behind: 4 mm + 0.001 mm and 4.001 mm are still the same. */
const holds = (op: BinaryOp, difference: number, tolerance: number): boolean => {
  const near = Math.abs(difference) <= tolerance * (1 + 1e-6);
  switch (op) {
    case '=':
      return near;
    case '!=':
      return !near;
    case '<':
      return difference < 0 && !near;
    case '<=':
      return difference < 0 || near;
    case '>':
      return difference > 0 && !near;
    default:
      return difference > 0 || near;
  }
};

/** One operator between two worked-out values. Anything unknown gives unknown, in silence. */
export const operate = (op: BinaryOp, a: Value, b: Value, at: At, reading: Reading): Value => {
  if (a.kind === 'unknown' || b.kind === 'unknown') return unknown;
  switch (op) {
    case '+':
    case '-':
      return finite(add(op, a, b, at, reading), at, reading);
    case '*':
      return finite(multiply(a, b, at, reading), at, reading);
    case '/':
      return finite(divide(a, b, at, reading), at, reading);
    case '^':
      return finite(raise(a, b, at, reading), at, reading);
    case 'and':
    case 'or':
      if (a.kind !== 'yesno' || b.kind !== 'yesno') return refuse(op, a, b, at, reading, 'Both sides must be conditions, such as a <= b.');
      return yesno(op === 'and' ? a.yes && b.yes : a.yes || b.yes);
    default:
      return compare(op, a, b, at, reading);
  }
};

const finite = (value: Value, at: At, reading: Reading): Value => {
  const good =
    value.kind === 'number'
      ? Number.isFinite(value.value)
      : value.kind !== 'point' || (Number.isFinite(value.x) && Number.isFinite(value.y));
  if (good) return value;
  reading.sink.report(
    at.span,
    'number/out-of-range',
    `${wordsAt(reading.names.tree, { start: at.left.start, end: at.right.end })} has no real answer, or one too great to write.`,
  );
  return unknown;
};

/** `.x` and `.y` of a point. */
export const memberOf = (value: Value, name: Ident, of: Span, reading: Reading): Value => {
  if (value.kind === 'unknown') return value;
  if (value.kind === 'point' && (name.name === 'x' || name.name === 'y')) {
    const { bare, home, mixed } = value;
    const amount = name.name === 'x' ? value.x : value.y;
    if (!bare) return quantity(amount, length);
    return { ...bareNumber(amount), ...(home === undefined ? {} : { home }), ...(mixed === undefined ? {} : { mixed }) };
  }
  const said =
    value.kind === 'point'
      ? `A point has x and y, not ${name.name}.`
      : `${wordsAt(reading.names.tree, of)} is ${valueInWords(value)}; only points have .x and .y.`;
  reading.sink.report(name.span, 'name/unknown-property', said);
  return unknown;
};
