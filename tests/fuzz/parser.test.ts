/** Damaged texts: nothing throws, spans lie in the text and in their parents, and formatting changes no meaning. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Argument,
  type Expr,
  entries,
  expectedAt,
  format,
  parse,
  partsOfExpression,
  type Span,
  type Statement,
  type Tree,
} from '../../grammar/index.js';
import { runs } from '../runs.js';

const texts = entries.map((entry) => entry.example);
const scraps = [
  '{',
  '}',
  '(',
  ')',
  ',',
  ';',
  '"',
  '\n',
  ' ',
  '//',
  '///',
  '.',
  '-',
  '1/2',
  '3',
  '=',
  'panel ',
  'edge ',
  'at ',
  'up',
  '§',
  '×',
  '½',
  'and ',
  '\t',
  '\r\n',
  '#',
  '^',
  '1e9',
  'ga',
  '’',
  '𐐀',
  'é',
];

interface Damage {
  readonly at: number;
  readonly take: number;
  readonly put: string;
}
const damage = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  take: fc.nat({ max: 6 }),
  put: fc.oneof(fc.constantFrom(...scraps), fc.constant(''), fc.string({ maxLength: 5 })),
});
const damaged = fc.tuple(fc.constantFrom(...texts), fc.array(damage, { maxLength: 6 })).map(([text, all]: [string, Damage[]]) =>
  all.reduce((now, { at, take, put }) => {
    const place = Math.floor(at * now.length);
    return now.slice(0, place) + put + now.slice(place + take);
  }, text),
);
const soup = fc
  .array(fc.constantFrom(...scraps, 'flange ', 'hole ', 'let ', 'a ', 'radius '), { maxLength: 60 })
  .map((all) => all.join(''));

const within = (inner: Span, outer: Span): void => {
  expect(inner.start).toBeGreaterThanOrEqual(outer.start);
  expect(inner.end).toBeLessThanOrEqual(outer.end);
  expect(inner.start).toBeLessThanOrEqual(inner.end);
};
const checkExpression = (expr: Expr, outer: Span): void => {
  within(expr.span, outer);
  for (const part of partsOfExpression(expr)) checkExpression(part, expr.span);
};
const checkArgument = (argument: Argument, outer: Span): void => {
  within(argument.span, outer);
  if (argument.kind === 'value') checkExpression(argument.value, argument.span);
  if (argument.kind === 'list') for (const item of argument.items) checkArgument(item, argument.span);
  if (argument.kind === 'group') for (const field of Object.values(argument.fields)) checkArgument(field, argument.span);
};
const checkStatements = (statements: readonly Statement[], outer: Span): void => {
  let end = outer.start;
  for (const statement of statements) {
    within(statement.span, outer);
    expect(statement.span.start).toBeGreaterThanOrEqual(end);
    end = statement.span.end;
    for (const word of statement.words) within(word, statement.span);
    for (const argument of Object.values(statement.fields)) checkArgument(argument, statement.span);
    if (statement.block !== undefined) {
      within(statement.block.span, statement.span);
      checkStatements(statement.block.statements, statement.block.span);
    }
  }
};
const checkTree = (tree: Tree): void => {
  const whole = { start: 0, end: tree.text.length };
  checkStatements(tree.statements, whole);
  for (const problem of tree.problems) {
    within(problem.span, whole);
    expect(problem.message.length).toBeGreaterThan(10);
    for (const fix of problem.fixes) for (const edit of fix.edits) within(edit.span, whole);
  }
};

/** The tree without its offsets. */
const meaning = (tree: Tree): string =>
  JSON.stringify([tree.statements, tree.problems.map((p) => p.rule)], (key, value) =>
    key === 'span' || key === 'opSpan' || key === 'words' || key === 'entry' ? undefined : value,
  );
const commentsOf = (tree: Tree): string[] => tree.comments.map((c) => tree.text.slice(c.start, c.end).trimEnd());

test('any text gives a tree whose spans lie within one another', () => {
  fc.assert(
    fc.property(fc.oneof(damaged, soup, fc.string({ maxLength: 200 })), (text) => checkTree(parse(text))),
    { numRuns: runs(300) },
  );
});

test('formatting keeps meaning and comments, and a second time changes nothing', () => {
  fc.assert(
    fc.property(fc.oneof(damaged, soup), (text) => {
      const before = parse(text);
      const formatted = format(text);
      const after = parse(formatted);
      expect(meaning(after)).toBe(meaning(before));
      expect(commentsOf(after)).toEqual(commentsOf(before));
      expect(format(formatted)).toBe(formatted);
    }),
    { numRuns: runs(300) },
  );
});

test('what may come is answered at any place of any text', () => {
  fc.assert(
    fc.property(damaged, fc.double({ min: 0, max: 1, noNaN: true }), (text, part) => {
      const offset = Math.floor(part * text.length);
      const found = expectedAt(text, offset);
      expect(found.prefix.start).toBeLessThanOrEqual(offset);
      expect(found.prefix.end).toBeGreaterThanOrEqual(offset);
    }),
    { numRuns: runs(300) },
  );
});

test('deep and long texts do not exhaust anything', () => {
  const many = 20000;
  for (const text of [
    `let a = ${'('.repeat(many)}`,
    `let a = ${'-'.repeat(many)}1`,
    `let a = ${'not '.repeat(many)}yes`,
    `let a = ${'f('.repeat(many)}`,
    `let a = ${'2^'.repeat(many)}2`,
    `let a = ${'1+'.repeat(many)}2`,
    'panel a {'.repeat(many),
    '{'.repeat(many),
    '}'.repeat(many),
    '(\n'.repeat(many),
    `let a = b${'.c'.repeat(many)}`,
    '§ '.repeat(many),
  ]) {
    expect(parse(text).problems.length).toBeGreaterThanOrEqual(0);
  }
});
