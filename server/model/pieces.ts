/** Pieces of tube, bar, rod and angle, and straps round a pin. */
import type { Statement } from '../../grammar/syntax.js';
import { angleField, lengthField, pathOf, wordField } from './arguments.js';
import { readCut } from './cuts.js';
import type { Piece, PieceBend, PieceEnd, Sourced, Strap } from './part.js';
import { settleCuts } from './settledCuts.js';
import type { Stock } from './shop.js';
import type { PartWork } from './work.js';

type Rows = ReadonlyMap<string, Statement>;
/** The stock of a path, noted as something the part stands on; undefined, and said, when there is none. */
export type StockAt = (row: Statement | undefined, field: string, work: PartWork) => Stock | undefined;

const stockWords = ['tube', 'bar', 'rod', 'angle'] as const;
const square: PieceEnd = { kind: 'square' };

const stockOf = (rows: Rows, work: PartWork, stockAt: StockAt): Sourced<Stock> | undefined => {
  const named = stockWords.flatMap((word) => rows.get(word) ?? []);
  const [row, second] = named;
  if (second !== undefined) {
    work.reading.sink.report(second.span, 'name/repeated', 'A piece is cut from one stock. Keep one of the two.');
    work.fail();
  }
  if (row === undefined) return undefined;
  const stock = stockAt(row, 'stock', work);
  if (stock === undefined) {
    work.fail();
    return undefined;
  }
  if (stock.type !== row.word.name) {
    const path = pathOf(row.fields.stock);
    work.reading.sink.report(
      path?.[0]?.span ?? row.span,
      'name/other-kind',
      `${stock.name} is ${stock.type === 'angle' ? 'an' : 'a'} ${stock.type}, not a ${row.word.name}.`,
      {
        fixes: [{ title: `Write ${stock.type}`, edits: [{ span: row.word.span, text: stock.type }] }],
      },
    );
  }
  return { value: stock, span: work.relative(row.fields.stock?.span ?? row.span) };
};

const endOf = (row: Statement, work: PartWork, stockAt: StockAt): PieceEnd | undefined => {
  const cut = wordField(row, 'cut');
  const turned = row.fields.turned === undefined ? 0 : angleField(work, row, 'turned', 'The turn');
  const span = work.relative(row.span);
  if (cut === undefined || turned === undefined) return undefined;
  if (cut === 'square') return square;
  if (cut === 'cope') {
    const angle = row.fields.angle === undefined ? Math.PI / 2 : angleField(work, row, 'angle', 'The angle between the tubes');
    if (angle === undefined || !within(row, angle, Math.PI / 2, 'The angle between the two tubes is more than 0° and 90° at most', work))
      return undefined;
    const onto = row.fields.onto === undefined ? undefined : stockAt(row, 'onto', work);
    if (row.fields.onto !== undefined && onto === undefined) work.fail();
    return { kind: 'cope', onto, angle, turned, span };
  }
  const angle = angleField(work, row, 'angle', 'The mitre');
  if (
    angle === undefined ||
    !within(row, angle, (85 * Math.PI) / 180, 'A mitre is counted from square: more than 0° and 85° at most', work)
  )
    return undefined;
  return { kind: 'mitre', angle, turned, span };
};
const within = (row: Statement, angle: number, most: number, words: string, work: PartWork): boolean => {
  if (angle > 1e-9 && angle <= most + 1e-9) return true;
  work.reading.sink.report(
    row.fields.angle?.span ?? row.span,
    'number/out-of-range',
    `${words}, and this is ${Number(((angle * 180) / Math.PI).toFixed(2))}°.`,
  );
  work.fail();
  return false;
};

const bendOf = (row: Statement, work: PartWork): readonly PieceBend[] => {
  const at = lengthField(work, row, 'at', 'Where the bend starts', 'not less than 0');
  const turn = angleField(work, row, 'angle', 'The bend', 'turn');
  const radius = lengthField(work, row, 'radius', 'The radius');
  const turned = row.fields.turned === undefined ? 0 : angleField(work, row, 'turned', 'The turn');
  if (at === undefined || turn === undefined || radius === undefined || turned === undefined) return [];
  return [{ at, turn, radius, turned, span: work.relative(row.span) }];
};

const features = (statements: readonly Statement[], work: PartWork): Pick<Piece, 'cuts'> => {
  for (const row of statements) {
    if (row.entry === undefined || row.broken) continue;
    if (row.entry.word === 'hole' || row.entry.word === 'slot') readCut(row, { ...work, throughBothWalls: true }, undefined);
  }
  const lies = (path: readonly string[], span: { readonly start: number; readonly end: number }): undefined => {
    work.reading.sink.report(
      span,
      'name/unknown',
      `A piece has no face ${path.join('.')}; a hole lies on it as it is. Leave the name out.`,
    );
    return undefined;
  };
  return { cuts: settleCuts(work, { lies, base: undefined }) };
};

export const readPiece = (
  statements: readonly Statement[],
  rows: Rows,
  work: PartWork,
  stockAt: StockAt,
): Pick<Piece, 'kind' | 'stock' | 'length' | 'startEnd' | 'finishEnd' | 'bends' | 'cuts'> => {
  const lengthRow = rows.get('length');
  const length = lengthRow === undefined ? undefined : lengthField(work, lengthRow, 'length', 'The length');
  let [start, finish]: [PieceEnd, PieceEnd] = [square, square];
  const given = new Set<string>();
  const bends: PieceBend[] = [];
  for (const row of statements) {
    if (row.entry?.word === 'bend') bends.push(...bendOf(row, work));
    if (row.entry?.word !== 'end') continue;
    const which = wordField(row, 'which');
    for (const side of which === 'both' ? ['start', 'finish'] : [which ?? '']) {
      if (given.has(side))
        work.reading.sink.report(row.span, 'name/repeated', `How the ${side} is cut is said already, above. Keep one of the two.`);
      given.add(side);
    }
    const end = endOf(row, work, stockAt);
    if (end === undefined) {
      work.fail();
      continue;
    }
    if (which !== 'finish') start = end;
    if (which !== 'start') finish = end;
  }
  return {
    kind: 'piece',
    stock: stockOf(rows, work, stockAt),
    length:
      length === undefined || lengthRow === undefined
        ? undefined
        : { value: length, span: work.relative(lengthRow.fields.length?.span ?? lengthRow.span) },
    startEnd: start,
    finishEnd: finish,
    bends,
    ...features(statements, work),
  };
};

export const readStrap = (
  statements: readonly Statement[],
  rows: Rows,
  work: PartWork,
  stockAt: StockAt,
): Pick<Strap, 'kind' | 'stock' | 'pin' | 'clear' | 'wrap' | 'tails' | 'spans' | 'cuts'> => {
  const round = rows.get('round');
  const wrapRow = rows.get('wrap');
  const tail = rows.get('tail');
  const tails =
    tail === undefined ? [] : ['first', 'second'].flatMap((field) => lengthField(work, tail, field, 'The tail', 'not less than 0') ?? []);
  const wrap = wrapRow === undefined ? undefined : angleField(work, wrapRow, 'angle', 'The wrap');
  if (wrapRow !== undefined && wrap !== undefined && !(wrap > 0 && wrap < 2 * Math.PI)) {
    work.reading.sink.report(
      wrapRow.fields.angle?.span ?? wrapRow.span,
      'number/out-of-range',
      'A strap goes round its pin by more than 0° and less than 360°.',
    );
    work.fail();
  }
  return {
    kind: 'strap',
    stock: stockOf(rows, work, stockAt),
    pin: round === undefined ? undefined : lengthField(work, round, 'pin', 'The pin’s diameter'),
    clear: round?.fields.clear === undefined ? 0 : (lengthField(work, round, 'clear', 'The play', 'not less than 0') ?? 0),
    wrap,
    tails,
    spans: {
      ...(round === undefined ? {} : { round: work.relative(round.span) }),
      ...(wrapRow === undefined ? {} : { wrap: work.relative(wrapRow.span) }),
      ...(tail === undefined ? {} : { tail: work.relative(tail.span) }),
    },
    ...features(statements, work),
  };
};
