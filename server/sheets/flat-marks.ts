/** Marks as straight lines and boxes of words, to ask what lies where. */
import type { Box, Point } from '../shape/path.js';
import { alongArc, sweepOf } from './extent.js';
import { type Carry, carryPoint, carryRun, stay, within } from './pages/carry.js';
import type { Ink, Mark, Run } from './pages/page.js';
import { boxOfText, crosses } from './placing.js';

export interface FlatLine {
  readonly points: readonly Point[];
  readonly closed: boolean;
  readonly ink: Ink | undefined;
}
export interface FlatMarks {
  readonly lines: readonly FlatLine[];
  readonly texts: readonly Box[];
}

/** Arcs in pieces of at most 7.5 degrees: a chord leaves its arc by less than a four-hundredth of the radius. */
const pointsOf = (run: Run): readonly Point[] => {
  const points: Point[] = [run.start];
  let from = run.start;
  for (const move of run.moves) {
    const count = move.kind === 'line' ? 1 : Math.ceil(sweepOf(from, move) / (Math.PI / 24));
    for (let k = 1; k <= count; k++) points.push(move.kind === 'line' || k === count ? move.to : alongArc(from, move, k / count));
    from = move.to;
  }
  return points;
};

export const flatMarks = (marks: readonly Mark[], carry: Carry = stay): FlatMarks => {
  const [lines, texts]: [FlatLine[], Box[]] = [[], []];
  for (const mark of marks) {
    if (mark.kind === 'path') {
      for (const run of mark.runs) lines.push({ points: pointsOf(carryRun(carry, run)), closed: run.closed, ink: mark.ink });
    } else if (mark.kind === 'text') {
      const { text, anchor = 'start', turn = 0 } = mark;
      const size = mark.size * carry.scale;
      const turned = turn + Math.atan2(carry.sin, carry.cos);
      const stands = carryPoint(carry, mark.at);
      // A mark's letters stand at its place; a placed text is known by its middle.
      const at = { x: stands.x - Math.sin(turned) * size * 0.36, y: stands.y + Math.cos(turned) * size * 0.36 };
      texts.push(boxOfText({ text, at, height: size, turn: turned, anchor, layer: 'label', feature: undefined }));
    } else {
      const inner = flatMarks(mark.marks, within(carry, mark));
      lines.push(...inner.lines);
      texts.push(...inner.texts);
    }
  }
  return { lines, texts };
};

const sidesOf = ({ points, closed }: FlatLine): readonly (readonly [Point, Point])[] =>
  points.flatMap((point, index) => {
    const next = points[index + 1] ?? (closed ? points[0] : undefined);
    return next === undefined ? [] : [[point, next] as const];
  });

/** Whether anything is drawn or written in a box. */
export const drawnIn = ({ lines, texts }: FlatMarks, box: Box): boolean =>
  texts.some(({ min, max }) => min.x <= box.max.x && max.x >= box.min.x && min.y <= box.max.y && max.y >= box.min.y) ||
  lines.some((line) => sidesOf(line).some(([from, to]) => crosses(box, from, to)));

/** Whether a point lies within an odd number of closed lines of a width: on the material, not in a hole of it. */
export const onMaterial = ({ lines }: FlatMarks, width: number, { x, y }: Point): boolean => {
  let inside = false;
  for (const line of lines) {
    if (!line.closed || line.ink?.width !== width) continue;
    for (const [a, b] of sidesOf(line)) if (a.y > y !== b.y > y && a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y) > x) inside = !inside;
  }
  return inside;
};
