/** A file's tree to its model. */
import type { Statement, Tree } from '../../grammar/syntax.js';
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import { newNameField, textField, wordField } from './arguments.js';
import { type Link, readBrought } from './brought.js';
import { decideCheck } from './checks.js';
import type { Marks } from './dependencies.js';
import { homeUnit } from './dimension.js';
import { valueOfEntry } from './evaluate.js';
import type { Finding } from './finding.js';
import { candidatesAt, membersAt } from './insight.js';
import { decidePart, valueOfExpr } from './later.js';
import type { Environment, FileModel, HomeUnit, SymbolTable } from './model.js';
import { isValueEntry } from './names.js';
import { type KeptPart, type PartRecord, partsOf } from './partRecords.js';
import { type Entry, type FileNames, type Reading, type Sink, unknown } from './reading.js';
import { sayValue } from './say.js';
import { letEntry } from './scopes.js';
import type { Brake, Die, Roller, Saw, Sheet } from './shop.js';
import { readSaw, readStock } from './stocks.js';
import { readSymbols } from './symbols.js';
import { contentMark, readBrake, readDie, readMaterial, readRoller, readSheet, type Thing, type Things } from './things.js';
import { namedTrials, readTrial, withNamedTrials } from './trials.js';
import { unitsFindings } from './unitsFindings.js';

export type { Environment, FileModel, MeasuredTree } from './model.js';

/** What the models of one project see of one another, beyond the contract. */
interface LoadedFile extends FileModel {
  readonly inside: { readonly names: FileNames; readonly things: Things; readonly kept: () => ReadonlyMap<string, KeptPart> };
}
const insideOf = (model: FileModel | undefined): LoadedFile['inside'] | undefined =>
  model !== undefined && 'inside' in model ? (model as LoadedFile).inside : undefined;

/**
 * The model of a file. Nothing is worked out before it is asked for, so that two files may bring each other.
 *
 * @param previous the last model of the same file: parts whose text and everything they read are unchanged are taken over from it
 */
export const loadFile = (path: string, tree: Tree, env: Environment, previous?: FileModel): FileModel => {
  const findings: Finding[] = [];
  const said = new Set<string>();
  const needs: { file: string; span: { start: number; end: number } }[] = [];
  const sink: Sink = {
    report: (span, rule, message, note) => {
      const mark = `${span.start} ${span.end} ${rule} ${message}`;
      if (said.has(mark)) return;
      said.add(mark);
      findings.push({
        file: path,
        span,
        rule,
        severity: note?.severity ?? 'error',
        message,
        fixes: note?.fixes ?? [],
        ...(note?.related === undefined ? {} : { related: note.related }),
      });
    },
    needsUnits: (file, span) => needs.push({ file, span }),
  };
  const names = readNames(path, tree, env, sink);
  const things = readThings(names.names);
  const marks: Marks = {
    names: names.names,
    known: new Map(),
    valueOf: (entry) => (isValueEntry(entry) ? valueOfEntry(entry) : unknown),
    contentOf: (entry) => contentMark(thingsOf(entry, names.names, things)?.of(entry)),
  };
  const records = partsOf(names.names, names.parts, things, marks, insideOf(previous)?.kept());
  for (const record of records.all) sameNameAbove(record, sink);
  let whole: readonly Finding[] | undefined;
  let symbols: SymbolTable | undefined;
  const complete = (): readonly Finding[] => {
    for (const statement of tree.statements) readTop(statement, names.names, things);
    for (const record of records.all) records.part(record);
    const units = unitsFindings(names.names, [...needs, ...records.all.flatMap((record) => records.needs(record))]);
    return [...findings, ...units].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  };
  const model: LoadedFile = {
    path,
    tree,
    units: names.names.units,
    currency: currencyOf(tree),
    get parts() {
      return records.all.map((record) => records.part(record)).filter((part) => part !== undefined);
    },
    get keys() {
      return records.all.filter((record) => records.part(record) !== undefined).map((record) => records.key(record));
    },
    get starts() {
      return records.all.filter((record) => records.part(record) !== undefined).map((record) => record.statement.span.start);
    },
    partNames: records.all.map((record) => record.name.name),
    part: (name) => {
      const record = records.named(name);
      return record === undefined ? undefined : records.part(record);
    },
    get findings() {
      whole ??= complete();
      return whole;
    },
    get symbols() {
      symbols ??= readSymbols(names.names);
      return symbols;
    },
    links: names.links,
    brings: names.names.brought.flatMap((brought) => (brought.path === '' ? [] : [brought.path])),
    valueOf: (expr) => valueOfExpr(expr, names.names),
    say: (value) => sayValue(value, names.names.top),
    hasChecks: (partName) => {
      const statements = records.named(partName)?.statement.block?.statements ?? [];
      return statements.some((statement) => statement.entry?.word === 'check');
    },
    decide: (partName, measured) => {
      const record = records.named(partName);
      return record === undefined ? [] : decidePart(record.statement, partName, measured, names.names);
    },
    get askedTrials() {
      return [...(names.names.own.get('trial')?.values() ?? [])].flatMap((entry) => {
        if (!asksForStrips(entry) || entry.statement === undefined) return [];
        const { asks, name, span } = things.trial(entry);
        return asks === undefined ? [] : [{ name, nameSpan: span, span: entry.statement.span, asks }];
      });
    },
    candidatesAt: (offset, kinds) => candidatesAt(offset, kinds, names.names, model.symbols),
    membersAt: (offset, steps) => membersAt(offset, steps, names.names),
    inside: { names: names.names, things, kept: records.kept },
  };
  return model;
};

const sameNameAbove = (record: PartRecord, sink: Sink): void => {
  if (record.nth === 1) return;
  sink.report(record.name.span, 'name/repeated', `There is already a part ${record.name.name} in this file. Give this one another name.`);
};

const asksForStrips = (entry: Entry): boolean => entry.statement?.block?.statements.some((row) => row.entry?.id === 'for@trial') === true;

/** Which file's memo a thing belongs to. */
const thingsOf = (entry: Entry, names: FileNames, own: Things): Things | undefined =>
  entry.file === names.path ? own : insideOf(names.env.modelOf(entry.file))?.things;

interface ReadNames {
  readonly names: FileNames;
  readonly links: readonly Link[];
  readonly parts: readonly Statement[];
}

const partWords = new Set(['panel', 'section', 'piece', 'strap', 'survey', 'assembly']);

const readNames = (path: string, tree: Tree, env: Environment, sink: Sink): ReadNames => {
  const own = new Map<NameKind, Map<string, Entry>>();
  const parts: Statement[] = [];
  let units: HomeUnit | undefined;
  let unitsGiven = false;
  const { brought, links } = readBrought(path, tree, env, sink, (other) => insideOf(env.modelOf(other))?.names);
  const reading: { top: Reading | undefined } = { top: undefined };
  const names: FileNames = {
    path,
    tree,
    env,
    own,
    brought,
    get units() {
      return units;
    },
    get top() {
      reading.top ??= { names, scope: undefined, sink, dependencies: undefined, part: undefined, measured: undefined };
      return reading.top;
    },
  };
  for (const statement of tree.statements) {
    const word = statement.word.name;
    if (word === 'units') {
      if (unitsGiven)
        sink.report(
          statement.word.span,
          'name/repeated',
          'This file has its units already, above. A file has one; write other units after the numbers.',
        );
      else units = homeUnit(wordField(statement, 'unit') ?? '');
      unitsGiven = true;
      continue;
    }
    if (word === 'with') continue;
    const name = newNameField(statement, 'name');
    if (name === undefined) continue;
    const kind: NameKind | undefined = word === 'let' ? 'value' : partWords.has(word) ? 'part' : kindOfShopWord(statement);
    if (kind === undefined) continue;
    if (kind === 'part') parts.push(statement);
    let space = own.get(kind);
    if (space === undefined) {
      space = new Map();
      own.set(kind, space);
    }
    if (space.has(name.name)) {
      if (kind !== 'part') {
        sink.report(
          name.span,
          'name/repeated',
          `There is already a ${word === 'let' ? 'value' : word} ${name.name} in this file. Give this one another name.`,
        );
      }
      continue;
    }
    const entry: Entry =
      kind === 'value' ? letEntry(statement, name, names.top) : { kind, name: name.name, span: name.span, file: path, statement };
    space.set(name.name, entry);
  }
  return { names, links, parts };
};

const currencyOf = (tree: Tree): string | undefined => {
  const row = tree.statements.find((statement) => statement.entry?.word === 'currency');
  return row === undefined ? undefined : textField(row, 'sign');
};

const kindOfShopWord = (statement: Statement): NameKind | undefined => {
  switch (statement.word.name) {
    case 'material':
    case 'sheet':
    case 'die':
    case 'roller':
    case 'brake':
    case 'saw':
    case 'trial':
      return statement.word.name;
    case 'welder':
    case 'spot_welder':
      return 'welder';
    case 'tube':
    case 'bar':
    case 'rod':
    case 'angle':
      return 'stock';
    default:
      return undefined;
  }
};

const readThings = (names: FileNames): Things => {
  const memo = new Map<Entry, Thing | undefined>();
  const reader = { reading: names.top, fail: () => undefined };
  const once = <T extends Thing | undefined>(entry: Entry, read: () => T): T => {
    // An entry holds one kind of thing for good, so what was kept for it is of that kind.
    if (memo.has(entry)) return memo.get(entry) as T;
    const thing = read();
    memo.set(entry, thing);
    return thing;
  };
  const foreign = (entry: Entry): Things | undefined =>
    entry.file === names.path ? undefined : insideOf(names.env.modelOf(entry.file))?.things;
  /** Sheets before the trials they name: kept apart, since such a trial asks for its sheet while the sheet is at work. */
  const plain = new Map<Entry, Sheet | undefined>();
  const ownPlainSheet = (entry: Entry): Sheet | undefined => {
    if (!plain.has(entry)) plain.set(entry, readSheet(entry, reader, things));
    return plain.get(entry);
  };
  const ownSheet = (entry: Entry): Sheet | undefined => {
    const sheet = ownPlainSheet(entry);
    if (sheet?.method?.kind !== 'trial') return sheet;
    const bend = entry.statement?.block?.statements.find((row) => row.entry?.word === 'bend');
    const named = namedTrials(bend, reader).map(({ entry: of, span }) => ({ trial: things.trial(of), span }));
    return withNamedTrials(sheet, named, reader);
  };
  const things: Things = {
    material: (entry) => foreign(entry)?.material(entry) ?? once(entry, () => readMaterial(entry, reader)),
    sheet: (entry) => {
      const other = foreign(entry);
      return other === undefined ? once(entry, () => ownSheet(entry)) : other.sheet(entry);
    },
    plainSheet: (entry) => {
      const other = foreign(entry);
      return other === undefined ? ownPlainSheet(entry) : other.plainSheet(entry);
    },
    trial: (entry) => foreign(entry)?.trial(entry) ?? once(entry, () => readTrial(entry, reader, { sheet: things.plainSheet, die: dieOf })),
    brakes: () =>
      inSight('brake').map((entry) => foreign(entry)?.of(entry) ?? once(entry, () => readBrake(entry, reader, things))) as readonly Brake[],
    rollers: () =>
      inSight('roller').map(
        (entry) => foreign(entry)?.of(entry) ?? once(entry, () => readRoller(entry, reader, things)),
      ) as readonly Roller[],
    dies: () => inSight('die').map((entry) => foreign(entry)?.of(entry) ?? once(entry, () => readDie(entry, reader))) as readonly Die[],
    // Those that ask tell nothing, so no part depends on them.
    trials: () => inSight('trial').flatMap((entry) => (asksForStrips(entry) ? [] : things.trial(entry))),
    saws: () => inSight('saw').map((entry) => foreign(entry)?.of(entry) ?? once(entry, () => readSaw(entry, reader))) as readonly Saw[],
    stock: (entry) => foreign(entry)?.stock(entry) ?? once(entry, () => readStock(entry, reader, things)),
    of: (entry) => {
      switch (entry.kind) {
        case 'material':
          return things.material(entry);
        case 'sheet':
          return things.sheet(entry);
        case 'brake':
          return once(entry, () => readBrake(entry, reader, things));
        case 'roller':
          return once(entry, () => readRoller(entry, reader, things));
        case 'die':
          return once(entry, () => readDie(entry, reader));
        case 'trial':
          return things.trial(entry);
        case 'stock':
          return things.stock(entry);
        case 'saw':
          return once(entry, () => readSaw(entry, reader));
        default:
          return undefined;
      }
    },
  };
  const dieOf = (entry: Entry): Die | undefined =>
    (foreign(entry)?.of(entry) ?? once(entry, () => readDie(entry, reader))) as Die | undefined;
  const inSight = (kind: NameKind): readonly Entry[] => [
    ...(names.own.get(kind)?.values() ?? []),
    ...names.brought.flatMap((brought) => [...(brought.names()?.own.get(kind)?.values() ?? [])]),
  ];
  return things;
};

/** Works out what stands at the top of a file, for its findings. Parts are read elsewhere. */
const readTop = (statement: Statement, names: FileNames, things: Things): void => {
  const word = statement.word.name;
  if (word === 'check' && statement.entry !== undefined) {
    decideCheck(statement, names.top);
    return;
  }
  if (partWords.has(word)) return;
  const name = newNameField(statement, 'name');
  const kind = word === 'let' ? 'value' : kindOfShopWord(statement);
  const entry = name === undefined || kind === undefined ? undefined : names.own.get(kind)?.get(name.name);
  if (isValueEntry(entry)) valueOfEntry(entry);
  else if (entry !== undefined) things.of(entry);
  notComputed(statement, names.top.sink);
};

/** One finding for a statement nothing is computed from; what stands inside its braces is covered by it. */
const notComputed = (statement: Statement, sink: Sink): void => {
  if (statement.entry?.computed === false) {
    const word = statement.word.name;
    sink.report(
      statement.word.span,
      'text/not-computed-yet',
      `${word} is read but not computed yet: nothing is worked out from it in this version.`,
      {
        severity: 'information',
      },
    );
    return;
  }
  for (const inner of statement.block?.statements ?? []) notComputed(inner, sink);
};
