/** `planish explain RULE|WORD`: the manual's page. */
import { parseArgs } from 'node:util';
import { entries } from '../../grammar/index.js';
import type { StatementEntry } from '../../grammar/vocabulary/pattern.js';
import { type Rule, ruleNamed, rules } from '../rules/index.js';
import { callError, exit, type Io } from './io.js';
import { colours, didYouMean, wrapped } from './words.js';

export const help = `planish explain RULE|WORD

The manual's page for a rule (brake/flange-too-short) or a word of the language (flange).
Without either, the list of both.
`;

const width = (io: Io): number => Math.min(io.columns, 100);

const indented = (code: string): string =>
  code
    .trimEnd()
    .split('\n')
    .map((line) => `    ${line}`.trimEnd())
    .join('\n');

const rulePage = (rule: Rule, io: Io): string => {
  const paint = colours(io);
  return [
    `${paint.bold(rule.name)} (${rule.severity})`,
    wrapped(rule.what, width(io)),
    wrapped(rule.why, width(io)),
    'For example:',
    indented(rule.example),
    'Put right:',
    indented(rule.cure),
    wrapped(`Source: ${rule.source}`, width(io)),
  ].join('\n\n');
};

const placeWords = (place: string): string => (place === 'file' ? 'at the top of a file' : `inside ${place} { }`);

const wordPage = (entry: StatementEntry, io: Io): string => {
  const paint = colours(io);
  const names = Object.entries(entry.arguments);
  const longest = Math.max(0, ...names.map(([name]) => name.length));
  const argumentLine = ([name, argument]: (typeof names)[number]): string => {
    const ending = argument.default === undefined ? '' : ` Left out: ${argument.default}.`;
    return `  ${name.padEnd(longest)}  ${wrapped(argument.summary + ending, width(io), ' '.repeat(longest + 4), longest + 4)}`;
  };
  return [
    `${paint.bold(entry.word)} (${entry.places.map(placeWords).join(', ')})`,
    wrapped(entry.summary, width(io)),
    wrapped(entry.note, width(io)),
    ...(names.length === 0 ? [] : [names.map(argumentLine).join('\n')]),
    ...(entry.computed ? [] : ['It is read and kept; nothing is computed from it yet.']),
    'For example:',
    indented(entry.example),
  ].join('\n\n');
};

const columnsOf = (words: readonly string[], io: Io): string => wrapped(words.join('  '), width(io), '  ', 2);

const listPage = (io: Io): string => {
  const paint = colours(io);
  const words = [...new Set(entries.map((entry) => entry.word))].sort();
  return `${paint.bold('Words of the language')}\n  ${columnsOf(words, io)}\n\n${paint.bold('Rules')}\n  ${columnsOf(
    rules.map((rule) => rule.name),
    io,
  )}\n`;
};

export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  const { positionals } = parseArgs({ args: [...argv], allowPositionals: true, options: {} });
  const [wanted, ...rest] = positionals;
  if (rest.length > 0) throw callError('explain wants one rule or one word: planish explain flange');
  if (wanted === undefined) {
    io.write(listPage(io));
    return exit.fine;
  }
  const rule = ruleNamed(wanted) ?? rules.find((each) => each.name.endsWith(`/${wanted}`));
  const pages = entries.filter((entry) => entry.word === wanted || entry.id === wanted).map((entry) => wordPage(entry, io));
  const all = [...(rule === undefined ? [] : [rulePage(rule, io)]), ...pages];
  if (all.length === 0) {
    const known = [
      ...entries.map((entry) => entry.word),
      ...rules.map((each) => each.name),
      ...rules.map((each) => each.name.split('/')[1] ?? ''),
    ];
    throw callError(`There is no rule and no word ${wanted}.${didYouMean(wanted, known)} \`planish explain\` lists them.`);
  }
  io.write(`${all.join('\n\n———\n\n')}\n`);
  return exit.fine;
};
