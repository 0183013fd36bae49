/** Names and dotted paths to values: `w`, `p.x`, `bench.w`, `gate.blank.width`, `gate.bends.all.allowance`. */
import type { Expr, Ident } from '../../grammar/syntax.js';
import { memberOf } from './arithmetic.js';
import { isMeasuredValue } from './dependencies.js';
import { valueInWords } from './dimension.js';
import type { MeasuredTree } from './model.js';
import {
  aliased,
  findNamed,
  inFile,
  inScopes,
  isValueEntry,
  severalMessage,
  unknownMessage,
  valuesInSight,
  visibleNames,
} from './names.js';
import { either, nearestNames, together } from './nearest.js';
import { type Entry, pathText, type Reading, replace, unknown, type ValueEntry } from './reading.js';
import type { Value } from './values.js';

type Named = Extract<Expr, { kind: 'name' }>;
type ValueOfEntry = (entry: ValueEntry) => Value;

/** One value; a path with `all` in it is several and refused. */
export const valueOfPath = (expr: Named, reading: Reading, valueOfEntry: ValueOfEntry): Value => {
  const head = expr.path[0];
  if (head === undefined) return unknown;
  if (expr.path.length === 1) return singleName(head, reading, valueOfEntry);
  const values = valuesOfPath(expr, reading, valueOfEntry);
  if (values.length === 1 && values[0] !== undefined) return values[0];
  if (values.length > 1) {
    const all = expr.path.find((step) => step.name === 'all') ?? head;
    reading.sink.report(
      all.span,
      'name/several-values',
      `${pathText(expr.path)} is ${values.length} values. Take min, max or sum of them: max(${pathText(expr.path)}).`,
    );
  }
  return unknown;
};

const singleName = (head: Ident, reading: Reading, valueOfEntry: ValueOfEntry): Value => {
  const entry = valueEntry(head, reading);
  if (entry !== undefined) return valueOfEntry(entry);
  return unknown;
};

/** Whether a plain name means something here, of whatever kind; nothing is reported. */
export const isInSight = ({ name }: Ident, reading: Reading): boolean => {
  reading.dependencies?.value([name]);
  reading.dependencies?.which('part', [name]);
  if (inScopes(name, reading.scope) !== undefined || aliased(name, reading.names) !== undefined) return true;
  const [value, part] = [inFile('value', name, reading.names), inFile('part', name, reading.names)];
  return [value, part].some((found) => found.kind !== 'none' || found.hidden);
};

/** The entry a plain name means; clashes and unknown names are reported. */
const valueEntry = (head: Ident, reading: Reading): ValueEntry | undefined => {
  const inner = inScopes(head.name, reading.scope);
  if (inner !== undefined) return inner;
  const found = inFile('value', head.name, reading.names);
  reading.dependencies?.value([head.name]);
  if (found.kind === 'one') return isValueEntry(found.entry) ? found.entry : undefined;
  if (found.kind === 'several') {
    reading.sink.report(head.span, 'name/clash', severalMessage(head.name, found.entries), {
      related: found.entries.map((entry) => ({ file: entry.file, span: entry.span, message: `${head.name} is given here` })),
    });
    return undefined;
  }
  if (found.hidden) return undefined;
  const part = inFile('part', head.name, reading.names);
  reading.dependencies?.which('part', [head.name]);
  if (part.kind === 'one') {
    reading.sink.report(
      head.span,
      'name/unknown',
      `${head.name} is a part, not a value. Say which of its sizes: ${head.name}.blank.width.`,
    );
    return undefined;
  }
  const other = aliased(head.name, reading.names);
  if (other !== undefined) {
    reading.sink.report(head.span, 'name/unknown', `${head.name} is a file, not a value. Say which of its values: ${head.name}.width.`);
    return undefined;
  }
  reportUnknown(head, valuesInSight(reading), reading);
  return undefined;
};

const reportUnknown = (name: Ident, all: readonly string[], reading: Reading): void => {
  const near = nearestNames(name.name, all);
  const cure = near.length > 0 ? `Did you mean ${either(near)}?` : `Give it a value: let ${name.name} = …`;
  reading.sink.report(name.span, 'name/unknown', `There is no value ${name.name} in sight. ${cure}`, {
    fixes: near.map((other) => replace(name.span, other, `Change to ${other}`)),
  });
};

/** All values a path means; empty when it means none (reported, or unknown in silence). */
export const valuesOfPath = (expr: Named, reading: Reading, valueOfEntry: ValueOfEntry): readonly Value[] => {
  const [head, second, third] = expr.path;
  if (head === undefined) return [unknown];
  if (second === undefined) return [singleName(head, reading, valueOfEntry)];

  const local = inScopes(head.name, reading.scope) ?? ownValue(head.name, reading);
  const isPart = inFile('part', head.name, reading.names);
  if (local !== undefined && (isPart.kind === 'none' || second.name === 'x' || second.name === 'y')) {
    const value = valueOfEntry(local);
    if (expr.path.length === 2) return [member(value, head, second, reading)];
    reading.sink.report(third?.span ?? second.span, 'name/unknown-property', `${head.name}.${second.name} has nothing under it.`);
    return [unknown];
  }
  if (isPart.kind !== 'none') {
    reading.dependencies?.which('part', [head.name]);
    if (isPart.kind === 'one') return measuredValues(isPart.entry, head, expr.path.slice(1), reading);
    reading.sink.report(head.span, 'name/clash', severalMessage(head.name, isPart.entries));
    return [unknown];
  }
  const other = aliased(head.name, reading.names);
  if (other !== undefined) return valuesOfFile(expr.path, reading, valueOfEntry);
  reading.dependencies?.value([head.name]);
  reading.dependencies?.which('part', [head.name]);
  if (!isPart.hidden) {
    const all = [...valuesInSight(reading), ...visibleNames('part', reading.names), ...reading.names.brought.flatMap((b) => b.alias ?? [])];
    const near = nearestNames(head.name, all);
    const cure = near.length > 0 ? `Did you mean ${either(near)}?` : 'A path begins with a part, a point, or a file brought with a name.';
    reading.sink.report(head.span, 'name/unknown', `There is no part or value ${head.name} in sight. ${cure}`, {
      fixes: near.map((name) => replace(head.span, name, `Change to ${name}`)),
    });
  }
  return [unknown];
};

const ownValue = (name: string, reading: Reading): ValueEntry | undefined => {
  const found = inFile('value', name, reading.names);
  if (found.kind !== 'one' || !isValueEntry(found.entry)) return undefined;
  reading.dependencies?.value([name]);
  return found.entry;
};

const member = (value: Value, of: Ident, name: Ident, reading: Reading): Value => memberOf(value, name, of.span, reading);

/** `bench.w`, `bench.p.x`, `bench.gate.blank.width`. */
const valuesOfFile = (path: readonly Ident[], reading: Reading, valueOfEntry: ValueOfEntry): readonly Value[] => {
  const [head, second, third] = path;
  if (head === undefined || second === undefined) return [unknown];
  const dotted = [head.name, second.name];
  const value = findNamed('value', dotted, reading.names);
  const part = third === undefined ? undefined : findNamed('part', dotted, reading.names);
  if (part?.kind === 'one' && third?.name !== 'x' && third?.name !== 'y') {
    reading.dependencies?.which('part', dotted);
    return measuredValues(part.entry, second, path.slice(2), reading);
  }
  reading.dependencies?.value(dotted);
  if (value.kind === 'one' && isValueEntry(value.entry)) {
    const found = valueOfEntry(value.entry);
    return [third === undefined ? found : member(found, second, third, reading)];
  }
  if (value.kind === 'none' && !value.hidden) {
    const file = aliased(head.name, reading.names)?.names();
    const all = [...(file?.own.get('value')?.keys() ?? []), ...(file?.own.get('part')?.keys() ?? [])];
    const { near } = unknownMessage('value', second.name, all);
    const cure = near.length > 0 ? ` Did you mean ${either(near)}?` : all.length > 0 ? ` There is ${together(all.slice(0, 8))}.` : '';
    reading.sink.report(second.span, 'name/unknown', `${head.name} has no value ${second.name}.${cure}`, {
      fixes: near.map((name) => replace(second.span, name, `Change to ${name}`)),
    });
  }
  return [unknown];
};

const measuredValues = (part: Entry, head: Ident, steps: readonly Ident[], reading: Reading): readonly Value[] => {
  const own = part.file === reading.names.path && part.name === reading.part;
  if (own && reading.measured === undefined) {
    reading.sink.report(
      head.span,
      'name/own-measure',
      `${part.name} is being made here, so its finished sizes aren't known yet. They can be read in its own check, and by other parts.`,
    );
    return [unknown];
  }
  const tree = own ? reading.measured?.tree : reading.names.env.measured(part.file, part.name);
  if (!own) {
    reading.dependencies?.measured(
      part.file,
      part.name,
      steps.map((step) => step.name),
    );
  }
  return tree === undefined ? [unknown] : walk(tree, part.name, steps, reading);
};

/** The feature itself and its copies in mirrors, unless the path asks for those by name. */
const walkBoth = (tree: MeasuredTree, said: string, rest: readonly Ident[], reading: Reading): readonly Value[] => {
  const copy = rest[0]?.name !== 'opposite' && Object.hasOwn(tree, 'opposite') ? tree.opposite : undefined;
  const own = walk(tree, said, rest, reading);
  return copy === undefined || isMeasuredValue(copy) ? own : [...own, ...walkBoth(copy, `${said}.opposite`, rest, reading)];
};

const walk = (tree: MeasuredTree, said: string, steps: readonly Ident[], reading: Reading): readonly Value[] => {
  let at: MeasuredTree = tree;
  let path = said;
  for (const [i, step] of steps.entries()) {
    if (step.name === 'all') {
      const rest = steps.slice(i + 1);
      // A feature and its copy in a mirror: `eye.all` is both of them.
      if (Object.hasOwn(at, 'opposite') && rest.length > 0) return walkBoth(at, path, rest, reading);
      return Object.entries(at).flatMap(([name, below]) => {
        if (isMeasuredValue(below)) return rest.length === 0 ? [below] : [];
        return rest.length === 0 ? [] : walkBoth(below, `${path}.${name}`, rest, reading);
      });
    }
    const next: MeasuredTree | Value | undefined = Object.hasOwn(at, step.name) ? at[step.name] : undefined;
    if (next === undefined) {
      const there = Object.keys(at);
      const near = nearestNames(step.name, there);
      const list = there.length === 0 ? 'It has none.' : `There is ${together(there.slice(0, 16))}${there.length > 16 ? ' and more' : ''}.`;
      reading.sink.report(step.span, 'name/unknown-property', `${path} has no ${step.name}. ${list}`, {
        fixes: near.map((name) => replace(step.span, name, `Change to ${name}`)),
      });
      return [unknown];
    }
    if (isMeasuredValue(next)) {
      const after = steps[i + 1];
      if (after === undefined) return [next];
      if (next.kind === 'point') return [member(next, step, after, reading)];
      reading.sink.report(after.span, 'name/unknown-property', `${path}.${step.name} is ${valueInWords(next)} and has nothing under it.`);
      return [unknown];
    }
    at = next;
    path = `${path}.${step.name}`;
  }
  const last = steps[steps.length - 1];
  if (last !== undefined) {
    reading.sink.report(
      last.span,
      'name/unknown-property',
      `${path} isn't one size. Say which: ${together(Object.keys(at).slice(0, 16))}.`,
    );
  }
  return [unknown];
};
