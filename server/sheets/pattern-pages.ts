/**
 * The true-size pattern on paper: one page as long as it must be, or tiles to be joined. Tiles overlap; along the middle of every overlap runs the line at
 * which the upper tile is trimmed, and the crosses on it fall on those of the neighbour.
 */
import type { Blank } from '../blank/types.js';
import { homeUnit } from '../model/dimension.js';
import { saySize, sayThickness } from '../model/display.js';
import type { Part } from '../model/part.js';
import type { Box, Point } from '../shape/path.js';
import { beadWords } from './bead-drawing.js';
import { cutWords, type DisplayOptions, drawingTitle } from './drawing.js';
import { gauge, gaugeHeight, gaugeWidth } from './pages/gauge.js';
import { boxMark, circleMark, type Ink, lineMark, type Mark, narrow, type Page } from './pages/page.js';
import { type Paper, paperMargin, turnedOver } from './pages/paper.js';
import { linesOf, type Type } from './pages/type.js';
import { patternMarks } from './pattern-marks.js';
import { boxOfText, type PlacedText } from './placing.js';

const small = 3;
const lineHeight = 4.4;
const ink: Ink = { width: narrow };
const light: Ink = { width: narrow, colour: '#777777' };
/** How much two neighbouring tiles share, mm. */
const overlap = 15;

/** What to drill and what to cut, since a drill can't be told from a printed circle: `Holes and cuts: 4 × ⌀ 9/32; 1 off, 5 × 1 1/4.`. */
const cutSizes = (part: Part, blank: Blank, options: DisplayOptions): readonly string[] => {
  const counts = new Map<string, number>();
  for (const cut of blank.cutouts) {
    const words = `${cut.circle === undefined ? 'off,' : '×'} ${cutWords(part, cut, options)}`;
    counts.set(words, (counts.get(words) ?? 0) + 1);
  }
  return counts.size === 0 ? [] : [`Holes and cuts: ${[...counts].map(([words, count]) => `${count} ${words}`).join('; ')}.`];
};

/** What is said once of the whole pattern. */
const footLines = (part: Part, blank: Blank, options: DisplayOptions): readonly string[] => [
  drawingTitle(part, blank, options),
  `${sayThickness(blank.thickness, undefined)} (${sayThickness(blank.thickness, homeUnit('inch'))}) thick, ${blank.bends.length} ${blank.bends.length === 1 ? 'bend' : 'bends'}, face toward you. ` +
    `Overall ${saySize(blank.width, blank.height, options.unit, options.denominator)}.`,
  ...cutSizes(part, blank, options),
  ...beadWords(options),
  'Print at 100 %, never fitted to the page. Thick: cut. Thin: bend up. Dashed: bend down. Ticks: brake line.',
];

const textMarks = (lines: readonly string[], at: Point): readonly Mark[] =>
  lines.map((text, index) => ({ kind: 'text', text, at: { x: at.x, y: at.y - index * lineHeight }, size: small, bold: index === 0 }));

const around = (box: Box, texts: readonly Box[]): Box => ({
  min: { x: Math.min(box.min.x, ...texts.map(({ min }) => min.x)), y: Math.min(box.min.y, ...texts.map(({ min }) => min.y)) },
  max: { x: Math.max(box.max.x, ...texts.map(({ max }) => max.x)), y: Math.max(box.max.y, ...texts.map(({ max }) => max.y)) },
});

/** The blank with its words, and the box that holds both. */
const printed = (part: Part, blank: Blank, options: DisplayOptions): { readonly marks: readonly Mark[]; readonly box: Box } => {
  const { drawing, marks } = patternMarks(part, blank, options);
  const texts = marks.flatMap((mark) =>
    mark.kind === 'text'
      ? [
          boxOfText({
            ...mark,
            height: mark.size,
            turn: mark.turn ?? 0,
            anchor: mark.anchor ?? 'start',
            layer: 'label',
            feature: undefined,
          } satisfies PlacedText),
        ]
      : [],
  );
  return { marks, box: around(drawing.box, texts) };
};

/** What is printed at true size, on one page or on tiles. */
export interface TrueSize {
  readonly name: string;
  readonly marks: readonly Mark[];
  readonly box: Box;
  /** Said once of the whole; the first line is what it is. */
  readonly lines: readonly string[];
}

const patternContent = (part: Part, blank: Blank, options: DisplayOptions): TrueSize => ({
  name: part.name,
  ...printed(part, blank, options),
  lines: footLines(part, blank, options),
});

/** One page of the part's own size, with the rulers and the words under it. */
export const patternPage = (part: Part, blank: Blank, options: DisplayOptions, type: Type): Page =>
  trueSizePage(patternContent(part, blank, options), type);

/** One page as large as what it shows, with the rulers and the words under it. */
export const trueSizePage = (content: TrueSize, type: Type): Page => {
  const { marks, box } = content;
  const width = Math.max(box.max.x - box.min.x, gaugeWidth, 180) + 2 * paperMargin;
  const lines = content.lines.flatMap((line) => linesOf(type, line, small, width - 2 * paperMargin));
  const foot = gaugeHeight + 4 + lines.length * lineHeight + 2;
  return {
    title: `${content.name}, true-size pattern`,
    width,
    height: box.max.y - box.min.y + 2 * paperMargin + foot,
    marks: [
      { kind: 'placed', marks, to: { x: paperMargin - box.min.x, y: paperMargin + foot - box.min.y } },
      ...gauge({ x: paperMargin, y: paperMargin + lines.length * lineHeight + 2 }),
      ...textMarks(lines, { x: paperMargin, y: paperMargin + (lines.length - 1) * lineHeight }),
    ],
  };
};

interface Grid {
  readonly paper: Paper;
  readonly columns: number;
  readonly rows: number;
  /** What one tile shows, and how far the next is moved. */
  readonly seen: { readonly width: number; readonly height: number };
  readonly step: { readonly x: number; readonly y: number };
}

const gridOn = (paper: Paper, box: Box): Grid => {
  const seen = { width: paper.width - 2 * paperMargin, height: paper.height - 2 * paperMargin - gaugeHeight - 10 };
  const step = { x: seen.width - overlap, y: seen.height - overlap };
  const along = (length: number, view: number, each: number): number => Math.max(1, Math.ceil((length - view) / each - 1e-9) + 1);
  return {
    paper,
    seen,
    step,
    columns: along(box.max.x - box.min.x + 2, seen.width, step.x),
    rows: along(box.max.y - box.min.y + 2, seen.height, step.y),
  };
};

/** The way of laying the paper that takes the fewest sheets; upright where it makes no odds. */
const bestGrid = (paper: Paper, box: Box): Grid => {
  const [upright, lying] = [gridOn(paper, box), gridOn(turnedOver(paper), box)];
  return lying.columns * lying.rows < upright.columns * upright.rows ? lying : upright;
};

/** Rows from the top, as one reads; columns by letters: A1 is the upper left tile. */
const tileName = (column: number, row: number, rows: number): string =>
  `${String.fromCharCode(65 + (column % 26)).repeat(1 + Math.floor(column / 26))}${rows - row}`;

const cross = (at: Point): readonly Mark[] => [
  circleMark(at, 2, ink),
  lineMark({ x: at.x - 4, y: at.y }, { x: at.x + 4, y: at.y }, ink),
  lineMark({ x: at.x, y: at.y - 4 }, { x: at.x, y: at.y + 4 }, ink),
];

/** Joint lines of the whole grid in blank coordinates, each with its crosses: the same on both tiles, so that they fall on one another. */
const jointMarks = (grid: Grid, origin: Point): readonly Mark[] => {
  const dash: Ink = { ...light, dash: [4, 2] };
  const size = { x: (grid.columns - 1) * grid.step.x + grid.seen.width, y: (grid.rows - 1) * grid.step.y + grid.seen.height };
  const uprights = Array.from({ length: grid.columns - 1 }, (_, i) => origin.x + (i + 1) * grid.step.x + overlap / 2);
  const levels = Array.from({ length: grid.rows - 1 }, (_, i) => origin.y + (i + 1) * grid.step.y + overlap / 2);
  const places = (start: number, count: number, step: number, view: number): readonly number[] =>
    Array.from({ length: count }, (_, i) => [0.2, 0.5, 0.8].map((share) => start + i * step + view * share)).flat();
  return [
    ...uprights.flatMap((x) => [
      lineMark({ x, y: origin.y }, { x, y: origin.y + size.y }, dash),
      ...places(origin.y, grid.rows, grid.step.y, grid.seen.height).flatMap((y) => cross({ x, y })),
    ]),
    ...levels.flatMap((y) => [
      lineMark({ x: origin.x, y }, { x: origin.x + size.x, y }, dash),
      ...places(origin.x, grid.columns, grid.step.x, grid.seen.width).flatMap((x) => cross({ x, y })),
    ]),
  ];
};

/** The whole pattern small, cut by the joints, each tile with its name, this one filled. */
const tileMap = (grid: Grid, column: number, row: number, origin: Point, outline: readonly Mark[], area: Box): readonly Mark[] => {
  const size = { x: (grid.columns - 1) * grid.step.x + grid.seen.width, y: (grid.rows - 1) * grid.step.y + grid.seen.height };
  const scale = Math.min((area.max.x - area.min.x) / size.x, (area.max.y - area.min.y) / size.y);
  const at = (x: number, y: number): Point => ({ x: area.max.x - size.x * scale + x * scale, y: area.min.y + y * scale });
  const tiles = Array.from({ length: grid.columns * grid.rows }, (_, i) => ({
    column: i % grid.columns,
    row: Math.floor(i / grid.columns),
  }));
  const cell = (of: { readonly column: number; readonly row: number }): Box => {
    const joint = (index: number, last: number, step: number, view: number): readonly [number, number] => [
      index === 0 ? 0 : index * step + overlap / 2,
      index === last ? index * step + view : (index + 1) * step + overlap / 2,
    ];
    const [x0, x1] = joint(of.column, grid.columns - 1, grid.step.x, grid.seen.width);
    const [y0, y1] = joint(of.row, grid.rows - 1, grid.step.y, grid.seen.height);
    return { min: at(x0, y0), max: at(x1, y1) };
  };
  const letters = Math.min(3, (cell({ column: 0, row: 0 }).max.y - cell({ column: 0, row: 0 }).min.y) * 0.6);
  return [
    ...tiles.map((tile) => boxMark(cell(tile), ink, tile.column === column && tile.row === row ? '#dddddd' : undefined)),
    { kind: 'placed', marks: outline, scale, to: at(-origin.x, -origin.y) },
    ...tiles.map((tile): Mark => {
      const { min, max } = cell(tile);
      return {
        kind: 'text',
        text: tileName(tile.column, tile.row, grid.rows),
        at: { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 - letters * 0.36 },
        size: letters,
        anchor: 'middle',
      };
    }),
  ];
};

/** The cut lines alone, fine enough for the map. */
const thin = (marks: readonly Mark[]): readonly Mark[] =>
  marks.flatMap((mark) => (mark.kind === 'path' && mark.ink?.width === 0.5 ? [{ ...mark, ink: { width: 0.15 } }] : []));

/**
 * The pattern on sheets of a paper size, from the upper left tile on, row by row.
 *
 * @returns one page where one is enough
 */
export const tiledPattern = (part: Part, blank: Blank, paper: Paper, options: DisplayOptions, type: Type): readonly Page[] =>
  trueSizeTiles(patternContent(part, blank, options), paper, type);

/** The same of anything printed at true size. */
export const trueSizeTiles = (content: TrueSize, paper: Paper, type: Type): readonly Page[] => {
  const { marks, box } = content;
  const grid = bestGrid(paper, box);
  const { seen, step, columns, rows } = grid;
  const size = { x: (columns - 1) * step.x + seen.width, y: (rows - 1) * step.y + seen.height };
  // The pattern stands in the middle of all the tiles.
  const origin = { x: (box.min.x + box.max.x - size.x) / 2, y: (box.min.y + box.max.y - size.y) / 2 };
  const joints = jointMarks(grid, origin);
  const small = thin(marks);
  const bottom = paperMargin + gaugeHeight + 10;
  const pages: Page[] = [];
  for (let row = rows - 1; row >= 0; row--) {
    for (let column = 0; column < columns; column++) {
      const name = tileName(column, row, rows);
      const corner = { x: origin.x + column * step.x, y: origin.y + row * step.y };
      const view: Box = { min: { x: paperMargin, y: bottom }, max: { x: paperMargin + seen.width, y: bottom + seen.height } };
      const many = columns * rows > 1;
      const head = many ? `${content.name}  ·  tile ${name} of ${columns} × ${rows}` : content.name;
      const words = many ? `${content.lines[0] ?? ''}. Trim on the grey dashed line, lay cross on cross, tape.` : content.lines.join(' ');
      const lines = linesOf(type, words, 2.5, seen.width - type.width(head, 4, true) - 6).slice(0, 3);
      pages.push({
        title: head,
        width: grid.paper.width,
        height: grid.paper.height,
        marks: [
          {
            kind: 'placed',
            marks: [{ kind: 'placed', marks: [...joints, ...marks], to: { x: view.min.x - corner.x, y: view.min.y - corner.y } }],
            to: { x: 0, y: 0 },
            clip: view,
          },
          boxMark(view, light),
          ...gauge({ x: paperMargin, y: paperMargin }),
          { kind: 'text', text: head, at: { x: paperMargin, y: bottom - 6 }, size: 4, bold: true },
          ...lines.map(
            (text, index): Mark => ({
              kind: 'text',
              text,
              at: { x: paperMargin + type.width(head, 4, true) + 6, y: bottom - 3.5 - index * 3.1 },
              size: 2.5,
            }),
          ),
          ...(many
            ? tileMap(grid, column, row, origin, small, {
                min: { x: paperMargin + gaugeWidth + 4, y: paperMargin + 1 },
                max: { x: grid.paper.width - paperMargin, y: paperMargin + gaugeHeight },
              })
            : []),
        ],
      });
    }
  }
  return pages;
};
