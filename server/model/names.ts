/** Who is meant by a name: in the blocks around, in the file, in the files it brings. */
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import { either, nearestNames, together } from './nearest.js';
import type { Brought, Entry, FileNames, Reading, Scope, ValueEntry } from './reading.js';

export type Found =
  | { readonly kind: 'one'; readonly entry: Entry }
  | { readonly kind: 'several'; readonly entries: readonly Entry[] }
  /** `hidden`: a file that is brought can't be had, and the name may be in it. */
  | { readonly kind: 'none'; readonly hidden: boolean };

export const isValueEntry = (entry: Entry | undefined): entry is ValueEntry => entry !== undefined && 'state' in entry;

export const inScopes = (name: string, scope: Scope | undefined): ValueEntry | undefined => {
  for (let at = scope; at !== undefined; at = at.parent) {
    const entry = at.values.get(name);
    if (entry !== undefined) return entry;
  }
  return undefined;
};

/** A name at the top of the file, its own or one brought without `as`. */
export const inFile = (kind: NameKind, name: string, names: FileNames): Found => {
  const own = names.own.get(kind)?.get(name);
  let first = own;
  let several: Entry[] | undefined;
  let hidden = false;
  for (const brought of names.brought) {
    if (brought.alias !== undefined) continue;
    const other = brought.names();
    if (other === undefined) {
      hidden = true;
      continue;
    }
    const entry = other.own.get(kind)?.get(name);
    if (entry === undefined) continue;
    if (first === undefined) first = entry;
    else {
      several ??= [first];
      several.push(entry);
    }
  }
  if (several !== undefined) return { kind: 'several', entries: several };
  return first === undefined ? { kind: 'none', hidden } : { kind: 'one', entry: first };
};

export const aliased = (name: string, names: FileNames): Brought | undefined => names.brought.find((brought) => brought.alias === name);

/** Path of a thing of some kind: `crs_18` or `bench.crs_18`. */
export const findNamed = (kind: NameKind, path: readonly string[], names: FileNames): Found => {
  const [head, next] = path;
  if (head === undefined) return { kind: 'none', hidden: false };
  if (next === undefined) return inFile(kind, head, names);
  const other = aliased(head, names);
  if (other === undefined || path.length > 2) return { kind: 'none', hidden: false };
  const file = other.names();
  const entry = file?.own.get(kind)?.get(next);
  return entry === undefined ? { kind: 'none', hidden: file === undefined } : { kind: 'one', entry };
};

/** Every name of a kind that can be written at the top of a file, dotted where it must be. */
export const visibleNames = (kind: NameKind, names: FileNames): readonly string[] => {
  const all = [...(names.own.get(kind)?.keys() ?? [])];
  for (const brought of names.brought) {
    const own = brought.names()?.own.get(kind);
    if (own === undefined) continue;
    for (const name of own.keys()) all.push(brought.alias === undefined ? name : `${brought.alias}.${name}`);
  }
  return all;
};
export const valuesInSight = (reading: Reading): readonly string[] => {
  const all: string[] = [];
  for (let at = reading.scope; at !== undefined; at = at.parent) all.push(...at.values.keys());
  return [...all, ...visibleNames('value', reading.names)];
};

/** File's name without its folders, for messages. */
export const shortPath = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

export const severalMessage = (name: string, entries: readonly Entry[]): string =>
  `${name} is in ${together(entries.map((entry) => shortPath(entry.file)))}, so it can't be told which is meant. Bring one of the files with a name of its own (with "…" as bench) and write bench.${name}.`;

const kindWords: Readonly<Partial<Record<NameKind, string>>> = {
  stock: 'tube, bar, rod or angle',
  value: 'value',
  leg: 'leg',
  file: 'file',
};
/** "a sheet", "an edge". */
export const kindInWords = (kind: NameKind): string => {
  const word = kindWords[kind] ?? kind;
  return `${/^[aeiou]/.test(word) ? 'an' : 'a'} ${word}`;
};
/** "There is no sheet crs_81. Did you mean crs_18?" */
export const unknownMessage = (
  kind: NameKind,
  name: string,
  all: readonly string[],
): { readonly message: string; readonly near: readonly string[] } => {
  const near = nearestNames(name, all);
  const word = kindWords[kind] ?? kind;
  const said = `There is no ${word} ${name} in sight.`;
  if (near.length > 0) return { message: `${said} Did you mean ${either(near)}?`, near };
  const listed = [...new Set(all)].slice(0, 8);
  if (listed.length > 0) return { message: `${said} There is ${together(listed)}${all.length > 8 ? ' and more' : ''}.`, near };
  return { message: `${said} Describe it, or bring the file that does: with "shop.planish".`, near };
};
