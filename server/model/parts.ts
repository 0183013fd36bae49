/** One part, from its statement to its values. */
import type { Span, Statement } from '../../grammar/syntax.js';
import { countField, newNameField, pathOf, textField, wordField } from './arguments.js';
import { settleBeads } from './bead-copies.js';
import { type DieAt, readBead } from './beads.js';
import { readEdgeBlock } from './chains.js';
import { decideCheck, readsOwnMeasures } from './checks.js';
import { readCorner } from './corners.js';
import { readCut, readRepeat } from './cuts.js';
import { noFlatOn } from './edgeSteps.js';
import { readLoad } from './loads.js';
import { either, nearestNames, together } from './nearest.js';
import { mirroredFace, readOpposite } from './opposite.js';
import { readOutline } from './outline.js';
import type { CornerRule, CrossBreak, EdgeChain, Load, OtherPart, Panel, Part, Piece, Section, Sourced, Strap, Tip } from './part.js';
import { readPiece, readStrap, type StockAt } from './pieces.js';
import { type Reading, replace } from './reading.js';
import { dimplesAmong, readCrossBreak, readTip, tippedAndBent } from './roller-work.js';
import { readingOfBlock } from './scopes.js';
import { readSection } from './section.js';
import { settleCuts } from './settledCuts.js';
import type { Brake, Die, Roller, Saw, Sheet, Stock, Trial } from './shop.js';
import { noFlanges } from './stepIds.js';
import { byWord, entryNamed } from './things.js';
import { isAside, mostFeatures, type PartWork, type PendingCut } from './work.js';

/** What a part takes from the file around it. */
export interface PartShop {
  readonly sheet: (path: readonly string[], reading: Reading) => Sheet | undefined;
  readonly brakes: readonly Brake[];
  readonly rollers: readonly Roller[];
  readonly dies: readonly Die[];
  readonly trials: readonly Trial[];
  readonly saws: readonly Saw[];
  readonly stock: (path: readonly string[]) => Stock | undefined;
}
/** A part, but for its findings. */
type PartBody =
  | Omit<Panel, 'findings'>
  | Omit<Section, 'findings'>
  | Omit<Piece, 'findings'>
  | Omit<Strap, 'findings'>
  | Omit<OtherPart, 'findings'>;
export interface ReadPart {
  readonly part: PartBody;
  /** The sheet as written, to look up again when the part is kept over an edit elsewhere. */
  readonly sheetPath: readonly string[] | undefined;
}

/**
 * Reads a part. Findings go to the reading's sink (absolute spans); the part's own spans count from its statement.
 *
 * @param name the part's name and where it stands
 */
export const readPart = (
  statement: Statement,
  name: { readonly name: string; readonly span: Span },
  around: Reading,
  shop: PartShop,
): ReadPart => {
  const zero = statement.span.start;
  const relative = (span: Span): Span => ({ start: span.start - zero, end: span.end - zero });
  const statements = statement.block?.statements ?? [];
  const reading = readingOfBlock(statements, around);
  let broken = statement.broken || statement.block === undefined;
  const uncomputed: { word: string; span: Span }[] = [];
  const laterSeen = new Set<string>();
  const cuts: PendingCut[] = [];
  const work: PartWork = {
    reading,
    relative,
    absolute: (span) => ({ start: span.start + zero, end: span.end + zero }),
    cuts,
    beads: [],
    turns: { left: mostFeatures },
    fail: () => {
      broken = true;
    },
    later: (of, word = of.word.name) => {
      const seen = `${of.span.start} ${word}`;
      if (laterSeen.has(seen)) return;
      laterSeen.add(seen);
      uncomputed.push({ word, span: relative(of.span) });
      reading.sink.report(
        of.word.span,
        'text/not-computed-yet',
        `${word} is read but not computed yet: nothing is worked out from it in this version.`,
        {
          severity: 'information',
        },
      );
    },
  };
  for (const inner of statements) {
    const harmless = inner.word.name === 'let' || inner.word.name === 'check' || inner.word.name === 'note';
    if ((inner.broken || inner.entry === undefined) && !harmless) broken = true;
    if (inner.entry?.word === 'check') readCheck(inner, reading);
  }
  const word = statement.entry?.word ?? statement.word.name;
  const laysFlat = word === 'panel' || word === 'section';
  const rows = byWord(
    statement.block,
    reading,
    laysFlat ? severalMayStand : isCut(word) ? severalOfACut : allBut(onceInEveryPart, statement),
  );
  const quantityRow = rows.get('quantity');
  const finishRow = rows.get('finish');
  const base = {
    name: name.name,
    nameSpan: relative(name.span),
    span: relative(statement.span),
    file: reading.names.path,
    note: noteOf(statement),
    quantity: quantityRow === undefined ? 1 : (countField(work, quantityRow, 'count', 'How many', 0, 1_000_000) ?? 1),
    quantityOpposite:
      quantityRow === undefined ? 0 : (countField(work, quantityRow, 'opposite', 'How many of the opposite hand', 0, 1_000_000) ?? 0),
    finish: finishRow === undefined ? undefined : textField(finishRow, 'text'),
    grain: grainOf(rows.get('grain'), relative),
    ...faceOf(rows.get('face')),
    brakes: shop.brakes,
    rollers: shop.rollers,
    dies: shop.dies,
    trials: shop.trials,
    saws: shop.saws,
    uncomputed,
  } as const;
  if (!laysFlat) {
    if (statement.entry?.computed === false) work.later(statement);
    if (word === 'piece') return { part: { ...base, ...readPiece(statements, rows, work, stockAt(shop)), broken }, sheetPath: undefined };
    if (word === 'strap') return { part: { ...base, ...readStrap(statements, rows, work, stockAt(shop)), broken }, sheetPath: undefined };
    const kind = word === 'survey' ? word : 'assembly';
    const other: PartBody = { ...base, kind, broken: true };
    return { part: other, sheetPath: undefined };
  }
  const sheetPath = pathOf(rows.get('sheet')?.fields.sheet);
  const sheet = readSheetOf(rows.get('sheet'), work, shop);
  const shape = word === 'panel' ? readPanel(statements, rows, work, shop.dies) : readSection(statements, rows, work);
  const part = { ...base, ...shape, sheet, broken };
  return { part: part, sheetPath: sheetPath?.map((step) => step.name) };
};

const severalMayStand = [
  'let', 'check', 'note', 'edge', 'corner', 'hole', 'slot', 'cut', 'bead', 'band', 'tip', 'dimple', 'load', 'repeat', 'opposite', 'leg', 'turn',
  'hem', 'curl', 'joggle', 'tab', 'rolled',
]; // biome-ignore format: a list reads best on one line

const severalOfACut: readonly string[] = ['let', 'check', 'note', 'end', 'bend', 'hole', 'slot'];
/** Cut from a length. */
const isCut = (word: string): boolean => word === 'piece' || word === 'strap';

/** What stands once in a part of any kind; of kinds that nothing is worked out from yet, no more than this is judged. */
const onceInEveryPart: readonly string[] = ['quantity', 'finish', 'grain'];
const allBut = (once: readonly string[], statement: Statement): readonly string[] =>
  (statement.block?.statements ?? []).map((inner) => inner.entry?.word ?? inner.word.name).filter((each) => !once.includes(each));

const noteOf = (statement: Statement): string | undefined => {
  const lines = statement.note === undefined ? [] : [statement.note];
  for (const inner of statement.block?.statements ?? []) {
    if (inner.entry?.word !== 'note') continue;
    const text = textField(inner, 'text');
    if (text !== undefined) lines.push(text);
  }
  return lines.length === 0 ? undefined : lines.join('\n');
};

const faceOf = (row: Statement | undefined): Pick<Part, 'face'> => {
  const side = row === undefined ? undefined : wordField(row, 'side');
  return side === 'outside' || side === 'inside' || side === 'either' ? { face: side } : {};
};

const grainOf = (row: Statement | undefined, relative: (span: Span) => Span): Part['grain'] => {
  const along = row === undefined ? undefined : wordField(row, 'along');
  if (row === undefined || (along !== 'x' && along !== 'y' && along !== 'any')) return undefined;
  return { value: along, span: relative(row.fields.along?.span ?? row.span) };
};

const stockAt =
  (shop: PartShop): StockAt =>
  (row, field, work) => {
    const path = pathOf(row?.fields[field]);
    if (path === undefined) return undefined;
    const steps = path.map((step) => step.name);
    work.reading.dependencies?.thing('stock', steps);
    return entryNamed('stock', path, work.reading) === undefined ? undefined : shop.stock(steps);
  };

/** Checks that read the part's own measured sizes wait until those are there. */
const readCheck = (statement: Statement, reading: Reading): void => {
  if (!readsOwnMeasures(statement, reading)) decideCheck(statement, reading);
};

const readSheetOf = (row: Statement | undefined, work: PartWork, shop: PartShop): Sourced<Sheet> | undefined => {
  const path = pathOf(row?.fields.sheet);
  if (row === undefined || path === undefined) return undefined;
  const { reading } = work;
  const steps = path.map((step) => step.name);
  reading.dependencies?.thing('sheet', steps);
  if (entryNamed('sheet', path, reading) === undefined) {
    work.fail();
    return undefined;
  }
  const value = shop.sheet(steps, reading);
  if (value === undefined) {
    work.fail();
    return undefined;
  }
  return { value, span: work.relative(row.fields.sheet?.span ?? row.span) };
};

type Rows = ReadonlyMap<string, Statement>;

const readPanel = (
  statements: readonly Statement[],
  rows: Rows,
  work: PartWork,
  dies: readonly Die[],
): Pick<Panel, 'kind' | 'outline' | 'edges' | 'corners' | 'cuts' | 'beads' | 'tips' | 'crossBreaks' | 'dimples' | 'loads'> => {
  const outlineRow = rows.get('outline');
  const outline = outlineRow === undefined ? undefined : readOutline(outlineRow, work, work.relative);
  if (outlineRow !== undefined && outline === undefined) work.fail();
  const drawn = outline?.edges.flatMap((edge) => edge.name ?? []);
  if (outlineRow !== undefined) sameNameTwice(outlineRow, work);
  const edges: EdgeChain[] = [];
  const corners: CornerRule[] = [];
  const flanges = noFlanges();
  const tips: Tip[] = [];
  const crossBreaks: CrossBreak[] = [];
  const loads: Load[] = [];
  const dieAt: DieAt = (entry) => dies.find((die) => die.name === entry.name && die.file === entry.file);
  const each = (statement: Statement, inner: PartWork): void => {
    if (statement.broken || statement.entry === undefined) inner.fail();
    switch (statement.entry?.word) {
      case undefined:
        return;
      case 'edge':
        edges.push(...readEdgeBlock(statement, inner, { names: drawn, drawn: outline?.rectangle === false }, undefined, flanges));
        return;
      case 'corner': {
        const corner = readCorner(statement, inner, drawn);
        if (corner !== undefined) corners.push(corner);
        return;
      }
      case 'hole':
      case 'slot':
      case 'cut':
      case 'dimple':
        readCut(statement, inner, undefined);
        return;
      case 'bead':
      case 'band':
        readBead(statement, inner, outline, dieAt);
        return;
      case 'tip':
        tips.push(...readTip(statement, inner, drawn, tips, dieAt));
        return;
      case 'cross_break':
        crossBreaks.push(...readCrossBreak(statement, inner));
        return;
      case 'load':
        loads.push(...readLoad(statement, inner, drawn));
        return;
      case 'repeat':
        readRepeat(statement, inner, each);
        return;
      case 'opposite':
        readOpposite(statement, inner, each);
        return;
      default:
        if (statement.entry?.computed === false) inner.later(statement);
    }
  };
  for (const statement of statements) if (!isAside(statement)) each(statement, work);
  const lies = (path: readonly string[], span: Span): string | undefined => {
    const said = path.join('.');
    const id = flanges.ids.get(said);
    if (id !== undefined) {
      const why = noFlatOn(flanges.kinds.get(id), 'A cut');
      if (why === undefined) return id;
      work.reading.sink.report(span, 'shape/no-flat-there', why);
      return undefined;
    }
    const near = nearestNames(said, flanges.ids.keys());
    const cure =
      near.length > 0
        ? `Did you mean ${either(near)}?`
        : flanges.ids.size > 0
          ? `There is ${together([...new Set(flanges.ids.values())])}.`
          : 'This part has none yet: edge top { flange 3/4 down }.';
    work.reading.sink.report(span, 'name/unknown', `There is no flange ${said} here. ${cure}`, {
      fixes: near.map((other) => replace(span, other, `Change to ${other}`)),
    });
    return undefined;
  };
  tippedAndBent(tips, edges, work);
  const cuts = settleCuts(work, { lies, base: undefined, mirroredFace: (id, mirror) => mirroredFace(id, mirror, outline, flanges) });
  return {
    kind: 'panel',
    outline,
    edges,
    corners,
    cuts,
    beads: settleBeads(work),
    tips,
    crossBreaks,
    dimples: dimplesAmong(cuts),
    loads,
  };
};

const sameNameTwice = (outline: Statement, work: PartWork): void => {
  const seen = new Set<string>();
  for (const step of outline.block?.statements ?? []) {
    const name = newNameField(step, 'as');
    if (name === undefined) continue;
    if (seen.has(name.name))
      work.reading.sink.report(
        name.span,
        'name/repeated',
        `${name.name} already names an edge of this outline. Give this one another name.`,
      );
    seen.add(name.name);
  }
};
