/** Names that somebody may have meant. */

/** Edits (one letter put in, left out, changed, or two swapped) between two words, given up above `limit`. */
const distance = (a: string, b: string, limit: number): number => {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      row.push(cost);
      least = Math.min(least, cost);
    }
    if (least > limit) return limit + 1;
    before = last;
    last = row;
  }
  return last[b.length] ?? limit + 1;
};

/** Up to three of `names` close to `word`, nearest first: a third of its letters may differ, and one beginning that matches also counts. */
export const nearestNames = (word: string, names: Iterable<string>): readonly string[] => {
  const small = word.toLowerCase();
  const limit = Math.max(1, Math.floor(small.length / 3));
  const near: { readonly name: string; readonly cost: number }[] = [];
  for (const name of new Set(names)) {
    const other = name.toLowerCase();
    const begins = small.length >= 3 && (other.startsWith(small) || small.startsWith(other) || other.endsWith(`_${small}`));
    const cost = Math.min(distance(small, other, limit), begins ? limit : limit + 1);
    if (cost <= limit) near.push({ name, cost });
  }
  near.sort((a, b) => a.cost - b.cost || (a.name < b.name ? -1 : 1));
  return near.slice(0, 3).map((item) => item.name);
};

/** `a`, `a or b`, `a, b or c`. */
export const either = (words: readonly string[]): string => joined(words, 'or');
export const together = (words: readonly string[]): string => joined(words, 'and');
const joined = (words: readonly string[], last: string): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${last} ${words[words.length - 1]}`;
