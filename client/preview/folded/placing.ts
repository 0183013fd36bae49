/**
 * The folded part's corners, edges and normals for one state, written into arrays that are made once. Pure arithmetic: the same hinges as the server's own.
 * Millimetres; x right, y up the sheet, z toward the eye looking at the face.
 */
import type { MovingPart, MovingPiece, MovingRaised } from '../../../server/fold/types.js';
import { type HungPieces, hang, pipeNormal, stripToSpace } from '../../../server/shape/hinges.js';
import { crossProduct, difference, directionFrom, pointFrom, unitVector, type Vector } from '../../../server/shape/space.js';

/** A run of corners or triangles that belongs to one feature and one side of the sheet. */
export interface Range {
  readonly feature: string;
  readonly side: 'face' | 'back' | 'rim';
  readonly first: number;
  readonly count: number;
}
/** `sharp` is always an edge; `smooth` only where the surface turns away from the eye; `tangent` is that too, and a thin line elsewhere. */
export type EdgeKind = 'sharp' | 'smooth' | 'tangent';
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
  /** How many of the corners, from the first, are the sheet's own; the rest are raised out of it. */
  readonly sheetCorners: number;
  readonly triangles: Uint32Array;
  /** By corners, and the same by triangles. */
  readonly corners: readonly Range[];
  readonly faces: readonly Range[];
  /** Every line that may be drawn: the sheet's edges on both sides and through it, and where strips of a bend meet. */
  readonly edges: Float32Array;
  /** The normals of what meets there, two for each edge. */
  readonly edgeNormals: Float32Array;
  readonly edgeKinds: readonly EdgeKind[];
  readonly edgeRanges: readonly EdgeRange[];
  /** Holes filled, to be pointed at. */
  readonly fills: Float32Array;
  readonly fillRanges: readonly EdgeRange[];
  /** Stands everything in a state; `turned` is each bend's share of its own turn. */
  readonly place: (turned: (bend: string) => number) => void;
}

/** A corner of the sheet sharper than this (cosine) gets an upright edge through its thickness. */
const SHARP = Math.cos(Math.PI / 9);
const ON_TANGENT = 1e-4;
/** What is raised hovers so far (mm) over the sheet, one thing a little over another where they cross, so that the nearer one is drawn. */
const LIFT = 0.03;

interface Plan {
  readonly piece: MovingPiece;
  /** Number of the first corner of the face side; those of the back follow, then those of the rims. */
  readonly at: number;
  readonly rimPairs: readonly number[];
  readonly lines: readonly Line[];
}
/** What is raised out of a face: its corners on both sides, the first at `at`; edges and pens follow those of the pieces. */
interface RaisedPlan {
  readonly raised: MovingRaised;
  readonly at: number;
  /** Out of which side it stands; on the other it is sunk, which shows by its shading alone. */
  readonly crown: 1 | -1;
  readonly lift: number;
}
/** What is drawn of a piece: a pair of corners along both sides, or one corner through the sheet; and how its two normals are found. */
type Line =
  | { readonly kind: 'rim'; readonly a: number; readonly b: number }
  | { readonly kind: 'upright'; readonly before: number; readonly corner: number; readonly after: number }
  | { readonly kind: 'joint'; readonly a: number; readonly b: number; readonly low: number; readonly high: number };

export const placedPart = (part: MovingPart): Placed => {
  const allowances = new Map(part.hinges.map(({ id, allowance }) => [`bend:${id}`, allowance]));
  const corners: Range[] = [];
  const faces: Range[] = [];
  const edgeRanges: EdgeRange[] = [];
  const edgeKinds: EdgeKind[] = [];
  const fillRanges: EdgeRange[] = [];
  const triangles: number[] = [];
  let cornerCount = 0;
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
    const lines: Line[] = [];
    for (const edges of piece.edges) {
      const own = edges.pairs;
      const from = edgeKinds.length;
      if (edges.kind === 'joint') {
        for (const line of jointsOf(piece, own, allowances.get(feature))) {
          lines.push(line);
          const kind = line.low < ON_TANGENT || line.high > (allowances.get(feature) ?? 0) - ON_TANGENT ? 'tangent' : 'smooth';
          edgeKinds.push(kind, kind);
        }
      } else {
        const first = triangles.length / 3;
        const start = cornerCount;
        for (let i = 0; i + 1 < own.length; i += 2) {
          triangles.push(cornerCount, cornerCount + 1, cornerCount + 2, cornerCount, cornerCount + 2, cornerCount + 3);
          cornerCount += 4;
          lines.push({ kind: 'rim', a: own[i] ?? 0, b: own[i + 1] ?? 0 });
          edgeKinds.push('sharp', 'sharp');
        }
        corners.push({ feature: edges.feature, side: 'rim', first: start, count: cornerCount - start });
        faces.push({ feature: edges.feature, side: 'rim', first, count: triangles.length / 3 - first });
        rimPairs.push(...own);
        for (const upright of sharpCorners(points, own)) {
          lines.push(upright);
          edgeKinds.push('sharp');
        }
      }
      if (edgeKinds.length > from) edgeRanges.push({ feature: edges.feature, first: from, count: edgeKinds.length - from });
    }
    for (const hole of piece.holes) {
      fillRanges.push({ feature: hole.feature, first: fillCount, count: hole.triangles.length / 3 });
      fillCount += hole.triangles.length / 3;
    }
    return { piece, at, rimPairs, lines };
  });

  const sheetCorners = cornerCount;
  const raised = part.raised.map((one, i): RaisedPlan => {
    const { feature, points, heights, lines } = one;
    const at = cornerCount;
    for (const side of ['face', 'back'] as const) {
      const first = triangles.length / 3;
      for (let k = 0; k + 2 < one.triangles.length; k += 3) {
        const [a, b, c] = [one.triangles[k] ?? 0, one.triangles[k + 1] ?? 0, one.triangles[k + 2] ?? 0];
        if (side === 'face') triangles.push(cornerCount + a, cornerCount + b, cornerCount + c);
        else triangles.push(cornerCount + a, cornerCount + c, cornerCount + b);
      }
      corners.push({ feature, side, first: cornerCount, count: points.length / 2 });
      faces.push({ feature, side, first, count: triangles.length / 3 - first });
      cornerCount += points.length / 2;
    }
    const from = edgeKinds.length;
    for (let k = 0; k + 3 < lines.length; k += 4) edgeKinds.push('tangent', 'tangent');
    edgeRanges.push({ feature, first: from, count: edgeKinds.length - from });
    return { raised: one, at, crown: heights.some((height) => height < 0) ? -1 : 1, lift: LIFT * (1 + (i % 8)) };
  });

  const positions = new Float32Array(cornerCount * 3);
  const normals = new Float32Array(cornerCount * 3);
  const edges = new Float32Array(edgeKinds.length * 6);
  const edgeNormals = new Float32Array(edgeKinds.length * 6);
  const fills = new Float32Array(fillCount * 9);
  const half = part.thickness / 2;

  const place = (turned: (bend: string) => number): void => {
    const hung = hang(part.root, part.hinges, ({ id }) => turned(id));
    const pens = { edge: 0, fill: 0 };
    const put = (into: Float32Array, at: number, { x, y, z }: Vector): void => {
      into[at] = x;
      into[at + 1] = y;
      into[at + 2] = z;
    };
    for (const { piece, at, rimPairs, lines } of plans) {
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
        put(normals, 3 * (at + count + i), reverse(normal));
      }
      let rim = 3 * (at + 2 * count);
      for (let i = 0; i + 1 < rimPairs.length; i += 2) {
        const [a, b] = [rimPairs[i] ?? 0, rimPairs[i + 1] ?? 0];
        const [p, q, r, s] = [back[a], back[b], face[b], face[a]];
        if (p === undefined || q === undefined || r === undefined || s === undefined) continue;
        const normal = rimNormal(s, r, p, q);
        for (const corner of [p, q, r, s]) {
          put(positions, rim, corner);
          put(normals, rim, normal);
          rim += 3;
        }
      }
      const line = (a: Vector | undefined, b: Vector | undefined, n: Vector, m: Vector): void => {
        put(edges, pens.edge, a ?? ORIGIN);
        put(edges, pens.edge + 3, b ?? ORIGIN);
        put(edgeNormals, pens.edge, n);
        put(edgeNormals, pens.edge + 3, m);
        pens.edge += 6;
      };
      const wall = (a: number, b: number): Vector => rimNormal(face[a], face[b], back[a], back[b]);
      for (const each of lines) {
        if (each.kind === 'upright') {
          const { before, corner, after } = each;
          line(face[corner], back[corner], wall(before, corner), wall(corner, after));
          continue;
        }
        const { a, b } = each;
        const [n, m] =
          each.kind === 'joint'
            ? [standing.normal(each.low), standing.normal(each.high)]
            : [standing.normal(((piece.points[2 * a] ?? 0) + (piece.points[2 * b] ?? 0)) / 2), wall(a, b)];
        line(face[a], face[b], n, m);
        line(back[a], back[b], reverse(n), each.kind === 'joint' ? reverse(m) : m);
      }
      for (const { triangles: filled } of piece.holes) {
        for (const i of filled) {
          put(fills, pens.fill, standing.at(piece.points[2 * i] ?? 0, piece.points[2 * i + 1] ?? 0, 0));
          pens.fill += 3;
        }
      }
    }
    for (const { raised: one, at, crown, lift } of raised) {
      const frame = hung.frames.get(one.on.slice(5));
      if (frame === undefined) continue;
      const count = one.points.length / 2;
      for (let i = 0; i < count; i++) {
        const [u, v, height] = [one.points[2 * i] ?? 0, one.points[2 * i + 1] ?? 0, one.heights[i] ?? 0];
        const normal = unitVector(directionFrom(frame, -(one.slopes[2 * i] ?? 0), -(one.slopes[2 * i + 1] ?? 0), 1));
        put(positions, 3 * (at + i), pointFrom(frame, u, v, half + (crown === 1 ? Math.max(height, 0) : 0) + lift));
        put(positions, 3 * (at + count + i), pointFrom(frame, u, v, -half + (crown === -1 ? Math.min(height, 0) : 0) - lift));
        put(normals, 3 * (at + i), normal);
        put(normals, 3 * (at + count + i), reverse(normal));
      }
      const [above, below] = [frame.z, reverse(frame.z)];
      for (let i = 0; i + 3 < one.lines.length; i += 4) {
        for (const [side, normal] of [
          [half + lift, above],
          [-half - lift, below],
        ] as const) {
          put(edges, pens.edge, pointFrom(frame, one.lines[i] ?? 0, one.lines[i + 1] ?? 0, side));
          put(edges, pens.edge + 3, pointFrom(frame, one.lines[i + 2] ?? 0, one.lines[i + 3] ?? 0, side));
          put(edgeNormals, pens.edge, normal);
          put(edgeNormals, pens.edge + 3, normal);
          pens.edge += 6;
        }
      }
    }
  };
  return {
    positions,
    normals,
    sheetCorners,
    triangles: Uint32Array.from(triangles),
    corners,
    faces,
    edges,
    edgeNormals,
    edgeKinds,
    edgeRanges,
    fills,
    fillRanges,
    place,
  };
};
const ORIGIN: Vector = { x: 0, y: 0, z: 0 };
const reverse = ({ x, y, z }: Vector): Vector => ({ x: -x, y: -y, z: -z });

/** Out of the narrow side of the sheet between two corners; where one side of it has no length, as inside a closed bend, the other tells. */
const rimNormal = (faceFrom: Vector = ORIGIN, faceTo: Vector = ORIGIN, backFrom: Vector = ORIGIN, backTo: Vector = ORIGIN): Vector =>
  unitVector(crossProduct(difference(faceTo, backFrom), difference(faceFrom, backTo)));

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

/**
 * Where the strips of a zone meet one another and what lies beside it, each with the middles of the strips on its two sides (across, for their normals).
 * Faces leave theirs to the zones.
 */
const jointsOf = (
  piece: MovingPiece,
  pairs: readonly number[],
  allowance: number | undefined,
): readonly Extract<Line, { kind: 'joint' }>[] => {
  if (piece.strips === 0 || allowance === undefined) return [];
  const width = allowance / piece.strips;
  const joints: Extract<Line, { kind: 'joint' }>[] = [];
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    const [a, b] = [pairs[i] ?? 0, pairs[i + 1] ?? 0];
    const [s, t] = [piece.points[2 * a] ?? 0, piece.points[2 * b] ?? 0];
    const boundary = Math.round(s / width) * width;
    if (Math.abs(s - boundary) > ON_TANGENT || Math.abs(t - boundary) > ON_TANGENT) continue;
    // Walked with the material on the left, a strip meets the next where the bend's own direction runs against the walk: each joint once.
    const upper = (piece.points[2 * a + 1] ?? 0) < (piece.points[2 * b + 1] ?? 0);
    if (!upper && boundary > ON_TANGENT) continue;
    joints.push({ kind: 'joint', a, b, low: Math.max(0, boundary - width / 2), high: Math.min(allowance, boundary + width / 2) });
  }
  return joints;
};

const sharpCorners = (points: readonly number[], pairs: readonly number[]): readonly Extract<Line, { kind: 'upright' }>[] => {
  const arriving = new Map<number, number>();
  for (let i = 0; i + 1 < pairs.length; i += 2) arriving.set(pairs[i + 1] ?? 0, pairs[i] ?? 0);
  const sharp: Extract<Line, { kind: 'upright' }>[] = [];
  const along = (a: number, b: number): readonly [number, number] => {
    const [x, y] = [(points[2 * b] ?? 0) - (points[2 * a] ?? 0), (points[2 * b + 1] ?? 0) - (points[2 * a + 1] ?? 0)];
    const length = Math.hypot(x, y) || 1;
    return [x / length, y / length];
  };
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    const [corner, after] = [pairs[i] ?? 0, pairs[i + 1] ?? 0];
    const before = arriving.get(corner);
    if (before === undefined) continue;
    const [p, q] = [along(before, corner), along(corner, after)];
    if (p[0] * q[0] + p[1] * q[1] < SHARP) sharp.push({ kind: 'upright', before, corner, after });
  }
  return sharp;
};
