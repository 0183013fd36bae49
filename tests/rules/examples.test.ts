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

/** What the comments of an example say should be found: `// error: name` on the line itself, `// error below: name` on the line above it. */
const marked = (text: string): readonly Said[] =>
  text.split('\n').flatMap((line, index) => {
    const [, severity, below, rule] = /\/\/ (error|warning|information|hint)( below)?: ([a-z]+\/[a-z0-9-]+)\s*$/.exec(line) ?? [];
    return severity === undefined || rule === undefined ? [] : [{ line: index + (below === undefined ? 1 : 2), severity, rule }];
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
    .findingsWithPlans('/job/example.planish')
    .map(({ span, severity, rule }) => ({ line: lines.position(span.start).line + 1, severity, rule }));
};

/** No page of the manual could hold an example of these: a chain of 400 values, and a unit the reader would have to let through. */
const withoutExample: ReadonlySet<string> = new Set(['name/long-chain', 'unit/unknown']);
/** Said beside another rule's finding where an example needs a statement from which nothing is worked out. */
const beside = 'text/not-computed-yet';

describe('every rule’s example and cure', () => {
  const shown = rules.filter(({ name }) => !withoutExample.has(name));
  test.each(shown.map((rule) => [rule.name, rule] as const))('%s', (name, rule) => {
    const others = (said: readonly Said[]): readonly string[] =>
      said.map((one) => one.rule).filter((one) => one !== beside || name === beside);
    expect(others(marked(rule.example))).toEqual([name]);
    expect(inOrder(found(rule.example))).toEqual(inOrder(marked(rule.example)));
    expect(others(marked(rule.cure))).toEqual([]);
    expect(inOrder(found(rule.cure))).toEqual(inOrder(marked(rule.cure)));
  });

  test('a chain too long to be a shop’s', () => {
    const lets = Array.from({ length: 500 }, (_, index) => `let a${index} = a${index + 1} + 1`);
    expect(found(`units inch\n${lets.join('\n')}\nlet a500 = 1\n`).map(({ rule }) => rule)).toContain('name/long-chain');
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
    'text|number|unit|name|value|part|shape|edge|bend|hem|corner|hole|bead|tip|dimple|break|load|brake|roller|sheet|shop|fold|fit|weld|door|stock|check|file';
  const spoken = new Set(
    [...sources('grammar'), ...sources('server')]
      .filter((path) => !path.includes(join('server', 'rules')))
      .flatMap((path) =>
        [...readFileSync(path, 'utf8').matchAll(new RegExp(`['"\`]((?:${families})/[a-z][a-z0-9]*(?:-[a-z0-9]+)*)['"\`]`, 'g'))].map(
          (match) => match[1] as string,
        ),
      ),
  );

  // The reader makes these names from what is missing: `text/missing-${…}`.
  const made = ['text/missing-braces', 'text/missing-text', 'text/missing-size'];

  test('has every name that any room speaks', () => {
    const listed = new Set(rules.map(({ name }) => name));
    expect([...spoken].filter((name) => !listed.has(name)).sort()).toEqual([]);
  });

  test('has no rule that nobody speaks', () => {
    expect(
      rules
        .filter(({ check, checkPlan }) => check === undefined && checkPlan === undefined)
        .map(({ name }) => name)
        .filter((name) => !spoken.has(name) && !made.includes(name)),
    ).toEqual([]);
  });

  test('has each name once', () => {
    const names = rules.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  });
});
