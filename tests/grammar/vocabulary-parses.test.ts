import { expect, test } from 'vitest';
import { entries, format, parse, usageWithParameters, walkStatements } from '../../grammar/index.js';
import { PlanishParser } from '../../grammar/parser.js';
import { problemsOf } from './marked.js';

test.each(entries.map((entry) => [entry.id, entry] as const))(
  'the example of %s holds the statement and reads without a problem',
  (_, entry) => {
    const tree = parse(entry.example);
    expect(problemsOf(tree)).toEqual([]);
    const found = new Set<string>();
    walkStatements(tree, (statement) => found.add(statement.entry?.id ?? ''));
    expect(found).toContain(entry.id);
    const formatted = format(entry.example);
    expect(problemsOf(parse(formatted))).toEqual([]);
    expect(format(formatted)).toBe(formatted);
  },
);

test.each(entries.map((entry) => [entry.id, entry] as const))('the form of %s tells where each argument stands', (_, entry) => {
  const { label, parameters } = usageWithParameters(entry);
  expect(label.startsWith(entry.word)).toBe(true);
  for (const one of parameters) {
    expect(label.slice(one.start, one.end)).toMatch(/^\S(?:.*\S)?$/);
    expect(Object.keys(entry.arguments).length).toBeGreaterThan(0);
  }
});

test('the grammar has no two ways to read one text, no rule that eats nothing for ever', () => {
  expect(() => new PlanishParser(true)).not.toThrow();
});
