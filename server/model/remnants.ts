/** Rows that several kinds of stock have: remnants at hand, further sizes. */
import type { Statement } from '../../grammar/syntax.js';
import { countField, lengthField, numberField, type Reader } from './arguments.js';
import type { Offcut, SheetSize } from './shop.js';

/** Rows `offcut 20 by 30 [times 2]`; of a length, `offcut 900`. */
export const readOffcuts = (statement: Statement | undefined, reader: Reader): readonly Offcut[] =>
  (statement?.block?.statements ?? []).flatMap((row): readonly Offcut[] => {
    if (row.entry?.word !== 'offcut') return [];
    const width = lengthField(reader, row, 'width', 'The offcut’s size');
    const height = row.fields.height === undefined ? 0 : lengthField(reader, row, 'height', 'The offcut’s size');
    const count = row.fields.count === undefined ? 1 : countField(reader, row, 'count', 'How many offcuts', 1, 10_000);
    return width === undefined || height === undefined || count === undefined ? [] : [{ width, height, count }];
  });

/** Rows `also 36 by 96 [costing P] [times N]`. */
export const readSizes = (statement: Statement | undefined, reader: Reader): readonly SheetSize[] =>
  (statement?.block?.statements ?? []).flatMap((row): readonly SheetSize[] => {
    if (row.entry?.word !== 'also') return [];
    const width = lengthField(reader, row, 'width', 'The sheet’s width');
    const height = lengthField(reader, row, 'height', 'The sheet’s height');
    const price = row.fields.price === undefined ? undefined : numberField(reader, row, 'price', 'money', 'The price', 'not less than 0');
    const stocked = row.fields.count === undefined ? undefined : countField(reader, row, 'count', 'How many are stocked', 0, 1_000_000);
    return width === undefined || height === undefined ? [] : [{ width, height, price, stocked }];
  });
