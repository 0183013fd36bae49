/** Laying words out on a terminal. */
import pc from 'picocolors';
import type { Io } from './io.js';

export const colours = (io: Io): ReturnType<typeof pc.createColors> => pc.createColors(io.colour);

/**
 * Breaks text at spaces so that no line is longer than the terminal; a word longer than a line stands alone on it.
 *
 * @param indent what every line after the first begins with
 * @param used   how far along the first line already is
 */
export const wrapped = (text: string, columns: number, indent = '', used = 0): string => {
  const width = Math.max(columns, 20);
  if (!Number.isFinite(width)) return text;
  const lines: string[] = [];
  let line = '';
  let room = width - used;
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
      room = width - indent.length;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.join(`\n${indent}`);
};

export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** How many single-letter changes part two words (Levenshtein); for "did you mean". */
const distance = (a: string, b: string): number => {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      next.push(Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)));
    }
    row = next;
  }
  return row[b.length] ?? 0;
};

/** The known words nearest to one that is not known, best first, three at most. */
const nearest = (word: string, known: readonly string[]): readonly string[] => {
  const reach = Math.max(2, Math.floor(word.length / 3));
  const lower = word.toLowerCase();
  return [...new Set(known)]
    .map((each) => ({ each, away: distance(lower, each.toLowerCase()), holds: lower.length > 2 && each.toLowerCase().includes(lower) }))
    .filter(({ away, holds }) => holds || away <= reach)
    .sort((a, b) => a.away - b.away || a.each.localeCompare(b.each))
    .slice(0, 3)
    .map(({ each }) => each);
};

export const didYouMean = (word: string, known: readonly string[]): string => {
  const near = nearest(word, known);
  return near.length === 0 ? '' : ` Did you mean ${near.join(' or ')}?`;
};
