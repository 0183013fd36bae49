/** A piece of tube, bar, rod or angle, or a strap: how long, how its ends are cut, where it is bent and drilled; the template that is wrapped round it. */
import { sayAngle } from '../../brake/index.js';
import { sayMass } from '../../model/display.js';
import type { Piece, PieceEnd, Strap } from '../../model/part.js';
import type { Stock } from '../../model/shop.js';
import type { Point } from '../../shape/path.js';
import { acrossMitre, copeTemplate, eyeLength, mitreRun, type StockShape } from '../../trade/tube.js';
import type { Block, Figure } from '../documents/blocks.js';
import { gauge, gaugeHeight, gaugeWidth } from '../pages/gauge.js';
import { circleMark, lineMark, longDashDot, type Mark, narrow, polylineMark, wide } from '../pages/page.js';
import { dimension, hairline, letters } from './strokes.js';
import type { BookletOptions, BookletPart, Saying } from './types.js';

/** Thickness of the paper a template is printed on, mm. */
const paper = 0.1;
/** Rows of the table of a template's heights: every 15°. */
const stations = 24;

const sayShape = (shape: StockShape, { bare }: Saying): string => {
  switch (shape.kind) {
    case 'round tube':
      return `tube ⌀ ${bare(shape.diameter)} × ${bare(shape.wall)}`;
    case 'square tube':
      return `tube ${bare(shape.width)} × ${bare(shape.height)} × ${bare(shape.wall)}`;
    case 'round':
      return `round ⌀ ${bare(shape.diameter)}`;
    case 'square':
      return `square ${bare(shape.side)}`;
    case 'flat':
      return `flat ${bare(shape.width)} × ${bare(shape.thickness)}`;
    case 'angle':
      return `angle ${bare(shape.first)} × ${bare(shape.second)} × ${bare(shape.thickness)}`;
  }
};
const turnedWords = (turned: number): string => (Math.abs(turned) < 1e-6 ? '' : `, turned ${sayAngle(turned)} about its own axis`);
const sayEnd = (end: PieceEnd): string => {
  switch (end.kind) {
    case 'square':
      return 'square';
    case 'mitre':
      return `mitre ${sayAngle(end.angle)} from square${turnedWords(end.turned)}`;
    case 'cope':
      return `cope onto ${end.onto?.name ?? 'what is not known'} at ${sayAngle(end.angle)}${turnedWords(end.turned)}`;
  }
};

export const pieceBlocks = (one: BookletPart, part: Piece | Strap, saying: Saying, options: BookletOptions): readonly Block[] => {
  const { work } = one;
  const stock = part.stock?.value;
  const length = work?.length;
  const rows: (readonly [string, string])[] = [
    ['Stock', stock === undefined ? 'none named' : `${stock.name}${stock.shape === undefined ? '' : `, ${sayShape(stock.shape, saying)}`}`],
    [part.kind === 'piece' ? 'Length over the long points' : 'Length to cut', length === undefined ? 'not known' : saying.say(length)],
    ...(part.kind === 'piece' && work?.shortLength !== undefined && length !== undefined && length - work.shortLength > 0.005
      ? [['Length between the short points', saying.say(work.shortLength)] as const]
      : []),
    ...(part.kind === 'piece'
      ? [['Start', sayEnd(part.startEnd)] as const, ['Finish', sayEnd(part.finishEnd)] as const]
      : strapRows(part, stock, saying)),
    ...(work?.mass === undefined ? [] : [['Mass of one', sayMass(work.mass, saying.display.unit)] as const]),
  ];
  return [
    { kind: 'fields', rows },
    ...(length === undefined || stock?.shape === undefined ? [] : [sideView(part, stock.shape, length, saying, options)]),
    ...(part.kind === 'piece' ? [...bendRows(part, saying), ...holeRows(part, saying)] : holeRows(part, saying)),
    ...(part.kind === 'piece' && stock?.shape !== undefined
      ? [
          ...templateBlocks(part.name, 'start', part.startEnd, stock.shape, saying, options),
          ...templateBlocks(part.name, 'finish', part.finishEnd, stock.shape, saying, options),
        ]
      : []),
  ];
};

const strapRows = (part: Strap, stock: Stock | undefined, saying: Saying): readonly (readonly [string, string])[] => {
  if (part.pin === undefined || part.wrap === undefined) return [];
  const thickness = stock?.shape?.kind === 'flat' ? stock.shape.thickness : undefined;
  const first = part.tails[0] ?? 0;
  const eye = thickness === undefined ? undefined : eyeLength(part.pin + part.clear, thickness, part.wrap);
  return [
    ['Wrapped round', `a pin of ${saying.say(part.pin)} with ${saying.say(part.clear)} of play, ${sayAngle(part.wrap)} of touch`],
    ['Tails', part.tails.length === 0 ? 'none' : part.tails.map(saying.say).join(' and ')],
    ...(eye === undefined
      ? []
      : [
          [
            'Marks',
            `the eye begins at ${saying.say(first)} and ends at ${saying.say(first + eye)} from the end of the first tail`,
          ] as const,
        ]),
  ];
};

const bendRows = (part: Piece, saying: Saying): readonly Block[] =>
  part.bends.length === 0
    ? []
    : [
        { kind: 'heading', level: 3, text: 'Bends, along the straight stock from its start' },
        {
          kind: 'table',
          tick: true,
          columns: [
            { title: 'begins at', share: 1.4, align: 'right', bold: true },
            { title: 'ends at', share: 1.4, align: 'right', bold: true },
            { title: 'turn', share: 1 },
            { title: 'radius to the middle', share: 1.6, align: 'right' },
            { title: 'turned about its axis', share: 1.6 },
          ],
          rows: [...part.bends]
            .sort((a, b) => a.at - b.at)
            .map((bend) => [
              saying.say(bend.at),
              saying.say(bend.at + bend.radius * bend.turn),
              sayAngle(bend.turn),
              saying.say(bend.radius),
              Math.abs(bend.turned) < 1e-6 ? 'as the first' : sayAngle(bend.turned),
            ]),
        },
      ];

const holeRows = (part: Piece | Strap, saying: Saying): readonly Block[] =>
  part.cuts.length === 0
    ? []
    : [
        { kind: 'heading', level: 3, text: 'Holes, from the start and from the lower edge' },
        {
          kind: 'table',
          tick: true,
          columns: [
            { title: 'along', share: 1.4, align: 'right', bold: true },
            { title: 'across', share: 1.4, align: 'right', bold: true },
            { title: 'what', share: 3 },
          ],
          rows: part.cuts.map(({ id, at, shape }) => {
            const size =
              shape.kind === 'hole'
                ? `⌀ ${saying.bare(shape.diameter)}`
                : shape.kind === 'slot'
                  ? `${saying.bare(shape.width)} × ${saying.bare(shape.length)}`
                  : shape.kind === 'rectangle'
                    ? `${saying.bare(shape.width)} × ${saying.bare(shape.height)}`
                    : 'drawn';
            return [saying.say(at.x), saying.say(at.y), `${size}  ${id}`];
          }),
        },
      ];

/** Seen from the side, straight as it is cut, the mitres as they slope. */
const sideView = (part: Piece | Strap, shape: StockShape, length: number, saying: Saying, { room }: BookletOptions): Block => {
  const across = acrossMitre(shape);
  const scale = Math.min(1, (room - 4) / length);
  const high = Math.max(6, across * scale);
  const toScale = across * scale >= 6;
  const ends = part.kind === 'piece' ? [part.startEnd, part.finishEnd] : [];
  const runs = ends.map((end) => (end.kind === 'mitre' ? mitreRun(across, end.angle) * (high / across) : 0));
  const [start = 0, finish = 0] = runs;
  const [left, right] = [2, 2 + length * scale];
  const bottom = 9;
  const flips = ends.map((end) => end.kind === 'mitre' && Math.cos(end.turned) < 0);
  const [leftDown, rightDown] = [flips[0] === true, flips[1] === true];
  const corners: readonly Point[] = [
    { x: left + (leftDown ? start : 0), y: bottom },
    { x: right - (rightDown ? finish : 0), y: bottom },
    { x: right - (rightDown ? 0 : finish), y: bottom + high },
    { x: left + (leftDown ? 0 : start), y: bottom + high },
  ];
  const bends =
    part.kind === 'piece'
      ? part.bends.flatMap((bend) =>
          [bend.at, bend.at + bend.radius * bend.turn].map((at) =>
            lineMark({ x: left + at * scale, y: bottom }, { x: left + at * scale, y: bottom + high }, { width: narrow, dash: longDashDot }),
          ),
        )
      : [];
  const holes = part.cuts.flatMap(({ at, shape: cut }): readonly Mark[] =>
    cut.kind === 'hole'
      ? [
          circleMark(
            { x: left + at.x * scale, y: bottom + Math.min(1, at.y / across) * high },
            Math.max(0.5, (cut.diameter / 2) * scale),
            hairline,
          ),
        ]
      : [],
  );
  return {
    kind: 'figures',
    figures: [
      {
        width: room,
        height: bottom + high + 3,
        words: `${part.name} seen from the side`,
        caption: toScale
          ? 'Seen from the side, straight, as it is cut.'
          : 'Seen from the side, straight, as it is cut; drawn thicker than it is.',
        marks: [
          polylineMark(corners, { width: wide }, true, '#f3f3f1'),
          ...bends,
          ...holes,
          ...dimension('x', { x: left, y: bottom }, { x: right, y: bottom }, -6, saying.bare(length)),
        ],
      },
    ],
  };
};

const radiusOf = (shape: StockShape): number | undefined =>
  shape.kind === 'round tube' || shape.kind === 'round' ? shape.diameter / 2 : undefined;

const templateBlocks = (
  part: string,
  which: 'start' | 'finish',
  end: PieceEnd,
  shape: StockShape,
  saying: Saying,
  options: BookletOptions,
): readonly Block[] => {
  const branch = radiusOf(shape);
  const main = end.kind === 'cope' && end.onto?.shape !== undefined ? radiusOf(end.onto.shape) : undefined;
  if (end.kind !== 'cope' || branch === undefined || main === undefined) return [];
  const fine = copeTemplate(main, branch, end.angle, paper, 180);
  const coarse = copeTemplate(main, branch, end.angle, paper, stations);
  if (fine === undefined || coarse === undefined) return [];
  const figure = templateFigure(fine, `${part}, ${which}`, options);
  return [
    { kind: 'heading', level: 2, text: `Template for the ${which} of ${part}` },
    {
      kind: 'paragraph',
      text:
        'Cut the paper out along its outline, wrap it round the tube, ends butted, straight edge square to the tube and away from the end. ' +
        `The two ends of the paper meet on the side where the tubes stand at the smaller angle${turnedWords(end.turned)}. Scribe along the curve; cut outside the line and file to it.`,
    },
    figure === undefined
      ? {
          kind: 'caution',
          title: 'The template is longer than this paper',
          items: [
            `It is ${saying.say((fine[fine.length - 1] as Point).x)} round: mark the tube by the table, or print it on larger paper.`,
          ],
        }
      : { kind: 'figures', figures: [figure] },
    {
      kind: 'table',
      columns: [0, 1, 2, 3].flatMap(() => [
        { title: 'round', share: 1, align: 'right' as const },
        { title: 'high', share: 1, align: 'right' as const, bold: true },
      ]),
      rows: Array.from({ length: 7 }, (_, row) =>
        [0, 1, 2, 3].flatMap((column) => {
          const point = coarse[column * 7 + row];
          return point === undefined ? ['', ''] : [saying.bare(point.x), saying.bare(point.y)];
        }),
      ),
    },
  ];
};

/** At true size, lying where it fits so, else standing; undefined where neither does. */
const templateFigure = (points: readonly Point[], name: string, { room, tallest }: BookletOptions): Figure | undefined => {
  const last = points[points.length - 1] as Point;
  const skirt = 15;
  const high = Math.max(...points.map(({ y }) => y)) + skirt;
  const outline = [{ x: 0, y: 0 }, { x: last.x, y: 0 }, ...[...points].reverse().map(({ x, y }) => ({ x, y: y + skirt }))];
  const quarters = [0, 1, 2, 3, 4].flatMap((quarter): readonly Mark[] => {
    const x = (last.x * quarter) / 4;
    const y = points[Math.round(((points.length - 1) * quarter) / 4)]?.y ?? 0;
    return [
      ...(quarter === 0 || quarter === 4 ? [] : [lineMark({ x, y: 0 }, { x, y: y + skirt }, { width: narrow, dash: longDashDot })]),
      letters(`${quarter * 90}°`, { x: Math.min(Math.max(x, 5), last.x - 5), y: 1.2 }, 2.2, { anchor: 'middle', colour: '#555555' }),
    ];
  });
  const marks: readonly Mark[] = [
    polylineMark(outline, { width: wide }, true),
    ...quarters,
    letters(name, { x: 6, y: 7 }, 3, { bold: true }),
  ];
  const foot = gaugeHeight + 6;
  const words = `wrap-round template of ${name} at true size`;
  const caption = 'True size. Measure the square before you cut.';
  if (last.x <= room && high + foot <= tallest)
    return {
      width: Math.max(last.x, gaugeWidth),
      height: high + foot,
      words,
      caption,
      marks: [{ kind: 'placed', marks, to: { x: 0, y: foot } }, ...gauge({ x: 0, y: 0 })],
    };
  if (last.x + foot <= tallest && high <= room)
    return {
      width: Math.max(high, gaugeWidth),
      height: last.x + foot,
      words,
      caption,
      marks: [{ kind: 'placed', marks, to: { x: high, y: foot }, turn: Math.PI / 2 }, ...gauge({ x: 0, y: 0 })],
    };
  return undefined;
};
