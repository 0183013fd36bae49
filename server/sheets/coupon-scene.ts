/** The strips to try before a panel is cut, as one scene: what is drawn, where, with which words. `coupon-drawing.ts` writes it out. Millimetres, y up. */
import { type Coupon, type CouponBox, type CouponPiece, expectedOf, pieceGrain, pieceSize, pieceWork } from '../bead/index.js';
import { sayLengthBare } from '../model/display.js';
import type { Loop, Point } from '../shape/path.js';
import type { DisplayOptions, Layer, Stroke } from './drawing.js';
import { type PlacedText, type ThinLine, textLength } from './placing.js';

export type Item =
  | { readonly kind: 'area'; readonly feature: string; readonly loop: Loop }
  | { readonly kind: 'stroke'; readonly stroke: Stroke }
  | { readonly kind: 'line'; readonly line: ThinLine }
  | { readonly kind: 'text'; readonly text: PlacedText; readonly bold: boolean };
export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}
/** Height of the letters. */
export const letters = 3;
const lineHeight = 4.4;
const head = 4;
/** Room left of and under a piece for its sizes. */
const beside = 10;
const under = 17;
/** A box to write in, and the least width of the rows that hold them. */
const box = { width: 26, height: 7 };
const rowLeast = 118;
const apart = 14;
/** A row of pieces is not wider than this unless one piece is. */
const rowMost = 420;

const textItem = (text: string, at: Point, more: Partial<PlacedText> & { readonly bold?: boolean } = {}): Item => {
  const { bold = false, ...rest } = more;
  return {
    kind: 'text',
    bold,
    text: { layer: 'label', feature: undefined, text, at, height: letters, turn: 0, anchor: 'start', ...rest },
  };
};
const lineItem = (points: readonly Point[], feature: string, arrows: ThinLine['arrows'] = 'none'): Item => ({
  kind: 'line',
  line: { feature, points, arrows },
});

/** Words broken into lines by the estimate of their width that the pictures use. */
const broken = (text: string, room: number): readonly string[] => {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && textLength(`${last} ${word}`, letters) <= room) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
};

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A size between two places of the piece's edge, in a lane under it or at its left. */
const sized = (axis: 'x' | 'y', from: number, to: number, lane: number, words: string, feature: string): readonly Item[] => {
  const at = (along: number, off: number): Point => (axis === 'x' ? { x: along, y: off } : { x: off, y: along });
  const short = Math.abs(to - from) < textLength(words, letters) + 4;
  const middle = short ? Math.max(from, to) + 1.5 : (from + to) / 2;
  return [
    lineItem([at(from, -1), at(from, lane - 1.5)], feature),
    lineItem([at(to, -1), at(to, lane - 1.5)], feature),
    lineItem([at(from, lane), at(to, lane)], feature, 'both'),
    textItem(words, axis === 'x' ? { x: middle, y: lane + 2 } : { x: lane - 2, y: middle }, {
      layer: 'dimension',
      feature,
      anchor: short ? 'start' : 'middle',
      turn: axis === 'x' ? 0 : Math.PI / 2,
    }),
  ];
};

const straight = (layer: Layer, feature: string, from: Point, to: Point): Item => ({
  kind: 'stroke',
  stroke: { layer, feature, geometry: { kind: 'line', from, to } },
});

/** What is rolled or bent, and where its line lies from the datum corner. */
const workItems = (piece: CouponPiece, feature: string, options: DisplayOptions): readonly Item[] => {
  const bare = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  const { width, height } = piece;
  switch (piece.kind) {
    case 'bead': {
      const layer = piece.direction === 'up' ? 'bead_up' : 'bead_down';
      const level = height / 2;
      return [
        straight(layer, feature, piece.from, piece.to),
        textItem(`${piece.die.name} ${piece.direction}`, { x: piece.from.x + 3, y: height * 0.75 }, { layer, feature }),
        lineItem(
          [
            { x: 0, y: level },
            { x: width, y: level },
          ],
          feature,
          'both',
        ),
        textItem('measure across here', { x: 4, y: level + 3 }, { feature }),
        ...sized('x', 0, piece.from.x, -6, bare(piece.from.x), feature),
      ];
    }
    case 'corner': {
      const layer = piece.direction === 'up' ? 'bead_up' : 'bead_down';
      const [from, turn, to] = piece.points;
      const { corner } = piece;
      const stroke: Stroke = {
        layer,
        feature,
        geometry: {
          kind: 'path',
          path: {
            start: from,
            closed: false,
            moves: [
              { kind: 'line', to: { x: turn.x + corner, y: turn.y } },
              { kind: 'arc', to: { x: turn.x, y: turn.y + corner }, centre: { x: turn.x + corner, y: turn.y + corner }, turn: 'right' },
              { kind: 'line', to },
            ],
          },
        },
      };
      return [
        { kind: 'stroke', stroke },
        textItem(
          `${piece.die.name} ${piece.direction}`,
          { x: turn.x + corner * 0.5 + 4, y: turn.y + corner * 0.5 + 4 },
          { layer, feature },
        ),
        textItem(`R ${bare(corner)}`, { x: turn.x + corner * 0.5 + 4, y: turn.y + corner * 0.5 + 4 + lineHeight }, { layer, feature }),
        ...sized('x', 0, turn.x, -6, bare(turn.x), feature),
        ...sized('y', 0, turn.y, -4, bare(turn.y), feature),
      ];
    }
    case 'bend': {
      const layer = piece.direction === 'up' ? 'bend_up' : 'bend_down';
      const [left, right] = piece.tangents;
      const upright = (of: Layer, x: number): Item => straight(of, feature, { x, y: 0 }, { x, y: height });
      return [
        upright('brake_line', left),
        upright(layer, piece.middle),
        upright('brake_line', right),
        textItem(`bend ${piece.direction}`, { x: right + 3, y: height * 0.6 }, { layer, feature }),
        ...sized('x', 0, piece.middle, -6, bare(piece.middle), feature),
      ];
    }
  }
};

const grainItems = (piece: CouponPiece, feature: string): readonly Item[] => {
  if (piece.grain === undefined) return [];
  const at = { x: piece.width - 12, y: piece.height - 7 };
  const half = piece.grain === 'x' ? { x: 7, y: 0 } : { x: 0, y: 5 };
  return [
    lineItem(
      [
        { x: at.x - half.x, y: at.y - half.y },
        { x: at.x + half.x, y: at.y + half.y },
      ],
      feature,
      'both',
    ),
    textItem(
      'grain',
      { x: piece.grain === 'x' ? at.x : at.x - 2, y: piece.grain === 'x' ? at.y - 3.4 : at.y },
      { feature, anchor: piece.grain === 'x' ? 'middle' : 'end' },
    ),
  ];
};

const rowWords = ({ when, what, label, expected }: CouponBox, options: DisplayOptions): string => {
  const likely = expectedOf({ when, what, label, expected }, options);
  const should =
    likely === undefined
      ? ''
      : expected !== undefined && expected[1] - expected[0] > 1e-6
        ? `; between ${likely.replace(' to ', ' and ')}`
        : `; about ${likely}`;
  return `${capital(when)}: ${what === 'legs' ? '' : `${what}, `}${label}${should}`;
};

/** One piece with everything that belongs to it, its lower left corner at (0, 0); `below` is how far its words reach down. */
const pieceItems = (
  piece: CouponPiece,
  options: DisplayOptions,
): { readonly items: readonly Item[]; readonly width: number; readonly below: number } => {
  const feature = `piece:${piece.name}`;
  const { width, height } = piece;
  const bare = (mm: number): string => sayLengthBare(mm, options.unit, options.denominator);
  const room = Math.max(width, rowLeast);
  const corners: Loop = [
    { kind: 'line', to: { x: width, y: 0 } },
    { kind: 'line', to: { x: width, y: height } },
    { kind: 'line', to: { x: 0, y: height } },
    { kind: 'line', to: { x: 0, y: 0 } },
  ];
  const items: Item[] = [
    { kind: 'area', feature, loop: corners },
    { kind: 'stroke', stroke: { layer: 'cut', feature, geometry: { kind: 'loop', loop: corners } } },
    ...workItems(piece, feature, options),
    ...grainItems(piece, feature),
    { kind: 'stroke', stroke: { layer: 'mark', feature, geometry: { kind: 'circle', circle: { centre: { x: 0, y: 0 }, radius: 1.5 } } } },
    textItem('datum', { x: 2.5, y: 3 }, { feature }),
    ...sized('x', 0, width, -13, bare(width), feature),
    ...sized('y', 0, height, -9, bare(height), feature),
  ];
  let y = -under - letters;
  items.push(textItem(piece.name, { x: 0, y }, { height: head, feature, bold: true }));
  y -= head + 1.5;
  const grain = pieceGrain(piece);
  const sentences = [
    `${pieceSize(piece, options)}${grain === undefined ? '' : `, ${grain}`}. ${capital(pieceWork(piece, options))}.`,
    ...piece.notes.map((note) => `${capital(note)}.`),
  ];
  for (const line of sentences.flatMap((sentence) => broken(sentence, room))) {
    items.push(textItem(line, { x: 0, y }, { feature }));
    y -= lineHeight;
  }
  y -= 2;
  for (const row of piece.boxes) {
    const count = row.what === 'legs' ? 2 : 1;
    const lines = broken(rowWords(row, options), room - count * (box.width + 2) - 2);
    lines.forEach((line, i) => {
      items.push(textItem(line, { x: 0, y: y - box.height / 2 + ((lines.length - 1) / 2 - i) * lineHeight }, { feature }));
    });
    for (let i = 0; i < count; i++) {
      const right = room - i * (box.width + 2);
      items.push(
        lineItem(
          [
            { x: right - box.width, y },
            { x: right, y },
            { x: right, y: y - box.height },
            { x: right - box.width, y: y - box.height },
            { x: right - box.width, y },
          ],
          feature,
        ),
      );
    }
    y -= Math.max(box.height, lines.length * lineHeight) + 2;
  }
  return { items, width: room, below: -y };
};

const moved = (item: Item, by: Point): Item => {
  const to = (p: Point): Point => ({ x: p.x + by.x, y: p.y + by.y });
  const loopTo = (loop: Loop): Loop =>
    loop.map((move) => (move.kind === 'line' ? { ...move, to: to(move.to) } : { ...move, to: to(move.to), centre: to(move.centre) }));
  switch (item.kind) {
    case 'area':
      return { ...item, loop: loopTo(item.loop) };
    case 'line':
      return { ...item, line: { ...item.line, points: item.line.points.map(to) } };
    case 'text':
      return { ...item, text: { ...item.text, at: to(item.text.at) } };
    case 'stroke': {
      const { geometry } = item.stroke;
      switch (geometry.kind) {
        case 'loop':
          return { ...item, stroke: { ...item.stroke, geometry: { kind: 'loop', loop: loopTo(geometry.loop) } } };
        case 'line':
          return { ...item, stroke: { ...item.stroke, geometry: { kind: 'line', from: to(geometry.from), to: to(geometry.to) } } };
        case 'circle':
          return {
            ...item,
            stroke: { ...item.stroke, geometry: { kind: 'circle', circle: { ...geometry.circle, centre: to(geometry.circle.centre) } } },
          };
        case 'path':
          return {
            ...item,
            stroke: {
              ...item.stroke,
              geometry: { kind: 'path', path: { ...geometry.path, start: to(geometry.path.start), moves: loopTo(geometry.path.moves) } },
            },
          };
      }
    }
  }
};

/** Pieces side by side, in rows. */
export const sceneOf = (coupon: Coupon, options: DisplayOptions): Scene => {
  const rows: {
    readonly pieces: { readonly piece: CouponPiece; readonly drawn: ReturnType<typeof pieceItems>; readonly x: number }[];
    width: number;
  }[] = [];
  for (const piece of coupon.pieces) {
    const drawn = pieceItems(piece, options);
    const row = rows.at(-1);
    const x = row === undefined ? beside : row.width + apart + beside;
    if (row === undefined || x + drawn.width > rowMost) rows.push({ pieces: [{ piece, drawn, x: beside }], width: beside + drawn.width });
    else {
      row.pieces.push({ piece, drawn, x });
      row.width = x + drawn.width;
    }
  }
  const items: Item[] = [];
  let top = 0;
  for (const row of rows) {
    const tallest = Math.max(...row.pieces.map(({ piece }) => piece.height));
    const deepest = Math.max(...row.pieces.map(({ drawn }) => drawn.below));
    for (const { drawn, x } of row.pieces) items.push(...drawn.items.map((item) => moved(item, { x, y: top - tallest - 3 })));
    top -= tallest + 3 + deepest + apart / 2;
  }
  return { width: Math.max(...rows.map((row) => row.width)) + 2, height: -top, items: items.map((item) => moved(item, { x: 0, y: -top })) };
};
