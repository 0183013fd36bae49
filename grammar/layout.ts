/** Which line breaks end a statement. The rest are taken out, in place, so that the parser sees a break only where one counts. */
import { createTokenInstance, type IToken } from 'chevrotain';
import { mendBraces } from './braces.js';
import { blockWords, statementWords, topWords } from './compiled.js';
import type { Problem } from './syntax.js';
import {
  Close, CloseBrace, Comma, is, isNumber, isOperator, isWord, NewLine, Open, OpenBrace, Reserved, type Scan, Semicolon, Text, touching, WideWord, Word,
} from './tokens.js';

export interface Layout {
  readonly tokens: IToken[];
  readonly problems: readonly Problem[];
}

/** A token that stands for something not written, at an offset. */
export const unwritten = (type: typeof Word, offset: number): IToken =>
  createTokenInstance(type, '', offset, offset - 1, Number.NaN, Number.NaN, Number.NaN, Number.NaN);

// Scanning for the `)` of a bracket gives up after so many tokens, so that a file full of open brackets stays quick.
const farthestClose = 1000;

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

/** Where the bracket open at a line break is closed, or -1 when a statement or a brace comes first. */
const closingBracket = (tokens: readonly IToken[], from: number, depth: number): number => {
  let open = depth;
  const last = Math.min(tokens.length, from + farthestClose);
  for (let i = from; i < last; i++) {
    const token = tokens[i] as IToken;
    if (is(token, Open)) open++;
    else if (is(token, Close)) {
      if (--open === 0) return i;
    } else if (is(token, OpenBrace) || is(token, CloseBrace) || is(token, Semicolon)) return -1;
    else if (is(token, NewLine) && startsStatement(tokens, i + 1)) return -1;
  }
  return -1;
};

const needsMending = (tokens: readonly IToken[]): boolean => {
  let depth = 0;
  let before: IToken | undefined;
  for (const token of tokens) {
    if (is(token, OpenBrace)) depth++;
    else if (is(token, CloseBrace)) {
      if (--depth < 0) return true;
    } else if (depth > 0 && before !== undefined && is(before, NewLine) && touching(before, token) && topWords.has(token.image)) return true;
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
  let closedUntil = -1;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as IToken;
    if (is(token, NewLine)) {
      if (depth > 0) {
        if (i < closedUntil) continue;
        closedUntil = closingBracket(tokens, i, depth);
        if (closedUntil >= 0) continue;
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
    } else if (is(token, Open)) depth++;
    else if (is(token, Close)) depth = depth > 0 ? depth - 1 : 0;
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
