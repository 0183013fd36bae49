/** Arguments of statements as plain numbers: the right kind, within its limits, or a finding at the argument's own words. */
import type { Argument, Expr, Ident, Span, Statement } from '../../grammar/syntax.js';
import type { ValueKind } from '../../grammar/vocabulary/pattern.js';
import { tableSpelling } from '../../grammar/vocabulary/units.js';
import { bareLength, pointInMillimetres } from './arithmetic.js';
import { angle, dimensionOf, isPlain, sameDimension, sampleOf, valueInWords, wantedInWords } from './dimension.js';
import { sayAngle, sayLength } from './display.js';
import { evaluate } from './evaluate.js';
import type { XY } from './part.js';
import { type Reading, wordsAt } from './reading.js';
import type { Value } from './values.js';

/** A reading that also hears when something needed can't be had. */
export interface Reader {
  readonly reading: Reading;
  /** Something the geometry stands on is missing. */
  readonly fail: () => void;
}

const degree = Math.PI / 180;

/** A value as the kind wanted, in base units; undefined, and said, when it is another kind. */
export const asNumber = (value: Value, want: ValueKind, span: Span, reading: Reading): number | undefined => {
  if (value.kind === 'unknown') return undefined;
  const dim = dimensionOf(want);
  const words = wordsAt(reading.names.tree, span);
  if (value.kind !== 'number' || dim === undefined) {
    reading.sink.report(
      span,
      'unit/wrong-kind',
      `${wantedInWords(want)} is wanted here, and ${words} is ${valueInWords(value)}.`.replace(/^a/, 'A'),
    );
    return undefined;
  }
  if (value.bare) {
    if (want === 'length') return bareLength(value.value, value, span, reading);
    if (sameDimension(dim, angle)) return value.value * degree;
    if (isPlain(dim) || want === 'money') return value.value;
    reading.sink.report(
      span,
      'unit/bare-number',
      `${wantedInWords(want)} is wanted here, and ${words} has no unit. Write it with one, such as ${sampleOf(want)}.`.replace(/^a/, 'A'),
    );
    return undefined;
  }
  if (sameDimension(value.dim, dim)) return value.value;
  const cure = isPlain(dim)
    ? 'Leave the unit off.'
    : `Write it as ${wantedInWords(want)}, such as ${want === 'pressure' ? sampleOf('stress') : sampleOf(want)}.`;
  reading.sink.report(
    span,
    'unit/wrong-kind',
    `${wantedInWords(want)} is wanted here, and ${words} is ${valueInWords(value)}. ${cure}`.replace(/^a/, 'A'),
  );
  return undefined;
};

/** ", not 3" for a written number, ", and w - 2 is 3" for anything worked out. */
const butIs = (reading: Reading, span: Span, said: string): string => {
  const words = wordsAt(reading.names.tree, span);
  return /^[-−]?\s*[\d./ ]+$/.test(words) || words === said ? `, not ${said}` : `, and ${words} is ${said}`;
};

export const exprOf = (argument: Argument | undefined): Expr | undefined => (argument?.kind === 'value' ? argument.value : undefined);

export type Limit = 'any' | 'more than 0' | 'not less than 0';

const outOfLimit = (value: number, limit: Limit): boolean =>
  limit === 'more than 0' ? !(value > 0) : limit === 'not less than 0' ? value < 0 : false;

/** Reads one field. Absent: undefined without a word. `what` names it in messages: "the flange's length". */
const readField = (
  reader: Reader,
  statement: Statement,
  field: string,
  want: ValueKind,
): { readonly value: number; readonly span: Span } | undefined => {
  const argument = statement.fields[field];
  if (argument === undefined) return undefined;
  const expr = exprOf(argument);
  const value = expr === undefined ? undefined : asNumber(evaluate(expr, reader.reading), want, argument.span, reader.reading);
  if (value === undefined) {
    reader.fail();
    return undefined;
  }
  return { value, span: argument.span };
};

const limited = (
  reader: Reader,
  read: { readonly value: number; readonly span: Span } | undefined,
  what: string,
  limit: Limit,
  say: (value: number) => string,
): number | undefined => {
  if (read === undefined) return undefined;
  if (!outOfLimit(read.value, limit)) return read.value;
  const must = limit === 'more than 0' ? 'more than 0' : '0 or more';
  reader.reading.sink.report(
    read.span,
    'number/out-of-range',
    `${what} must be ${must}${butIs(reader.reading, read.span, say(read.value))}.`,
  );
  reader.fail();
  return undefined;
};

/** A length, mm. */
export const lengthField = (
  reader: Reader,
  statement: Statement,
  field: string,
  what: string,
  limit: Limit = 'more than 0',
): number | undefined =>
  limited(reader, readField(reader, statement, field, 'length'), what, limit, (mm) => sayLength(mm, reader.reading.names.units));

/** Any number in base units, of a kind that is neither length nor angle. */
export const numberField = (
  reader: Reader,
  statement: Statement,
  field: string,
  want: ValueKind,
  what: string,
  limit: Limit = 'any',
): number | undefined =>
  limited(reader, readField(reader, statement, field, want), what, limit, (value) => String(Number(value.toPrecision(6))));

/** An angle, rad. `turn` must lie between 0° and 180°, both left out. */
export const angleField = (
  reader: Reader,
  statement: Statement,
  field: string,
  what: string,
  limit: 'any' | 'turn' = 'any',
): number | undefined => {
  const read = readField(reader, statement, field, 'angle');
  if (read === undefined) return undefined;
  if (limit === 'any' || (read.value > 0 && read.value < Math.PI - 1e-12)) return read.value;
  reader.reading.sink.report(
    read.span,
    'number/out-of-range',
    `${what} is how far the sheet turns from flat: more than 0° and less than 180°${butIs(reader.reading, read.span, sayAngle(read.value))}.`,
  );
  reader.fail();
  return undefined;
};

/** A whole number from `least` to `most`. */
export const countField = (
  reader: Reader,
  statement: Statement,
  field: string,
  what: string,
  least = 1,
  most = 10_000,
): number | undefined => {
  const read = readField(reader, statement, field, 'count');
  if (read === undefined) return undefined;
  const whole = Math.round(read.value);
  const but = (value: number): string => butIs(reader.reading, read.span, String(Number(value.toPrecision(6))));
  const fault =
    Math.abs(read.value - whole) > 1e-9
      ? `${what} must be a whole number${but(read.value)}.`
      : whole < least
        ? `${what} must be ${least} or more${but(whole)}.`
        : whole > most
          ? `${what} can be ${most} at most${but(whole)}.`
          : undefined;
  if (fault === undefined) return whole;
  reader.reading.sink.report(read.span, 'number/out-of-range', fault);
  reader.fail();
  return undefined;
};

/** A point, mm, from one argument. */
export const pointOf = (reader: Reader, argument: Argument | undefined): { readonly at: XY; readonly span: Span } | undefined => {
  const expr = exprOf(argument);
  if (argument === undefined || expr === undefined) return undefined;
  const { reading } = reader;
  const value = evaluate(expr, reading);
  if (value.kind === 'point') {
    const mm = pointInMillimetres(value, argument.span, reading);
    if (mm !== undefined) return { at: { x: mm.x, y: mm.y }, span: argument.span };
  } else if (value.kind !== 'unknown') {
    reading.sink.report(
      argument.span,
      'unit/wrong-kind',
      `A point is wanted here, such as (3, 4), and ${wordsAt(reading.names.tree, argument.span)} is ${valueInWords(value)}.`,
    );
  }
  reader.fail();
  return undefined;
};
export const pointField = (reader: Reader, statement: Statement, field: string): XY | undefined =>
  pointOf(reader, statement.fields[field])?.at;

/** A word the statement chose, in the tables' spelling. */
export const wordField = (statement: Statement, field: string): string | undefined => {
  const argument = statement.fields[field];
  return argument?.kind === 'word' ? tableSpelling(argument.word) : undefined;
};
export const textField = (statement: Statement, field: string): string | undefined => {
  const argument = statement.fields[field];
  return argument?.kind === 'text' ? argument.value : undefined;
};
/** The name a statement brings into being. */
export const newNameField = (statement: Statement, field: string): Ident | undefined => {
  const argument = statement.fields[field];
  return argument?.kind === 'newName' ? argument.name : undefined;
};
/** A name that refers; one step or several. */
export const pathOf = (argument: Argument | undefined): readonly Ident[] | undefined => {
  if (argument?.kind === 'name') return argument.path;
  return undefined;
};
export const itemsOf = (argument: Argument | undefined): readonly Argument[] =>
  argument?.kind === 'list' ? argument.items : argument === undefined ? [] : [argument];
export const spanOfPath = (path: readonly Ident[]): Span => ({
  start: path[0]?.span.start ?? 0,
  end: path[path.length - 1]?.span.end ?? 0,
});
