/** The page of the manual for a word: a statement, a word within statements, a function or a unit. */
import { functions } from './functions.js';
import type { Pattern, StatementEntry } from './pattern.js';
import { kindTitle, placeTitle } from './place-titles.js';
import { tableSpelling, type UnitEntry, unitKinds, unitOf } from './units.js';
import { labelsOf, placesOf, usageOf, wordsOf } from './words.js';

const withArticle = (noun: string): string => `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;

const argumentKinds = (pattern: Pattern): ReadonlyMap<string, string> => {
  const kinds = new Map<string, string>();
  const walk = (part: Pattern): void => {
    switch (part.kind) {
      case 'value':
        kinds.set(part.field, kindTitle(part.want));
        break;
      case 'name':
        kinds.set(part.field, `name of ${withArticle(part.of)}`);
        break;
      case 'newName':
        kinds.set(part.field, 'a new name');
        break;
      case 'text':
        kinds.set(part.field, 'text in quotes');
        break;
      case 'size':
        kinds.set(part.field, 'screw or drill size');
        break;
      case 'run':
        kinds.set(part.field, `names of ${part.of}s, side by side`);
        break;
      case 'word':
      case 'choice':
        if (part.field !== undefined && !kinds.has(part.field)) kinds.set(part.field, 'word');
        break;
      case 'list': {
        const item = part.item;
        const one = item.kind === 'value' ? kindTitle(item.want) : item.kind === 'name' ? `name of ${withArticle(item.of)}` : 'group';
        kinds.set(part.field, `list: ${one}`);
        if (item.kind === 'sequence') walk(item);
        break;
      }
      case 'optional':
        walk(part.item);
        break;
      case 'sequence':
      case 'anyOrder':
      case 'oneOf':
        for (const item of part.items) walk(item);
        break;
      case 'sign':
      case 'block':
        break;
    }
  };
  walk(pattern);
  return kinds;
};

const cell = (words: string): string => words.replaceAll('|', '\\|').replaceAll('\n', ' ');

const argumentTable = (entry: StatementEntry): string => {
  const kinds = argumentKinds(entry.pattern);
  const labels = labelsOf(entry.pattern);
  const rows = Object.entries(entry.arguments).map(
    ([field, help]) => `| ${labels.get(field) ?? ''} | ${kinds.get(field) ?? ''} | ${cell(help.summary)} | ${cell(help.default ?? '')} |`,
  );
  return rows.length === 0 ? '' : `\n| argument | what it is | meaning | when left out |\n| --- | --- | --- | --- |\n${rows.join('\n')}\n`;
};

const joined = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;

/**
 * One statement's page as markdown.
 *
 * @param level how many `#` stand before its title
 * @param shownBy the statement under which the same example was already printed
 */
export const statementPage = (entry: StatementEntry, level: number, shownBy?: StatementEntry): string => {
  const placing = placesOf(entry);
  const usage = [...usageOf(entry), ...(placing.length > 0 ? ['', 'PLACES:', ...placing.map((line) => `  ${line}`)] : [])]
    .map((line) => `${line}\n`)
    .join('');
  const later = entry.computed ? '' : '\n*Read and checked as text; nothing is worked out from it yet.*\n';
  return `${'#'.repeat(level)} \`${entry.word}\` ${joined(entry.places.map(placeTitle))}

${entry.summary}

\`\`\`text
${usage}\`\`\`
${argumentTable(entry)}
${entry.note}
${later}
${shownBy === undefined ? `\`\`\`planish\n${entry.example}\`\`\`` : `Its example is the one under \`${shownBy.word}\` ${placeTitle(shownBy.places[0] ?? 'file')}.`}
`;
};

/** Spellings as they stand after a number; the signs for inch and foot in words of their own. */
export const unitLine = (unit: UnitEntry): string => {
  const kind = unitKinds[unit.kind];
  const worth =
    unit.factor === undefined
      ? 'read by the metal’s own gauge table'
      : `${Number(unit.factor.toPrecision(10))} ${kind.base === '1' ? '' : kind.base}`.trim();
  return `| ${unit.spellings.map((spelling) => `\`${spelling}\``).join(' ')} | ${kind.words} | ${worth} |`;
};

/**
 * Markdown for a word of the language, or nothing when the language has no such word.
 *
 * @param written a statement's word, a word within statements, a function's name or a unit, in any of its spellings
 */
export const explainIn = (entries: readonly StatementEntry[], written: string): string | undefined => {
  const word = written.trim();
  const folded = tableSpelling(word);
  const statements = entries.filter((entry) => entry.word === word || entry.word === folded);
  const pages = statements.map((entry) => statementPage(entry, 2));

  const functionEntry = functions.find((entry) => entry.name === word);
  if (functionEntry !== undefined) pages.push(`## \`${functionEntry.usage}\`\n\n${functionEntry.summary}\n`);

  const unit = unitOf(word);
  if (unit !== undefined)
    pages.push(`## \`${unit.name}\`, a unit\n\n| written | measures | is |\n| --- | --- | --- |\n${unitLine(unit)}\n`);

  const within = entries.filter((entry) => wordsOf(entry.pattern).some((w) => w === word || w === folded));
  if (within.length > 0)
    pages.push(
      `## \`${folded}\` within other statements\n\n${within.map((entry) => `- \`${entry.word}\` ${joined(entry.places.slice(0, 3).map(placeTitle))}: ${entry.summary}`).join('\n')}\n`,
    );
  return pages.length === 0 ? undefined : pages.join('\n');
};
