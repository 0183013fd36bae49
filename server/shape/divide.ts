/** A sheet with holes divided along straight lines, true arcs kept. Pieces that meet along a line share its ends, so that nothing gapes between them. */
import { apart, holdsDirection, radiusOf } from './arcs.js';
import { pointInLoop } from './inside.js';
import { boundingBox, signedArea } from './loops.js';
import { lineMeetsCircle } from './meetings.js';
import type { Loop, Move, Point } from './path.js';

/** A line to divide along, and what lies on its two sides. It goes no further than the sheet's edge, and on to it when an end lies within the sheet. */
export interface Division {
  readonly from: Point;
  readonly to: Point;
  readonly left: string | undefined;
  readonly right: string | undefined;
}
/** One side of a piece: where it runs, the numbers of its two ends, and whether it is an edge of the sheet or one of the dividing lines. */
export interface PieceSide {
  readonly from: number;
  readonly to: number;
  readonly move: Move;
  readonly cut: boolean;
}
export interface Piece {
  /** What its dividing lines call it; undefined where none names it. */
  readonly name: string | undefined;
  /** Anticlockwise. */
  readonly outer: readonly PieceSide[];
  /** Clockwise. */
  readonly holes: readonly (readonly PieceSide[])[];
}
export interface Divided {
  /** Every corner by number. */
  readonly points: readonly Point[];
  readonly pieces: readonly Piece[];
}

interface Edge {
  readonly from: number;
  readonly to: number;
  readonly move: Move;
  /** Name of the piece on the left; edges of the sheet have none. */
  name: string | undefined;
  readonly cut: boolean;
}
interface Work {
  readonly points: Point[];
  /** Sides of the sheet with the material on the left, and each dividing line once for either way. */
  readonly edges: (Edge | undefined)[];
  readonly loops: readonly Loop[];
}
interface Hit {
  readonly t: number;
  readonly corner: number | undefined;
  readonly edge: number;
  readonly at: Point;
}

/** Places nearer to one another than this (mm) are one. */
const NEAR = 1e-6;

/**
 * The pieces that dividing lines make of a sheet.
 *
 * @param outline anticlockwise; `holes` clockwise and within it
 */
export const divide = (outline: Loop, holes: readonly Loop[], divisions: readonly Division[]): Divided => {
  const free = holes.filter((hole) => clearOfAll(hole, divisions));
  const work: Work = { points: [], edges: [], loops: [outline, ...holes.filter((hole) => !free.includes(hole))] };
  for (const loop of work.loops) addLoop(work, loop);
  for (const division of divisions) cutAlong(work, division);
  for (const loop of free) addLoop(work, loop);
  return { points: work.points, pieces: trace(work) };
};

export const loopOf = (sides: readonly PieceSide[]): Loop => sides.map(({ move }) => move);

/** Most holes lie to one side of every line, wherever the lines may end. */
const clearOfAll = (hole: Loop, divisions: readonly Division[]): boolean => {
  const { min, max } = boundingBox(hole);
  const middle = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 };
  const [half, rise] = [(max.x - min.x) / 2, (max.y - min.y) / 2];
  return divisions.every(({ from, to }) => {
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    const off = Math.abs((middle.y - from.y) * dx - (middle.x - from.x) * dy);
    return off > Math.abs(dx) * rise + Math.abs(dy) * half + NEAR * (Math.abs(dx) + Math.abs(dy));
  });
};

const addLoop = ({ points, edges }: Work, loop: Loop): void => {
  const first = points.length;
  for (const move of loop) points.push(move.to);
  for (let i = 0; i < loop.length; i++) {
    edges.push({ from: first + ((i + loop.length - 1) % loop.length), to: first + i, move: loop[i] as Move, name: undefined, cut: false });
  }
};

const cutAlong = (work: Work, division: Division): void => {
  const { from, to } = division;
  const length = apart(from, to);
  if (length < NEAR) return;
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const hits = hitsOf(work, from, along);
  for (let i = 0; i + 1 < hits.length; i++) {
    const a = hits[i] as Hit;
    const b = hits[i + 1] as Hit;
    if (Math.min(b.t, length) - Math.max(a.t, 0) < NEAR) continue;
    const t = (a.t + b.t) / 2;
    if (runsAlong(work, a, b) || !holdsMaterial(work, { x: from.x + along.x * t, y: from.y + along.y * t })) continue;
    link(work, cornerOf(work, hits, i), cornerOf(work, hits, i + 1), division);
  }
};

/** Where an endless line meets the sheet's edges, in order along it. */
const hitsOf = ({ points, edges }: Work, at: Point, along: Point): Hit[] => {
  const offs = points.map((p) => (p.y - at.y) * along.x - (p.x - at.x) * along.y);
  const where = (p: Point): number => (p.x - at.x) * along.x + (p.y - at.y) * along.y;
  const hits: Hit[] = [];
  for (let corner = 0; corner < points.length; corner++) {
    const p = points[corner] as Point;
    if (Math.abs(offs[corner] as number) <= NEAR) hits.push({ t: where(p), corner, edge: -1, at: p });
  }
  for (let index = 0; index < edges.length; index++) {
    const edge = edges[index];
    if (edge === undefined || edge.cut) continue;
    const a = points[edge.from] as Point;
    const b = points[edge.to] as Point;
    const offA = offs[edge.from] as number;
    const offB = offs[edge.to] as number;
    if (edge.move.kind === 'line') {
      if (Math.abs(offA) <= NEAR || Math.abs(offB) <= NEAR || offA > 0 === offB > 0) continue;
      const s = offA / (offA - offB);
      const p = { x: a.x + (b.x - a.x) * s, y: a.y + (b.y - a.y) * s };
      hits.push({ t: where(p), corner: undefined, edge: index, at: p });
      continue;
    }
    const { move } = edge;
    for (const p of lineMeetsCircle({ at, along }, { centre: move.centre, radius: radiusOf(a, move) })) {
      if (apart(p, a) <= NEAR || apart(p, b) <= NEAR) continue;
      if (holdsDirection(a, move, Math.atan2(p.y - move.centre.y, p.x - move.centre.x)))
        hits.push({ t: where(p), corner: undefined, edge: index, at: p });
    }
  }
  hits.sort((p, q) => p.t - q.t);
  return hits.filter((hit, i) => {
    const before = hits[i - 1];
    return before === undefined || hit.t - before.t > NEAR;
  });
};

const runsAlong = ({ edges }: Work, a: Hit, b: Hit): boolean =>
  a.corner !== undefined &&
  b.corner !== undefined &&
  edges.some(
    (edge) =>
      edge?.cut === false &&
      edge.move.kind === 'line' &&
      ((edge.from === a.corner && edge.to === b.corner) || (edge.from === b.corner && edge.to === a.corner)),
  );

const holdsMaterial = ({ loops }: Work, p: Point): boolean => {
  let inside = false;
  for (const loop of loops) if (pointInLoop(p, loop)) inside = !inside;
  return inside;
};

/** The number of the corner at a hit; an edge that is hit between its ends becomes two. */
const cornerOf = (work: Work, hits: Hit[], index: number): number => {
  const hit = hits[index] as Hit;
  if (hit.corner !== undefined) return hit.corner;
  const edge = work.edges[hit.edge] as Edge;
  const corner = work.points.push(hit.at) - 1;
  work.edges[hit.edge] = { ...edge, to: corner, move: { ...edge.move, to: hit.at } };
  const rest = work.edges.push({ ...edge, from: corner }) - 1;
  hits[index] = { ...hit, corner };
  // An arc can be hit twice: what lies beyond the new corner is on the other half.
  for (let i = 0; i < hits.length; i++) {
    const other = hits[i] as Hit;
    if (other.corner === undefined && other.edge === hit.edge && edge.move.kind === 'arc') {
      const first = work.edges[hit.edge] as Edge;
      const on = holdsDirection(
        work.points[first.from] as Point,
        first.move as Extract<Move, { kind: 'arc' }>,
        Math.atan2(other.at.y - edge.move.centre.y, other.at.x - edge.move.centre.x),
      );
      if (!on) hits[i] = { ...other, edge: rest };
    }
  }
  return corner;
};

const link = ({ points, edges }: Work, a: number, b: number, { left, right }: Division): void => {
  const there = edges.find((edge) => edge?.cut === true && edge.from === a && edge.to === b);
  const back = edges.find((edge) => edge?.cut === true && edge.from === b && edge.to === a);
  if (there !== undefined && back !== undefined) {
    there.name ??= left;
    back.name ??= right;
    return;
  }
  edges.push({ from: a, to: b, move: { kind: 'line', to: points[b] as Point }, name: left, cut: true });
  edges.push({ from: b, to: a, move: { kind: 'line', to: points[a] as Point }, name: right, cut: true });
};

const trace = ({ points, edges }: Work): readonly Piece[] => {
  const leaving = new Map<number, Edge[]>();
  for (const edge of edges) {
    if (edge === undefined) continue;
    const list = leaving.get(edge.from);
    if (list === undefined) leaving.set(edge.from, [edge]);
    else list.push(edge);
  }
  const done = new Set<Edge>();
  const outers: { readonly sides: readonly Edge[]; readonly name: string | undefined; readonly holes: (readonly Edge[])[] }[] = [];
  const inners: (readonly Edge[])[] = [];
  for (const start of edges) {
    if (start === undefined || done.has(start)) continue;
    const sides: Edge[] = [];
    for (let edge: Edge | undefined = start; edge !== undefined && !done.has(edge); edge = following(points, leaving, edge)) {
      done.add(edge);
      sides.push(edge);
    }
    const area = signedArea(loopOf(sides));
    if (area > 0) outers.push({ sides, name: sides.find(({ name }) => name !== undefined)?.name, holes: [] });
    else if (sides.length > 1) inners.push(sides);
  }
  const around =
    inners.length === 0 ? [] : outers.map((piece) => ({ piece, loop: loopOf(piece.sides), box: boundingBox(loopOf(piece.sides)) }));
  for (const hole of inners) {
    const p = points[(hole[0] as Edge).to] as Point;
    const holds = ({ loop, box: { min, max } }: (typeof around)[number]): boolean =>
      p.x > min.x && p.x < max.x && p.y > min.y && p.y < max.y && pointInLoop(p, loop);
    around.find(holds)?.piece.holes.push(hole);
  }
  return outers.map(({ sides, name, holes }) => ({ name, outer: sides, holes }));
};

/** The sharpest left turn at the end of an edge. */
const following = (points: readonly Point[], leaving: ReadonlyMap<number, readonly Edge[]>, edge: Edge): Edge | undefined => {
  const choices = leaving.get(edge.to) ?? [];
  if (choices.length < 2) return choices[0];
  const at = points[edge.to] as Point;
  const back = headingBack(points[edge.from] as Point, edge.move);
  let best: Edge | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const next of choices) {
    if (next.to === edge.from && next.cut && edge.cut) continue;
    let turned = back - heading(at, next.move);
    // An arc's heading may lie more than half a turn either way.
    while (turned <= 1e-12) turned += 2 * Math.PI;
    while (turned > 2 * Math.PI + 1e-12) turned -= 2 * Math.PI;
    if (turned < least) {
      least = turned;
      best = next;
    }
  }
  return best;
};

const heading = (from: Point, move: Move): number => {
  if (move.kind === 'line') return Math.atan2(move.to.y - from.y, move.to.x - from.x);
  const out = Math.atan2(from.y - move.centre.y, from.x - move.centre.x);
  return move.turn === 'left' ? out + Math.PI / 2 : out - Math.PI / 2;
};
/** From the end of a move back along it. */
const headingBack = (from: Point, move: Move): number => {
  if (move.kind === 'line') return Math.atan2(from.y - move.to.y, from.x - move.to.x);
  return heading(move.to, { ...move, to: from, turn: move.turn === 'left' ? 'right' : 'left' });
};
