/**
 * The folded part's corners, edges and normals for one state, written into arrays that are made once. Pure arithmetic: the same hinges as the server's own.
 * Millimetres; x right, y up the sheet, z toward the eye looking at the face.
 */
import type { MovingPart, MovingPiece } from '../../../server/fold/types.js';
import { type HungPieces, hang, pipeNormal, stripToSpace } from '../../../server/shape/hinges.js';
import { crossProduct, difference, pointFrom, unitVector, type Vector } from '../../../server/shape/space.js';

/** A run of corners or triangles that belongs to one feature and one side of the sheet. */
export interface Range {
  readonly feature: string;
  readonly side: 'face' | 'back' | 'rim';
  readonly first: number;
  readonly count: number;
}
/** A run of straight edges. */
export interface EdgeRange {
  readonly feature: string;
  readonly first: number;
  readonly count: number;
}
/** All that does not change with the state, and the arrays that do. Corners are x y z; edges two corners each. */
export interface Placed {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly triangles: Uint32Array;
  /** By corners, and the same by triangles. */
  readonly corners: readonly Range[];
  readonly faces: readonly Range[];
  /** Edges of the sheet and of holes. */
  readonly rims: Float32Array;
  readonly rimRanges: readonly EdgeRange[];
  /** Where a bend begins and ends. */
  readonly tangents: Float32Array;
  readonly tangentRanges: readonly EdgeRange[];
  /** Holes filled, to be pointed at. */
  readonly fills: Float32Array;
  readonly fillRanges: readonly EdgeRange[];
  /** Stands everything in a state; `turned` is each bend's share of its own turn. */
  readonly place: (turned: (bend: string) => number) => void;
}

/** A corner of the sheet sharper than this (cosine) gets an upright edge through its thickness. */
const SHARP = Math.cos(Math.PI / 9);
const ON_TANGENT = 1e-4;

interface Plan {
  readonly piece: MovingPiece;
  /** Number of the first corner of the face side, the back and the rims. */
  readonly at: number;
  readonly rimPairs: readonly number[];
  /** The lines to be drawn: pairs of corners along both sides, single corners for the upright edges at sharp corners. */
  readonly lines: readonly { readonly pairs: readonly number[]; readonly uprights: readonly number[] }[];
  readonly tangentPairs: readonly number[];
}

export const placedPart = (part: MovingPart): Placed => {
  const allowances = new Map(part.hinges.map(({ id, allowance }) => [`bend:${id}`, allowance]));
  const corners: Range[] = [];
  const faces: Range[] = [];
  const rimRanges: EdgeRange[] = [];
  const tangentRanges: EdgeRange[] = [];
  const fillRanges: EdgeRange[] = [];
  const triangles: number[] = [];
  let cornerCount = 0;
  let rimCount = 0;
  let tangentCount = 0;
  let fillCount = 0;

  const plans = part.pieces.map((piece): Plan => {
    const { feature, points } = piece;
    const count = points.length / 2;
    const at = cornerCount;
    const side = (name: 'face' | 'back'): void => {
      const first = triangles.length / 3;
      for (let i = 0; i + 2 < piece.triangles.length; i += 3) {
        const [a, b, c] = [piece.triangles[i] ?? 0, piece.triangles[i + 1] ?? 0, piece.triangles[i + 2] ?? 0];
        if (name === 'face') triangles.push(cornerCount + a, cornerCount + b, cornerCount + c);
        else triangles.push(cornerCount + a, cornerCount + c, cornerCount + b);
      }
      corners.push({ feature, side: name, first: cornerCount, count });
      faces.push({ feature, side: name, first, count: triangles.length / 3 - first });
      cornerCount += count;
    };
    side('face');
    side('back');
    const rimPairs: number[] = [];
    const lines: { readonly pairs: readonly number[]; readonly uprights: readonly number[] }[] = [];
    const tangentPairs: number[] = [];
    for (const edges of piece.edges) {
      const own = edges.pairs;
      if (edges.kind === 'joint') {
        const kept = tangentOf(piece, own, allowances.get(feature));
        tangentPairs.push(...kept);
        if (kept.length > 0) tangentRanges.push({ feature, first: tangentCount, count: kept.length });
        tangentCount += kept.length;
        continue;
      }
      const first = triangles.length / 3;
      const start = cornerCount;
      for (let i = 0; i + 1 < own.length; i += 2) {
        triangles.push(cornerCount, cornerCount + 1, cornerCount + 2, cornerCount, cornerCount + 2, cornerCount + 3);
        cornerCount += 4;
      }
      corners.push({ feature: edges.feature, side: 'rim', first: start, count: cornerCount - start });
      faces.push({ feature: edges.feature, side: 'rim', first, count: triangles.length / 3 - first });
      rimPairs.push(...own);
      const sharp = sharpCorners(points, own);
      lines.push({ pairs: own, uprights: sharp });
      const segments = own.length + sharp.length;
      rimRanges.push({ feature: edges.feature, first: rimCount, count: segments });
      rimCount += segments;
    }
    for (const hole of piece.holes) {
      fillRanges.push({ feature: hole.feature, first: fillCount, count: hole.triangles.length / 3 });
      fillCount += hole.triangles.length / 3;
    }
    return { piece, at, rimPairs, lines, tangentPairs };
  });

  const positions = new Float32Array(cornerCount * 3);
  const normals = new Float32Array(cornerCount * 3);
  const rims = new Float32Array(rimCount * 6);
  const tangents = new Float32Array(tangentCount * 6);
  const fills = new Float32Array(fillCount * 9);
  const half = part.thickness / 2;

  const place = (turned: (bend: string) => number): void => {
    const hung = hang(part.root, part.hinges, ({ id }) => turned(id));
    const pens = { rim: 0, tangent: 0, fill: 0 };
    const put = (into: Float32Array, at: number, { x, y, z }: Vector): void => {
      into[at] = x;
      into[at + 1] = y;
      into[at + 2] = z;
    };
    for (const { piece, at, rimPairs, lines, tangentPairs } of plans) {
      const standing = standingOf(piece, hung);
      if (standing === undefined) continue;
      const count = piece.points.length / 2;
      const face: Vector[] = [];
      const back: Vector[] = [];
      for (let i = 0; i < count; i++) {
        const [u, v] = [piece.points[2 * i] ?? 0, piece.points[2 * i + 1] ?? 0];
        const [upper, lower, normal] = [standing.at(u, v, half), standing.at(u, v, -half), standing.normal(u)];
        face.push(upper);
        back.push(lower);
        put(positions, 3 * (at + i), upper);
        put(positions, 3 * (at + count + i), lower);
        put(normals, 3 * (at + i), normal);
        put(normals, 3 * (at + count + i), { x: -normal.x, y: -normal.y, z: -normal.z });
      }
      let rim = 3 * (at + 2 * count);
      for (let i = 0; i + 1 < rimPairs.length; i += 2) {
        const [a, b] = [rimPairs[i] ?? 0, rimPairs[i + 1] ?? 0];
        const [p, q, r, s] = [back[a], back[b], face[b], face[a]];
        if (p === undefined || q === undefined || r === undefined || s === undefined) continue;
        const normal = unitVector(crossProduct(difference(r, p), difference(s, q)));
        for (const corner of [p, q, r, s]) {
          put(positions, rim, corner);
          put(normals, rim, normal);
          rim += 3;
        }
      }
      const line = (a: Vector | undefined, b: Vector | undefined): void => {
        put(rims, pens.rim, a ?? ORIGIN);
        put(rims, pens.rim + 3, b ?? ORIGIN);
        pens.rim += 6;
      };
      for (const { pairs, uprights } of lines) {
        for (const side of [face, back]) for (let i = 0; i + 1 < pairs.length; i += 2) line(side[pairs[i] ?? 0], side[pairs[i + 1] ?? 0]);
        for (const corner of uprights) line(face[corner], back[corner]);
      }
      for (let i = 0; i + 1 < tangentPairs.length; i += 2) {
        for (const side of [face, back]) {
          for (const corner of [side[tangentPairs[i] ?? 0], side[tangentPairs[i + 1] ?? 0]]) {
            put(tangents, pens.tangent, corner ?? ORIGIN);
            pens.tangent += 3;
          }
        }
      }
      for (const { triangles: filled } of piece.holes) {
        for (const i of filled) {
          put(fills, pens.fill, standing.at(piece.points[2 * i] ?? 0, piece.points[2 * i + 1] ?? 0, 0));
          pens.fill += 3;
        }
      }
    }
  };
  return {
    positions,
    normals,
    triangles: Uint32Array.from(triangles),
    corners,
    faces,
    rims,
    rimRanges,
    tangents,
    tangentRanges,
    fills,
    fillRanges,
    place,
  };
};
const ORIGIN: Vector = { x: 0, y: 0, z: 0 };

interface Standing {
  readonly at: (u: number, v: number, height: number) => Vector;
  readonly normal: (u: number) => Vector;
}

const standingOf = (piece: MovingPiece, hung: HungPieces): Standing | undefined => {
  const id = piece.feature.slice(5);
  if (piece.strips > 0) {
    const pipe = hung.pipes.get(id);
    if (pipe === undefined) return undefined;
    return {
      at: (u, v, height) => stripToSpace(pipe, piece.strips, u, v, height),
      normal: (u) => pipeNormal(pipe, u),
    };
  }
  const frame = hung.frames.get(id);
  return frame === undefined ? undefined : { at: (u, v, height) => pointFrom(frame, u, v, height), normal: () => frame.z };
};

/** Of a zone's joints with what lies beside it, those along its two tangent lines; faces leave theirs to the zones. */
const tangentOf = (piece: MovingPiece, pairs: readonly number[], allowance: number | undefined): readonly number[] => {
  if (piece.strips === 0 || allowance === undefined) return [];
  const kept: number[] = [];
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    const [a, b] = [pairs[i] ?? 0, pairs[i + 1] ?? 0];
    const [s, t] = [piece.points[2 * a] ?? 0, piece.points[2 * b] ?? 0];
    const on = (level: number): boolean => Math.abs(s - level) < ON_TANGENT && Math.abs(t - level) < ON_TANGENT;
    if (on(0) || on(allowance)) kept.push(a, b);
  }
  return kept;
};

const sharpCorners = (points: readonly number[], pairs: readonly number[]): readonly number[] => {
  const arriving = new Map<number, number>();
  for (let i = 0; i + 1 < pairs.length; i += 2) arriving.set(pairs[i + 1] ?? 0, pairs[i] ?? 0);
  const sharp: number[] = [];
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    const [corner, to] = [pairs[i] ?? 0, pairs[i + 1] ?? 0];
    const from = arriving.get(corner);
    if (from === undefined) continue;
    const along = (a: number, b: number): readonly [number, number] => {
      const [x, y] = [(points[2 * b] ?? 0) - (points[2 * a] ?? 0), (points[2 * b + 1] ?? 0) - (points[2 * a + 1] ?? 0)];
      const length = Math.hypot(x, y) || 1;
      return [x / length, y / length];
    };
    const [p, q] = [along(from, corner), along(corner, to)];
    if (p[0] * q[0] + p[1] * q[1] < SHARP) sharp.push(corner);
  }
  return sharp;
};
