import { type InlayHint, InlayHintKind, type Range } from 'vscode-languageserver';
import type { Expr, Statement } from '../../grammar/syntax.js';
import { sayBendSum } from '../model/display.js';
import { pieceWork } from '../stock/index.js';
import { type Ask, linesOf } from './ask.js';
import { bendStepHint } from './bendSteps.js';
import { beadsOfStatement, bendsOfStep, blankSize, type PlacedPart, placedParts, sayLength } from './say.js';
import { allStatements, argumentsOf, headSpan } from './walk.js';

/** What the program worked out, beside the words it was worked out from: blank sizes, values of `let`s, bend allowances. */
export const inlayHints = (ask: Ask, range: Range): InlayHint[] => {
  const lines = linesOf(ask);
  const window = { start: lines.offsetAt(range.start), end: lines.offsetAt(range.end) };
  const tree = ask.project.tree(ask.path);
  const model = ask.project.model(ask.path);
  const wanted = ask.settings.inlayHints;
  const hints: InlayHint[] = [];
  const push = (offset: number, label: string, tooltip: string): void => {
    hints.push({ position: lines.positionAt(offset), label, tooltip, paddingLeft: true, kind: InlayHintKind.Type });
  };
  const parts = wanted.blankSize || wanted.allowance || wanted.bending ? placedParts(ask) : [];
  const partOf = (offset: number): PlacedPart | undefined =>
    parts.find(({ result, start }) => start <= offset && offset < start + result.part.span.end - result.part.span.start);

  for (const { result, start } of wanted.blankSize ? parts : []) {
    const name = start + result.part.nameSpan.end;
    if (name < window.start || window.end < name) continue;
    if (result.blank.blank !== undefined) push(name, blankSize(ask, result.blank.blank), 'Size of the flat blank');
    // A piece says its length itself; a strap's is worked out.
    const { part } = result;
    const bar = part.kind === 'strap' && !part.broken ? pieceWork(part, { say: String }).length : undefined;
    if (bar !== undefined) push(name, sayLength(ask, bar), 'Length of bar to cut, before bending');
  }
  for (const statement of allStatements(tree.statements)) {
    const head = headSpan(statement);
    if (head.end < window.start || head.start > window.end) continue;
    if (wanted.values && statement.word.name === 'let') {
      const expr = valueOfLet(statement);
      const value = expr === undefined || isPlain(expr) ? undefined : model.valueOf(expr);
      if (expr !== undefined && value !== undefined && value.kind !== 'unknown')
        push(expr.span.end, `= ${model.say(value)}`, 'Worked out from the value written');
    }
    if (wanted.allowance && (statement.entry?.word === 'flange' || statement.entry?.word === 'turn')) {
      const placed = partOf(statement.span.start);
      const bends = placed === undefined ? [] : bendsOfStep(placed, statement.span);
      const first = bends[0];
      // Edges of one block share a step; they share its allowance too unless sizes differ, and then one number would mislead.
      if (first !== undefined && bends.every((bend) => Math.abs(bend.allowance - first.allowance) < 1e-6)) {
        const end = head.start + tree.text.slice(head.start, head.end).trimEnd().length;
        push(end, `allowance ${sayBendSum(first.allowance, model.units)}`, `${first.method}. ${first.source}`);
      }
    }
    if (wanted.bending && statement.entry !== undefined && bendWords.has(statement.entry.word)) {
      const placed = partOf(statement.span.start);
      const hint = placed === undefined ? undefined : bendStepHint(ask, placed, statement.span);
      const end = head.start + tree.text.slice(head.start, head.end).trimEnd().length;
      if (hint !== undefined) push(end, hint.label, hint.tooltip);
    }
    if (wanted.allowance && (statement.entry?.id === 'bead' || statement.entry?.id === 'band')) {
      const placed = partOf(statement.span.start);
      const copies = placed === undefined ? [] : beadsOfStatement(placed, statement.span);
      const most = Math.max(...copies.map((bead) => bead.reaches[0]?.needed ?? 0));
      const roller = copies[0]?.reaches[0];
      if (roller !== undefined) {
        const end = head.start + tree.text.slice(head.start, head.end).trimEnd().length;
        const label = `reach ${sayLength(ask, most)} of ${sayLength(ask, roller.throat)}`;
        push(end, label, `How far in from an edge ${roller.roller.name} has to reach, of its throat`);
      }
    }
  }
  return hints.sort((a, b) => a.position.line - b.position.line || a.position.character - b.position.character);
};

/** Statements that make bends. */
const bendWords: ReadonlySet<string> = new Set(['flange', 'turn', 'hem', 'curl', 'joggle', 'rolled']);

const valueOfLet = (statement: Statement): Expr | undefined => {
  for (const argument of argumentsOf(statement.fields)) if (argument.kind === 'value') return argument.value;
  return undefined;
};

/** Nothing to add to a written number, text, point of written numbers, yes or no. */
const isPlain = (expr: Expr): boolean => {
  switch (expr.kind) {
    case 'number':
    case 'text':
    case 'yesno':
    case 'missing':
      return true;
    case 'unary':
      return isPlain(expr.operand);
    case 'paren':
      return isPlain(expr.inner);
    case 'point':
      return isPlain(expr.x) && isPlain(expr.y);
    case 'name':
    case 'binary':
    case 'call':
    case 'member':
      return false;
  }
};
