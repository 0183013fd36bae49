import type { Fix } from '../../grammar/syntax.js';
import type { DeepestPlace, Reach, WorkedBead } from '../bead/types.js';
import type { Panel } from '../model/part.js';
import { beadFeature, byStatement, onAPanel, placeWords, rolled, writtenBead } from './beads-asked.js';
import type { Question, Rule } from './rule.js';
import { lengthTolerance, nothingSaid, speak } from './subject.js';

export const beadOutOfReach: Rule = {
  name: 'bead/out-of-reach',
  severity: 'error',
  what: 'No roller of the shop reaches all of a bead: at some place the sheet between the dies and the frame is wider than the throat, from whichever side the frame stands.',
  why: 'The sheet comes up against the frame before the bead is where it should be. The fix writes the number of the deepest place that fits.',
  example: onAPanel('bead rib { die half_round_3_8  up  line from (8, 12) to (28, 12) } // error: bead/out-of-reach'),
  cure: onAPanel('bead rib { die half_round_3_8  up  line from (8, 8) to (28, 8) }'),
  source: 'Plane geometry: the farthest sheet within the width of the frame, square to the track.',
  check: (subject) => {
    const ready = rolled(subject);
    if (ready === undefined) return nothingSaid;
    return byStatement(ready.beads.beads).flatMap((copies) => {
      const blocked = copies.flatMap((bead) => {
        const reach = bead.reaches[0];
        return reach === undefined || bead.reaches.some(({ fits }) => fits) ? [] : [{ bead, reach }];
      });
      const worst = [...blocked].sort((a, b) => b.reach.needed - b.reach.throat - (a.reach.needed - a.reach.throat))[0];
      if (worst === undefined) return nothingSaid;
      const { bead, reach } = worst;
      const [needs, has] = subject.sayBoth(reach.needed, reach.throat);
      const which =
        bead.reaches.length > 1 ? `no roller here reaches it, not even ${reach.roller.name}` : `${reach.roller.name} does not reach it`;
      const moved = deepestWords(reach.deepest, insetOf(ready.part, bead), subject);
      const message = `${which}: near ${placeWords(subject, ready, reach.worst.at)} ${bead.id} has ${needs} of sheet between the dies and the frame, whichever way it is fed, and the throat is ${has}${moved === undefined ? '; put it nearer to an edge, roll it before the sheet is cut wide, or press it another way' : `: ${moved}`}`;
      const fix = fixOf(ready.part, bead, reach, blocked, subject);
      return [
        speak(subject, beadOutOfReach, bead.pathSpan, message, {
          features: blocked.map((each) => beadFeature(each.bead.id)),
          fixes: fix === undefined ? [] : [fix],
        }),
      ];
    });
  },
};

const deepestWords = (deepest: DeepestPlace | undefined, written: number, { say, write }: Question): string | undefined => {
  if (deepest === undefined) return undefined;
  if (deepest.kind === 'inset') return `it fits when it is set in by ${write(deepest.value, deepest.value < written ? 'down' : 'up')}`;
  const steps = [
    ...(Math.abs(deepest.dx) > lengthTolerance ? [`${say(Math.abs(deepest.dx))} to the ${deepest.dx < 0 ? 'left' : 'right'}`] : []),
    ...(Math.abs(deepest.dy) > lengthTolerance ? [`${say(Math.abs(deepest.dy))} ${deepest.dy < 0 ? 'down' : 'up'}`] : []),
  ];
  return steps.length === 0 ? undefined : `it fits when it is moved ${steps.join(' and ')}`;
};

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
const fixOf = (
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
  if (path.kind !== 'line') return undefined;
  const edits: { span: Fix['edits'][number]['span']; text: string }[] = [];
  for (const point of [path.from, path.to]) {
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
