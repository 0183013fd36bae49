/**
 * Where a drawing's words go: running numbers in a row below and a column at the left, overall sizes outside those, bend labels
 * along their lines, hole sizes beside their holes. No two texts overlap: they are spread along their lane, moved to the next free
 * place, or left to the tooltip. Millimetres, y up.
 */
import type { Box, Point } from '../shape/path.js';
import type { Drawing, Measure, RunningMark } from './drawing.js';
import { placeLabels } from './labels.js';
import {
  boxOfText,
  crosses,
  free,
  type Lanes,
  type Obstacles,
  obstaclesOf,
  type PlacedText,
  spread,
  type ThinLine,
  textLength,
} from './placing.js';

export { boxOfText, type PlacedText, spread, type ThinLine } from './placing.js';

export interface Layout {
  readonly texts: readonly PlacedText[];
  readonly lines: readonly ThinLine[];
  /** Datum corner of the running numbers, when there are any. */
  readonly datum: Point | undefined;
  readonly box: Box;
  readonly textHeight: number;
}

/** One row or column of running numbers with their thin lines; answers how far from the part it reaches. */
const placeRunning = (marks: readonly RunningMark[], axis: 'x' | 'y', box: Box, height: number, out: Lanes): number => {
  const own = [...marks.filter((mark) => mark.axis === axis)].sort((a, b) => a.at - b.at);
  if (own.length === 0) return 0;
  const edge = axis === 'x' ? box.min.y : box.min.x;
  const datum: RunningMark = { axis, at: axis === 'x' ? box.min.x : box.min.y, text: '0', feature: 'outline', from: edge };
  const all = [datum, ...own];
  const places = spread(
    all.map((mark) => mark.at),
    height * 1.25,
  );
  const point = (along: number, across: number): Point => (axis === 'x' ? { x: along, y: across } : { x: across, y: along });
  const [near, far] = [edge - height * 0.9, edge - height * 2.1];
  all.forEach((mark, index) => {
    const place = places[index] as number;
    const feature = mark === datum ? undefined : mark.feature;
    out.lines.push({
      feature,
      points: [point(mark.at, mark.from - height * 0.2), point(mark.at, near), point(place, far)],
      arrows: 'none',
    });
    out.texts.push({
      layer: 'dimension',
      feature,
      text: mark.text,
      at: point(place, far - height * 0.35),
      height,
      turn: axis === 'x' ? Math.PI / 2 : 0,
      anchor: 'end',
    });
  });
  return height * 2.6 + Math.max(...all.map((mark) => textLength(mark.text, height)));
};

const placeOverall = (drawing: Drawing, height: number, below: number, left: number, out: Lanes): void => {
  const { min, max } = drawing.box;
  const y = min.y - below - height * 1.9;
  const x = min.x - left - height * 1.9;
  const gap = height * 0.4;
  const numbers = out.texts.map(boxOfText);
  // A line from the part out to its overall size stops short of any running number that stands in its way.
  const reach = (from: Point, to: Point, short: Point): ThinLine => ({
    feature: 'outline',
    points: [numbers.some((box) => crosses(box, from, to)) ? short : from, to],
    arrows: 'none',
  });
  out.lines.push(
    ...[min.x, max.x].map((at) => reach({ x: at, y: min.y - gap }, { x: at, y: y - gap }, { x: at, y: y + gap })),
    ...[min.y, max.y].map((at) => reach({ x: min.x - gap, y: at }, { x: x - gap, y: at }, { x: x + gap, y: at })),
    {
      feature: 'outline',
      points: [
        { x: min.x, y },
        { x: max.x, y },
      ],
      arrows: max.x - min.x > 3 * height ? 'both' : 'none',
    },
    {
      feature: 'outline',
      points: [
        { x, y: min.y },
        { x, y: max.y },
      ],
      arrows: max.y - min.y > 3 * height ? 'both' : 'none',
    },
  );
  // Words longer than the part is high stand clear of the feet of their line.
  const aside = textLength(drawing.overall.height, height) > max.y - min.y ? 1.2 : 0.75;
  const common = { layer: 'dimension', feature: 'outline', height, anchor: 'middle' } as const;
  out.texts.push(
    { ...common, text: drawing.overall.width, at: { x: (min.x + max.x) / 2, y: y + height * 0.75 }, turn: 0 },
    { ...common, text: drawing.overall.height, at: { x: x - height * aside, y: (min.y + max.y) / 2 }, turn: Math.PI / 2 },
  );
};

const lengthOf = ({ from, to }: Measure): number => Math.hypot(to.x - from.x, to.y - from.y);
/** Whether a distance has room for arrows between its ends. */
const roomy = (measure: Measure, height: number): boolean => lengthOf(measure) > 3 * height;
const holdsWords = (measure: Measure, height: number): boolean =>
  roomy(measure, height) && textLength(measure.text, height) < lengthOf(measure);

/** The line of a distance within the part, with arrows at both ends. */
const measureLine = (measure: Measure, height: number): readonly ThinLine[] => {
  const { feature, from, to, fault } = measure;
  return lengthOf(measure) < 1e-9 ? [] : [{ feature, points: [from, to], arrows: roomy(measure, height) ? 'both' : 'none', fault }];
};

/** Its words along it; where there is no room between the ends, beyond one of them. */
const placeMeasure = (measure: Measure, height: number, lanes: Lanes, obstacles: Obstacles): void => {
  const { feature, from, to, text, fault } = measure;
  const length = lengthOf(measure);
  if (length < 1e-9) return;
  const [ux, uy] = [(to.x - from.x) / length, (to.y - from.y) / length];
  const raw = Math.atan2(uy, ux);
  const turn = raw > Math.PI / 2 + 1e-9 ? raw - Math.PI : raw <= -Math.PI / 2 + 1e-9 ? raw + Math.PI : raw;
  const side = height * 0.75;
  const common = { layer: 'dimension', feature, text, height, fault } as const;
  if (holdsWords(measure, height)) {
    const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
    lanes.texts.push({
      ...common,
      at: { x: middle.x - Math.sin(turn) * side, y: middle.y + Math.cos(turn) * side },
      turn,
      anchor: 'middle',
    });
    return;
  }
  // Beyond the second end, else the first, and where words stand there already a little farther out or to the side; the tooltip has it where nothing is free.
  const flat = Math.abs(ux) > Math.abs(uy);
  const tried = [0, 2, -2, 4, -4, 7, -7, 11, -11].flatMap((aside) =>
    ([1, -1] as const).flatMap((way) =>
      [0.9, 2.1].map((out): PlacedText => {
        const end = way > 0 ? to : from;
        const at = { x: end.x + (way * ux * out - uy * aside) * height, y: end.y + (way * uy * out + ux * aside) * height };
        return { ...common, at, turn: 0, anchor: flat ? (way * ux > 0 ? 'start' : 'end') : 'middle' };
      }),
    ),
  );
  const found = tried.find((text) => free(text, lanes, obstacles));
  if (found !== undefined) lanes.texts.push(found);
};

const grow = (box: Box, point: Point): Box => ({
  min: { x: Math.min(box.min.x, point.x), y: Math.min(box.min.y, point.y) },
  max: { x: Math.max(box.max.x, point.x), y: Math.max(box.max.y, point.y) },
});

/**
 * Places every word of a drawing. Text height is a fixed share of the part's larger side, so a picture fitted to its window reads the
 * same for a bracket and for a two-metre panel.
 *
 * @param textHeight mm in the drawing's own size, for drawings whose scale on paper is known
 */
export const layOut = (drawing: Drawing, textHeight?: number): Layout => {
  const { min, max } = drawing.box;
  const height = textHeight ?? Math.max(max.x - min.x, max.y - min.y, 1) * 0.024;
  const out: Lanes = { texts: [], lines: [] };
  const below = placeRunning(drawing.running, 'x', drawing.box, height, out);
  const left = placeRunning(drawing.running, 'y', drawing.box, height, out);
  placeOverall(drawing, height, below, left, out);
  const obstacles = obstaclesOf(drawing);
  const { measures } = drawing;
  out.lines.push(...measures.flatMap((measure) => measureLine(measure, height)));
  const place = (which: (measure: Measure) => boolean): void => {
    for (const measure of measures.filter(which)) placeMeasure(measure, height, out, obstacles);
  };
  // Words that have their place come first; those of the shortest distances give way to all others.
  place((measure) => holdsWords(measure, height));
  place((measure) => roomy(measure, height) && !holdsWords(measure, height));
  placeLabels(drawing, height, out);
  place((measure) => !roomy(measure, height));
  const around = [
    ...out.texts.flatMap((text) => [boxOfText(text).min, boxOfText(text).max]),
    ...out.lines.flatMap((line) => line.points),
    ...drawing.beyond,
  ].reduce(grow, drawing.box);
  const margin = height * 0.8;
  return {
    texts: out.texts,
    lines: out.lines,
    datum: drawing.running.length > 0 ? min : undefined,
    box: { min: { x: around.min.x - margin, y: around.min.y - margin }, max: { x: around.max.x + margin, y: around.max.y + margin } },
    textHeight: height,
  };
};
