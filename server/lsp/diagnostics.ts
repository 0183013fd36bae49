import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from 'vscode-languageserver';
import type { Finding, Severity } from '../model/finding.js';
import { type Ask, linesOf, rangeOf } from './ask.js';

/** The findings of one file in the protocol's form: same order, same words. */
export const diagnosticsOf = (ask: Ask): Diagnostic[] => {
  const lines = linesOf(ask);
  return ask.project.findingsSoFar(ask.path).map((finding): Diagnostic => {
    const tags = tagsOf(finding);
    return {
      range: rangeOf(lines, finding.span),
      severity: severities[finding.severity],
      code: finding.rule,
      source: 'planish',
      message: finding.message,
      ...(tags.length === 0 ? {} : { tags }),
      ...(finding.related === undefined || finding.related.length === 0
        ? {}
        : {
            relatedInformation: finding.related.map((other) => ({
              location: {
                uri: ask.uriOf(other.file),
                range: rangeOf(other.file === ask.path ? lines : linesOf(ask, other.file), other.span),
              },
              message: other.message,
            })),
          }),
    };
  });
};

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

// Faded text says "this does nothing": right for a name nobody reads, wrong for a statement whose computation is still to come.
const tagsOf = (finding: Finding): DiagnosticTag[] =>
  /\/(unused|unread|never-used)/.test(finding.rule) ? [DiagnosticTag.Unnecessary] : [];
