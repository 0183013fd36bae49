/** A track parted into runs, each rolled with the frame on one side, as few as the throat allows. */
import type { Rim } from './boundary.js';
import type { Piece } from './path.js';
import { eventsOn, type FrameSide, reachAt } from './reach-asked.js';

export interface Stretch {
  readonly from: number;
  readonly to: number; // past the track's length where a closed track is rolled over its start
  readonly side: FrameSide;
  readonly needed: number;
  /** Where on the track the stretch asks most. */
  readonly worst: number;
  /** What the other side would ask of a whole track. */
  readonly otherNeeded?: number;
}
/** What a track asks at places so near that nothing is missed between them. */
export interface Profile {
  readonly pieces: readonly Piece[];
  readonly closed: boolean;
  readonly length: number;
  readonly rims: readonly Rim[];
  readonly half: number;
  readonly samples: readonly Sample[];
}
interface Sample {
  readonly piece: number;
  readonly s: number; // along the track
  readonly left: number;
  readonly right: number;
}
/** Runs of one track at most: more set-ups than that nobody steers through in one go. Common practice, no source. */
const MOST_RUNS = 4;
/** A reach this little over the throat is the throat, mm. */
export const HAIR = 1e-6;

export const profileOf = (rims: readonly Rim[], half: number, pieces: readonly Piece[], closed: boolean): Profile => {
  const samples = pieces.flatMap((piece, index) =>
    eventsOn(rims, half, piece).map(
      (s): Sample => ({
        piece: index,
        s: piece.before + s,
        left: reachAt(rims, half, piece, s, 'left'),
        right: reachAt(rims, half, piece, s, 'right'),
      }),
    ),
  );
  const last = pieces.at(-1);
  return { pieces, closed, length: last === undefined ? 0 : last.before + last.length, rims, half, samples };
};

/** A place so near a piece's end that it is still on that piece: at a sharp corner the two have different directions. */
export const onItsPiece = (piece: Piece, s: number): number => Math.max(piece.before, Math.min(s, piece.before + piece.length - 1e-7));

const askedAt = (profile: Profile, index: number, s: number, side: FrameSide): number => {
  const piece = profile.pieces[index] as Piece;
  return reachAt(profile.rims, profile.half, piece, s - piece.before, side);
};

type Interval = readonly [number, number];

/** Where along the track the reach asked on a side is over the throat. */
const tooFar = (profile: Profile, side: FrameSide, throat: number): readonly Interval[] => {
  const out: [number, number][] = [];
  const put = (from: number, to: number): void => {
    const last = out.at(-1);
    if (last !== undefined && from <= last[1] + 1e-9) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  };
  const { samples } = profile;
  for (let i = 0; i < samples.length; i++) {
    const a = samples[i] as Sample;
    const badA = a[side] > throat + HAIR;
    if (badA) put(a.s, a.s);
    const b = samples[i + 1];
    if (b === undefined || b.piece !== a.piece) continue;
    const badB = b[side] > throat + HAIR;
    if (badA && badB) put(a.s, b.s);
    else if (badA)
      put(
        a.s,
        change(a, b, (s) => askedAt(profile, a.piece, s, side) > throat + HAIR),
      );
    else if (badB)
      put(
        change(a, b, (s) => askedAt(profile, a.piece, s, side) <= throat + HAIR),
        b.s,
      );
  }
  return out;
};

/** Where a condition that holds at the first place ceases before the second, to 1e-7 mm. */
const change = (a: Sample, b: Sample, holds: (s: number) => boolean): number => {
  let yes = a.s;
  let no = b.s;
  for (let i = 0; i < 60 && no - yes > 1e-7; i++) {
    const half = (yes + no) / 2;
    if (holds(half)) yes = half;
    else no = half;
  }
  return (yes + no) / 2;
};

/** The least throat that would do were the side changed at will, and where it is asked. */
export const leastOfBoth = (profile: Profile): { readonly reach: number; readonly s: number; readonly side: FrameSide } => {
  let reach = -1;
  let at = 0;
  let side: FrameSide = 'left';
  const offer = (left: number, right: number, s: number): void => {
    const less = Math.min(left, right);
    if (less <= reach) return;
    reach = less;
    at = s;
    side = left <= right ? 'left' : 'right';
  };
  const { samples } = profile;
  for (let i = 0; i < samples.length; i++) {
    const a = samples[i] as Sample;
    offer(a.left, a.right, onItsPiece(profile.pieces[a.piece] as Piece, a.s));
    const b = samples[i + 1];
    if (b === undefined || b.piece !== a.piece || a.left > a.right === b.left > b.right) continue;
    const more = a.left > a.right;
    const s = change(a, b, (x) => askedAt(profile, a.piece, x, 'left') > askedAt(profile, a.piece, x, 'right') === more);
    offer(askedAt(profile, a.piece, s, 'left'), askedAt(profile, a.piece, s, 'right'), s);
  }
  return { reach, s: at, side };
};

/** As few runs as the throat allows, and of those that need no more the ones that ask least; undefined when there are none or too many. */
export const partedRuns = (profile: Profile, throat: number): readonly Stretch[] | undefined => {
  const bad = { left: tooFar(profile, 'left', throat), right: tooFar(profile, 'right', throat) };
  // A closed track has no first place of its own: it is begun wherever a side comes to its end.
  const ends = profile.closed ? [...bad.left.flat(), ...bad.right.flat()] : [];
  let best: readonly Stretch[] | undefined;
  for (const start of ends.length === 0 ? [0] : ends) {
    const cuts = greedy(profile, bad, start);
    if (cuts === undefined || cuts.length > Math.min(MOST_RUNS, best?.length ?? MOST_RUNS)) continue;
    const runs = cuts.map(({ from, to, side }): Stretch => ({ from, to, side, ...mostWithin(profile, side, from, to) }));
    if (best === undefined || runs.length < best.length || mostOf(runs) < mostOf(best)) best = runs;
  }
  return best;
};

const mostOf = (runs: readonly Stretch[]): number => Math.max(...runs.map(({ needed }) => needed));

interface Cut {
  readonly from: number;
  readonly to: number;
  readonly side: FrameSide;
}
type Bad = Readonly<Record<FrameSide, readonly Interval[]>>;

/** From a place on, always the side that goes farthest: no other way needs fewer runs from there. */
const greedy = (profile: Profile, bad: Bad, start: number): readonly Cut[] | undefined => {
  const end = start + profile.length;
  const cuts: { from: number; to: number; side: FrameSide }[] = [];
  let at = start;
  while (at < end - 1e-6) {
    const left = Math.min(end, clearUntil(bad.left, at, profile));
    const right = Math.min(end, clearUntil(bad.right, at, profile));
    const side: FrameSide = left >= right ? 'left' : 'right';
    const to = Math.max(left, right);
    if (to <= at + 1e-6 || cuts.length > MOST_RUNS) return undefined;
    const before = cuts.at(-1);
    if (before !== undefined) {
      // Change over half-way through what both sides reach, not at the last hair.
      const since = Math.max(before.from, clearSince(bad[side], at, profile));
      before.to = (since + at) / 2;
    }
    cuts.push({ from: before?.to ?? at, to, side });
    at = to;
  }
  return profile.closed ? closedUp(profile, bad, cuts) : cuts;
};

/** The last run of a closed track joined to its first: one run where both have the same side, else changed over half-way there too. */
const closedUp = (profile: Profile, bad: Bad, cuts: readonly Cut[]): readonly Cut[] => {
  const { length } = profile;
  const first = cuts[0];
  const last = cuts.at(-1);
  if (first === undefined || last === undefined || first === last) return cuts;
  const middle = cuts.slice(1, -1);
  if (first.side === last.side) return [withinTrack({ ...last, to: first.to + length }, length), ...middle];
  const since = Math.max(last.from, clearSince(bad[first.side], last.to, profile));
  const until = Math.min(first.to + length, clearUntil(bad[last.side], last.to, profile));
  const seam = (since + until) / 2;
  return [{ ...first, from: seam - length }, ...middle, { ...last, to: seam }].map((cut) => withinTrack(cut, length));
};

/** A run round a closed track, begun within 0…length. */
const withinTrack = ({ from, to, side }: Cut, length: number): Cut => {
  const back = Math.floor((from + 1e-9) / length) * length;
  return { from: from - back, to: to - back, side };
};

/** How far on from a place a side stays within the throat; the place itself when it is not. Places go round a closed track. */
const clearUntil = (bad: readonly Interval[], at: number, profile: Profile): number => {
  let until = Number.POSITIVE_INFINITY;
  for (const shift of profile.closed ? [0, profile.length, 2 * profile.length] : [0]) {
    for (const [from, to] of bad) {
      if (to + shift <= at + 1e-6) continue;
      until = Math.min(until, Math.max(at, from + shift));
    }
  }
  return until;
};
const clearSince = (bad: readonly Interval[], at: number, profile: Profile): number => {
  let since = Number.NEGATIVE_INFINITY;
  for (const shift of profile.closed ? [-profile.length, 0, profile.length] : [0]) {
    for (const [, to] of bad) if (to + shift <= at + 1e-6) since = Math.max(since, to + shift);
  }
  return since;
};

const mostWithin = (profile: Profile, side: FrameSide, from: number, to: number): { needed: number; worst: number } => {
  let needed = 0;
  let worst = from;
  const offer = (reach: number, s: number): void => {
    if (reach <= needed) return;
    needed = reach;
    worst = s;
  };
  const { samples, length } = profile;
  for (const shift of profile.closed ? [0, length] : [0]) {
    samples.forEach((sample, i) => {
      const s = sample.s + shift;
      if (s >= from - 1e-9 && s <= to + 1e-9) offer(sample[side], onItsPiece(profile.pieces[sample.piece] as Piece, sample.s));
      const next = samples[i + 1];
      for (const end of [from, to]) {
        if (next !== undefined && next.piece === sample.piece && end > s && end < next.s + shift) {
          offer(askedAt(profile, sample.piece, end - shift, side), end - shift);
        }
      }
    });
  }
  return { needed, worst };
};
