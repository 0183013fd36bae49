/**
 * What is printed at true size, on tiles to be joined. Tiles overlap; along the middle of every overlap runs the line at which the tile that is laid over
 * its neighbour is trimmed, and the crosses on it fall on those of the neighbour. Tiles with nothing on them are left out.
 */
import type { Box, Point } from '../shape/path.js';
import { drawnIn, flatMarks, onMaterial } from './flat-marks.js';
import { gauge, gaugeHeight, gaugeWidth } from './pages/gauge.js';
import { boxMark, type Ink, lineMark, type Mark, narrow, type Page, polylineMark, wide } from './pages/page.js';
import { type Paper, paperMargin, turnedOver } from './pages/paper.js';
import { linesOf, type Type } from './pages/type.js';
import type { TrueSize } from './true-size.js';

const ink: Ink = { width: narrow };
const light: Ink = { width: narrow, colour: '#777777' };
/** How much two neighbouring tiles share, mm. */
const overlap = 15;
const headSize = 4;
const wordSize = 2.5;
const lineHeight = 3.4;

const joining =
  'Trim the left and the upper edge on the grey dashed line, lay cross on cross over the neighbour, tape. Crosses in a diamond only join the tiles: no holes.';
const leftOut = 'Tiles crossed out on the map are empty and not printed.';

interface Grid {
  readonly paper: Paper;
  readonly columns: number;
  readonly rows: number;
  /** Where the view begins above the lower edge of the paper: under it stand the words and the rulers. */
  readonly bottom: number;
  /** What one tile shows, and how far the next is moved. */
  readonly seen: { readonly width: number; readonly height: number };
  readonly step: { readonly x: number; readonly y: number };
  /** Lower left corner of the whole, in the coordinates of what is shown, and its size. */
  readonly origin: Point;
  readonly size: Point;
}
interface Tile {
  readonly column: number;
  readonly row: number;
}

const sentence = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`);

const wordsOn = (content: TrueSize, type: Type, width: number, more: readonly string[]): readonly string[] =>
  linesOf(type, [...more, ...content.lines.map(sentence)].join(' '), wordSize, width);

const gridOn = (paper: Paper, content: TrueSize, type: Type): Grid => {
  const { box } = content;
  const width = paper.width - 2 * paperMargin;
  const bottomWith = (more: readonly string[]): number =>
    paperMargin + gaugeHeight + 2 + wordsOn(content, type, width, more).length * lineHeight + headSize + 3;
  const at = (bottom: number): Grid => {
    const seen = { width, height: paper.height - paperMargin - bottom };
    const step = { x: seen.width - overlap, y: seen.height - overlap };
    const along = (length: number, view: number, each: number): number => Math.max(1, Math.ceil((length - view) / each - 1e-9) + 1);
    const columns = along(box.max.x - box.min.x + 2, seen.width, step.x);
    const rows = along(box.max.y - box.min.y + 2, seen.height, step.y);
    const size = { x: (columns - 1) * step.x + seen.width, y: (rows - 1) * step.y + seen.height };
    // It stands in the middle of all the tiles.
    const origin = { x: (box.min.x + box.max.x - size.x) / 2, y: (box.min.y + box.max.y - size.y) / 2 };
    return { paper, seen, step, columns, rows, bottom, origin, size };
  };
  const alone = at(bottomWith([]));
  return alone.columns * alone.rows === 1 ? alone : at(bottomWith([joining, leftOut]));
};

/** The part of a tile that no neighbour is laid over or trimmed for: from joint to joint. */
const cellOf = (grid: Grid, { column, row }: Tile): Box => {
  const joints = (index: number, last: number, step: number, view: number): readonly [number, number] => [
    index === 0 ? 0 : index * step + overlap / 2,
    index === last ? index * step + view : (index + 1) * step + overlap / 2,
  ];
  const [x0, x1] = joints(column, grid.columns - 1, grid.step.x, grid.seen.width);
  const [y0, y1] = joints(row, grid.rows - 1, grid.step.y, grid.seen.height);
  const { x, y } = grid.origin;
  return { min: { x: x + x0, y: y + y0 }, max: { x: x + x1, y: y + y1 } };
};

/** Row by row from the upper left, as one reads. */
const tilesOf = (grid: Grid): readonly Tile[] =>
  Array.from({ length: grid.columns * grid.rows }, (_, i) => ({
    column: i % grid.columns,
    row: grid.rows - 1 - Math.floor(i / grid.columns),
  }));

/** Those that show something, or lie wholly on the sheet. */
const tilesInUse = (grid: Grid, content: TrueSize): readonly Tile[] => {
  const flat = flatMarks(content.marks);
  return tilesOf(grid).filter((tile) => {
    const cell = cellOf(grid, tile);
    const padded = { min: { x: cell.min.x - 1, y: cell.min.y - 1 }, max: { x: cell.max.x + 1, y: cell.max.y + 1 } };
    return drawnIn(flat, padded) || onMaterial(flat, wide, { x: (cell.min.x + cell.max.x) / 2, y: (cell.min.y + cell.max.y) / 2 });
  });
};

interface Laying {
  readonly grid: Grid;
  readonly tiles: readonly Tile[];
}
/** The way of laying the paper that takes the fewest sheets; upright where it makes no odds. */
const bestLaying = (paper: Paper, content: TrueSize, type: Type): Laying => {
  const [upright, lying] = [paper, turnedOver(paper)].map((each): Laying => {
    const grid = gridOn(each, content, type);
    return { grid, tiles: tilesInUse(grid, content) };
  }) as [Laying, Laying];
  return lying.tiles.length < upright.tiles.length ? lying : upright;
};

/** Rows from the top, as one reads; columns by letters: A1 is the upper left tile. */
const tileName = ({ column, row }: Tile, rows: number): string =>
  `${String.fromCharCode(65 + (column % 26)).repeat(1 + Math.floor(column / 26))}${rows - row}`;

/** Pointed all round: in a circle it could be taken for a hole. */
const cross = (at: Point): readonly Mark[] => [
  polylineMark(
    [
      { x: at.x - 2.5, y: at.y },
      { x: at.x, y: at.y - 2.5 },
      { x: at.x + 2.5, y: at.y },
      { x: at.x, y: at.y + 2.5 },
    ],
    ink,
    true,
  ),
  lineMark({ x: at.x - 4, y: at.y }, { x: at.x + 4, y: at.y }, ink),
  lineMark({ x: at.x, y: at.y - 4 }, { x: at.x, y: at.y + 4 }, ink),
];

/** Joint lines of the whole grid, each with its crosses: the same on both tiles, so that they fall on one another. */
const jointMarks = ({ columns, rows, step, seen, origin, size }: Grid): readonly Mark[] => {
  const dash: Ink = { ...light, dash: [4, 2] };
  const uprights = Array.from({ length: columns - 1 }, (_, i) => origin.x + (i + 1) * step.x + overlap / 2);
  const levels = Array.from({ length: rows - 1 }, (_, i) => origin.y + (i + 1) * step.y + overlap / 2);
  const places = (start: number, count: number, each: number, view: number): readonly number[] =>
    Array.from({ length: count }, (_, i) => [0.2, 0.5, 0.8].map((share) => start + i * each + view * share)).flat();
  return [
    ...uprights.flatMap((x) => [
      lineMark({ x, y: origin.y }, { x, y: origin.y + size.y }, dash),
      ...places(origin.y, rows, step.y, seen.height).flatMap((y) => cross({ x, y })),
    ]),
    ...levels.flatMap((y) => [
      lineMark({ x: origin.x, y }, { x: origin.x + size.x, y }, dash),
      ...places(origin.x, columns, step.x, seen.width).flatMap((x) => cross({ x, y })),
    ]),
  ];
};

/** The cut lines alone, fine enough for the map. */
const thin = (marks: readonly Mark[]): readonly Mark[] =>
  marks.flatMap((mark): readonly Mark[] => {
    if (mark.kind === 'placed') return [{ ...mark, marks: thin(mark.marks) }];
    return mark.kind === 'path' && mark.ink?.width === wide ? [{ ...mark, ink: { width: 0.15 } }] : [];
  });

const here = '#dddddd';

/** The whole small, cut by the joints, each tile with its name, this one filled, those left out crossed out. */
const tileMap = ({ grid, tiles }: Laying, tile: Tile, outline: readonly Mark[], area: Box, type: Type): readonly Mark[] => {
  const { origin, size } = grid;
  const scale = Math.min((area.max.x - area.min.x) / size.x, (area.max.y - area.min.y) / size.y);
  const at = (p: Point): Point => ({ x: area.max.x - (size.x - (p.x - origin.x)) * scale, y: area.min.y + (p.y - origin.y) * scale });
  const cells = tilesOf(grid).map((each) => {
    const { min, max } = cellOf(grid, each);
    const isHere = each.column === tile.column && each.row === tile.row;
    return { name: tileName(each, grid.rows), min: at(min), max: at(max), isHere, used: tiles.some((one) => sameTile(one, each)) };
  });
  const widest = Math.max(...cells.map(({ name }) => type.width(name, 1)));
  const letters = Math.min(3, ...cells.flatMap(({ min, max }) => [(max.y - min.y) * 0.6, ((max.x - min.x) * 0.8) / widest]));
  return [
    ...cells.flatMap((cell): readonly Mark[] => [
      boxMark(cell, ink, cell.isHere ? here : undefined),
      ...(cell.used
        ? []
        : [lineMark(cell.min, cell.max, light), lineMark({ x: cell.min.x, y: cell.max.y }, { x: cell.max.x, y: cell.min.y }, light)]),
    ]),
    { kind: 'placed', marks: outline, scale, to: at({ x: 0, y: 0 }) },
    ...cells.flatMap(({ name, min, max, isHere, used }): readonly Mark[] => {
      if (!used) return [];
      const middle = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 };
      const half = { x: type.width(name, letters) / 2 + letters * 0.1, y: letters * 0.48 };
      // The outline stops short of the name.
      const ground: Box = { min: { x: middle.x - half.x, y: middle.y - half.y }, max: { x: middle.x + half.x, y: middle.y + half.y } };
      return [
        boxMark(ground, undefined, isHere ? here : '#ffffff'),
        { kind: 'text', text: name, at: { x: middle.x, y: middle.y - (letters * type.capital) / 2 }, size: letters, anchor: 'middle' },
      ];
    }),
  ];
};
const sameTile = (a: Tile, b: Tile): boolean => a.column === b.column && a.row === b.row;

/**
 * Tiles of a paper size, from the upper left one on, row by row.
 *
 * @returns one page where one is enough
 */
export const trueSizeTiles = (content: TrueSize, paper: Paper, type: Type): readonly Page[] => {
  const laying = bestLaying(paper, content, type);
  const { grid, tiles } = laying;
  const { seen, bottom } = grid;
  const many = grid.columns * grid.rows > 1;
  const joints = jointMarks(grid);
  const outline = thin(content.marks);
  const more = many ? [joining, ...(tiles.length < grid.columns * grid.rows ? [leftOut] : [])] : [];
  const lines = wordsOn(content, type, seen.width, more);
  return tiles.map((tile, index): Page => {
    const name = tileName(tile, grid.rows);
    const corner = { x: grid.origin.x + tile.column * grid.step.x, y: grid.origin.y + tile.row * grid.step.y };
    const view: Box = { min: { x: paperMargin, y: bottom }, max: { x: paperMargin + seen.width, y: bottom + seen.height } };
    const head = many ? `${content.name}  ·  tile ${name}, page ${index + 1} of ${tiles.length}` : content.name;
    return {
      title: head,
      width: grid.paper.width,
      height: grid.paper.height,
      marks: [
        {
          kind: 'placed',
          marks: [{ kind: 'placed', marks: [...joints, ...content.marks], to: { x: view.min.x - corner.x, y: view.min.y - corner.y } }],
          to: { x: 0, y: 0 },
          clip: view,
        },
        boxMark(view, light),
        { kind: 'text', text: head, at: { x: paperMargin, y: bottom - headSize - 1 }, size: headSize, bold: true },
        ...lines.map(
          (text, line): Mark => ({
            kind: 'text',
            text,
            at: { x: paperMargin, y: bottom - headSize - 1 - (line + 1) * lineHeight - 0.6 },
            size: wordSize,
          }),
        ),
        ...gauge({ x: paperMargin, y: paperMargin }),
        ...(many
          ? tileMap(
              laying,
              tile,
              outline,
              {
                min: { x: paperMargin + gaugeWidth + 4, y: paperMargin + 1 },
                max: { x: grid.paper.width - paperMargin, y: paperMargin + gaugeHeight },
              },
              type,
            )
          : []),
      ],
    };
  });
};
