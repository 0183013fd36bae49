import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
  type Position,
  type Range,
} from 'vscode-languageserver';
import { entries, expectedAt } from '../../grammar/index.js';
import { functions } from '../../grammar/vocabulary/functions.js';
import type { NameKind, StatementEntry, ValueKind } from '../../grammar/vocabulary/pattern.js';
import { type UnitKind, unitKinds, units } from '../../grammar/vocabulary/units.js';
import type { Candidate } from '../model/model.js';
import { type Ask, linesOf, rangeOf } from './ask.js';
import type { CompletionData } from './completionData.js';
import { definitionDocumentation, entryDocumentation, markdown, wordDocumentation } from './documentation.js';
import { definitionOf } from './names.js';
import { beginsWithName, snippetOf, wantedOf } from './patternText.js';

import { relativePath } from './uri.js';

export interface CompletionAbilities {
  readonly snippets: boolean;
  /** The list opens by itself because a blank was typed, nobody asked for it. */
  readonly afterBlank?: boolean;
}

/** Everything that may stand at the cursor: words of the statement in progress, names, values, units, new statements. */
export const completions = (ask: Ask, position: Position, abilities: CompletionAbilities): CompletionList => {
  const lines = linesOf(ask);
  const text = lines.getText();
  const offset = lines.offsetAt(position);
  if (ask.project.tree(ask.path).comments.some((comment) => comment.start < offset && offset <= comment.end)) return listOf([]);
  const lineText = text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset);
  const withPath = /(?:^|[;{}\s])with\s+"([^"\n]*)$/u.exec(lineText);
  if (withPath !== null) {
    const start = offset - (withPath[1] as string).length;
    const rest = /^[^"\r\n]*/.exec(text.slice(offset))?.[0] ?? '';
    const closed = text[offset + rest.length] === '"';
    return listOf(pathItems(ask, rangeOf(lines, { start, end: closed ? offset + rest.length : offset })));
  }
  if (insideText(lineText)) return listOf([]);

  const expected = expectedAt(text, offset);
  // Where the statement may end, a list that opens by itself would catch the Enter meant for the next line.
  if (abilities.afterBlank === true && expected.statements.length > 0) return listOf([]);
  const range = rangeOf(lines, { start: expected.prefix.start, end: Math.max(offset, expected.prefix.end) });
  const model = ask.project.model(ask.path);
  if (expected.afterDot !== undefined) {
    const members = model.membersAt(offset, expected.afterDot);
    return listOf(members.map((member) => item(member.name, CompletionItemKind.Property, range, '0', { detail: member.detail })));
  }
  const items: CompletionItem[] = [];
  const entry = expected.statement?.entry;
  if (expected.afterNumber) {
    // Behind a number the argument that comes next is spoken of; the unit belongs to the number's own.
    const number = expectedAt(text, text.slice(0, expected.prefix.start).trimEnd().length);
    const owner = number.statement?.entry;
    items.push(...unitItems(range, owner === undefined || number.fieldAt === undefined ? undefined : wantedOf(owner, number.fieldAt)));
  }
  for (const want of expected.wants) {
    if ('name' in want) items.push(...nameItems(ask, model.candidatesAt(offset, [want.name]), range));
    if ('value' in want) {
      items.push(...nameItems(ask, model.candidatesAt(offset, ['value', 'index', 'part', 'file']), range));
      if (want.value === 'condition' || want.value === 'any')
        items.push(...['yes', 'no', 'not'].map((word) => item(word, CompletionItemKind.Keyword, range, '3')));
      items.push(...functionItems(range, abilities));
    }
  }
  for (const word of expected.words) {
    const data: CompletionData | undefined = entry === undefined ? undefined : { kind: 'word', entry: entry.id, word };
    items.push(item(word, CompletionItemKind.Keyword, range, '2', { data }));
  }
  const inOrder = rankOfStatements(expected.statements);
  for (const statement of expected.statements) items.push(statementItem(statement, range, abilities, inOrder(statement)));
  return listOf(unique(items));
};

/** Documentation of one item, once a person looks at it. `askAbout` finds the file the item was offered in. */
export const resolveCompletion = (chosen: CompletionItem, askAbout: (uri: string) => Ask | undefined): CompletionItem => {
  const data = chosen.data as CompletionData | undefined;
  if (data === undefined) return chosen;
  if (data.kind === 'name') {
    const ask = askAbout(data.uri);
    const span = { start: data.start, end: data.start + data.name.length };
    const definition = ask === undefined ? undefined : definitionOf(ask, { name: data.name, kind: data.of, file: data.file, span });
    return ask === undefined || definition === undefined
      ? chosen
      : { ...chosen, documentation: markdown(definitionDocumentation(ask, definition)) };
  }
  const entry = entries.find((one) => one.id === data.entry);
  if (entry === undefined) return chosen;
  return { ...chosen, documentation: markdown(data.kind === 'word' ? wordDocumentation(entry, data.word) : entryDocumentation(entry)) };
};

const listOf = (items: CompletionItem[]): CompletionList => ({ isIncomplete: false, items });

/** An odd number of quotes that are not inch marks stands before the cursor: a text is being written. */
const insideText = (line: string): boolean => [...line.matchAll(/(?<![\d/½¼¾])"/g)].length % 2 === 1 && !/\d"[^"]*$/.test(line);

interface More {
  readonly detail?: string | undefined;
  readonly data?: CompletionData | undefined;
  readonly insert?: string;
  readonly snippet?: boolean;
}
const item = (label: string, kind: CompletionItemKind, range: Range, rank: string, more: More = {}): CompletionItem => ({
  label,
  kind,
  sortText: `${rank}${label}`,
  ...(more.detail === undefined || more.detail === '' ? {} : { detail: more.detail }),
  textEdit: { range, newText: more.insert ?? label },
  ...(more.snippet === true ? { insertTextFormat: InsertTextFormat.Snippet } : {}),
  ...(more.data === undefined ? {} : { data: more.data }),
});

const nameItems = (ask: Ask, candidates: readonly Candidate[], range: Range): CompletionItem[] =>
  candidates.map(({ written, kind, detail, target }) => {
    const data: CompletionData | undefined =
      target === undefined
        ? undefined
        : { kind: 'name', uri: ask.uriOf(ask.path), file: target.file, start: target.span.start, name: target.name, of: target.kind };
    return item(written, nameIcons[kind] ?? CompletionItemKind.Reference, range, '1', { detail, data });
  });

const nameIcons: Partial<Record<NameKind, CompletionItemKind>> = {
  value: CompletionItemKind.Variable,
  index: CompletionItemKind.Variable,
  part: CompletionItemKind.Class,
  file: CompletionItemKind.Module,
  edge: CompletionItemKind.EnumMember,
  flange: CompletionItemKind.EnumMember,
  leg: CompletionItemKind.EnumMember,
  feature: CompletionItemKind.EnumMember,
};

const functionItems = (range: Range, abilities: CompletionAbilities): CompletionItem[] =>
  functions.map(({ name, usage, summary }) => ({
    ...item(name, CompletionItemKind.Function, range, '3', {
      detail: usage,
      insert: abilities.snippets ? `${name}($1)$0` : `${name}(`,
      snippet: abilities.snippets,
    }),
    documentation: summary,
  }));

/**
 * Statements as one comes to need them: what a part is made of first and what shapes it next, in the order of the vocabulary. Values, checks
 * and notes come before what the shop owns, and after what belongs to the block at hand; what nothing is computed from yet comes last.
 */
const rankOfStatements = (offered: readonly StatementEntry[]): ((entry: StatementEntry) => string) => {
  const inFile = offered.some(({ places }) => places.length === 1 && places[0] === 'file');
  const group = ({ computed, family }: StatementEntry): number =>
    !computed ? 4 : family === 'part' ? 0 : family !== 'file' ? 2 : inFile ? 1 : 3;
  return (entry) => `5${group(entry)}${String(entries.indexOf(entry)).padStart(3, '0')}`;
};

const statementItem = (entry: StatementEntry, range: Range, abilities: CompletionAbilities, rank: string): CompletionItem =>
  item(entry.word, CompletionItemKind.Snippet, range, rank, {
    detail: entry.summary,
    data: { kind: 'statement', entry: entry.id, ...(beginsWithName(entry) ? { names: true } : {}) },
    insert: abilities.snippets ? snippetOf(entry) : entry.word,
    snippet: abilities.snippets,
  });

/** Units that a number just written may take: those of the kind wanted, or all when any kind will do. */
const unitItems = (range: Range, wanted: ValueKind | undefined): CompletionItem[] => {
  const kinds = wanted === undefined ? undefined : unitsFor[wanted];
  return units
    .filter((unit) => kinds === undefined || kinds.includes(unit.kind))
    .map((unit) => item(unit.name, CompletionItemKind.Unit, range, '4', { detail: unit.spellings[1] ?? unitKinds[unit.kind].words }));
};

const unitsFor: Partial<Record<ValueKind, readonly UnitKind[]>> = {
  length: ['length', 'gauge'],
  point: ['length'],
  angle: ['angle'],
  area: ['area'],
  volume: ['volume'],
  mass: ['mass'],
  density: ['density'],
  force: ['force'],
  stress: ['stress'],
  pressure: ['stress'],
  stiffness: ['stiffness'],
  moment: ['turning'],
  heat: ['heat'],
  time: ['time'],
  ratio: ['ratio'],
  count: [],
  number: [],
  money: [],
};

const pathItems = (ask: Ask, range: Range): CompletionItem[] =>
  ask
    .files()
    .filter((path) => path !== ask.path)
    .map((path) => item(relativePath(ask.path, path), CompletionItemKind.File, range, '0'));

const unique = (items: readonly CompletionItem[]): CompletionItem[] => {
  const seen = new Set<string>();
  return items.filter((one) => {
    if (seen.has(one.label)) return false;
    seen.add(one.label);
    return true;
  });
};
