/** The blank with its sizes, drawn as large as the place on the page allows and lettered for paper. */
import type { Blank } from '../../blank/types.js';
import type { Part } from '../../model/part.js';
import type { Figure } from '../documents/blocks.js';
import { type DisplayOptions, drawBlank } from '../drawing.js';
import { layOut } from '../layout.js';
import { loopMark, type Mark } from '../pages/page.js';
import { markOfText, marksOfStroke, marksOfThinLine } from '../pattern-marks.js';

/** Letters on paper, mm: the smallest of the series of ISO 3098 that is easily read at a bench. */
const lettering = 2.5;
const tones = { base: '#f3f3f1', flange: '#f3f3f1', zone_up: '#dcdcd8', zone_down: '#dcdcd8', out_of_reach: undefined } as const;

export interface BlankFigureOptions extends DisplayOptions {
  readonly room: number;
  readonly tallest: number;
}

/** Never larger than life. */
export const blankFigure = (part: Part, blank: Blank, options: BlankFigureOptions): Figure => {
  const drawing = drawBlank(part, blank, options);
  let scale = Math.min(1, (options.room - 22) / Math.max(blank.width, 1), (options.tallest - 20) / Math.max(blank.height, 1));
  let layout = layOut(drawing, lettering / scale);
  // Words keep their size on paper, so how much room they leave for the part is found by trying.
  for (let i = 0; i < 4; i++) {
    const { min, max } = layout.box;
    const fits = Math.min(options.room / (max.x - min.x), options.tallest / (max.y - min.y));
    if (i > 0 && fits >= 1 * scale * 0.995) break;
    scale = Math.min(1, scale * (fits / scale) * 0.99);
    layout = layOut(drawing, lettering / scale);
  }
  const { min, max } = layout.box;
  const height = lettering / scale;
  const inner: readonly Mark[] = [
    ...drawing.areas.flatMap(({ kind, loop }) => (tones[kind] === undefined ? [] : [loopMark([loop], undefined, tones[kind])])),
    ...drawing.strokes.filter(({ layer }) => layer !== 'cut' && layer !== 'brake_line').flatMap((stroke) => marksOfStroke(stroke)),
    ...drawing.strokes.filter(({ layer }) => layer === 'cut').flatMap((stroke) => marksOfStroke(stroke)),
    ...layout.lines.flatMap((line) => marksOfThinLine(line, height)),
    ...layout.texts.map((text) => markOfText(text)),
  ];
  return {
    width: (max.x - min.x) * scale,
    height: (max.y - min.y) * scale,
    words: `${part.name}: the flat blank with its sizes`,
    marks: [{ kind: 'placed', marks: inner, scale, to: { x: -min.x * scale, y: -min.y * scale } }],
  };
};

/** The bare outline with its holes and bend lines, for a small picture. */
export const blankSketch = (part: Part, blank: Blank, room: number, tallest: number): Figure => {
  const drawing = drawBlank(part, blank, { unit: undefined });
  const scale = Math.min(1, room / Math.max(blank.width, 1), tallest / Math.max(blank.height, 1));
  const shown = drawing.strokes.filter(
    ({ layer }) => layer === 'cut' || layer === 'cut_inside' || layer === 'bend_up' || layer === 'bend_down',
  );
  return {
    width: blank.width * scale,
    height: blank.height * scale,
    words: `${part.name}: the flat blank`,
    marks: [
      {
        kind: 'placed',
        scale,
        to: { x: 0, y: 0 },
        marks: [
          loopMark([blank.outline, ...blank.cutouts.map(({ loop }) => loop)], undefined, tones.base),
          ...shown.flatMap((stroke) => marksOfStroke(stroke, (layer) => ({ width: layer === 'cut' ? 0.35 : 0.15 }))),
        ],
      },
    ],
  };
};
