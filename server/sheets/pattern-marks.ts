/** The blank's drawing as marks at true size: what the printed pattern shows, whatever the page it is put on. */
import type { Blank } from '../blank/types.js';
import type { Part } from '../model/part.js';
import type { Point } from '../shape/path.js';
import { type DisplayOptions, type Drawing, drawBlank, type Layer, type Stroke } from './drawing.js';
import { placeLabels } from './labels.js';
import { circleMark, dashed, type Ink, lineMark, longDashDot, loopMark, type Mark, narrow, polylineMark, wide } from './pages/page.js';
import type { Lanes, PlacedText, ThinLine } from './placing.js';

/** Letters on a pattern: 3.5 mm, of the series of ISO 3098. */
const lettering = 3.5;

/** How each layer is inked; layers that only the screen shows have none. */
export const inkOf = (layer: Layer): Ink | undefined => {
  switch (layer) {
    case 'cut':
    case 'cut_inside':
      return { width: wide };
    case 'bead_up':
    case 'bead_down':
      return { width: narrow, dash: longDashDot };
    case 'bend_up':
    case 'brake_line':
      return { width: narrow };
    case 'bend_down':
      return { width: narrow, dash: dashed };
    case 'mark':
      return { width: narrow, dash: longDashDot };
    default:
      return undefined;
  }
};

/** The brake line is marked at its two ends only, as a fabricator would: short ticks in from the edges. */
const ticksOf = (from: Point, to: Point): readonly (readonly [Point, Point])[] => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const share = length < 1e-9 ? 0 : Math.min(8, length / 4) / length;
  const inward = (a: Point, b: Point): Point => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share });
  return [
    [from, inward(from, to)],
    [to, inward(to, from)],
  ];
};

export const marksOfStroke = (stroke: Stroke, inks: (layer: Layer) => Ink | undefined = inkOf): readonly Mark[] => {
  const ink = inks(stroke.layer);
  if (ink === undefined) return [];
  const { geometry } = stroke;
  switch (geometry.kind) {
    case 'loop':
      return [loopMark([geometry.loop], ink)];
    case 'path':
      return [{ kind: 'path', runs: [geometry.path], ink }];
    case 'circle':
      return [circleMark(geometry.circle.centre, geometry.circle.radius, ink)];
    case 'line':
      return stroke.layer === 'brake_line'
        ? ticksOf(geometry.from, geometry.to).map(([from, to]) => lineMark(from, to, ink))
        : [lineMark(geometry.from, geometry.to, ink)];
  }
};

/** Letters stand on their line; placed texts are known by the middle of their height. Capitals are 0.73 of the size high. */
export const markOfText = (text: PlacedText): Mark => {
  const down = 0.36 * text.height;
  return {
    kind: 'text',
    text: text.text,
    at: { x: text.at.x + Math.sin(text.turn) * down, y: text.at.y - Math.cos(text.turn) * down },
    size: text.height,
    turn: text.turn,
    anchor: text.anchor,
  };
};
export const marksOfThinLine = (line: ThinLine, height: number): readonly Mark[] => {
  const ink = { width: narrow };
  const marks: Mark[] = [polylineMark(line.points, ink)];
  if (line.arrows === 'both') {
    const [first, second] = line.points;
    const [beforeLast, last] = line.points.slice(-2);
    if (first !== undefined && second !== undefined) marks.push(arrow(first, second, height * 0.9));
    if (last !== undefined && beforeLast !== undefined) marks.push(arrow(last, beforeLast, height * 0.9));
  }
  return marks;
};
export const arrow = (tip: Point, from: Point, size: number): Mark => {
  const length = Math.hypot(tip.x - from.x, tip.y - from.y);
  const [ux, uy] = length < 1e-9 ? [1, 0] : [(tip.x - from.x) / length, (tip.y - from.y) / length];
  const side = (sign: number): Point => ({
    x: tip.x - ux * size - uy * sign * size * 0.18,
    y: tip.y - uy * size + ux * sign * size * 0.18,
  });
  return polylineMark([tip, side(1), side(-1)], { width: 0.05 }, true, '#000000');
};

export interface PatternDrawing {
  readonly drawing: Drawing;
  readonly marks: readonly Mark[];
}

/** What words must keep off on paper: brake lines are ticks there, centre lines are drawn, and the zone of a bend is not, so its words stand at its line. */
const asPrinted = (drawing: Drawing): Drawing => ({
  ...drawing,
  strokes: drawing.strokes.flatMap((stroke): readonly Stroke[] => {
    const { geometry } = stroke;
    if (stroke.layer === 'mark') return [{ ...stroke, layer: 'bend_up' }];
    if (stroke.layer !== 'brake_line' || geometry.kind !== 'line') return [stroke];
    return ticksOf(geometry.from, geometry.to).map((tick) => ({ ...stroke, geometry: { kind: 'line', from: tick[0], to: tick[1] } }));
  }),
  lineLabels: drawing.lineLabels.map((label) =>
    label.layer === 'bend_up' || label.layer === 'bend_down' ? { ...label, clear: 0 } : label,
  ),
});

/** Everything printed within and beside the blank, in blank coordinates at true size. */
export const patternMarks = (part: Part, blank: Blank, options: DisplayOptions): PatternDrawing => {
  const drawing = drawBlank(part, blank, options);
  const lanes: Lanes = { texts: [], lines: [] };
  placeLabels(asPrinted(drawing), lettering, lanes);
  const inside = drawing.strokes.filter(({ layer }) => layer !== 'cut').flatMap((stroke) => marksOfStroke(stroke));
  const outline = drawing.strokes
    .filter(({ layer }) => layer === 'cut')
    .flatMap((stroke) => marksOfStroke(stroke))
    .map((mark): Mark => (mark.kind === 'path' ? { ...mark, name: 'outline' } : mark));
  return {
    drawing,
    marks: [
      ...inside,
      ...outline,
      ...lanes.lines.flatMap((line) => marksOfThinLine(line, lettering)),
      ...lanes.texts.map((text) => markOfText(text)),
    ],
  };
};
