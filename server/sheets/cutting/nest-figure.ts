/** A nested sheet drawn to scale: its pieces with their names, what is left dashed with its sizes. */
import { writeLength } from '../../model/display.js';
import type { SheetPicture, StraightCut } from '../../stock/index.js';
import type { Figure } from '../documents/blocks.js';
import type { DisplayOptions } from '../drawing.js';
import { boxMark, circleMark, type Ink, lineMark, loopMark, type Mark, narrow, type Page, polylineMark, wide } from '../pages/page.js';
import type { Type } from '../pages/type.js';
import { roomForWords } from './room-for-words.js';

const thin: Ink = { width: narrow };
const margin: Ink = { width: 0.13, dash: [1, 1], colour: '#777777' };
const offcut: Ink = { width: 0.13, dash: [3, 1.5], colour: '#555555' };
const red = '#a03020';
const straight: Ink = { width: 0.25, dash: [6, 1, 1, 1], colour: red };
const metal = '#e9eef2';
const pale = '#555555';

export interface NestFigureOptions {
  /** The number that stands for a piece whose name finds no room. */
  readonly numbers: ReadonlyMap<string, number>;
  /** Height of the letters, mm on paper, where there is room for them. */
  readonly letters: number;
  /** Least height that can be read. */
  readonly least: number;
  /** Cuts that go right across, in their order. */
  readonly cuts?: readonly StraightCut[];
}

const textWidth = (words: string, type: Type): number => Math.max(type.width(words, 1), 0.1);

/** Marks of one sheet, its lower left corner at the origin, mm on paper. */
const sheetMarks = (
  picture: SheetPicture,
  scale: number,
  options: DisplayOptions,
  drawn: NestFigureOptions,
  type: Type,
): readonly Mark[] => {
  // What is left is never told larger than it is.
  const write = (mm: number): string => writeLength(mm, options.unit, 'down', options.unit === undefined ? 64 : 8);
  const shown = { width: picture.width * scale, height: picture.height * scale };
  const words = (text: string, at: { readonly x: number; readonly y: number }, size: number, upright = false, colour?: string): Mark => ({
    kind: 'text',
    text,
    // The middle of figures and capitals stands 0.36 of the height above the line they rest on.
    at: upright ? { x: at.x + size * 0.36, y: at.y } : { x: at.x, y: at.y - size * 0.36 },
    size,
    anchor: 'middle',
    ...(upright ? { turn: Math.PI / 2 } : {}),
    ...(colour === undefined ? {} : { colour }),
  });
  const pieces = picture.pieces.flatMap((piece): readonly Mark[] => {
    const shape: Mark = { kind: 'placed', scale, to: { x: 0, y: 0 }, marks: [loopMark([piece.outline, ...piece.holes], thin, metal)] };
    const number = drawn.numbers.get(piece.id);
    const whole = piece.flipped ? `${piece.id} (turned over)` : piece.id;
    for (const [text, least] of [
      [whole, drawn.least] as const,
      ...(number === undefined ? [] : [[String(number), drawn.least * 0.7] as const]),
    ]) {
      const place = roomForWords(piece.outline, piece.holes, textWidth(text, type), [piece.label], drawn.letters / scale, least / scale);
      if (place !== undefined)
        return [shape, words(text, { x: place.at.x * scale, y: place.at.y * scale }, place.letters * scale, place.upright)];
    }
    return [shape];
  });
  const left = picture.offcuts.flatMap((rest): readonly Mark[] => {
    const text = `${write(rest.width)} × ${write(rest.height)} left`;
    const upright = rest.height > rest.width * 1.5;
    const [long, short] = upright ? [rest.height, rest.width] : [rest.width, rest.height];
    const size = Math.min(drawn.letters * 0.9, (long * scale * 0.9) / textWidth(text, type), short * scale * 0.6);
    const at = { x: (rest.x + rest.width / 2) * scale, y: (rest.y + rest.height / 2) * scale };
    const box = {
      min: { x: rest.x * scale, y: rest.y * scale },
      max: { x: (rest.x + rest.width) * scale, y: (rest.y + rest.height) * scale },
    };
    return [boxMark(box, offcut), ...(size < drawn.least * 0.8 ? [] : [words(text, at, size, upright, pale)])];
  });
  const inset = picture.margin * scale;
  const cuts = (drawn.cuts ?? []).flatMap(({ axis, at, from, to }, i): readonly Mark[] => {
    const point = (along: number): { readonly x: number; readonly y: number } =>
      axis === 'x' ? { x: at * scale, y: along * scale } : { x: along * scale, y: at * scale };
    const end = point(to);
    const size = drawn.letters * 0.85;
    const radius = size * 0.75;
    // The number stands on the line, at its end.
    const place = axis === 'x' ? { x: end.x, y: end.y - radius * 1.2 } : { x: end.x - radius * 1.2, y: end.y };
    return [
      lineMark(point(from), end, straight),
      circleMark(place, radius, { width: 0.18, colour: red }, '#ffffff'),
      words(String(i + 1), place, size, false, red),
    ];
  });
  return [
    ...left,
    ...pieces,
    ...(inset > 0.2 ? [boxMark({ min: { x: inset, y: inset }, max: { x: shown.width - inset, y: shown.height - inset } }, margin)] : []),
    boxMark({ min: { x: 0, y: 0 }, max: { x: shown.width, y: shown.height } }, { width: wide }),
    ...cuts,
    // Where distances are counted from.
    circleMark({ x: 0, y: 0 }, Math.min(drawn.letters * 0.4, 4), { width: narrow }, '#ffffff'),
  ];
};

/** A double arrow along the grain. */
const grainMarks = (grain: 'x' | 'y', right: number, band: number, type: Type): readonly Mark[] => {
  const size = band * 0.55;
  const text = 'grain';
  const length = band * 4;
  const [x, y] = [right - (grain === 'x' ? length : size), band / 2];
  const ink: Ink = { width: narrow, colour: pale };
  const head = (at: { readonly x: number; readonly y: number }, dx: number, dy: number): Mark =>
    polylineMark(
      [
        at,
        { x: at.x + dx * size - dy * size * 0.25, y: at.y + dy * size + dx * size * 0.25 },
        { x: at.x + dx * size + dy * size * 0.25, y: at.y + dy * size - dx * size * 0.25 },
      ],
      ink,
      true,
      pale,
    );
  const [a, b] =
    grain === 'x'
      ? [
          { x, y },
          { x: right, y },
        ]
      : [
          { x: x + size / 2, y: 0 },
          { x: x + size / 2, y: band },
        ];
  const [dx, dy] = grain === 'x' ? [1, 0] : [0, 1];
  return [
    lineMark(a, b, ink),
    head(a, dx * 0.7, dy * 0.7),
    head(b, -dx * 0.7, -dy * 0.7),
    { kind: 'text', text, at: { x: x - type.width(text, size) - size * 0.6, y: y - size * 0.36 }, size, colour: pale },
  ];
};

/** Room for the mark at the corner that places are counted from, mm on paper. */
const air = 1.5;
/** Half the sheet's own line. */
const edge = 0.3;

/** A nested sheet as large as it may be drawn. Millimetres on paper. */
export const nestFigure = (
  picture: SheetPicture,
  room: number,
  tallest: number,
  options: DisplayOptions,
  drawn: NestFigureOptions,
  type: Type,
): Figure => {
  const band = picture.grain === undefined ? air : 5;
  const scale = Math.min((room - air - edge) / picture.width, (tallest - band - edge) / picture.height);
  const marks = sheetMarks(picture, scale, options, drawn, type);
  return {
    width: picture.width * scale + air + edge,
    height: picture.height * scale + band + edge,
    words: `${picture.stock} with ${picture.pieces.length} ${picture.pieces.length === 1 ? 'piece' : 'pieces'} laid out`,
    marks: [
      { kind: 'placed', marks, to: { x: air, y: band } },
      ...(picture.grain === undefined ? [] : grainMarks(picture.grain, picture.width * scale + air, band * 0.8, type)),
    ],
  };
};

/** A nested sheet as a page at true size, for a table or a plotter: nothing on it but the sheet, so that its corner is the page's. */
export const nestPage = (picture: SheetPicture, options: DisplayOptions, numbers: ReadonlyMap<string, number>, type: Type): Page => {
  const letters = Math.min(14, Math.max(4, picture.height / 60));
  const marks = sheetMarks(picture, 1, options, { numbers, letters, least: 2 }, type);
  const title = `${picture.stock} with ${picture.pieces.length} ${picture.pieces.length === 1 ? 'piece' : 'pieces'} laid out, at true size`;
  return { title, width: picture.width, height: picture.height, marks };
};
