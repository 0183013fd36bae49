/**
 * The formatter. Lines stay the lines they were; what changes is the blank at their start, between their words and at their end.
 * Nothing is joined, split, reordered or rewritten, so that a comment is as safe as a size.
 */
import { createTokenInstance, type IToken } from 'chevrotain';
import { layOut } from './layout.js';
import { parse } from './parser.js';
import type { Span, Statement, Tree } from './syntax.js';
import {
  Close,
  CloseBrace,
  Comma,
  Comment,
  Diameter,
  DotStep,
  endOf,
  Hash,
  is,
  isOperator,
  NewLine,
  Open,
  OpenBrace,
  Semicolon,
  scan,
  touching,
} from './tokens.js';
import { walkArguments, walkExpressions, walkStatements } from './walk.js';

const indentWidth = 2;

/** What the blank between two tokens depends on and only the tree knows. */
interface Reading {
  /** Numbers and sizes: the blank within stays, at most one. */
  readonly wholes: readonly Span[];
  /** Offsets of signs before a single value. */
  readonly prefixes: ReadonlySet<number>;
  /** Ends of names that are called: the bracket touches. */
  readonly calls: ReadonlySet<number>;
  /** Offsets where a statement begins. */
  readonly heads: ReadonlySet<number>;
  /** What nobody could understand: left as it is. */
  readonly broken: readonly Span[];
}

const readingOf = (tree: Tree): Reading => {
  const wholes: Span[] = [];
  const prefixes = new Set<number>();
  const calls = new Set<number>();
  const heads = new Set<number>();
  const broken: Span[] = tree.problems.map((problem) => problem.span);
  walkStatements(tree, (statement: Statement) => {
    heads.add(statement.span.start);
    if (statement.broken) broken.push({ start: statement.span.start, end: statement.block?.span.start ?? statement.span.end });
    walkExpressions(statement, (expr) => {
      if (expr.kind === 'number') wholes.push(expr.span);
      else if (expr.kind === 'unary') prefixes.add(expr.opSpan.start);
      else if (expr.kind === 'call') calls.add(expr.name.span.end);
    });
    walkArguments(statement.fields, (argument) => {
      if (argument.kind === 'size') wholes.push(argument.span);
    });
  });
  return { wholes: wholes.sort((a, b) => a.start - b.start), prefixes, calls, heads, broken: broken.sort((a, b) => a.start - b.start) };
};

/** The first span that ends after an offset, of spans in order that do not overlap. */
const spanAfter = (spans: readonly Span[], offset: number): Span | undefined => {
  let low = 0;
  let high = spans.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((spans[middle] as Span).end <= offset) low = middle + 1;
    else high = middle;
  }
  return spans[low];
};
const inOneWhole = (reading: Reading, before: IToken, after: IToken): boolean => {
  const span = spanAfter(reading.wholes, before.startOffset);
  return span !== undefined && span.start <= before.startOffset && endOf(after) <= span.end;
};

const between = (reading: Reading, before: IToken, after: IToken): string => {
  if (is(after, Comment)) return '  ';
  if (is(after, DotStep)) return '';
  if (inOneWhole(reading, before, after)) return touching(before, after) ? '' : ' ';
  if (is(before, OpenBrace) && is(after, CloseBrace)) return '';
  if (is(after, Comma) || is(after, Semicolon) || is(after, Close) || is(before, Open) || is(before, Diameter)) return '';
  if (isOperator(before) && reading.prefixes.has(before.startOffset) && before.image !== 'not') return '';
  if (is(after, Open) && reading.calls.has(endOf(before))) return '';
  return ' ';
};

interface Line {
  readonly tokens: readonly IToken[];
  /** Blank lines above it. */
  readonly gap: boolean;
}

/** Tokens, comments and stray characters of each line that has any. */
const linesOf = (text: string): Line[] => {
  const scanned = scan(text);
  const strays = scanned.strays.map((s) => createTokenInstance(Hash, text.slice(s.start, s.end), s.start, s.end, 0, 0, 0, 0));
  const all = [...scanned.tokens, ...scanned.comments, ...strays].sort((a, b) => a.startOffset - b.startOffset);
  const lines: Line[] = [];
  let tokens: IToken[] = [];
  let gap = false;
  let breaks = 0;
  const finish = (): void => {
    if (tokens.length > 0) lines.push({ tokens, gap });
    tokens = [];
  };
  for (const token of all) {
    if (!is(token, NewLine)) {
      if (tokens.length === 0) gap = breaks > 1;
      tokens.push(token);
      breaks = 0;
      continue;
    }
    finish();
    breaks += token.image.match(/\r\n|\r|\n/g)?.length ?? 0;
  }
  finish();
  return lines;
};

/** Offsets of the line breaks that end a statement. */
const countedBreaks = (text: string): ReadonlySet<number> =>
  new Set(
    layOut(text, scan(text))
      .tokens.filter((t) => is(t, NewLine))
      .map((t) => t.startOffset),
  );

const isBroken = (broken: readonly Span[], start: number, end: number): boolean =>
  broken.some((span) => span.start < end && (span.end > start || span.start === start));

const lineStart = (text: string, offset: number): number =>
  Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
const lineEnd = (text: string, offset: number): number => {
  const rest = text.slice(offset).search(/[\r\n]/);
  return rest < 0 ? text.length : offset + rest;
};

const printed = (text: string, tree: Tree): string => {
  const reading = readingOf(tree);
  const counted = countedBreaks(text);
  const newLine = text.includes('\r\n') ? '\r\n' : '\n';
  const out: string[] = [];
  let depth = 0;
  let brackets = 0;
  let continues = false;
  for (const { tokens, gap } of linesOf(text)) {
    const first = tokens[0] as IToken;
    const last = tokens.at(-1) as IToken;
    let closers = 0;
    while (closers < tokens.length && is(tokens[closers] as IToken, CloseBrace)) closers++;
    const opensOnly = is(first, OpenBrace);
    const step = Math.max(0, depth - closers) + (continues && closers === 0 && !opensOnly && !(is(first, Close) && brackets > 0) ? 1 : 0);
    if (gap && out.length > 0) out.push('');
    if (isBroken(reading.broken, first.startOffset, endOf(last))) {
      const start = lineStart(text, first.startOffset);
      out.push(text.slice(start, lineEnd(text, endOf(last))));
    } else {
      let line = ' '.repeat(step * indentWidth) + first.image.trimEnd();
      for (let i = 1; i < tokens.length; i++) {
        line += between(reading, tokens[i - 1] as IToken, tokens[i] as IToken) + (tokens[i] as IToken).image;
      }
      out.push(line.trimEnd());
    }
    let code: IToken | undefined;
    for (const token of tokens) {
      if (is(token, OpenBrace)) depth++;
      else if (is(token, CloseBrace)) depth = Math.max(0, depth - 1);
      else if (is(token, Open)) brackets++;
      else if (is(token, Close)) brackets = Math.max(0, brackets - 1);
      if (!is(token, Comment)) code = token;
    }
    if (code !== undefined) {
      const end = lineEnd(text, endOf(last));
      continues = !counted.has(end) && !is(code, OpenBrace) && !is(code, Semicolon) && !is(code, CloseBrace);
      if (!continues) brackets = 0;
    }
  }
  const start = text.startsWith('\ufeff') ? '\ufeff' : '';
  return out.length === 0 ? start : start + out.join(newLine) + newLine;
};

const sameTokens = (a: string, b: string): boolean => {
  const one = layOut(a, scan(a)).tokens;
  const two = layOut(b, scan(b)).tokens;
  return (
    one.length === two.length &&
    one.every(
      (token, i) =>
        token.tokenTypeIdx === (two[i] as IToken).tokenTypeIdx && (is(token, NewLine) || token.image === (two[i] as IToken).image),
    )
  );
};

/**
 * Formats a whole file: two blanks for each brace, one between words and around operators, one blank line at most. Comments, notes and numbers stay
 * as written, and so does a line with a problem in it. Braces that do not come out even leave the file as it is, since its indentation
 * then tells what was meant. Formatting twice changes nothing more.
 */
export const format = (text: string): string => {
  const tree = parse(text);
  if (tree.problems.some((problem) => problem.rule === 'text/missing-brace' || problem.rule === 'text/stray-brace')) return text;
  const result = printed(text, tree);
  // A text whose meaning hangs on its blanks in some way not foreseen above is better left alone.
  return sameTokens(text, result) ? result : text;
};
