/** How near beads come to edges, bends, holes and one another. Distances count from the middle of a track. */
import type { Blank } from '../blank/types.js';
import { apart, boxesMeet, moveLength } from '../shape/arcs.js';
import { pointInLoop } from '../shape/inside.js';
import { movesMeet } from '../shape/meetings.js';
import type { Loop, Point } from '../shape/path.js';
import {
  beadEndToBead,
  beadToBead,
  beadToBend,
  beadToEdge,
  beadToHole,
  dimpleToBend,
  dimpleToEdge,
  dimpleToHole,
  type RuledSpacing,
} from '../trade/spacing.js';
import { type Gap, nearest, type Span, spansOf, spansOfLoop, spansOfPath } from './nearest.js';
import { dot, onPiece, piecesOf } from './path.js';
import type { BendCrossing, Spacing, Track } from './types.js';

export interface Laid {
  readonly id: string;
  readonly width: number;
  readonly tracks: readonly Track[];
}
/** The blank's own lines, gathered once for all beads. */
export interface Around {
  readonly thickness: number;
  readonly outline: readonly Span[];
  readonly holes: readonly { readonly id: string; readonly spans: readonly Span[] }[];
  readonly bends: readonly {
    readonly id: string;
    readonly tangents: readonly Span[];
    readonly zone: Loop;
    readonly round: readonly Span[];
  }[];
  readonly tracks: readonly { readonly bead: string; readonly width: number; readonly track: Track; readonly spans: readonly Span[] }[];
}

const segment = ([from, to]: readonly [Point, Point]): readonly Span[] => spansOf(from, [{ kind: 'line', to }]);

export const aroundOf = (blank: Blank, beads: readonly Laid[]): Around => ({
  thickness: blank.thickness,
  outline: spansOfLoop(blank.outline),
  holes: blank.cutouts.map((cut) => ({ id: cut.id, spans: spansOfLoop(cut.loop) })),
  bends: blank.bends.map((bend) => ({
    id: `bend:${bend.id}`,
    tangents: [...segment(bend.tangentParent), ...segment(bend.tangentChild)],
    zone: bend.zone,
    round: spansOfLoop(bend.zone),
  })),
  tracks: beads.flatMap((bead) =>
    bead.tracks.map((track) => ({ bead: bead.id, width: bead.width, track, spans: spansOfPath(track.path) })),
  ),
});

/** The nearest edge, bend, hole and other bead of each bead, each with what the trade wants between them. */
export const spacingsOf = (around: Around, bead: Laid): readonly Spacing[] => {
  const own = around.tracks.filter((track) => track.bead === bead.id);
  const edge = least(own, (track, within) => nearestEdge(around, track.track, track.spans, within));
  const bend = leastOver(own, around.bends, (b) => b.tangents);
  const hole = leastOver(own, around.holes, (h) => h.spans);
  const found: Spacing[] = [];
  if (edge !== undefined) found.push(spacing('edge', edge, beadToEdge(around.thickness, bead.width)));
  if (bend !== undefined) found.push(spacing('bend', bend, beadToBend(around.thickness, bead.width)));
  if (hole !== undefined) found.push(spacing('hole', hole, beadToHole(around.thickness, bead.width)));
  const other = nearestBead(around, bead, own);
  if (other !== undefined) found.push(other);
  return found;
};

interface Found {
  readonly track: string;
  readonly id: string | undefined;
  readonly gap: Gap;
}
type OwnTrack = Around['tracks'][number];

const spacing = (to: Spacing['to'], { track, id, gap }: Found, wanted: RuledSpacing): Spacing => ({
  to,
  track,
  id,
  found: gap.distance,
  wanted: wanted.distance,
  rule: wanted.rule,
  source: wanted.source,
  at: gap.at,
});

const least = (tracks: readonly OwnTrack[], find: (track: OwnTrack, within: number) => Found | undefined): Found | undefined =>
  tracks.reduce<Found | undefined>((best, track) => find(track, best?.gap.distance ?? Number.POSITIVE_INFINITY) ?? best, undefined);

const leastOver = <T extends { readonly id: string }>(
  tracks: readonly OwnTrack[],
  things: readonly T[],
  spans: (thing: T) => readonly Span[],
): Found | undefined =>
  things.reduce<Found | undefined>(
    (best, thing) =>
      least(tracks, (track, within) => {
        const gap = nearest(track.spans, spans(thing), Math.min(within, best?.gap.distance ?? Number.POSITIVE_INFINITY));
        return gap === undefined ? undefined : { track: track.track.id, id: thing.id, gap };
      }) ?? best,
    undefined,
  );

/** An edge that the track is meant to run over is not too near. */
const nearestEdge = (around: Around, track: Track, spans: readonly Span[], within: number): Found | undefined => {
  const over = [track.start, track.finish].flatMap((end) => (end?.kind === 'run off' ? [end.at] : []));
  const spot = (at: Point): readonly Span[] => spansOf(at, [{ kind: 'line', to: at }]);
  let best: Found | undefined;
  for (const rim of around.outline) {
    if (over.some((at) => nearest(spot(at), [rim], 1e-6) !== undefined)) continue;
    const gap = nearest(spans, [rim], best?.gap.distance ?? within);
    if (gap !== undefined) best = { track: track.id, id: rim.move.id, gap };
  }
  return best;
};

/** The other bead whose room is shortest of what it should be. */
const nearestBead = (around: Around, bead: Laid, own: readonly OwnTrack[]): Spacing | undefined => {
  let best: Spacing | undefined;
  for (const other of around.tracks) {
    if (other.bead === bead.id) continue;
    for (const track of own) {
      // Farther than this it can't be shorter of room than the best so far, whichever way they face.
      const within =
        best === undefined ? undefined : best.found - best.wanted + beadToBead(bead.width, other.width).distance + 3 * around.thickness;
      const gap = nearest(track.spans, other.spans, within);
      if (gap === undefined) continue;
      const endOn = facesAnEnd(track.track, gap.at[0], gap.at[1]) || facesAnEnd(other.track, gap.at[1], gap.at[0]);
      const wanted = endOn ? beadEndToBead(around.thickness, bead.width, other.width) : beadToBead(bead.width, other.width);
      const found = spacing('bead', { track: track.track.id, id: other.bead, gap }, wanted);
      if (best === undefined || found.found - found.wanted < best.found - best.wanted) best = found;
    }
  }
  return best;
};

/** Whether a track runs toward the other place at one of its ends, rather than beside it. */
const facesAnEnd = (track: Track, at: Point, other: Point): boolean => {
  if (track.path.closed) return false;
  const pieces = piecesOf(track.path);
  const first = pieces[0];
  const last = pieces.at(-1);
  if (first === undefined || last === undefined) return false;
  const gap = { x: other.x - at.x, y: other.y - at.y };
  const distance = Math.hypot(gap.x, gap.y);
  const ahead = (end: Point, along: Point, sign: number): boolean =>
    Math.hypot(end.x - at.x, end.y - at.y) < 1e-6 && sign * dot(gap, along) > Math.SQRT1_2 * distance + 1e-9;
  return ahead(first.from, onPiece(first, 0).along, -1) || ahead(last.move.to, onPiece(last, last.length).along, 1);
};

/** Bends whose zone a track enters, with where. */
export const crossingsOf = (around: Around, bead: Laid): readonly BendCrossing[] =>
  around.tracks
    .filter((track) => track.bead === bead.id)
    .flatMap(({ track, spans }) =>
      around.bends.flatMap(({ id, zone, round }): readonly BendCrossing[] => {
        const at = firstMeeting(spans, round) ?? within(track, zone);
        return at === undefined ? [] : [{ track: track.id, bend: id.slice('bend:'.length), at }];
      }),
    );

/** Where a track first comes upon a line. */
const firstMeeting = (spans: readonly Span[], round: readonly Span[]): Point | undefined => {
  for (const { from, move, box } of spans) {
    const met = round.flatMap((edge) => (boxesMeet(box, edge.box, 1e-6) ? movesMeet(from, move, edge.from, edge.move, 1e-6) : []));
    const along = (p: Point): number => (apart(from, p) < 1e-6 ? 0 : moveLength(from, { ...move, to: p }));
    if (met.length > 0) return met.reduce((first, p) => (along(p) < along(first) ? p : first));
  }
  return undefined;
};

/** A track that lies wholly in a zone meets none of its edges. */
const within = (track: Track, zone: Loop): Point | undefined => {
  const [piece] = piecesOf(track.path);
  if (piece === undefined) return undefined;
  const { at } = onPiece(piece, piece.length / 2);
  return pointInLoop(at, zone) ? at : undefined;
};

/** The same for a hole with a pressed rim, from its middle. */
export const dimpleSpacings = (around: Around, id: string, at: Point, diameter: number): readonly Spacing[] => {
  const spot: OwnTrack = {
    bead: id,
    width: diameter,
    track: {
      id,
      path: { start: at, moves: [], closed: false },
      length: 0,
      tightest: undefined,
      tightestInside: undefined,
      land: undefined,
      start: undefined,
      finish: undefined,
    },
    spans: spansOf(at, [{ kind: 'line', to: at }]),
  };
  const { thickness } = around;
  const edge = least([spot], (track, within) => nearestEdge(around, track.track, track.spans, within));
  const bend = leastOver([spot], around.bends, (b) => b.tangents);
  const hole = leastOver(
    [spot],
    around.holes.filter((h) => h.id !== id),
    (h) => h.spans,
  );
  const bead = leastOver(
    [spot],
    around.tracks.map((track) => ({ id: track.bead, spans: track.spans, width: track.width })),
    (track) => track.spans,
  );
  const found: Spacing[] = [];
  if (edge !== undefined) found.push(spacing('edge', edge, dimpleToEdge(thickness, diameter)));
  if (bend !== undefined) found.push(spacing('bend', bend, dimpleToBend(thickness, diameter)));
  if (hole !== undefined) found.push(spacing('hole', hole, dimpleToHole(thickness, diameter)));
  const width = around.tracks.find((track) => track.bead === bead?.id)?.width;
  if (bead !== undefined && width !== undefined) found.push(spacing('bead', bead, beadEndToBead(thickness, diameter, width)));
  return found;
};
