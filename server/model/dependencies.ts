/** What a part took from outside itself: each thing with a mark that changes when the thing does. */

import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import type { MeasuredTree } from './model.js';
import { findNamed, isValueEntry, visibleNames } from './names.js';
import { nearestNames } from './nearest.js';
import type { Entry, FileNames } from './reading.js';
import type { Value } from './values.js';

export interface Dependencies {
  /** A value at the top of a file, by its path as written. */
  readonly value: (path: readonly string[]) => void;
  /** A sheet, material … and all that is in it. */
  readonly thing: (kind: NameKind, path: readonly string[]) => void;
  /** Only which one a name means, not what is in it. */
  readonly which: (kind: NameKind, path: readonly string[]) => void;
  /** Whether there is such a name at all. */
  readonly exists: (kind: NameKind, path: readonly string[]) => void;
  readonly measured: (file: string, part: string, steps: readonly string[]) => void;
}

/** How a mark is taken. */
export interface Marks {
  readonly names: FileNames;
  readonly valueOf: (entry: Entry) => Value;
  /** Marks taken already: within one reading of the file they stay the same, but for measured sizes. */
  readonly known: Map<string, string>;
  /** Content of a sheet or material, without places. */
  readonly contentOf: (entry: Entry) => string;
}

const separator = '\u0001';

/** A record of what is asked for, with the marks at the time. */
export const recordDependencies = (marks: Marks): { readonly dependencies: Dependencies; readonly taken: ReadonlyMap<string, string> } => {
  const taken = new Map<string, string>();
  const note = (what: string, a: string, path: readonly string[]): void => {
    const key = `${what}${separator}${a}${separator}${path.length === 1 ? path[0] : path.join('.')}`;
    if (!taken.has(key)) taken.set(key, markOf(key, marks));
  };
  return {
    taken,
    dependencies: {
      value: (path) => note('value', 'value', path),
      thing: (kind, path) => note('thing', kind, path),
      which: (kind, path) => note('which', kind, path),
      exists: (kind, path) => note('exists', kind, path),
      measured: (file, part, steps) => note('measured', `${file}${separator}${part}`, steps),
    },
  };
};

/** The mark of one thing as it is now. */
export const markOf = (key: string, marks: Marks): string => {
  const known = marks.known.get(key);
  if (known !== undefined) return known;
  const mark = takeMark(key, marks);
  if (!key.startsWith('measured')) marks.known.set(key, mark);
  return mark;
};

const takeMark = (key: string, marks: Marks): string => {
  const pieces = key.split(separator);
  const what = pieces[0];
  const dotted = pieces[pieces.length - 1] ?? '';
  const path = dotted === '' ? [] : dotted.split('.');
  if (what === 'measured') {
    const tree = marks.names.env.measured(pieces[1] ?? '', pieces[2] ?? '');
    return measuredMark(tree, path);
  }
  const kind = (pieces[1] ?? 'value') as NameKind;
  const found = findNamed(kind, path, marks.names);
  if (what === 'exists') return found.kind;
  if (found.kind === 'several') return `several ${found.entries.map((entry) => entry.file).join(' ')}`;
  if (found.kind === 'none')
    return `none ${found.hidden} ${nearestNames(dotted, visibleNames(kind, marks.names)).join(' ')} ${kind === 'value' ? '' : visibleNames(kind, marks.names).join(' ')}`;
  const entry = found.entry;
  switch (what) {
    case 'value':
      return `${entry.file} ${isValueEntry(entry) ? valueMark(marks.valueOf(entry), marks.names) : ''}`;
    case 'thing': {
      const content = marks.contentOf(entry);
      return `${entry.file} ${textMark(content, 0, content.length)}`;
    }
    default:
      return entry.file;
  }
};

const homeMark = (
  value: { readonly bare: boolean; readonly home?: string; readonly mixed?: readonly string[] },
  names: FileNames,
): string => {
  if (!value.bare) return '';
  const unit = value.home === undefined || value.home === names.path ? names.units : names.env.modelOf(value.home)?.units;
  return `bare ${value.home ?? ''} ${unit?.mm ?? ''} ${value.mixed?.join(' ') ?? ''}`;
};
const valueMark = (value: Value, names: FileNames): string => {
  switch (value.kind) {
    case 'number': {
      const { length, angle, mass, force, time, money } = value.dim;
      return `${value.value} ${length} ${angle} ${mass} ${force} ${time} ${money} ${homeMark(value, names)}`;
    }
    case 'point':
      return `(${value.x}, ${value.y}) ${homeMark(value, names)}`;
    case 'text':
      return JSON.stringify(value.text);
    case 'yesno':
      return String(value.yes);
    case 'unknown':
      return 'unknown';
  }
};
const measuredMark = (tree: MeasuredTree | undefined, path: readonly string[]): string => {
  let at: MeasuredTree | Value | undefined = tree;
  for (const step of path) {
    if (at === undefined) return 'unmeasured';
    if (isMeasuredValue(at)) break;
    if (step === 'all') return JSON.stringify(at);
    const next: MeasuredTree | Value | undefined = Object.hasOwn(at, step) ? at[step] : undefined;
    if (next === undefined) return `no ${step} among ${Object.keys(at).join(' ')}`;
    at = next;
  }
  return at === undefined ? 'unmeasured' : isMeasuredValue(at) ? JSON.stringify(at) : `among ${Object.keys(at).join(' ')}`;
};

/** A value has its kind as text; a branch named `kind` would itself be a branch or a value. */
export const isMeasuredValue = (at: MeasuredTree | Value): at is Value => typeof at.kind === 'string';

/** Two 32-bit sums of a text, mixed so that one changed letter changes both; not for secrets. */
export const textMark = (text: string, start: number, end: number): string => {
  let a = 0x9e3779b9;
  let b = 0x85ebca6b;
  for (let i = start; i < end; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 0x01000193);
    b = Math.imul(b + code, 0x27d4eb2f) ^ (b >>> 15);
  }
  return `${end - start}:${(a >>> 0).toString(36)}${(b >>> 0).toString(36)}`;
};
