/** What the page remembers across edits, reloads and moves of its panel, and how it reads that back without trusting it. */
import { isViewName, type ViewName } from '../messages.js';
import { FIT, readView, type View } from './viewport.js';

/** How a folded part is looked at: from which side, how near, how far folded. */
export interface Look {
  /** Round the upright axis from the front, and down from above, rad. */
  readonly around: number;
  readonly down: number;
  /** Pixels to a millimetre and what is in the middle; undefined keeps the whole part in sight. */
  readonly held: { readonly scale: number; readonly middle: readonly [number, number, number] } | undefined;
  /** 0 flat, 1 finished. */
  readonly turned: number;
}

export interface Kept {
  readonly uri: string;
  readonly part: string;
  readonly view: ViewName;
  readonly hidden: readonly string[];
  /** Views by document and part, the latest used last. */
  readonly views: readonly (readonly [key: string, view: View])[];
  /** The same for the folded part. */
  readonly looks: readonly (readonly [key: string, look: Look])[];
  /** The step of the bending that is looked at, from 0, by document and part. */
  readonly steps: readonly (readonly [key: string, step: number])[];
}

/** From a corner, above and a little to the right of the front, finished. */
export const FIRST_LOOK: Look = { around: Math.PI / 5, down: Math.PI / 3.2, held: undefined, turned: 1 };

/** Enough for the parts of a job; older ones go back to the fitted view. */
const MOST_VIEWS = 40;

export const NOTHING_KEPT: Kept = { uri: '', part: '', view: 'flat', hidden: [], views: [], looks: [], steps: [] };

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

export const lookFor = (kept: Kept, uri: string, part: string): Look => {
  const key = keyOf(uri, part);
  return kept.looks.find(([name]) => name === key)?.[1] ?? FIRST_LOOK;
};

export const withLook = (kept: Kept, uri: string, part: string, look: Look): Kept => {
  const key = keyOf(uri, part);
  const others = kept.looks.filter(([name]) => name !== key);
  return { ...kept, uri, part, looks: [...others, [key, look] as const].slice(-MOST_VIEWS) };
};

export const stepFor = (kept: Kept, uri: string, part: string): number => {
  const key = keyOf(uri, part);
  return kept.steps.find(([name]) => name === key)?.[1] ?? 0;
};

export const withStep = (kept: Kept, uri: string, part: string, step: number): Kept => {
  const key = keyOf(uri, part);
  const others = kept.steps.filter(([name]) => name !== key);
  return { ...kept, uri, part, steps: [...others, [key, step] as const].slice(-MOST_VIEWS) };
};

export const withLayer = (kept: Kept, layer: string, shown: boolean): Kept => ({
  ...kept,
  hidden: shown ? kept.hidden.filter((name) => name !== layer) : [...kept.hidden.filter((name) => name !== layer), layer],
});

const text = (value: unknown): string => (typeof value === 'string' ? value : '');

const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);

const readLook = (value: unknown): Look => {
  if (typeof value !== 'object' || value === null) return FIRST_LOOK;
  const { around, down, held, turned } = value as Record<string, unknown>;
  if (!isNumber(around) || !isNumber(down) || !isNumber(turned)) return FIRST_LOOK;
  return { around, down, turned: Math.min(1, Math.max(0, turned)), held: readHeld(held) };
};

const readHeld = (value: unknown): Look['held'] => {
  if (typeof value !== 'object' || value === null) return undefined;
  const { scale, middle } = value as Record<string, unknown>;
  if (!isNumber(scale) || scale <= 0 || !Array.isArray(middle)) return undefined;
  const [x, y, z]: unknown[] = middle;
  return isNumber(x) && isNumber(y) && isNumber(z) ? { scale, middle: [x, y, z] } : undefined;
};

const readPairs = <T>(value: unknown, read: (inner: unknown) => T): readonly (readonly [string, T])[] =>
  (Array.isArray(value) ? value : []).flatMap((pair: unknown): (readonly [string, T])[] =>
    Array.isArray(pair) && typeof pair[0] === 'string' ? [[pair[0], read(pair[1])]] : [],
  );

export const readKept = (value: unknown): Kept => {
  if (typeof value !== 'object' || value === null) return NOTHING_KEPT;
  const { uri, part, view, hidden, views, looks, steps } = value as Record<string, unknown>;
  return {
    uri: text(uri),
    part: text(part),
    view: isViewName(view) ? view : 'flat',
    hidden: Array.isArray(hidden) ? hidden.filter((name): name is string => typeof name === 'string') : [],
    views: readPairs(views, readView),
    looks: readPairs(looks, readLook),
    steps: readPairs(steps, (step) => (isNumber(step) && step >= 0 ? Math.floor(step) : 0)),
  };
};
