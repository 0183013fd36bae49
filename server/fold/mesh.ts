/**
 * The folded part as triangles: faces with their holes, bend zones as strips of the pipe, rims between the two sides. Watertight: pieces that run on into one
 * another share the corners along the line where they meet, and every edge belongs to two triangles.
 */
import type { BendLine, Blank } from '../blank/types.js';
import { type Pipe, pipeNormal, stripToSpace } from '../shape/hinges.js';
import { polygon, tessellate } from '../shape/loops.js';
import { crossProduct, difference, type Frame, pointFrom, unitVector, type Vector, vectorLength } from '../shape/space.js';
import { partSheet } from './pieces.js';
import { foldPieces } from './state.js';
import { triangles } from './triangles.js';
import type { Mesh, Turned } from './types.js';
import { zoneCoordinates } from './zone.js';

/** Chords stay this near (mm) to arcs and pipes. */
const CHORD = 0.05;
/** However small the radius, a strip of a pipe turns no further than this (rad), for the eye. */
const WIDEST_STRIP = Math.PI / 12;

/** A blank's triangles before they are put anywhere: worked out once, then placed for each state of the slider. */
export interface Unplaced {
  readonly at: (turned: Turned) => Mesh;
}

/** The mesh of one state; the finished part when none is given. @param chord how near chords stay to arcs and pipes, mm, > 0 */
export const meshOf = (blank: Blank, turned: Turned = () => 1, chord = CHORD): Mesh => unplacedMesh(blank, chord).at(turned);

interface Patch {
  readonly feature: string;
  /** Corner numbers of each ring, the outer first. */
  readonly rings: readonly (readonly number[])[];
  /** For each ring, whether the side that begins at a corner is an edge of the sheet. */
  readonly rims: readonly (readonly boolean[])[];
  readonly triangles: readonly number[];
}

export const unplacedMesh = (blank: Blank, chord = CHORD): Unplaced => {
  const parted = partSheet(
    blank,
    (bend) => stripsOf(bend, blank.thickness, chord),
    (loop) => polygon(tessellate(loop, chord)),
  );
  const byFeature = new Map<string, Patch[]>();
  for (const feature of featuresOf(blank)) byFeature.set(feature, []);
  for (const piece of parted.pieces) {
    const loops = [piece.outer, ...piece.holes];
    const rings = loops.map((sides) => sides.map(({ from }) => from));
    const corners = rings.flat();
    byFeature.get(piece.feature)?.push({
      feature: piece.feature,
      rings,
      rims: loops.map((sides) => sides.map(({ cut }) => !cut)),
      triangles: triangles(rings.map((ring) => ring.map((corner) => parted.points[corner] ?? ORIGIN))).map((i) => corners[i] as number),
    });
  }
  return { at: (turned) => placed(blank, parted.points, byFeature, turned, chord) };
};
const ORIGIN = { x: 0, y: 0 };

export const stripsOf = ({ turn, radius }: BendLine, thickness: number, chord: number): number => {
  const widest = Math.min(WIDEST_STRIP, 2 * Math.acos(Math.max(0, 1 - chord / (radius + thickness))));
  return Math.max(1, Math.ceil(turn / widest - 1e-9));
};

const featuresOf = (blank: Blank): readonly string[] => {
  const [root] = blank.faces;
  return [...(root === undefined ? [] : [`face:${root.id}`]), ...blank.bends.flatMap(({ id, child }) => [`bend:${id}`, `face:${child}`])];
};

/** Where the two sides of the sheet are at a corner, and the face side's normal there. */
interface Place {
  readonly face: Vector;
  readonly back: Vector;
}
type Standing = { readonly frame: Frame } | { readonly pipe: Pipe };

const placed = (
  blank: Blank,
  points: readonly { readonly x: number; readonly y: number }[],
  patches: ReadonlyMap<string, readonly Patch[]>,
  turned: Turned,
  chord: number,
): Mesh => {
  const { hung } = foldPieces(blank, turned);
  const half = blank.thickness / 2;
  const bends = new Map(blank.bends.map((bend) => [bend.id, bend]));
  const places: (Place | undefined)[] = new Array<Place | undefined>(points.length).fill(undefined);
  const pen = newPen();
  for (const [feature, list] of patches) {
    const id = feature.slice(5);
    const pipe = feature.startsWith('bend:') ? hung.pipes.get(id) : undefined;
    const frame = pipe === undefined ? hung.frames.get(id) : undefined;
    const standing: Standing | undefined = pipe !== undefined ? { pipe } : frame !== undefined ? { frame } : undefined;
    if (standing === undefined || list.length === 0) continue;
    const bend = bends.get(id);
    const strips = pipe === undefined || bend === undefined ? 1 : stripsOf(bend, blank.thickness, chord);
    const on = 'pipe' in standing ? zoneCoordinates(standing.pipe.hinge) : undefined;
    const across = (corner: number): { readonly x: number; readonly y: number } => {
      const p = points[corner] ?? ORIGIN;
      return on === undefined ? p : on.into(p);
    };
    const placeOf = (corner: number): Place => {
      const known = places[corner];
      if (known !== undefined) return known;
      const { x, y } = across(corner);
      const made =
        'pipe' in standing
          ? { face: stripToSpace(standing.pipe, strips, x, y, half), back: stripToSpace(standing.pipe, strips, x, y, -half) }
          : { face: pointFrom(standing.frame, x, y, half), back: pointFrom(standing.frame, x, y, -half) };
      places[corner] = made;
      return made;
    };
    const normalOf = (corner: number): Vector => ('pipe' in standing ? pipeNormal(standing.pipe, across(corner).x) : standing.frame.z);
    drawSides(pen, feature, list, placeOf, normalOf);
    drawRims(pen, feature, list, placeOf);
  }
  return meshFrom(pen);
};

interface Pen {
  readonly positions: number[];
  readonly normals: number[];
  readonly triangles: number[];
  readonly groups: Mesh['groups'][number][];
}
const newPen = (): Pen => ({ positions: [], normals: [], triangles: [], groups: [] });

const meshFrom = ({ positions, normals, triangles: corners, groups }: Pen): Mesh => ({
  positions: Float64Array.from(positions),
  normals: Float64Array.from(normals),
  triangles: Uint32Array.from(corners),
  groups,
});

const put = (pen: Pen, p: Vector, normal: Vector, sign: 1 | -1): number => {
  pen.positions.push(p.x, p.y, p.z);
  pen.normals.push(sign * normal.x, sign * normal.y, sign * normal.z);
  return pen.positions.length / 3 - 1;
};

const closeGroup = (pen: Pen, feature: string, side: 'face' | 'back' | 'rim', before: number): void => {
  const first = before / 3;
  const count = pen.triangles.length / 3 - first;
  if (count > 0) pen.groups.push({ feature, side, first, count });
};

/** Two corners nearer than this (mm) are one: a closed bend's inside has no width. */
const SAME = 1e-9;
const apart = (a: Vector, b: Vector): boolean => vectorLength(difference(a, b)) > SAME;

const drawSides = (
  pen: Pen,
  feature: string,
  patches: readonly Patch[],
  placeOf: (corner: number) => Place,
  normalOf: (corner: number) => Vector,
): void => {
  for (const side of ['face', 'back'] as const) {
    const before = pen.triangles.length;
    const numbers = new Map<number, number>();
    const cornerNumber = (corner: number): number => {
      const known = numbers.get(corner);
      if (known !== undefined) return known;
      const made = put(pen, placeOf(corner)[side], normalOf(corner), side === 'face' ? 1 : -1);
      numbers.set(corner, made);
      return made;
    };
    for (const { triangles: corners } of patches) {
      for (let i = 0; i + 2 < corners.length; i += 3) {
        const [a, b, c] = [corners[i] as number, corners[i + 1] as number, corners[i + 2] as number];
        const [p, q, r] = [placeOf(a)[side], placeOf(b)[side], placeOf(c)[side]];
        if (!apart(p, q) || !apart(q, r) || !apart(r, p)) continue;
        if (side === 'face') pen.triangles.push(cornerNumber(a), cornerNumber(b), cornerNumber(c));
        else pen.triangles.push(cornerNumber(a), cornerNumber(c), cornerNumber(b));
      }
    }
    closeGroup(pen, feature, side, before);
  }
};

const drawRims = (pen: Pen, feature: string, patches: readonly Patch[], placeOf: (corner: number) => Place): void => {
  const before = pen.triangles.length;
  for (const { rings, rims } of patches) {
    rings.forEach((ring, r) => {
      ring.forEach((corner, i) => {
        if (rims[r]?.[i] !== true) return;
        const a = placeOf(corner);
        const b = placeOf(ring[(i + 1) % ring.length] as number);
        drawRim(pen, a, b);
      });
    });
  }
  closeGroup(pen, feature, 'rim', before);
};

/** The narrow side of the sheet between two corners, the material on the left as it is walked. */
const drawRim = (pen: Pen, a: Place, b: Place): void => {
  const faceSide = apart(a.face, b.face);
  const backSide = apart(a.back, b.back);
  if (!faceSide && !backSide) return;
  // Beside a round relief in a bend the side is a little twisted: its diagonals give the normal in the middle.
  const normal = unitVector(crossProduct(difference(b.face, a.back), difference(a.face, b.back)));
  const [p, q, r, s] = [a.back, b.back, b.face, a.face].map((corner) => put(pen, corner, normal, 1)) as [number, number, number, number];
  if (backSide) pen.triangles.push(p, q, r);
  if (faceSide) pen.triangles.push(p, r, s);
};
