/** Copies of beads: moved by a repeat, mirrored by an `opposite`, numbered at the end. The path stays as it was written; where a copy lies is kept beside it. */
import type { Span } from '../../grammar/syntax.js';
import type { Bead, XY } from './part.js';
import type { PartWork, PendingBead } from './work.js';

export const notCopied: Bead['copy'] = { mirrorX: false, mirrorY: false, shift: { x: 0, y: 0 } };

/** A point of the path as written, where this copy has it. */
export const placeCopy = (copy: Bead['copy'], at: XY): XY => ({
  x: (copy.mirrorX ? -at.x : at.x) + copy.shift.x,
  y: (copy.mirrorY ? -at.y : at.y) + copy.shift.y,
});

/** Moves every bead from the given one on. */
export const moveBeads = (work: PartWork, from: number, by: XY): void => {
  for (let i = from; i < work.beads.length; i++) {
    const bead = work.beads[i];
    if (bead === undefined) continue;
    const { shift } = bead.copy;
    work.beads[i] = { ...bead, copy: { ...bead.copy, shift: { x: shift.x + by.x, y: shift.y + by.y } } };
  }
};

/**
 * A bead seen in a mirror that stands at `at`, mm; `NAME.opposite`.
 *
 * @param across `x`: the mirror line stands upright at x = at; `y`: it lies level at y = at
 */
export const mirroredBead = (bead: PendingBead, across: 'x' | 'y', at: number): PendingBead => {
  const { mirrorX, mirrorY, shift } = bead.copy;
  const copy =
    across === 'x'
      ? { mirrorX: !mirrorX, mirrorY, shift: { x: 2 * at - shift.x, y: shift.y } }
      : { mirrorX, mirrorY: !mirrorY, shift: { x: shift.x, y: 2 * at - shift.y } };
  return { ...bead, id: `${bead.id}.opposite`, copy };
};

/** The middle of what the path's own points span; undefined where the path is set out from the outline's edges. */
export const middleOf = (bead: Bead): XY | undefined => {
  const points = writtenPoints(bead);
  if (points.length === 0) return undefined;
  const placed = points.map((point) => placeCopy(bead.copy, point));
  const xs = placed.map((point) => point.x);
  const ys = placed.map((point) => point.y);
  return { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 };
};
const writtenPoints = ({ path }: Bead): readonly XY[] => {
  switch (path.kind) {
    case 'line':
      return [path.from.value, path.to.value];
    case 'path':
      return path.points.map((point) => point.value);
    case 'arc':
      return [path.from.value, path.through.value, path.to.value];
    case 'circle':
      return [path.centre.value];
    default:
      return [];
  }
};

/** Beads with their ids: a name once as it is, several times with numbers, in a mirror with `opposite` after it. */
export const settleBeads = (work: PartWork): readonly Bead[] => {
  const total = new Map<string, number>();
  for (const bead of work.beads) total.set(bead.id, (total.get(bead.id) ?? 0) + 1);
  const first = new Map<string, Span>();
  const counted = new Map<string, number>();
  return work.beads.map(({ statement: _, ...bead }) => {
    const from = first.get(bead.id);
    if (from === undefined) first.set(bead.id, bead.nameSpan);
    else if (from.start !== bead.nameSpan.start) {
      work.reading.sink.report(
        work.absolute(bead.nameSpan),
        'name/repeated',
        `${bead.id} already names another feature of this part. Give this one another name.`,
      );
    }
    const n = (counted.get(bead.id) ?? 0) + 1;
    counted.set(bead.id, n);
    return total.get(bead.id) === 1 ? bead : { ...bead, id: numbered(bead.id, n) };
  });
};
/** `rib` is `rib.2`, and its copy in a mirror `rib.2.opposite`. */
const numbered = (id: string, n: number): string => {
  const [name = id, ...mirrors] = id.split('.');
  return [name, String(n), ...mirrors].join('.');
};
