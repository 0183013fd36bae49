/** Strips to make before the parts: for every sheet whose bends, and every die whose draw-in, no trial tells of yet. */
import { type Coupon, type CouponPiece, couponFor, trialTexts } from '../../bead/index.js';
import { sayAngle } from '../../brake/index.js';
import type { Panel, Part, Section } from '../../model/part.js';
import type { Block, Figure, FormCell } from '../documents/blocks.js';
import { gauge, gaugeHeight, gaugeWidth } from '../pages/gauge.js';
import { boxMark, lineMark, longDashDot, type Mark, wide } from '../pages/page.js';
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

export const strips = (input: BookletInput, options: BookletOptions): readonly Wanted[] => {
  const found = new Map<string, Wanted>();
  for (const { part, unit } of input.parts) {
    const panel = panelOf(part);
    const coupon =
      panel === undefined || part.broken ? undefined : couponFor(panel, unit?.name === 'inch' || unit?.name === 'foot' ? 6.35 : 5);
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
      text: 'No trial tells yet how these sheets bend and draw in, so the sizes in this booklet rest on the methods named on the first sheet. Cut these strips from the same delivery, make them on the same machine, measure before and after, write the numbers here and type them back into the shop file: every blank follows.',
    },
    ...wanted.flatMap(({ coupon, piece, saying }) => stripBlocks(coupon, piece, saying, options)),
  ];
};

const stripBlocks = (coupon: Coupon, piece: CouponPiece, saying: Saying, options: BookletOptions): readonly Block[] => {
  const text = trialTexts({ ...coupon, pieces: [piece] }, saying.display.unit)[0]?.text;
  const { figure, trueSize } = stripFigure(piece, saying, options);
  return [
    { kind: 'heading', level: 2, text: `${piece.name}: ${kinds[piece.kind]} in ${coupon.sheet.name}` },
    {
      kind: 'paragraph',
      text: [
        `Cut ${saying.size(piece.width, piece.height)}${piece.grain === undefined ? '' : `, the grain along its ${piece.grain === 'x' ? 'width' : 'height'} as drawn`}.`,
        ...(piece.kind === 'bend'
          ? [`Bend it ${sayAngle(piece.turn)} over ${saying.say(piece.radius)} inside.`]
          : [`Die ${piece.die.name}, ${piece.passes} ${piece.passes === 1 ? 'pass' : 'passes'}.`]),
        ...piece.notes.map(asSentence),
      ].join(' '),
    },
    {
      kind: 'figures',
      figures: [
        {
          ...figure,
          caption: trueSize
            ? 'True size: lay the strip on it. Measure the square below before you trust it.'
            : 'Not to scale: too large for this page.',
        },
      ],
    },
    { kind: 'form', rows: inRows(piece.boxes.map((box) => cellOf(box, saying))) },
    ...(text === undefined
      ? []
      : [
          { kind: 'paragraph', text: 'To type back, with your numbers in the gaps and the strokes before them taken away:' } as const,
          { kind: 'typed', text } as const,
        ]),
  ];
};

const cellOf = (box: CouponPiece['boxes'][number], saying: Saying): FormCell => {
  const say = (value: number): string => (box.what === 'angle' ? sayAngle(value) : saying.say(value));
  const [low, high] = box.expected ?? [];
  const expected =
    low === undefined || high === undefined ? '' : Math.abs(high - low) < 1e-6 ? `: ${say(low)}?` : `: ${say(low)} to ${say(high)}?`;
  return { name: `${box.when}, ${box.what === 'legs' ? 'legs' : box.what}, ${box.label}${expected}` };
};
const inRows = (cells: readonly FormCell[]): readonly (readonly FormCell[])[] =>
  cells.reduce<FormCell[][]>((rows, cell, i) => {
    if (i % 2 === 0) rows.push([cell]);
    else rows[rows.length - 1]?.push(cell);
    return rows;
  }, []);

const stripFigure = (
  piece: CouponPiece,
  saying: Saying,
  options: BookletOptions,
): { readonly figure: Figure; readonly trueSize: boolean } => {
  const [left, below, above] = [8, 8, 3];
  const scale = Math.min(1, (options.room - left - 2) / piece.width, (options.tallest - 20 - below - above - gaugeHeight) / piece.height);
  const trueSize = scale > 1 - 1e-9;
  const shown = { width: piece.width * scale, height: piece.height * scale };
  const foot = trueSize ? gaugeHeight + 6 : 0;
  const at = { x: left, y: foot + below };
  const on = (x: number, y: number): { readonly x: number; readonly y: number } => ({ x: at.x + x * scale, y: at.y + y * scale });
  const name = letters(piece.name, { x: at.x + 3, y: at.y + shown.height - 6 }, 3, { bold: true });
  return {
    trueSize,
    figure: {
      width: Math.max(left + shown.width + 2, trueSize ? gaugeWidth : 0),
      height: foot + below + shown.height + above,
      words: `trial strip ${piece.name}`,
      marks: [
        boxMark({ min: at, max: on(piece.width, piece.height) }, { width: wide }, '#f7f7f5'),
        ...workMarks(piece, on, scale),
        name,
        ...(piece.grain === undefined ? [] : grainArrow({ x: at.x + shown.width - 12, y: at.y + shown.height - 12 }, piece.grain)),
        ...dimension('x', on(0, 0), on(piece.width, 0), -6, saying.bare(piece.width)),
        ...dimension('y', on(0, 0), on(0, piece.height), -5, saying.bare(piece.height)),
        ...(trueSize ? gauge({ x: 0, y: 0 }) : []),
      ],
    },
  };
};

const workMarks = (
  piece: CouponPiece,
  on: (x: number, y: number) => { readonly x: number; readonly y: number },
  scale: number,
): readonly Mark[] => {
  const centre = { width: 0.25, dash: longDashDot };
  switch (piece.kind) {
    case 'bead': {
      const [a, b] = [on(piece.from.x, piece.from.y), on(piece.to.x, piece.to.y)];
      return [lineMark(a, b, centre), letters(`${piece.die.name}, ${piece.direction}`, { x: a.x + 3, y: (a.y + b.y) / 2 }, 2.6)];
    }
    case 'corner': {
      const [from, corner, to] = piece.points.map(({ x, y }) => on(x, y)) as [Point2, Point2, Point2];
      const radius = piece.corner * scale;
      const middle = { x: corner.x + radius, y: corner.y + radius };
      return [
        {
          kind: 'path',
          ink: centre,
          runs: [
            {
              start: from,
              closed: false,
              moves: [
                { kind: 'line', to: { x: corner.x + radius, y: corner.y } },
                { kind: 'arc', to: { x: corner.x, y: corner.y + radius }, centre: middle, turn: 'right' },
                { kind: 'line', to },
              ],
            },
          ],
        },
        letters(`${piece.die.name}, ${piece.direction}`, { x: middle.x + 2, y: corner.y + 2 }, 2.6),
      ];
    }
    case 'bend': {
      const lines = piece.tangents.map((x) => lineMark(on(x, 0), on(x, piece.height), hairline));
      const middle = on(piece.middle, piece.height / 2);
      return [...lines, letters(`bend ${piece.direction} ${sayAngle(piece.turn)}`, { x: middle.x + 5, y: middle.y }, 2.6)];
    }
  }
};
interface Point2 {
  readonly x: number;
  readonly y: number;
}
