/** What could be written at a place: names of a kind, and what may follow a dot. Silent. */
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import { isMeasuredValue } from './dependencies.js';
import { isEdgeStepWord } from './edgeSteps.js';
import { valueOfEntry } from './evaluate.js';
import { readingAt } from './later.js';
import type { Candidate, FileModel, MeasuredTree, SymbolTable } from './model.js';
import { aliased, findNamed, inFile, inScopes, isValueEntry, kindInWords, shortPath } from './names.js';
import type { Entry, FileNames, Reading } from './reading.js';
import { sayValue } from './say.js';
import type { Value } from './values.js';

const detailOf = (entry: Entry, reading: Reading): string => {
  const from = entry.file === reading.names.path ? '' : `, from ${shortPath(entry.file)}`;
  return `${isValueEntry(entry) ? sayValue(valueOfEntry(entry), reading) : kindInWords(entry.kind)}${from}`;
};
const thing = (entry: Entry) => ({ name: entry.name, kind: entry.kind, file: entry.file, span: entry.span });

const localKinds: readonly NameKind[] = ['edge', 'flange', 'feature', 'leg', 'curve', 'place'];
const rectangleEdges = ['bottom', 'right', 'top', 'left'];

export const candidatesAt = (
  offset: number,
  kinds: readonly NameKind[],
  names: FileNames,
  symbols: FileModel['symbols'],
): readonly Candidate[] => {
  const reading = readingAt(offset, names);
  const found: Candidate[] = [];
  for (const kind of kinds) {
    if (localKinds.includes(kind)) found.push(...localCandidates(kind, offset, reading, symbols));
    else if (kind === 'file') {
      for (const { alias, path, aliasSpan } of names.brought) {
        if (alias === undefined || aliasSpan === undefined) continue;
        found.push({ written: alias, kind, detail: shortPath(path), target: { name: alias, kind, file: names.path, span: aliasSpan } });
      }
    } else found.push(...sharedCandidates(kind, reading));
  }
  return found;
};

const sharedCandidates = (kind: NameKind, reading: Reading): readonly Candidate[] => {
  const { names } = reading;
  const found: Candidate[] = [];
  const offer = (entry: Entry, written: string): void => {
    found.push({ written, kind: entry.kind, detail: detailOf(entry, reading), target: thing(entry) });
  };
  if (kind === 'value' || kind === 'index') {
    for (let at = reading.scope; at !== undefined; at = at.parent)
      for (const entry of at.values.values()) if (kind === 'value' || entry.kind === kind) offer(entry, entry.name);
  }
  if (kind === 'index') return found;
  for (const entry of names.own.get(kind)?.values() ?? []) offer(entry, entry.name);
  for (const { alias, names: other } of names.brought) {
    for (const entry of other()?.own.get(kind)?.values() ?? []) offer(entry, alias === undefined ? entry.name : `${alias}.${entry.name}`);
  }
  return found;
};

/** Names within the part around: edges of its outline, flanges by edge or name, legs, features. */
const localCandidates = (kind: NameKind, offset: number, reading: Reading, symbols: SymbolTable): readonly Candidate[] => {
  const part = reading.part;
  const statement = reading.names.tree.statements.find((at) => at.span.start <= offset && offset <= at.span.end);
  if (part === undefined || statement === undefined) return [];
  const wanted: readonly NameKind[] = kind === 'flange' ? ['flange', 'edge', 'leg'] : [kind];
  const found: Candidate[] = [];
  for (const definition of symbols.definitions) {
    if (definition.part !== part || !wanted.includes(definition.kind)) continue;
    if (definition.span.start < statement.span.start || definition.span.end > statement.span.end) continue;
    const detail =
      kind === 'flange' && definition.kind === 'edge' ? `first flange of edge ${definition.name}` : kindInWords(definition.kind);
    found.push({ written: definition.name, kind: definition.kind, detail, target: definition });
  }
  const inside = statement.block?.statements ?? [];
  const outline = inside.find((at) => at.entry?.word === 'outline');
  const shape = outline?.fields.shape;
  if (wanted.includes('edge') && shape?.kind === 'word') {
    for (const name of rectangleEdges) {
      found.push({
        written: name,
        kind: 'edge',
        detail: kind === 'flange' ? `first flange of edge ${name}` : 'an edge',
        target: undefined,
      });
    }
  }
  if (kind === 'edge' && inFlange(offset, inside)) {
    for (const name of ['left', 'right', 'bottom', 'top', 'start', 'finish', 'free']) {
      if (!found.some((at) => at.written === name))
        found.push({ written: name, kind, detail: 'an edge of this flange', target: undefined });
    }
  }
  if (wanted.includes('leg')) {
    const legs = inside.filter((at) => at.entry?.word === 'leg').length;
    for (let n = 1; n <= legs; n++) found.push({ written: `leg.${n}`, kind: 'leg', detail: `leg ${n} of ${legs}`, target: undefined });
    const steps = inside.filter(({ entry }) => entry?.word === 'leg' || isEdgeStepWord(entry?.word));
    for (const [at, name] of [
      [steps[0], 'first'],
      [steps.at(-1), 'last'],
    ] as const)
      if (legs > 0 && isEdgeStepWord(at?.entry?.word))
        found.push({ written: name, kind: 'flange', detail: `the ${at.entry.word} at the ${name} edge`, target: undefined });
  }
  return found;
};
const inFlange = (offset: number, statements: FileNames['tree']['statements']): boolean =>
  statements.some(({ block }) => {
    if (block === undefined || offset < block.span.start || offset > block.span.end) return false;
    return block.place === 'flange' || inFlange(offset, block.statements);
  });

export const membersAt = (
  offset: number,
  path: readonly string[],
  names: FileNames,
): readonly { readonly name: string; readonly detail: string }[] => {
  const [head, ...rest] = path;
  if (head === undefined) return [];
  const reading = readingAt(offset, names);
  const value = inScopes(head, reading.scope) ?? entryOf(inFile('value', head, names));
  if (isValueEntry(value) && rest.length === 0) {
    const point = pointMembers(valueOfEntry(value), reading);
    if (point.length > 0) return point;
  }
  const part = entryOf(inFile('part', head, names));
  if (part !== undefined) return measuredMembers(names.env.measured(part.file, part.name), rest, reading);
  const other = aliased(head, names);
  if (other === undefined) return [];
  const [second, ...deeper] = rest;
  if (second === undefined) {
    const own = other.names()?.own;
    return [...(own?.values() ?? [])].flatMap((space) =>
      [...space.values()].map((entry) => ({ name: entry.name, detail: detailOf(entry, reading) })),
    );
  }
  const far = entryOf(findNamed('part', [head, second], names));
  if (far !== undefined) return measuredMembers(names.env.measured(far.file, far.name), deeper, reading);
  const farValue = entryOf(findNamed('value', [head, second], names));
  return isValueEntry(farValue) && deeper.length === 0 ? pointMembers(valueOfEntry(farValue), reading) : [];
};
const entryOf = (found: ReturnType<typeof findNamed>): Entry | undefined => (found.kind === 'one' ? found.entry : undefined);

const pointMembers = (value: Value, reading: Reading) => {
  if (value.kind !== 'point') return [];
  const { bare, home } = value;
  const of = (amount: number): string => {
    const said = sayValue({ kind: 'point', x: amount, y: 0, bare, ...(home === undefined ? {} : { home }) }, reading);
    return said.slice(1, said.indexOf(','));
  };
  return [
    { name: 'x', detail: of(value.x) },
    { name: 'y', detail: of(value.y) },
  ];
};

const measuredMembers = (tree: MeasuredTree | undefined, path: readonly string[], reading: Reading) => {
  let at: MeasuredTree | Value | undefined = tree;
  for (const step of path) {
    if (at === undefined || isMeasuredValue(at)) return [];
    at = step === 'all' ? Object.values(at)[0] : Object.hasOwn(at, step) ? at[step] : undefined;
  }
  if (at === undefined || isMeasuredValue(at)) return [];
  const numbered = Object.keys(at).some((name) => /^\d+$/.test(name));
  const members = Object.entries(at).map(([name, below]) => ({
    name,
    detail: isMeasuredValue(below) ? sayValue(below, reading) : `${Object.keys(below).slice(0, 4).join(', ')} …`,
  }));
  return numbered ? [...members, { name: 'all', detail: 'each of them, for min, max and sum' }] : members;
};
