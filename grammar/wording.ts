/** Plain words for messages: what is wanted, and which known word was probably meant. */
import type { First, Leaf } from './compiled.js';
import type { NameKind, Pattern, ValueKind } from './vocabulary/pattern.js';

const valueWords: Readonly<Record<ValueKind, string>> = {
  any: 'a value',
  length: 'a length',
  angle: 'an angle',
  area: 'an area',
  volume: 'a volume',
  mass: 'a mass',
  density: 'a density',
  force: 'a force',
  stress: 'a stress',
  stiffness: 'a stiffness',
  time: 'a time',
  money: 'a price',
  ratio: 'a number',
  count: 'a count',
  number: 'a number',
  point: 'a point, such as (3, 4)',
  condition: 'something that is yes or no, such as width <= 24',
  moment: 'a moment',
  pressure: 'a pressure',
  heat: 'a heat',
  curvature: 'a curvature',
};
export const valueInWords = (want: ValueKind): string => valueWords[want];

const nameInWords = (kind: NameKind): string => (/^[aeiou]/.test(kind) ? `the name of an ${kind}` : `the name of a ${kind}`);

/** `a`, `b` or `c`. */
export const either = (words: readonly string[]): string => {
  const quoted = words.map((w) => `\`${w}\``);
  return quoted.length < 2 ? (quoted[0] ?? '') : `${quoted.slice(0, -1).join(', ')} or ${quoted.at(-1)}`;
};

/** What may come first, in words: "`up` or `down`", "a length". */
export const wantedInWords = (leaves: readonly Leaf[]): string => {
  const literal = leaves.flatMap((leaf) =>
    leaf.kind === 'word' ? [leaf.word] : leaf.kind === 'choice' ? leaf.words : leaf.kind === 'sign' ? [leaf.sign] : [],
  );
  const kinds = new Set<string>();
  for (const leaf of leaves) {
    switch (leaf.kind) {
      case 'value':
        kinds.add(valueInWords(leaf.want));
        break;
      case 'name':
      case 'run':
        kinds.add(nameInWords(leaf.of));
        break;
      case 'newName':
        kinds.add('a new name');
        break;
      case 'text':
        kinds.add('a text in quotes');
        break;
      case 'word':
      case 'choice':
      case 'sign':
        break;
      case 'size':
        kinds.add('a size, such as M6, 1/4-20 or #30');
        break;
      case 'block':
        kinds.add('a block in braces { }');
        break;
    }
  }
  const parts = [...(literal.length === 0 ? [] : [either([...new Set(literal)].slice(0, 12))]), ...kinds];
  return parts.length < 2 ? (parts[0] ?? 'nothing more') : `${parts.slice(0, -1).join(', ')} or ${parts.at(-1)}`;
};

/** Letters to change, add, leave out or swap to make one word of the other; gives up beyond `most`. */
const editDistance = (a: string, b: string, most: number): number => {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let older: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min((above[j] as number) + 1, (row[j - 1] as number) + 1, (above[j - 1] as number) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, (older[j - 2] as number) + 1);
      row.push(best);
      least = Math.min(least, best);
    }
    if (least > most) return most + 1;
    older = above;
    above = row;
  }
  return above[b.length] as number;
};

/** The known words a written one was probably meant for, nearest first, three at most. */
export const nearest = (written: string, known: Iterable<string>): string[] => {
  const lower = written.toLowerCase();
  const most = written.length < 5 ? 1 : written.length < 9 ? 2 : 3;
  const found: { word: string; distance: number }[] = [];
  for (const candidate of known) {
    if (candidate.length < 2 || (written.length < 3 && candidate.length > 3)) continue;
    const starts = written.length >= 3 && (candidate.startsWith(lower) || (lower.startsWith(candidate) && candidate.length >= 2));
    const distance = lower === candidate ? 0 : Math.min(editDistance(lower, candidate, most), starts ? most : most + 1);
    if (distance <= most && distance < Math.max(candidate.length, 2)) found.push({ word: candidate, distance });
  }
  found.sort((a, b) => a.distance - b.distance || (a.word < b.word ? -1 : 1));
  const best = found[0]?.distance;
  return [...new Set(found.filter((f) => f.distance <= (best as number) + 1).map((f) => f.word))].slice(0, 3);
};

/** Words that may come first, of a choice its whole words. */
export const firstWords = (first: First, leaves: readonly Pattern[]): string[] => {
  const all = leaves.flatMap((leaf) => (leaf.kind === 'choice' ? leaf.words : leaf.kind === 'word' ? [leaf.word] : []));
  return all.length > 0 ? all : [...first.words];
};
