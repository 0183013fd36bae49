import type { Position, Range, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import type { NamedThing } from '../model/model.js';
import { type Ask, covers, linesOf, rangeOf } from './ask.js';
import { definitionOf, nameAt, occurrencesOf, sameThing } from './names.js';
import { allStatements } from './walk.js';

/** Either what was asked for or, in words a person can act on, why not. */
export type Answer<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reason: string };
const no = (reason: string): { readonly ok: false; readonly reason: string } => ({ ok: false, reason });

/** Reserved everywhere in the language: never a name. */
const reserved: ReadonlySet<string> = new Set(
  'let with units check note panel section piece strap survey assembly repeat opposite and or not yes no'.split(' '),
);

export const prepareRename = (ask: Ask, position: Position): Answer<{ readonly range: Range; readonly placeholder: string }> => {
  const lines = linesOf(ask);
  const name = nameAt(ask.project.model(ask.path), lines.offsetAt(position));
  if (name === undefined) return no('Only names can be renamed: put the cursor on a name of your own, such as a part, a value or a sheet.');
  if (name.target === undefined) return no(notWritten(name.name));
  const writable = renamable(ask, name.target);
  return writable.ok ? { ok: true, value: { range: rangeOf(lines, name.span), placeholder: name.name } } : writable;
};

/** Renames a thing everywhere in the project, or says why that would break it. */
export const rename = (ask: Ask, position: Position, fresh: string): Answer<WorkspaceEdit> => {
  const name = nameAt(ask.project.model(ask.path), linesOf(ask).offsetAt(position));
  if (name?.target === undefined) return no('Only names can be renamed.');
  const { target } = name;
  const writable = renamable(ask, target);
  if (!writable.ok) return writable;
  if (!/^[\p{L}_][\p{L}\p{N}_]*$/u.test(fresh)) return no(`${fresh} can't be a name: a name is a letter or _, then letters, digits and _.`);
  if (reserved.has(fresh)) return no(`${fresh} is a word of the language, so it can't be a name.`);
  const changes = new Map<string, TextEdit[]>();
  const places = occurrencesOf(ask, target);
  for (const place of places) {
    // Asked at every place of use: a file that brings another of that name would break without a word here.
    const clash = ask.project
      .model(place.path)
      .candidatesAt(place.span.start, rivals[target.kind] ?? [target.kind])
      .find(({ written, target: found }) => written === fresh && found !== undefined && found.name !== target.name);
    const other = clash?.target ?? hidden(ask, place.path, target, fresh);
    if (other !== undefined) return no(`${fresh} is taken: ${where(ask, other)} already has that name.`);
    const edits = changes.get(place.path) ?? [];
    edits.push({ range: rangeOf(linesOf(ask, place.path), place.span), newText: fresh });
    changes.set(place.path, edits);
  }
  return { ok: true, value: { changes: Object.fromEntries([...changes].map(([path, edits]) => [ask.uriOf(path), edits])) } };
};

/** Kinds that are written alike in a sum: a name of one would be read as the other. A part and a value may share a name. */
const rivals: Partial<Record<NameKind, readonly NameKind[]>> = {
  value: ['value', 'index', 'file'],
  index: ['value', 'index', 'file'],
  part: ['part', 'file'],
  file: ['value', 'index', 'part', 'file'],
};

/** A value made within the braces where this one is known too: within, a name can't mean another than outside. */
const hidden = (ask: Ask, path: string, target: NamedThing, fresh: string): NamedThing | undefined => {
  if (target.kind !== 'value' && target.kind !== 'index') return undefined;
  const { symbols } = ask.project.model(path);
  const blocks = [...allStatements(ask.project.tree(target.file).statements)].flatMap(({ block }) => block?.span ?? []);
  const around = blocks.filter((block) => covers(block, target.span)).sort((a, b) => b.start - a.start)[0];
  const known = target.kind === 'index' ? definitionOf(ask, target)?.full : around;
  return symbols.definitions.find(
    (one) =>
      one.name === fresh &&
      (one.kind === 'value' || one.kind === 'index') &&
      !sameThing(one, target) &&
      (known === undefined || (path === target.file && covers(known, one.span))),
  );
};

const renamable = (ask: Ask, target: NamedThing): Answer<true> => {
  const written = definitionOf(ask, target);
  const text = ask.project.tree(target.file).text;
  if (written === undefined || text.slice(target.span.start, target.span.end) !== target.name) {
    return no(notWritten(target.name));
  }
  return { ok: true, value: true };
};

const notWritten = (name: string): string => `${name} is not a name made in one of these files, so it can't be renamed here.`;

const where = (ask: Ask, thing: NamedThing): string => {
  const line = linesOf(ask, thing.file).positionAt(thing.span.start).line + 1;
  return `the ${thing.kind} in ${thing.file.slice(thing.file.lastIndexOf('/') + 1)}, line ${line}`;
};
