/** A piece of tube, bar, rod or angle, or a strap: how long, how its ends are cut, where it is bent and drilled; the template that is wrapped round it. */
import { sayAngle } from '../../brake/index.js';
import { sayMass } from '../../model/display.js';
import type { Cut, Piece } from '../../model/part.js';
import type { PieceWork } from '../../stock/index.js';
import { copeFigure, wrappedEnds } from '../cope-figure.js';
import type { Block, Figure, InnerBlock } from '../documents/blocks.js';
import { few, numbersOf } from '../mark-out-blocks.js';
import { gauge, gaugeHeight, gaugeWidth } from '../pages/gauge.js';
import type { Type } from '../pages/type.js';
import { pieceFigure } from '../piece-figure.js';
import { type CutFromLength, sayEnd, sayStock } from '../piece-words.js';
import type { BookletOptions, BookletPart, Saying } from './types.js';

/** Height that the drawing of a length may take, mm. */
const tallest = 70;
/** What is no longer than this is drawn large enough in half the width, mm. */
const short = 260;

/** @param head the heading of the chapter, and what is written of the part */
export const pieceBlocks = (
  head: readonly InnerBlock[],
  { work }: BookletPart,
  part: CutFromLength,
  saying: Saying,
  options: BookletOptions,
  type: Type,
): readonly Block[] => {
  // What is short is drawn large enough beside what is said of it.
  const aside = !saying.both && work?.length !== undefined && work.length <= short && part.cuts.length <= 2 * few;
  const figure = pieceFigure(part, saying.display, type, aside ? (options.room - 6) / 2 : options.room, tallest);
  const caption =
    part.kind === 'piece'
      ? `Straight, as it is cut, from its start${part.bends.length === 0 ? '' : '; above it, bent'}. Dashed: hidden.`
      : 'Flat, as it is cut, from the end of its first tail; above it, rolled.';
  const figures: readonly InnerBlock[] = figure === undefined ? [] : [{ kind: 'figures', figures: [{ ...figure, caption }] }];
  const fields: InnerBlock = { kind: 'fields', rows: pieceRows(part, work, saying), names: aside ? 30 : 45 };
  const bends = part.kind === 'piece' ? bendRows(part, saying) : [];
  const holes = holeRows(part.cuts, saying);
  const templates = part.kind === 'piece' ? templateBlocks(part, saying, options, type) : [];
  if (aside && figure !== undefined) {
    const parts = [
      { share: 1, blocks: [fields, ...bends, ...holes] },
      { share: 1, blocks: figures },
    ];
    return [{ kind: 'kept', blocks: [...head, { kind: 'side', parts }] }, ...templates];
  }
  const abreast = !saying.both && part.cuts.length > few;
  const above: readonly InnerBlock[] = [...head, fields, ...figures, ...bends];
  return [
    ...(abreast
      ? [
          { kind: 'kept', blocks: [...above, ...holes.slice(0, 1)] } as const,
          { kind: 'columns', count: 2, blocks: holes.slice(1) } as const,
        ]
      : [{ kind: 'kept', blocks: [...above, ...holes] } as const]),
    ...templates,
  ];
};

const pieceRows = (part: CutFromLength, work: PieceWork | undefined, saying: Saying): readonly (readonly [string, string])[] => {
  const stock = part.stock?.value;
  const length = work?.length;
  const short = work?.shortLength;
  const sloping = length !== undefined && short !== undefined && length - short > 0.005;
  return [
    [
      'Stock',
      stock === undefined ? 'none named' : `${stock.name}${stock.shape === undefined ? '' : `: ${sayStock(stock.shape, saying.display)}`}`,
    ],
    [
      part.kind === 'strap' || !sloping ? 'Length to cut' : 'Length over the long points',
      length === undefined ? 'not known' : saying.say(length),
    ],
    ...(sloping ? [['Between the short points', saying.say(short)] as const] : []),
    ...(part.kind === 'piece'
      ? [['Start', sayEnd(part.startEnd) ?? 'square'] as const, ['Finish', sayEnd(part.finishEnd) ?? 'square'] as const]
      : part.pin === undefined || part.wrap === undefined
        ? []
        : [
            [
              'Wrapped round',
              `a pin of ${saying.say(part.pin)}${part.clear > 0 ? ` with ${saying.say(part.clear)} of play` : ''}, ${sayAngle(part.wrap)} of touch`,
            ] as const,
          ]),
    ...(part.finish === undefined ? [] : [['Finish of the surface', part.finish] as const]),
    ...(work?.mass === undefined ? [] : [['Mass of one', sayMass(work.mass, saying.display.unit)] as const]),
  ];
};

const bendRows = (part: Piece, saying: Saying): readonly InnerBlock[] => {
  if (part.bends.length === 0) return [];
  const turned = part.bends.some((bend) => Math.abs(bend.turned) > 1e-6);
  const { number, heads } = numbersOf({ ...saying.display, bothUnits: saying.both });
  return [
    { kind: 'heading', level: 3, text: 'Bends, along the straight stock from its start' },
    {
      kind: 'table',
      tick: true,
      columns: [
        ...heads('begins'),
        ...heads('ends'),
        { title: 'turn', share: 1, align: 'right' },
        { title: 'radius to middle', share: 1.3, align: 'right' },
        ...(turned ? [{ title: 'turned about its axis', share: 1.8 }] : []),
      ],
      rows: [...part.bends]
        .sort((a, b) => a.at - b.at)
        .map((bend) => [
          ...number(bend.at),
          ...number(bend.at + bend.radius * bend.turn),
          sayAngle(bend.turn),
          saying.say(bend.radius),
          ...(turned ? [Math.abs(bend.turned) < 1e-6 ? 'as the first' : sayAngle(bend.turned)] : []),
        ]),
    },
  ];
};

/** A heading, and the table under it. */
const holeRows = (cuts: readonly Cut[], saying: Saying): readonly InnerBlock[] => {
  if (cuts.length === 0) return [];
  const { number, heads } = numbersOf({ ...saying.display, bothUnits: saying.both });
  return [
    { kind: 'heading', level: 3, text: 'Holes, from the start and from the lower edge' },
    {
      kind: 'table',
      tick: true,
      columns: [...heads('along'), ...heads('across'), { title: 'what', share: 1.8 }],
      rows: [...cuts].sort((a, b) => a.at.x - b.at.x).map((cut) => [...number(cut.at.x), ...number(cut.at.y), cutWords(cut, saying)]),
    },
  ];
};
const cutWords = ({ id, shape }: Cut, { bare }: Saying): string => {
  const size =
    shape.kind === 'hole'
      ? `⌀ ${bare(shape.diameter)}`
      : shape.kind === 'slot'
        ? `${bare(shape.width)} × ${bare(shape.length)}`
        : shape.kind === 'rectangle'
          ? `${bare(shape.width)} × ${bare(shape.height)}`
          : 'drawn';
  return `${size}  ${id}`;
};

/** The papers to wrap round coped ends, at true size with what proves it. */
const templateBlocks = (part: Piece, saying: Saying, options: BookletOptions, type: Type): readonly Block[] =>
  wrappedEnds(part).flatMap((which): readonly Block[] => {
    const template = copeFigure(part, which, saying.display, type);
    if (template === undefined) return [];
    const title = `Template for the ${which} of ${part.name}`;
    const figure = trueSize(template, title, options);
    return [
      { kind: 'heading', level: 2, text: title },
      figure === undefined
        ? {
            kind: 'caution',
            title: 'The template is longer than this paper',
            items: [`Print it in tiles or on longer paper: planish pattern FILE ${part.name} -o OUT.pdf.`],
          }
        : { kind: 'figures', figures: [figure] },
    ];
  });

/** Lying where it fits so, else standing; undefined where neither does. */
const trueSize = ({ width, height, marks }: Figure, words: string, { room, tallest: most }: BookletOptions): Figure | undefined => {
  const foot = gaugeHeight + 4;
  const caption = 'True size. Measure the square before you cut the paper.';
  const captionRoom = 25;
  if (width <= room && height + foot + captionRoom <= most)
    return {
      width: Math.max(width, gaugeWidth),
      height: height + foot,
      words,
      caption,
      marks: [{ kind: 'placed', marks, to: { x: 0, y: foot } }, ...gauge({ x: 0, y: 0 })],
    };
  if (width + foot + captionRoom <= most && height <= room)
    return {
      width: Math.max(height, gaugeWidth),
      height: width + foot,
      words,
      caption,
      marks: [{ kind: 'placed', marks, to: { x: height, y: foot }, turn: Math.PI / 2 }, ...gauge({ x: 0, y: 0 })],
    };
  return undefined;
};
