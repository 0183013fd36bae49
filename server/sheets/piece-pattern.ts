/** What is printed at true size for a length: the papers to wrap round its coped ends, or else its drawing with all that is marked on it. */
import { pieceWork } from '../stock/index.js';
import { copeFigure, wrappedEnds } from './cope-figure.js';
import type { DisplayOptions } from './drawing.js';
import { dashed, type Ink, type Mark, narrow, type Page } from './pages/page.js';
import type { Paper } from './pages/paper.js';
import type { Type } from './pages/type.js';
import { inkOf } from './pattern-marks.js';
import { pieceMarks } from './piece-figure.js';
import { type CutFromLength, pieceTitle } from './piece-words.js';
import { type TrueSize, trueSizePage } from './true-size.js';
import { trueSizeTiles } from './true-size-tiles.js';

/** Letters on a pattern: 3.5 mm, of the series of ISO 3098. */
const lettering = 3.5;
const gap = 10;
const hidden: Ink = { width: narrow, dash: dashed };

const templates = (part: CutFromLength, options: DisplayOptions, type: Type): readonly TrueSize[] =>
  part.kind !== 'piece'
    ? []
    : wrappedEnds(part).flatMap((which) => {
        const figure = copeFigure(part, which, options, type);
        return figure === undefined
          ? []
          : [
              {
                name: `${part.name} ${which}`,
                marks: figure.marks,
                box: { min: { x: 0, y: 0 }, max: { x: figure.width, y: figure.height } },
                lines: [figure.words, 'Print at 100 %, never fitted to the page.'],
              },
            ];
      });

const drawingContent = (part: CutFromLength, options: DisplayOptions): TrueSize | undefined => {
  const drawn = pieceMarks(part, options, 1, lettering, (layer) => (layer === 'hidden' ? hidden : inkOf(layer)));
  if (drawn === undefined) return undefined;
  return {
    name: part.name,
    ...drawn,
    lines: [
      pieceTitle(part, pieceWork(part, { say: String }), options),
      'Print at 100 %, never fitted to the page. Thick: edges. Thin: where bends start and end. Dashed: hidden, or a bend the other way. Numbers count from the start.',
    ],
  };
};

/** The templates of a piece side by side, so that they go on one sheet. */
const together = (each: readonly TrueSize[], name: string): TrueSize | undefined => {
  const [first] = each;
  if (first === undefined) return undefined;
  let x = 0;
  const marks = each.map((content): Mark => {
    const placed: Mark = { kind: 'placed', marks: content.marks, to: { x, y: 0 } };
    x += content.box.max.x + gap;
    return placed;
  });
  return {
    name,
    marks,
    box: { min: { x: 0, y: 0 }, max: { x: x - gap, y: Math.max(...each.map(({ box }) => box.max.y)) } },
    lines: [each.map(({ lines }) => lines[0] ?? '').join('; '), 'Print at 100 %, never fitted to the page.'],
  };
};

/** @returns undefined while the stock or the length is not known */
export const piecePage = (part: CutFromLength, options: DisplayOptions, type: Type): Page | undefined => {
  const content = together(templates(part, options, type), part.name) ?? drawingContent(part, options);
  return content === undefined ? undefined : trueSizePage(content, type);
};
/** On sheets of a paper size: every template on its own, a long drawing in tiles. */
export const pieceTiles = (part: CutFromLength, paper: Paper, options: DisplayOptions, type: Type): readonly Page[] | undefined => {
  const papers = templates(part, options, type);
  const contents = papers.length > 0 ? papers : [drawingContent(part, options)];
  const known = contents.filter((content) => content !== undefined);
  return known.length === 0 ? undefined : known.flatMap((content) => trueSizeTiles(content, paper, type));
};
