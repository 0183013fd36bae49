/** What is asked of a file after its parts are made: checks on measured sizes, and values under the cursor. */
import type { Expr, Span, Statement } from '../../grammar/syntax.js';
import { newNameField, wordField } from './arguments.js';
import { bareNumber } from './arithmetic.js';
import { decideCheck, readsOwnMeasures } from './checks.js';
import { evaluate } from './evaluate.js';
import type { Finding } from './finding.js';
import type { MeasuredTree } from './model.js';
import { type FileNames, type Reading, type Sink, silence } from './reading.js';
import { readingOfBlock } from './scopes.js';
import type { Value } from './values.js';

/** Decides the checks of a part that read its own measured sizes; spans count from the part's statement. */
export const decidePart = (
  statement: Statement,
  name: string,
  measured: MeasuredTree | undefined,
  names: FileNames,
): readonly Finding[] => {
  const statements = statement.block?.statements ?? [];
  if (!statements.some((inner) => inner.entry?.word === 'check')) return [];
  const findings: Finding[] = [];
  const zero = statement.span.start;
  const relative = (span: Span): Span => ({ start: span.start - zero, end: span.end - zero });
  const sink: Sink = {
    report: (span, rule, message, note) =>
      findings.push({
        file: names.path,
        span: relative(span),
        rule,
        severity: note?.severity ?? 'error',
        message,
        fixes: (note?.fixes ?? []).map((fix) => ({
          ...fix,
          edits: fix.edits.map((edit) => (edit.file === undefined ? { ...edit, span: relative(edit.span) } : edit)),
        })),
      }),
    needsUnits: () => undefined,
  };
  const quiet: Reading = { names, scope: undefined, sink: silence, dependencies: undefined, part: name, measured: { tree: measured } };
  const reading = readingOfBlock(statements, quiet);
  for (const check of statements) {
    if (check.entry?.word !== 'check' || !readsOwnMeasures(check, reading)) continue;
    decideCheck(check, { ...reading, sink });
  }
  return findings;
};

const holds = (span: Span, at: number): boolean => span.start <= at && at <= span.end;

/** The reading at a place: blocks around it opened one within the other, repeats in their first turn. Silent. */
export const readingAt = (offset: number, names: FileNames): Reading => {
  let reading: Reading = { ...names.top, sink: silence };
  let statements = names.tree.statements;
  for (;;) {
    const around = statements.find((statement) => statement.block !== undefined && holds(statement.block.span, offset));
    if (around?.block === undefined) return reading;
    const part = reading.part ?? (around.entry?.family === 'part' ? newNameField(around, 'name')?.name : undefined);
    reading = { ...reading, part };
    const name = around.word.name === 'repeat' ? newNameField(around, 'as') : undefined;
    const index = name === undefined ? undefined : { name, value: firstIndex(around, reading) };
    statements = around.block.statements;
    reading = readingOfBlock(statements, reading, index);
  }
};
const firstIndex = (repeat: Statement, reading: Reading): Value => {
  const start = repeat.fields.start;
  const value = start?.kind === 'value' ? evaluate(start.value, reading) : bareNumber(1);
  return value.kind === 'number' && wordField(repeat, 'start') === undefined ? value : bareNumber(1);
};

/** What an expression of the tree comes to. */
export const valueOfExpr = (expr: Expr, names: FileNames): Value | undefined => {
  const reading = readingAt(expr.span.start, names);
  const { part } = reading;
  const measured =
    part === undefined
      ? undefined
      : {
          get tree() {
            return names.env.measured(names.path, part);
          },
        };
  const value = evaluate(expr, { ...reading, measured });
  return value.kind === 'unknown' ? undefined : value;
};
