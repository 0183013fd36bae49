/** Findings for programs: our JSON, and SARIF 2.1.0 (OASIS Static Analysis Results Interchange Format, 2020-03-27 with errata 01). */
import type { Fix } from '../../grammar/syntax.js';
import { type LineIndex, lineIndex } from '../lines.js';
import { findingJson } from '../measure/index.js';
import type { Severity } from '../model/finding.js';
import { nodeFiles } from '../node-files.js';
import { type Rule, ruleNamed } from '../rules/index.js';
import { rulePage } from '../rules/manual.js';
import type { FileFindings } from './projects.js';
import { version } from './version.js';

export interface NamedFindings extends FileFindings {
  readonly shown: string;
}

/** `{ schema: 1, files, findings: [...] }`; each finding as in `measure --json`, with its cures. */
export const checkJson = (files: readonly NamedFindings[]): string => {
  const findings = files.flatMap((file) =>
    file.findings.map((finding) => ({ ...findingJson(file.shown, finding, file.lines), cures: finding.fixes.map((fix) => fix.title) })),
  );
  return `${JSON.stringify({ schema: 1, files: files.length, findings }, undefined, 2)}\n`;
};

const levels: Readonly<Record<Severity, 'error' | 'warning' | 'note'>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

const artifact = (shown: string) => ({
  uri: shown.split('/').map(encodeURIComponent).join('/'),
  // Paths out of the folder stood in have no base.
  ...(shown.startsWith('/') || shown.startsWith('..') ? {} : { uriBaseId: '%SRCROOT%' }),
});

const region = (lines: LineIndex, span: { readonly start: number; readonly end: number }) => {
  const start = lines.position(span.start);
  const end = lines.position(span.end);
  return { startLine: start.line + 1, startColumn: start.column + 1, endLine: end.line + 1, endColumn: end.column + 1 };
};

const ruleEntry = (name: string, rule: Rule | undefined) =>
  rule === undefined
    ? { id: name, shortDescription: { text: name } }
    : {
        id: name,
        shortDescription: { text: rule.what },
        fullDescription: { text: rule.why },
        help: { text: `${rule.what}\n\n${rule.why}\n\nSource: ${rule.source}`, markdown: rulePage(rule) },
        defaultConfiguration: { level: levels[rule.severity] },
      };

/** A fix that stays within its file, as SARIF writes it. Fixes that reach into other files are left to the editor. */
const fixEntry = (file: NamedFindings, fix: Fix) => ({
  description: { text: fix.title },
  artifactChanges: [
    {
      artifactLocation: artifact(file.shown),
      replacements: fix.edits.map((edit) => ({ deletedRegion: region(file.lines, edit.span), insertedContent: { text: edit.text } })),
    },
  ],
});

const own = (file: NamedFindings, fix: Fix): boolean => fix.edits.every((edit) => edit.file === undefined || edit.file === file.path);

/**
 * @param shownOf names other files that findings point to, the way the caller would
 */
export const checkSarif = (files: readonly NamedFindings[], shownOf: (path: string) => string): string => {
  const names = [...new Set(files.flatMap((file) => file.findings.map((finding) => finding.rule)))].sort();
  const disk = nodeFiles();
  const location = (path: string, lines: LineIndex, span: { readonly start: number; readonly end: number }) => ({
    physicalLocation: { artifactLocation: artifact(path), region: region(lines, span) },
  });
  const results = files.flatMap((file) =>
    file.findings.map((finding) => {
      const fixes = finding.fixes.filter((fix) => own(file, fix) && fix.edits.length > 0).map((fix) => fixEntry(file, fix));
      const related = (finding.related ?? []).map((each, index) => ({
        id: index + 1,
        ...location(shownOf(each.file), each.file === file.path ? file.lines : lineIndex(disk.read(each.file) ?? ''), each.span),
        message: { text: each.message },
      }));
      return {
        ruleId: finding.rule,
        ruleIndex: names.indexOf(finding.rule),
        level: levels[finding.severity],
        message: { text: finding.message },
        locations: [location(file.shown, file.lines, finding.span)],
        ...(related.length === 0 ? {} : { relatedLocations: related }),
        ...(fixes.length === 0 ? {} : { fixes }),
      };
    }),
  );
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'planish', semanticVersion: version, rules: names.map((name) => ruleEntry(name, ruleNamed(name))) } },
        columnKind: 'utf16CodeUnits',
        originalUriBaseIds: { '%SRCROOT%': { description: { text: 'The folder in which the check ran.' } } },
        results,
      },
    ],
  };
  return `${JSON.stringify(log, undefined, 2)}\n`;
};
