/** The cutting list: what to buy, what is made of it, every nested sheet and every length with its cuts, and what is left afterwards. */
import { decimal, sayLength, sayLengthBare, sayMass, saySize, writeLength } from '../../model/display.js';
import { boundingBox } from '../../shape/index.js';
import { type PartCut, type SheetPicture, takenApart, type Unplaced } from '../../stock/index.js';
import type { Block } from '../documents/blocks.js';
import type { DisplayOptions } from '../drawing.js';
import type { Type } from '../pages/type.js';
import { sayEnd } from '../piece-words.js';
import { lengthFigure } from './length-figure.js';
import { nestFigure } from './nest-figure.js';
import { type CuttingOutcome, costs, leftAfter, money, numbersOf, remnantsOf } from './outcome.js';

const percent = (share: number): string => `${decimal(share * 100, 1)} %`;
const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
type Rows = readonly (readonly string[])[];

/** Tallest a nested sheet is drawn, mm on paper. */
const tallest = 125;
const lettering = { letters: 2.6, least: 1.6 };

const whyUnplaced = (piece: Unplaced, sheet: string, say: (mm: number) => string): string => {
  switch (piece.reason) {
    case 'too large':
      return `${piece.id}: too large for ${sheet} by ${[piece.overWidth, piece.overHeight]
        .filter((over) => over > 0)
        .map(say)
        .join(' and ')}.`;
    case 'no stock':
      return `${piece.id}: ${sheet} names no size.`;
    case 'no outline':
      return `${piece.id}: it has no outline.`;
    case 'stock used up':
      return `${piece.id}: ${piece.count} of it find no room on the sheets there are.`;
  }
};

/** Parts and copies that are on no sheet and no length, and why. */
const missing = (outcome: CuttingOutcome, say: (mm: number) => string): readonly string[] => [
  ...outcome.left.map(({ part, reason }) => `${part}: ${reason}.`),
  ...outcome.sheets.flatMap(({ job, result }) => result.unplaced.map((piece) => whyUnplaced(piece, job.name, say))),
  ...outcome.lengths.flatMap(({ job, result }) =>
    result.unplaced.map(({ id, count, reason }) =>
      reason === 'too long' ? `${id}: longer than any length of ${job.name}.` : `${id}: ${count} of it find no length of ${job.name}.`,
    ),
  ),
];

const billBlock = (outcome: CuttingOutcome, options: DisplayOptions): Block => {
  const { bill } = outcome;
  const masses = bill.flatMap(({ mass }) => mass ?? []);
  const mass = (kg: number | undefined): string => (kg === undefined ? '' : sayMass(kg, options.unit));
  const sums = costs(bill);
  const total = bill.length > 1 && (sums.length > 0 || masses.length > 0);
  const rows: Rows = [
    ...bill.map((row) => [
      row.stock,
      `${
        row.size.kind === 'sheet'
          ? saySize(row.size.width, row.size.height, options.unit, options.denominator)
          : sayLength(row.size.length, options.unit, options.denominator)
      }${row.remnant ? ', remnant' : ''}`,
      String(row.needed),
      String(row.stocked),
      String(row.toBuy),
      mass(row.mass),
      money(row.price, row.currency),
      money(row.cost, row.currency),
    ]),
    ...(total
      ? [
          [
            'together',
            '',
            '',
            '',
            '',
            masses.length === 0 ? '' : mass(masses.reduce((sum, each) => sum + each, 0)),
            '',
            sums.map(({ currency, sum }) => money(sum, currency)).join(' + '),
          ],
        ]
      : []),
  ];
  return {
    kind: 'table',
    tick: true,
    columns: [
      { title: 'stock', share: 2.2 },
      { title: 'size', share: 2.8 },
      { title: 'needed', share: 1, align: 'right' },
      { title: 'at hand', share: 1, align: 'right' },
      { title: 'buy', share: 0.8, align: 'right', bold: true },
      { title: 'mass', share: 1.2, align: 'right' },
      { title: 'each', share: 1.2, align: 'right' },
      { title: 'cost', share: 1.2, align: 'right' },
    ],
    rows,
    groups: total ? [bill.length] : [],
  };
};

const howMany = ({ count, opposite }: PartCut): string => (opposite === 0 ? String(count) : `${count} + ${opposite} opp.`);

const partsBlock = (outcome: CuttingOutcome, options: DisplayOptions): Block => {
  const mass = (kg: number | undefined): string => (kg === undefined ? '' : sayMass(kg, options.unit));
  const massOf = (part: PartCut): number | undefined => (part.mass === undefined ? undefined : part.mass * (part.count + part.opposite));
  const masses = outcome.parts.flatMap((part) => massOf(part) ?? []);
  const total = outcome.parts.length > 1 && masses.length > 0;
  return {
    kind: 'table',
    tick: true,
    columns: [
      { title: 'no.', share: 0.6, align: 'right' },
      { title: 'part', share: 2.4, bold: true },
      { title: 'how many', share: 1.4, align: 'right' },
      { title: 'cut from', share: 1.6 },
      { title: 'size to cut', share: 2.6 },
      { title: 'mass of one', share: 1.2, align: 'right' },
      { title: 'of all', share: 1.1, align: 'right' },
    ],
    rows: [
      ...outcome.parts.map((part, i) => [
        String(i + 1),
        part.name,
        howMany(part),
        part.stock,
        part.size.kind === 'sheet'
          ? saySize(part.size.width, part.size.height, options.unit, options.denominator)
          : sayLength(part.size.length, options.unit, options.denominator),
        mass(part.mass),
        mass(massOf(part)),
      ]),
      ...(total ? [['', 'together', '', '', '', '', mass(masses.reduce((sum, each) => sum + each, 0))]] : []),
    ],
    groups: total ? [outcome.parts.length] : [],
  };
};

/** Where each piece lies, counted from the lower left corner of the sheet as drawn. */
const placesBlock = (picture: SheetPicture, numbers: ReadonlyMap<string, number>, options: DisplayOptions): Block => {
  const say = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  const rows = picture.pieces.map((piece) => ({ piece, box: boundingBox(piece.outline) }));
  rows.sort((a, b) => a.box.min.x - b.box.min.x || a.box.min.y - b.box.min.y);
  return {
    kind: 'table',
    tick: true,
    columns: [
      { title: 'no.', share: 0.6, align: 'right' },
      { title: 'piece', share: 2.6, bold: true },
      { title: 'across and up, as it lies', share: 2.2 },
      { title: 'from the left', share: 1.3, align: 'right' },
      { title: 'from below', share: 1.3, align: 'right' },
    ],
    rows: rows.map(({ piece, box: { min, max } }) => [
      String(numbers.get(piece.id) ?? ''),
      piece.flipped ? `${piece.id}, turned over` : piece.id,
      saySize(max.x - min.x, max.y - min.y, options.unit, options.denominator),
      say(min.x),
      say(min.y),
    ]),
  };
};

/** How the sheet comes apart on a shear, in the numbers of the drawing. */
const apartBlocks = ({ cuts, together }: ReturnType<typeof takenApart>, options: DisplayOptions): readonly Block[] => {
  const say = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  const places = cuts.map(({ axis, at }, i) => `${i + 1} ${axis === 'x' ? `at ${say(at)} from the left` : `at ${say(at)} from below`}`);
  const names = together.map((group) => [...new Set(group)].join(', '));
  return [
    ...(places.length === 0
      ? []
      : [{ kind: 'paragraph', text: `Cuts that go right across, in this order: ${places.join('; ')}.`, size: 2.6 } as const]),
    ...(names.length === 0
      ? []
      : [
          {
            kind: 'paragraph',
            text: `No straight cut parts these from one another; cut them out along their lines: ${names.join('; and ')}.`,
            size: 2.6,
          } as const,
        ]),
  ];
};

const sheetBlocks = (outcome: CuttingOutcome, room: number, options: DisplayOptions, type: Type): readonly Block[] => {
  const say = (mm: number): string => sayLength(mm, options.unit, options.denominator);
  const numbers = numbersOf(outcome);
  return outcome.sheets.flatMap(({ job, result, pictures, settled }): readonly Block[] => [
    { kind: 'heading', level: 2, text: `Sheet ${job.name}` },
    {
      kind: 'paragraph',
      text: [
        `${counted(result.sheets.length, 'sheet')}, ${percent(result.utilisation)} of ${result.sheets.length === 1 ? 'it' : 'them'} in the parts.`,
        `${say(job.question.kerf)} between parts, ${say(job.question.margin)} free at the edges.`,
        ...(settled ? [] : ['More time may find a tighter layout.']),
        'Places are counted from the corner with the circle.',
      ].join(' '),
    },
    ...pictures.flatMap((picture, i): readonly Block[] => {
      const used = result.sheets[i]?.utilisation;
      const apart = takenApart(picture, job.question.kerf);
      const figure = nestFigure(
        leftAfter(picture, apart.cuts, job.question.kerf),
        room,
        tallest,
        options,
        { ...lettering, numbers, cuts: apart.cuts },
        type,
      );
      const size = saySize(picture.width, picture.height, options.unit, options.denominator);
      return [
        {
          kind: 'figures',
          figures: [
            {
              ...figure,
              caption: `${pictures.length === 1 ? '' : `${i + 1} of ${pictures.length}: `}${picture.stock}, ${size}${used === undefined ? '' : `, ${percent(used)} used`}`,
            },
          ],
        },
        ...apartBlocks(apart, options),
        placesBlock(picture, numbers, options),
      ];
    }),
  ]);
};

/** Pieces of one stock as the saw is set for them: the longest first. */
const sawBlock = (outcome: CuttingOutcome, stock: string, options: DisplayOptions): Block => {
  const numbers = numbersOf(outcome);
  const own = outcome.parts
    .filter((part) => part.stock === stock && part.size.kind === 'length')
    .sort((a, b) => (b.size.kind === 'length' ? b.size.length : 0) - (a.size.kind === 'length' ? a.size.length : 0));
  const ends = ({ part }: PartCut): string => {
    if (part.kind !== 'piece') return 'square';
    const [start, finish] = [sayEnd(part.startEnd) ?? 'square', sayEnd(part.finishEnd) ?? 'square'];
    return start === finish ? (start === 'square' ? 'square' : `both ${start}`) : `${start}; ${finish}`;
  };
  return {
    kind: 'table',
    tick: true,
    columns: [
      { title: 'no.', share: 0.6, align: 'right' },
      { title: 'piece', share: 2, bold: true },
      { title: 'how many', share: 1.2, align: 'right' },
      { title: 'length over all', share: 1.6, align: 'right' },
      { title: 'ends', share: 3.4 },
    ],
    rows: own.map((part) => [
      String(numbers.get(part.name) ?? ''),
      part.name,
      String(part.count + part.opposite),
      part.size.kind === 'length' ? sayLength(part.size.length, options.unit, options.denominator) : '',
      ends(part),
    ]),
  };
};

const lengthBlocks = (outcome: CuttingOutcome, room: number, options: DisplayOptions, type: Type): readonly Block[] => {
  const say = (mm: number): string => sayLength(mm, options.unit, options.denominator);
  const numbers = numbersOf(outcome);
  const partOf = (id: string): PartCut['part'] | undefined => outcome.parts.find(({ name }) => name === id)?.part;
  return outcome.lengths.flatMap(({ job, result }): readonly Block[] => {
    const longest = Math.max(1, ...result.cuts.map(({ length }) => length));
    return [
      { kind: 'heading', level: 2, text: `Lengths of ${job.name}` },
      {
        kind: 'paragraph',
        text: [
          `${percent(result.utilisation)} of what is taken ends up in pieces.`,
          result.proven ? 'Proven: no other way of cutting buys less.' : 'Another way of cutting may buy less.',
          job.question.kerf > 0
            ? `Each cut takes ${say(job.question.kerf)}${job.question.pieces.some(({ cut }) => cut !== undefined) ? ', a slanting one more along the length' : ''}.`
            : 'No saw with its kerf is described: cuts are reckoned to take nothing.',
        ].join(' '),
      },
      sawBlock(outcome, job.name, options),
      {
        kind: 'figures',
        figures: result.cuts.map((cut) =>
          lengthFigure(cut, { name: job.name, shape: job.stock.shape }, partOf, numbers, room / longest, options, type),
        ),
      },
    ];
  });
};

/** Shorter than this is scrap: common practice, no source. mm */
const worthKeeping = { sheet: 150, length: 300 };
const mostKept = 6;

/** What is left, in the words of the shop file. Sizes are rounded down. */
export const remnantLines = (
  outcome: CuttingOutcome,
  options: DisplayOptions,
): readonly { readonly stock: string; readonly lines: readonly string[] }[] => {
  const write = (mm: number): string => writeLength(mm, options.unit, 'down', options.unit === undefined ? 64 : 8);
  const lines = (sizes: readonly string[]): readonly string[] => {
    const times = new Map<string, number>();
    for (const size of sizes) times.set(size, (times.get(size) ?? 0) + 1);
    return [...times].map(([size, count]) => `offcut ${size}${count === 1 ? '' : ` times ${count}`}`);
  };
  const sheets = outcome.sheets.map(({ job, pictures }) => ({
    stock: job.name,
    lines: lines(
      pictures
        .map((picture) => leftAfter(picture, takenApart(picture, job.question.kerf).cuts, job.question.kerf))
        .flatMap(remnantsOf)
        .filter(({ across, along }) => Math.min(across, along) >= worthKeeping.sheet)
        .sort((a, b) => b.across * b.along - a.across * a.along)
        .slice(0, mostKept)
        .map(({ across, along }) => `${write(across)} by ${write(along)}`),
    ),
  }));
  const lengths = outcome.lengths.map(({ job, result }) => ({
    stock: job.name,
    lines: lines(
      result.cuts
        .flatMap(({ left, times }) => Array.from({ length: times }, () => left))
        .filter((left) => left >= worthKeeping.length)
        .sort((a, b) => b - a)
        .map(write),
    ),
  }));
  return [...sheets, ...lengths].filter((each) => each.lines.length > 0);
};

const leftBlocks = (outcome: CuttingOutcome, options: DisplayOptions): readonly Block[] => {
  const rests = remnantLines(outcome, options);
  if (rests.length === 0) return [];
  return [
    { kind: 'heading', level: 2, text: 'What is left' },
    {
      kind: 'paragraph',
      text: 'Once it is cut, measure what is worth keeping and write it under its stock in the shop file, in place of the remnants that were used:',
    },
    { kind: 'typed', text: rests.map(({ stock, lines }) => `${stock}\n${lines.map((line) => `  ${line}`).join('\n')}`).join('\n') },
  ];
};

export interface CuttingBlocksOptions extends DisplayOptions {
  /** Where every piece lies on its sheet, and what is left, in numbers; yes unless said otherwise. */
  readonly thorough?: boolean;
}

/** @param room width of the text on the page, mm */
export const cuttingBlocks = (outcome: CuttingOutcome, room: number, options: CuttingBlocksOptions, type: Type): readonly Block[] => {
  const say = (mm: number): string => sayLength(mm, options.unit, options.denominator);
  const unplaced = missing(outcome, say);
  const thorough = options.thorough ?? true;
  const sheets = sheetBlocks(outcome, room, options, type);
  return [
    { kind: 'heading', level: 2, text: 'What to have and what to buy' },
    billBlock(outcome, options),
    ...(unplaced.length === 0 ? [] : [{ kind: 'caution', title: 'Not on the cutting list', items: unplaced } as const]),
    ...(thorough ? [{ kind: 'heading', level: 2, text: 'What is cut' } as const, partsBlock(outcome, options)] : []),
    ...(thorough ? sheets : sheets.filter((block) => block.kind !== 'table' && !(block.kind === 'paragraph' && block.size !== undefined))),
    ...lengthBlocks(outcome, room, options, type),
    ...(thorough ? leftBlocks(outcome, options) : []),
  ];
};
