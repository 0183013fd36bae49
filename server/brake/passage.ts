/**
 * Whether the part gets in and out of the opened brake: seen from the side it may be shifted, lifted and tilted while the clamp rises, and nothing of it may pass
 * through the nose, the bed or the lowered apron. What goes out goes in by the same way.
 *
 * Places are parted into stretches of tilt and bands of height; in each, what is free along the brake's depth is told from everything that is passed in that stretch and
 * band, so that no way is told that is not free. A way that is less than a band wide can be missed, but for the level ones.
 */
import { type Convex, hullOf, overlapDepth } from '../shape/convex.js';
import type { Point } from '../shape/path.js';
import { queueOf } from './queue.js';

/** The part in one place, as convex pieces: those that the nose may strike, and those that everything else may. */
export interface Lying {
  readonly atNose: readonly Convex[];
  readonly atRest: readonly Convex[];
}
/** The brake. What rises is given where it clamps. */
export interface Gate {
  readonly nose: readonly Convex[];
  /** Rises with the nose. */
  readonly beam: readonly Convex[];
  /** Bed and lowered apron. */
  readonly still: readonly Convex[];
  /** How far the clamp rises, mm. */
  readonly rise: number;
}
export interface Way {
  readonly tilted: boolean;
  /** Only to the back of the brake. */
  readonly back: boolean;
}

/** Tilts are looked through in stretches of this, up to a quarter turn either way, rad. */
const TILT = (6 * Math.PI) / 180;
const MOST_TILT = 15;
/** Height of a band, mm. */
const BAND = 2;
/** Left round everything, so that the way out leads into the open, mm. */
const OPEN = 10;
/** Half the width of a post, mm. */
const HAIR = 0.01;

/**
 * @param part as it lies clamped
 * @param any the first way that is found will do; else level ones to the front count most, then tilted ones, then those to the back
 * @returns undefined when no way out is found
 */
export const wayOut = (part: Lying, gate: Gate, any = false): Way | undefined => {
  const reach = (polygons: readonly Convex[]): number => Math.max(0, ...polygons.flat().map((p) => Math.hypot(p.x, p.y)));
  const far = reach([...part.atNose, ...part.atRest]) + reach([...gate.nose, ...gate.beam, ...gate.still]) + gate.rise + OPEN;
  // Above the clamp and below the bed stands what carries them: front and back are apart.
  const beam = [...gate.beam, ...post([...gate.nose, ...gate.beam], 1, 3 * far)];
  const still = [...gate.still, ...post(gate.still, -1, 3 * far)];

  const places = opened(part, { nose: gate.nose, beam, still, rise: gate.rise }, far);
  if (places.length === 0) return undefined;
  const lifted = (pieces: readonly Convex[]): readonly Convex[] =>
    pieces.map((piece) => piece.map((p) => ({ x: p.x, y: p.y + gate.rise })));
  const tools = { nose: lifted(gate.nose), rest: [...lifted(beam), ...still] };
  const slices = new Map<number, Slice>();
  const sliceAt = (tilt: number): Slice => {
    const known = slices.get(tilt) ?? sliceOf(part, tools, tilt, far);
    slices.set(tilt, known);
    return known;
  };
  const level = search(
    places.map((free) => ({ tilt: 0, band: 0, free })),
    sliceAt,
    far,
    { tilts: false, any },
  );
  if (level.front) return { tilted: false, back: false };
  if (level.back && any) return { tilted: false, back: true };
  const tilted = search(level.seen, sliceAt, far, { tilts: true, any });
  if (tilted.front) return { tilted: true, back: false };
  return level.back ? { tilted: false, back: true } : tilted.back ? { tilted: true, back: true } : undefined;
};

type Stretch = readonly [number, number];
/** Somewhere the part may be: a stretch of tilt, a band of height, and where along the depth. */
interface Place {
  /** 0 is level, exactly; k is from (k − 1) to k stretches of tilt, −k the other way. */
  readonly tilt: number;
  /** 0 is on the bed, exactly; k is from (k − 1) to k bands above, −k below. */
  readonly band: number;
  readonly free: Stretch;
}
interface Slice {
  readonly freeIn: (band: number) => readonly Stretch[];
}

const search = (
  starts: readonly Place[],
  sliceAt: (tilt: number) => Slice,
  far: number,
  { tilts, any }: { readonly tilts: boolean; readonly any: boolean },
): { readonly front: boolean; readonly back: boolean; readonly seen: readonly Place[] } => {
  const seen = new Map<number, Map<number, Set<Stretch>>>();
  // Whatever reaches farthest toward the operator first.
  const queue = queueOf<Place>((a, b) => a.free[1] > b.free[1]);
  const all: Place[] = [];
  let back = false;
  const visit = (place: Place): void => {
    let bands = seen.get(place.tilt);
    if (bands === undefined) {
      bands = new Map();
      seen.set(place.tilt, bands);
    }
    let stretches = bands.get(place.band);
    if (stretches === undefined) {
      stretches = new Set();
      bands.set(place.band, stretches);
    }
    if (stretches.has(place.free)) return;
    stretches.add(place.free);
    queue.add(place);
    all.push(place);
  };
  for (const start of starts) visit(start);
  const last = Math.floor(far / BAND);
  for (let place = queue.take(); place !== undefined; place = queue.take()) {
    const { tilt, band, free } = place;
    if (free[1] >= far) return { front: true, back, seen: all };
    // Out at the back it is in the open: from there it gets anywhere but to the front.
    if (free[0] <= -far) {
      back = true;
      if (any) break;
      continue;
    }
    const next = (otherTilt: number, otherBand: number): void => {
      for (const stretch of sliceAt(otherTilt).freeIn(otherBand))
        if (stretch[0] < free[1] && free[0] < stretch[1]) visit({ tilt: otherTilt, band: otherBand, free: stretch });
    };
    if (band < last) next(tilt, band + 1);
    if (band > -last) next(tilt, band - 1);
    if (tilts && tilt < MOST_TILT) next(tilt + 1, band);
    if (tilts && tilt > -MOST_TILT) next(tilt - 1, band);
  }
  return { front: false, back, seen: all };
};

const boundsOf = (index: number, size: number): Stretch =>
  index === 0 ? [0, 0] : index > 0 ? [(index - 1) * size, index * size] : [index * size, (index + 1) * size];

const sliceOf = (
  part: Lying,
  tools: { readonly nose: readonly Convex[]; readonly rest: readonly Convex[] },
  tilt: number,
  far: number,
): Slice => {
  const [from, to] = boundsOf(tilt, TILT);
  const blocked = [
    ...part.atNose.flatMap((piece) => meetings(tools.nose, tilted(piece, from, to))),
    ...part.atRest.flatMap((piece) => meetings(tools.rest, tilted(piece, from, to))),
  ].map(withHeights);
  const known = new Map<number, readonly Stretch[]>();
  return {
    freeIn: (band) => {
      const before = known.get(band) ?? freeBetween(blocked, boundsOf(band, BAND), far);
      known.set(band, before);
      return before;
    },
  };
};

/** Where the part may stand on the bed once the clamp is up. While it rises, the part may be shifted along the bed: seen from the clamp, it sinks. */
const opened = (part: Lying, gate: Gate, far: number): readonly Stretch[] => {
  const { rise } = gate;
  const onBed = part.atRest.flatMap((piece) => meetings(gate.still, piece)).map(withHeights);
  const clamp = [
    ...part.atNose.flatMap((piece) => meetings(gate.nose, piece)),
    ...part.atRest.flatMap((piece) => meetings(gate.beam, piece)),
  ].map(withHeights);
  const alongBed = blockedBetween(onBed, [0, 0]);
  const bands = Math.max(1, Math.ceil(rise / BAND));
  const freeAt = (sunk: Stretch): readonly Stretch[] => free([...alongBed, ...blockedBetween(clamp, [-sunk[1], -sunk[0]])], far);
  const rising = Array.from({ length: bands }, (_, i): Stretch => [(i * rise) / bands, ((i + 1) * rise) / bands]);
  const layers = [[0, 0] as const, ...rising, [rise, rise] as const].map(freeAt);
  const at = layers.map((): Set<Stretch> => new Set());
  const queue: [number, Stretch][] = [];
  const visit = (layer: number, stretch: Stretch): void => {
    if (at[layer]?.has(stretch) !== false) return;
    at[layer]?.add(stretch);
    queue.push([layer, stretch]);
  };
  for (const stretch of layers[0] ?? []) if (stretch[0] <= 0 && stretch[1] >= 0) visit(0, stretch);
  // The clamp may come down again on the way.
  for (const [layer, [from, to]] of queue)
    for (const other of [layer - 1, layer + 1])
      for (const stretch of layers[other] ?? []) if (stretch[0] < to && from < stretch[1]) visit(other, stretch);
  return [...(at[layers.length - 1] ?? [])];
};

interface Blocked {
  readonly area: Convex;
  readonly low: number;
  readonly high: number;
}
const withHeights = (area: Convex): Blocked => ({
  area,
  low: Math.min(...area.map((p) => p.y)),
  high: Math.max(...area.map((p) => p.y)),
});
const freeBetween = (blocked: readonly Blocked[], band: Stretch, far: number): readonly Stretch[] =>
  free(blockedBetween(blocked, band), far);
const free = (blocked: readonly Stretch[], far: number): readonly Stretch[] => {
  const stretches: Stretch[] = [];
  let at = -far;
  for (const [from, to] of [...blocked].sort((a, b) => a[0] - b[0])) {
    if (from >= far) break;
    if (from > at) stretches.push([at, from]);
    at = Math.max(at, to);
  }
  if (at < far) stretches.push([at, far]);
  return stretches;
};
/** What the areas take up of the depth, anywhere within a band. */
const blockedBetween = (blocked: readonly Blocked[], [low, high]: Stretch): readonly Stretch[] => {
  const stretches: Stretch[] = [];
  for (const one of blocked) {
    if (one.high <= low || one.low >= high) if (!(low === high && one.low < low && one.high > low)) continue;
    const { area } = one;
    let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = 0; i < area.length; i++) {
      const p = area[i] as Point;
      const q = area[i + 1 === area.length ? 0 : i + 1] as Point;
      if (p.y >= low && p.y <= high) {
        if (p.x < from) from = p.x;
        if (p.x > to) to = p.x;
      }
      for (const line of low === high ? [low] : [low, high]) {
        if (p.y < line === q.y < line) continue;
        const x = p.x + ((q.x - p.x) * (line - p.y)) / (q.y - p.y);
        if (x < from) from = x;
        if (x > to) to = x;
      }
    }
    if (to > from) stretches.push([from, to]);
  }
  return stretches;
};

/** All shifts at which a piece would meet one of the tools: the tool swept by the mirrored piece. */
const meetings = (tools: readonly Convex[], piece: Convex): readonly Convex[] => {
  const mirrored = piece.map((p) => ({ x: -p.x, y: -p.y }));
  return tools.map((tool) => swept(tool, mirrored));
};
/** Two convex shapes, one swept by the other (their Minkowski sum): the edges of both in the order of their directions. */
const swept = (a: Convex, b: Convex): Convex => {
  const [i0, j0] = [lowest(a), lowest(b)];
  const [n, m] = [a.length, b.length];
  const area: Point[] = [];
  let [i, j] = [0, 0];
  while (i < n || j < m) {
    const [p, q] = [a[(i0 + i) % n] as Point, b[(j0 + j) % m] as Point];
    area.push({ x: p.x + q.x, y: p.y + q.y });
    const [p2, q2] = [a[(i0 + i + 1) % n] as Point, b[(j0 + j + 1) % m] as Point];
    const cross = (p2.x - p.x) * (q2.y - q.y) - (p2.y - p.y) * (q2.x - q.x);
    if (j >= m || (i < n && cross > 0)) i++;
    else if (i >= n || cross < 0) j++;
    else {
      i++;
      j++;
    }
  }
  return area;
};
const lowest = (polygon: Convex): number => {
  let best = 0;
  for (let i = 1; i < polygon.length; i++) {
    const [p, q] = [polygon[i] as Point, polygon[best] as Point];
    if (p.y < q.y || (p.y === q.y && p.x < q.x)) best = i;
  }
  return best;
};

/** A thin post from the highest place of some pieces upward, or from the lowest down. */
const post = (pieces: readonly Convex[], sense: 1 | -1, far: number): readonly Convex[] => {
  const end = pieces.flat().sort((a, b) => sense * (b.y - a.y) || a.x - b.x)[0];
  if (end === undefined) return [];
  const [low, high] = sense === 1 ? [end.y, far] : [-far, end.y];
  return [
    [
      { x: end.x - HAIR, y: low },
      { x: end.x + HAIR, y: low },
      { x: end.x + HAIR, y: high },
      { x: end.x - HAIR, y: high },
    ],
  ];
};

/** All that a piece passes while it is tilted about the origin from one angle to another: its corners, and where their tangents meet half-way. */
const tilted = (piece: Convex, from: number, to: number): Convex => {
  if (from === 0 && to === 0) return piece;
  const half = (to - from) / 2;
  const at = (angle: number, share: number): readonly Point[] => {
    const [cos, sin] = [Math.cos(angle) * share, Math.sin(angle) * share];
    return piece.map((p) => ({ x: cos * p.x - sin * p.y, y: sin * p.x + cos * p.y }));
  };
  return hullOf([...at(from, 1), ...at(from + half, 1 / Math.cos(half)), ...at(to, 1)]);
};

/** Pieces that lie wholly within another say nothing of their own. */
export const outermost = (pieces: readonly Convex[]): readonly Convex[] =>
  pieces.filter((piece, i) => !pieces.some((other, k) => i !== k && within(piece, other) && (!within(other, piece) || k < i)));
const within = (inner: Convex, outer: Convex): boolean => inner.every((p) => overlapDepth([p], outer) >= -1e-9);
