/** Reads statements: finds each by its first word, walks its pattern, and picks up the thread again after a slip. */
import type { IToken } from 'chevrotain';
import { among, type Compiled, statementAt, statementsOf, statementWordsAt, unknownPlace } from './compiled.js';
import { walk } from './patterns.js';
import type { Header, Reader } from './reader.js';
import type { Argument, Block, Fields, Fix, Span, Statement } from './syntax.js';
import {
  Close,
  CloseBrace,
  Comma,
  Cursor,
  endOf,
  is,
  isNumber,
  isOperator,
  isWord,
  NewLine,
  Open,
  OpenBrace,
  Semicolon,
  Text,
  touching,
  unitSpellings,
  Word,
} from './tokens.js';
import { usageInWords } from './usage.js';
import type { Place } from './vocabulary/pattern.js';
import { tableSpelling } from './vocabulary/units.js';
import { either, nearest } from './wording.js';

// Deeper than anyone nests: beyond it braces are passed over, so that no text can exhaust the stack.
const deepestBlock = 100;

const spanOf = (token: IToken): Span => ({ start: token.startOffset, end: endOf(token) });
const atBreak = (token: IToken): boolean => is(token, NewLine) || is(token, Semicolon);
const atEnd = (token: IToken): boolean => atBreak(token) || is(token, CloseBrace) || is(token, Cursor);
const exhausted = (reader: Reader, token: IToken): boolean => token === reader.ahead(2) && is(token, NewLine);

/** Statements up to a closing brace or the end of the text. */
export const readStatements = (reader: Reader, place: Place): Statement[] => {
  const statements: Statement[] = [];
  for (;;) {
    const token = reader.ahead(1);
    if (atBreak(token)) {
      if (exhausted(reader, token)) return statements;
      reader.take();
    } else if (is(token, Cursor)) {
      reader.listener?.begin(place);
      reader.stop();
      return statements;
    } else if (is(token, CloseBrace)) {
      if (reader.blocks.length > 0) return statements;
      reader.take();
    } else if (isWord(token) && !isOperator(token)) statements.push(readStatement(reader, place));
    else noStatement(reader, place);
  }
};

const headerFor = (head: IToken, place: Place, compiled: Compiled | undefined): Header => ({
  start: head.startOffset,
  word: head.image,
  place,
  compiled,
  words: [spanOf(head)],
  block: undefined,
  reported: false,
});

const readStatement = (reader: Reader, place: Place): Statement => {
  const outer = reader.header;
  const note = reader.noteBefore(reader.ahead(1).startOffset);
  const head = reader.take();
  const compiled = statementAt(place, head.image);
  const header = headerFor(head, place, compiled);
  reader.header = header;
  const fields: Record<string, Argument> = {};
  if (compiled === undefined) unknownWord(reader, head, header);
  else {
    walk(reader, compiled.step, fields, readBlock);
    leftOver(reader, header);
  }
  const end = Math.max(endOf(reader.ahead(0)), endOf(head));
  const wordsEnd = header.block === undefined ? end : header.block.span.start + 1;
  const broken = header.reported || reader.strayBetween(header.start, wordsEnd);
  if (is(reader.ahead(1), Cursor)) reader.stop();
  reader.header = outer;
  return {
    span: { start: head.startOffset, end },
    word: { span: header.words[0] as Span, name: head.image },
    entry: compiled?.entry,
    fields,
    block: header.block,
    note,
    broken,
    // A copy has no room to grow: trees are kept, and most of what they hold is such lists.
    words: header.words.slice(),
  };
};

const nameOf = (fields: Fields): string | undefined => {
  for (const argument of Object.values(fields)) if (argument.kind === 'newName') return argument.name.name;
  return undefined;
};

/** Braces and what they hold. The `{` is next. */
const readBlock = (reader: Reader, place: Place, fields: Fields): Block => {
  const header = reader.header as Header;
  const open = reader.take();
  if (reader.blocks.length >= deepestBlock) {
    passBraces(reader);
    return { span: { start: open.startOffset, end: endOf(reader.ahead(0)) }, place, statements: [] };
  }
  reader.blocks.push({ word: header.word, name: nameOf(fields), start: header.start });
  reader.header = undefined;
  const statements = readStatements(reader, place);
  reader.header = header;
  if (is(reader.ahead(1), CloseBrace)) {
    // A dangling note at the end of the braces belongs to nothing that follows them.
    reader.noteBefore(reader.ahead(1).startOffset);
    reader.take();
  }
  if (!is(reader.ahead(1), Cursor)) reader.blocks.pop();
  return { span: { start: open.startOffset, end: endOf(reader.ahead(0)) }, place, statements };
};

const passBraces = (reader: Reader): void => {
  let depth = 1;
  for (let token = reader.ahead(1); depth > 0; token = reader.ahead(1)) {
    if (is(token, Cursor) || exhausted(reader, token)) return;
    if (is(token, OpenBrace)) depth++;
    else if (is(token, CloseBrace)) depth--;
    reader.take();
  }
};

/** Goes on to where the next statement may begin: a line break, `;`, `}`, or a word of this place in the same line. */
const passOver = (reader: Reader, header: Header, blockPlace: Place): void => {
  let depth = 0;
  for (let token = reader.ahead(1); !atEnd(token); token = reader.ahead(1)) {
    if (is(token, OpenBrace)) {
      const block = readBlock(reader, blockPlace, {});
      header.block ??= block;
      return;
    }
    if (
      depth === 0 &&
      is(token, Word) &&
      statementAt(header.place, token.image) !== undefined &&
      beginsHere(reader.ahead(0), token, reader.ahead(2))
    )
      return;
    if (is(token, Open)) depth++;
    else if (is(token, Close)) depth--;
    reader.take();
  }
  // Where the thread is lost before the cursor, any word of the statement may be the one to go on with.
  if (is(reader.ahead(1), Cursor)) for (const word of header.compiled?.words ?? []) reader.listener?.word(word);
};
// After a word or a sign a word may be anything; after a value it begins something.
const beginsHere = (before: IToken, token: IToken, after: IToken): boolean =>
  !isOperator(before) &&
  !is(before, Comma) &&
  !touching(before, token) &&
  (isNumber(after) || is(after, Word) || is(after, OpenBrace) || is(after, Text) || atEnd(after));

/** A line that begins with no word. */
const noStatement = (reader: Reader, place: Place): void => {
  const token = reader.take();
  const outer = reader.header;
  const header = headerFor(token, place, undefined);
  reader.header = header;
  const lineAbove = isOperator(token) ? ` To go on with the line above, put the ${token.image} at its end.` : '';
  const wrong = is(token, OpenBrace)
    ? 'These braces belong to no statement.'
    : `A statement begins with a word; here stands \`${token.image}\`.${lineAbove}`;
  reader.report(spanOf(token), 'text/no-statement', wrong);
  if (is(token, OpenBrace)) passBraces(reader);
  else passOver(reader, header, unknownPlace);
  reader.header = outer;
};

const placeInWords = (place: Place): string => (place === 'file' ? 'at the top of a file' : `in the braces of \`${place}\``);
const replacing = (span: Span, words: readonly string[]): Fix[] =>
  words.map((word) => ({ title: `Write \`${word}\``, edits: [{ span, text: word }] }));

/** A first word that begins no statement here. What it holds in braces is still read, as what it was probably meant to be. */
const unknownWord = (reader: Reader, head: IToken, header: Header): void => {
  const span = spanOf(head);
  const known = statementsOf(head.image);
  const similar = nearest(head.image, statementWordsAt(header.place));
  if (header.place === unknownPlace) header.reported = true;
  else if (known.length > 0) {
    const homes = [...new Set(known.flatMap((one) => one.entry.places))].slice(0, 4).map(placeInWords);
    reader.report(
      span,
      'text/misplaced-word',
      `\`${head.image}\` stands ${homes.join(' or ')}, not ${placeInWords(header.place)}.`,
      replacing(span, similar),
    );
  } else {
    const cure = similar.length > 0 ? ` Did you mean ${either(similar)}?` : '';
    reader.report(
      span,
      'text/unknown-word',
      `No statement ${placeInWords(header.place)} begins with \`${head.image}\`.${cure}`,
      replacing(span, similar),
    );
  }
  // The word right after one that is only misplaced is its own, whatever else it may begin: `edge finish { … }`.
  if (known.length > 0 && is(reader.ahead(1), Word)) reader.take();
  const guess = known[0] ?? (similar[0] === undefined ? undefined : statementAt(header.place, similar[0]));
  passOver(reader, header, guess?.blockPlace ?? unknownPlace);
};

/** What is left of a line when the statement can take no more: the next statement, or a slip. */
const leftOver = (reader: Reader, header: Header): void => {
  const token = reader.ahead(1);
  if (is(token, Cursor)) {
    reader.listener?.mayEnd(header.place);
    return;
  }
  if (atEnd(token)) return;
  const compiled = header.compiled as Compiled;
  if (isWord(token) && !isOperator(token) && statementAt(header.place, token.image) !== undefined) return;
  if (!header.reported) reportExtra(reader, header, compiled, token);
  passOver(reader, header, compiled.blockPlace ?? unknownPlace);
};

/** A quote at the end of the line that opens nothing: the text before it lacks its first quote. */
const lostQuote = (reader: Reader): IToken | undefined => {
  for (let n = 1; n < 40; n++) {
    const token = reader.ahead(n);
    if (atEnd(token) || is(token, OpenBrace)) return undefined;
    if (is(token, Text)) return token.image.length === 1 ? token : undefined;
  }
  return undefined;
};

/** A word that the statement knows, but not here: it was given already, or it comes before one that was. */
const outOfPlace = (reader: Reader, header: Header, compiled: Compiled, token: IToken): string => {
  const given = header.words.map(({ start, end }) => reader.text.slice(start, end));
  const rank = (word: string): number => compiled.words.findIndex((one) => tableSpelling(one) === tableSpelling(word));
  if (given.some((word) => tableSpelling(word) === tableSpelling(token.image)))
    return `\`${token.image}\` is given twice or out of its place.`;
  const later = given.slice(1).find((word) => rank(word) > rank(token.image));
  if (later === undefined) return `\`${token.image}\` is out of its place.`;
  return `\`${token.image}\` comes before \`${later}\` in \`${header.word}\`.`;
};

const reportExtra = (reader: Reader, header: Header, compiled: Compiled, token: IToken): void => {
  const span = spanOf(token);
  const before = reader.ahead(0);
  const form = usageInWords(compiled.entry);
  const quote = lostQuote(reader);
  if (quote !== undefined) {
    reader.report({ start: span.start, end: endOf(quote) }, 'text/unopened-text', 'The opening quote of this text is missing.', [
      { title: 'Write the opening quote', edits: [{ span: { start: span.start, end: span.start }, text: '"' }] },
    ]);
    return;
  }
  if (is(token, OpenBrace)) {
    reader.report(span, 'text/extra-braces', `\`${header.word}\` takes no braces here.${form}`);
    return;
  }
  if (isWord(token)) {
    if (among(new Set(compiled.words), token.image)) {
      reader.report(span, 'text/extra-words', `${outOfPlace(reader, header, compiled, token)}${form}`);
      return;
    }
    const units = isNumber(before) ? unitSpellings.filter((name) => name.length > 1) : [];
    const similar = nearest(token.image, [...compiled.words, ...statementWordsAt(header.place), ...units]);
    if (similar.length > 0) {
      const kind = similar.every((word) => units.includes(word)) ? 'unit' : `word of \`${header.word}\``;
      reader.report(
        span,
        'text/misspelt-word',
        `\`${token.image}\` is no ${kind}. Did you mean ${either(similar)}?`,
        replacing(span, similar),
      );
      return;
    }
    reader.report(span, 'text/extra-words', `\`${header.word}\` can't take \`${token.image}\` here.${form}`);
    return;
  }
  if (isNumber(token) || is(token, Open) || is(token, Text)) {
    const between = { start: endOf(before), end: endOf(before) };
    reader.report(
      span,
      'text/two-values',
      `Two values never stand side by side: a word or a comma parts them.${form}`,
      before.image === ')' && is(token, Open) ? [{ title: 'Write a comma between', edits: [{ span: between, text: ',' }] }] : [],
    );
    return;
  }
  const next = reader.ahead(2);
  if (is(token, Comma) && isWord(next) && statementAt(header.place, next.image) !== undefined) {
    reader.report(span, 'text/extra-words', 'No comma parts two statements: begin the next on a new line, or after `;`.', [
      { title: 'Write `;`', edits: [{ span, text: ';' }] },
    ]);
    return;
  }
  reader.report(span, 'text/extra-words', `\`${token.image}\` has no place here.${form}`);
};
