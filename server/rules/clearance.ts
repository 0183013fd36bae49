/**
 * Least distances between drawn lines and true arcs, for the spacing rules. Exact: arcs are not broken into chords.
 * Nothing here says whether one loop lies within another; `holdsPoint` does.
 */
import type { Box, Loop, Move, Point } from '../shape/path.js';

/** A move with the point it starts from. */
export interface Stretch {
  readonly from: Point;
  readonly move: Move;
}

export const stretchesOf = (loop: Loop): readonly Stretch[] =>
  loop.map((move, index) => ({ from: (loop[(index + loop.length - 1) % loop.length] as Move).to, move }));

export const straight = (from: Point, to: Point): Stretch => ({ from, move: { kind: 'line', to } });

const fullTurn = 2 * Math.PI;
const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
const angleAbout = (centre: Point, p: Point): number => Math.atan2(p.y - centre.y, p.x - centre.x);
const wrap = (angle: number): number => ((angle % fullTurn) + fullTurn) % fullTurn;

interface Arc {
  readonly centre: Point;
  readonly radius: number;
  /** Anticlockwise from `start` through `sweep`, 0 < sweep ≤ 2π. */
  readonly start: number;
  readonly sweep: number;
  readonly ends: readonly [Point, Point];
}

const arcOf = ({ from, move }: Stretch): Arc | undefined => {
  if (move.kind === 'line') return undefined;
  const [first, last] = move.turn === 'left' ? [from, move.to] : [move.to, from];
  const start = angleAbout(move.centre, first);
  const sweep = wrap(angleAbout(move.centre, last) - start);
  // An arc that ends where it starts is a whole circle, never nothing.
  return { centre: move.centre, radius: apart(move.centre, from), start, sweep: sweep < 1e-12 ? fullTurn : sweep, ends: [from, move.to] };
};

const holdsDirection = (arc: Arc, angle: number): boolean => {
  const turned = wrap(angle - arc.start);
  return turned <= arc.sweep + 1e-12 || turned >= fullTurn - 1e-12;
};

const pointToLine = (p: Point, a: Point, b: Point): number => {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / squared));
  return Math.hypot(p.x - a.x - along * dx, p.y - a.y - along * dy);
};

const pointToArc = (p: Point, arc: Arc): number =>
  holdsDirection(arc, angleAbout(arc.centre, p))
    ? Math.abs(apart(p, arc.centre) - arc.radius)
    : Math.min(apart(p, arc.ends[0]), apart(p, arc.ends[1]));

const side = (a: Point, b: Point, p: Point): number => (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);

const linesCross = (a: Point, b: Point, c: Point, d: Point): boolean =>
  side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;

const lineToLine = (a: Point, b: Point, c: Point, d: Point): number =>
  linesCross(a, b, c, d) ? 0 : Math.min(pointToLine(a, c, d), pointToLine(b, c, d), pointToLine(c, a, b), pointToLine(d, a, b));

const lineMeetsArc = (a: Point, b: Point, arc: Arc): boolean => {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const squared = dx * dx + dy * dy;
  if (squared === 0) return false;
  const middle = -((a.x - arc.centre.x) * dx + (a.y - arc.centre.y) * dy) / squared;
  const gap = Math.hypot(a.x + middle * dx - arc.centre.x, a.y + middle * dy - arc.centre.y);
  if (gap > arc.radius) return false;
  const half = Math.sqrt((arc.radius * arc.radius - gap * gap) / squared);
  return [middle - half, middle + half].some(
    (along) => along >= 0 && along <= 1 && holdsDirection(arc, angleAbout(arc.centre, { x: a.x + along * dx, y: a.y + along * dy })),
  );
};

const lineToArc = (a: Point, b: Point, arc: Arc): number => {
  if (lineMeetsArc(a, b, arc)) return 0;
  const ends = Math.min(pointToArc(a, arc), pointToArc(b, arc), pointToLine(arc.ends[0], a, b), pointToLine(arc.ends[1], a, b));
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? -1 : -((a.x - arc.centre.x) * dx + (a.y - arc.centre.y) * dy) / squared;
  if (along < 0 || along > 1) return ends;
  return Math.min(ends, pointToArc({ x: a.x + along * dx, y: a.y + along * dy }, arc));
};

const onArc = (arc: Arc, angle: number): Point => ({
  x: arc.centre.x + arc.radius * Math.cos(angle),
  y: arc.centre.y + arc.radius * Math.sin(angle),
});

const arcsMeet = (first: Arc, second: Arc): boolean => {
  const between = apart(first.centre, second.centre);
  if (between === 0 || between > first.radius + second.radius || between < Math.abs(first.radius - second.radius)) return false;
  const direction = angleAbout(first.centre, second.centre);
  const cosine = (between * between + first.radius ** 2 - second.radius ** 2) / (2 * between * first.radius);
  const spread = Math.acos(Math.min(1, Math.max(-1, cosine)));
  return [direction - spread, direction + spread].some(
    (angle) => holdsDirection(first, angle) && holdsDirection(second, angleAbout(second.centre, onArc(first, angle))),
  );
};

const arcToArc = (first: Arc, second: Arc): number => {
  if (arcsMeet(first, second)) return 0;
  const ends = Math.min(...first.ends.map((end) => pointToArc(end, second)), ...second.ends.map((end) => pointToArc(end, first)));
  if (apart(first.centre, second.centre) === 0) return ends;
  // Elsewhere two circles come nearest on the line through their centres.
  const direction = angleAbout(first.centre, second.centre);
  const angles = [direction, direction + Math.PI];
  const nearest = angles.filter((angle) => holdsDirection(first, angle)).map((angle) => pointToArc(onArc(first, angle), second));
  return Math.min(ends, ...nearest);
};

/** Least distance between two moves, mm; 0 where they meet or cross. */
export const distanceBetweenStretches = (one: Stretch, other: Stretch): number => {
  const first = arcOf(one);
  const second = arcOf(other);
  if (first !== undefined && second !== undefined) return arcToArc(first, second);
  if (first !== undefined) return lineToArc(other.from, other.move.to, first);
  if (second !== undefined) return lineToArc(one.from, one.move.to, second);
  return lineToLine(one.from, one.move.to, other.from, other.move.to);
};

/** A box that surely holds the move (an arc's whole circle, so it may be larger than need be). */
const boxOfStretch = ({ from, move }: Stretch): Box => {
  if (move.kind === 'arc') {
    const radius = apart(move.centre, from);
    return {
      min: { x: move.centre.x - radius, y: move.centre.y - radius },
      max: { x: move.centre.x + radius, y: move.centre.y + radius },
    };
  }
  return {
    min: { x: Math.min(from.x, move.to.x), y: Math.min(from.y, move.to.y) },
    max: { x: Math.max(from.x, move.to.x), y: Math.max(from.y, move.to.y) },
  };
};

export const boxOfStretches = (stretches: readonly Stretch[]): Box =>
  stretches.map(boxOfStretch).reduce(
    (all, box) => ({
      min: { x: Math.min(all.min.x, box.min.x), y: Math.min(all.min.y, box.min.y) },
      max: { x: Math.max(all.max.x, box.max.x), y: Math.max(all.max.y, box.max.y) },
    }),
    { min: { x: Infinity, y: Infinity }, max: { x: -Infinity, y: -Infinity } },
  );

/** A distance that the things in two boxes cannot be nearer than, mm. */
export const gapBetweenBoxes = (a: Box, b: Box): number =>
  Math.hypot(Math.max(0, a.min.x - b.max.x, b.min.x - a.max.x), Math.max(0, a.min.y - b.max.y, b.min.y - a.max.y));

/** Least distance between two groups of moves, mm, or `limit` when they are surely farther apart than that. */
export const distanceWithin = (limit: number, ones: readonly Stretch[], others: readonly Stretch[]): number => {
  const box = boxOfStretches(ones);
  let least = limit;
  for (const other of others) {
    if (gapBetweenBoxes(box, boxOfStretch(other)) >= least) continue;
    for (const one of ones) least = Math.min(least, distanceBetweenStretches(one, other));
  }
  return least;
};

const chords = (stretch: Stretch): readonly Point[] => {
  const arc = arcOf(stretch);
  if (arc === undefined || stretch.move.kind === 'line') return [stretch.move.to];
  const steps = Math.max(2, Math.ceil(arc.sweep / 0.05));
  const from = angleAbout(arc.centre, stretch.from);
  const signed = stretch.move.turn === 'left' ? arc.sweep : -arc.sweep;
  return Array.from({ length: steps }, (_, step) =>
    step === steps - 1 ? stretch.move.to : onArc(arc, from + (signed * (step + 1)) / steps),
  );
};

/** Whether a point that is not on the loop itself lies within it, either way round (arcs as chords of 3°). */
export const holdsPoint = (loop: Loop, p: Point): boolean => {
  const corners = stretchesOf(loop).flatMap(chords);
  let within = false;
  corners.forEach((b, index) => {
    const a = corners[(index + corners.length - 1) % corners.length] as Point;
    if (a.y > p.y !== b.y > p.y && p.x < a.x + ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y)) within = !within;
  });
  return within;
};
