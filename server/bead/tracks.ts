/** From paths on the blank to the lines that are rolled: bands parted into their two steps, ends run off the sheet, turns measured. */
import type { Bead, BeadEnd } from '../model/part.js';
import { apart, holdsPoint } from '../shape/arcs.js';
import { pointToLoop } from '../shape/distances.js';
import { pointInLoop } from '../shape/inside.js';
import { signedArea } from '../shape/loops.js';
import { lineMeetsCircle, linesMeet } from '../shape/meetings.js';
import type { Loop, Move, Point } from '../shape/path.js';
import { offsetPath } from './offset.js';
import {
  ahead,
  dot,
  endDirection,
  endOf,
  leftOf,
  meetingsAlong,
  onPiece,
  pathLength,
  piecesOf,
  reversedPath,
  startDirection,
  turnFrom,
} from './path.js';
import { sayRounded } from './rounded.js';
import type { Path, TightTurn, Track, TrackEnd, Unworked, Words } from './types.js';

export interface TrackJob {
  readonly bead: Bead;
  /** Over the feet of one track. */
  readonly width: number;
  readonly outline: Loop; // of the sheet
  readonly words: Words;
  readonly unworked: Unworked[];
}
interface Line {
  readonly path: Path;
  readonly land: Track['land'];
}

/** The tracks of a bead from its middle paths in blank coordinates. */
export const tracksOf = (job: TrackJob, middle: readonly Path[]): readonly Track[] => {
  const lines =
    job.bead.kind === 'band' ? middle.flatMap((path) => stepsOf(job, path)) : middle.map((path): Line => ({ path, land: undefined }));
  return lines.map((line, i) => trackOf(job, line, lines.length > 1 ? `${job.bead.id}.${i + 1}` : job.bead.id));
};

/** The middles of a band's two shoulders: the band's width is over their outer feet. */
const stepsOf = (job: TrackJob, path: Path): readonly Line[] => {
  const { bead, width, words } = job;
  const over = bead.width ?? 0;
  const off = (over - width) / 2;
  if (off < width / 2 - 1e-9) {
    job.unworked.push({
      id: bead.id,
      span: bead.span,
      kind: 'band-too-narrow',
      message: `a band ${words.say(over)} wide has no room for two shoulders of ${words.say(width)} each: make it ${sayRounded(words, 2 * width, 'up')} or wider, or write a bead`,
    });
    return [];
  }
  const sides = [off, -off].map((left): { left: number; paths: readonly Path[] } => ({
    left,
    paths: offsetPath(path, left, 'round').filter((part) => !path.closed || signedArea(part.moves) * signedArea(path.moves) > 0),
  }));
  if (sides.some((side) => side.paths.length === 0)) {
    job.unworked.push({
      id: bead.id,
      span: bead.pathSpan,
      kind: 'nothing-inside',
      message: `the inner shoulder of ${bead.id} finds no room: its path turns too tightly for a band ${words.say(over)} wide`,
    });
  }
  return sides.flatMap(({ left, paths }) => paths.map((part): Line => ({ path: part, land: left > 0 ? 'right' : 'left' })));
};

const trackOf = (job: TrackJob, { path, land }: Line, id: string): Track => {
  const { bead, width } = job;
  if (path.closed) {
    const { tightest, tightestInside } = tightestOf(path, width);
    return { id, path, length: pathLength(path), tightest, tightestInside, land, start: undefined, finish: undefined };
  }
  const onward = ranOff(job, path, bead.finish);
  const back = bead.start === 'run off' ? ranOff(job, reversedPath(path), bead.start) : { at: path.start, past: undefined, over: 0 };
  const moves: Move[] = [...path.moves];
  extend(moves, onward.past);
  const first = moves[0] as Move;
  const start = back.past ?? path.start;
  const runsOn = back.past !== undefined && first.kind === 'line';
  const whole: Path = {
    start,
    moves: back.past === undefined || runsOn ? moves : [{ kind: 'line', to: path.start }, ...moves],
    closed: false,
  };
  const { tightest, tightestInside } = tightestOf(whole, width);
  return {
    id,
    path: whole,
    length: Math.max(0, pathLength(whole) - onward.over - back.over),
    tightest,
    tightestInside,
    land,
    start: endAt(bead.start, back.at),
    finish: endAt(bead.finish, onward.at),
  };
};

const endAt = (kind: BeadEnd, at: Point): TrackEnd => ({ kind, at });

const extend = (moves: Move[], past: Point | undefined): void => {
  if (past === undefined) return;
  const last = moves.at(-1) as Move;
  if (last.kind === 'line') moves[moves.length - 1] = { ...last, to: past };
  else moves.push({ kind: 'line', to: past });
};

interface Ending {
  readonly at: Point;
  /** Where the path is drawn on to; undefined where it ends as written. */
  readonly past: Point | undefined;
  /** Of the path as drawn on, how much lies past `at`. */
  readonly over: number;
}

/** A place this near to the rim is on it, mm. */
const ON_RIM = 1e-6;
/** The sheet is looked for this little ahead of a place, mm. */
const AHEAD = 1e-5;

/** Where a path's middle leaves the sheet, and how far it goes on past the edge until both feet of the mark have left it. */
const ranOff = (job: TrackJob, path: Path, kind: BeadEnd): Ending => {
  const end = endOf(path);
  const asWritten: Ending = { at: end, past: undefined, over: 0 };
  const last = piecesOf(path).at(-1);
  if (kind !== 'run off' || last === undefined) return asWritten;
  const along = endDirection(last.from, last.move);
  const onSheet = pointInLoop(end, job.outline) || pointToLoop(end, job.outline) <= ON_RIM;
  // Written past the edge, the piece leaves the sheet where it last meets the rim.
  const left = onSheet ? last.length : meetingsAlong(last, job.outline).at(-1);
  if (left === undefined) return asWritten;
  const at = onSheet ? ahead(end, along, leavesAfter(end, along, job.outline)) : onPiece(last, left).at;
  const written = last.length - left;
  if (last.move.kind === 'arc' && !onSheet) return { at, past: undefined, over: written };
  const feet = [job.width / 2, -job.width / 2].map((left) => leavesAfter(ahead(at, leftOf(along), left), along, job.outline));
  const over = Math.max(written, job.width / 2, ...feet);
  return { at, past: ahead(at, along, over), over };
};

/** How far ahead a place leaves the sheet; 0 where there is none right ahead of it. */
const leavesAfter = (from: Point, along: Point, outline: Loop): number => {
  const next = ahead(from, along, AHEAD);
  return pointInLoop(next, outline) ? (exit(next, along, outline) ?? 0) + AHEAD : 0;
};

/** How far ahead a ray first leaves a loop. */
export const exit = (from: Point, along: Point, outline: Loop): number | undefined => {
  let nearest: number | undefined;
  let start = (outline.at(-1) as Move).to;
  for (const move of outline) {
    for (const p of rayMeetings(from, along, start, move)) {
      const s = dot({ x: p.x - from.x, y: p.y - from.y }, along);
      if (s > 1e-9 && holdsPoint(start, move, p, 1e-7) && (nearest === undefined || s < nearest)) nearest = s;
    }
    start = move.to;
  }
  return nearest;
};

const rayMeetings = (at: Point, along: Point, start: Point, move: Move): readonly Point[] => {
  if (move.kind === 'arc') return lineMeetsCircle({ at, along }, { centre: move.centre, radius: apart(move.centre, start) });
  const p = apart(start, move.to) < 1e-12 ? undefined : linesMeet({ at, along }, { at: start, along: startDirection(start, move) });
  return p === undefined ? [] : [p];
};

interface Turn {
  readonly at: Point;
  readonly radius: number;
  readonly turn: number;
}
/** Every turn of a path: its arcs, and its sharp corners with radius 0. */
const turnsOf = (path: Path): readonly Turn[] => {
  const pieces = piecesOf(path);
  const turns: Turn[] = [];
  pieces.forEach((piece, i) => {
    const { from, move, length } = piece;
    if (move.kind === 'arc') {
      const radius = apart(move.centre, from);
      const sweep = length / radius;
      const a = Math.atan2(from.y - move.centre.y, from.x - move.centre.x) + ((move.turn === 'left' ? 1 : -1) * sweep) / 2;
      turns.push({ at: { x: move.centre.x + radius * Math.cos(a), y: move.centre.y + radius * Math.sin(a) }, radius, turn: sweep });
    }
    const next = pieces[i + 1] ?? (path.closed ? pieces[0] : undefined);
    if (next === undefined) return;
    const turn = Math.abs(turnFrom(endDirection(from, move), startDirection(next.from, next.move)));
    if (turn > 1e-6) turns.push({ at: move.to, radius: 0, turn });
  });
  return turns;
};

const tightestOf = (path: Path, width: number): Pick<Track, 'tightest' | 'tightestInside'> => {
  const turns = turnsOf(path);
  if (turns.length === 0) return { tightest: undefined, tightestInside: undefined };
  const tightest = Math.min(...turns.map((turn) => turn.radius));
  return { tightest, tightestInside: Math.max(0, tightest - width / 2) };
};

/**
 * Turns the die does not go round, its tightest turn being counted to the middle of the track. By hand they are brought round a rod or dolly that fits
 * inside the inner foot; common practice, no source.
 */
export const tightTurns = (tracks: readonly Track[], width: number, allowed: number | undefined): readonly TightTurn[] =>
  allowed === undefined
    ? []
    : tracks.flatMap((track) =>
        turnsOf(track.path)
          .filter((turn) => turn.radius < allowed - 1e-6)
          .map(({ at, radius, turn }): TightTurn => ({ track: track.id, at, radius, allowed, turn, rod: Math.max(0, radius - width / 2) })),
      );
