/** What can be told of a pattern without any text: its fields, its words, where it may end, how it is written in a reference. */
import type { Pattern, StatementEntry } from './pattern.js';

const kids = (pattern: Pattern): readonly Pattern[] => {
  switch (pattern.kind) {
    case 'sequence':
    case 'anyOrder':
    case 'oneOf':
      return pattern.items;
    case 'optional':
    case 'list':
      return [pattern.item];
    default:
      return [];
  }
};

/** Every literal word of a pattern, in order, each once. */
export const wordsOf = (pattern: Pattern): readonly string[] => [
  ...new Set(
    pattern.kind === 'word' ? [pattern.word] : pattern.kind === 'choice' ? pattern.words : kids(pattern).flatMap((kid) => wordsOf(kid)),
  ),
];

/** Every field of a pattern, in order, each once; the single item of a list has none of its own. */
export const fieldsOf = (pattern: Pattern): readonly string[] => {
  if (pattern.kind === 'list') return [pattern.field, ...(pattern.item.kind === 'sequence' ? fieldsOf(pattern.item) : [])];
  const own = 'field' in pattern && pattern.field !== undefined ? [pattern.field] : [];
  return [...new Set([...own, ...kids(pattern).flatMap((kid) => fieldsOf(kid))])];
};

/** The place whose statements the pattern's braces hold, when it has braces. */
export const blockOf = (pattern: Pattern): string | undefined =>
  pattern.kind === 'block'
    ? pattern.place
    : kids(pattern)
        .map(blockOf)
        .find((place) => place !== undefined);

export interface PatternEdges {
  /** It may be left out altogether. */
  readonly empty: boolean;
  /** Words it may begin with. */
  readonly first: ReadonlySet<string>;
  /** It may begin with something other than a word of its own (a value, a name, braces). */
  readonly firstOther: boolean;
  /** Words it may still take where it might as well be over. */
  readonly open: ReadonlySet<string>;
}

const union = (...sets: readonly ReadonlySet<string>[]): ReadonlySet<string> => new Set(sets.flatMap((set) => [...set]));
const nothing: ReadonlySet<string> = new Set();

const followedBy = (a: PatternEdges, b: PatternEdges): PatternEdges => ({
  empty: a.empty && b.empty,
  first: a.empty ? union(a.first, b.first) : a.first,
  firstOther: a.firstOther || (a.empty && b.firstOther),
  open: b.empty ? union(a.open, b.open) : b.open,
});

/** Where a pattern begins and may end. A word of two parts counts by its first. */
export const edgesOf = (pattern: Pattern): PatternEdges => {
  switch (pattern.kind) {
    case 'word':
    case 'choice': {
      const words = (pattern.kind === 'word' ? [pattern.word] : pattern.words).map((w) => w.split(' ')[0] as string);
      return { empty: false, first: new Set(words), firstOther: false, open: nothing };
    }
    case 'sequence':
      return pattern.items.map(edgesOf).reduce(followedBy, { empty: true, first: nothing, firstOther: false, open: nothing });
    case 'optional': {
      const item = edgesOf(pattern.item);
      return { ...item, empty: true, open: union(item.first, item.open) };
    }
    case 'anyOrder': {
      const items = pattern.items.map(edgesOf);
      const first = union(...items.map((item) => item.first));
      return {
        empty: true,
        first,
        firstOther: items.some((item) => item.firstOther),
        open: union(first, ...items.map((item) => item.open)),
      };
    }
    case 'oneOf': {
      const items = pattern.items.map(edgesOf);
      return {
        empty: items.some((item) => item.empty),
        first: union(...items.map((item) => item.first)),
        firstOther: items.some((item) => item.firstOther),
        open: union(...items.map((item) => item.open)),
      };
    }
    case 'list':
      return { ...edgesOf(pattern.item) };
    default:
      return { empty: false, first: nothing, firstOther: true, open: nothing };
  }
};

const capitals = (field: string): string => field.replace(/[A-Z]/g, (letter) => `_${letter}`).toUpperCase();

/** Fields called by the small word before them: what they hold says more than "from FROM". */
const small: ReadonlySet<string> = new Set(['as', 'on', 'onto', 'to', 'from', 'at', 'by', 'over', 'under']);

/** An argument in capitals, as a usage shows it. */
const label = (part: Pattern): string => {
  if (part.kind === 'newName' && small.has(part.field)) return 'NAME';
  if (part.kind === 'name' && small.has(part.field)) return capitals(part.of);
  if (part.kind === 'value' && small.has(part.field)) return capitals(part.want);
  return 'field' in part && part.field !== undefined ? capitals(part.field) : '';
};

const written = (pattern: Pattern): string => {
  switch (pattern.kind) {
    case 'word':
      return pattern.word;
    case 'sign':
      return pattern.sign;
    case 'choice':
      return pattern.words.join(' | ');
    case 'text':
      return `"${capitals(pattern.field)}"`;
    case 'list': {
      const item = pattern.item.kind === 'sequence' ? written(pattern.item) : label(pattern.item);
      const least = Math.max(1, pattern.least ?? 1);
      return least === 1 ? `${item}, …` : `${Array.from({ length: least }, () => item).join(', ')}, …`;
    }
    case 'run':
      return `${capitals(pattern.of)} ${capitals(pattern.of)} …`;
    case 'sequence':
      return pattern.items
        .map((item) => (item.kind === 'choice' ? `(${written(item)})` : written(item)))
        .filter((piece) => piece !== '')
        .join(' ');
    case 'optional':
      return pattern.item.kind === 'anyOrder'
        ? written(pattern.item)
        : `[${pattern.item.kind === 'oneOf' ? alternatives(pattern.item.items) : written(pattern.item)}]`;
    case 'anyOrder':
      return pattern.items.map((item) => `[${written(item)}]`).join(' ');
    case 'oneOf':
      return isPlacing(pattern) ? 'PLACES' : `(${alternatives(pattern.items)})`;
    case 'block':
      return '{ … }';
    default:
      return label(pattern);
  }
};

/** Each field as a usage shows it: a word field by its words, an argument with the word that leads to it. */
export const labelsOf = (pattern: Pattern): ReadonlyMap<string, string> => {
  const labels = new Map<string, string[]>();
  const put = (field: string, ...shown: readonly string[]): void => {
    const known = labels.get(field) ?? [];
    labels.set(field, [...known, ...shown.filter((each) => !known.includes(each))]);
  };
  const walk = (part: Pattern, lead: string): void => {
    switch (part.kind) {
      case 'word':
        if (part.field !== undefined) put(part.field, part.word);
        break;
      case 'choice':
        put(part.field, ...part.words);
        break;
      case 'sequence':
        part.items.forEach((item, index) => {
          const before = part.items[index - 1];
          walk(item, index === 0 ? lead : before?.kind === 'word' ? `${before.word} ` : before?.kind === 'sign' ? `${before.sign} ` : '');
        });
        break;
      case 'list':
        put(part.field, `${lead}${written(part)}`);
        if (part.item.kind === 'sequence') walk(part.item, '');
        break;
      case 'optional':
        walk(part.item, lead);
        break;
      case 'anyOrder':
      case 'oneOf':
        for (const item of part.items) walk(item, '');
        break;
      case 'sign':
      case 'block':
        break;
      default:
        put(part.field, `${lead}${written(part)}`);
    }
  };
  walk(pattern, '');
  return new Map([...labels].map(([field, shown]) => [field, shown.map((each) => `\`${each}\``).join(' ')]));
};

/** The forms in which places are given are the same for every cut; they stand under the usage, once. */
const isPlacing = (pattern: Pattern): boolean => pattern.kind === 'oneOf' && fieldsOf(pattern)[0] === 'placing';
const alternatives = (items: readonly Pattern[]): string => items.map(written).join(' | ');

const widest = 110;

/** One choice of a pattern's first oneOf, at its top, parted into its alternatives. */
const parted = (pattern: Pattern): readonly Pattern[] | undefined => {
  if (pattern.kind === 'oneOf') return pattern.items;
  if (pattern.kind !== 'sequence') return undefined;
  const longest = pattern.items
    .map((item, index) => ({
      item,
      index,
      size: item.kind === 'oneOf' && !isPlacing(item) && written(item).length > 30 ? written(item).length : 0,
    }))
    .reduce((a, b) => (b.size > a.size ? b : a), { item: undefined as Pattern | undefined, index: -1, size: 0 });
  if (longest.item?.kind !== 'oneOf') return undefined;
  return longest.item.items.map((alternative) => ({
    kind: 'sequence' as const,
    items: pattern.items.flatMap((item, index) =>
      index === longest.index ? (alternative.kind === 'sequence' ? alternative.items : [alternative]) : [item],
    ),
  }));
};

const lines = (start: string, pattern: Pattern): readonly string[] => {
  const whole = `${start} ${written(pattern)}`.trim();
  if (whole.length <= widest) return [whole];
  const parts = parted(pattern);
  return parts === undefined ? [whole] : parts.flatMap((part) => lines(start, part));
};

const placingOf = (pattern: Pattern): Pattern | undefined =>
  isPlacing(pattern)
    ? pattern
    : kids(pattern)
        .map(placingOf)
        .find((part) => part !== undefined);

/** The forms that PLACES stands for in a statement's usage; none where it does not occur. */
export const placesOf = (entry: StatementEntry): readonly string[] => {
  const placing = placingOf(entry.pattern);
  return placing?.kind === 'oneOf' ? placing.items.map(written) : [];
};

/**
 * How a statement is written: words as they stand, arguments in capitals, what may be left out in square brackets, choices parted by `|`.
 * A long one is given as several lines, one for each of its forms.
 */
export const usageOf = (entry: StatementEntry): readonly string[] => lines(entry.word, entry.pattern);
