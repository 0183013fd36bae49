/** An edge parted into the stretches that its chains take and the cut edge between them. */
import type { Point } from '../shape/path.js';
import { bendReliefWidth } from '../trade/spacing.js';
import { dot, type EdgeChain, type Job, remark, sayBoth } from './tree.js';

export interface Piece {
  /** Along the walk, from the edge's first corner. */
  readonly from: number;
  readonly to: number;
  readonly chain: EdgeChain | undefined;
}
interface Edge {
  readonly from: Point;
  readonly along: Point;
  readonly length: number;
  readonly origin: Point;
  readonly growing: 1 | -1;
}

/**
 * The pieces of an edge in walking order. Where a flange ends part-way along, a slit in the cut edge beside it frees its bend, so a piece of cut edge must be
 * wide enough for the slits at its ends.
 */
export const piecesOf = (job: Job, chains: readonly EdgeChain[], edge: Edge): readonly Piece[] => {
  const taken = chains.map((chain) => stretchOf(edge, chain)).sort((a, b) => a.from - b.from);
  const slit = bendReliefWidth(job.thickness).distance;
  const pieces: Piece[] = [];
  let at = 0;
  for (const piece of taken) {
    if (!fits(job, edge, piece, at, slit, pieces.length > 0)) continue;
    if (piece.from > at) pieces.push({ from: at, to: piece.from, chain: undefined });
    pieces.push(piece);
    at = piece.to;
  }
  if (at < edge.length) pieces.push({ from: at, to: edge.length, chain: undefined });
  return pieces;
};

const stretchOf = (edge: Edge, chain: EdgeChain): Piece => {
  const first = dot({ x: edge.from.x - edge.origin.x, y: edge.from.y - edge.origin.y }, edge.along);
  const walked = (place: number): number => tidy(edge.growing * place - first, edge.length);
  const ends = [chain.from === undefined ? undefined : walked(chain.from), chain.to === undefined ? undefined : walked(chain.to)];
  const [from, to] = edge.growing === 1 ? ends : [ends[1], ends[0]];
  return { from: from ?? 0, to: to ?? edge.length, chain };
};

/** A stretch meant to reach the edge's end reaches it exactly. */
const tidy = (place: number, length: number): number => (Math.abs(place) < 1e-6 ? 0 : Math.abs(place - length) < 1e-6 ? length : place);

const fits = (job: Job, edge: Edge, piece: Piece, at: number, slit: number, follows: boolean): boolean => {
  const chain = piece.chain as EdgeChain;
  const { say } = job.words;
  const name = chain.edge === 'free' ? 'the free edge' : chain.edge;
  if (piece.from < -1e-6 || piece.to > edge.length + 1e-6 || piece.to - piece.from < 1e-6) {
    remark(
      job,
      'bend/stretch-off-the-edge',
      chain.span,
      `this stretch does not lie on ${name}, which is ${say(edge.length)} long; its \`from\` must be less than its \`to\`, both on the edge`,
    );
    return false;
  }
  const least = follows ? 2 * slit : slit;
  const room = piece.from - at;
  if (room < -1e-6 && chain.from === undefined && chain.to === undefined) {
    remark(
      job,
      'bend/stretch-off-the-edge',
      chain.span,
      `${name} has its bends already: write these into the same braces, one after the other from the base outward, or give each its stretch with \`from … to …\``,
    );
    return false;
  }
  if (room < -1e-6 || (follows && room < 1e-6)) {
    remark(
      job,
      'bend/stretch-off-the-edge',
      chain.span,
      `this stretch runs into another piece on ${name}; leave ${say(least)} or more between them for the slits that free the bends`,
    );
    return false;
  }
  const last = edge.length - piece.to;
  const narrow = room > 0 && room <= least ? room : last > 0 && last <= slit ? last : undefined;
  if (narrow !== undefined) {
    const [left, wanted] = sayBoth(job, narrow, slit);
    remark(
      job,
      'bend/stretch-off-the-edge',
      chain.span,
      `${left} of ${name} is left beside this flange, too little for the slit of ${wanted} that frees its bend; run it to the end or leave more`,
    );
    return false;
  }
  return true;
};
