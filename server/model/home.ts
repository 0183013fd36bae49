/** Which file a bare number came from, and how to write its unit there. */
import type { Fix, Span } from '../../grammar/syntax.js';
import { unitSign } from './dimension.js';
import type { HomeUnit } from './model.js';
import { findNamed, inScopes, isValueEntry, shortPath } from './names.js';
import type { Reading, ValueEntry } from './reading.js';

export const unitOfFile = (file: string, reading: Reading): HomeUnit | undefined =>
  file === reading.names.path ? reading.names.units : reading.names.env.modelOf(file)?.units;

export const homeName = (file: string, reading: Reading): string => (file === reading.names.path ? 'this file' : shortPath(file));

const namePattern = /[\p{L}_][\p{L}\p{N}_]*(?:\.[\p{L}_][\p{L}\p{N}_]*)*/gu;

/** Fixes that write the unit at the `let`s of other files whose bare values stand within a place. */
export const writeUnitFixes = (span: Span, reading: Reading): readonly Fix[] => {
  const fixes: Fix[] = [];
  const seen = new Set<ValueEntry>();
  for (const match of reading.names.tree.text.slice(span.start, span.end).matchAll(namePattern)) {
    const path = match[0].split('.');
    if (path.length === 1 && inScopes(match[0], reading.scope) !== undefined) continue;
    const found = findNamed('value', path, reading.names);
    if (found.kind !== 'one' || !isValueEntry(found.entry) || seen.has(found.entry) || found.entry.file === reading.names.path) continue;
    seen.add(found.entry);
    const fix = writeUnitAt(found.entry, reading);
    if (fix !== undefined) fixes.push(fix);
  }
  return fixes;
};

const writeUnitAt = (entry: ValueEntry, reading: Reading): Fix | undefined => {
  const unit = unitOfFile(entry.file, reading);
  const expr = entry.expr;
  if (unit === undefined || expr === undefined || expr.kind === 'missing') return undefined;
  if ((entry.value.kind !== 'number' && entry.value.kind !== 'point') || !entry.value.bare) return undefined;
  const sign = unitSign(unit);
  const title = `Write ${sign} at let ${entry.name} in ${shortPath(entry.file)}`;
  const after: Span = { start: expr.span.end, end: expr.span.end };
  if (expr.kind === 'number') return { title, edits: [{ file: entry.file, span: after, text: ` ${sign}` }] };
  if (entry.value.kind === 'point') return undefined;
  return {
    title,
    edits: [
      { file: entry.file, span: { start: expr.span.start, end: expr.span.start }, text: '(' },
      { file: entry.file, span: after, text: `) * 1 ${sign}` },
    ],
  };
};
