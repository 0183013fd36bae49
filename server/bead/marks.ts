/**
 * Where the middles of the tracks are marked before rolling. Sheet is drawn in row by row, and a bead that stops beside another would be marked with a step
 * there; nobody can mark or roll that, and the sheet in truth eases from one row to the next. So a straight stretch is marked straight: the beads that it
 * crosses part its ends as far as they take in, and all the rest that moves it (its neighbours, over the share of its length that they cover) moves it
 * whole, by the mean. Common practice, no source.
 */
import { apart } from '../shape/arcs.js';
import { movesMeet } from '../shape/meetings.js';
import type { Move, Point } from '../shape/path.js';
import { beforeRolling, type Drawing } from './crossings.js';
import { ahead, cross, dot, leftOf, startDirection } from './path.js';
import { movedMoves } from './rough-edges.js';
import type { Path, TrackEnd } from './types.js';

export interface MarkedTrack {
  readonly path: Path;
  readonly start: TrackEnd | undefined;
  readonly finish: TrackEnd | undefined;
}

/** Places looked at along a straight stretch, in the middle of equal parts of it. */
const PLACES = 32;
/** A bead that touches an end of a stretch is a corner of the same track or ends there: the stretch does not cross it. */
const AT_END = 1e-6;

const sum = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y });
const less = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });

/** How far both ends of a stretch lie from where they come to lie. */
interface Ends {
  readonly from: Point;
  readonly to: Point;
  readonly along: Point;
}

/** The path to mark: straight stretches stay straight, arcs keep their sweep between their moved ends. */
export const markedPath = (drawing: Drawing, shift: Point, { path, start, finish }: MarkedTrack): Path => {
  const corners = [path.start, ...path.moves.map((move) => move.to)];
  const last = path.moves.length - 1;
  const lines = path.moves.map((move, i): Ends | undefined => {
    const from = corners[i] as Point;
    if (move.kind !== 'line' || apart(from, move.to) < 1e-9) return undefined;
    // Past the sheet's edge nothing is drawn in: the end that runs off goes with the place where it leaves the sheet.
    const on = i === 0 && start?.kind === 'run off' ? start.at : from;
    const off = i === last && finish?.kind === 'run off' ? finish.at : move.to;
    return straightEnds(drawing, apart(on, off) < 1e-9 ? from : on, apart(on, off) < 1e-9 ? move.to : off);
  });
  const cornerShift = (before: Ends | undefined, after: Ends | undefined, at: Point): Point => {
    if (before !== undefined && after !== undefined) return meeting(before, after);
    return before?.to ?? after?.from ?? beforeRolling(drawing, at);
  };
  const moved = corners.map((at, i): Point => {
    const around = path.closed && (i === 0 || i === last + 1);
    const before = around ? lines[last] : lines[i - 1];
    const after = around ? lines[0] : lines[i];
    return sum(sum(at, cornerShift(before, after, at)), shift);
  });
  const first = moved[0] as Point;
  return { start: first, moves: movedMoves(path.moves, path.start, moved.slice(1), first), closed: path.closed };
};

/** What the two stretches that meet in a corner say of it together: each tells how far it moves square to itself. */
const meeting = (before: Ends, after: Ends): Point => {
  const turn = cross(before.along, after.along);
  if (Math.abs(turn) < 0.05) return { x: (before.to.x + after.from.x) / 2, y: (before.to.y + after.from.y) / 2 };
  const [m, n] = [leftOf(before.along), leftOf(after.along)];
  const [a, b] = [dot(before.to, m), dot(after.from, n)];
  return { x: (a * n.y - b * m.y) / turn, y: (b * m.x - a * n.x) / turn };
};

const straightEnds = (drawing: Drawing, from: Point, to: Point): Ends => {
  const length = apart(from, to);
  const line: Move = { kind: 'line', to };
  const along = startDirection(from, line);
  const crossed = crossedBeads(drawing, from, line, along, length);
  const upTo = (s: number): Point => crossed.reduce((all, bead) => (bead.at < s ? sum(all, bead.jump) : all), { x: 0, y: 0 });
  let rest: Point = { x: 0, y: 0 };
  for (let i = 0; i < PLACES; i++) {
    const s = (length * (i + 0.5)) / PLACES;
    rest = sum(rest, less(beforeRolling(drawing, ahead(from, along, s)), upTo(s)));
  }
  const mean = { x: rest.x / PLACES, y: rest.y / PLACES };
  return { from: mean, to: sum(mean, upTo(length + 1)), along };
};

/** Beads that the stretch goes across: how far along it, and how much farther apart their two sides lie before rolling. */
const crossedBeads = (
  drawing: Drawing,
  from: Point,
  line: Move,
  along: Point,
  length: number,
): readonly { readonly at: number; readonly jump: Point }[] =>
  drawing.takings.flatMap(({ spans, takeIn }) => {
    const places: number[] = [];
    return spans.flatMap((span) =>
      movesMeet(from, line, span.from, span.move).flatMap((at) => {
        const s = dot(less(at, from), along);
        if (s < AT_END || s > length - AT_END) return [];
        const way = span.move.kind === 'line' ? startDirection(span.from, span.move) : startDirection(at, { ...span.move });
        const square = leftOf(way);
        const across = dot(square, along);
        // One that runs along with the stretch, or only touches it, is not crossed.
        if (Math.abs(across) < 1e-6) return [];
        // In a corner of the other bead both its moves are met.
        if (places.some((place) => Math.abs(place - s) < AT_END)) return [];
        places.push(s);
        const by = across > 0 ? takeIn : -takeIn;
        return [{ at: s, jump: { x: square.x * by, y: square.y * by } }];
      }),
    );
  });
