/** The vocabulary made ready for reading: at each point of a pattern, what may come first and what may come after. */
import { entries } from './vocabulary/index.js';
import type { NameKind, Pattern, Place, StatementEntry, ValueKind } from './vocabulary/pattern.js';
import { tableSpelling } from './vocabulary/units.js';
import { blockOf, wordsOf } from './vocabulary/words.js';

export interface First {
  readonly words: ReadonlySet<string>;
  readonly signs: ReadonlySet<string>;
  readonly value: boolean;
  readonly name: boolean;
  readonly text: boolean;
  readonly size: boolean;
  readonly block: boolean;
  /** Nothing at all may come: the statement may end here. */
  readonly end: boolean;
}

/** What ends a value besides what ends every value. */
export interface Surroundings {
  /** `and` and `or` belong to the value. */
  readonly logic: boolean;
  /** The statement itself goes on with `of`, `by`, or a comma. */
  readonly of: boolean;
  readonly by: boolean;
  readonly comma: boolean;
  readonly want: ValueKind;
  readonly field: string;
}

/** A part of a pattern that is a single word, sign, value, name, text, size or block. */
export type Leaf = Exclude<Pattern, { kind: 'list' | 'sequence' | 'optional' | 'anyOrder' | 'oneOf' }>;

export interface Step {
  readonly pattern: Pattern;
  readonly items: readonly Step[];
  readonly first: First;
  readonly follow: First;
  /** Leaves that may come first, for completion. */
  readonly leaves: readonly Leaf[];
  readonly surroundings: Surroundings;
  /** Words of a choice, cut at their blanks, longest first. */
  readonly choices: readonly { readonly word: string; readonly parts: readonly string[] }[];
}

export interface Compiled {
  readonly entry: StatementEntry;
  readonly step: Step;
  readonly blockPlace: Place | undefined;
  /** Every literal word of the pattern. */
  readonly words: readonly string[];
}

const noWords: ReadonlySet<string> = new Set();
const nothing: First = { words: noWords, signs: noWords, value: false, name: false, text: false, size: false, block: false, end: false };
const statementEnd: First = { ...nothing, end: true };

const union = (a: First, b: First): First => ({
  words: b.words.size === 0 ? a.words : new Set([...a.words, ...b.words]),
  signs: b.signs.size === 0 ? a.signs : new Set([...a.signs, ...b.signs]),
  value: a.value || b.value,
  name: a.name || b.name,
  text: a.text || b.text,
  size: a.size || b.size,
  block: a.block || b.block,
  end: a.end || b.end,
});
const then = (a: First, b: First): First => (a.end ? union({ ...a, end: false }, b) : a);
const unionAll = (all: readonly First[]): First => all.reduce(union, nothing);

const leafFirst = (leaf: Leaf): First => {
  switch (leaf.kind) {
    case 'word':
      return { ...nothing, words: new Set([leaf.word]) };
    case 'choice':
      return { ...nothing, words: new Set(leaf.words.map((w) => w.split(' ')[0] as string)) };
    case 'sign':
      return { ...nothing, signs: new Set([leaf.sign]) };
    case 'value':
      return { ...nothing, value: true };
    case 'name':
    case 'newName':
    case 'run':
      return { ...nothing, name: true };
    case 'text':
      return { ...nothing, text: true };
    case 'size':
      return { ...nothing, size: true };
    case 'block':
      return { ...nothing, block: true };
  }
};

const noSurroundings: Surroundings = { logic: false, of: false, by: false, comma: false, want: 'any', field: '' };

const compile = (pattern: Pattern, follow: First): Step => {
  const composite = (items: readonly Step[], first: First, leaves: readonly Leaf[]): Step => ({
    pattern,
    items,
    first,
    follow,
    leaves,
    surroundings: noSurroundings,
    choices: [],
  });
  switch (pattern.kind) {
    case 'sequence': {
      const items: Step[] = [];
      let after = follow;
      let first: First = { ...nothing, end: true };
      let leaves: Leaf[] = [];
      for (let i = pattern.items.length - 1; i >= 0; i--) {
        const step = compile(pattern.items[i] as Pattern, after);
        items.unshift(step);
        after = then(step.first, after);
        first = then(step.first, first);
        leaves = step.first.end ? [...step.leaves, ...leaves] : [...step.leaves];
      }
      return composite(items, first, leaves);
    }
    case 'optional': {
      const item = compile(pattern.item, follow);
      return composite([item], { ...item.first, end: true }, item.leaves);
    }
    case 'oneOf': {
      const items = pattern.items.map((item) => compile(item, follow));
      return composite(
        items,
        unionAll(items.map((s) => s.first)),
        items.flatMap((s) => s.leaves),
      );
    }
    case 'anyOrder': {
      const firsts = unionAll(pattern.items.map((item) => compile(item, nothing).first));
      const items = pattern.items.map((item) => compile(item, union({ ...firsts, end: false }, follow)));
      return composite(
        items,
        { ...firsts, end: true },
        items.flatMap((s) => s.leaves),
      );
    }
    case 'list': {
      const item = compile(pattern.item, union({ ...nothing, signs: new Set([',']) }, follow));
      return composite([item], item.first, item.leaves);
    }
    default: {
      const surroundings: Surroundings =
        pattern.kind === 'value'
          ? {
              logic: pattern.want === 'any' || pattern.want === 'condition',
              of: follow.words.has('of'),
              by: follow.words.has('by'),
              comma: follow.signs.has(','),
              want: pattern.want,
              field: pattern.field,
            }
          : noSurroundings;
      const choices =
        pattern.kind === 'choice'
          ? pattern.words.map((word) => ({ word, parts: word.split(' ') })).sort((a, b) => b.parts.length - a.parts.length)
          : [];
      const after = pattern.kind === 'run' ? union({ ...nothing, name: true }, follow) : follow;
      return { pattern, items: [], first: leafFirst(pattern), follow: after, leaves: [pattern], surroundings, choices };
    }
  }
};

const compiled: readonly Compiled[] = entries.map((entry) => ({
  entry,
  step: compile(entry.pattern, statementEnd),
  blockPlace: blockOf(entry.pattern),
  words: [...new Set(wordsOf(entry.pattern).flatMap((word) => word.split(' ')))],
}));

const byPlace = new Map<Place, Map<string, Compiled>>();
const byWord = new Map<string, Compiled[]>();
for (const one of compiled) {
  byWord.set(one.entry.word, [...(byWord.get(one.entry.word) ?? []), one]);
  for (const place of one.entry.places) {
    const there = byPlace.get(place) ?? new Map<string, Compiled>();
    there.set(one.entry.word, one);
    byPlace.set(place, there);
  }
}

/** Inside the braces of a statement nobody knows: every word is taken as it comes. */
export const unknownPlace: Place = 'unknown';

/** The statement that begins with a word as written, in a place. */
export const statementAt = (place: Place, written: string): Compiled | undefined => {
  if (place === unknownPlace) return byWord.get(written)?.[0];
  const there = byPlace.get(place);
  return there?.get(written) ?? there?.get(tableSpelling(written));
};
export const statementsOf = (written: string): readonly Compiled[] => byWord.get(written) ?? byWord.get(tableSpelling(written)) ?? [];
export const statementWordsAt = (place: Place): readonly string[] => [...(byPlace.get(place)?.keys() ?? [])];

/** Every word that begins a statement somewhere. */
export const statementWords: ReadonlySet<string> = new Set(byWord.keys());
/** Words whose statement may take braces. */
export const blockWords: ReadonlySet<string> = new Set(compiled.filter((one) => one.blockPlace !== undefined).map((one) => one.entry.word));
/** Words that begin a statement at the top of a file and nowhere else. */
export const topWords: ReadonlySet<string> = new Set(
  [...byWord].filter(([, all]) => all.every((one) => one.entry.places.every((place) => place === 'file'))).map(([w]) => w),
);

/** Whether a word as written is among the words of a set, in either spelling. */
export const among = (words: ReadonlySet<string>, written: string): boolean =>
  words.has(written) || (words.size > 0 && words.has(tableSpelling(written)));

export type Want =
  | { readonly value: ValueKind; readonly field: string }
  | { readonly name: NameKind; readonly field: string }
  | { readonly newName: NameKind; readonly field: string }
  | { readonly text: true; readonly field: string };
