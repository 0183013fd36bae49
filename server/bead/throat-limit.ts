/** What a throat leaves possible: the part of the sheet that beads in one direction can't reach, and the nearest change that would fit. */
import type { Bead } from '../model/part.js';
import type { Point } from '../shape/path.js';
import { farthest, type Rim } from './boundary.js';
import type { DeepestPlace, ReachLimit } from './types.js';

/** Rims seen from both sides of lines in direction `along` through the blank's corner: sheet farthest to the left and to the right of u. */
const seenFrom = (rims: readonly Rim[], half: number, along: Point, u: number): { readonly left: number; readonly right: number } => ({
  left: farthest(rims, 0, 0, along.x, along.y, -along.y, along.x, u - half, u + half).v,
  right: -farthest(rims, 0, 0, along.x, along.y, along.y, -along.x, u - half, u + half).v,
});

/** Beside a corner of the rim, where the picture takes a step, mm. */
const STEP = 1e-6;

/**
 * Limit of a throat for straight beads in one direction. A bead can be rolled where the sheet on its left, within the frame's width, ends inside the
 * throat, or on its right; between the two lines neither holds.
 */
export const limitOf = (rims: readonly Rim[], half: number, throat: number, along: Point): ReachLimit => {
  const places = placesAcross(rims, half, along);
  const at = (u: number, v: number): Point => ({ x: along.x * u - along.y * v, y: along.y * u + along.x * v });
  const beyond: Point[][] = [];
  const lines: Point[][] = [];
  let lower: Point[] = [];
  let upper: Point[] = [];
  const close = (): void => {
    if (lower.length > 1) {
      const [low, high] = [straightened(lower), straightened(upper)];
      lines.push(low, high);
      beyond.push([...low, ...[...high].reverse()]);
    }
    lower = [];
    upper = [];
  };
  for (const u of places) {
    const { left, right } = seenFrom(rims, half, along, u);
    const low = right + throat;
    const high = left - throat;
    if (!(high > low + 1e-6)) {
      close();
      continue;
    }
    lower.push(at(u, low));
    upper.push(at(u, high));
  }
  close();
  return { along, lines, beyond };
};

const placesAcross = (rims: readonly Rim[], half: number, along: Point): readonly number[] => {
  const places: number[] = [];
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  const span = (u: number): void => {
    least = Math.min(least, u);
    most = Math.max(most, u);
  };
  let round = false;
  for (const r of rims) {
    const u = r.x0 * along.x + r.y0 * along.y;
    span(u);
    places.push(u - half - STEP, u - half + STEP, u + half - STEP, u + half + STEP);
    if (r.arc === undefined) continue;
    round = true;
    const c = r.arc.x * along.x + r.arc.y * along.y;
    if (r.arc.radius > half) {
      span(Math.max(least, Math.min(most, c)));
      places.push(c);
    }
  }
  const steps = round ? 48 : 1;
  for (let i = 0; i <= steps; i++) places.push(least + ((most - least) * i) / steps);
  return places.filter((u) => u >= least - 1e-9 && u <= most + 1e-9).sort((a, b) => a - b);
};

/** Points in the middle of a straight stretch left out. */
const straightened = (points: readonly Point[]): Point[] => {
  const out: Point[] = [];
  for (const p of points) {
    const b = out.at(-1);
    const a = out.at(-2);
    if (a !== undefined && b !== undefined) {
      const turn = (b.x - a.x) * (p.y - b.y) - (b.y - a.y) * (p.x - b.x);
      const long = Math.hypot(p.x - a.x, p.y - a.y);
      if (Math.abs(turn) < 1e-4 * Math.max(1, long)) out.pop();
    }
    out.push(p);
  }
  return out;
};

/** What a search asks of a changed bead. */
export interface Changed {
  /** What it would ask of the roller, by some of its places or by all; undefined when it could not be laid out. */
  readonly asks: (bead: Bead, roughly: boolean) => number | undefined;
  /** Whether it lies on its face: neither off the sheet nor in a bend. */
  readonly lies: (bead: Bead) => boolean;
}

/** An inset so small that the bead would run over the edge is no cure. */
const LEAST_INSET = 0.5;
const CLOSE = 5e-4;

/**
 * The nearest change that fits: for an inset bead the largest smaller inset, for one written by its points the shift toward the frame, square to it at its worst place. Found by false
 * position on what the changed bead really asks; undefined when not even the smallest change within the sheet does.
 *
 * @param toFrame direction to the frame at the worst place, in the part's coordinates and the bead's own words (before its copy's mirror)
 */
export const deepestPlace = (bead: Bead, throat: number, needed: number, toFrame: Point, changed: Changed): DeepestPlace | undefined => {
  const { path } = bead;
  if (path.kind === 'rectangle' || path.kind === 'along') {
    const inset = path.inset;
    const setIn = (value: number): Bead => ({ ...bead, path: { ...path, inset: { ...inset, value } } });
    const least = lowestThatLies(Math.min(LEAST_INSET, inset.value), inset.value, (value) => changed.lies(setIn(value)));
    const value = largestThatFits(least, inset.value, throat, needed, (value, roughly) => changed.asks(setIn(value), roughly));
    return value === undefined ? undefined : { kind: 'inset', value };
  }
  const shifted = (by: number): Bead => ({ ...bead, path: shiftedPath(path, { x: toFrame.x * by, y: toFrame.y * by }) });
  // Counted from the farthest shift back to none, so that larger is deeper as it is with insets.
  const farthestShift = 2 * (needed - throat) + needed;
  const least = lowestThatLies(0, farthestShift, (back) => changed.lies(shifted(farthestShift - back)));
  const back = largestThatFits(least, farthestShift, throat, needed, (back, roughly) =>
    changed.asks(shifted(farthestShift - back), roughly),
  );
  if (back === undefined) return undefined;
  const by = farthestShift - back;
  return { kind: 'shift', dx: toFrame.x * by, dy: toFrame.y * by };
};

/** Places between what is written and the farthest change at which it is looked whether the bead still lies on its face. */
const STEPS = 48;
/** Room for rounding the change to what is read off a rule, a 64th of an inch each way at most, mm. */
const ROUNDED = 0.6;

/** How far down from `high` a bead lies on its face; all the way where it does not to begin with, which is told of by itself. */
const lowestThatLies = (low: number, high: number, lies: (value: number) => boolean): number => {
  if (!lies(high)) return low;
  let good = high;
  for (let i = 1; i <= STEPS; i++) {
    const next = high - ((high - low) * i) / STEPS;
    if (lies(next)) {
      good = next;
      continue;
    }
    for (let off = next; good - off > CLOSE; ) {
      const half = (good + off) / 2;
      if (lies(half)) good = half;
      else off = half;
    }
    return Math.min(high, good + ROUNDED);
  }
  return low;
};

/** A path written by its points, each moved alike. */
const shiftedPath = (path: Bead['path'], { x, y }: Point): Bead['path'] => {
  const put = <T extends { readonly value: Point }>(point: T): T => ({ ...point, value: { x: point.value.x + x, y: point.value.y + y } });
  switch (path.kind) {
    case 'line':
      return { ...path, from: put(path.from), to: put(path.to) };
    case 'path':
      return { ...path, points: path.points.map(put) };
    case 'arc':
      return { ...path, from: put(path.from), through: put(path.through), to: put(path.to) };
    case 'circle':
      return { ...path, centre: put(path.centre) };
    case 'rectangle':
    case 'along':
      return path;
  }
};

/**
 * The largest value between `low` and `high` that asks no more than the throat. What is asked grows nearly evenly with the value, so a chord through the two
 * ends of what is left finds it in a few steps; every third step halves what is left, so that it comes to an end whatever the sheet looks like.
 */
const largestThatFits = (low: number, high: number, throat: number, neededHigh: number, asks: AsksAt): number | undefined => {
  // A search by some places is quick. What it finds is made sure of by all of them; where that fails, the true one lies a little below.
  const rough = searched(low, high, throat, neededHigh, (value) => asks(value, true));
  const byAll = (value: number): number | undefined => asks(value, false);
  const asked = rough === undefined ? undefined : byAll(rough);
  if (rough === undefined || (asked !== undefined && asked <= throat)) return rough;
  for (let step = 0.5; ; step *= 4) {
    const below = Math.max(low, rough - step);
    const needs = byAll(below);
    if (needs !== undefined && needs <= throat) return searched(below, rough, throat, asked ?? throat, byAll);
    if (below === low) return undefined;
  }
};
type AsksAt = (value: number, roughly: boolean) => number | undefined;

const searched = (
  low: number,
  high: number,
  throat: number,
  neededHigh: number,
  asked: (value: number) => number | undefined,
): number | undefined => {
  // The usual case asks one millimetre more for each millimetre deeper: try that first.
  const guess = high - (neededHigh - throat);
  if (guess >= low) {
    const over = asked(guess);
    if (over !== undefined && Math.abs(over - throat) < 1e-6) return over <= throat ? guess : guess - 1e-6;
  }
  const first = asked(low);
  if (first === undefined || first > throat) return undefined;
  let fits = low;
  let spare = throat - first;
  let tooMuch = high;
  let over = neededHigh - throat;
  for (let i = 0; i < 60 && tooMuch - fits > CLOSE; i++) {
    const gap = tooMuch - fits;
    const chord = i % 3 === 2 || !(spare > 0 && over > 0) ? fits + gap / 2 : fits + (gap * spare) / (spare + over);
    // A little to the side of the chord, on the side that is farther: one of the two ends then comes very near.
    const next = Math.min(tooMuch - CLOSE / 4, Math.max(fits + CLOSE / 4, chord + (chord - fits < gap / 2 ? 1 : -1) * CLOSE * 0.4));
    const needs = asked(next);
    if (needs !== undefined && needs <= throat) {
      fits = next;
      spare = throat - needs;
    } else {
      tooMuch = next;
      over = needs === undefined ? 0 : needs - throat;
    }
  }
  return fits;
};
