/**
 * Where a drawing's words go: running numbers in a row below and a column at the left, overall sizes outside those, bend labels
 * along their lines, hole sizes beside their holes. No two texts overlap: they are spread along their lane, moved to the next free
 * place, or left to the tooltip. Millimetres, y up.
 */
import type { Box, Point } from '../shape/path.js';
import type { Drawing, Layer, LineLabel, RunningMark, SpotLabel } from './drawing.js';
import { boxOfLoop } from './extent.js';

export interface PlacedText {
  readonly layer: Layer;
  readonly feature: string | undefined;
  readonly text: string;
  /** Middle of the text's own height. */
  readonly at: Point;
  readonly height: number;
  /** Anticlockwise, rad. */
  readonly turn: number;
  readonly anchor: 'start' | 'middle' | 'end';
}
/** A thin line of a dimension, or the pointer from a label to what it names. */
export interface ThinLine {
  readonly feature: string | undefined;
  readonly points: readonly Point[];
  readonly arrows: 'none' | 'both';
}
export interface Layout {
  readonly texts: readonly PlacedText[];
  readonly lines: readonly ThinLine[];
  /** Datum corner of the running numbers, when there are any. */
  readonly datum: Point | undefined;
  readonly box: Box;
  readonly textHeight: number;
}

/** Width of a character as a share of the text height: a little over that of the usual sans faces, so that estimates err on the wide side. */
const characterWidth = 0.6;
const textLength = (text: string, height: number): number => [...text].length * characterWidth * height;

const overlaps = (a: Box, b: Box): boolean => a.min.x < b.max.x && b.min.x < a.max.x && a.min.y < b.max.y && b.min.y < a.max.y;

/** The box around a placed text, turned ones included. */
export const boxOfText = (text: PlacedText): Box => {
  const length = textLength(text.text, text.height);
  const from = text.anchor === 'start' ? 0 : text.anchor === 'middle' ? -length / 2 : -length;
  const [cos, sin] = [Math.cos(text.turn), Math.sin(text.turn)];
  const corners = [from, from + length].flatMap((u) =>
    [-text.height / 2, text.height / 2].map((v) => ({ x: text.at.x + u * cos - v * sin, y: text.at.y + u * sin + v * cos })),
  );
  const xs = corners.map((corner) => corner.x);
  const ys = corners.map((corner) => corner.y);
  return { min: { x: Math.min(...xs), y: Math.min(...ys) }, max: { x: Math.max(...xs), y: Math.max(...ys) } };
};

/** Whether a straight line passes through a box (Liang and Barsky's clipping by parameter). */
const crosses = (box: Box, from: Point, to: Point): boolean => {
  let [low, high] = [0, 1];
  for (const [start, delta, min, max] of [
    [from.x, to.x - from.x, box.min.x, box.max.x],
    [from.y, to.y - from.y, box.min.y, box.max.y],
  ] as const) {
    if (Math.abs(delta) < 1e-12) {
      if (start < min || start > max) return false;
      continue;
    }
    const [a, b] = [(min - start) / delta, (max - start) / delta];
    low = Math.max(low, Math.min(a, b));
    high = Math.min(high, Math.max(a, b));
    if (low > high) return false;
  }
  return true;
};

/**
 * Moves wanted positions apart until neighbours are at least `gap` apart, as little as possible in sum of squares
 * (pool-adjacent-violators on the positions less their rank). Positions come in ascending order.
 */
export const spread = (wanted: readonly number[], gap: number): readonly number[] => {
  const blocks: { sum: number; count: number }[] = [];
  wanted.forEach((position, index) => {
    blocks.push({ sum: position - index * gap, count: 1 });
    for (;;) {
      const last = blocks[blocks.length - 1];
      const before = blocks[blocks.length - 2];
      if (last === undefined || before === undefined || before.sum / before.count <= last.sum / last.count) break;
      blocks.splice(blocks.length - 2, 2, { sum: before.sum + last.sum, count: before.count + last.count });
    }
  });
  const levels = blocks.flatMap((block) => Array.from({ length: block.count }, () => block.sum / block.count));
  return levels.map((level, index) => level + index * gap);
};

interface Lanes {
  readonly texts: PlacedText[];
  readonly lines: ThinLine[];
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

interface Obstacles {
  readonly spots: readonly Box[];
  readonly segments: readonly { readonly feature: string; readonly from: Point; readonly to: Point }[];
}

const obstaclesOf = (drawing: Drawing): Obstacles => ({
  spots: drawing.strokes.flatMap((stroke) => {
    if (stroke.layer !== 'cut_inside') return [];
    if (stroke.geometry.kind === 'loop') return [boxOfLoop(stroke.geometry.loop)];
    if (stroke.geometry.kind !== 'circle') return [];
    const { centre, radius } = stroke.geometry.circle;
    return [{ min: { x: centre.x - radius, y: centre.y - radius }, max: { x: centre.x + radius, y: centre.y + radius } }];
  }),
  segments: drawing.strokes.flatMap((stroke) => {
    if (stroke.geometry.kind === 'line' && stroke.layer !== 'mark')
      return [{ feature: stroke.feature, from: stroke.geometry.from, to: stroke.geometry.to }];
    if (stroke.layer !== 'cut' || stroke.geometry.kind !== 'loop') return [];
    const loop = stroke.geometry.loop;
    return loop.map((move, index) => ({
      feature: 'outline',
      from: (loop[(index + loop.length - 1) % loop.length] ?? move).to,
      to: move.to,
    }));
  }),
});

const free = (text: PlacedText, placed: readonly PlacedText[], obstacles: Obstacles): boolean => {
  const box = boxOfText(text);
  return (
    !placed.some((other) => overlaps(box, boxOfText(other))) &&
    !obstacles.spots.some((spot) => overlaps(box, spot)) &&
    !obstacles.segments.some((segment) => crosses(box, segment.from, segment.to))
  );
};

/** Places along a bend line, on either side, clear of its own zone; largest text first. */
const lineCandidates = (label: LineLabel, height: number): readonly PlacedText[] => {
  const length = Math.hypot(label.to.x - label.from.x, label.to.y - label.from.y);
  if (length < 1e-6) return [];
  const raw = Math.atan2(label.to.y - label.from.y, label.to.x - label.from.x);
  // Read from below or from the right: turned more than −90° and up to +90°.
  const turn = raw > Math.PI / 2 + 1e-9 ? raw - Math.PI : raw <= -Math.PI / 2 + 1e-9 ? raw + Math.PI : raw;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [1, 0.8, 0.65].flatMap((scale) => {
    const size = height * scale;
    if (textLength(label.text, size) > length) return [];
    return [0.5, 0.3, 0.7, 0.18, 0.82].flatMap((share) =>
      [0.85, -0.85, 1.25, -1.25, 1.7, -1.7].map((side): PlacedText => {
        const base = { x: label.from.x + (label.to.x - label.from.x) * share, y: label.from.y + (label.to.y - label.from.y) * share };
        return {
          layer: 'label',
          feature: label.feature,
          text: label.text,
          at: { x: base.x - sin * size * side, y: base.y + cos * size * side },
          height: size,
          turn,
          anchor: 'middle',
        };
      }),
    );
  });
};

const spotCandidates = (label: SpotLabel, height: number): readonly PlacedText[] =>
  [0.9, 0.7].flatMap((scale) => {
    const size = height * scale;
    const reach = label.clear + size * 0.75;
    const side = label.clear * 1.4 + size * 0.7;
    const at = (dx: number, dy: number, anchor: PlacedText['anchor']): PlacedText => ({
      layer: 'label',
      feature: label.feature,
      text: label.text,
      at: { x: label.at.x + dx, y: label.at.y + dy },
      height: size,
      turn: 0,
      anchor,
    });
    const near = label.clear * 0.75 + size * 0.35;
    return [
      at(near, near + size * 0.3, 'start'),
      at(-near, near + size * 0.3, 'end'),
      at(near, -near - size * 0.3, 'start'),
      at(-near, -near - size * 0.3, 'end'),
      at(side, 0, 'start'),
      at(-side, 0, 'end'),
      at(0, reach * 1.3, 'middle'),
      at(0, -reach * 1.3, 'middle'),
    ];
  });

/** Labels that found no room on the part stand in a column at its right, each with a thin line to its bend. */
const placeColumn = (labels: readonly LineLabel[], box: Box, height: number, out: Lanes): void => {
  const ends = labels
    .map((label) => ({ label, end: label.from.x > label.to.x ? label.from : label.to }))
    .sort((a, b) => a.end.y - b.end.y || a.label.feature.localeCompare(b.label.feature));
  const places = spread(
    ends.map(({ end }) => end.y),
    height * 1.35,
  );
  ends.forEach(({ label, end }, index) => {
    const y = places[index] as number;
    const x = box.max.x + height * 2;
    out.lines.push({ feature: label.feature, points: [end, { x: box.max.x + height * 0.6, y: end.y }, { x, y }], arrows: 'none' });
    out.texts.push({
      layer: 'label',
      feature: label.feature,
      text: label.text,
      at: { x: x + height * 0.3, y },
      height,
      turn: 0,
      anchor: 'start',
    });
  });
};

const grow = (box: Box, point: Point): Box => ({
  min: { x: Math.min(box.min.x, point.x), y: Math.min(box.min.y, point.y) },
  max: { x: Math.max(box.max.x, point.x), y: Math.max(box.max.y, point.y) },
});

/**
 * Places every word of a drawing. Text height is a fixed share of the part's larger side, so a picture fitted to its window reads the
 * same for a bracket and for a two-metre panel.
 */
export const layOut = (drawing: Drawing): Layout => {
  const { min, max } = drawing.box;
  const height = Math.max(max.x - min.x, max.y - min.y, 1) * 0.024;
  const out: Lanes = { texts: [], lines: [] };
  const below = placeRunning(drawing.running, 'x', drawing.box, height, out);
  const left = placeRunning(drawing.running, 'y', drawing.box, height, out);
  placeOverall(drawing, height, below, left, out);
  const obstacles = obstaclesOf(drawing);
  const outside: LineLabel[] = [];
  for (const label of drawing.lineLabels) {
    const found = lineCandidates(label, height).find((candidate) => free(candidate, out.texts, obstacles));
    if (found === undefined) outside.push(label);
    else out.texts.push(found);
  }
  for (const label of drawing.spotLabels) {
    const found = spotCandidates(label, height).find((candidate) => free(candidate, out.texts, obstacles));
    if (found !== undefined) out.texts.push(found);
  }
  placeColumn(outside, drawing.box, height, out);
  const around = [
    ...out.texts.flatMap((text) => [boxOfText(text).min, boxOfText(text).max]),
    ...out.lines.flatMap((line) => line.points),
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
