/** One bead from what is written to what the roller is asked. */
import type { Blank } from '../blank/types.js';
import type { Bead, Panel } from '../model/part.js';
import type { Die, Roller, Sheet } from '../model/shop.js';
import { pointToLoop } from '../shape/distances.js';
import { pointInLoop } from '../shape/inside.js';
import type { Loop, Placement, Point } from '../shape/path.js';
import { type Rim, rimOf } from './boundary.js';
import { type Mark, markOf, thickestRolled } from './figures.js';
import { carriedPath, meetingsAlong, onPiece, type Piece, piecesOf } from './path.js';
import { asksWithin, halfFrame, reported, workReach } from './reach.js';
import { deepestPlace, limitOf } from './throat-limit.js';
import { tracksOf } from './tracks.js';
import type { DeepestPlace, DrawIn, Path, Reach, Track, TrackEnd, Unworked, Words } from './types.js';
import { writtenPaths } from './written.js';

export interface Bench {
  readonly panel: Panel;
  readonly sheet: Sheet;
  readonly blank: Blank;
  readonly rims: readonly Rim[];
  /** From the part's coordinates to the blank's. */
  readonly base: Placement;
  readonly words: Words;
}
/** A bead on the blank, before it is asked what stands round it. */
export interface LaidBead {
  readonly bead: Bead;
  readonly die: Die;
  readonly mark: Mark;
  readonly middle: readonly Path[];
  readonly tracks: readonly Track[];
  readonly id: string;
  readonly width: number;
}

export const layBead = (bench: Bench, bead: Bead, unworked: Unworked[]): LaidBead | undefined => {
  const { panel, sheet, words } = bench;
  const die = bead.die?.value;
  if (die === undefined) {
    unworked.push({
      id: bead.id,
      span: bead.nameSpan,
      kind: 'no-die',
      message: `${bead.id} names no die: write \`die NAME\` in its braces`,
    });
    return undefined;
  }
  const mark = markOf(die, sheet, panel.trials, words);
  const span = bead.die?.span ?? bead.nameSpan;
  if (!('width' in mark)) {
    unworked.push({ id: bead.id, span, kind: 'die-without-size', message: mark.refusal });
    return undefined;
  }
  if (mark.refusal !== undefined) unworked.push({ id: bead.id, span, kind: 'no-section', message: mark.refusal });
  const { middle, tracks } = linesOf(bench, bead, mark.width, unworked);
  const off = tracks.map((track) => offTheSheet(bench.blank.outline, track)).find((at) => at !== undefined);
  if (off !== undefined) {
    const at = inThePart(bench.base, off);
    const message = `${bead.id} lies off the sheet at (${words.say(at.x)}, ${words.say(at.y)}): keep its points on the sheet, or end it with \`ends run off\``;
    unworked.push({ id: bead.id, span: bead.pathSpan, kind: 'off-the-sheet', message });
  }
  return tracks.length === 0 ? undefined : { bead, die, mark, middle, tracks, id: bead.id, width: mark.width };
};

/**
 * The first place of a track that is not on the sheet: a bend of it, the middle of what an arc has past the rim, or an end that is not meant to run off.
 * Ends on the very edge are on it.
 */
const offTheSheet = (outline: Loop, { path, start, finish }: Track): Point | undefined => {
  const pieces = piecesOf(path);
  const last = pieces.length - 1;
  const ranOff = (end: TrackEnd | undefined): boolean => end?.kind === 'run off';
  for (const [i, piece] of pieces.entries()) {
    const [first, final] = [i === 0 && ranOff(start), i === last && ranOff(finish)];
    const middles = piece.move.kind === 'arc' ? middlesOf(piece, outline).slice(first ? 1 : 0, final ? -1 : undefined) : [];
    for (const at of [first ? undefined : piece.from, final ? undefined : piece.move.to, ...middles]) {
      if (at !== undefined && !pointInLoop(at, outline) && pointToLoop(at, outline) > 1e-6) return at;
    }
  }
  return undefined;
};

/** The middles of the parts that a rim cuts a piece into. */
const middlesOf = (piece: Piece, outline: Loop): readonly Point[] => {
  const places = [0, ...meetingsAlong(piece, outline), piece.length];
  return places.slice(1).map((s, i) => onPiece(piece, (s + (places[i] as number)) / 2).at);
};

/** A place of the blank in the part's own coordinates. */
const inThePart = ({ cos, sin, tx, ty, mirrored }: Placement, p: Point): Point => {
  const [dx, dy] = [p.x - tx, p.y - ty];
  const y = cos * dy - sin * dx;
  return { x: cos * dx + sin * dy, y: mirrored === true ? -y : y };
};

const linesOf = (
  { panel, blank, base, words }: Bench,
  bead: Bead,
  width: number,
  unworked: Unworked[],
): { readonly middle: readonly Path[]; readonly tracks: readonly Track[] } => {
  const written = writtenPaths(panel, bead, words);
  unworked.push(...written.unworked);
  const middle = written.paths.map((path) => carriedPath(base, path));
  return { middle, tracks: tracksOf({ bead, width, outline: blank.outline, words, unworked }, middle) };
};

/** The sheet before any rolling: its rim, where the tracks are marked on it, and the most by which any of it lies farther from a track than afterwards. */
export interface AsCut {
  readonly rims: readonly Rim[];
  readonly marks: ReadonlyMap<string, Path>;
  readonly most: number;
}
export const asCutOf = (drawIn: DrawIn | undefined): AsCut | undefined => {
  if (drawIn === undefined) return undefined;
  const { width, height } = drawIn.growth.used;
  return { rims: rimOf(drawIn.asCut), marks: new Map(drawIn.marks.map(({ track, path }) => [track, path])), most: width + height };
};

/** Every roller of the shop that says its throat, the best first: one that reaches before one that does not, in fewer runs, with more to spare. */
export const reachesOf = (bench: Bench, laid: LaidBead, asCut: AsCut | undefined): readonly Reach[] =>
  bench.panel.rollers
    .flatMap((roller) => (roller.throat === undefined ? [] : [reachOf(bench, laid, asCut, roller, roller.throat)]))
    .sort(
      (a, b) =>
        Number(overloaded(bench, a)) - Number(overloaded(bench, b)) ||
        Number(b.fits) - Number(a.fits) ||
        (a.fits ? a.runs.length - b.runs.length : 0) ||
        b.throat - b.needed - (a.throat - a.needed),
    );

const overloaded = ({ sheet }: Bench, { thickest }: Reach): boolean => thickest !== undefined && sheet.thickness > thickest + 1e-9;

const reachOf = (bench: Bench, laid: LaidBead, asCut: AsCut | undefined, roller: Roller, throat: number): Reach => {
  const { rims } = bench;
  const half = halfFrame(roller);
  const worked = workReach(rims, laid.tracks, throat, half);
  const found = reported(rims, worked, roller, throat);
  const before = reachBefore(asCut, laid.tracks, throat, half, worked.needed);
  // What lies farther out before rolling is taken off the throat, so that the place found serves then too.
  const spare = Math.max(0, (before?.needed ?? 0) - worked.needed - PLAY);
  return {
    ...found,
    beforeRolling: before,
    thickest: thickestRolled(roller, bench.sheet),
    limit: limitOf(rims, half, throat, straightest(laid.tracks) ?? found.worst.along),
    deepest: found.fits && before?.fits !== false ? undefined : deepest(bench, laid, half, throat - spare, found),
  };
};

/** Sheet that stands this little too far before rolling is sprung or filed past the frame, mm. Common practice, no source. */
const PLAY = 1;

const reachBefore = (
  asCut: AsCut | undefined,
  tracks: readonly Track[],
  throat: number,
  half: number,
  needed: number,
): Reach['beforeRolling'] => {
  if (asCut === undefined || needed + asCut.most <= throat) return undefined;
  const marked = tracks.map((track): Track => ({ ...track, path: asCut.marks.get(track.id) ?? track.path }));
  const worked = workReach(asCut.rims, marked, throat, half);
  return { needed: worked.needed, fits: worked.needed <= throat + PLAY || worked.fits };
};

/** Direction of a bead's longest straight; undefined when it has none. */
const straightest = (tracks: readonly Track[]): Point | undefined => {
  let longest = 0;
  let along: Point | undefined;
  for (const track of tracks) {
    for (const piece of piecesOf(track.path)) {
      if (piece.move.kind !== 'line' || piece.length <= longest + 1e-9) continue;
      longest = piece.length;
      along = onPiece(piece, 0).along;
    }
  }
  return along;
};

const deepest = (
  bench: Bench,
  { bead, width }: LaidBead,
  half: number,
  throat: number,
  { needed, worst }: Pick<Reach, 'needed' | 'worst'>,
): DeepestPlace | undefined => {
  const face = bench.blank.faces.find(({ id }) => id === 'base')?.polygon ?? bench.blank.outline;
  const laid = (changed: Bead): readonly Track[] => {
    const unworked: Unworked[] = [];
    const { tracks } = linesOf(bench, changed, width, unworked);
    return unworked.length > 0 ? [] : tracks;
  };
  return deepestPlace(bead, throat, needed, asWritten(bench.base, bead, worst.toFrame), {
    asks: (changed, roughly) => {
      const tracks = laid(changed);
      return tracks.length === 0 ? undefined : asksWithin(bench.rims, tracks, throat, half, roughly);
    },
    lies: (changed) => {
      const tracks = laid(changed);
      return tracks.length > 0 && tracks.every((track) => offTheSheet(face, track) === undefined);
    },
  });
};

/** A direction on the blank in the words of the bead as written: back through the base's place and the copy's mirrors. */
const asWritten = ({ cos, sin, mirrored }: Placement, { copy }: Bead, d: Point): Point => {
  const x = cos * d.x + sin * d.y;
  const turned = -sin * d.x + cos * d.y;
  const y = mirrored === true ? -turned : turned;
  return { x: copy.mirrorX ? -x : x, y: copy.mirrorY ? -y : y };
};
