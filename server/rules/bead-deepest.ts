/** The deepest place at which a roller reaches a bead: in words, and as a change of the numbers in the text. */
import type { Fix } from '../../grammar/syntax.js';
import { sayRounded } from '../bead/index.js';
import type { DeepestPlace, Reach, WorkedBead } from '../bead/types.js';
import type { BeadPath, Panel, WrittenPoint } from '../model/part.js';
import { writtenBead } from './beads-asked.js';
import type { Question } from './rule.js';
import { lengthTolerance } from './subject.js';

/** `it fits when it is moved 3 in toward the bottom`; undefined where no change near by does. */
export const deepestWords = (part: Panel, bead: WorkedBead, { deepest }: Reach, question: Question): string | undefined => {
  const written = insetOf(part, bead);
  if (deepest === undefined) return undefined;
  if (deepest.kind === 'inset')
    return `it fits when it is set in by ${sayRounded(question, deepest.value, deepest.value < written ? 'down' : 'up')}`;
  const { dx, dy } = deepest;
  // Rounded up, so that what is typed fits; a part of it that no rule shows is left out.
  const step = (by: number, other: number, way: string): readonly string[] =>
    Math.abs(by) <= lengthTolerance || Math.abs(by) < UNSEEN * Math.abs(other)
      ? []
      : [`${sayRounded(question, Math.abs(by), 'up')} toward the ${way}`];
  const steps = [...step(dx, dy, dx < 0 ? 'left' : 'right'), ...step(dy, dx, dy < 0 ? 'bottom' : 'top')];
  return steps.length === 0 ? undefined : `it fits when it is moved ${steps.join(' and ')}`;
};

/** Of a shift, a part along an axis less than this share of the other turns it by less than anybody marks. */
const UNSEEN = 0.002;

const insetOf = (part: Panel, bead: WorkedBead): number => {
  const path = writtenBead(part, bead.id)?.path;
  return path?.kind === 'rectangle' || path?.kind === 'along' ? path.inset.value : 0;
};

const alike = (a: DeepestPlace | undefined, b: DeepestPlace | undefined): boolean =>
  a !== undefined &&
  b !== undefined &&
  (a.kind === 'inset'
    ? b.kind === 'inset' && Math.abs(a.value - b.value) < lengthTolerance
    : b.kind === 'shift' && Math.abs(a.dx - b.dx) < lengthTolerance && Math.abs(a.dy - b.dy) < lengthTolerance);

/** Writes the deepest place over the numbers as they stand: only where they are plain numbers, and where one change serves every copy that does not fit. */
export const deepestFix = (
  part: Panel,
  bead: WorkedBead,
  { deepest }: Reach,
  blocked: readonly { readonly reach: Reach }[],
  { write }: Question,
): Fix | undefined => {
  const path = writtenBead(part, bead.id)?.path;
  if (deepest === undefined || path === undefined || !blocked.every(({ reach }) => alike(reach.deepest, deepest))) return undefined;
  if (deepest.kind === 'inset') {
    if ((path.kind !== 'rectangle' && path.kind !== 'along') || path.inset.plain !== true) return undefined;
    const text = write(deepest.value, deepest.value < path.inset.value ? 'down' : 'up');
    return { title: `Set it in by ${text}`, edits: [{ span: path.inset.span, text }] };
  }
  const edits: { span: Fix['edits'][number]['span']; text: string }[] = [];
  for (const point of pointsOf(path)) {
    for (const [axis, by] of [
      ['x', deepest.dx],
      ['y', deepest.dy],
    ] as const) {
      if (Math.abs(by) <= lengthTolerance) continue;
      const span = point.plain?.[axis];
      if (span === undefined) return undefined;
      edits.push({ span, text: write(point.value[axis] + by, by < 0 ? 'down' : 'up') });
    }
  }
  return edits.length === 0 ? undefined : { title: 'Move it to the deepest place that fits', edits };
};

const pointsOf = (path: BeadPath): readonly WrittenPoint[] => {
  switch (path.kind) {
    case 'line':
      return [path.from, path.to];
    case 'path':
      return path.points;
    case 'arc':
      return [path.from, path.through, path.to];
    case 'circle':
      return [path.centre];
    case 'rectangle':
    case 'along':
      return [];
  }
};
