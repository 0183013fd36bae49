/** What may come at the cursor. The file is read as far as the cursor by the parser itself, which tells what it would take next. */
import type { IToken } from 'chevrotain';
import { type Leaf, type Surroundings, statementWordsAt, type Want } from './compiled.js';
import { unwritten } from './layout.js';
import { parseUpTo } from './parser.js';
import type { Span } from './syntax.js';
import { Cursor, DotStep, endOf, is, isNumber, isWord, NewLine, scan, Text, touching } from './tokens.js';
import { entryAt } from './vocabulary/index.js';
import type { Place, StatementEntry } from './vocabulary/pattern.js';

export interface Expectation {
  /** Enclosing block's place; "file" at the top. */
  readonly place: Place;
  /** Statement in progress before the cursor, if any. */
  readonly statement: { readonly entry: StatementEntry; readonly start: number } | undefined;
  /** Literal words that may come next in that statement. */
  readonly words: readonly string[];
  readonly wants: readonly Want[];
  /** Statements that may begin here. */
  readonly statements: readonly StatementEntry[];
  /** The word being typed; empty at the cursor when none is. */
  readonly prefix: Span;
  /** Path before a point being typed: `gate.blank.` gives gate, blank. */
  readonly afterDot: readonly string[] | undefined;
  /** Enclosing statements, outermost first. */
  readonly blockStack: readonly { readonly word: string; readonly name: string | undefined; readonly start: number }[];
  /** Field of the argument the cursor is in, or of the one that comes next. */
  readonly fieldAt: string | undefined;
  /** A number without a unit stands just before the cursor. */
  readonly afterNumber: boolean;
  /** The cursor is inside brackets of a value. */
  readonly inBrackets: boolean;
}

const wantOf = (leaf: Leaf): Want | undefined => {
  switch (leaf.kind) {
    case 'value':
      return { value: leaf.want, field: leaf.field };
    case 'name':
    case 'run':
      return { name: leaf.of, field: leaf.field };
    case 'newName':
      return { newName: leaf.of, field: leaf.field };
    case 'text':
      return { text: true, field: leaf.field };
    default:
      return undefined;
  }
};

interface Point {
  readonly prefix: Span;
  readonly afterDot: readonly string[] | undefined;
  /** Tokens from this offset on are not read. */
  readonly cut: number;
}

/** The word under the cursor and the path before it. */
const pointAt = (tokens: readonly IToken[], offset: number): Point => {
  let at = -1;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as IToken;
    if (token.startOffset >= offset) break;
    if (endOf(token) >= offset && (isWord(token) || isNumber(token) || is(token, DotStep) || is(token, Text))) at = i;
  }
  const under = tokens[at];
  if (under === undefined) return { prefix: { start: offset, end: offset }, afterDot: undefined, cut: offset };
  if (!is(under, DotStep)) return { prefix: { start: under.startOffset, end: endOf(under) }, afterDot: undefined, cut: under.startOffset };
  const path: string[] = [];
  let first = under;
  for (let i = at - 1; i >= 0; i--) {
    const token = tokens[i] as IToken;
    if (!touching(token, first) || !(is(token, DotStep) || isWord(token))) break;
    path.unshift(is(token, DotStep) ? token.image.slice(1) : token.image);
    first = token;
    if (isWord(token)) break;
  }
  return { prefix: { start: under.startOffset + 1, end: endOf(under) }, afterDot: path, cut: first.startOffset };
};

/** Whether the cursor stands in a comment: nothing is wanted there. */
const inComment = (comments: readonly IToken[], offset: number): boolean =>
  comments.some((c) => c.startOffset + 1 < offset && offset <= endOf(c));

/**
 * What may come at an offset of a text that need not be whole or right.
 *
 * @param offset UTF-16 code units from the start, 0 … text length
 */
export const expectedAt = (text: string, offset: number): Expectation => {
  const scanned = scan(text);
  const point = pointAt(scanned.tokens, offset);
  const words = new Set<string>();
  const wants: Want[] = [];
  let place: Place = 'file';
  let statement: Expectation['statement'];
  let fieldAt: string | undefined;
  let closed = false;
  let mayBegin: Place | undefined;
  let afterNumber = false;
  let inBrackets = false;
  const blockStack: Expectation['blockStack'][number][] = [];
  const add = (leaves: readonly Leaf[]): void => {
    for (const leaf of leaves) {
      if (leaf.kind === 'word') words.add(leaf.word);
      else if (leaf.kind === 'choice') for (const one of leaf.words) words.add(one);
      else if (leaf.kind === 'sign') words.add(leaf.sign);
      else if (leaf.kind === 'block') words.add('{');
      const want = wantOf(leaf);
      if (want !== undefined && !wants.some((w) => w.field === want.field)) wants.push(want);
      if (leaf.kind !== 'sign' && leaf.kind !== 'block') fieldAt ??= leaf.field;
    }
  };
  if (!inComment(scanned.comments, offset)) {
    parseUpTo(
      text,
      {
        may: (leaves) => {
          if (!closed) add(leaves);
        },
        must: (leaves) => {
          if (!closed) add(leaves);
          closed = true;
        },
        word: (one) => {
          words.add(one);
        },
        value: (surroundings: Surroundings, depth) => {
          if (closed) return;
          inBrackets = depth > 0;
          const want = depth > 0 && surroundings.want === 'point' ? 'length' : surroundings.want;
          wants.push({ value: want, field: surroundings.field });
          fieldAt ??= surroundings.field;
          closed = true;
        },
        mayEnd: (there) => {
          if (!closed && there !== 'file') mayBegin = there;
        },
        begin: (there) => {
          mayBegin = there;
          place = there;
        },
        stopped: (reader) => {
          const header = reader.header;
          for (const open of reader.blocks) blockStack.push({ word: open.word, name: open.name, start: open.start });
          if (header !== undefined) {
            place = header.place;
            if (header.compiled !== undefined) statement = { entry: header.compiled.entry, start: header.start };
          }
          const before = reader.ahead(0);
          afterNumber = isNumber(before) && point.prefix.start === point.cut;
        },
      },
      (tokens) => {
        let kept = tokens.findIndex((token) => token.startOffset >= point.cut);
        if (kept < 0) kept = tokens.length;
        tokens.length = kept;
        const last = tokens.at(-1);
        if (last !== undefined && last.image === '' && is(last, NewLine)) tokens.pop();
        tokens.push(unwritten(Cursor, point.cut));
      },
    );
  }
  const statements = mayBegin === undefined ? [] : statementWordsAt(mayBegin).flatMap((w) => entryAt(mayBegin as Place, w) ?? []);
  return {
    place,
    statement,
    words: [...words],
    wants,
    statements,
    prefix: point.prefix,
    afterDot: point.afterDot,
    blockStack,
    fieldAt,
    afterNumber,
    inBrackets,
  };
};
