import { type CodeAction, CodeActionKind, type Diagnostic, type TextEdit as ProtocolEdit, type Range } from 'vscode-languageserver';
import type { TextEdit } from '../../grammar/syntax.js';
import type { Finding } from '../model/finding.js';
import { type Ask, linesOf, rangeOf } from './ask.js';
import { commands, type ExplainCommandArguments } from './protocol.js';

/** The cures of the findings a selection touches, then "all of these", then where to read why. */
export const codeActions = (ask: Ask, range: Range, only: readonly string[] | undefined, shown: readonly Diagnostic[]): CodeAction[] => {
  if (
    only !== undefined &&
    !only.some((kind) => kind === '' || CodeActionKind.QuickFix === kind || kind.startsWith(`${CodeActionKind.QuickFix}.`))
  )
    return [];
  const lines = linesOf(ask);
  const selected = { start: lines.offsetAt(range.start), end: lines.offsetAt(range.end) };
  const findings = ask.project.findingsSoFar(ask.path);
  const touched = findings.filter((finding) => finding.span.start <= selected.end && selected.start <= finding.span.end);
  const actions: CodeAction[] = [];
  const editOf = (edits: readonly TextEdit[]): CodeAction['edit'] => {
    const changes: Record<string, ProtocolEdit[]> = {};
    for (const edit of edits) {
      const path = edit.file ?? ask.path;
      const there = path === ask.path ? lines : linesOf(ask, path);
      changes[ask.uriOf(path)] = [...(changes[ask.uriOf(path)] ?? []), { range: rangeOf(there, edit.span), newText: edit.text }];
    }
    return { changes };
  };
  for (const finding of touched) {
    const diagnostics = shown.filter((diagnostic) => diagnostic.code === finding.rule && diagnostic.message === finding.message);
    finding.fixes.forEach((fix, index) => {
      actions.push({
        title: fix.title,
        kind: CodeActionKind.QuickFix,
        diagnostics,
        ...(index === 0 && finding.fixes.length === 1 ? { isPreferred: true } : {}),
        edit: editOf(fix.edits),
      });
    });
  }
  for (const rule of new Set(touched.map((finding) => finding.rule))) {
    const all = firstFixesOf(findings.filter((finding) => finding.rule === rule));
    if (all.count > 1)
      actions.push({ title: `Put right all ${all.count} of ${rule} in this file`, kind: CodeActionKind.QuickFix, edit: editOf(all.edits) });
  }
  for (const rule of new Set(touched.map((finding) => finding.rule))) {
    const args: ExplainCommandArguments = [{ rule }];
    actions.push({
      title: `Explain ${rule}`,
      kind: CodeActionKind.QuickFix,
      command: { title: `Explain ${rule}`, command: commands.explain, arguments: args },
    });
  }
  return actions;
};

/** First cure of each finding; one that would touch text an earlier one changes is left for the next time. */
const firstFixesOf = (findings: readonly Finding[]): { readonly count: number; readonly edits: readonly TextEdit[] } => {
  const edits: TextEdit[] = [];
  let count = 0;
  for (const finding of findings) {
    const fix = finding.fixes[0];
    if (fix === undefined) continue;
    const clashes = fix.edits.some((edit) =>
      edits.some((other) => edit.file === other.file && edit.span.start <= other.span.end && other.span.start <= edit.span.end),
    );
    if (clashes) continue;
    edits.push(...fix.edits);
    count++;
  }
  return { count, edits };
};
