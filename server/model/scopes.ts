/** Names that live between braces. */
import type { Ident, Statement } from '../../grammar/syntax.js';
import { exprOf, newNameField } from './arguments.js';
import { inFile, inScopes } from './names.js';
import { type Reading, type Scope, unknown, type ValueEntry } from './reading.js';
import type { Value } from './values.js';

/** An index of a `repeat`, with its value in this turn. */
export interface Index {
  readonly name: Ident;
  readonly value: Value;
}

/**
 * Reading for the statements of one block: what is around, with the block's own `let`s (in any order) and the index of a repeat.
 * A name that repeats one from outside is reported, and means the inner one within.
 */
export const readingOfBlock = (statements: readonly Statement[], around: Reading, index?: Index): Reading => {
  let values: Map<string, ValueEntry> | undefined;
  let scope: Scope | undefined;
  let inner: Reading | undefined;
  const open = (): { readonly map: Map<string, ValueEntry>; readonly reading: Reading } => {
    values ??= new Map();
    scope ??= { parent: around.scope, values };
    inner ??= { ...around, scope };
    return { map: values, reading: inner };
  };
  const bring = (name: Ident, entry: (reading: Reading) => ValueEntry): void => {
    const { map, reading } = open();
    if (map.has(name.name)) {
      around.sink.report(name.span, 'name/repeated', `${name.name} is already given in these braces. Give one of them another name.`);
      return;
    }
    around.dependencies?.exists('value', [name.name]);
    if (inScopes(name.name, around.scope) !== undefined || inFile('value', name.name, around.names).kind !== 'none') {
      around.sink.report(
        name.span,
        'name/repeated',
        `${name.name} already means a value outside these braces, and can't mean another one within. Give this one another name.`,
      );
    }
    map.set(name.name, entry(reading));
  };
  if (index !== undefined) {
    bring(index.name, (reading) => ({
      kind: 'index',
      name: index.name.name,
      span: index.name.span,
      file: around.names.path,
      statement: undefined,
      expr: undefined,
      reading,
      state: 'done',
      value: index.value,
      ringed: false,
    }));
  }
  for (const statement of statements) {
    if (statement.word.name !== 'let') continue;
    const name = newNameField(statement, 'name');
    if (name !== undefined) bring(name, (reading) => letEntry(statement, name, reading));
  }
  return inner ?? around;
};

/** A `let`, not yet worked out. */
export const letEntry = (statement: Statement, name: Ident, reading: Reading): ValueEntry => ({
  kind: 'value',
  name: name.name,
  span: name.span,
  file: reading.names.path,
  statement,
  expr: exprOf(statement.fields.value),
  reading,
  state: 'waiting',
  value: unknown,
  ringed: false,
});
