/**
 * Finds the brace that is missing or too many. Only read when braces do not come out even; then the indentation, which the
 * language otherwise leaves free, is the best witness of what was meant.
 */
import { createTokenInstance, type IToken } from 'chevrotain';
import { blockWords, topWords } from './compiled.js';
import type { Problem } from './syntax.js';
import { CloseBrace, endOf, is, NewLine, OpenBrace, touching } from './tokens.js';

interface Line {
  readonly first: number;
  /** Index after the last token of the line, its line break not counted. */
  readonly end: number;
  readonly column: number;
  readonly opens: boolean;
}
interface Opened {
  readonly at: number;
  readonly column: number;
  readonly line: number;
}
interface Mended {
  readonly tokens: IToken[];
  readonly problems: Problem[];
}

const brace = (type: typeof OpenBrace, offset: number): IToken =>
  createTokenInstance(type, '', offset, offset - 1, Number.NaN, Number.NaN, Number.NaN, Number.NaN);

const columnOf = (text: string, offset: number): number => {
  let start = offset;
  while (start > 0 && text[start - 1] !== '\n' && text[start - 1] !== '\r') start--;
  return offset - start;
};

const linesOf = (text: string, tokens: readonly IToken[]): Line[] => {
  const lines: Line[] = [];
  let i = 0;
  while (i < tokens.length) {
    if (is(tokens[i] as IToken, NewLine)) {
      i++;
      continue;
    }
    const first = i;
    let opens = false;
    for (; i < tokens.length && !is(tokens[i] as IToken, NewLine); i++) opens ||= is(tokens[i] as IToken, OpenBrace);
    lines.push({ first, end: i, column: columnOf(text, (tokens[first] as IToken).startOffset), opens });
  }
  return lines;
};

const neverClosed = (open: IToken, closeAt: number): Problem => ({
  span: { start: open.startOffset, end: endOf(open) },
  rule: 'text/missing-brace',
  message: 'This { is never closed: a } is missing.',
  fixes: [{ title: 'Write the missing }', edits: [{ span: { start: closeAt, end: closeAt }, text: '\n}' }] }],
});
const neverOpened = (head: IToken, at: number): Problem => ({
  span: { start: head.startOffset, end: endOf(head) },
  rule: 'text/missing-brace',
  message: `The { of \`${head.image}\` is missing.`,
  fixes: [{ title: 'Write the missing {', edits: [{ span: { start: at, end: at }, text: ' {' }] }],
});
const closesNothing = (token: IToken): Problem => ({
  span: { start: token.startOffset, end: endOf(token) },
  rule: 'text/stray-brace',
  message: 'This } closes nothing.',
  fixes: [{ title: 'Take it out', edits: [{ span: { start: token.startOffset, end: endOf(token) }, text: '' }] }],
});

/** Puts the `}` that are missing where the indentation steps back; at the end when it does not say. */
const closeMissing = (
  tokens: readonly IToken[],
  lines: readonly Line[],
  missing: number,
  end: number,
  byIndent: boolean,
): Mended | undefined => {
  const out: IToken[] = [];
  const problems: Problem[] = [];
  const stack: Opened[] = [];
  let left = missing;
  const closeBefore = (token: IToken): void => {
    const open = tokens[(stack.pop() as Opened).at] as IToken;
    const last = out.findLast((t) => !is(t, NewLine)) ?? open;
    problems.push(neverClosed(open, endOf(last)));
    out.push(brace(CloseBrace, token.startOffset));
    left--;
  };
  for (const [number, line] of lines.entries()) {
    const head = tokens[line.first] as IToken;
    if (byIndent) {
      const closes = is(head, CloseBrace);
      while (left > 0 && stack.length > 0) {
        const top = stack.at(-1) as Opened;
        if (top.line === number) break;
        if (closes ? top.column > line.column && stack.some((s) => s.column === line.column) : top.column >= line.column) closeBefore(head);
        else break;
      }
    }
    for (let i = line.first; i < line.end; i++) {
      const token = tokens[i] as IToken;
      if (is(token, OpenBrace)) stack.push({ at: i, column: line.column, line: number });
      else if (is(token, CloseBrace) && stack.pop() === undefined) {
        if (byIndent) return undefined;
        problems.push(closesNothing(token));
        continue;
      }
      out.push(token);
    }
    const next = lines[number + 1];
    out.push(...tokens.slice(line.end, next === undefined ? tokens.length : next.first));
  }
  if (byIndent && stack.length !== left) return undefined;
  // The missing brace comes after the blank lines at the end, where someone may still be typing.
  while (stack.length > 0) {
    const open = tokens[(stack.pop() as Opened).at] as IToken;
    problems.push(neverClosed(open, endOf(tokens[(lines.at(-1) as Line).end - 1] as IToken)));
    out.push(brace(CloseBrace, end));
  }
  return { tokens: out, problems };
};

/** Puts in a `{` for a statement that takes braces, is followed by deeper lines and then by a `}` in its own column. */
const openMissing = (tokens: readonly IToken[], lines: readonly Line[], excess: number): Mended => {
  const after = new Map<number, IToken>();
  const problems: Problem[] = [];
  for (let n = 0; n + 1 < lines.length && after.size < excess; n++) {
    const line = lines[n] as Line;
    const next = lines[n + 1] as Line;
    const head = tokens[line.first] as IToken;
    if (line.opens || !blockWords.has(head.image) || next.column <= line.column) continue;
    const closing = lines.find((l, k) => k > n && l.column <= line.column);
    if (closing === undefined || closing.column !== line.column || !is(tokens[closing.first] as IToken, CloseBrace)) continue;
    const end = endOf(tokens[line.end - 1] as IToken);
    after.set(line.end - 1, brace(OpenBrace, end));
    problems.push(neverOpened(head, end));
  }
  const out: IToken[] = [];
  tokens.forEach((token, i) => {
    out.push(token);
    const put = after.get(i);
    if (put !== undefined) out.push(put);
  });
  return { tokens: out, problems };
};

/** Takes out each `}` too many: one that closes nothing, or one after which its block plainly goes on. */
const dropExcess = (tokens: readonly IToken[], lines: readonly Line[], excess: number): Mended => {
  const out: IToken[] = [];
  const problems: Problem[] = [];
  const stack: Opened[] = [];
  let left = excess;
  for (const [number, line] of lines.entries()) {
    const next = lines[number + 1];
    for (let i = line.first; i < line.end; i++) {
      const token = tokens[i] as IToken;
      if (is(token, OpenBrace)) stack.push({ at: i, column: line.column, line: number });
      else if (is(token, CloseBrace)) {
        const top = stack.at(-1);
        const goesOn =
          left > 0 &&
          top !== undefined &&
          top.line !== number &&
          i === line.end - 1 &&
          next !== undefined &&
          (next.column > top.column ||
            (next.column === top.column && line.column > top.column && is(tokens[next.first] as IToken, CloseBrace)));
        if (top === undefined || goesOn) {
          problems.push(closesNothing(token));
          left--;
          continue;
        }
        stack.pop();
      }
      out.push(token);
    }
    out.push(...tokens.slice(line.end, next === undefined ? tokens.length : next.first));
  }
  return { tokens: out, problems };
};

const balance = (tokens: readonly IToken[]): { readonly net: number; readonly dips: boolean } => {
  let net = 0;
  let dips = false;
  for (const token of tokens) {
    if (is(token, OpenBrace)) net++;
    else if (is(token, CloseBrace) && --net < 0) dips = true;
  }
  return { net, dips };
};

const mendRegion = (text: string, tokens: IToken[], end: number): Mended => {
  const { net, dips } = balance(tokens);
  if (net === 0 && !dips) return { tokens, problems: [] };
  if (net > 0) {
    const lines = linesOf(text, tokens);
    return closeMissing(tokens, lines, net, end, true) ?? (closeMissing(tokens, lines, net, end, false) as Mended);
  }
  const opened = openMissing(tokens, linesOf(text, tokens), Math.max(1, -net));
  const rest = balance(opened.tokens);
  if (rest.net === 0 && !rest.dips) return opened;
  const dropped = dropExcess(opened.tokens, linesOf(text, opened.tokens), Math.max(0, -rest.net));
  const last = balance(dropped.tokens);
  const problems = [...opened.problems, ...dropped.problems];
  if (last.net <= 0) return { tokens: dropped.tokens, problems };
  const closed = closeMissing(dropped.tokens, linesOf(text, dropped.tokens), last.net, end, false) as Mended;
  return { tokens: closed.tokens, problems: [...problems, ...closed.problems] };
};

/** Makes the braces come out even, region by region; a region begins at a word in the first column that stands only at the top of a file. */
export const mendBraces = (text: string, tokens: readonly IToken[]): Mended => {
  const out: IToken[] = [];
  const problems: Problem[] = [];
  let start = 0;
  const finish = (end: number): void => {
    if (end === start) return;
    const mended = mendRegion(text, tokens.slice(start, end), tokens[end]?.startOffset ?? text.length);
    for (const token of mended.tokens) out.push(token);
    problems.push(...mended.problems);
    start = end;
  };
  for (let i = 1; i < tokens.length; i++) {
    const before = tokens[i - 1] as IToken;
    const token = tokens[i] as IToken;
    if (is(before, NewLine) && touching(before, token) && topWords.has(token.image)) finish(i);
  }
  finish(tokens.length);
  return { tokens: out, problems };
};
