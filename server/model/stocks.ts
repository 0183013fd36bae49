/** Tube, bar, rod and angle as they are bought, remnants, and the saw that cuts them. */
import type { Statement } from '../../grammar/syntax.js';
import type { StockShape } from '../trade/tube.js';
import { countField, lengthField, numberField, type Reader } from './arguments.js';
import type { Entry } from './reading.js';
import { readOffcuts } from './remnants.js';
import type { Saw, Stock } from './shop.js';
import { byWord, materialOf, type ThingLookup } from './things.js';

type Rows = ReadonlyMap<string, Statement>;
const types = ['tube', 'bar', 'rod', 'angle'] as const;

const lengthIn = (rows: Rows, word: string, field: string, what: string, reader: Reader): number | undefined => {
  const row = rows.get(word);
  return row === undefined ? undefined : lengthField(reader, row, field, what);
};

/** The section, or undefined and a finding that says what is missing. */
const shapeOf = (entry: Entry, type: Stock['type'], rows: Rows, reader: Reader): StockShape | undefined => {
  const missing = (what: string): undefined => {
    if (entry.statement?.block !== undefined && !entry.statement.broken)
      reader.reading.sink.report(entry.span, 'stock/no-shape', `${entry.name} doesn't say ${what}.`);
    return undefined;
  };
  const round = lengthIn(rows, 'round', 'diameter', 'The diameter', reader);
  const square = lengthIn(rows, 'square', 'side', 'The side', reader);
  if (type === 'tube') {
    const wall = lengthIn(rows, 'wall', 'wall', 'The wall', reader);
    const width = square ?? lengthIn(rows, 'rectangle', 'width', 'The width', reader);
    const height = square ?? lengthIn(rows, 'rectangle', 'height', 'The height', reader);
    if (round === undefined && (width === undefined || height === undefined))
      return missing('its outside size. Add round 20, square 25 or rectangle 40 by 20');
    if (wall === undefined) return missing('how thick its wall is. Add wall 1.5');
    const least = round ?? Math.min(width ?? 0, height ?? 0);
    if (2 * wall >= least) return tooThick(rows.get('wall'), wall, least, reader);
    return round !== undefined
      ? { kind: 'round tube', diameter: round, wall }
      : { kind: 'square tube', width: width as number, height: height as number, wall };
  }
  if (type === 'angle') {
    const first = lengthIn(rows, 'legs', 'first', 'The leg', reader);
    const second = lengthIn(rows, 'legs', 'second', 'The leg', reader);
    const thickness = lengthIn(rows, 'thickness', 'thickness', 'The thickness', reader);
    if (first === undefined || second === undefined) return missing('its legs. Add legs 25 by 25');
    if (thickness === undefined) return missing('how thick it is. Add thickness 3');
    if (thickness >= Math.min(first, second)) return tooThick(rows.get('thickness'), thickness, 2 * Math.min(first, second), reader);
    return { kind: 'angle', first, second, thickness };
  }
  const width = lengthIn(rows, 'flat', 'width', 'The width', reader);
  const thickness = lengthIn(rows, 'flat', 'thickness', 'The thickness', reader);
  if (width !== undefined && thickness !== undefined) return { kind: 'flat', width, thickness };
  if (square !== undefined) return { kind: 'square', side: square };
  if (round !== undefined) return { kind: 'round', diameter: round };
  return missing(type === 'rod' ? 'its diameter. Add round 10' : 'its size. Add flat 25 by 5, square 12 or round 10');
};
const tooThick = (row: Statement | undefined, wall: number, across: number, reader: Reader): undefined => {
  if (row !== undefined)
    reader.reading.sink.report(
      row.span,
      'number/out-of-range',
      `A wall of ${Number(wall.toPrecision(6))} mm leaves nothing hollow in ${Number(across.toPrecision(6))} mm.`,
    );
  return undefined;
};

export const readStock = (entry: Entry, reader: Reader, things: ThingLookup): Stock => {
  const rows = byWord(entry.statement?.block, reader.reading, ['offcut']);
  const type = types.find((word) => word === entry.statement?.word.name) ?? 'bar';
  const price = rows.get('price');
  const stocked = rows.get('stocked');
  return {
    name: entry.name,
    file: entry.file,
    span: entry.span,
    type,
    shape: shapeOf(entry, type, rows, reader),
    material: materialOf(rows.get('material'), reader, things),
    length: lengthIn(rows, 'length', 'length', 'The length', reader),
    price: price === undefined ? undefined : numberField(reader, price, 'price', 'money', 'The price', 'not less than 0'),
    stocked: stocked === undefined ? undefined : countField(reader, stocked, 'count', 'How many are stocked', 0, 1_000_000),
    offcuts: readOffcuts(entry.statement, reader),
  };
};

export const readSaw = (entry: Entry, reader: Reader): Saw => {
  const rows = byWord(entry.statement?.block, reader.reading);
  return { name: entry.name, file: entry.file, span: entry.span, kerf: lengthIn(rows, 'kerf', 'kerf', 'The kerf', reader) };
};
