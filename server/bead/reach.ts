/** Whether a roller reaches a bead: which side, in one run or parted, how far in, and what stands in its way. */
import type { Roller } from '../model/shop.js';
import type { Point } from '../shape/path.js';
import type { Rim } from './boundary.js';
import { ahead, leftOf, onPath, type Piece, piecesOf } from './path.js';
import { type Asked, type FrameSide, farthestFrom, mostAsked, reachAt, SIDES } from './reach-asked.js';
import { HAIR, leastOfBoth, onItsPiece, partedRuns, profileOf, type Stretch } from './runs.js';
import type { Reach, Run, Track } from './types.js';

/** What one roller is asked by all tracks of one bead, without what only the picture needs. */
export interface Worked {
  readonly needed: number;
  readonly fits: boolean;
  readonly tracks: readonly WorkedTrack[];
}
interface WorkedTrack {
  readonly track: Track;
  readonly pieces: readonly Piece[];
  readonly needed: number;
  readonly fits: boolean;
  readonly runs: readonly Stretch[];
  /** Where `needed` is asked. */
  readonly s: number;
  readonly side: FrameSide;
}

/** Half the width of the frame; an unknown one counts as a line. */
export const halfFrame = (roller: Roller): number => (roller.arm ?? 0) / 2;

export const workReach = (rims: readonly Rim[], tracks: readonly Track[], throat: number, half: number): Worked => {
  const worked = tracks.map((track) => workTrack(rims, track, throat, half));
  return {
    needed: worked.reduce((most, { needed }) => Math.max(most, needed), 0),
    fits: worked.every((track) => track.fits),
    tracks: worked,
  };
};

const workTrack = (rims: readonly Rim[], track: Track, throat: number, half: number): WorkedTrack => {
  const pieces = piecesOf(track.path);
  const length = pieces.reduce((sum, piece) => sum + piece.length, 0);
  const whole = SIDES.map((side): Stretch => {
    const { reach, s } = mostOfTrack(rims, half, pieces, side);
    return { from: 0, to: length, side, needed: reach, worst: s };
  }).sort((a, b) => a.needed - b.needed);
  const easier: Stretch = { ...(whole[0] as Stretch), otherNeeded: whole[1]?.needed };
  if (easier.needed <= throat + HAIR) return answer(track, pieces, true, [easier], easier);
  const profile = profileOf(rims, half, pieces, track.path.closed);
  const parted = partedRuns(profile, throat);
  if (parted !== undefined) {
    const worst = parted.reduce((most, run) => (run.needed > most.needed ? run : most));
    return answer(track, pieces, true, parted, worst);
  }
  const least = leastOfBoth(profile);
  const partable = least.reach < easier.needed - 1e-3 ? partedRuns(profile, least.reach) : undefined;
  if (partable === undefined) return answer(track, pieces, false, [easier], easier);
  return answer(track, pieces, false, partable, { from: 0, to: 0, needed: least.reach, worst: least.s, side: least.side });
};

/** Places on a piece at which a search looks whether either side reaches at all. */
const LOOKS = 16;

/**
 * For a search: what the tracks ask, from one side or in runs from both. A track that neither way reaches ends it at once; what is asked of that one is
 * then told, which is not the most.
 *
 * @param roughly is content when some places of each piece are reached from either side; to be made sure of afterwards
 */
export const asksWithin = (rims: readonly Rim[], tracks: readonly Track[], throat: number, half: number, roughly: boolean): number => {
  let most = 0;
  for (const { path } of tracks) {
    const pieces = piecesOf(path);
    const easier = Math.min(...SIDES.map((side) => mostOfTrack(rims, half, pieces, side).reach));
    if (easier <= throat + HAIR) {
      most = Math.max(most, easier);
      continue;
    }
    let worst = 0;
    for (const piece of pieces) {
      for (let i = 0; i <= LOOKS; i++) {
        const s = (piece.length * i) / LOOKS;
        worst = Math.max(worst, Math.min(reachAt(rims, half, piece, s, 'left'), reachAt(rims, half, piece, s, 'right')));
      }
    }
    if (worst > throat + HAIR) return worst;
    if (!roughly) {
      const profile = profileOf(rims, half, pieces, path.closed);
      worst = leastOfBoth(profile).reach;
      if (worst > throat + HAIR) return worst;
      if (partedRuns(profile, throat) === undefined) return easier;
    }
    most = Math.max(most, Math.min(worst, throat));
  }
  return most;
};

const answer = (track: Track, pieces: readonly Piece[], fits: boolean, runs: readonly Stretch[], worst: Stretch): WorkedTrack => ({
  track,
  pieces,
  needed: worst.needed,
  fits,
  runs,
  s: worst.worst,
  side: worst.side,
});

const mostOfTrack = (rims: readonly Rim[], half: number, pieces: readonly Piece[], side: FrameSide): Asked =>
  pieces.reduce<Asked>(
    (most, piece) => {
      const asked = mostAsked(rims, half, piece, side);
      return asked.reach > most.reach ? { reach: asked.reach, s: onItsPiece(piece, piece.before + asked.s) } : most;
    },
    { reach: 0, s: 0 },
  );

/** With the pictures' parts: where the worst is, the frame there. */
export const reported = (
  rims: readonly Rim[],
  worked: Worked,
  roller: Roller,
  throat: number,
): Omit<Reach, 'limit' | 'deepest' | 'thickest' | 'beforeRolling'> => {
  const half = halfFrame(roller);
  const worst = worked.tracks.reduce((most, track) =>
    (track.fits === most.fits ? track.needed > most.needed : !track.fits) ? track : most,
  );
  const { at, along } = spotOn(worst, worst.s);
  const toFrame = worst.side === 'left' ? leftOf(along) : { x: along.y, y: -along.x };
  const corner = (u: number, v: number): Point => ahead(ahead(at, along, u), toFrame, v);
  const frame = [corner(-half, 0), corner(half, 0), corner(half, throat), corner(-half, throat)] as const;
  return {
    roller,
    throat,
    needed: worked.needed,
    fits: worked.fits,
    runs: worked.tracks.flatMap((track) => track.runs.map((run) => runOf(track, run))),
    worst: {
      track: worst.track.id,
      at,
      side: worst.side,
      toFrame,
      along,
      farthest: farthestFrom(rims, half, at, along, worst.side),
      frame: worst.side === 'left' ? frame : [frame[1], frame[0], frame[3], frame[2]],
    },
  };
};

const runOf = (track: WorkedTrack, { from, to, side, needed, otherNeeded }: Stretch): Run => ({
  track: track.track.id,
  from,
  to,
  fromPoint: spotOn(track, from).at,
  toPoint: spotOn(track, to).at,
  side,
  needed,
  otherNeeded,
});

const spotOn = (track: WorkedTrack, s: number): { readonly at: Point; readonly along: Point } =>
  onPath(track.pieces, track.track.path.closed, s);
