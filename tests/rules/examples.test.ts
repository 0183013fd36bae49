import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { memoryFiles } from '../../server/files.js';
import { lineIndex } from '../../server/lines.js';
import { createProject } from '../../server/project.js';
import { rules } from '../../server/rules/index.js';

interface Said {
  readonly line: number;
  readonly severity: string;
  readonly rule: string;
}

const inOrder = (said: readonly Said[]): readonly string[] =>
  said.map(({ line, severity, rule }) => `${line}: ${severity}: ${rule}`).sort();

/** What the comments `// error: name` of an example say should be found. */
const marked = (text: string): readonly Said[] =>
  text.split('\n').flatMap((line, index) => {
    const [, severity, rule] = /\/\/ (error|warning|information|hint): ([a-z]+\/[a-z0-9-]+)\s*$/.exec(line) ?? [];
    return severity === undefined || rule === undefined ? [] : [{ line: index + 1, severity, rule }];
  });

/** Some rules are about several files: a line `// file: name` begins another one, and all lie in one folder. */
const filesOf = (text: string): Readonly<Record<string, string>> => {
  const [first = '', ...others] = text.split(/^\/\/ file: (\S+)\n/m);
  const files: Record<string, string> = { '/job/example.planish': first };
  for (let index = 0; index + 1 < others.length; index += 2) files[`/job/${others[index]}`] = others[index + 1] as string;
  return files;
};

const found = (text: string): readonly Said[] => {
  const files = filesOf(text);
  const project = createProject({ files: memoryFiles(files), root: '/job' });
  const lines = lineIndex(files['/job/example.planish'] as string);
  return project
    .findings('/job/example.planish')
    .map(({ span, severity, rule }) => ({ line: lines.position(span.start).line + 1, severity, rule }));
};

describe('every rule’s example and cure', () => {
  test.each(rules.map((rule) => [rule.name, rule] as const))('%s', (name, rule) => {
    expect(marked(rule.example).map((said) => said.rule)).toEqual([name]);
    expect(inOrder(found(rule.example))).toEqual(inOrder(marked(rule.example)));
    expect(marked(rule.cure)).toEqual([]);
    expect(inOrder(found(rule.cure))).toEqual([]);
  });
});

const sources = (folder: string): readonly string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sources(path);
    return entry.name.endsWith('.ts') ? [path] : [];
  });

describe('the list of rules', () => {
  const families =
    'text|number|unit|name|value|part|shape|edge|bend|hem|corner|hole|bead|brake|roller|sheet|shop|fold|fit|weld|door|stock|check|file';
  const spoken = new Set(
    [...sources('grammar'), ...sources('server')]
      .filter((path) => !path.includes(join('server', 'rules')))
      .flatMap((path) =>
        [...readFileSync(path, 'utf8').matchAll(new RegExp(`['"\`]((?:${families})/[a-z][a-z0-9]*(?:-[a-z0-9]+)*)['"\`]`, 'g'))].map(
          (match) => match[1] as string,
        ),
      ),
  );

  test('has every name that any room speaks', () => {
    const listed = new Set(rules.map(({ name }) => name));
    expect([...spoken].filter((name) => !listed.has(name)).sort()).toEqual([]);
  });

  test('has no rule that nobody speaks', () => {
    expect(
      rules
        .filter(({ check }) => check === undefined)
        .map(({ name }) => name)
        .filter((name) => !spoken.has(name)),
    ).toEqual([]);
  });

  test('has each name once', () => {
    const names = rules.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  });
});
