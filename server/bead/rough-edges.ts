/** The outline to cut before beads are rolled: each straight edge set out by the most that any place of it is drawn in. */
import { apart } from '../shape/arcs.js';
import { boundingBox } from '../shape/loops.js';
import { linesMeet } from '../shape/meetings.js';
import type { Box, Loop, Move, Point } from '../shape/path.js';
import { type Axis, beforeRolling, type Drawing, levelsOf } from './crossings.js';
import { ahead, cross, dot, leftOf, startDirection } from './path.js';
import type { Bow } from './types.js';

/** Rims are looked at from this little within the sheet, mm. */
const WITHIN = 1e-4;
/** Bows less than this are straight, mm. */
const STRAIGHT = 0.01;

/** An edge and how far its places lie out before rolling, square to it. Round edges are here only when they are tipped. */
export interface EdgeShift {
  readonly from: Point;
  readonly to: Point;
  /** Outward at the start and at the end; alike on a straight edge. */
  readonly out: Point;
  readonly outAtEnd: Point;
  readonly round: boolean;
  readonly most: number;
  readonly least: number;
  readonly places: readonly { readonly at: Point; readonly by: number }[];
}

/** @param tipped sheet beyond the finished outline, by edge feature (`edge:top`) */
export const edgeShifts = (
  outline: Loop,
  drawing: Drawing,
  tipped: ReadonlyMap<string, TippedSheet>,
): readonly (EdgeShift | undefined)[] => {
  const levels = { x: levelsOf('x', drawing), y: levelsOf('y', drawing) };
  return outline.map((move, i) => {
    const from = (outline[(i + outline.length - 1) % outline.length] as Move).to;
    const tip = move.id === undefined ? undefined : tipped.get(move.id)?.added;
    if (move.kind === 'arc') return tip === undefined ? undefined : roundShift(from, move, tip);
    return apart(from, move.to) < 1e-9 ? undefined : shiftOf(from, move.to, drawing, levels, tip ?? 0);
  });
};

/** A round edge is set out by its tip alone; what beads take of it goes with its corners. */
const roundShift = (from: Point, move: Move, tip: number): EdgeShift => {
  const outward = (along: Point): Point => ({ x: along.y, y: -along.x });
  const out = outward(startDirection(from, move));
  return { from, to: move.to, out, outAtEnd: outward(directionAtEnd(from, move)), round: true, most: tip, least: tip, places: [] };
};

const shiftOf = (from: Point, to: Point, drawing: Drawing, levels: Readonly<Record<Axis, readonly number[]>>, tip: number): EdgeShift => {
  const length = apart(from, to);
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const inward = leftOf(along);
  const out = { x: -inward.x, y: -inward.y };
  const places = eventsAlong(from, along, length, levels).map((s) => {
    const at = ahead(from, along, s);
    return { at, by: tip + dot(beforeRolling(drawing, ahead(at, inward, WITHIN)), out) };
  });
  let most = Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  for (const { by } of places) {
    most = Math.max(most, by);
    least = Math.min(least, by);
  }
  return { from, to, out, outAtEnd: out, round: false, most, least, places };
};

const eventsAlong = (from: Point, along: Point, length: number, levels: Readonly<Record<Axis, readonly number[]>>): readonly number[] => {
  const events = [0, length];
  const add = (s: number): void => {
    if (s > 0 && s < length) events.push(s);
  };
  // Rows run along x and are told apart by y; where the edge lies along them they don't cross it.
  if (Math.abs(along.y) > 1e-9) for (const y of levels.x) add((y - from.y) / along.y);
  if (Math.abs(along.x) > 1e-9) for (const x of levels.y) add((x - from.x) / along.x);
  events.sort((a, b) => a - b);
  const places: number[] = [];
  for (let i = 0; i + 1 < events.length; i++) {
    const [a, b] = [events[i] as number, events[i + 1] as number];
    if (b - a < 1e-5) continue;
    // Between two events the count is even or goes one way, so that its ends tell all.
    const inset = Math.min(1e-5, (b - a) / 4);
    places.push(a + inset, b - inset);
  }
  return places;
};

/** How far each corner of the outline (the end of each move) lies out before rolling. */
export const cornerShifts = (outline: Loop, edges: readonly (EdgeShift | undefined)[], drawing: Drawing): readonly Point[] => {
  const count = outline.length;
  const straight = (start: number, step: 1 | -1): EdgeShift | undefined => {
    for (let k = 0; k < count; k++) {
      const edge = edges[(start + step * k + count * count) % count];
      if (edge !== undefined) return edge;
    }
    return undefined;
  };
  return outline.map((_, i) => {
    const before = straight(i, -1);
    const after = straight(i + 1, 1);
    const own = beforeRolling(drawing, pulledIn(outline, i));
    if (before === undefined || after === undefined) return own;
    const out = before.outAtEnd;
    const turn = cross(out, after.out);
    if (Math.abs(turn) > 1e-6) {
      return {
        x: (before.most * after.out.y - after.most * out.y) / turn,
        y: (after.most * out.x - before.most * after.out.x) / turn,
      };
    }
    if (before !== edges[i] || after !== edges[(i + 1) % count]) return own;
    // Two pieces of one straight edge: the farther out decides square to it, the place itself along it.
    const along = leftOf(out);
    return ahead({ x: along.x * dot(own, along), y: along.y * dot(own, along) }, out, Math.max(before.most, after.most));
  });
};

/** A corner seen from within the sheet. */
const pulledIn = (outline: Loop, i: number): Point => {
  const move = outline[i] as Move;
  const from = (outline[(i + outline.length - 1) % outline.length] as Move).to;
  const next = outline[(i + 1) % outline.length] as Move;
  const a = leftOf(directionAtEnd(from, move));
  const b = leftOf(startDirection(move.to, next));
  return ahead(ahead(move.to, a, WITHIN), b, WITHIN);
};

const directionAtEnd = (from: Point, move: Move): Point => {
  const back: Move = move.kind === 'line' ? { ...move, to: from } : { ...move, to: from, turn: move.turn === 'left' ? 'right' : 'left' };
  const turned = startDirection(move.to, back);
  return { x: -turned.x, y: -turned.y };
};

/** Moves between moved ends: straight ones stay straight, round ones keep how far they sweep. */
export const movedMoves = (moves: readonly Move[], start: Point, to: readonly Point[], movedStart: Point): readonly Move[] => {
  let from = start;
  let movedFrom = movedStart;
  return moves.map((move, i): Move => {
    const end = to[i] as Point;
    const moved: Move =
      move.kind === 'line' ? { ...move, to: end } : { ...move, to: end, centre: carried(from, move.to, movedFrom, end, move.centre) };
    from = move.to;
    movedFrom = end;
    return moved;
  });
};

/** The point that lies to the moved ends as `p` lies to the ends. */
const carried = (from: Point, to: Point, movedFrom: Point, movedTo: Point, p: Point): Point => {
  const d = { x: to.x - from.x, y: to.y - from.y };
  const squared = dot(d, d);
  const rest = { x: p.x - from.x, y: p.y - from.y };
  if (squared < 1e-12) return { x: movedFrom.x + rest.x, y: movedFrom.y + rest.y };
  const e = { x: movedTo.x - movedFrom.x, y: movedTo.y - movedFrom.y };
  const real = dot(e, d) / squared;
  const turned = cross(d, e) / squared;
  return { x: movedFrom.x + real * rest.x - turned * rest.y, y: movedFrom.y + turned * rest.x + real * rest.y };
};

/** What a tip needs of the sheet, from its bend's tangent line out. */
export interface TippedSheet {
  readonly added: number; // beyond the finished outline
  readonly beyondTangent: number;
}

/**
 * Corners where two tipped straight edges meet, cut square out to where the two tangent lines cross, so that neither tip lies on the other. The outline's
 * corner is where the two cut edges would meet.
 */
export const notchedCorners = (rough: Loop, tipped: ReadonlyMap<string, TippedSheet>): Loop => {
  const tipOf = (move: Move | undefined): TippedSheet | undefined =>
    move?.kind === 'line' && move.id !== undefined ? tipped.get(move.id) : undefined;
  return rough.flatMap((move, i): readonly Move[] => {
    const next = rough[(i + 1) % rough.length] as Move;
    const before = tipOf(move);
    const after = tipOf(next);
    if (before === undefined || after === undefined) return [move];
    const from = (rough[(i + rough.length - 1) % rough.length] as Move).to;
    const a = startDirection(from, move);
    const b = startDirection(move.to, next);
    const own = { at: move.to, along: a };
    const other = { at: move.to, along: b };
    const ownTangent = { at: ahead(move.to, leftOf(a), before.beyondTangent), along: a };
    const otherTangent = { at: ahead(move.to, leftOf(b), after.beyondTangent), along: b };
    const points = [linesMeet(own, otherTangent), linesMeet(ownTangent, otherTangent), linesMeet(ownTangent, other)];
    // A corner that turns in needs no notch: the tips draw apart there.
    if (cross(a, b) < 1e-6 || points.some((p) => p === undefined)) return [move];
    const [first, inner, last] = points as [Point, Point, Point];
    return [
      { ...move, to: first },
      { kind: 'line', to: inner },
      { kind: 'line', to: last },
    ];
  });
};

/** Edges that do not lie straight after rolling, as cut straight. */
export const bowsOf = (outline: Loop, edges: readonly (EdgeShift | undefined)[]): readonly Bow[] => {
  const extent = boundingBox(outline);
  return edges.flatMap((edge, i): readonly Bow[] => {
    if (edge === undefined || edge.round || edge.most - edge.least < STRAIGHT) return [];
    const lies = edge.places.map(({ at, by }) => ahead(at, edge.out, edge.most - by));
    const deepest = edge.places.reduce((most, place) => (place.by < most.by ? place : most));
    return [
      {
        edge: (outline[i] as Move).id,
        side: sideOf(edge, extent),
        amount: edge.most - edge.least,
        trim: [edge.from, edge.to],
        rough: [ahead(edge.from, edge.out, edge.most), ahead(edge.to, edge.out, edge.most)],
        lies,
        dimension: [deepest.at, ahead(deepest.at, edge.out, edge.most - deepest.by)],
      },
    ];
  });
};

const sideOf = ({ from, to }: EdgeShift, { min, max }: Box): Bow['side'] => {
  const along = (axis: 'x' | 'y', at: number): boolean => Math.abs(from[axis] - at) < 1e-6 && Math.abs(to[axis] - at) < 1e-6;
  if (along('x', min.x)) return 'left';
  if (along('x', max.x)) return 'right';
  if (along('y', min.y)) return 'bottom';
  return along('y', max.y) ? 'top' : undefined;
};
