/** A finding as text for a terminal: where, what, the line with the words at fault underlined, the cures. */
import type { Finding, Severity } from '../model/finding.js';
import { shownPath } from './files.js';
import type { Io } from './io.js';
import type { FileFindings } from './projects.js';
import { colours, counted, wrapped } from './words.js';

const severityColour: Readonly<Record<Severity, 'red' | 'yellow' | 'cyan' | 'gray'>> = {
  error: 'red',
  warning: 'yellow',
  information: 'cyan',
  hint: 'gray',
};
const severityWord: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', information: 'note', hint: 'hint' };

interface Excerpt {
  readonly line: string;
  readonly from: number;
  readonly length: number;
}

/** The piece of the source line that fits the terminal, with the words at fault in view. Tabs count as two spaces. */
const excerpt = (source: string, column: number, length: number, room: number): Excerpt => {
  const spaced = (text: string): string => text.replaceAll('\t', '  ');
  const before = spaced(source.slice(0, column));
  const line = spaced(source).trimEnd();
  const leading = /^ */.exec(line)?.[0].length ?? 0;
  const cutLeft = Math.min(leading, before.length);
  const short = line.slice(cutLeft);
  const from = before.length - cutLeft;
  const marked = Math.max(1, Math.min(spaced(source.slice(column, column + length)).length, Math.max(short.length - from, 1)));
  if (short.length <= room) return { line: short, from, length: marked };
  const start = Math.max(0, Math.min(from - 8, short.length - room));
  const seen = short.slice(start, start + room - 1);
  const head = start > 0 ? '…' : '';
  const shown = `${head}${seen.slice(head.length)}${start + room - 1 < short.length ? '…' : ''}`;
  return { line: shown, from: from - start, length: Math.max(1, Math.min(marked, shown.length - (from - start))) };
};

/**
 * ```
 * gate.planish:12:21: error: this brake grips 3/8 in or more; the flange reaches 1/8 in  [brake/flange-too-short]
 *   12 | edge top { flange 1/8 up }
 *      |                   ^^^
 *      cure: make it 3/8
 * ```
 */
export const sayFinding = (file: FileFindings, finding: Finding, io: Io): string => {
  const paint = colours(io);
  const start = file.lines.position(finding.span.start);
  const end = file.lines.position(finding.span.end);
  const place = `${shownPath(file.path, io)}:${start.line + 1}:${start.column + 1}:`;
  const word = severityWord[finding.severity];
  const head = `${paint.bold(place)} ${paint[severityColour[finding.severity]](`${word}:`)} `;
  const message = wrapped(`${finding.message} [${finding.rule}]`, io.columns, '  ', place.length + word.length + 3);
  const number = String(start.line + 1);
  const gutter = ' '.repeat(number.length);
  const from = file.lines.offset({ line: start.line, column: 0 });
  const source = file.text.slice(from, file.lines.offset({ line: start.line, column: Number.MAX_SAFE_INTEGER }));
  const length = end.line === start.line ? end.column - start.column : source.length - start.column;
  const room = Number.isFinite(io.columns) ? Math.max(io.columns - number.length - 5, 16) : Number.POSITIVE_INFINITY;
  const piece = excerpt(source, start.column, length, room);
  const marks = `${' '.repeat(Math.max(piece.from, 0))}${'^'.repeat(piece.length)}`;
  return [
    head + message,
    ...(piece.line === '' ? [] : [`  ${number} | ${piece.line}`, `  ${gutter} | ${paint[severityColour[finding.severity]](marks)}`]),
    ...finding.fixes.map(
      (fix) => `  ${gutter}   ${paint.green('cure:')} ${wrapped(fix.title, io.columns, `  ${gutter}         `, gutter.length + 11)}`,
    ),
    ...(finding.related ?? []).map(
      (each) =>
        `  ${gutter}   ${wrapped(`see ${shownPath(each.file, io)}: ${each.message}`, io.columns, `  ${gutter}       `, gutter.length + 5)}`,
    ),
  ].join('\n');
};

const rank: Readonly<Record<Severity, number>> = { error: 3, warning: 2, information: 1, hint: 0 };
export const atLeast = (severity: Severity, threshold: Severity): boolean => rank[severity] >= rank[threshold];

/** "2 errors, 1 warning in 3 files", or that nothing is wrong. */
export const summary = (files: readonly FileFindings[]): string => {
  const all = files.flatMap((file) => file.findings);
  const of = (severity: Severity): number => all.filter((finding) => finding.severity === severity).length;
  const parts = [
    ...(of('error') > 0 ? [counted(of('error'), 'error')] : []),
    ...(of('warning') > 0 ? [counted(of('warning'), 'warning')] : []),
    ...(of('information') > 0 ? [counted(of('information'), 'note')] : []),
  ];
  return parts.length === 0
    ? `${counted(files.length, 'file')} checked, nothing wrong.`
    : `${parts.join(', ')} in ${counted(files.length, 'file')}.`;
};
