/**
 * How far in a track asks the roller to reach, frame on its left or on its right. At each point the frame stands square to the track; what counts is the
 * farthest sheet on that side within the frame's width, centred on the die. The panel lies flat, before bending. mm.
 */
import type { Point } from '../shape/path.js';
import { farthest, type Rim } from './boundary.js';
import { onPiece, type Piece } from './path.js';

export type FrameSide = 'left' | 'right';
export const SIDES: readonly FrameSide[] = ['left', 'right'];

export interface Asked {
  /** 0 when nothing stands on that side. */
  readonly reach: number;
  /** Along the piece. */
  readonly s: number;
}

const signOf = (side: FrameSide): 1 | -1 => (side === 'left' ? 1 : -1);

/** At one point of a piece. */
export const reachAt = (rims: readonly Rim[], half: number, piece: Piece, s: number, side: FrameSide): number => {
  const { at, along } = onPiece(piece, s);
  return reachFrom(rims, half, at, along, side);
};

const reachFrom = (rims: readonly Rim[], half: number, at: Point, along: Point, side: FrameSide): number => {
  const sign = signOf(side);
  return Math.max(0, farthest(rims, at.x, at.y, along.x, along.y, -sign * along.y, sign * along.x, -half, half).v);
};

/** The sheet that decides, seen from a point of the track. */
export const farthestFrom = (rims: readonly Rim[], half: number, at: Point, along: Point, side: FrameSide): Point => {
  const sign = signOf(side);
  const within = (u: number): { u: number; v: number } =>
    farthest(rims, at.x, at.y, along.x, along.y, -sign * along.y, sign * along.x, -u, u);
  const widest = within(half);
  if (!(widest.v > 0)) return at;
  // Straight ahead, where it is as far there as anywhere in the strip.
  const middle = within(0);
  const found = middle.v > widest.v - 1e-9 ? middle : widest;
  return { x: at.x + along.x * found.u - sign * along.y * found.v, y: at.y + along.y * found.u + sign * along.x * found.v };
};

/**
 * The most a piece asks on a side. Exact on straight pieces: one strip as long as the piece and half a frame more at both ends. On round pieces exact
 * against straight rims; against round rims sampled every 3° and closed in to 1e-7 of the turn.
 */
export const mostAsked = (rims: readonly Rim[], half: number, piece: Piece, side: FrameSide): Asked => {
  if (piece.move.kind === 'arc') return mostRound(rims, half, piece, side);
  const sign = signOf(side);
  const { at, along } = onPiece(piece, 0);
  const found = farthest(rims, at.x, at.y, along.x, along.y, -sign * along.y, sign * along.x, -half, piece.length + half);
  // Where the whole piece asks alike, its middle stands for it.
  const middle = farthest(rims, at.x, at.y, along.x, along.y, -sign * along.y, sign * along.x, piece.length / 2, piece.length / 2);
  const s = middle.v > found.v - 1e-9 ? piece.length / 2 : Math.min(piece.length, Math.max(0, found.u));
  return { reach: Math.max(0, found.v), s };
};

const FULL = 2 * Math.PI;
const wrap = (angle: number): number => ((angle % FULL) + FULL) % FULL;

/** What a turning track's frame looks along: direction angle `first` at the start, turning by `turn`, `behind` from the arc's middle to the track. */
interface Sweep {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly first: number;
  readonly turn: 1 | -1;
  readonly swept: number;
  /** The reach is what is seen from the arc's middle less this. */
  readonly behind: number;
}

const sweepOf = (piece: Piece, side: FrameSide): Sweep | undefined => {
  const { move, from, length } = piece;
  if (move.kind !== 'arc') return undefined;
  const radius = Math.hypot(from.x - move.centre.x, from.y - move.centre.y);
  const turn = move.turn === 'left' ? 1 : -1;
  const outward = -signOf(side) * turn;
  const start = Math.atan2(from.y - move.centre.y, from.x - move.centre.x);
  const first = outward > 0 ? start : start + Math.PI;
  return { x: move.centre.x, y: move.centre.y, radius, first, turn, swept: length / radius, behind: outward * radius };
};

const mostRound = (rims: readonly Rim[], half: number, piece: Piece, side: FrameSide): Asked => {
  const sweep = sweepOf(piece, side) as Sweep;
  let best = reachAt(rims, half, piece, 0, side);
  let at = 0;
  const offer = (reach: number, s: number): void => {
    if (reach <= best) return;
    best = reach;
    at = Math.min(piece.length, Math.max(0, s));
  };
  offer(reachAt(rims, half, piece, piece.length, side), piece.length);
  for (const r of rims) {
    offerCorner(sweep, half, r, offer);
    if (sweep.behind < 0 && r.arc === undefined) offerNearLine(sweep, half, r, offer);
  }
  for (const r of rims) {
    const { arc } = r;
    if (arc === undefined || Math.hypot(arc.x - sweep.x, arc.y - sweep.y) + arc.radius - sweep.behind <= best) continue;
    const only = [r];
    closeIn((s) => reachAt(only, half, piece, s, side), piece.length, Math.ceil(sweep.swept / 0.05), offer);
  }
  return { reach: best, s: at };
};

type Offer = (reach: number, s: number) => void;

/** A corner of the rim asks most where the frame looks straight at it, or at the end of the turn nearest to that, if it lies in the strip there. */
const offerCorner = (sweep: Sweep, half: number, r: Rim, offer: Offer): void => {
  const dx = r.x0 - sweep.x;
  const dy = r.y0 - sweep.y;
  const away = Math.sqrt(dx * dx + dy * dy);
  const turned = wrap(sweep.turn * (Math.atan2(dy, dx) - sweep.first));
  const pastEnd = turned - sweep.swept;
  const gap = pastEnd <= 0 ? 0 : Math.min(pastEnd, FULL - turned);
  const seen = away <= half ? Math.PI : Math.asin(half / away);
  if (gap > seen + 1e-9) return;
  const place = pastEnd <= 0 ? turned : pastEnd < FULL - turned ? sweep.swept : 0;
  offer(away * Math.cos(gap) - sweep.behind, place * sweep.radius);
};

/** A straight rim between the track and its middle, cut by the strip's edge, may ask most in mid-turn. */
const offerNearLine = (sweep: Sweep, half: number, r: Rim, offer: Offer): void => {
  const ax = r.x0 - sweep.x;
  const ay = r.y0 - sweep.y;
  const bx = r.x1 - sweep.x;
  const by = r.y1 - sweep.y;
  const length = Math.hypot(bx - ax, by - ay);
  if (length < 1e-12) return;
  let nx = (by - ay) / length;
  let ny = (ax - bx) / length;
  let d = ax * nx + ay * ny;
  if (d > 0) {
    d = -d;
    nx = -nx;
    ny = -ny;
  }
  if (d > -half) return;
  for (const u of [half, -half]) {
    const tilt = Math.asin(-u / d);
    const look = Math.atan2(ny, nx) + tilt;
    const turned = wrap(sweep.turn * (look - sweep.first));
    if (turned > sweep.swept) continue;
    const v = -Math.sqrt(d * d - u * u);
    // u counts along a quarter turn left of the look; which way round does not matter, both are tried.
    const px = v * Math.cos(look) - u * Math.sin(look);
    const py = v * Math.sin(look) + u * Math.cos(look);
    const along = ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / length;
    if (along >= 0 && along <= length) offer(v - sweep.behind, turned * sweep.radius);
  }
};

/** The greatest of a function over 0…length: sampled, then closed in by thirds round the best sample. */
const closeIn = (value: (s: number) => number, length: number, samples: number, offer: Offer): void => {
  const count = Math.min(128, Math.max(8, samples));
  let best = 0;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i <= count; i++) {
    const v = value((length * i) / count);
    if (v > most) {
      most = v;
      best = i;
    }
  }
  offer(most, (length * best) / count);
  let low = (length * Math.max(0, best - 1)) / count;
  let high = (length * Math.min(count, best + 1)) / count;
  for (let i = 0; i < 40 && high - low > length * 1e-7; i++) {
    const a = low + (high - low) / 3;
    const b = high - (high - low) / 3;
    const va = value(a);
    const vb = value(b);
    offer(va, a);
    offer(vb, b);
    if (va < vb) low = a;
    else high = b;
  }
};

/** Places along a piece between which what it asks changes smoothly: where a corner of the rim enters or leaves the frame's width, or is looked straight at. */
export const eventsOn = (rims: readonly Rim[], half: number, piece: Piece): readonly number[] => {
  const places = [0, piece.length];
  const add = (s: number): void => {
    if (s > 1e-9 && s < piece.length - 1e-9) places.push(s);
  };
  const round = rims.some((r) => r.arc !== undefined);
  if (piece.move.kind === 'line') {
    const { at, along } = onPiece(piece, 0);
    for (const r of rims) {
      const u = (r.x0 - at.x) * along.x + (r.y0 - at.y) * along.y;
      add(u - half);
      add(u + half);
    }
    // Rims at one height seen from both sides change hands in the middle.
    const steps = round ? 24 : 2;
    for (let i = 1; i < steps; i++) add((piece.length * i) / steps);
  } else {
    const sweep = sweepOf(piece, 'left') as Sweep;
    for (const r of rims) {
      const look = Math.atan2(r.y0 - sweep.y, r.x0 - sweep.x);
      const away = Math.hypot(r.x0 - sweep.x, r.y0 - sweep.y);
      const seen = away <= half ? 0 : Math.asin(half / away);
      for (const turned of [look, look - seen, look + seen]) {
        add(wrap(sweep.turn * (turned - sweep.first)) * sweep.radius);
        add(wrap(sweep.turn * (turned + Math.PI - sweep.first)) * sweep.radius);
      }
    }
    const steps = Math.min(128, Math.max(4, Math.ceil(sweep.swept / 0.05)));
    for (let i = 1; i < steps; i++) add((piece.length * i) / steps);
  }
  return places.sort((a, b) => a - b).filter((s, i, all) => i === 0 || s - (all[i - 1] as number) > 1e-9);
};
