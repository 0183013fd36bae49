/** Walks a pattern along the tokens. Each step looks one token ahead, two where a bare name could also be a misspelt word. */
import type { IToken } from 'chevrotain';
import { identOf, isEnd, nameArgument, record, sameWord, spanOf, takePath, takeSize, takeWord, type WritableFields } from './arguments.js';
import { among, type First, type Step, statementAt } from './compiled.js';
import type { Header, Reader } from './reader.js';
import type { Argument, Block, Fields } from './syntax.js';
import {
  Comma,
  Cursor,
  Diameter,
  DotStep,
  endOf,
  Hash,
  is,
  isNumber,
  isOperator,
  isWord,
  Minus,
  Not,
  Open,
  OpenBrace,
  Plus,
  Text,
  touching,
  Word,
  YesNo,
} from './tokens.js';
import { usageInWords } from './usage.js';
import type { Place } from './vocabulary/pattern.js';
import { either, firstWords, nearest, wantedInWords } from './wording.js';

type ReadBlock = (reader: Reader, place: Place, fields: Fields) => Block;

/** Whether a token may come after a bare name read as a value or a name here. */
const canFollow = (reader: Reader, follow: First, token: IToken, place: Place): boolean => {
  if (isEnd(token) || is(token, OpenBrace)) return follow.end || follow.block || is(token, Cursor);
  if (isWord(token) && among(follow.words, token.image)) return true;
  if (is(token, Comma)) return follow.signs.has(',');
  if (follow.signs.has(token.image)) return true;
  if (is(token, Text)) return follow.text;
  if (isNumber(token)) return follow.value || follow.size;
  if (isWord(token)) return follow.name || follow.value || (follow.end && statementAt(place, token.image) !== undefined);
  return is(token, Open) && follow.value && !touching(reader.ahead(1), token);
};
/** The token goes on the value that the bare name before it began: an operator, a property, a call. */
const goesOn = (reader: Reader, token: IToken): boolean =>
  isOperator(token) || (is(token, DotStep) && touching(reader.ahead(1), token)) || (is(token, Open) && touching(reader.ahead(1), token));

/** Whether an optional part begins at the next token. */
const begins = (reader: Reader, step: Step, optional: boolean): boolean => {
  const token = reader.ahead(1);
  const first = step.first;
  if (isWord(token)) {
    if (among(first.words, token.image)) return true;
    if (is(token, Not) || is(token, YesNo)) return first.value;
    if (!is(token, Word)) return false;
    if (!first.value && !first.name && !first.size) return false;
    if (!optional) return true;
    const header = reader.header as Header;
    const after = reader.ahead(2);
    if (is(after, DotStep) && touching(token, after)) return true;
    // Nothing has to stand here, so that a word the statement knows is that word.
    if (among(step.follow.words, token.image) || header.compiled?.words.includes(token.image) === true) return false;
    if (goesOn(reader, after)) return first.value;
    if (statementAt(header.place, token.image) !== undefined) return false;
    return canFollow(reader, step.follow, after, header.place);
  }
  if (first.signs.has(token.image) || (token.image === '×' && first.words.has('by'))) return true;
  if (is(token, OpenBrace)) return first.block;
  if (is(token, Text)) return first.text;
  if (is(token, Hash)) return first.size;
  if (isNumber(token)) return first.value || first.size;
  return first.value && (is(token, Open) || is(token, Minus) || is(token, Plus) || is(token, Diameter));
};

/** How the statement is written, where the word that stands here is one of its own: most likely the right words in another order. */
const formOf = ({ compiled }: Header, token: IToken): string =>
  isWord(token) && compiled !== undefined && among(new Set(compiled.words), token.image) ? usageInWords(compiled.entry) : '';

/** Something must stand here and doesn't. A near miss of a word is taken for it, without guessing its meaning. */
const missing = (reader: Reader, step: Step): void => {
  const token = reader.ahead(1);
  if (is(token, Cursor)) {
    reader.listener?.must(step.leaves);
    return;
  }
  const header = reader.header as Header;
  const words = firstWords(step.first, step.leaves);
  const before = reader.ahead(0);
  const wanted = wantedInWords(step.leaves);
  if (isWord(token) && (statementAt(header.place, token.image) === undefined || sameWord(token, before.image)) && words.length > 0) {
    const similar = /^x$/i.test(token.image) && words.includes('by') ? ['by'] : nearest(token.image, words);
    if (similar.length > 0) {
      reader.report(
        spanOf(token),
        'text/misspelt-word',
        `\`${token.image}\` is no word of \`${header.word}\`. Did you mean ${either(similar)}?`,
        similar.map((word) => ({ title: `Write \`${word}\``, edits: [{ span: spanOf(token), text: word }] })),
      );
      reader.take();
      return;
    }
  }
  const end = endOf(before);
  const [only] = step.leaves;
  const sign = step.leaves.length === 1 && only?.kind === 'sign' ? only.sign : undefined;
  const single = words.length === 1 && step.leaves.length === 1 ? words[0] : sign;
  const rule =
    words.length > 0
      ? 'text/missing-word'
      : only?.kind === 'value'
        ? 'text/missing-value'
        : only?.kind === 'sign'
          ? 'text/missing-sign'
          : `text/missing-${only?.kind === 'block' ? 'braces' : only?.kind === 'text' ? 'text' : only?.kind === 'size' ? 'size' : 'name'}`;
  // Where a word stands in the place of what is wanted, the word is at fault; at the end of a line, what came before.
  const here = !isEnd(token) && !is(token, OpenBrace);
  reader.report(
    here ? spanOf(token) : spanOf(before),
    rule,
    here ? `Before \`${token.image}\`, ${wanted} is wanted.${formOf(header, token)}` : `After \`${before.image}\`, ${wanted} is wanted.`,
    single === undefined ? [] : [{ title: `Write \`${single}\``, edits: [{ span: { start: end, end }, text: ` ${single}` }] }],
  );
};

const takeChoice = (reader: Reader, step: Step, fields: WritableFields, field: string): void => {
  for (const choice of step.choices) {
    const { parts } = choice;
    let same = 0;
    while (same < parts.length && sameWord(reader.ahead(same + 1), parts[same] as string)) same++;
    if (same < parts.length) {
      if (same > 0 && is(reader.ahead(same + 1), Cursor)) reader.listener?.word(parts[same] as string);
      continue;
    }
    const { startOffset } = reader.ahead(1);
    let last = takeWord(reader);
    while (--same > 0) last = takeWord(reader);
    record(fields, field, { kind: 'word', span: { start: startOffset, end: endOf(last) }, word: choice.word });
    return;
  }
  missing(reader, step);
};

/** Another item stands where only a comma could have parted it from the last. */
const commaLeftOut = (reader: Reader, step: Step, item: Step): boolean => {
  const token = reader.ahead(1);
  const before = reader.ahead(0);
  const place = (reader.header as Header).place;
  const another = is(token, Word)
    ? item.first.name &&
      is(before, Word) &&
      !among(step.follow.words, token.image) &&
      statementAt(place, token.image) === undefined &&
      nearest(token.image, step.follow.words).length === 0
    : is(token, Open) && item.first.value && before.image === ')';
  if (!another) return false;
  const end = endOf(before);
  reader.report(spanOf(token), 'text/missing-comma', `Before \`${token.image}\`, a comma is wanted: commas part the items of a list.`, [
    { title: 'Write the comma', edits: [{ span: { start: end, end }, text: ',' }] },
  ]);
  return true;
};

const takeList = (reader: Reader, step: Step, fields: WritableFields, field: string, least: number, readBlock: ReadBlock): void => {
  const item = step.items[0] as Step;
  const items: Argument[] = [];
  for (;;) {
    const own: WritableFields = {};
    const before = reader.ahead(1);
    walk(reader, item, own, readBlock);
    const all = Object.values(own);
    const [first] = all;
    const composite = item.pattern.kind === 'sequence' || item.pattern.kind === 'anyOrder' || item.pattern.kind === 'oneOf';
    if (composite && reader.ahead(1) !== before) {
      items.push({ kind: 'group', span: { start: before.startOffset, end: endOf(reader.ahead(0)) }, fields: own });
    } else if (first !== undefined) items.push(first);
    if (is(reader.ahead(1), Comma)) reader.take();
    else if (!commaLeftOut(reader, step, item)) break;
  }
  const [head] = items;
  if (head === undefined) return;
  record(fields, field, { kind: 'list', span: { start: head.span.start, end: (items.at(-1) as Argument).span.end }, items });
  if (items.length < least && !is(reader.ahead(1), Cursor)) {
    reader.report(
      { start: head.span.start, end: endOf(reader.ahead(0)) },
      'text/too-few',
      `${least} or more are wanted here, parted by commas; there ${items.length === 1 ? 'is 1' : `are ${items.length}`}.`,
    );
  }
};

const takeRun = (reader: Reader, step: Step, fields: WritableFields, field: string): void => {
  const items: Argument[] = [];
  const place = (reader.header as Header).place;
  for (let token = reader.ahead(1); is(token, Word) && !among(step.follow.words, token.image); token = reader.ahead(1)) {
    const after = reader.ahead(2);
    if (items.length > 0) {
      if (isNumber(after) || is(after, Text) || is(after, Open)) break;
      if (statementAt(place, token.image) !== undefined && !isEnd(after) && !(isWord(after) && among(step.follow.words, after.image)))
        break;
    }
    items.push(nameArgument(takePath(reader)));
  }
  if (is(reader.ahead(1), Cursor)) {
    if (items.length === 0) reader.listener?.must(step.leaves);
    else reader.listener?.may(step.leaves);
  }
  const [head] = items;
  if (head === undefined) missing(reader, step);
  else record(fields, field, { kind: 'list', span: { start: head.span.start, end: (items.at(-1) as Argument).span.end }, items });
};

/** A word of the statement where a value is wanted, with nothing after it that would let it be a name: the value was left out. */
const leftOut = (reader: Reader, step: Step): boolean => {
  const token = reader.ahead(1);
  if (!is(token, Word) || !among(step.follow.words, token.image)) return false;
  const after = reader.ahead(2);
  return !goesOn(reader, after) && !canFollow(reader, step.follow, after, (reader.header as Header).place);
};

const walkAnyOrder = (reader: Reader, step: Step, fields: WritableFields, readBlock: ReadBlock): void => {
  const used = new Set<Step>();
  for (;;) {
    let found: Step | undefined;
    for (const item of step.items) {
      if (begins(reader, item, true) && (found === undefined || !used.has(item))) found = item;
      if (found !== undefined && !used.has(found)) break;
    }
    if (found === undefined) break;
    if (used.has(found)) {
      const token = reader.ahead(1);
      reader.report(spanOf(token), 'text/given-twice', `\`${token.image}\` is given twice; the first one counts.`);
    }
    const before = reader.ahead(1);
    walk(reader, found, fields, readBlock);
    used.add(found);
    if (reader.ahead(1) === before) break;
  }
  if (is(reader.ahead(1), Cursor)) for (const item of step.items) if (!used.has(item)) reader.listener?.may(item.leaves);
};

const walkOneOf = (reader: Reader, step: Step, fields: WritableFields, readBlock: ReadBlock): void => {
  // A literal word is stronger than a name that could be any word.
  const token = reader.ahead(1);
  const byWord = isWord(token) ? step.items.find((item) => among(item.first.words, token.image)) : undefined;
  const found = byWord ?? step.items.find((item) => begins(reader, item, step.first.end));
  if (found !== undefined) walk(reader, found, fields, readBlock);
  else if (!step.first.end) missing(reader, step);
  else if (is(token, Cursor)) reader.listener?.may(step.leaves);
};

export const walk = (reader: Reader, step: Step, fields: WritableFields, readBlock: ReadBlock): void => {
  const pattern = step.pattern;
  const token = reader.ahead(1);
  switch (pattern.kind) {
    case 'sequence':
      for (const item of step.items) walk(reader, item, fields, readBlock);
      return;
    case 'optional':
      if (is(token, Cursor)) reader.listener?.may(step.leaves);
      else if (begins(reader, step.items[0] as Step, true)) walk(reader, step.items[0] as Step, fields, readBlock);
      return;
    case 'anyOrder':
      walkAnyOrder(reader, step, fields, readBlock);
      return;
    case 'oneOf':
      walkOneOf(reader, step, fields, readBlock);
      return;
    case 'list':
      takeList(reader, step, fields, pattern.field, pattern.least ?? 1, readBlock);
      return;
    case 'run':
      takeRun(reader, step, fields, pattern.field);
      return;
    case 'word':
      if (!sameWord(token, pattern.word)) missing(reader, step);
      else {
        takeWord(reader);
        if (pattern.field !== undefined) record(fields, pattern.field, { kind: 'word', span: spanOf(token), word: pattern.word });
      }
      return;
    case 'sign':
      if (token.image === pattern.sign) reader.take();
      else missing(reader, step);
      return;
    case 'choice':
      takeChoice(reader, step, fields, pattern.field);
      return;
    case 'value': {
      if (is(token, Cursor) || leftOut(reader, step)) {
        const end = endOf(reader.ahead(0));
        missing(reader, step);
        record(fields, pattern.field, { kind: 'value', span: { start: end, end }, value: { kind: 'missing', span: { start: end, end } } });
        return;
      }
      const value = reader.expression(step.surroundings);
      record(fields, pattern.field, { kind: 'value', span: value.span, value });
      return;
    }
    case 'name':
      if (is(token, Word) && !leftOut(reader, step)) record(fields, pattern.field, nameArgument(takePath(reader)));
      else missing(reader, step);
      return;
    case 'newName':
      takeNewName(reader, step, fields, pattern.field);
      return;
    case 'text':
      if (!is(token, Text)) missing(reader, step);
      else {
        reader.take();
        record(fields, pattern.field, { kind: 'text', span: spanOf(token), value: reader.textValue(token) });
      }
      return;
    case 'size':
      if (isNumber(token) || is(token, Hash) || is(token, Word)) takeSize(reader, fields, pattern.field);
      else missing(reader, step);
      return;
    case 'block': {
      if (!is(token, OpenBrace)) {
        missing(reader, step);
        return;
      }
      const header = reader.header as Header;
      header.block = readBlock(reader, pattern.place, fields);
    }
  }
};

const takeNewName = (reader: Reader, step: Step, fields: WritableFields, field: string): void => {
  const token = reader.ahead(1);
  if (is(token, Word) && !leftOut(reader, step)) {
    reader.take();
    record(fields, field, { kind: 'newName', span: spanOf(token), name: identOf(token) });
    const step2 = reader.ahead(1);
    if (is(step2, DotStep) && touching(token, step2)) {
      reader.report(spanOf(step2), 'name/dotted', 'A new name takes no point; use _ between its parts.', [
        { title: 'Write _ for the point', edits: [{ span: { start: step2.startOffset, end: step2.startOffset + 1 }, text: '_' }] },
      ]);
      reader.take();
    }
    return;
  }
  const after = reader.ahead(2);
  if (isWord(token) && !is(token, Word) && canFollow(reader, step.follow, after, (reader.header as Header).place)) {
    reader.report(
      spanOf(token),
      'name/reserved',
      `\`${token.image}\` is a word of the language and can't be a name. Try \`${token.image}_1\`.`,
      [{ title: `Write \`${token.image}_1\``, edits: [{ span: spanOf(token), text: `${token.image}_1` }] }],
    );
    reader.take();
    return;
  }
  missing(reader, step);
};
