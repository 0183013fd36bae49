/** Materials, sheets and machines, worked out once each. */
import type { Ident, Statement } from '../../grammar/syntax.js';
import type { NameKind } from '../../grammar/vocabulary/pattern.js';
import type { AllowanceMethod } from '../trade/bends.js';
import { aluminiumTemper, aluminiumTempers } from '../trade/radii.js';
import {
  angleField,
  asNumber,
  countField,
  exprOf,
  itemsOf,
  type Limit,
  lengthField,
  numberField,
  pathOf,
  type Reader,
  spanOfPath,
  textField,
  wordField,
} from './arguments.js';
import { evaluate } from './evaluate.js';
import { gaugeTableOf } from './gauge.js';
import { readProfiles } from './machine-profiles.js';
import { findNamed, kindInWords, severalMessage, unknownMessage, visibleNames } from './names.js';
import { type Entry, pathText, type Reading, replace } from './reading.js';
import { readOffcuts, readSizes } from './remnants.js';
import type { Brake, Die, Material, Roller, Saw, Sheet, Stock, Trial } from './shop.js';

export type Thing = Material | Sheet | Brake | Roller | Die | Trial | Stock | Saw;

/** Things of one file, each worked out once. */
export interface Things {
  readonly material: (entry: Entry) => Material;
  readonly sheet: (entry: Entry) => Sheet | undefined;
  readonly brakes: () => readonly Brake[];
  readonly rollers: () => readonly Roller[];
  readonly dies: () => readonly Die[];
  readonly trials: () => readonly Trial[];
  readonly saws: () => readonly Saw[];
  readonly stock: (entry: Entry) => Stock;
  /** A sheet without what the trials it names tell: a trial asks for it. */
  readonly plainSheet: (entry: Entry) => Sheet | undefined;
  readonly trial: (entry: Entry) => Trial;
  readonly of: (entry: Entry) => Thing | undefined;
}

/** The entry a name of some kind means; unknown and clashing names are reported at it. */
export const entryNamed = (kind: NameKind, path: readonly Ident[], reading: Reading): Entry | undefined => {
  const found = findNamed(
    kind,
    path.map((step) => step.name),
    reading.names,
  );
  if (found.kind === 'one') return found.entry;
  const span = spanOfPath(path);
  if (found.kind === 'several') {
    reading.sink.report(span, 'name/clash', severalMessage(pathText(path), found.entries), {
      related: found.entries.map((entry) => ({ file: entry.file, span: entry.span, message: `${kindInWords(kind)} of this name` })),
    });
  } else if (!found.hidden) {
    const { message, near } = unknownMessage(kind, pathText(path), visibleNames(kind, reading.names));
    reading.sink.report(span, 'name/unknown', message, { fixes: near.map((name) => replace(span, name, `Change to ${name}`)) });
  }
  return undefined;
};

/** How one thing asks for another: memoised by the file that holds it. */
export interface ThingLookup {
  readonly material: (entry: Entry) => Material;
}

type Statements = ReadonlyMap<string, Statement>;
/** A block's statements by their first word; a second one of the same word is reported, unless several may stand. */
export const byWord = (block: Statement['block'], reading: Reading, several: readonly string[] = []): Statements => {
  const map = new Map<string, Statement>();
  for (const statement of block?.statements ?? []) {
    const word = statement.entry?.word ?? statement.word.name;
    const first = map.get(word);
    if (first === undefined) map.set(word, statement);
    else if (!several.includes(word)) {
      reading.sink.report(statement.word.span, 'name/repeated', `${word} is already given above, in the same braces. Keep one of the two.`);
    }
  }
  return map;
};

export const materialOf = (
  statement: Statement | undefined,
  reader: Reader,
  things: ThingLookup,
  field = 'material',
): Material | undefined => {
  const path = pathOf(statement?.fields[field]) ?? gaugeMaterial(statement);
  if (path === undefined) return undefined;
  const entry = entryNamed('material', path, reader.reading);
  return entry === undefined ? undefined : things.material(entry);
};
/** `18 ga of mild_steel` holds the material in the number itself. */
const gaugeMaterial = (statement: Statement | undefined): readonly Ident[] | undefined => {
  const expr = exprOf(statement?.fields.thickness);
  return expr?.kind === 'number' ? expr.ofMaterial : undefined;
};

export const readMaterial = (entry: Entry, reader: Reader): Material => {
  const rows = byWord(entry.statement?.block, reader.reading, ['tightest']);
  const get = (word: string, want: 'density' | 'stress' | 'ratio' | 'number', what: string): number | undefined => {
    const row = rows.get(word);
    return row === undefined ? undefined : numberField(reader, row, word, want, what, 'more than 0');
  };
  const density = get('density', 'density', 'Density');
  return {
    ...named(entry),
    // kg/mm³ within the language's sums, kg/m³ in the trade.
    density: density === undefined ? undefined : Number((density * 1e9).toPrecision(14)),
    yield: get('yield', 'stress', 'Yield strength'),
    tensile: get('tensile', 'stress', 'Tensile strength'),
    modulus: get('modulus', 'stress', 'The modulus'),
    elongation: get('elongation', 'ratio', 'Elongation'),
    hardening: get('hardening', 'number', 'Hardening'),
    gaugeTable: gaugeTableOf(entry.statement),
    tightest: readTightest(entry.statement, reader),
    coating: coatingOf(rows),
    ...alloyOf(rows, reader),
  };
};
const named = (entry: Entry): { name: string; file: string; span: Entry['span'] } => ({
  name: entry.name,
  file: entry.file,
  span: entry.span,
});
const alloyOf = (rows: Statements, reader: Reader): { readonly alloy?: string } => {
  const row = rows.get('alloy');
  const alloy = row === undefined ? undefined : textField(row, 'alloy');
  if (row === undefined || alloy === undefined) return {};
  if (aluminiumTemper(alloy) === undefined) {
    reader.reading.sink.report(
      row.fields.alloy?.span ?? row.span,
      'shop/alloy-not-in-the-table',
      `No table here has ${alloy}, so how tight it bends is not known. Try a strip and write what held: tightest radius 1/16. The table has ${aluminiumTempers.join(', ')}.`,
      { severity: 'information' },
    );
  }
  return { alloy };
};
const coatingOf = (rows: Statements): string | undefined => {
  const row = rows.get('coating');
  return row === undefined ? undefined : textField(row, 'coating');
};

/** Rows `tightest radius R [across|along] [to thickness T]`: a row without a way holds for both, one without a thickness for all. */
const readTightest = (statement: Statement | undefined, reader: Reader): Material['tightest'] => {
  const rows: { readonly upTo: number; readonly way: string | undefined; readonly radius: number }[] = [];
  for (const row of statement?.block?.statements ?? []) {
    if (row.word.name !== 'tightest') continue;
    const radius = lengthField(reader, row, 'radius', 'The tightest radius', 'not less than 0');
    const upTo = row.fields.thickness === undefined ? Number.POSITIVE_INFINITY : lengthField(reader, row, 'thickness', 'The thickness');
    if (radius !== undefined && upTo !== undefined) rows.push({ upTo, way: wordField(row, 'way'), radius });
  }
  const limits = [...new Set(rows.map((row) => row.upTo))].sort((a, b) => a - b);
  /** The row that speaks for a thickness: the least one that reaches it. */
  const radiusFor = (upTo: number, way: 'across' | 'along'): number | undefined =>
    rows.filter((row) => row.upTo >= upTo && (row.way === undefined || row.way === way)).sort((a, b) => a.upTo - b.upTo)[0]?.radius;
  return limits.flatMap((upTo) => {
    const across = radiusFor(upTo, 'across') ?? radiusFor(upTo, 'along');
    const along = radiusFor(upTo, 'along') ?? across;
    return across === undefined || along === undefined ? [] : [{ upTo, across, along }];
  });
};

/** Undefined when it has no thickness that can be had. */
export const readSheet = (entry: Entry, reader: Reader, things: ThingLookup): Sheet | undefined => {
  const rows = byWord(entry.statement?.block, reader.reading, ['offcut', 'also']);
  const material = materialOf(rows.get('material'), reader, things);
  const sizes = readSizes(entry.statement, reader);
  const offcuts = readOffcuts(entry.statement, reader);
  const thicknessRow = rows.get('thickness');
  const gauged: Reader = { ...reader, reading: { ...reader.reading, gauge: { table: material?.gaugeTable, material: material?.name } } };
  const thickness = thicknessRow === undefined ? undefined : lengthField(gauged, thicknessRow, 'thickness', 'The thickness');
  if (thicknessRow === undefined && entry.statement?.block !== undefined && !entry.statement.broken) {
    reader.reading.sink.report(
      entry.span,
      'sheet/no-thickness',
      `Sheet ${entry.name} doesn't say how thick it is. Add thickness 18 ga, or thickness 1.2 mm.`,
    );
  }
  const size = rows.get('size');
  const width = size === undefined ? undefined : lengthField(reader, size, 'width', 'The sheet’s width');
  const height = size === undefined ? undefined : lengthField(reader, size, 'height', 'The sheet’s height');
  const bend = rows.get('bend');
  const price = rows.get('price');
  const stocked = rows.get('stocked');
  if (thickness === undefined) return undefined;
  return {
    ...named(entry),
    material,
    thickness,
    size: width === undefined || height === undefined ? undefined : { width, height },
    bendRadius: bend === undefined ? undefined : lengthField(reader, bend, 'radius', 'The bend radius', 'not less than 0'),
    method: bend === undefined ? undefined : methodOf(bend, reader),
    price: price === undefined ? undefined : numberField(reader, price, 'price', 'money', 'The price', 'not less than 0'),
    stocked: stocked === undefined ? undefined : countField(reader, stocked, 'count', 'How many are stocked', 0, 1_000_000),
    ...(sizes.length === 0 ? {} : { sizes }),
    ...(offcuts.length === 0 ? {} : { offcuts }),
  };
};

const methodOf = (bend: Statement, reader: Reader): AllowanceMethod | undefined => {
  switch (wordField(bend, 'method')) {
    case 'k': {
      const k = numberField(reader, bend, 'k', 'number', 'k', 'more than 0');
      if (k === undefined) return undefined;
      if (k <= 1) return { kind: 'k', k };
      const span = bend.fields.k?.span ?? bend.span;
      reader.reading.sink.report(
        span,
        'number/out-of-range',
        `k is the share of the thickness at which the sheet neither stretches nor shrinks: more than 0 and 1 at most, and this is ${k}. Mild steel is about 0.4.`,
      );
      return undefined;
    }
    case 'din':
      return { kind: 'din' };
    case 'aircraft':
      return { kind: 'aircraft' };
    case 'handbook': {
      const temper = wordField(bend, 'temper');
      return temper === 'soft' || temper === 'half hard' || temper === 'hard' ? { kind: 'handbook', temper } : undefined;
    }
    case 'trial': {
      const names = itemsOf(bend.fields.trial).flatMap((item) => {
        const path = pathOf(item);
        return path === undefined ? [] : [pathText(path)];
      });
      return names.length === 0 ? undefined : { kind: 'trial', trial: names.join(', ') };
    }
    default:
      return undefined;
  }
};

const lengthRow = (rows: Statements, word: string, field: string, what: string, reader: Reader, limit?: Limit): number | undefined => {
  const row = rows.get(word);
  return row === undefined ? undefined : lengthField(reader, row, field, what, limit);
};
const thicknessOf = (row: Statement | undefined, reader: Reader, things: ThingLookup): Brake['capacity'] => {
  if (row === undefined) return undefined;
  const material = materialOf(row, reader, things);
  const gauged: Reader = { ...reader, reading: { ...reader.reading, gauge: { table: material?.gaugeTable, material: material?.name } } };
  const thickness = lengthField(gauged, row, 'thickness', 'The thickness');
  return thickness === undefined ? undefined : { thickness, material };
};

export const readBrake = (entry: Entry, reader: Reader, things: ThingLookup): Brake => {
  const rows = byWord(entry.statement?.block, reader.reading);
  const fingers = rows.get('fingers');
  const turn = rows.get('greatest');
  const widths = itemsOf(fingers?.fields.widths).flatMap((item) => {
    const expr = exprOf(item);
    const mm = expr === undefined ? undefined : asNumber(evaluate(expr, reader.reading), 'length', item.span, reader.reading);
    return mm === undefined ? [] : [mm];
  });
  return {
    ...named(entry),
    type: fingers === undefined ? 'leaf' : 'fingers',
    fingers: widths,
    length: lengthRow(rows, 'length', 'length', 'The brake’s length', reader),
    capacity: thicknessOf(rows.get('capacity'), reader, things),
    leastFlange: lengthRow(rows, 'least', 'flange', 'The least flange', reader),
    greatestTurn: turn === undefined ? undefined : angleField(reader, turn, 'turn', 'The greatest turn'),
    jaw: lengthRow(rows, 'jaw', 'jaw', 'The jaw’s opening', reader),
    depth: lengthRow(rows, 'depth', 'depth', 'The depth', reader),
    ...readProfiles(rows, reader),
  };
};

export const readRoller = (entry: Entry, reader: Reader, things: ThingLookup): Roller => {
  const rows = byWord(entry.statement?.block, reader.reading);
  return {
    ...named(entry),
    throat: lengthRow(rows, 'throat', 'throat', 'The throat', reader),
    thickest: thicknessOf(rows.get('thickest'), reader, things),
    arm: lengthRow(rows, 'arm', 'arm', 'The arm', reader),
  };
};

export const readDie = (entry: Entry, reader: Reader): Die => {
  const rows = byWord(entry.statement?.block, reader.reading);
  const shapes = ['round', 'vee', 'flat', 'step', 'tipping'] as const;
  const shape = shapes.find((word) => rows.has(word));
  if (shape === undefined && entry.statement?.block !== undefined && !entry.statement.broken) {
    reader.reading.sink.report(
      entry.span,
      'shape/no-die-shape',
      `Die ${entry.name} doesn't say what it leaves in the sheet. Add round, vee, flat, step or tipping.`,
    );
  }
  const nose = lengthRow(rows, 'nose', 'nose', 'The nose’s radius', reader, 'not less than 0');
  const shoulder = lengthRow(rows, 'shoulder', 'shoulder', 'The shoulder’s radius', reader, 'not less than 0');
  return {
    ...named(entry),
    shape: shape ?? 'round',
    width: lengthRow(rows, 'width', 'width', 'The width', reader),
    depth: lengthRow(rows, 'depth', 'depth', 'The depth', reader),
    tightestTurn: lengthRow(rows, 'tightest', 'turn', 'The tightest turn', reader),
    perPass: lengthRow(rows, 'per', 'depth', 'The depth of one pass', reader),
    ...(nose === undefined ? {} : { nose }),
    ...(shoulder === undefined ? {} : { shoulder }),
  };
};

const withoutPlaces = (key: string, value: unknown): unknown =>
  key === 'span' ? undefined : value === Number.POSITIVE_INFINITY ? 'any' : value;
/** What a thing is, without where it stands: equal text, equal thing. */
export const contentMark = (thing: Thing | undefined): string => (thing === undefined ? 'nothing' : JSON.stringify(thing, withoutPlaces));
