import type { Hover, Position } from 'vscode-languageserver';
import type { Argument, Expr, Span, Statement } from '../../grammar/syntax.js';
import { functions } from '../../grammar/vocabulary/functions.js';
import { sayOther } from '../model/display.js';
import type { FileModel, NamedThing } from '../model/model.js';
import { isCutFromLength } from '../sheets/index.js';
import { type Ask, linesOf, rangeOf, touches } from './ask.js';
import { beadSums, loadSums, otherWorkSums } from './beadHover.js';
import { bendHovers } from './bendHover.js';
import { bendStepHovers } from './bendSteps.js';
import { definitionDocumentation, entryDocumentation, markdown, plain, wordDocumentation } from './documentation.js';
import { definitionOf, nameAt } from './names.js';
import { wantedOf } from './patternText.js';
import { pieceRows, pieceSums } from './pieceHover.js';
import {
  beadsOfStatement,
  blankSize,
  counted,
  massOf,
  type PlacedPart,
  partAround,
  placedParts,
  sayAngle,
  sayLength,
  sayLengthFully,
  sayValue,
  thicknessOf,
} from './say.js';
import { argumentsOf, expressionsAt, headSpan, statementsAt, wordAt } from './walk.js';

/** What there is to know of the thing under the cursor: a size in both units, a name's meaning, a bend's sums, a word's use. */
export const hover = (ask: Ask, position: Position): Hover | undefined => {
  const lines = linesOf(ask);
  const offset = lines.offsetAt(position);
  const tree = ask.project.tree(ask.path);
  if (tree.comments.some((comment) => comment.start <= offset && offset < comment.end)) return undefined;
  const model = ask.project.model(ask.path);
  const said = ofName(ask, model, offset) ?? ofStatement(ask, model, offset);
  return said === undefined ? undefined : { contents: markdown(said.text), range: rangeOf(lines, said.span) };
};

interface Said {
  readonly text: string;
  readonly span: Span;
}

const ofName = (ask: Ask, model: FileModel, offset: number): Said | undefined => {
  const name = nameAt(model, offset);
  if (name?.target === undefined) return undefined;
  const { target } = name;
  const definition = definitionOf(ask, target);
  const whole = wholeNameAt(model, offset);
  // Past the part's own name a dotted path speaks of one of its properties.
  if (whole !== undefined && whole.path.at(-1)?.span.start === name.span.start && whole.path.length > 1) {
    const value = model.valueOf(whole);
    if (value !== undefined && value.kind !== 'unknown')
      return { span: whole.span, text: `${plain(textOf(model, whole.span))} = ${plain(sayValue(ask, model, value))}` };
  }
  if (target.kind === 'part') {
    const summary = partHover(ask, target);
    const shown = definition?.note === undefined ? summary : `${summary}\n\n${plain(definition.note)}`;
    return { span: name.span, text: shown };
  }
  if (definition === undefined) return { span: name.span, text: `${plain(target.name)}: ${target.kind} of this part` };
  const value = target.kind === 'value' ? valueOfName(ask, target, definition.full) : undefined;
  const lead = value === undefined ? '' : `${plain(target.name)} = ${plain(value)}\n\n`;
  return { span: name.span, text: lead + definitionDocumentation(ask, definition) };
};

const textOf = (model: FileModel, span: Span): string => model.tree.text.slice(span.start, span.end);

const wholeNameAt = (model: FileModel, offset: number): Extract<Expr, { kind: 'name' }> | undefined => {
  const statement = statementsAt(model.tree, offset).at(-1);
  const innermost = statement === undefined ? undefined : expressionsAt(statement, offset).at(-1);
  return innermost?.kind === 'name' ? innermost : undefined;
};

const valueOfName = (ask: Ask, target: NamedThing, full: Span): string | undefined => {
  const home = ask.project.model(target.file);
  const statement = statementsAt(home.tree, full.start).at(-1);
  if (statement === undefined) return undefined;
  for (const argument of argumentsOf(statement.fields)) {
    if (argument.kind !== 'value') continue;
    const value = home.valueOf(argument.value);
    return value === undefined || value.kind === 'unknown' ? undefined : sayValue(ask, home, value);
  }
  return undefined;
};

const partHover = (ask: Ask, target: NamedThing): string => {
  const placed = placedParts(ask, target.file).find(({ result }) => result.part.name === target.name);
  if (placed === undefined) return plain(target.name);
  const there: Ask = { ...ask, path: target.file };
  const { part, blank: laid } = placed.result;
  const rows: string[] = [`**${part.kind} ${plain(part.name)}**`];
  if (part.kind === 'panel' || part.kind === 'section') {
    const sheet = part.sheet?.value;
    if (sheet !== undefined) rows.push(`sheet ${plain(sheet.name)}, ${thicknessOf(there, sheet.thickness)} thick`);
  }
  if (isCutFromLength(part)) rows.push(...pieceRows(there, part));
  const { blank } = laid;
  if (blank !== undefined) {
    rows.push(`blank ${blankSize(there, blank)}${otherSize(there, blank.width, blank.height)}`);
    const mass = massOf(there, blank);
    rows.push(
      [
        ...(mass === undefined ? [] : [mass]),
        counted(blank.bends.length, 'bend'),
        counted(blank.cutouts.length, 'hole or cut-out').replace('hole or cut-outs', 'holes or cut-outs'),
      ].join(', '),
    );
  } else if (part.broken && !isCutFromLength(part)) rows.push('not laid out: see the findings');
  if (part.quantity !== 1 || part.quantityOpposite !== 0) {
    rows.push(`quantity ${part.quantity}${part.quantityOpposite === 0 ? '' : ` and ${part.quantityOpposite} opposite hand`}`);
  }
  return rows.join('  \n');
};

const otherSize = (ask: Ask, width: number, height: number): string => {
  if (!ask.settings.display.secondUnit) return '';
  const unit = ask.project.model(ask.path).units;
  const [wide, high] = [sayOther(width, unit), sayOther(height, unit)];
  return ` (${wide.slice(0, wide.lastIndexOf(' '))} × ${high})`;
};

const ofStatement = (ask: Ask, model: FileModel, offset: number): Said | undefined => {
  const statement = statementsAt(model.tree, offset).at(-1);
  if (statement === undefined || !touches(headSpan(statement), offset)) return undefined;
  const expression = expressionsAt(statement, offset).at(-1);
  const ofValue = expression === undefined ? undefined : ofExpression(ask, model, statement, expression, offset);
  if (ofValue !== undefined) return ofValue;
  const { entry } = statement;
  if (entry === undefined) return undefined;
  const word = wordAt(model.tree.text, offset);
  if (word === undefined) return undefined;
  const own = touches(statement.word.span, offset);
  const documentation = own ? entryDocumentation(entry) : wordDocumentation(entry, textOf(model, word));
  const sums = partSums(ask, statement, offset);
  return { span: own ? statement.word.span : word, text: [...sums, documentation].join('\n\n---\n\n') };
};

const bends: ReadonlySet<string> = new Set(['flange', 'turn', 'rolled', 'hem', 'curl', 'joggle']);

/** What the blank says of the statement itself: its bends' sums, or the reliefs that were cut because of it. */
const partSums = (ask: Ask, statement: Statement, offset: number): readonly string[] => {
  const placed = partAround(ask, offset);
  if (placed === undefined) return [];
  const word = statement.entry?.word;
  if (isCutFromLength(placed.result.part)) return pieceSums(ask, placed, statement.span);
  if (word !== undefined && bends.has(word))
    return [...bendHovers(ask, placed, statement.span), ...bendStepHovers(ask, placed, statement.span)];
  if (word === 'bead' || word === 'band' || statement.entry?.family === 'bead') {
    const copies = beadsOfStatement(placed, statement.span);
    return copies.length === 0 ? [] : [beadSums(ask, copies)];
  }
  if (word === 'tip' || word === 'cross_break' || word === 'dimple') return otherWorkSums(ask, placed, statement.span);
  if (word === 'load') return loadSums(ask, placed, statement.span);
  // A relief that nobody wrote is put down to the outline whose corner it stands at.
  return word === 'corner' || word === 'outline' ? reliefHovers(ask, placed, statement) : [];
};

const reliefHovers = (ask: Ask, placed: PlacedPart, statement: Statement): readonly string[] => {
  const own = { start: statement.span.start - placed.start, end: statement.span.end - placed.start };
  const reliefs = (placed.result.blank.blank?.reliefs ?? []).filter(
    (relief) => own.start <= relief.span.start && relief.span.end <= own.end,
  );
  const said = reliefs.map(
    (relief) =>
      `**relief ${relief.kind} ${sayLength(ask, relief.size)}**${relief.automatic ? ', chosen by the program' : ''}: ${plain(relief.reason)}`,
  );
  return [...new Set(said)];
};

const ofExpression = (ask: Ask, model: FileModel, statement: Statement, expr: Expr, offset: number): Said | undefined => {
  switch (expr.kind) {
    case 'number':
      return { span: expr.span, text: numberHover(ask, model, statement, expr) };
    case 'call': {
      if (!touches(expr.name.span, offset)) return undefined;
      const found = functions.find((one) => one.name === expr.name.name);
      const value = model.valueOf(expr);
      const result = value === undefined || value.kind === 'unknown' ? '' : `\n\nhere ${plain(sayValue(ask, model, value))}`;
      return found === undefined ? undefined : { span: expr.name.span, text: `**${found.usage}**: ${found.summary}${result}` };
    }
    case 'name':
    case 'member':
    case 'unary':
    case 'binary': {
      const value = model.valueOf(expr);
      if (value === undefined || value.kind === 'unknown') return undefined;
      return { span: expr.span, text: `${plain(textOf(model, expr.span))} = ${plain(sayValue(ask, model, value))}` };
    }
    case 'point':
    case 'paren':
    case 'text':
    case 'yesno':
    case 'missing':
      return undefined;
  }
};

/** A written number: how it was read, and its size in both units when it is a length, its included angle when it is a turn. */
const numberHover = (ask: Ask, model: FileModel, statement: Statement, expr: Extract<Expr, { kind: 'number' }>): string => {
  const written = textOf(model, expr.span);
  const read = expr.reading.replace(/\s+/g, ' ') === written.replace(/\s+/g, ' ') ? '' : `read as ${plain(expr.reading)}`;
  const value = model.valueOf(expr);
  const wanted = wantOfArgument(statement, expr);
  const said = ((): string => {
    if (value === undefined || value.kind !== 'number') return '';
    if (value.bare && wanted === 'length' && model.units !== undefined) return sayLengthFully(ask, value.value * model.units.mm);
    if (value.bare && wanted === 'angle') return turnWords((value.value * Math.PI) / 180, statement);
    if (!value.bare && value.dim.angle === 1 && value.dim.length === 0) return turnWords(value.value, statement);
    if (value.bare) return wanted === 'any' || wanted === undefined ? bareWords(ask, model, written, value.value) : plain(written);
    return plain(sayValue(ask, model, value));
  })();
  return [said, read].filter(Boolean).join('  \n') || plain(written);
};

const bareWords = (ask: Ask, model: FileModel, written: string, value: number): string =>
  model.units === undefined
    ? `${plain(written)}, without a unit`
    : `${plain(written)}, without a unit: ${sayLengthFully(ask, value * model.units.mm)} where a length is wanted`;

const turnWords = (turn: number, statement: Statement): string => {
  const bends = statement.entry?.word === 'flange' || statement.entry?.word === 'turn' || statement.entry?.word === 'rolled';
  return bends ? `turned ${sayAngle(turn)} from flat, ${sayAngle(Math.PI - turn)} included` : sayAngle(turn);
};

/** What the statement wants of the argument a number stands in; undefined when the number is only a part of a sum. */
const wantOfArgument = (statement: Statement, expr: Expr): ReturnType<typeof wantedOf> => {
  if (statement.entry === undefined) return undefined;
  const within = (argument: Argument): boolean => argument.span.start <= expr.span.start && expr.span.end <= argument.span.end;
  const search = (fields: Statement['fields']): ReturnType<typeof wantedOf> => {
    for (const [field, argument] of Object.entries(fields)) {
      if (!within(argument) || statement.entry === undefined) continue;
      const groups = argument.kind === 'group' ? [argument] : argument.kind === 'list' ? argument.items.filter(within) : [];
      for (const group of groups) {
        const found = group.kind === 'group' ? search(group.fields) : undefined;
        if (found !== undefined) return found;
      }
      const wanted = wantedOf(statement.entry, field);
      // Both numbers of a point are lengths.
      if (wanted !== undefined) return wanted === 'point' ? 'length' : wanted;
    }
    return undefined;
  };
  return search(statement.fields);
};
