import type { Span } from '../../grammar/syntax.js';
import type { Definition, FileModel, NamedThing } from '../model/model.js';
import { type Ask, sameSpan, touches } from './ask.js';

/** A name under the cursor: where it is written, and what it means when that is known. */
export interface NameAt {
  readonly span: Span;
  readonly name: string;
  readonly target: NamedThing | undefined;
}

export const nameAt = (model: FileModel, offset: number): NameAt | undefined => {
  const definition = model.symbols.definitions.find((one) => touches(one.span, offset));
  if (definition !== undefined) return { span: definition.span, name: definition.name, target: definition };
  const reference = model.symbols.references.find((one) => touches(one.span, offset));
  return reference === undefined ? undefined : { span: reference.span, name: reference.name, target: reference.target };
};

export const sameThing = (a: NamedThing, b: NamedThing): boolean => a.file === b.file && a.kind === b.kind && sameSpan(a.span, b.span);

/** Where and how a thing is defined; undefined for what is given without being written, such as a rectangle's `top`. */
export const definitionOf = (ask: Ask, thing: NamedThing): Definition | undefined =>
  ask.project.model(thing.file).symbols.definitions.find((one) => sameThing(one, thing));

export interface Occurrence {
  readonly path: string;
  readonly span: Span;
  readonly definition: boolean;
}

/** Every place in the project where a thing is named, its definition first. */
export const occurrencesOf = (ask: Ask, thing: NamedThing): readonly Occurrence[] => {
  const found: Occurrence[] = [];
  const definition = definitionOf(ask, thing);
  if (definition !== undefined) found.push({ path: thing.file, span: definition.span, definition: true });
  const paths = new Set([thing.file, ask.path, ...ask.files()]);
  for (const path of paths) found.push(...referencesIn(ask, path, thing));
  return found;
};

/** Places in one file where a thing is referred to, in order, each once: the metal of `16 ga of mild_steel` may be read for the gauge and for the rating. */
export const referencesIn = (ask: Ask, path: string, thing: NamedThing): readonly Occurrence[] =>
  ask.project
    .model(path)
    .symbols.references.filter((one) => one.target !== undefined && sameThing(one.target, thing))
    .filter((one, at, all) => at === 0 || !sameSpan(one.span, (all[at - 1] as typeof one).span))
    .map((one) => ({ path, span: one.span, definition: false }));
