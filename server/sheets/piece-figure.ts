/** A piece's drawing on paper. */
import type { Box } from '../shape/path.js';
import { pieceWork } from '../stock/index.js';
import type { Figure } from './documents/blocks.js';
import type { DisplayOptions, Stroke } from './drawing.js';
import { layOut } from './layout.js';
import { type Ink, type Mark, wide } from './pages/page.js';
import type { Type } from './pages/type.js';
import { inkOf, markOfText, marksOfStroke, marksOfThinLine } from './pattern-marks.js';
import { drawPiece } from './piece-drawing.js';
import { type CutFromLength, pieceTitle } from './piece-words.js';

const hiddenInk: Ink = { width: 0.18, dash: [2, 0.8] };
/** Half the widths of a true-size pattern: line group 0.35 of ISO 128-2, since a figure is smaller than a drawing. */
const figureInk = (layer: Stroke['layer']): Ink | undefined => {
  if (layer === 'hidden') return hiddenInk;
  const ink = inkOf(layer);
  return ink === undefined ? undefined : { ...ink, width: ink.width === wide ? 0.35 : 0.18 };
};

export interface PieceMarks {
  /** Millimetres of the part. */
  readonly marks: readonly Mark[];
  readonly box: Box;
}
/** Everything of a piece's drawing as marks in the part's own millimetres, letters as high as they are wanted once scaled, lines as thick as on paper. */
export const pieceMarks = (
  part: CutFromLength,
  options: DisplayOptions,
  scale: number,
  letters: number,
  inks: (layer: Stroke['layer']) => Ink | undefined = figureInk,
): PieceMarks | undefined => {
  const drawing = drawPiece(part, options, letters / scale);
  if (drawing === undefined) return undefined;
  const layout = layOut(drawing, letters / scale);
  return {
    box: layout.box,
    marks: [
      ...drawing.strokes.flatMap((stroke) => marksOfStroke(stroke, inks)),
      ...layout.lines.flatMap((line) => thinLine(marksOfThinLine(line, layout.textHeight))),
      ...layout.texts.map(markOfText),
    ],
  };
};
const thinLine = (marks: readonly Mark[]): readonly Mark[] =>
  marks.map((mark) =>
    mark.kind === 'path' && mark.ink !== undefined && mark.fill === undefined ? { ...mark, ink: { width: 0.18 } } : mark,
  );

const figureLetters = 2.6;
/**
 * A piece or a strap drawn to scale, as large as the room allows, with everything it is marked out by.
 *
 * @param room width it may take, mm on paper; the height follows, `tallest` at most
 * @returns undefined while its stock or its length is not known
 */
export const pieceFigure = (part: CutFromLength, options: DisplayOptions, _type: Type, room = 170, tallest = 110): Figure | undefined => {
  const work = pieceWork(part, { say: String });
  if (work.length === undefined) return undefined;
  // Words keep their size on paper, so what they take is only known once they are placed: the scale that fits is closed in on.
  let scale = Math.min(room / (work.length * 1.25), 1);
  let drawn = pieceMarks(part, options, scale, figureLetters);
  for (let round = 0; round < 6 && drawn !== undefined; round++) {
    const [width, height] = [(drawn.box.max.x - drawn.box.min.x) * scale, (drawn.box.max.y - drawn.box.min.y) * scale];
    const factor = Math.min(room / width, tallest / height);
    if (factor >= 1 && (factor < 1.02 || scale >= 1)) break;
    scale = Math.min(1, scale * (factor < 1 ? factor * 0.995 : factor * 0.998));
    drawn = pieceMarks(part, options, scale, figureLetters);
  }
  if (drawn === undefined) return undefined;
  const { box, marks } = drawn;
  return {
    width: (box.max.x - box.min.x) * scale,
    height: (box.max.y - box.min.y) * scale,
    words: pieceTitle(part, work, options),
    marks: [{ kind: 'placed', marks, to: { x: -box.min.x * scale, y: -box.min.y * scale }, scale }],
  };
};
