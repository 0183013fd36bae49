/** Findings of the rooms brought to one form: absolute places, settings applied, told once, in order of place. */
import type { Problem, Span } from '../grammar/syntax.js';
import type { Finding, Severity } from './model/finding.js';
import { ruleNamed } from './rules/index.js';

const shifted = (span: Span, by: number): Span => ({ start: span.start + by, end: span.end + by });

/** A finding whose span is counted from `start`, made absolute. Edits that name a file, and related places, are absolute already. */
export const madeAbsolute = (finding: Finding, start: number): Finding => ({
  ...finding,
  span: shifted(finding.span, start),
  fixes: finding.fixes.map((fix) => ({
    ...fix,
    edits: fix.edits.map((edit) => (edit.file === undefined ? { ...edit, span: shifted(edit.span, start) } : edit)),
  })),
});

/** The same for rooms that see nothing but the part: their related places lie in it and are counted from its start too. */
export const madeAbsoluteThroughout = (finding: Finding, start: number): Finding => {
  const whole = madeAbsolute(finding, start);
  if (whole.related === undefined) return whole;
  return { ...whole, related: whole.related.map((place) => ({ ...place, span: shifted(place.span, start) })) };
};

/** A fault in the text itself, as a finding. */
export const fromProblem = (file: string, { span, rule, message, fixes }: Problem): Finding => ({
  file,
  span,
  rule,
  severity: ruleNamed(rule)?.severity ?? 'error',
  message,
  fixes,
});

const weight: Readonly<Record<Severity, number>> = { error: 0, warning: 1, information: 2, hint: 3 };

const order = (a: Finding, b: Finding): number =>
  a.span.start - b.span.start ||
  a.span.end - b.span.end ||
  weight[a.severity] - weight[b.severity] ||
  (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0) ||
  (a.message < b.message ? -1 : a.message > b.message ? 1 : 0);

/** Applies the settings' severities, sorts by place and drops what says the same of the same words twice. */
export const inOrder = (findings: readonly Finding[], severities: Readonly<Record<string, Severity | 'off'>>): readonly Finding[] => {
  if (findings.length === 0) return findings;
  const kept: Finding[] = [];
  for (const finding of findings) {
    const severity = Object.hasOwn(severities, finding.rule) ? severities[finding.rule] : finding.severity;
    if (severity === undefined || severity === finding.severity) kept.push(finding);
    else if (severity !== 'off') kept.push({ ...finding, severity });
  }
  kept.sort(order);
  return kept.filter((finding, index) => {
    const before = kept[index - 1];
    return before === undefined || order(before, finding) !== 0;
  });
};
