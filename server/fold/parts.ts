/** The folded part as thick pieces: each face and zone with its box at once, and as convex solids when something comes near. */
import type { BendLine, Blank } from '../blank/types.js';
import { loopOf } from '../shape/divide.js';
import { type Pipe, pipeNormal, pipeToSpace } from '../shape/hinges.js';
import { tessellate } from '../shape/loops.js';
import type { Point } from '../shape/path.js';
import { type Solid, solidOn } from '../shape/solids.js';
import { type Box3, type Frame, pointFrom, type Vector } from '../shape/space.js';
import { clippedAcross } from './clip.js';
import { faceExtent, zoneExtent } from './extent.js';
import { partSheet, type SheetPiece } from './pieces.js';
import type { FoldedPieces } from './state.js';
import { isConvex, triangles } from './triangles.js';
import { zoneCoordinates } from './zone.js';

/** A convex bit of a piece. In a zone `turned` is how far its middle has turned from the parent's side, rad. */
export interface Bit {
  readonly solid: Solid;
  readonly normal: Vector;
  readonly turned: number;
}
export interface ThickPiece {
  readonly feature: string;
  readonly box: Box3;
  /** The bend, for a zone. */
  readonly bend: BendLine | undefined;
  readonly face: string | undefined;
  readonly bits: () => readonly Bit[];
  /** The same without its holes: enough for how near it comes to others, and far fewer. */
  readonly outline: () => readonly Bit[];
}

/** Arcs as chords this near (mm) where pieces are held against one another. */
const CHORD = 0.01;
/** A zone is held against others as facets no wider than this; they lie within the true pipe by less than a thousandth of its radius. */
const FACET = (5 * Math.PI) / 180;

export const thickPieces = (blank: Blank, { hung }: FoldedPieces): readonly ThickPiece[] => {
  const made: ThickPiece[] = [];
  const bends = new Map(blank.bends.map((bend) => [`bend:${bend.id}`, bend]));
  for (const piece of partSheet(blank).pieces) {
    const bend = bends.get(piece.feature);
    if (bend === undefined) {
      const face = piece.feature.slice('face:'.length);
      const frame = hung.frames.get(face);
      if (frame !== undefined) made.push(thickFace(piece, face, frame, blank.thickness));
      continue;
    }
    const pipe = hung.pipes.get(bend.id);
    if (pipe !== undefined) made.push(thickZone(piece, bend, pipe, blank.thickness));
  }
  return made;
};

const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
};

const thickFace = (piece: SheetPiece, face: string, frame: Frame, thickness: number): ThickPiece => {
  const bitsOf = (loops: SheetPiece['holes']): readonly Bit[] =>
    convexRings(loops.map((sides) => tessellate(loopOf(sides), CHORD))).map((ring) => ({
      solid: solidOn(
        ring.map(({ x, y }) => pointFrom(frame, x, y, thickness / 2)),
        ring.map(({ x, y }) => pointFrom(frame, x, y, -thickness / 2)),
      ),
      normal: frame.z,
      turned: 0,
    }));
  const outline = once(() => bitsOf([piece.outer]));
  return {
    feature: piece.feature,
    face,
    bend: undefined,
    box: faceExtent(frame, loopOf(piece.outer), thickness),
    bits: piece.holes.length === 0 ? outline : once(() => bitsOf([piece.outer, ...piece.holes])),
    outline,
  };
};

/** A convex outline with few corners stays whole; any other becomes triangles. */
const convexRings = (rings: readonly (readonly Point[])[]): readonly (readonly Point[])[] => {
  const [outer = []] = rings;
  if (rings.length === 1 && outer.length <= 8 && isConvex(outer)) return [outer];
  const corners = rings.flat();
  const found = triangles(rings);
  const made: Point[][] = [];
  for (let i = 0; i + 2 < found.length; i += 3) {
    const ring = [corners[found[i] as number], corners[found[i + 1] as number], corners[found[i + 2] as number]] as Point[];
    const [a, b, c] = ring as [Point, Point, Point];
    if ((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) > 1e-9) made.push(ring);
  }
  return made;
};

const thickZone = (piece: SheetPiece, bend: BendLine, pipe: Pipe, thickness: number): ThickPiece => {
  const bits = once(() => zoneBits(piece, pipe, thickness));
  return { feature: piece.feature, face: undefined, bend, box: zoneExtent(pipe, loopOf(piece.outer), thickness), bits, outline: bits };
};

const zoneBits = (piece: SheetPiece, pipe: Pipe, thickness: number): readonly Bit[] => {
  const { allowance } = pipe.hinge;
  const on = zoneCoordinates(pipe.hinge);
  const ring = tessellate(loopOf(piece.outer), CHORD).map(on.into);
  const count = Math.max(1, Math.ceil(Math.abs(pipe.turn) / FACET));
  const bits: Bit[] = [];
  for (let k = 0; k < count; k++) {
    const low = (allowance * k) / count;
    const high = (allowance * (k + 1)) / count;
    const strip = clippedAcross(ring, low, high);
    if (strip.length < 3) continue;
    const middle = (low + high) / 2;
    const turned = (Math.abs(pipe.turn) * (k + 0.5)) / count;
    for (const convex of convexRings([strip])) {
      const solid = solidOn(
        convex.map(({ x, y }) => pipeToSpace(pipe, x, y, thickness / 2)),
        convex.map(({ x, y }) => pipeToSpace(pipe, x, y, -thickness / 2)),
      );
      bits.push({ solid, normal: pipeNormal(pipe, middle), turned });
    }
  }
  return bits;
};
