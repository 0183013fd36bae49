/** Strips to make before the parts: for every sheet whose bends, and every die whose draw-in, no trial tells of yet. */
import {
  type Coupon,
  type CouponPiece,
  couponFor,
  cutStepOf,
  expectedOf,
  pieceGrain,
  pieceSize,
  pieceWork,
  trialTexts,
} from '../../bead/index.js';
import { sayAngle } from '../../brake/index.js';
import type { Panel, Part, Section } from '../../model/part.js';
import type { Point } from '../../shape/path.js';
import type { Block, Figure, FormCell, InnerBlock } from '../documents/blocks.js';
import { boxMark, lineMark, longDashDot, type Mark, wide } from '../pages/page.js';
import { textLength } from '../placing.js';
import { asSentence } from './beads.js';
import { dimension, grainArrow, hairline, letters } from './strokes.js';
import { type BookletInput, type BookletOptions, type Saying, sayingIn } from './types.js';

interface Wanted {
  readonly coupon: Coupon;
  readonly piece: CouponPiece;
  readonly saying: Saying;
}

/** A section asks for the same strip as a flange that turns as far, as tight. */
const asPanel = (part: Section): Panel => {
  const turns = part.steps.flatMap((step) => (step.kind === 'turn' ? [step] : []));
  return {
    ...part,
    kind: 'panel',
    outline: undefined,
    corners: [],
    beads: [],
    tips: [],
    crossBreaks: [],
    dimples: [],
    loads: [],
    edges: turns.map((turn, i) => ({
      edge: 'top',
      edgeSpan: turn.span,
      from: undefined,
      to: undefined,
      span: turn.span,
      steps: [
        {
          kind: 'flange',
          id: `turn.${i + 1}`,
          name: undefined,
          length: 0,
          lengthSpan: turn.span,
          direction: turn.direction,
          turn: turn.turn,
          turnSpan: turn.span,
          radius: turn.radius,
          convention: undefined,
          span: turn.span,
          edges: [],
        },
      ],
    })),
  };
};

const panelOf = (part: Part): Panel | undefined => (part.kind === 'panel' ? part : part.kind === 'section' ? asPanel(part) : undefined);

/** Whether a trial in sight of the part tells already what the strip would. */
const known = (part: Part, sheet: string, piece: CouponPiece): boolean =>
  part.trials.some((trial) => {
    if (trial.sheet?.name !== sheet) return false;
    if (piece.kind === 'bend') return trial.result !== undefined;
    return trial.beaded?.die?.name === piece.die.name && piece.kind === 'bead' && (trial.width !== undefined || trial.depth !== undefined);
  });

/** The harder of two strips that tell of the same thing. */
const harder = (a: CouponPiece, b: CouponPiece): boolean =>
  a.kind === 'bend' && b.kind === 'bend'
    ? a.radius < b.radius - 1e-9 || (Math.abs(a.radius - b.radius) < 1e-9 && a.turn > b.turn)
    : a.kind === 'corner' && b.kind === 'corner' && a.corner < b.corner;

const strips = (input: BookletInput, options: BookletOptions): readonly Wanted[] => {
  const found = new Map<string, Wanted>();
  for (const { part, unit } of input.parts) {
    const panel = panelOf(part);
    const coupon = panel === undefined || part.broken ? undefined : couponFor(panel, cutStepOf(unit));
    for (const piece of coupon?.pieces ?? []) {
      if (coupon === undefined || known(part, coupon.sheet.name, piece)) continue;
      const key = [coupon.sheet.file, coupon.sheet.name, piece.kind, piece.kind === 'bend' ? '' : piece.die.name].join('\n');
      const before = found.get(key);
      if (before === undefined || harder(piece, before.piece)) found.set(key, { coupon, piece, saying: sayingIn(unit, options) });
    }
  }
  return [...found.values()];
};

const kinds = { bead: 'one bead right across', corner: 'the tightest corner', bend: 'one bend' } as const;

export const trialBlocks = (input: BookletInput, options: BookletOptions): readonly Block[] => {
  const wanted = strips(input, options);
  if (wanted.length === 0) return [];
  return [
    { kind: 'heading', level: 1, text: 'Trial strips to make first' },
    {
      kind: 'paragraph',
      text:
        'No trial tells yet how these sheets bend and draw in, so the sizes in this booklet rest on the methods named with the shop. Cut these strips from the same delivery, ' +
        'make them on the same machine, measure before and after, write the numbers here and type them into the shop file, the strokes before them taken away: every blank follows. ' +
        'At true size, to lay the strip on: planish pattern FILE PART --view coupon -o OUT.pdf.',
    },
    ...wanted.flatMap(({ coupon, piece, saying }) => stripBlocks(coupon, piece, saying, options)),
  ];
};

/** A strip with its drawing at the left, beside it the boxes for its measures, and what to type at the right. */
const stripBlocks = (coupon: Coupon, piece: CouponPiece, saying: Saying, options: BookletOptions): readonly Block[] => {
  const { display } = saying;
  const text = trialTexts({ ...coupon, pieces: [piece] }, display.unit)[0]?.text;
  const grain = pieceGrain(piece);
  const figure = stripFigure(piece, saying, { width: (options.room - 12) * 0.27, height: piece.kind === 'bead' ? 58 : 46 });
  const sentences = [
    `${pieceSize(piece, display)}${grain === undefined ? '' : `, ${grain}`}`,
    pieceWork(piece, display),
    ...piece.notes,
  ].map(asSentence);
  const parts: readonly { readonly share: number; readonly blocks: readonly InnerBlock[] }[] = [
    { share: 0.27, blocks: [{ kind: 'figures', figures: [figure] }] },
    {
      share: text === undefined ? 0.73 : 0.43,
      blocks: [
        { kind: 'paragraph', text: sentences.join(' '), size: 2.8 },
        { kind: 'form', rows: inRows(piece.boxes.map((box) => cellOf(box, saying))) },
      ],
    },
    ...(text === undefined ? [] : [{ share: 0.3, blocks: [{ kind: 'typed', text } as const] }]),
  ];
  return [
    { kind: 'heading', level: 3, text: `${piece.name}: ${kinds[piece.kind]} in ${coupon.sheet.name}` },
    { kind: 'side', parts },
  ];
};

const cellOf = (box: CouponPiece['boxes'][number], { display }: Saying): FormCell => {
  const expected = expectedOf(box, display);
  const what = box.what === 'legs' || box.label.includes(box.what) ? box.label : `${box.what} ${box.label}`;
  return { name: `${asSentence(box.when).slice(0, -1)}: ${what}${expected === undefined ? '' : `; about ${expected}`}` };
};
const inRows = (cells: readonly FormCell[]): readonly (readonly FormCell[])[] =>
  cells.reduce<FormCell[][]>((rows, cell, i) => {
    if (i % 2 === 0) rows.push([cell]);
    else rows[rows.length - 1]?.push(cell);
    return rows;
  }, []);

const stripFigure = (piece: CouponPiece, saying: Saying, room: { readonly width: number; readonly height: number }): Figure => {
  const [left, below, above] = [8, 8, 1];
  const scale = Math.min(1, (room.width - left - 2) / piece.width, (room.height - below - above) / piece.height);
  const shown = { width: piece.width * scale, height: piece.height * scale };
  const at = { x: left, y: below };
  const on = (x: number, y: number): Point => ({ x: at.x + x * scale, y: at.y + y * scale });
  return {
    width: left + shown.width + 2,
    height: below + shown.height + above,
    words: `trial strip ${piece.name}`,
    marks: [
      boxMark({ min: at, max: on(piece.width, piece.height) }, { width: wide }, '#f7f7f5'),
      ...workMarks(piece, on, scale),
      ...(piece.grain === undefined ? [] : grainArrow(grainPlace(piece, on), piece.grain)),
      ...dimension('x', on(0, 0), on(piece.width, 0), -6, saying.bare(piece.width)),
      ...dimension('y', on(0, 0), on(0, piece.height), -5, saying.bare(piece.height)),
    ],
  };
};

/** Letters no higher than lets the words stay within the strip. */
const fitted = (text: string, room: number, most: number): number => Math.min(most, (most * room) / textLength(text, most));
/** Beside a line that runs up the strip, read from the right. */
const along = (text: string, at: Point, room: number): Mark =>
  letters(text, at, fitted(text, room, 2.6), { anchor: 'middle', turn: Math.PI / 2 });
/** In a field that nothing is drawn in. A bead round a corner leaves only the strip's own edges. */
const grainPlace = (piece: CouponPiece, on: (x: number, y: number) => Point): Point => {
  const top = on(0, piece.height);
  if (piece.kind !== 'corner') return { x: top.x + 9, y: top.y - 9 };
  const corner = on(piece.points[1].x, piece.points[1].y);
  const [left, foot] = [on(0, 0).x, on(0, 0).y];
  return piece.grain === 'x' ? { x: left + 8, y: (foot + corner.y) / 2 - 1 } : { x: (left + corner.x) / 2 + 1, y: top.y - 9 };
};

const workMarks = (piece: CouponPiece, on: (x: number, y: number) => Point, scale: number): readonly Mark[] => {
  const centre = { width: 0.25, dash: longDashDot };
  switch (piece.kind) {
    case 'bead': {
      const [a, b] = [on(piece.from.x, piece.from.y), on(piece.to.x, piece.to.y)];
      return [
        lineMark(a, b, centre),
        along(`${piece.die.name}, ${piece.direction}`, { x: a.x + 4, y: (a.y + b.y) / 2 }, Math.abs(b.y - a.y) - 4),
      ];
    }
    case 'corner': {
      const [right, corner, top] = piece.points.map(({ x, y }) => on(x, y)) as [Point, Point, Point];
      const radius = piece.corner * scale;
      const middle = { x: corner.x + radius, y: corner.y + radius };
      return [
        {
          kind: 'path',
          ink: centre,
          runs: [
            {
              start: right,
              closed: false,
              moves: [
                { kind: 'line', to: { x: corner.x + radius, y: corner.y } },
                { kind: 'arc', to: { x: corner.x, y: corner.y + radius }, centre: middle, turn: 'right' },
                { kind: 'line', to: top },
              ],
            },
          ],
        },
        // In the field that the corner encloses.
        ...[piece.die.name, piece.direction].map((text, i) =>
          letters(text, { x: (corner.x + right.x) / 2 + 1, y: middle.y + 6 - 3.2 * i }, fitted(text, right.x - corner.x - 4, 2.4), {
            anchor: 'middle',
          }),
        ),
      ];
    }
    case 'bend': {
      const lines = piece.tangents.map((x) => lineMark(on(x, 0), on(x, piece.height), hairline));
      const middle = on(piece.middle, piece.height / 2);
      const words = [`bend ${piece.direction}`, sayAngle(piece.turn)];
      return [...lines, ...words.map((text, i) => along(text, { x: middle.x + 6 + 3.6 * i, y: middle.y }, piece.height * scale - 2))];
    }
  }
};
