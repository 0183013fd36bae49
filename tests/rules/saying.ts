import { memoryFiles } from '../../server/files.js';
import type { Finding } from '../../server/model/finding.js';
import { createProject } from '../../server/project.js';

const path = '/job/part.planish';

const findingsOf = (text: string): readonly Finding[] =>
  createProject({ files: memoryFiles({ [path]: text }), root: '/job' }).findings(path);

/** What is said of a whole file, each with the words it stands under: `flange 1/8 up` → `1/8 | error brake/flange-too-short: …`. */
export const saying = (text: string): readonly string[] =>
  findingsOf(text).map(({ span, severity, rule, message }) => `${text.slice(span.start, span.end)} | ${severity} ${rule}: ${message}`);

/** The same without the messages, for files where several rules speak. */
export const naming = (text: string): readonly string[] =>
  findingsOf(text).map(({ span, rule }) => `${text.slice(span.start, span.end)} | ${rule}`);

/** The file after the first fix of the first finding. */
export const mended = (text: string): string => {
  const edits = [...(findingsOf(text).flatMap(({ fixes }) => fixes)[0]?.edits ?? [])].sort((a, b) => b.span.start - a.span.start);
  return edits.reduce((now, { span, text: put }) => now.slice(0, span.start) + put + now.slice(span.end), text);
};
