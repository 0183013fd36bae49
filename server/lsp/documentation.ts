import { type MarkupContent, MarkupKind } from 'vscode-languageserver';
import { usage } from '../../grammar/index.js';
import type { StatementEntry } from '../../grammar/vocabulary/pattern.js';
import type { Definition } from '../model/model.js';
import { type Ask, linesOf } from './ask.js';
import { fieldOfWord } from './patternText.js';

export const markdown = (value: string): MarkupContent => ({ kind: MarkupKind.Markdown, value });
export const fenced = (text: string): string => `\`\`\`planish\n${text}\n\`\`\``;
/** Text of a file shown as plain words: signs that Markdown or HTML would take are kept from it. */
export const plain = (text: string): string => text.replace(/[\\`*_[\]<>#|&~]/g, (sign) => `\\${sign}`).replace(/\r?\n/g, '  \n');

/** A statement as the manual has it: how it is written, what it is, what a fabricator should know. */
export const entryDocumentation = (entry: StatementEntry): string =>
  [
    fenced(usage(entry)),
    entry.summary,
    ...(entry.note === '' ? [] : [entry.note]),
    ...(entry.computed ? [] : ['*Read and kept; nothing is computed from it yet.*']),
  ].join('\n\n');

/** One word within a statement: the argument it stands for, else the statement itself. */
export const wordDocumentation = (entry: StatementEntry, word: string): string => {
  const field = fieldOfWord(entry, word);
  const help = field === undefined ? undefined : entry.arguments[field];
  if (help === undefined) return entryDocumentation(entry);
  return [`**${word}**: ${help.summary}`, ...(help.default === undefined ? [] : [`Left out: ${help.default}.`]), fenced(usage(entry))].join(
    '\n\n',
  );
};

/** A name: the statement that makes it, shortened, its note, and where it stands. */
export const definitionDocumentation = (ask: Ask, definition: Definition): string => {
  const text = ask.project.tree(definition.file).text.slice(definition.full.start, definition.full.end);
  const rows = text.split(/\r?\n/);
  const shown = rows.length > 8 ? [...rows.slice(0, 7), '  …', '}'] : rows;
  const line = linesOf(ask, definition.file).positionAt(definition.span.start).line + 1;
  const file = definition.file.slice(definition.file.lastIndexOf('/') + 1);
  return [
    fenced(dedent(shown)),
    ...(definition.note === undefined ? [] : [plain(definition.note)]),
    ...(definition.file === ask.path ? [] : [`${plain(file)}, line ${line}`]),
  ].join('\n\n');
};

const dedent = (rows: readonly string[]): string => {
  const [first = '', ...rest] = rows;
  const blank = (row: string): number => row.length - row.trimStart().length;
  const least = Math.min(...rest.filter((row) => row.trim() !== '' && row !== '  …' && row !== '}').map(blank), Number.POSITIVE_INFINITY);
  // The last line of a block stands at the statement's own depth, which is what all other lines are moved back by.
  const depth = rest.length === 0 || !Number.isFinite(least) ? 0 : Math.max(0, Math.min(blank(rest.at(-1) ?? ''), least));
  return [first, ...rest.map((row) => row.slice(Math.min(depth, blank(row))))].join('\n');
};
