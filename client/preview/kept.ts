/** What the page remembers across edits, reloads and moves of its panel, and how it reads that back without trusting it. */
import { FIT, readView, type View } from './viewport.js';

export interface Kept {
  readonly uri: string;
  readonly part: string;
  readonly hidden: readonly string[];
  /** Views by document and part, the latest used last. */
  readonly views: readonly (readonly [key: string, view: View])[];
}

/** Enough for the parts of a job; older ones go back to the fitted view. */
const MOST_VIEWS = 40;

export const NOTHING_KEPT: Kept = { uri: '', part: '', hidden: [], views: [] };

const keyOf = (uri: string, part: string): string => `${uri}#${part}`;

export const viewFor = (kept: Kept, uri: string, part: string): View => {
  const key = keyOf(uri, part);
  return kept.views.find(([name]) => name === key)?.[1] ?? FIT;
};

export const withView = (kept: Kept, uri: string, part: string, view: View): Kept => {
  const key = keyOf(uri, part);
  const others = kept.views.filter(([name]) => name !== key);
  return { ...kept, uri, part, views: [...others, [key, view] as const].slice(-MOST_VIEWS) };
};

export const withLayer = (kept: Kept, layer: string, shown: boolean): Kept => ({
  ...kept,
  hidden: shown ? kept.hidden.filter((name) => name !== layer) : [...kept.hidden.filter((name) => name !== layer), layer],
});

const text = (value: unknown): string => (typeof value === 'string' ? value : '');

export const readKept = (value: unknown): Kept => {
  if (typeof value !== 'object' || value === null) return NOTHING_KEPT;
  const { uri, part, hidden, views } = value as Record<string, unknown>;
  const pairs = Array.isArray(views) ? views : [];
  return {
    uri: text(uri),
    part: text(part),
    hidden: Array.isArray(hidden) ? hidden.filter((name): name is string => typeof name === 'string') : [],
    views: pairs.flatMap((pair: unknown): (readonly [string, View])[] =>
      Array.isArray(pair) && typeof pair[0] === 'string' ? [[pair[0], readView(pair[1])]] : [],
    ),
  };
};
