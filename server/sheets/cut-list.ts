/** What to buy and how to cut it: each nested sheet as a drawing, each length as a row, and the bill. */
import { decimal, sayLength, sayLengthBare, sayMass, saySize } from '../model/display.js';
import type { BillRow, LengthOutcome, NestPicture, SheetOutcome } from '../stock/index.js';
import type { Block, Figure } from './documents/blocks.js';
import type { DisplayOptions } from './drawing.js';
import { boxMark, type Ink, lineMark, loopMark, type Mark, narrow, type Page, wide } from './pages/page.js';
import type { Type } from './pages/type.js';

export interface CuttingOutcome {
  readonly sheets: readonly (SheetOutcome & { readonly pictures: readonly NestPicture[] })[];
  readonly lengths: readonly LengthOutcome[];
  readonly left: readonly { readonly part: string; readonly reason: string }[];
  readonly bill: readonly BillRow[];
  /** Sign of money, before the amount. */
  readonly currency: string;
}

const percent = (share: number): string => `${decimal(share * 100, 1)} %`;
const money = (amount: number | undefined, currency: string): string => (amount === undefined ? '' : `${currency}${amount.toFixed(2)}`);

const thin: Ink = { width: narrow };
const margin: Ink = { width: 0.13, dash: [1, 1], colour: '#777777' };
const offcut: Ink = { width: 0.13, dash: [3, 1.5], colour: '#555555' };

/** A nested sheet drawn as wide as it may be: pieces with their names, remnants dashed with their sizes. Millimetres on paper. */
export const nestFigure = (picture: NestPicture, room: number, tallest: number, options: DisplayOptions, type: Type): Figure => {
  const scale = Math.min(room / picture.width, tallest / picture.height);
  const say = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  const size = (words: string, most: number): number => Math.min(2.6, most / Math.max(type.width(words, 1), 0.1));
  const shown = { width: picture.width * scale, height: picture.height * scale };
  const pieces = picture.pieces.flatMap((piece): readonly Mark[] => {
    const words = piece.flipped ? `${piece.id} (turned over)` : piece.id;
    const letters = size(words, piece.labelRoom * 1.8 * scale);
    return [
      { kind: 'placed', scale, to: { x: 0, y: 0 }, marks: [loopMark([piece.outline, ...piece.holes], thin, '#e9eef2')] },
      ...(letters < 1
        ? []
        : [
            {
              kind: 'text' as const,
              text: words,
              at: { x: piece.label.x * scale, y: piece.label.y * scale - letters * 0.36 },
              size: letters,
              anchor: 'middle' as const,
            },
          ]),
    ];
  });
  const offcuts = picture.offcuts.flatMap((rest): readonly Mark[] => {
    const words = `${say(rest.width)} × ${say(rest.height)} left`;
    const letters = size(words, rest.width * scale * 0.9);
    const [x, y] = [(rest.x + rest.width / 2) * scale, (rest.y + rest.height / 2) * scale];
    return [
      boxMark(
        { min: { x: rest.x * scale, y: rest.y * scale }, max: { x: (rest.x + rest.width) * scale, y: (rest.y + rest.height) * scale } },
        offcut,
      ),
      ...(letters < 1.2
        ? []
        : [
            {
              kind: 'text' as const,
              text: words,
              at: { x, y: y - letters * 0.36 },
              size: letters,
              anchor: 'middle' as const,
              colour: '#555555',
            },
          ]),
    ];
  });
  const inset = picture.margin * scale;
  return {
    ...shown,
    words: `${picture.stock} with ${picture.pieces.length} pieces laid out`,
    marks: [
      ...offcuts,
      ...pieces,
      ...(inset > 0.2 ? [boxMark({ min: { x: inset, y: inset }, max: { x: shown.width - inset, y: shown.height - inset } }, margin)] : []),
      boxMark({ min: { x: 0, y: 0 }, max: { x: shown.width, y: shown.height } }, { width: wide }),
    ],
  };
};

/** A nested sheet as a page at true size, for a table or a plotter. */
export const nestPage = (picture: NestPicture, options: DisplayOptions, type: Type): Page => {
  const figure = nestFigure(picture, picture.width, picture.height, options, type);
  return { title: figure.words, width: picture.width, height: picture.height, marks: figure.marks };
};

/** One length as a bar with its cuts. */
const lengthFigure = (cut: LengthOutcome['result']['cuts'][number], room: number, options: DisplayOptions, type: Type): Figure => {
  const scale = room / cut.length;
  const height = 7;
  const say = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  return {
    width: room,
    height,
    caption: `${cut.times} × ${cut.stock}, ${say(cut.length)}: ${say(cut.left)} left`,
    words: `${cut.stock} cut into ${cut.pieces.map(({ id }) => id).join(', ')}`,
    marks: [
      boxMark({ min: { x: 0, y: 0 }, max: { x: room, y: height } }, thin),
      ...cut.pieces.flatMap((piece): readonly Mark[] => {
        const [from, to] = [piece.from * scale, (piece.from + piece.length) * scale];
        const words = `${piece.id}  ${say(piece.length)}`;
        const letters = Math.min(2.6, ((to - from) * 0.9) / Math.max(type.width(words, 1), 0.1));
        return [
          boxMark({ min: { x: from, y: 0 }, max: { x: to, y: height } }, thin, '#e9eef2'),
          ...(letters < 1
            ? []
            : [
                {
                  kind: 'text' as const,
                  text: words,
                  at: { x: (from + to) / 2, y: height / 2 - letters * 0.36 },
                  size: letters,
                  anchor: 'middle' as const,
                },
              ]),
        ];
      }),
      lineMark({ x: 0, y: 0 }, { x: room, y: 0 }, thin),
    ],
  };
};

/** @param room width of the text on the page, mm */
export const cuttingBlocks = (outcome: CuttingOutcome, room: number, options: DisplayOptions, type: Type): readonly Block[] => {
  const say = (mm: number): string => sayLength(mm, options.unit, options.denominator);
  const unplaced = [
    ...outcome.left.map(({ part, reason }) => `${part}: ${reason}.`),
    ...outcome.sheets.flatMap(({ job, result }) =>
      result.unplaced.map((piece) =>
        piece.reason === 'too large'
          ? `${piece.id}: too large for ${job.sheet.name} by ${[piece.overWidth, piece.overHeight]
              .filter((over) => over > 0)
              .map(say)
              .join(' and ')}.`
          : `${piece.id}: ${piece.reason === 'no stock' ? `${job.sheet.name} names no size` : piece.reason === 'no outline' ? 'it has no outline' : `${piece.count} find no room on what is there`}.`,
      ),
    ),
    ...outcome.lengths.flatMap(({ job, result }) =>
      result.unplaced.map(
        ({ id, count, reason }) =>
          `${id}: ${reason === 'too long' ? `longer than any ${job.stock.name}` : `${count} find no length of ${job.stock.name}`}.`,
      ),
    ),
  ];
  return [
    { kind: 'heading', level: 2, text: 'What to have and what to buy' },
    billTable(outcome, options),
    ...(unplaced.length === 0 ? [] : [{ kind: 'caution', title: 'Not on the cutting list', items: unplaced } as const]),
    ...outcome.sheets.flatMap(({ job, result, pictures }): readonly Block[] => [
      { kind: 'heading', level: 2, text: `Sheet ${job.sheet.name}` },
      {
        kind: 'paragraph',
        text: `${result.sheets.length} ${result.sheets.length === 1 ? 'sheet' : 'sheets'}, ${percent(result.utilisation)} of them in the parts. ${say(job.question.kerf)} between parts, ${say(job.question.margin)} free at the edges. The grain runs up the page.`,
      },
      {
        kind: 'figures',
        figures: pictures.map((picture, i) => {
          const sheet = result.sheets[i];
          const figure = nestFigure(picture, room, 120, options, type);
          const used = sheet === undefined ? '' : `, ${percent(sheet.utilisation)} used`;
          return {
            ...figure,
            caption: `${picture.stock}, ${saySize(picture.width, picture.height, options.unit, options.denominator)}${used}`,
          };
        }),
      },
    ]),
    ...outcome.lengths.flatMap(({ job, result }): readonly Block[] => [
      { kind: 'heading', level: 2, text: `Lengths of ${job.stock.name}` },
      {
        kind: 'paragraph',
        text: `${percent(result.utilisation)} of what is taken ends up in pieces; ${result.proven ? 'no other way of cutting buys less' : 'another way of cutting may buy less'}. Each cut takes ${say(job.question.kerf)}.`,
      },
      { kind: 'figures', figures: result.cuts.map((cut) => lengthFigure(cut, room, options, type)) },
    ]),
  ];
};

const billTable = (outcome: CuttingOutcome, options: DisplayOptions): Block => {
  const costs = outcome.bill.flatMap(({ cost }) => cost ?? []);
  const masses = outcome.bill.flatMap(({ mass }) => mass ?? []);
  const total =
    costs.length === 0
      ? ''
      : money(
          costs.reduce((sum, cost) => sum + cost, 0),
          outcome.currency,
        );
  return {
    kind: 'table',
    tick: true,
    columns: [
      { title: 'stock', share: 2.4 },
      { title: 'size', share: 2.2 },
      { title: 'needed', share: 1, align: 'right' },
      { title: 'at hand', share: 1, align: 'right' },
      { title: 'buy', share: 0.8, align: 'right', bold: true },
      { title: 'mass', share: 1.2, align: 'right' },
      { title: 'each', share: 1.2, align: 'right' },
      { title: 'cost', share: 1.2, align: 'right' },
    ],
    rows: [
      ...outcome.bill.map((row) => [
        row.what,
        row.remnants > 0 ? `${row.remnants} ${row.remnants === 1 ? 'remnant' : 'remnants'}` : row.size,
        row.remnants > 0 ? '' : String(row.needed),
        row.remnants > 0 ? '' : String(row.stocked),
        row.remnants > 0 ? '' : String(row.toBuy),
        row.mass === undefined ? '' : sayMass(row.mass, options.unit),
        money(row.price, outcome.currency),
        money(row.cost, outcome.currency),
      ]),
      ...(outcome.bill.length > 1 && (total !== '' || masses.length > 0)
        ? [
            [
              'together',
              '',
              '',
              '',
              '',
              masses.length === 0
                ? ''
                : sayMass(
                    masses.reduce((sum, mass) => sum + mass, 0),
                    options.unit,
                  ),
              '',
              total,
            ],
          ]
        : []),
    ],
    groups: outcome.bill.length > 1 && (total !== '' || masses.length > 0) ? [outcome.bill.length] : [],
  };
};

/** The bill as comma-separated values (RFC 4180), sizes and masses as plain numbers in mm and kg. */
export const billCsv = (outcome: CuttingOutcome): string => {
  const cell = (value: string | number | undefined): string => {
    const text = value === undefined ? '' : String(value);
    return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  const rows = outcome.bill.map((row) => [
    row.kind,
    row.what,
    row.size,
    row.needed,
    row.stocked,
    row.toBuy,
    row.remnants,
    row.mass === undefined ? undefined : Number(row.mass.toFixed(4)),
    row.price,
    row.cost,
  ]);
  const head = ['kind', 'stock', 'size', 'needed', 'at_hand', 'to_buy', 'remnants', 'mass_kg', 'price_each', 'cost'];
  return [head, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
};
