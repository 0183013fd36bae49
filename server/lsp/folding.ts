import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import { type Ask, linesOf } from './ask.js';
import { allStatements } from './walk.js';

/** Braces fold to their closing line, and runs of comment lines fold together. */
export const foldingRanges = (ask: Ask): FoldingRange[] => {
  const tree = ask.project.tree(ask.path);
  const lines = linesOf(ask);
  const lineAt = (offset: number): number => lines.positionAt(offset).line;
  const folds: FoldingRange[] = [];
  for (const statement of allStatements(tree.statements)) {
    if (statement.block === undefined) continue;
    const startLine = lineAt(statement.block.span.start);
    // The line of the closing brace stays visible, so that the fold reads `panel gate { … }`.
    const closed = tree.text[statement.block.span.end - 1] === '}';
    const endLine = lineAt(statement.block.span.end) - (closed ? 1 : 0);
    if (endLine > startLine) folds.push({ startLine, endLine });
  }
  const ownLine = (start: number): boolean => tree.text.slice(tree.text.lastIndexOf('\n', start - 1) + 1, start).trim() === '';
  let first: number | undefined;
  let last = -2;
  const close = (): void => {
    if (first !== undefined && last > first) folds.push({ startLine: first, endLine: last, kind: FoldingRangeKind.Comment });
  };
  for (const comment of tree.comments) {
    if (!ownLine(comment.start)) continue;
    const line = lineAt(comment.start);
    if (line !== last + 1) {
      close();
      first = line;
    }
    last = line;
  }
  close();
  return folds.sort((a, b) => a.startLine - b.startLine);
};
