/** Test strips: what was cut, how it was bent or beaded, what was measured, what a bent one tells of its sheet, and the panel one is asked for. */
import type { Argument, Ident, Span, Statement } from '../../grammar/syntax.js';
import type { AllowanceMethod } from '../trade/bends.js';
import { type BentStrip, greatestK, legsThatMakeSense, type StripReadings, workBack } from '../trade/trial.js';
import { angleField, asNumber, countField, exprOf, itemsOf, lengthField, pathOf, type Reader, spanOfPath, wordField } from './arguments.js';
import { unitSign } from './dimension.js';
import { decimal, sayAngle, sayLength } from './display.js';
import { evaluate } from './evaluate.js';
import { together } from './nearest.js';
import { type Entry, pathText } from './reading.js';
import type { Die, Read, Sheet, Trial } from './shop.js';
import { byWord, entryNamed } from './things.js';

/** Things a trial speaks of, as its own file sees them. The sheet comes without its trials, since those may be this very one. */
export interface TrialLookup {
  readonly sheet: (entry: Entry) => Sheet | undefined;
  readonly die: (entry: Entry) => Die | undefined;
}

type Rows = ReadonlyMap<string, Statement>;
type What = 'legs' | 'angle' | 'radius' | 'width' | 'length' | 'depth';

/** Reads one `trial`. What can't be had is undefined, with the reason said. */
export const readTrial = (entry: Entry, reader: Reader, things: TrialLookup): Trial => {
  const { reading } = reader;
  let failed = false;
  const hearing: Reader = {
    reading,
    fail: () => {
      failed = true;
      reader.fail();
    },
  };
  const rows = byWord(entry.statement?.block, reading, ['measured']);
  const measured = measurements(entry.statement, hearing);
  const sheetPath = pathOf(rows.get('sheet')?.fields.sheet);
  const sheetEntry = sheetPath === undefined ? undefined : entryNamed('sheet', sheetPath, reading);
  const sheet = sheetEntry === undefined ? undefined : things.sheet(sheetEntry);
  const grain = rows.get('grain');
  const way = grain === undefined ? undefined : wordField(grain, 'way');
  const trial: Trial = {
    name: entry.name,
    file: entry.file,
    span: entry.span,
    sheet,
    strip: stripOf(rows.get('strip'), hearing),
    grain: way === 'across' || way === 'along' ? way : undefined,
    bent: bentOf(rows.get('bent'), hearing),
    beaded: beadedOf(rows.get('beaded'), hearing, things),
    legs: legsOf(measured.get('legs'), hearing),
    angle: angleOf(measured.get('angle'), hearing),
    radius: readOf(measured.get('radius'), hearing, 'not less than 0'),
    width: readOf(measured.get('width'), hearing),
    length: readOf(measured.get('length'), hearing),
    depth: readOf(measured.get('depth'), hearing),
  };
  const whole = entry.statement !== undefined && !entry.statement.broken && entry.statement.block !== undefined && !failed;
  const asking = rows.get('for');
  if (asking !== undefined) {
    const asks = asksOf(asking, reading);
    const telling = entry.statement?.block?.statements.find((row) => row !== asking && row.entry !== undefined && row.entry.word !== 'for');
    if (asks !== undefined && telling !== undefined) {
      reading.sink.report(
        telling.word.span,
        'shop/trial-asks-and-tells',
        `Trial ${entry.name} asks for strips (for), so it can’t tell of one as well. Keep only \`for\` in it, and make a trial of its own for each strip that was tried.`,
      );
      return trial;
    }
    return asks === undefined ? trial : { ...trial, asks };
  }
  if (!whole || rowsAreBroken(entry.statement)) return trial;
  if (sheetPath !== undefined && sheet === undefined) return trial;
  if (!isComplete(trial, rows, measured, entry, reader)) return trial;
  const result = resultOf(trial, measured, entry, reader);
  return result === undefined ? trial : { ...trial, result };
};

const asksOf = (row: Statement, reading: Reader['reading']): Trial['asks'] => {
  const path = pathOf(row.fields.panel);
  if (path === undefined) return undefined;
  const part = entryNamed('part', path, reading);
  return { panel: part === undefined ? undefined : { name: part.name, file: part.file }, span: spanOfPath(path) };
};

const rowsAreBroken = (statement: Statement | undefined): boolean =>
  (statement?.block?.statements ?? []).some((row) => row.broken || row.entry === undefined);

/** `measured` rows by what they measure; the same measured twice is reported. */
const measurements = (statement: Statement | undefined, { reading }: Reader): ReadonlyMap<What, Statement> => {
  const map = new Map<What, Statement>();
  for (const row of statement?.block?.statements ?? []) {
    if (row.entry?.word !== 'measured') continue;
    const what = wordField(row, 'what') as What | undefined;
    if (what === undefined) continue;
    if (!map.has(what)) map.set(what, row);
    else
      reading.sink.report(
        row.fields.what?.span ?? row.word.span,
        'name/repeated',
        `measured ${what} is already given above, in the same braces. Keep one of the two, or make the other strip a trial of its own.`,
      );
  }
  return map;
};

const stripOf = (row: Statement | undefined, reader: Reader): Trial['strip'] => {
  if (row === undefined) return undefined;
  const length = lengthField(reader, row, 'length', 'The strip’s length');
  const width = lengthField(reader, row, 'width', 'The strip’s width');
  return length === undefined ? undefined : { length, width, finest: finestOf(row, reader) };
};
const finestOf = (row: Statement, reader: Reader): number =>
  lengthField(reader, row, 'finest', 'The step it was read to', 'not less than 0') ?? 0;

const bentOf = (row: Statement | undefined, reader: Reader): Trial['bent'] => {
  if (row === undefined) return undefined;
  const turnSet = angleField(reader, row, 'angle', 'The angle it was bent to', 'turn');
  const radius = lengthField(reader, row, 'radius', 'The radius of the nose', 'not less than 0');
  const brake = pathOf(row.fields.brake);
  if (brake !== undefined) entryNamed('brake', brake, reader.reading);
  return turnSet === undefined ? undefined : { turnSet, radius, brake: brake === undefined ? undefined : pathText(brake) };
};

const beadedOf = (row: Statement | undefined, reader: Reader, things: TrialLookup): Trial['beaded'] => {
  if (row === undefined) return undefined;
  const path = pathOf(row.fields.die);
  const entry = path === undefined ? undefined : entryNamed('die', path, reader.reading);
  const length = lengthField(reader, row, 'length', 'The bead’s length');
  const passes = row.fields.passes === undefined ? 1 : countField(reader, row, 'passes', 'How many passes', 1, 1000);
  return { die: entry === undefined ? undefined : things.die(entry), length, passes: passes ?? 1 };
};

const legsOf = (row: Statement | undefined, reader: Reader): Trial['legs'] => {
  if (row === undefined) return undefined;
  const items = itemsOf(row.fields.lengths);
  const lengths = items.flatMap((item) => legOf(item, reader) ?? []);
  return lengths.length < items.length ? undefined : { lengths, finest: finestOf(row, reader) };
};
const legOf = (item: Argument, reader: Reader): number | undefined => {
  const expr = exprOf(item);
  const mm = expr === undefined ? undefined : asNumber(evaluate(expr, reader.reading), 'length', item.span, reader.reading);
  if (mm !== undefined && mm > 0) return mm;
  if (mm !== undefined) {
    reader.reading.sink.report(
      item.span,
      'number/out-of-range',
      `A leg must be more than 0, not ${sayLength(mm, reader.reading.names.units)}.`,
    );
  }
  reader.fail();
  return undefined;
};

const angleOf = (row: Statement | undefined, reader: Reader): Trial['angle'] => {
  if (row === undefined) return undefined;
  const turn = angleField(reader, row, 'angle', 'The angle left', 'turn');
  const finest = row.fields.finestAngle === undefined ? 0 : angleField(reader, row, 'finestAngle', 'The step it was read to');
  return turn === undefined ? undefined : { turn, finest: Math.max(0, finest ?? 0) };
};

const readOf = (row: Statement | undefined, reader: Reader, limit: 'more than 0' | 'not less than 0' = 'more than 0'): Read | undefined => {
  if (row === undefined) return undefined;
  const value = lengthField(reader, row, 'length', 'What was measured', limit);
  return value === undefined ? undefined : { value, finest: finestOf(row, reader) };
};

/** Whether all is there that a bent or a beaded strip needs; one message names what is missing. */
const isComplete = (trial: Trial, rows: Rows, measured: ReadonlyMap<What, Statement>, entry: Entry, { reading }: Reader): boolean => {
  const { report } = reading.sink;
  const [bent, beaded] = [rows.get('bent'), rows.get('beaded')];
  if (bent !== undefined && beaded !== undefined) {
    report(
      beaded.word.span,
      'shop/trial-two-in-one',
      'This strip is bent above, and one strip tells of one thing. Make the beaded one a trial of its own.',
    );
    return false;
  }
  if (trial.sheet !== undefined && measured.size === 0 && (beaded !== undefined || (bent !== undefined && trial.strip !== undefined))) {
    report(
      entry.span,
      'shop/trial-to-measure',
      `Trial ${entry.name} waits to be measured: ${
        bent === undefined
          ? 'write what the bead came to (measured width 198.1 to 0.1, measured depth 2.8 to 0.1)'
          : 'write its legs after bending (measured legs 51.2, 51.1 to 0.1), and its angle'
      }. Until then it tells nothing.`,
      { severity: 'information' },
    );
    return false;
  }
  const missing = [
    ...(trial.sheet === undefined ? ['which sheet it was cut from (sheet crs_12)'] : []),
    ...(bent === undefined && beaded === undefined ? ['what was done to it (bent 93 radius 1.2, or beaded half_round_10)'] : []),
    ...(bent !== undefined && trial.strip === undefined ? ['how long it was before bending (strip 100 by 40)'] : []),
    ...(bent !== undefined && !measured.has('legs') ? ['its legs after bending (measured legs 51.2, 51.1 to 0.1)'] : []),
    ...(beaded !== undefined && !measured.has('width') && !measured.has('depth')
      ? ['what the bead came to (measured width 198.1 to 0.1, measured depth 2.8 to 0.1)']
      : []),
  ];
  if (missing.length > 0) report(entry.span, 'shop/trial-incomplete', `Trial ${entry.name} doesn’t say ${together(missing)}.`);
  return missing.length === 0;
};

const radiusOf = (trial: Trial): Read | undefined => {
  if (trial.radius !== undefined) return trial.radius;
  const stated = trial.bent?.radius ?? trial.sheet?.bendRadius;
  return stated === undefined ? undefined : { value: stated, finest: 0 };
};

const resultOf = (trial: Trial, measured: ReadonlyMap<What, Statement>, entry: Entry, { reading }: Reader): BentStrip | undefined => {
  const { bent, sheet, strip, legs } = trial;
  if (bent === undefined || sheet === undefined || strip === undefined || legs === undefined) return undefined;
  const { report } = reading.sink;
  const { units } = reading.names;
  // As a calliper reads: a strip tells by hundredths.
  const say = (mm: number): string => `${decimal(mm / (units?.mm ?? 1), units?.name === 'inch' ? 3 : 2)} ${unitSign(units)}`;
  const legSpan: Span = measured.get('legs')?.fields.lengths?.span ?? entry.span;
  if (legs.lengths.length < 2) {
    report(legSpan, 'shop/trial-incomplete', 'A bend has two legs, and one is measured here. Write both: measured legs 51.2, 51.1 to 0.1.');
    return undefined;
  }
  const radius = radiusOf(trial);
  if (radius === undefined) {
    report(
      entry.span,
      'shop/trial-incomplete',
      `Trial ${entry.name} doesn’t say to what inside radius it was bent, and sheet ${sheet.name} has no bend radius. Write bent 93 radius 1.2, or measured radius 1.2.`,
    );
    return undefined;
  }
  const readings: StripReadings = {
    length: strip.length,
    lengthFinest: strip.finest,
    legs: legs.lengths,
    legsFinest: legs.finest,
    turn: trial.angle?.turn ?? bent.turnSet,
    turnFinest: trial.angle?.finest ?? 0,
    radius: radius.value,
    radiusFinest: radius.finest,
    thickness: sheet.thickness,
  };
  if (trial.angle !== undefined && trial.angle.turn > bent.turnSet + 1e-9) {
    report(
      measured.get('angle')?.fields.angle?.span ?? entry.span,
      'shop/trial-makes-no-sense',
      `It was bent to ${sayAngle(bent.turnSet)} and can’t have been left at ${sayAngle(trial.angle.turn)}: sheet springs back, it doesn’t go on bending. Both count from flat.`,
    );
    return undefined;
  }
  const worked = workBack(readings);
  if (worked === undefined) return undefined;
  if (worked.k < 0 || worked.k > greatestK) {
    const sum = legs.lengths.reduce((all, leg) => all + leg, 0);
    const { least, most } = legsThatMakeSense(readings);
    const bends = legs.lengths.length - 1;
    const at = `${sayAngle(readings.turn)} and an inside radius of ${say(radius.value)} in ${say(sheet.thickness)} sheet`;
    report(
      legSpan,
      'shop/trial-makes-no-sense',
      `The legs add up to ${say(sum)} from a strip of ${say(strip.length)}: that puts K at ${worked.k.toFixed(2)}, and it lies between 0 and ${greatestK}. With ${bends === 1 ? 'one bend' : `${bends} bends`} of ${at} they should add up to ${say(least)} to ${say(most)}. Look at the radius and the legs; legs are measured from the outside.`,
    );
    return undefined;
  }
  return {
    name: trial.name,
    turn: readings.turn,
    turnSet: trial.angle === undefined ? undefined : bent.turnSet,
    radius: radius.value,
    thickness: sheet.thickness,
    k: worked.k,
    kSpread: worked.kSpread,
  };
};

/** Trials a sheet's `bend radius` names, each an entry; unknown ones are reported there. */
export const namedTrials = (bend: Statement | undefined, reader: Reader): readonly { readonly entry: Entry; readonly span: Span }[] =>
  itemsOf(bend?.fields.trial).flatMap((item) => {
    const path: readonly Ident[] | undefined = pathOf(item);
    const entry = path === undefined ? undefined : entryNamed('trial', path, reader.reading);
    return entry === undefined || path === undefined ? [] : [{ entry, span: spanOfPath(path) }];
  });

/** A sheet whose `bend radius` names trials, with what they tell. */
export const withNamedTrials = (
  sheet: Sheet,
  named: readonly { readonly trial: Trial; readonly span: Span }[],
  { reading }: Reader,
): Sheet => {
  if (sheet.method?.kind !== 'trial') return sheet;
  const strips = named.flatMap(({ trial, span }) => {
    if (trial.sheet !== undefined && (trial.sheet.name !== sheet.name || trial.sheet.file !== sheet.file)) {
      reading.sink.report(
        span,
        'shop/trial-of-another-sheet',
        `Trial ${trial.name} was bent from sheet ${trial.sheet.name}. What it tells is taken over to ${sheet.name}; bend a strip of this one to be sure.`,
        { severity: 'warning' },
      );
    } else if (trial.beaded !== undefined && trial.bent === undefined) {
      reading.sink.report(
        span,
        'shop/trial-not-bent',
        `Trial ${trial.name} is a beaded strip and tells nothing of bends. Name one that was bent.`,
      );
    }
    return trial.result === undefined ? [] : [trial.result];
  });
  return { ...sheet, method: { ...sheet.method, strips } };
};

/** A sheet as a part sees it: strips in sight that were bent from it beat the book, unless the sheet names its trials itself. */
export const withTrialsInSight = (sheet: Sheet, trials: readonly Trial[]): Sheet => {
  if (sheet.method?.kind === 'trial') return sheet;
  const strips = trials.flatMap((trial) =>
    trial.result !== undefined && trial.sheet?.name === sheet.name && trial.sheet.file === sheet.file ? [trial.result] : [],
  );
  if (strips.length === 0) return sheet;
  const method: AllowanceMethod = { kind: 'trial', trial: strips.map(({ name }) => name).join(', '), strips };
  return { ...sheet, method };
};
