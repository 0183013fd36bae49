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

/** What a changed bead would ask of the roller; undefined when it could not be laid out. */
export type Asks = (bead: Bead) => number | undefined;

/** An inset so small that the bead would run over the edge is no cure. */
const LEAST_INSET = 0.5;
const CLOSE = 1e-4;

/**
 * The nearest change that fits: for an inset bead the largest smaller inset, for a straight one the shift square to itself toward the frame. Found by false
 * position on what the changed bead really asks; undefined when not even the smallest change within the sheet does.
 *
 * @param toFrame direction to the frame at the worst place, in the part's coordinates and the bead's own words (before its copy's mirror)
 */
export const deepestPlace = (bead: Bead, throat: number, needed: number, toFrame: Point, asks: Asks): DeepestPlace | undefined => {
  const { path } = bead;
  if (path.kind === 'rectangle' || path.kind === 'along') {
    const inset = path.inset;
    const least = Math.min(LEAST_INSET, inset.value);
    const value = largestThatFits(least, inset.value, throat, needed, (value) =>
      asks({ ...bead, path: { ...path, inset: { ...inset, value } } }),
    );
    return value === undefined ? undefined : { kind: 'inset', value };
  }
  if (path.kind !== 'line') return undefined;
  const { from, to } = path;
  const shifted = (by: number): Bead => ({
    ...bead,
    path: {
      ...path,
      from: { ...from, value: { x: from.value.x + toFrame.x * by, y: from.value.y + toFrame.y * by } },
      to: { ...to, value: { x: to.value.x + toFrame.x * by, y: to.value.y + toFrame.y * by } },
    },
  });
  // Counted from the farthest shift back to none, so that larger is deeper as it is with insets.
  const farthestShift = 2 * (needed - throat) + needed;
  const back = largestThatFits(0, farthestShift, throat, needed, (back) => asks(shifted(farthestShift - back)));
  if (back === undefined) return undefined;
  const by = farthestShift - back;
  return { kind: 'shift', dx: toFrame.x * by, dy: toFrame.y * by };
};

const largestThatFits = (
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
  let tooMuch = high;
  for (let i = 0; i < 40 && tooMuch - fits > CLOSE; i++) {
    const half = (fits + tooMuch) / 2;
    const over = asked(half);
    if (over !== undefined && over <= throat) fits = half;
    else tooMuch = half;
  }
  return fits;
};
