/** Which line breaks end a statement. The rest are taken out, in place, so that the parser sees a break only where one counts. */
import { createTokenInstance, type IToken } from 'chevrotain';
import { mendBraces } from './braces.js';
import { blockWords, statementWords, topWords } from './compiled.js';
import type { Problem } from './syntax.js';
import {
  Close,
  CloseBrace,
  Comma,
  is,
  isNumber,
  isOperator,
  isWord,
  NewLine,
  Open,
  OpenBrace,
  Reserved,
  type Scan,
  Semicolon,
  Text,
  touching,
  WideWord,
  Word,
} from './tokens.js';

export interface Layout {
  readonly tokens: IToken[];
  readonly problems: readonly Problem[];
}

/** A token that stands for something not written, at an offset. */
export const unwritten = (type: typeof Word, offset: number): IToken =>
  createTokenInstance(type, '', offset, offset - 1, Number.NaN, Number.NaN, Number.NaN, Number.NaN);

/** A word that begins a line and, by what follows it, can only begin a statement there. */
const startsStatement = (tokens: readonly IToken[], at: number): boolean => {
  const token = tokens[at];
  if (token === undefined) return false;
  if (is(token, Reserved)) return true;
  if (!is(token, Word) || !statementWords.has(token.image)) return false;
  const next = tokens[at + 1];
  if (next === undefined) return false;
  if (is(next, OpenBrace)) return blockWords.has(token.image);
  return isNumber(next) || is(next, Text) || (isWord(next) && !isOperator(next)) || (is(next, Open) && !touching(token, next));
};

/** Brackets that are closed in a later line, before a statement or a brace comes: their offsets in the token list. */
const closedLater = (tokens: readonly IToken[]): ReadonlySet<number> => {
  const found = new Set<number>();
  const open: number[] = [];
  // So many of the open brackets have a line break behind them.
  let crossed = 0;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as IToken;
    if (is(token, Open)) open.push(i);
    else if (open.length === 0) continue;
    else if (is(token, Close)) {
      if (open.length <= crossed) {
        found.add(open.at(-1) as number);
        crossed = open.length - 1;
      }
      open.pop();
    } else if (is(token, NewLine) && !startsStatement(tokens, i + 1)) crossed = open.length;
    else if (is(token, NewLine) || is(token, OpenBrace) || is(token, CloseBrace) || is(token, Semicolon)) {
      open.length = 0;
      crossed = 0;
    }
  }
  return found;
};

const needsMending = (tokens: readonly IToken[]): boolean => {
  let depth = 0;
  let before: IToken | undefined;
  for (const token of tokens) {
    if (is(token, OpenBrace)) depth++;
    else if (is(token, CloseBrace)) {
      if (--depth < 0) return true;
    } else if (depth > 0 && before !== undefined && is(before, NewLine) && touching(before, token) && topWords.has(token.image))
      return true;
    before = token;
  }
  return depth !== 0;
};

/** Settles braces and line breaks. The tokens of the scan are used up. */
export const layOut = (text: string, scanned: Scan): Layout => {
  let tokens = scanned.tokens;
  let problems: readonly Problem[] = [];
  if (needsMending(tokens)) {
    const mended = mendBraces(text, tokens);
    tokens = mended.tokens;
    problems = mended.problems;
  }
  let kept = 0;
  let depth = 0;
  let outermost = -1;
  const later = closedLater(tokens);
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as IToken;
    if (is(token, NewLine)) {
      if (depth > 0) {
        if (later.has(outermost)) continue;
        depth = 0;
      }
      const before = tokens[kept - 1];
      if (kept === 0 || before === undefined || is(before, NewLine) || is(before, OpenBrace) || is(before, Semicolon)) continue;
      let next = i + 1;
      while (next < tokens.length && is(tokens[next] as IToken, NewLine)) next++;
      const after = tokens[next];
      if (after !== undefined) {
        if (is(after, OpenBrace)) continue;
        if ((is(before, Comma) || isOperator(before)) && !is(after, CloseBrace) && !startsStatement(tokens, next)) continue;
      }
    } else if (is(token, Open)) {
      if (depth++ === 0) outermost = i;
    } else if (is(token, Close)) depth = depth > 0 ? depth - 1 : 0;
    else if (is(token, OpenBrace) || is(token, CloseBrace) || is(token, Semicolon)) depth = 0;
    else if (is(token, WideWord)) {
      token.tokenType = Word;
      token.tokenTypeIdx = Word.tokenTypeIdx as number;
    }
    tokens[kept++] = token;
  }
  tokens.length = kept;
  const last = tokens[kept - 1];
  if (last === undefined || !is(last, NewLine)) tokens.push(unwritten(NewLine, text.length));
  return { tokens, problems };
};
