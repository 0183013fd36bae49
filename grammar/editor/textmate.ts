/** The colours a text has before anything is understood of it: a TextMate grammar made from the vocabulary. */
import { entries, entriesAt, functions, places, units, wordSpellings } from '../vocabulary/index.js';
import type { NameKind, Pattern, Place, StatementEntry } from '../vocabulary/pattern.js';
import { blockOf } from '../vocabulary/words.js';

interface Rule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly include?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly beginCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly endCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly Rule[];
}

const scope = (name: string): string => `${name}.planish`;
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const name = '[\\p{L}_][\\p{L}\\p{N}_]*';

/** The words given and their other spellings, as one alternation, longest first; never after a dot or within a name. */
const anyOf = (words: readonly string[]): string => {
  const spelled = words.flatMap((word) => [
    word,
    ...Object.keys(wordSpellings).filter((other) => wordSpellings[other] === word && other !== 'in'),
  ]);
  const sorted = [...new Set(spelled)].sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
  return `(?<![\\w.])(${sorted.map((word) => escaped(word).replaceAll(' ', '\\s+')).join('|')})(?!\\w)`;
};

/** Literal words: those that only lead to an argument, and those that are an answer themselves. */
const literals = (pattern: Pattern): { readonly leading: readonly string[]; readonly answers: readonly string[] } => {
  switch (pattern.kind) {
    case 'word':
      return pattern.field === undefined ? { leading: [pattern.word], answers: [] } : { leading: [], answers: [pattern.word] };
    case 'choice':
      return { leading: [], answers: pattern.words };
    case 'optional':
    case 'list':
      return literals(pattern.item);
    case 'sequence':
    case 'anyOrder':
    case 'oneOf': {
      const all = pattern.items.map(literals);
      return { leading: all.flatMap((each) => each.leading), answers: all.flatMap((each) => each.answers) };
    }
    default:
      return { leading: [], answers: [] };
  }
};

const wordRules = (patterns: readonly Pattern[]): readonly Rule[] => {
  const all = patterns.map(literals);
  const answers = all.flatMap((each) => each.answers);
  const leading = all.flatMap((each) => each.leading).filter((word) => !answers.includes(word));
  return [
    ...(answers.length > 0 ? [{ name: scope('support.constant'), match: anyOf(answers) }] : []),
    ...(leading.length > 0 ? [{ name: scope('keyword.other'), match: anyOf(leading) }] : []),
  ];
};

const partWords = new Set(entries.filter((entry) => newNameOf(entry.pattern) === 'part').map((entry) => entry.word));

function newNameOf(pattern: Pattern): NameKind | undefined {
  if (pattern.kind === 'newName') return pattern.of;
  if (pattern.kind === 'sequence' && pattern.items[0] !== undefined) return newNameOf(pattern.items[0]);
  return undefined;
}
function refersFirst(pattern: Pattern): boolean {
  if (pattern.kind === 'name' || pattern.kind === 'run') return true;
  if (pattern.kind === 'list') return refersFirst(pattern.item);
  return pattern.kind === 'sequence' && pattern.items[0] !== undefined && refersFirst(pattern.items[0]);
}
const nameScope = (kind: NameKind): string =>
  kind === 'value' || kind === 'index' ? 'variable.other.definition' : kind === 'part' ? 'entity.name.type' : 'entity.name.label';

/** A statement's first word, with the name that follows it where one does. */
const head = (entry: StatementEntry): Pick<Rule, 'match' | 'captures'> => {
  const word = { name: scope(partWords.has(entry.word) ? 'storage.type' : 'keyword.control') };
  const brings = newNameOf(entry.pattern);
  if (brings !== undefined)
    return { match: `${anyOf([entry.word])}(?:\\s+(${name}))?`, captures: { 1: word, 2: { name: scope(nameScope(brings)) } } };
  if (refersFirst(entry.pattern))
    return {
      match: `${anyOf([entry.word])}(?:\\s+(${name}(?:\\.${name})*))?`,
      captures: { 1: word, 2: { name: scope('variable.other') } },
    };
  return { match: anyOf([entry.word]), captures: { 1: word } };
};

const isBraced = (pattern: Pattern): boolean =>
  pattern.kind === 'block' ||
  (pattern.kind === 'sequence' && pattern.items.some(isBraced)) ||
  (pattern.kind === 'oneOf' && pattern.items.every(isBraced));

const common: readonly Rule[] = ['#comments', '#text', '#sizes', '#numbers', '#names_brought', '#group'].map((include) => ({ include }));
const values: Rule = { include: '#values' };
const key = (place: Place): string => `in_${place.replaceAll(' ', '_')}`;

const statementRule = (entry: StatementEntry, place: Place): Rule => {
  const { match, captures } = head(entry);
  const inside = blockOf(entry.pattern);
  if (inside === undefined) return { match: match, captures: captures ?? {} };
  // Braces may open on the next line. Where they may be left out, the next statement ends this one.
  const next = isBraced(entry.pattern) ? '' : `|(?=${anyOf(entriesAt(place).map((other) => other.word))})`;
  return {
    name: scope(`meta.${entry.word}`),
    begin: match,
    beginCaptures: captures ?? {},
    end: `(?<=\\})|(?=[;}])|^(?!\\s*(?:\\{|//|$))${next}`,
    patterns: [braces(inside), ...common, ...wordRules([entry.pattern]), values],
  };
};
function braces(place: Place): Rule {
  return {
    begin: '\\{',
    beginCaptures: { 0: { name: scope('punctuation.section.block.begin') } },
    end: '\\}',
    endCaptures: { 0: { name: scope('punctuation.section.block.end') } },
    patterns: [{ include: `#${key(place)}` }],
  };
}
const placeRules = (place: Place): { readonly patterns: readonly Rule[] } => {
  const here = entriesAt(place);
  return {
    patterns: [
      ...common,
      ...here.map((entry) => statementRule(entry, place)),
      ...wordRules(here.map((entry) => entry.pattern)),
      braces(place),
      values,
    ],
  };
};

const unitWords = units.flatMap((unit) => unit.spellings).sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
const worded = unitWords.filter((spelling) => /^\p{L}/u.test(spelling));
const signs = unitWords.filter((spelling) => !/^\p{L}/u.test(spelling));
const number = '(?:\\d+(?:\\s+|-)\\d+/\\d+|\\d+/\\d+|\\d*[½¼¾]|\\d+(?:\\.\\d+)?(?:[eE][-+]?\\d+)?|\\.\\d+)';

/** The whole grammar, ready to be written as JSON. */
export const textMateGrammar = (): object => ({
  name: 'Planish',
  scopeName: 'source.planish',
  fileTypes: ['planish'],
  patterns: [{ include: `#${key('file')}` }],
  repository: {
    comments: {
      patterns: [
        { name: scope('comment.line.documentation'), match: '(?<=^|\\s)///.*$' },
        { name: scope('comment.line.double-slash'), match: '//.*$' },
      ],
    },
    text: { name: scope('string.quoted.double'), begin: '["“]', end: '["”]|$' },
    sizes: {
      match: '(?<![\\w.])(tapped|clearance|drill)\\s+(#?\\w+(?:[./-]\\d+)*)',
      captures: { 1: { name: scope('support.constant') }, 2: { name: scope('constant.other') } },
    },
    numbers: {
      match: `(?<![\\w.])(${number})(?:\\s?(${worded.map(escaped).join('|')})(?!\\w)|(${signs.map(escaped).join('|')}))?`,
      captures: {
        1: { name: scope('constant.numeric') },
        2: { name: scope('keyword.other.unit') },
        3: { name: scope('keyword.other.unit') },
      },
    },
    names_brought: {
      match: `(?<![\\w.])(as)\\s+(${name})`,
      captures: { 1: { name: scope('keyword.other') }, 2: { name: scope('entity.name.label') } },
    },
    group: {
      begin: '\\(',
      beginCaptures: { 0: { name: scope('punctuation.section.group.begin') } },
      end: '\\)|(?=[{}])',
      endCaptures: { 0: { name: scope('punctuation.section.group.end') } },
      patterns: [
        { include: '#comments' },
        { include: '#text' },
        { include: '#numbers' },
        { include: '#group' },
        { name: scope('keyword.other'), match: '(?<![\\w.])to(?!\\w)' },
        values,
      ],
    },
    values: {
      patterns: [
        { match: `(?<![\\w.])(${functions.map((each) => each.name).join('|')})(?=\\s*\\()`, name: scope('support.function') },
        { match: '(?<![\\w.])(and|or|not)(?!\\w)', name: scope('keyword.operator.word') },
        { match: '(?<![\\w.])(yes|no)(?!\\w)', name: scope('constant.language') },
        { match: '<=|>=|!=|[-+*/^=<>×−]', name: scope('keyword.operator') },
        { match: `(?<=\\.)(?:${name}|\\d+)`, name: scope('variable.other.property') },
        { match: name, name: scope('variable.other') },
        { match: ',', name: scope('punctuation.separator') },
        { match: '\\.', name: scope('punctuation.accessor') },
        { match: ';', name: scope('punctuation.terminator') },
      ],
    },
    ...Object.fromEntries(places.map((place) => [key(place), placeRules(place)])),
  },
});
