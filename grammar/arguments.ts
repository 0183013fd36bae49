/** Takes words, names and sizes from the tokens and makes arguments of them. */
import type { IToken } from 'chevrotain';
import type { Header, Reader } from './reader.js';
import type { Argument, Ident, Span } from './syntax.js';
import {
  CloseBrace,
  Comma,
  Cursor,
  DotStep,
  endOf,
  Fraction,
  is,
  isNumber,
  isWord,
  NewLine,
  Open,
  OpenBrace,
  Semicolon,
  touching,
  unitName,
  Word,
} from './tokens.js';
import { tableSpelling } from './vocabulary/units.js';

export type WritableFields = Record<string, Argument>;

export const spanOf = (token: IToken): Span => ({ start: token.startOffset, end: endOf(token) });
export const identOf = (token: IToken): Ident => ({ span: spanOf(token), name: token.image });
export const isEnd = (token: IToken): boolean => is(token, NewLine) || is(token, Semicolon) || is(token, CloseBrace) || is(token, Cursor);
/** The token is the word, in either spelling; `×` is `by`. */
export const sameWord = (token: IToken, wanted: string): boolean =>
  isWord(token) ? token.image === wanted || tableSpelling(token.image) === wanted : wanted === 'by' && token.image === '×';

/** A field given a second time keeps its first value. */
export const record = (fields: WritableFields, field: string, argument: Argument): void => {
  if (!Object.hasOwn(fields, field)) fields[field] = argument;
};

export const takeWord = (reader: Reader): IToken => {
  const token = reader.take();
  (reader.header as Header).words.push(spanOf(token));
  return token;
};

/** Name and property steps: `bench.crs_18`, `top.2`. The first is next. */
export const takePath = (reader: Reader): Ident[] => {
  const path = [identOf(reader.take())];
  for (let step = reader.ahead(1); is(step, DotStep) && touching(reader.ahead(0), step); step = reader.ahead(1)) {
    reader.take();
    if (step.image.length === 1) reader.report(spanOf(step), 'text/missing-name', 'A name is wanted after this point.');
    path.push({ span: { start: step.startOffset + 1, end: endOf(step) }, name: step.image.slice(1) });
  }
  return path;
};
export const nameArgument = (path: readonly Ident[]): Argument => ({
  kind: 'name',
  span: { start: (path[0] as Ident).span.start, end: (path.at(-1) as Ident).span.end },
  path,
});

/** `M6  M8x1  1/4-20  #8-32  #30  F  5.1 mm  1 1/4`: the tokens that touch, and a spaced fraction or unit of length. */
export const takeSize = (reader: Reader, fields: WritableFields, field: string): void => {
  const first = reader.take();
  let last = first;
  for (
    let next = reader.ahead(1);
    touching(last, next) && !isEnd(next) && !is(next, Comma) && !is(next, OpenBrace) && !is(next, Open);
    next = reader.ahead(1)
  ) {
    last = reader.take();
  }
  const next = reader.ahead(1);
  if (isNumber(first) && is(next, Fraction)) last = reader.take();
  const after = reader.ahead(1);
  if (isNumber(last) && is(after, Word) && (unitName(after.image) === 'mm' || unitName(after.image) === 'in')) last = reader.take();
  const span = { start: first.startOffset, end: endOf(last) };
  record(fields, field, { kind: 'size', span, value: reader.text.slice(span.start, span.end) });
};
