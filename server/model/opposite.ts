/** Features kept and added again as in a mirror. */
import type { Statement } from '../../grammar/syntax.js';
import { lengthField, wordField } from './arguments.js';
import { mirroredBead } from './bead-copies.js';
import { tooMany } from './cuts.js';
import type { CutShape, Outline, OutlineEdge, XY } from './part.js';
import { readingOfBlock } from './scopes.js';
import type { FlangeIds } from './stepIds.js';
import { type Mirror, mostFeatures, type PartWork, withReading } from './work.js';

/** Reads `opposite across x = 15 { … }`. `each` reads a statement that may stand there. */
export const readOpposite = (statement: Statement, work: PartWork, each: (inner: Statement, work: PartWork) => void): void => {
  const across = wordField(statement, 'across');
  const at = lengthField(work, statement, 'at', 'Where the mirror line stands', 'any');
  const statements = statement.block?.statements ?? [];
  const inner = withReading(work, readingOfBlock(statements, work.reading));
  const [cuts, beads] = [work.cuts.length, work.beads.length];
  for (const row of statements) each(row, inner);
  if (at === undefined || (across !== 'x' && across !== 'y')) {
    work.fail();
    return;
  }
  if (2 * (work.cuts.length + work.beads.length) - cuts - beads > mostFeatures) {
    tooMany(statement, work);
    return;
  }
  const mirror: Mirror = { across, at };
  for (const cut of work.cuts.slice(cuts)) {
    work.cuts.push({ ...cut, ...mirrored(cut, mirror), self: {}, mirror: { ...mirror, of: cut.self } });
  }
  for (const bead of work.beads.slice(beads)) work.beads.push(mirroredBead(bead, across, at));
};

const flip = ({ x, y }: XY, across: Mirror['across']): XY => (across === 'x' ? { x: -x, y } : { x, y: -y });

interface Placed {
  readonly shape: CutShape;
  readonly at: XY;
  readonly turned: number;
}
/** A cut in a mirror: its turn the other way round, its arcs too. */
export const mirrored = ({ shape, at, turned }: Placed, { across, at: line }: Mirror): Placed => ({
  shape:
    shape.kind === 'drawn'
      ? { ...shape, start: flip(shape.start, across), edges: shape.edges.map((edge) => flipEdge(edge, across)) }
      : shape,
  at: across === 'x' ? { x: 2 * line - at.x, y: at.y } : { x: at.x, y: 2 * line - at.y },
  turned: turned === 0 ? 0 : -turned,
});
const flipEdge = (edge: OutlineEdge, across: Mirror['across']): OutlineEdge => ({
  ...edge,
  to: flip(edge.to, across),
  arc: edge.arc === undefined ? undefined : { centre: flip(edge.arc.centre, across), turn: edge.arc.turn === 'left' ? 'right' : 'left' },
});

/** What lies on a flange, seen in the panel's mirror. */
export type MirroredFace =
  /** The same face; in its own coordinates the mirror stands across x. */
  | { readonly kind: 'along' }
  /** The flange of the other edge, at the same place in its own coordinates. */
  | { readonly kind: 'other'; readonly id: string }
  | { readonly kind: 'none'; readonly why: string };

const facing: Readonly<Record<string, string>> = { left: 'right', right: 'left', top: 'bottom', bottom: 'top' };

/** Where a feature on the step `id` comes to lie in a mirror. Its own x runs along the edge, as the panel's x or y does. */
export const mirroredFace = (id: string, mirror: Mirror, outline: Outline | undefined, flanges: FlangeIds): MirroredFace => {
  const place = flanges.places.get(id);
  const other = place === undefined ? undefined : facing[place.edge];
  if (place === undefined || other === undefined || outline === undefined || !outline.rectangle) {
    const where = place === undefined ? 'a flange that stands on another flange' : 'the edge of a drawn outline';
    return {
      kind: 'none',
      why: `${id} is on ${where}, and which flange faces it is not told. Write the other one out, with its own place.`,
    };
  }
  const runsAlongX = place.edge === 'top' || place.edge === 'bottom';
  if (runsAlongX === (mirror.across === 'x')) return { kind: 'along' };
  const middle = (runsAlongX ? outline.edges[1]?.to.y : outline.edges[0]?.to.x) ?? 0;
  if (Math.abs(middle / 2 - mirror.at) > 0.001) {
    return {
      kind: 'none',
      why: `the mirror line is not in the middle of the panel, so ${place.edge} is not seen in ${other}. Put it in the middle, or write the other one out.`,
    };
  }
  const there = flanges.ids.get(`${other}.${place.nth}`);
  return there === undefined
    ? { kind: 'none', why: `edge ${other} has no flange ${place.nth} to lie on. Turn one there, or write this outside the braces.` }
    : { kind: 'other', id: there };
};
