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
      arrows: 'both',
    },
    {
      feature: 'outline',
      points: [
        { x, y: min.y },
        { x, y: max.y },
      ],
      arrows: 'both',
    },
  );
  const common = { layer: 'dimension', feature: 'outline', height, anchor: 'middle' } as const;
  out.texts.push(
    { ...common, text: drawing.overall.width, at: { x: (min.x + max.x) / 2, y: y + height * 0.75 }, turn: 0 },
    { ...common, text: drawing.overall.height, at: { x: x - height * 0.75, y: (min.y + max.y) / 2 }, turn: Math.PI / 2 },
  );
};

/** Distances with room for words between their ends, and those without, whose words give way to all others. */
const parted = (measures: readonly Measure[], height: number): readonly [readonly Measure[], readonly Measure[]] => {
  const roomy = (measure: Measure): boolean => Math.hypot(measure.to.x - measure.from.x, measure.to.y - measure.from.y) > 3 * height;
  return [measures.filter(roomy), measures.filter((measure) => !roomy(measure))];
};

/** A distance within the part: arrows at both ends and the words along it; where there is no room between the ends, beyond the second one. */
const placeMeasure = ({ feature, from, to, text, fault }: Measure, height: number, lanes: Lanes, obstacles: Obstacles): void => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < 1e-9) return;
  const [ux, uy] = [(to.x - from.x) / length, (to.y - from.y) / length];
  const roomy = length > 3 * height;
  lanes.lines.push({ feature, points: [from, to], arrows: roomy ? 'both' : 'none', fault });
  const raw = Math.atan2(uy, ux);
  const turn = raw > Math.PI / 2 + 1e-9 ? raw - Math.PI : raw <= -Math.PI / 2 + 1e-9 ? raw + Math.PI : raw;
  const side = height * 0.75;
  const common = { layer: 'dimension', feature, text, height, fault } as const;
  if (roomy && textLength(text, height) < length) {
    const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
    lanes.texts.push({
      ...common,
      at: { x: middle.x - Math.sin(turn) * side, y: middle.y + Math.cos(turn) * side },
      turn,
      anchor: 'middle',
    });
    return;
  }
  // Beyond the second end, and where words stand there already a little farther out or to the side; the tooltip has it where nothing is free.
  const flat = Math.abs(ux) > Math.abs(uy);
  const anchor = flat ? (ux > 0 ? 'start' : 'end') : 'middle';
  for (const aside of [0, 2, -2, 4, -4, 7, -7, 11, -11]) {
    for (const out of [0.9, 2.1]) {
      const at = { x: to.x + (ux * out - uy * aside) * height, y: to.y + (uy * out + ux * aside) * height };
      const placed: PlacedText = { ...common, at, turn: 0, anchor };
      if (!free(placed, lanes, obstacles)) continue;
      lanes.texts.push(placed);
      return;
    }
  }
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
  const [within, small] = parted(drawing.measures, height);
  const obstacles = obstaclesOf(drawing);
  for (const measure of within) placeMeasure(measure, height, out, obstacles);
  placeLabels(drawing, height, out);
  for (const measure of small) placeMeasure(measure, height, out, obstacles);
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
