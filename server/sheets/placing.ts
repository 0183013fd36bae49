/** Placed words and thin lines, and whether one more finds room among them. Millimetres, y up. */
import type { Box, Loop, Move, Point } from '../shape/path.js';
import type { Drawing, Layer } from './drawing.js';
import { alongArc, boxOfLoop, startOf } from './extent.js';

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
  /** A size that is more than it may be. */
  readonly fault?: boolean;
}
/** A thin line of a dimension, or the pointer from a label to what it names. */
export interface ThinLine {
  readonly feature: string | undefined;
  readonly points: readonly Point[];
  readonly arrows: 'none' | 'both';
  readonly fault?: boolean;
}
/** Width of a character as a share of the text height: a little over that of the usual sans faces, so that estimates err on the wide side. */
const characterWidth = 0.6;
export const textLength = (text: string, height: number): number => [...text].length * characterWidth * height;

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
export const crosses = (box: Box, from: Point, to: Point): boolean => {
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

export interface Lanes {
  readonly texts: PlacedText[];
  readonly lines: ThinLine[];
}

/** A loop as straight pieces, arcs in twelve: near enough to keep words off them. */
const pieces = (loop: Loop): readonly (readonly [Point, Point])[] =>
  loop.flatMap((move, index): readonly (readonly [Point, Point])[] => {
    const start = startOf(loop, index);
    if (move.kind === 'line') return [[start, move.to]];
    const points = Array.from({ length: 13 }, (_, step) => alongArc(start, move, step / 12));
    return points.slice(1).map((point, step) => [points[step] ?? start, point]);
  });

export interface Obstacles {
  readonly spots: readonly Box[];
  readonly segments: readonly { readonly feature: string; readonly from: Point; readonly to: Point }[];
}

export const obstaclesOf = (drawing: Drawing): Obstacles => ({
  spots: drawing.strokes.flatMap((stroke) => {
    if (stroke.layer !== 'cut_inside') return [];
    if (stroke.geometry.kind === 'loop') return [boxOfLoop(stroke.geometry.loop)];
    if (stroke.geometry.kind !== 'circle') return [];
    const { centre, radius } = stroke.geometry.circle;
    return [{ min: { x: centre.x - radius, y: centre.y - radius }, max: { x: centre.x + radius, y: centre.y + radius } }];
  }),
  segments: drawing.strokes.flatMap((stroke) => {
    if (stroke.geometry.kind === 'line' && stroke.layer !== 'mark' && stroke.layer !== 'hidden')
      return [{ feature: stroke.feature, from: stroke.geometry.from, to: stroke.geometry.to }];
    if (stroke.geometry.kind === 'path' && stroke.breadth === undefined) {
      const { start, moves } = stroke.geometry.path;
      return moves.flatMap((move, index) => {
        const from = index === 0 ? start : (moves[index - 1] as Move).to;
        return move.kind === 'line' ? [{ feature: stroke.feature, from, to: move.to }] : [];
      });
    }
    if (stroke.layer !== 'cut' || stroke.geometry.kind !== 'loop') return [];
    return pieces(stroke.geometry.loop).map(([from, to]) => ({ feature: 'outline', from, to }));
  }),
});

/** Words keep a quarter of their height clear of what is drawn. */
const padded = (box: Box, by: number): Box => ({
  min: { x: box.min.x - by, y: box.min.y - by },
  max: { x: box.max.x + by, y: box.max.y + by },
});

export const free = (text: PlacedText, placed: Lanes, obstacles: Obstacles): boolean => {
  const box = boxOfText(text);
  const clear = padded(box, text.height * 0.25);
  return (
    !placed.texts.some((other) => overlaps(box, boxOfText(other))) &&
    !placed.lines.some((line) => line.points.some((point, index) => index > 0 && crosses(box, line.points[index - 1] as Point, point))) &&
    !obstacles.spots.some((spot) => overlaps(clear, spot)) &&
    !obstacles.segments.some((segment) => crosses(box, segment.from, segment.to))
  );
};
