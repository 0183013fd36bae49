/**
 * Findings written under the words they speak of. A text is given with its marks, every mark a comment line below the line it is about:
 *
 *     let a = 3 in + 40 deg
 *     //           ^ unit/wrong-kind: …
 *
 * The text with the marks that really come out must be the text given: nothing missing, nothing more, places and words alike.
 * A place in the first two columns is marked `//< ^^^`. A severity other than error is written after the rule: `(information)`.
 */
import { expect } from 'vitest';
import type { Span } from '../../grammar/index.js';
import { build, type Options } from './build.js';

const isMark = (line: string): boolean => /^\/\/<? *\^/.test(line);
const withoutMarks = (text: string): string =>
  text
    .split('\n')
    .filter((line) => !isMark(line))
    .join('\n');

interface Said {
  readonly span: Span;
  readonly rule: string;
  readonly severity: string;
  readonly message: string;
}

const marked = (text: string, said: readonly Said[]): string => {
  const lines = text.split('\n');
  let start = 0;
  const out: string[] = [];
  for (const line of lines) {
    out.push(line);
    const end = start + line.length;
    const last = start;
    for (const { span, rule, severity, message } of said) {
      if (span.start < last || span.start > end) continue;
      const column = span.start - start;
      const long = Math.max(1, Math.min(span.end, end) - span.start);
      const lead = column < 2 ? '//< ' : `//${' '.repeat(column - 2)}`;
      out.push(`${lead}${'^'.repeat(long)} ${rule}${severity === 'error' ? '' : ` (${severity})`}: ${message}`);
    }
    start = end + 1;
  }
  return out.join('\n');
};

/** Everything grammar and model say of one file, in order of place. */
export const findingsOf = (files: Readonly<Record<string, string>>, name: string, options?: Options): readonly Said[] => {
  const model = build(files, options).model(name);
  const inParts = model.parts.flatMap((part, i) => {
    const zero = model.starts[i] ?? 0;
    const measured = options?.measured?.(model.path, part.name, () => model);
    return [...part.findings, ...model.decide(part.name, measured)].map((finding) => ({
      ...finding,
      span: { start: finding.span.start + zero, end: finding.span.end + zero },
    }));
  });
  const problems = model.tree.problems.map((problem) => ({ ...problem, severity: 'error' }));
  return [...problems, ...model.findings, ...inParts].sort((a, b) => a.span.start - b.span.start);
};

/** One file, with its marks in it. */
export const checkFindings = (text: string, options?: Options): void => checkFiles({ 'part.planish': text }, options);

/** Several files, each with its marks. */
export const checkFiles = (files: Readonly<Record<string, string>>, options?: Options): void => {
  const plain = Object.fromEntries(Object.entries(files).map(([name, text]) => [name, withoutMarks(text)]));
  const out = Object.fromEntries(Object.entries(plain).map(([name, text]) => [name, marked(text, findingsOf(plain, name, options))]));
  expect(out).toEqual(files);
};
