/** The true-size pattern of a blank on paper: what is drawn, what is said under it, and both put on one page or on tiles. */
import type { Blank } from '../blank/types.js';
import { homeUnit } from '../model/dimension.js';
import { saySize, sayThickness } from '../model/display.js';
import type { Part } from '../model/part.js';
import type { Box } from '../shape/path.js';
import { beadWords } from './bead-drawing.js';
import { cutWords, type DisplayOptions, drawingTitle } from './drawing.js';
import type { Mark, Page } from './pages/page.js';
import type { Paper } from './pages/paper.js';
import type { Type } from './pages/type.js';
import { patternMarks } from './pattern-marks.js';
import { boxOfText, type PlacedText } from './placing.js';
import { type TrueSize, type TrueSizePage, trueSizePage } from './true-size.js';
import { trueSizeTiles } from './true-size-tiles.js';

/** What to drill and what to cut, since a drill can't be told from a printed circle: `Holes and cuts: 4 × ⌀ 9/32; 1 off, 5 × 1 1/4.`. */
const cutSizes = (part: Part, blank: Blank, options: DisplayOptions): readonly string[] => {
  const counts = new Map<string, number>();
  for (const cut of blank.cutouts) {
    const words = `${cut.circle === undefined ? 'off,' : '×'} ${cutWords(part, cut, options)}`;
    counts.set(words, (counts.get(words) ?? 0) + 1);
  }
  return counts.size === 0 ? [] : [`Holes and cuts: ${[...counts].map(([words, count]) => `${count} ${words}`).join('; ')}.`];
};

/** What the lines on this pattern mean: only those that are on it. */
const lineWords = (blank: Blank): string => {
  const has = (direction: 'up' | 'down'): boolean => blank.bends.some((bend) => bend.direction === direction);
  return [
    'Thick: cut.',
    ...(has('up') ? ['Thin: bend up.'] : []),
    ...(has('down') ? ['Dashed: bend down.'] : []),
    ...(blank.bends.some(({ make }) => make === 'turn' || make === 'hem') ? ['Ticks: brake line.'] : []),
    ...(blank.bends.some(({ make }) => make === 'curl' || make === 'roll') ? ['Ticks at a curl or roll: where it starts and ends.'] : []),
  ].join(' ');
};

/** What is said once of the whole pattern. */
const footLines = (part: Part, blank: Blank, options: DisplayOptions): readonly string[] => [
  drawingTitle(part, blank, options),
  `${sayThickness(blank.thickness, undefined)} (${sayThickness(blank.thickness, homeUnit('inch'))}) thick, ${blank.bends.length} ${blank.bends.length === 1 ? 'bend' : 'bends'}, face toward you. ` +
    `Overall ${saySize(blank.width, blank.height, options.unit, options.denominator)}.`,
  ...cutSizes(part, blank, options),
  ...beadWords(options),
  ...(part.quantityOpposite > 0
    ? [`For the opposite hand (${part.quantityOpposite}) lay the paper face down; bends keep their direction.`]
    : []),
  `Print at 100 %, never fitted to the page. ${lineWords(blank)}`,
];

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

const patternContent = (part: Part, blank: Blank, options: DisplayOptions): TrueSize => ({
  name: part.name,
  ...printed(part, blank, options),
  lines: footLines(part, blank, options),
});

/** One page of the part's own size, with the rulers and the words under it. */
export const patternPage = (part: Part, blank: Blank, options: DisplayOptions, type: Type): TrueSizePage =>
  trueSizePage(patternContent(part, blank, options), type);

/**
 * The pattern on sheets of a paper size, from the upper left tile on, row by row.
 *
 * @returns one page where one is enough
 */
export const tiledPattern = (part: Part, blank: Blank, paper: Paper, options: DisplayOptions, type: Type): readonly Page[] =>
  trueSizeTiles(patternContent(part, blank, options), paper, type);
