/** A cut through the folded part: what a plane leaves of each face and bend, as lines and true arcs in the plane's own coordinates. */
import type { Blank } from '../blank/types.js';
import { angleAbout, apart, holdsDirection, radiusOf, startOf } from '../shape/arcs.js';
import { loopOf } from '../shape/divide.js';
import { type Pipe, pipeNormal, pipeToSpace } from '../shape/hinges.js';
import { pointInLoop } from '../shape/inside.js';
import { polygon, reversed, signedArea, tessellate } from '../shape/loops.js';
import { lineMeetsCircle } from '../shape/meetings.js';
import type { Loop, Move, Point } from '../shape/path.js';
import {
  crossProduct,
  difference,
  directionInto,
  dotProduct,
  type Frame,
  pointFrom,
  pointInto,
  unitVector,
  type Vector,
  vectorLength,
} from '../shape/space.js';
import { clippedAcross } from './clip.js';
import { partSheet, type SheetPiece } from './pieces.js';
import { foldPieces } from './state.js';
import type { Turned } from './types.js';
import { zoneCoordinates } from './zone.js';

/** What the plane leaves of one face or bend. */
export interface CutPiece {
  /** `face:top.1`, `bend:top.1`. */
  readonly feature: string;
  /** Anticlockwise. Moves where it runs on into its neighbour have the id `joint`, all others the feature's own; a drawing leaves the joints out. */
  readonly loop: Loop;
  /** Of a bend that is cut square to its axis, all of whose arcs are true. Other cuts through a bend are made of facets of 3°. */
  readonly square: boolean;
}
export interface FoldSection {
  /** x and y of the loops in space; z is the way the eye looks from, against the cut. */
  readonly plane: Frame;
  readonly pieces: readonly CutPiece[];
}
export interface CutPlane {
  readonly point: Vector;
  readonly normal: Vector;
  /** What shall be upward in the section; the base's face side when left out, its y where the plane lies along the base. */
  readonly up?: Vector;
}

/** A name for moves where a piece runs on into the next. */
export const JOINT = 'joint';
const FACET = (3 * Math.PI) / 180;
const NEAR = 1e-6;

/** The section of a folded part. A plane that misses it leaves no pieces. */
export const sectionAt = (blank: Blank, cut: CutPlane, turned: Turned = () => 1): FoldSection => {
  const plane = frameOf(cut);
  const { hung } = foldPieces(blank, turned);
  const pieces: CutPiece[] = [];
  for (const piece of partSheet(blank).pieces) {
    const id = piece.feature.slice('face:'.length);
    const pipe = piece.feature.startsWith('bend:') ? hung.pipes.get(id) : undefined;
    const frame = hung.frames.get(id);
    if (pipe !== undefined) pieces.push(...zoneCut(plane, piece, pipe, blank.thickness));
    else if (frame !== undefined && piece.feature.startsWith('face:'))
      pieces.push(...plateCut(plane, piece.feature, sheetOf(piece), frame, blank.thickness));
  }
  return { plane, pieces };
};

const frameOf = ({ point, normal, up }: CutPlane): Frame => {
  const z = unitVector(normal);
  const wanted = [up, { x: 0, y: 0, z: 1 }, { x: 0, y: 1, z: 0 }].find((v) => v !== undefined && vectorLength(crossProduct(v, z)) > 1e-6);
  const x = unitVector(crossProduct(wanted ?? { x: 1, y: 0, z: 0 }, z));
  return { origin: point, x, y: crossProduct(z, x), z };
};

/** A flat piece: its loops and the lines where it runs on. */
interface FlatSheet {
  readonly loops: readonly Loop[];
  readonly joints: readonly (readonly [Point, Point])[];
}
const sheetOf = (piece: SheetPiece): FlatSheet => {
  const loops = [piece.outer, ...piece.holes].map(loopOf);
  const joints: (readonly [Point, Point])[] = [];
  piece.outer.forEach((side, i) => {
    if (side.cut) joints.push([startOf(loops[0] as Loop, i), side.move.to]);
  });
  return { loops, joints };
};

const onPlane = (plane: Frame, p: Vector): Point => {
  const { x, y } = pointInto(plane, p);
  return { x, y };
};

const plateCut = (plane: Frame, feature: string, sheet: FlatSheet, frame: Frame, thickness: number): readonly CutPiece[] => {
  const n = directionInto(frame, plane.z);
  const level = dotProduct(plane.z, difference(plane.origin, frame.origin));
  const slope = Math.hypot(n.x, n.y);
  const half = thickness / 2;
  const place = (p: Point, height: number): Point => onPlane(plane, pointFrom(frame, p.x, p.y, height));
  if (slope < 1e-9) return Math.abs(level / n.z) > half ? [] : lyingIn(feature, sheet, (p) => place(p, level / n.z));
  const along = { x: -n.y / slope, y: n.x / slope };
  const stretches = (height: number): readonly (readonly [Point, Point])[] => {
    const off = (level - n.z * height) / slope;
    return stretchesOf(sheet.loops, { x: (n.x / slope) * off, y: (n.y / slope) * off }, along);
  };
  let low = stretches(-half);
  let high = Math.abs(n.z) < 1e-12 ? low : stretches(half);
  // An aslant cut that meets a hole on one side only is drawn as it is in the middle of the sheet.
  if (low.length !== high.length) {
    low = stretches(0);
    high = low;
  }
  return low.map(([a, b], i): CutPiece => {
    const [c, d] = high[i] as readonly [Point, Point];
    const joint = (p: Point): string => (sheet.joints.some(([from, to]) => offLine(p, from, to) < NEAR) ? JOINT : feature);
    const loop: Loop = [
      { kind: 'line', to: place(b, -half), id: feature },
      { kind: 'line', to: place(d, half), id: joint(b) },
      { kind: 'line', to: place(c, half), id: feature },
      { kind: 'line', to: place(a, -half), id: joint(a) },
    ];
    return { feature, loop: leftHanded(loop), square: false };
  });
};

/** A plate that lies in the plane shows its whole outline and its holes; those run clockwise. */
const lyingIn = (feature: string, { loops }: FlatSheet, place: (p: Point) => Point): readonly CutPiece[] =>
  loops.map((loop, i): CutPiece => {
    const placed = loop.map((move): Move => {
      const to = place(move.to);
      if (move.kind === 'line') return { kind: 'line', to, id: feature };
      return { kind: 'arc', to, centre: place(move.centre), turn: move.turn, id: feature };
    });
    // Seen from behind, every arc turns the other way.
    const behind = signedArea(polygon(loop.map(({ to }) => to))) * signedArea(polygon(placed.map(({ to }) => to))) < 0;
    const seen = behind
      ? placed.map((move): Move => (move.kind === 'line' ? move : { ...move, turn: move.turn === 'left' ? 'right' : 'left' }))
      : placed;
    const anti = signedArea(seen) > 0;
    return { feature, loop: anti === (i === 0) ? seen : reversed(seen), square: false };
  });

const leftHanded = (loop: Loop): Loop => (signedArea(loop) < 0 ? reversed(loop) : loop);

const offLine = (p: Point, from: Point, to: Point): number => {
  const length = apart(from, to) || 1;
  const t = Math.min(1, Math.max(0, ((p.x - from.x) * (to.x - from.x) + (p.y - from.y) * (to.y - from.y)) / (length * length)));
  return Math.hypot(p.x - from.x - (to.x - from.x) * t, p.y - from.y - (to.y - from.y) * t);
};

/** What of an endless line lies within loops. */
const stretchesOf = (loops: readonly Loop[], at: Point, along: Point): readonly (readonly [Point, Point])[] => {
  const hits: number[] = [];
  const where = (p: Point): number => (p.x - at.x) * along.x + (p.y - at.y) * along.y;
  const off = (p: Point): number => (p.y - at.y) * along.x - (p.x - at.x) * along.y;
  for (const loop of loops) {
    for (let i = 0; i < loop.length; i++) {
      const from = startOf(loop, i);
      const move = loop[i] as Move;
      const [a, b] = [off(from), off(move.to)];
      if (Math.abs(b) <= NEAR) hits.push(where(move.to));
      if (move.kind === 'line') {
        if (Math.abs(a) > NEAR && Math.abs(b) > NEAR && a > 0 !== b > 0) {
          const s = a / (a - b);
          hits.push(where({ x: from.x + (move.to.x - from.x) * s, y: from.y + (move.to.y - from.y) * s }));
        }
        continue;
      }
      for (const p of lineMeetsCircle({ at, along }, { centre: move.centre, radius: radiusOf(from, move) }))
        if (holdsDirection(from, move, angleAbout(move.centre, p))) hits.push(where(p));
    }
  }
  hits.sort((p, q) => p - q);
  const point = (t: number): Point => ({ x: at.x + along.x * t, y: at.y + along.y * t });
  const found: [number, number][] = [];
  for (let i = 0; i + 1 < hits.length; i++) {
    const [s, t] = [hits[i] as number, hits[i + 1] as number];
    if (t - s < NEAR) continue;
    const middle = point((s + t) / 2);
    if (loops.filter((loop) => pointInLoop(middle, loop)).length % 2 === 0) continue;
    const last = found.at(-1);
    if (last !== undefined && s - last[1] < NEAR) last[1] = t;
    else found.push([s, t]);
  }
  return found.map(([s, t]) => [point(s), point(t)]);
};

const zoneCut = (plane: Frame, piece: SheetPiece, pipe: Pipe, thickness: number): readonly CutPiece[] =>
  Math.abs(dotProduct(plane.z, pipe.start.y)) > 1 - 1e-12
    ? squareCut(plane, piece, pipe, thickness)
    : facetCut(plane, piece, pipe, thickness);

/** Square to the axis: pieces of a ring. */
const squareCut = (plane: Frame, piece: SheetPiece, pipe: Pipe, thickness: number): readonly CutPiece[] => {
  const { feature } = piece;
  const sheet = sheetOf(piece);
  const on = zoneCoordinates(pipe.hinge);
  const level = dotProduct(pipe.start.y, difference(plane.origin, pipe.start.origin));
  const start = on.outOf({ x: 0, y: level });
  const out = { x: on.along.y, y: -on.along.x };
  const half = thickness / 2;
  const place = (across: number, height: number): Point => onPlane(plane, pipeToSpace(pipe, across, level, height));
  return stretchesOf(sheet.loops, start, out).map(([from, to]): CutPiece => {
    const [a, b] = [on.into(from).x, on.into(to).x];
    const joint = (p: Point): string => (sheet.joints.some(([c, d]) => offLine(p, c, d) < NEAR) ? JOINT : feature);
    const loop: Move[] = [
      round(plane, pipe, place, a, b, -half, feature),
      { kind: 'line', to: place(b, half), id: joint(to) },
      round(plane, pipe, place, b, a, half, feature),
      { kind: 'line', to: place(a, -half), id: joint(from) },
    ];
    return { feature, loop: leftHanded(loop), square: true };
  });
};

/** Along one side of the sheet round a bend; a straight move where it is flat or the inside has no radius. */
const round = (
  plane: Frame,
  pipe: Pipe,
  place: (across: number, height: number) => Point,
  from: number,
  to: number,
  height: number,
  id: string,
): Move => {
  const end = place(to, height);
  const radius = pipe.turn === 0 ? 0 : pipe.middle - Math.sign(pipe.turn) * height;
  if (radius < 1e-9) return { kind: 'line', to: end, id };
  const centre = onPlane(plane, pointFrom(pipe.start, 0, 0, Math.sign(pipe.turn) * pipe.middle));
  const begin = place(from, height);
  const middle = place((from + to) / 2, height);
  const left = (begin.x - centre.x) * (middle.y - centre.y) - (begin.y - centre.y) * (middle.x - centre.x) > 0;
  return { kind: 'arc', to: end, centre, turn: left ? 'left' : 'right', id };
};

/** Any other way through a pipe: its wall as narrow flats. */
const facetCut = (plane: Frame, piece: SheetPiece, pipe: Pipe, thickness: number): readonly CutPiece[] => {
  const { allowance } = pipe.hinge;
  const on = zoneCoordinates(pipe.hinge);
  const ring = tessellate(loopOf(piece.outer), 0.01).map(on.into);
  const count = Math.max(1, Math.ceil(Math.abs(pipe.turn) / FACET));
  const found: CutPiece[] = [];
  for (let k = 0; k < count; k++) {
    const [low, high] = [(allowance * k) / count, (allowance * (k + 1)) / count];
    const strip = clippedAcross(ring, low, high);
    if (strip.length < 3) continue;
    const middle = (low + high) / 2;
    const z = pipeNormal(pipe, middle);
    const frame: Frame = { origin: pipeToSpace(pipe, middle, 0, 0), x: crossProduct(pipe.start.y, z), y: pipe.start.y, z };
    const flat = strip.map(({ x, y }) => ({ x: x - middle, y }));
    const ends = [low - middle, high - middle].map((x): readonly [Point, Point] => [
      { x, y: -1e6 },
      { x, y: 1e6 },
    ]);
    found.push(...plateCut(plane, piece.feature, { loops: [polygon(flat)], joints: ends }, frame, thickness));
  }
  return found;
};
