/** What the roller's results are called at the bench: over which edge the frame stands, where on the sheet as marked a run begins and ends, which edge bows. */
import { apart } from '../shape/arcs.js';
import { signedArea } from '../shape/loops.js';
import type { Point } from '../shape/path.js';
import { ahead, endDirection, onPath, onPiece, piecesOf, reversedPath } from './path.js';
import { exit } from './tracks.js';
import type { BeadResult, Bow, Path, ScheduleRow, Track } from './types.js';

export interface RunEnd {
  /** On the sheet as it is cut and marked, from its own lower left corner; where the bead runs off, the place at the edge. */
  readonly at: Point;
  readonly runsOff: boolean;
}
export interface RunEnds {
  readonly first: RunEnd;
  readonly last: RunEnd;
  /** A ring rolled all round in one run ends where it begins. */
  readonly allRound: boolean;
}

const trackOf = (beads: BeadResult, id: string): Track | undefined =>
  beads.beads.flatMap(({ tracks }) => tracks).find((track) => track.id === id);

/** The ends of a row's run in the order they go in; undefined for a track that the result does not have. */
export const runEnds = (beads: BeadResult, row: ScheduleRow): RunEnds | undefined => {
  const track = trackOf(beads, row.track);
  if (track === undefined) return undefined;
  const [low, high] = row.along;
  const ends = [endAt(beads, track, low), endAt(beads, track, high)] as const;
  const [first, last] = row.from === 'start' ? ends : [ends[1], ends[0]];
  const whole = piecesOf(track.path).reduce((sum, piece) => sum + piece.length, 0);
  return { first, last, allRound: track.path.closed && high - low > whole - 1e-6 };
};

const endAt = (beads: BeadResult, track: Track, s: number): RunEnd => {
  const pieces = piecesOf(track.path);
  const length = pieces.reduce((sum, piece) => sum + piece.length, 0);
  const { start, finish } = track;
  if (!track.path.closed && s < 1e-6 && start?.kind === 'run off')
    return { at: atTheEdge(beads, track, marked(beads, track, apart(track.path.start, start.at)), 'start'), runsOff: true };
  if (!track.path.closed && s > length - 1e-6 && finish?.kind === 'run off') {
    const end = track.path.moves.at(-1)?.to ?? track.path.start;
    return { at: atTheEdge(beads, track, marked(beads, track, length - apart(end, finish.at)), 'finish'), runsOff: true };
  }
  return { at: marked(beads, track, s), runsOff: false };
};

/** Before rolling the sheet reaches a little farther than the place where the bead leaves it afterwards: on to the rough-cut edge. */
const atTheEdge = (beads: BeadResult, { id }: Track, at: Point, end: 'start' | 'finish'): Point => {
  const mark = beads.drawIn?.marks.find((one) => one.track === id)?.path;
  const outline = beads.drawIn?.asCut.outline ?? [];
  const last = mark === undefined ? undefined : piecesOf(end === 'finish' ? mark : reversedPath(mark)).at(-1);
  if (last === undefined || outline.length === 0) return at;
  const along = endDirection(last.from, last.move);
  const back = 0.01;
  const out = exit(ahead(at, along, -back), along, outline);
  return out === undefined ? at : ahead(at, along, out - back);
};

/** A place along a track where it is marked before rolling: on the same piece of the marked line, at the same share of it. */
const marked = (beads: BeadResult, { id, path }: Track, s: number): Point => {
  const mark = beads.drawIn?.marks.find((one) => one.track === id)?.path;
  const pieces = piecesOf(path);
  const whole = pieces.reduce((sum, piece) => sum + piece.length, 0);
  const along = path.closed && whole > 0 ? ((s % whole) + whole) % whole : s;
  if (mark !== undefined && mark.moves.length === path.moves.length) {
    const index = Math.max(
      0,
      pieces.findLastIndex(({ before }) => before <= along + 1e-9),
    );
    const [own, other] = [pieces[index], piecesOf(mark)[index]];
    if (own !== undefined && other !== undefined && other.length > 0) {
      const share = own.length > 0 ? Math.min(1, Math.max(0, (along - own.before) / own.length)) : 0;
      return onPiece(other, share * other.length).at;
    }
  }
  const { at } = onPath(pieces, path.closed, s);
  const shift = beads.drawIn?.shift ?? { x: 0, y: 0 };
  return { x: at.x + shift.x, y: at.y + shift.y };
};

export type FrameOver = 'left' | 'right' | 'top' | 'bottom' | 'inside' | 'outside';

/** Over which part of the sheet, as drawn, the frame stands: the middle of a ring or what lies round it, else the edge that it is nearest to face. */
export const frameOver = (beads: BeadResult, row: ScheduleRow): FrameOver => {
  const path: Path | undefined = trackOf(beads, row.track)?.path;
  if (path === undefined || path.moves.length === 0) return row.frame;
  if (path.closed) return signedArea(path.moves) > 0 === (row.frame === 'left') ? 'inside' : 'outside';
  const [low, high] = row.along;
  const { along } = onPath(piecesOf(path), false, (low + high) / 2);
  const sign = row.frame === 'left' ? 1 : -1;
  const toward = { x: -along.y * sign, y: along.x * sign };
  if (Math.abs(toward.x) > Math.abs(toward.y)) return toward.x > 0 ? 'right' : 'left';
  return toward.y > 0 ? 'top' : 'bottom';
};

/** An edge as it is called with the sheet flat: by the name the part gives it, else by its side of the sheet, else by the flange that it cuts. */
export const edgeOfSheet = ({ edge, side }: Pick<Bow, 'edge' | 'side'>): string => {
  const [kind, name] = edge?.split(':') ?? [];
  if (kind === 'edge' && name !== undefined) return name;
  if (side !== undefined) return `the ${side} edge of the sheet`;
  return kind === 'face' && name !== undefined ? `the cut edge of ${name}` : 'an edge without a name';
};
