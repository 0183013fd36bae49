/** Every name of a file: where it is brought into being and where it is spoken of. Read off the tree, nothing is worked out. */
import type { Argument, Expr, Ident, Span, Statement } from '../../grammar/syntax.js';
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import { itemsOf, newNameField } from './arguments.js';
import { walkExpr } from './checks.js';
import { type FieldNames, fieldNamesOf } from './fieldNames.js';
import type { Definition, NamedThing, Reference, SymbolTable } from './model.js';
import { aliased, findNamed, inFile } from './names.js';
import type { Entry, FileNames } from './reading.js';

interface StaticScope {
  readonly parent: StaticScope | undefined;
  readonly values: Map<string, NamedThing>;
}
interface Around {
  readonly scope: StaticScope | undefined;
  /** Names within the part: edges, flanges, features, legs. */
  readonly local: Map<string, NamedThing> | undefined;
  readonly part: string | undefined;
}

const localKinds: readonly NameKind[] = ['edge', 'flange', 'feature', 'leg', 'curve', 'place', 'index'];
const localKey = (kind: NameKind, name: string): string => `${kind} ${name}`;

const fieldsCache = (): ((statement: Statement) => FieldNames | undefined) => {
  const known = new Map<object, FieldNames>();
  return ({ entry }) => {
    if (entry === undefined) return undefined;
    let fields = known.get(entry);
    if (fields === undefined) {
      fields = fieldNamesOf(entry.pattern);
      known.set(entry, fields);
    }
    return fields;
  };
};

export const readSymbols = (names: FileNames): SymbolTable => {
  const fieldsOf = fieldsCache();
  const definitions: Definition[] = [];
  const references: Reference[] = [];

  const define = (kind: NameKind, name: Ident, statement: Statement, around: Around): NamedThing => {
    const thing: Definition = {
      name: name.name,
      kind,
      file: names.path,
      span: name.span,
      full: statement.span,
      part: around.part,
      note: statement.note,
    };
    definitions.push(thing);
    return thing;
  };
  const refer = (kind: NameKind, name: Ident, target: NamedThing | undefined): void => {
    references.push({ name: name.name, kind, span: name.span, target });
  };
  const target = (entry: Entry): NamedThing => ({ name: entry.name, kind: entry.kind, file: entry.file, span: entry.span });
  const inTop = (kind: NameKind, name: string): NamedThing | undefined => {
    const found = inFile(kind, name, names);
    return found.kind === 'one'
      ? target(found.entry)
      : found.kind === 'several' && found.entries[0] !== undefined
        ? target(found.entries[0])
        : undefined;
  };
  const scoped = (name: string, scope: StaticScope | undefined): NamedThing | undefined => {
    for (let at = scope; at !== undefined; at = at.parent) {
      const thing = at.values.get(name);
      if (thing !== undefined) return thing;
    }
    return undefined;
  };
  const fileThing = (name: string): NamedThing | undefined => {
    const other = aliased(name, names);
    return other?.aliasSpan === undefined ? undefined : { name, kind: 'file', file: names.path, span: other.aliasSpan };
  };

  const referPath = (path: readonly Ident[], around: Around): void => {
    const [head, second, third] = path;
    if (head === undefined) return;
    const value = scoped(head.name, around.scope) ?? inTop('value', head.name);
    if (second === undefined) {
      refer(value?.kind ?? 'value', head, value);
      return;
    }
    const part = inTop('part', head.name);
    if (value !== undefined && (part === undefined || second.name === 'x' || second.name === 'y')) refer(value.kind, head, value);
    else if (part !== undefined) refer('part', head, part);
    else if (aliased(head.name, names) !== undefined) {
      refer('file', head, fileThing(head.name));
      const steps = [head.name, second.name];
      const inner = third === undefined ? findNamed('value', steps, names) : findNamed('part', steps, names);
      const other = inner.kind === 'one' ? inner : findNamed('value', steps, names);
      refer(other.kind === 'one' ? other.entry.kind : 'value', second, other.kind === 'one' ? target(other.entry) : undefined);
    } else refer('value', head, undefined);
  };
  const referExpr = (expr: Expr, around: Around): void =>
    walkExpr(expr, (at) => {
      if (at.kind === 'name') referPath(at.path, around);
      if (at.kind === 'number' && at.ofMaterial !== undefined) referThing('material', at.ofMaterial, around);
    });
  const referThing = (kind: NameKind, path: readonly Ident[], around: Around): void => {
    const [head, second] = path;
    if (head === undefined) return;
    if (localKinds.includes(kind)) {
      const local = (of: NameKind): NamedThing | undefined => around.local?.get(localKey(of, head.name));
      const own = local(kind) ?? (kind === 'flange' ? (local('edge') ?? local('leg')) : undefined);
      const bareEdge = kind === 'flange' && own?.kind !== 'flange' && own?.kind !== 'leg';
      // `leg.2` counts the legs of a section; it is no name anybody gave.
      const counted = own === undefined && head.name === 'leg' && second !== undefined ? 'leg' : undefined;
      refer(own?.kind ?? counted ?? (bareEdge ? 'edge' : kind), head, own);
      return;
    }
    if (second !== undefined && aliased(head.name, names) !== undefined) {
      refer('file', head, fileThing(head.name));
      const found = findNamed(kind, [head.name, second.name], names);
      refer(kind, second, found.kind === 'one' ? target(found.entry) : undefined);
      return;
    }
    refer(kind, head, inTop(kind, head.name));
  };

  const readArgument = (argument: Argument, field: string, fields: FieldNames | undefined, around: Around): void => {
    switch (argument.kind) {
      case 'value':
        referExpr(argument.value, around);
        return;
      case 'name': {
        const kind = fields?.refers.get(field);
        if (kind !== undefined) referThing(kind, argument.path, around);
        return;
      }
      case 'list':
        for (const item of argument.items) readArgument(item, field, fields, around);
        return;
      case 'group':
        for (const [name, item] of Object.entries(argument.fields)) readArgument(item, name, fields, around);
        return;
      default:
        return;
    }
  };

  /** Names brought into being within a part, at any depth, are known throughout it. */
  const gather = (statements: readonly Statement[], around: Around): void => {
    for (const statement of statements) {
      const fields = fieldsOf(statement);
      for (const [field, kind] of fields?.brings ?? []) {
        if (kind === 'value' || kind === 'index') continue;
        const argument = statement.fields[field];
        for (const item of itemsOf(argument)) {
          if (item.kind === 'newName') around.local?.set(localKey(kind, item.name.name), define(kind, item.name, statement, around));
        }
      }
      if (statement.block !== undefined) gather(statement.block.statements, around);
    }
  };

  const readBlock = (statements: readonly Statement[], around: Around, index: NamedThing | undefined): void => {
    const values = new Map<string, NamedThing>();
    if (index !== undefined) values.set(index.name, index);
    for (const statement of statements) {
      const name = statement.word.name === 'let' ? newNameField(statement, 'name') : undefined;
      if (name !== undefined) values.set(name.name, define('value', name, statement, around));
    }
    const inner: Around = values.size === 0 ? around : { ...around, scope: { parent: around.scope, values } };
    for (const statement of statements) readStatement(statement, inner);
  };

  const readStatement = (statement: Statement, around: Around): void => {
    const fields = fieldsOf(statement);
    for (const [field, argument] of Object.entries(statement.fields)) readArgument(argument, field, fields, around);
    if (statement.block === undefined) return;
    const name = statement.word.name === 'repeat' ? newNameField(statement, 'as') : undefined;
    readBlock(statement.block.statements, around, name === undefined ? undefined : define('index', name, statement, around));
  };

  const top: Around = { scope: undefined, local: undefined, part: undefined };
  for (const statement of names.tree.statements) {
    const fields = fieldsOf(statement);
    for (const [field, kind] of fields?.brings ?? []) {
      const name = newNameField(statement, field);
      if (name !== undefined) define(kind, name, statement, top);
    }
    const part = statement.entry?.family === 'part' ? newNameField(statement, 'name')?.name : undefined;
    const local = new Map<string, NamedThing>();
    const around: Around = { scope: undefined, local, part };
    if (statement.block !== undefined) gather(statement.block.statements, around);
    readStatement(statement, around);
  }
  const byPlace = (a: { readonly span: Span }, b: { readonly span: Span }): number => a.span.start - b.span.start;
  return { definitions: definitions.sort(byPlace), references: references.sort(byPlace) };
};
