/**
 * What a die lifts out of the sheet along its track, as a ribbon of triangles that follows the track: for pictures only. The true section across; at the ends
 * a dome, a fade, or straight on over the sheet's edge.
 */
import type { Track, WorkedBead } from '../bead/types.js';
import { tessellate } from '../shape/loops.js';
import type { Point } from '../shape/path.js';
import { midlinePoints } from '../trade/midline.js';

/** A corner of the ribbon: where it stands over the flat sheet, how high, and how steep that is along x and y. */
export interface RibbonCorner extends Point {
  readonly height: number;
  readonly dx: number;
  readonly dy: number;
}
export interface Ribbon {
  readonly triangles: readonly (readonly [RibbonCorner, RibbonCorner, RibbonCorner])[];
  /** Where the sheet begins to rise. */
  readonly feet: readonly (readonly [Point, Point])[];
}
/** Across the track, from its right to its left. */
interface Sample {
  readonly left: number;
  readonly height: number;
  readonly slope: number;
}
/** A place on the track: what is to its left, how far the section is drawn out there by a turn, and how much of the full section there is. */
interface Station {
  readonly at: Point;
  readonly left: Point;
  readonly stretch: number;
  readonly full: number;
}
type Ends = Pick<Track, 'start' | 'finish'>;
type Path = Track['path'];

/** Chords stay this near (mm) to arcs. */
const CHORD = 0.1;
const MOST_SAMPLES = 14;
/** Steeper flanks are shaded as though they were so steep; upright ones have no slope. */
const STEEPEST = 4;
/** An open end fades out over so many widths of the bead: how it looks, no more. Common practice, no source. */
const FADE = 2;
const FADE_STEPS = 6;
const DOME_STEPS = 8;

/** One track of a bead or band. */
export const trackRibbon = (bead: WorkedBead, track: Track): Ribbon => {
  const samples = sectionOf(bead, track.land);
  const stations = stationsOf(track.path, track, bead.width);
  const round = track.land === undefined;
  const swept = sweptAlong(stations, samples, { closed: track.path.closed, narrows: round });
  if (!round) return swept;
  const domes = (['start', 'finish'] as const).flatMap((end) => (track[end]?.kind === 'closed' ? [domeOf(stations, samples, end)] : []));
  return {
    triangles: [...swept.triangles, ...domes.flatMap(({ triangles }) => triangles)],
    feet: [...swept.feet, ...domes.flatMap(({ feet }) => feet)],
  };
};

/** The land that a band sets off, between its two steps and as far as they go. */
export const landRibbon = (bead: WorkedBead, middle: Path): Ribbon | undefined => {
  const [track] = bead.tracks;
  const [first] = stationsOf(middle, { start: undefined, finish: undefined }, 0);
  if (track === undefined || first === undefined) return undefined;
  const { start } = track.path;
  const out = Math.abs((start.x - middle.start.x) * first.left.x + (start.y - middle.start.y) * first.left.y);
  const half = out - bead.width / 2;
  if (!(half > 0)) return undefined;
  const height = bead.direction === 'up' ? bead.depth : -bead.depth;
  const level = [-half, half].map((left): Sample => ({ left, height, slope: 0 }));
  const along = (from: Point | undefined, to: Point | undefined): number => Math.sqrt(Math.max(0, apart(from, to) ** 2 - out ** 2));
  const past = bead.tracks.map(({ path }) =>
    Math.max(along(middle.start, path.start), along(middle.moves.at(-1)?.to, path.moves.at(-1)?.to)),
  );
  const stations = stationsOf(middle, track, bead.width, Math.max(...past) + bead.width);
  return { triangles: sweptAlong(stations, level, { closed: middle.closed, narrows: false }).triangles, feet: [] };
};

/** The section as rolled; level where the die says too little for one. */
const sectionOf = ({ forming, width, direction }: WorkedBead, land: Track['land']): readonly Sample[] => {
  const section = forming?.formed.section;
  if (section === undefined) return [-width / 2, width / 2].map((left) => ({ left, height: 0, slope: 0 }));
  const points = midlinePoints(section.midline, Math.PI / 12);
  const every = Math.max(1, Math.ceil((points.length - 1) / MOST_SAMPLES));
  const kept = points.filter((_, i) => i === points.length - 1 || i % every === 0);
  const sign = direction === 'up' ? 1 : -1;
  // A step is drawn rising to the right.
  const mirror = land === 'right' ? -1 : 1;
  const samples = kept.map(({ x, y }, i): Sample => {
    const [before, after] = [kept[i - 1], kept[i + 1]];
    const run = before === undefined || after === undefined ? 0 : after.x - before.x;
    const rise = before === undefined || after === undefined ? 0 : after.y - before.y;
    // Feet and lands are level.
    const slope = rise === 0 ? 0 : Math.max(-STEEPEST, Math.min(STEEPEST, rise / Math.max(1e-6, run)));
    return { left: mirror * x, height: sign * y, slope: sign * mirror * slope };
  });
  return mirror === 1 ? samples : samples.reverse();
};

/** @param past how far it is drawn on where it runs off the sheet */
const stationsOf = (path: Path, ends: Ends, width: number, past = width): readonly Station[] => {
  const points = [...tessellate([{ kind: 'line', to: path.start }, ...path.moves], CHORD)];
  if (path.closed) {
    points.pop();
    return points.map((at, i) => ({
      at,
      ...turnAt(points[(i + points.length - 1) % points.length], at, points[(i + 1) % points.length]),
      full: 1,
    }));
  }
  runOn(points, ends, past);
  const lengths = points.map(() => 0);
  for (let i = 1; i < points.length; i++) lengths[i] = (lengths[i - 1] ?? 0) + apart(points[i - 1], points[i]);
  const whole = lengths.at(-1) ?? 0;
  const fade = Math.min(FADE * width, whole / 2);
  const levels = [...lengths];
  for (let k = 0; k <= FADE_STEPS; k++) {
    if (ends.start?.kind === 'open') levels.push((fade * k) / FADE_STEPS);
    if (ends.finish?.kind === 'open') levels.push(whole - (fade * k) / FADE_STEPS);
  }
  levels.sort((a, b) => a - b);
  const fullAt = (level: number): number => {
    const fromStart = ends.start?.kind === 'open' ? level / fade : 1;
    const fromFinish = ends.finish?.kind === 'open' ? (whole - level) / fade : 1;
    return Math.max(0, Math.min(1, fromStart, fromFinish));
  };
  const stations: Station[] = [];
  let next = 1;
  let last = -1;
  for (const level of levels) {
    if (level - last < 1e-6) continue;
    last = level;
    while (next < points.length - 1 && (lengths[next] ?? 0) < level - 1e-9) next++;
    const [a, b] = [points[next - 1], points[next]];
    if (a === undefined || b === undefined) continue;
    const from = lengths[next - 1] ?? 0;
    const share = Math.min(1, (level - from) / Math.max(1e-12, (lengths[next] ?? 0) - from));
    const at = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
    const onCorner = share > 1 - 1e-9 && next < points.length - 1;
    stations.push({ at, ...turnAt(a, onCorner ? b : undefined, onCorner ? points[next + 1] : b), full: fullAt(level) });
  }
  return stations;
};

const apart = (a: Point | undefined, b: Point | undefined): number =>
  a === undefined || b === undefined ? 0 : Math.hypot(b.x - a.x, b.y - a.y);

/** A track that runs off goes on until the whole die has left the sheet. */
const runOn = (points: Point[], { start, finish }: Ends, by: number): void => {
  const beyond = (from: Point | undefined, to: Point | undefined): Point | undefined => {
    const length = apart(from, to);
    if (from === undefined || to === undefined || length === 0) return undefined;
    return { x: to.x + ((to.x - from.x) / length) * by, y: to.y + ((to.y - from.y) / length) * by };
  };
  const before = start?.kind === 'run off' ? beyond(points[1], points[0]) : undefined;
  const after = finish?.kind === 'run off' ? beyond(points.at(-2), points.at(-1)) : undefined;
  if (before !== undefined) points.unshift(before);
  if (after !== undefined) points.push(after);
};

/** Left of the way from one place to the next; at a corner between two ways, half-way between their lefts and drawn out to where they meet. */
const turnAt = (
  before: Point | undefined,
  at: Point | undefined,
  after: Point | undefined,
): { readonly left: Point; readonly stretch: number } => {
  const way = (p: Point | undefined, q: Point | undefined): Point => {
    const length = apart(p, q) || 1;
    return p === undefined || q === undefined ? { x: 0, y: 0 } : { x: (q.x - p.x) / length, y: (q.y - p.y) / length };
  };
  if (at === undefined) {
    const { x, y } = way(before, after);
    return { left: { x: -y, y: x }, stretch: 1 };
  }
  const [u, v] = [way(before, at), way(at, after)];
  const [x, y] = [u.x + v.x, u.y + v.y];
  const length = Math.hypot(x, y);
  if (length < 0.2) return { left: { x: -u.y, y: u.x }, stretch: 1 };
  return { left: { x: -y / length, y: x / length }, stretch: 2 / length };
};

const cornerOf = ({ at, left, stretch, full }: Station, sample: Sample, narrows: boolean): RibbonCorner => {
  // A crown that is rolled less deep is narrower too: by the square root, as a chord of a circle is.
  const out = sample.left * stretch * (narrows ? Math.sqrt(full) : 1);
  const slope = sample.slope * (narrows ? Math.sqrt(full) : full);
  return { x: at.x + left.x * out, y: at.y + left.y * out, height: sample.height * full, dx: left.x * slope, dy: left.y * slope };
};

const sweptAlong = (
  stations: readonly Station[],
  samples: readonly Sample[],
  { closed, narrows }: { readonly closed: boolean; readonly narrows: boolean },
): Ribbon => {
  const triangles: [RibbonCorner, RibbonCorner, RibbonCorner][] = [];
  const feet: [Point, Point][] = [];
  const rows = stations.map((station) => samples.map((sample) => cornerOf(station, sample, narrows)));
  for (let i = 0; i + 1 < rows.length; i++) addRow(triangles, feet, rows[i] ?? [], rows[i + 1] ?? []);
  if (closed) addRow(triangles, feet, rows.at(-1) ?? [], rows[0] ?? []);
  return { triangles, feet };
};
const addRow = (
  triangles: [RibbonCorner, RibbonCorner, RibbonCorner][],
  feet: [Point, Point][],
  row: readonly RibbonCorner[],
  next: readonly RibbonCorner[],
): void => {
  for (let j = 0; j + 1 < row.length; j++) {
    const [a, b, c, d] = [row[j], next[j], next[j + 1], row[j + 1]];
    if (a === undefined || b === undefined || c === undefined || d === undefined) continue;
    triangles.push([a, b, c], [a, c, d]);
  }
  for (const j of [0, row.length - 1]) {
    const [a, b] = [row[j], next[j]];
    if (a !== undefined && b !== undefined) feet.push([a, b]);
  }
};

/** A closed end: full depth to the point, and round it the half of what a die leaves that stands there. */
const domeOf = (stations: readonly Station[], samples: readonly Sample[], end: 'start' | 'finish'): Ribbon => {
  const station = end === 'start' ? stations[0] : stations.at(-1);
  if (station === undefined) return { triangles: [], feet: [] };
  const half = samples.filter(({ left }) => left >= -1e-9);
  const from = Math.atan2(station.left.y, station.left.x);
  const sign = end === 'start' ? 1 : -1;
  const rows = Array.from({ length: DOME_STEPS + 1 }, (_, k) => {
    const angle = from + (sign * Math.PI * k) / DOME_STEPS;
    const spoke: Station = { at: station.at, left: { x: Math.cos(angle), y: Math.sin(angle) }, stretch: 1, full: station.full };
    return half.map((sample) => cornerOf(spoke, sample, false));
  });
  const triangles: [RibbonCorner, RibbonCorner, RibbonCorner][] = [];
  const feet: [Point, Point][] = [];
  for (let k = 0; k < DOME_STEPS; k++) addRow(triangles, feet, rows[k] ?? [], rows[k + 1] ?? []);
  // The inner ends all lie on the crown.
  return { triangles, feet: feet.filter(([a, b]) => apart(a, b) > 1e-9 && apart(a, station.at) > 1e-6) };
};
