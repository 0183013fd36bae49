/**
 * How far places of the sheet move when beads draw in. A line along x through a place meets beads; each brings its two sides together by its take-in,
 * square to itself, of which the line sees the part along x: take-in × |cosine between x and the bead's normal|. Half of it moves the sheet on its left to
 * the right, half the sheet on its right to the left. The same along y. Only the run of sheet that the place lies in counts, not what stands beyond a notch.
 * Exact for beads right across the sheet; where a bead ends, the sheet in truth eases from one row to the next. Linear in the take-ins, so n beads that are
 * crossed alike count n times one.
 */
import { boxesMeet } from '../shape/arcs.js';
import { movesMeet } from '../shape/meetings.js';
import type { Loop, Point } from '../shape/path.js';
import { type Span, spansOfLoop, spansOfPath } from './nearest.js';
import type { Path } from './types.js';

/** A track with what it takes in. */
export interface Taking {
  readonly spans: readonly Span[];
  readonly takeIn: number;
}
export interface Drawing {
  readonly outline: readonly Span[];
  readonly takings: readonly Taking[];
}
export const drawingOf = (outline: Loop, tracks: readonly { readonly path: Path; readonly takeIn: number }[]): Drawing => ({
  outline: spansOfLoop(outline),
  takings: tracks.filter(({ takeIn }) => takeIn !== 0).map(({ path, takeIn }) => ({ spans: spansOfPath(path), takeIn })),
});

export type Axis = 'x' | 'y';

/** Places this near to a bead's middle lie on it: it counts for neither side. */
const ON_IT = 1e-6;
/** Lines run this little beside the level asked for, so that they never go through the very end of a move, mm. */
const BESIDE = 1.37e-7;

/**
 * Take-ins on the lower side less those on the upper side, halved: how far the place lies up the axis before rolling, from where it lies after. Level with
 * the very end of a bead, half of what its two sides there would say, so that it is the same whichever way the sheet lies.
 */
const shiftAlong = (axis: Axis, drawing: Drawing, at: Point): number => {
  const level = axis === 'x' ? at.y : at.x;
  const above = shiftAtLevel(axis, drawing, at, level + BESIDE);
  if (!endsAt(axis, drawing, level)) return above ?? 0;
  const below = shiftAtLevel(axis, drawing, at, level - BESIDE);
  return above === undefined || below === undefined ? (above ?? below ?? 0) : (above + below) / 2;
};

/** Whether a move of the rim or of a bead begins, ends or turns back at a level. */
const endsAt = (axis: Axis, { outline, takings }: Drawing, level: number): boolean => {
  const at = (value: number): boolean => Math.abs(value - level) <= BESIDE;
  const ends = axis === 'x' ? (p: Point) => at(p.y) : (p: Point) => at(p.x);
  const any = (spans: readonly Span[]): boolean =>
    spans.some(({ from, move, box }) => ends(from) || ends(move.to) || ends(box.min) || ends(box.max));
  return any(outline) || takings.some(({ spans }) => any(spans));
};

/** Along the line at a level; undefined where it does not run in the sheet. */
const shiftAtLevel = (axis: Axis, drawing: Drawing, at: Point, level: number): number | undefined => {
  const place = axis === 'x' ? at.x : at.y;
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  let below = 0;
  let above = 0;
  for (const span of drawing.outline) {
    crossed(axis, span, level, (where) => {
      if (where < place - ON_IT) {
        below += 1;
        if (where > low) low = where;
      } else if (where > place + ON_IT) {
        above += 1;
        if (where < high) high = where;
      }
    });
  }
  // On a rim only one side is sheet; an odd count of rims on a side means sheet there.
  if (below % 2 === 0) low = place;
  if (above % 2 === 0) high = place;
  if (low === high) return undefined;
  let sum = 0;
  for (const { spans, takeIn } of drawing.takings) {
    for (const span of spans) {
      crossed(axis, span, level, (where, share) => {
        if (where < low || where > high) return;
        // Square to the bead: along the row the line beside the level meets a bead that slants a little farther off.
        const off = (where - place) * share;
        if (off < -ON_IT) sum += share * takeIn;
        else if (off > ON_IT) sum -= share * takeIn;
      });
    }
  }
  return sum / 2;
};

/** Each place where the line at a level crosses a move, and the share of the take-in it sees. */
const crossed = (axis: Axis, { from, move, box }: Span, level: number, tell: (where: number, share: number) => void): void => {
  if (axis === 'x' ? level < box.min.y || level > box.max.y : level < box.min.x || level > box.max.x) return;
  const x = axis === 'x';
  if (move.kind === 'line') {
    const across0 = x ? from.y : from.x;
    const across1 = x ? move.to.y : move.to.x;
    if (across0 <= level === across1 <= level) return;
    const along0 = x ? from.x : from.y;
    const rise = across1 - across0;
    const run = (x ? move.to.x : move.to.y) - along0;
    tell(along0 + (run * (level - across0)) / rise, Math.abs(rise) / Math.sqrt(rise * rise + run * run));
    return;
  }
  const { centre } = move;
  const off = level - (x ? centre.y : centre.x);
  const dx = from.x - centre.x;
  const dy = from.y - centre.y;
  const squared = dx * dx + dy * dy;
  if (off * off >= squared) return;
  const half = Math.sqrt(squared - off * off);
  const whole = Math.abs(move.to.x - from.x) + Math.abs(move.to.y - from.y) < 1e-9;
  for (const reach of [half, -half]) {
    const along = (x ? centre.x : centre.y) + reach;
    // An arc that turns left lies on the right of its chord; one that ends where it starts is the whole circle.
    const [px, py] = x ? [along, level] : [level, along];
    const side = (move.to.x - from.x) * (py - from.y) - (move.to.y - from.y) * (px - from.x);
    if ((move.turn === 'left' ? side <= 0 : side >= 0) || whole) tell(along, half / Math.sqrt(squared));
  }
};

/** How far a place lies from its net position before rolling. */
export const beforeRolling = (drawing: Drawing, at: Point): Point => ({
  x: shiftAlong('x', drawing, at),
  y: shiftAlong('y', drawing, at),
});

/**
 * Levels between which the count along an axis changes smoothly: ends of moves, where they enter and leave the sheet, and the tops of arcs, with a few places
 * on each arc.
 */
export const levelsOf = (axis: Axis, drawing: Drawing): readonly number[] => {
  const levels = new Set<number>();
  for (const { spans } of drawing.takings) {
    for (const { from, move, box } of spans) {
      levels.add(axis === 'x' ? from.y : from.x);
      levels.add(axis === 'x' ? move.to.y : move.to.x);
      for (const rim of drawing.outline) {
        if (!boxesMeet(box, rim.box)) continue;
        for (const p of movesMeet(from, move, rim.from, rim.move)) levels.add(axis === 'x' ? p.y : p.x);
      }
      if (move.kind === 'line') continue;
      const low = axis === 'x' ? box.min.y : box.min.x;
      const high = axis === 'x' ? box.max.y : box.max.x;
      for (let i = 0; i <= 4; i++) levels.add(low + ((high - low) * i) / 4);
    }
  }
  return [...levels].sort((a, b) => a - b);
};
