/**
 * A folded mesh seen from far off, as lines with what is hidden left out: sharp edges and outlines wide, the places where bends begin and end narrow.
 * Every line is parted where an edge in front crosses it, and each piece is looked at once from its middle.
 */
import Flatbush from 'flatbush';
import type { Mesh } from '../fold/types.js';
import type { Point } from '../shape/path.js';
import { crossProduct, dotProduct, unitVector, type Vector } from '../shape/space.js';

/** From where it is looked at: round the upright axis from the front and down from above, rad. */
export interface Sight {
  readonly around: number;
  readonly down: number;
}
/** All three directions of a box in sight, each as long: the isometric view of ISO 5456-3. */
export const isometric: Sight = { around: Math.PI / 4, down: Math.acos(1 / Math.sqrt(3)) };

export interface SeenLine {
  readonly from: Point;
  readonly to: Point;
  readonly kind: 'edge' | 'tangent';
}
export interface Eye {
  /** Onto the picture, mm; z toward the eye. */
  readonly onto: (p: Vector) => Vector;
}

export const eyeOf = ({ around, down }: Sight): Eye => {
  const right = { x: Math.cos(around), y: Math.sin(around), z: 0 };
  const toward = { x: Math.sin(down) * Math.sin(around), y: -Math.sin(down) * Math.cos(around), z: Math.cos(down) };
  const up = crossProduct(toward, right);
  return { onto: (p) => ({ x: dotProduct(p, right), y: dotProduct(p, up), z: dotProduct(p, toward) }) };
};

interface MeshEdge {
  readonly a: Vector;
  readonly b: Vector;
  readonly kind: SeenLine['kind'];
}

/** Neighbouring flats that turn by more than this are an edge; the strips of a bend turn by 15° at most. */
const SHARP = Math.cos((25 * Math.PI) / 180);
const NEAR = 1e-7;

/**
 * @param thickness of the sheet, mm: what lies behind by less than a twentieth of it is not hidden
 * @param drawnOn   lines on the surface that are no edges of it, drawn narrow
 */
export const seenLines = (
  mesh: Mesh,
  sight: Sight,
  thickness: number,
  drawnOn: readonly (readonly [Vector, Vector])[] = [],
): readonly SeenLine[] => {
  const { onto } = eyeOf(sight);
  const corners: Vector[] = [];
  for (let i = 0; i + 2 < mesh.positions.length; i += 3)
    corners.push(onto({ x: mesh.positions[i] ?? 0, y: mesh.positions[i + 1] ?? 0, z: mesh.positions[i + 2] ?? 0 }));
  const edges = [
    ...drawnEdges(mesh, corners, onto),
    ...drawnOn.map(([from, to]): MeshEdge => ({ a: onto(from), b: onto(to), kind: 'tangent' })),
  ];
  if (edges.length === 0) return [];
  const covers = coversOf(mesh, corners);
  const index = new Flatbush(edges.length);
  for (const { a, b } of edges) index.add(Math.min(a.x, b.x), Math.min(a.y, b.y), Math.max(a.x, b.x), Math.max(a.y, b.y));
  index.finish();
  const seen: SeenLine[] = [];
  for (const edge of edges) {
    const { a, b, kind } = edge;
    if (Math.hypot(b.x - a.x, b.y - a.y) < 1e-6) continue;
    const shares = [0, 1];
    for (const other of index.search(Math.min(a.x, b.x), Math.min(a.y, b.y), Math.max(a.x, b.x), Math.max(a.y, b.y))) {
      const share = crossing(edge, edges[other]);
      if (share !== undefined) shares.push(share);
    }
    shares.sort((s, t) => s - t);
    const at = (share: number): Vector => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share, z: a.z + (b.z - a.z) * share });
    let begun: number | undefined;
    for (let i = 0; i + 1 < shares.length; i++) {
      const [from, to] = [shares[i] ?? 0, shares[i + 1] ?? 1];
      if (to - from < NEAR) continue;
      const visible = !covers(at((from + to) / 2), thickness / 20);
      if (visible) begun ??= from;
      else if (begun !== undefined) {
        seen.push({ from: at(begun), to: at(from), kind });
        begun = undefined;
      }
    }
    if (begun !== undefined) seen.push({ from: at(begun), to: at(1), kind });
  }
  return seen;
};

/** Where along an edge it passes behind or before another, as both are seen. */
const crossing = ({ a, b }: MeshEdge, other: MeshEdge | undefined): number | undefined => {
  if (other === undefined) return undefined;
  const { a: c, b: d } = other;
  const [ux, uy, vx, vy] = [b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y];
  const cross = ux * vy - uy * vx;
  if (Math.abs(cross) < 1e-12) return undefined;
  const s = ((c.x - a.x) * vy - (c.y - a.y) * vx) / cross;
  const t = ((c.x - a.x) * uy - (c.y - a.y) * ux) / cross;
  return s > NEAR && s < 1 - NEAR && t > -NEAR && t < 1 + NEAR ? s : undefined;
};

/** Whether something lies before a place by more than `slack` mm. */
const coversOf = (mesh: Mesh, corners: readonly Vector[]): ((p: Vector, slack: number) => boolean) => {
  const count = mesh.triangles.length / 3;
  const index = new Flatbush(Math.max(1, count));
  const of = (t: number): readonly [Vector, Vector, Vector] => {
    const corner = (k: number): Vector => corners[mesh.triangles[3 * t + k] ?? 0] ?? ORIGIN;
    return [corner(0), corner(1), corner(2)];
  };
  for (let t = 0; t < Math.max(1, count); t++) {
    const three = of(t);
    const [xs, ys] = [three.map(({ x }) => x), three.map(({ y }) => y)];
    index.add(Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys));
  }
  index.finish();
  return (p, slack) =>
    index.search(p.x, p.y, p.x, p.y).some((t) => {
      const [a, b, c] = of(t);
      const area = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
      // What turns its back is closed off by what turns its face.
      if (area < 1e-9) return false;
      const v = ((p.x - a.x) * (c.y - a.y) - (p.y - a.y) * (c.x - a.x)) / area;
      const w = ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / area;
      if (v < -NEAR || w < -NEAR || v + w > 1 + NEAR) return false;
      return a.z + v * (b.z - a.z) + w * (c.z - a.z) > p.z + slack;
    });
};
const ORIGIN: Vector = { x: 0, y: 0, z: 0 };

/** Corners that stand in one place are one, whichever face or bend they belong to. */
const drawnEdges = (mesh: Mesh, corners: readonly Vector[], onto: (p: Vector) => Vector): readonly MeshEdge[] => {
  const places = new Map<string, number>();
  const welded = corners.map(({ x, y, z }, i) => {
    const name = `${Math.round(x * 1e4)} ${Math.round(y * 1e4)} ${Math.round(z * 1e4)}`;
    const known = places.get(name);
    if (known !== undefined) return known;
    places.set(name, i);
    return i;
  });
  const groupOf: number[] = [];
  mesh.groups.forEach(({ first, count }, g) => {
    for (let t = first; t < first + count; t++) groupOf[t] = g;
  });
  const sides = new Map<string, { readonly a: number; readonly b: number; readonly triangles: number[] }>();
  for (let t = 0; t < mesh.triangles.length / 3; t++) {
    for (let k = 0; k < 3; k++) {
      const [a, b] = [welded[mesh.triangles[3 * t + k] ?? 0] ?? 0, welded[mesh.triangles[3 * t + ((k + 1) % 3)] ?? 0] ?? 0];
      if (a === b) continue;
      const key = a < b ? `${a} ${b}` : `${b} ${a}`;
      const side = sides.get(key);
      if (side === undefined) sides.set(key, { a, b, triangles: [t] });
      else side.triangles.push(t);
    }
  }
  // By the corners' own normals: a triangle between corners on one line has none of itself.
  const normal = (t: number): Vector => {
    const own = [0, 1, 2].map((k): Vector => {
      const first = 3 * (mesh.triangles[3 * t + k] ?? 0);
      return onto({ x: mesh.normals[first] ?? 0, y: mesh.normals[first + 1] ?? 0, z: mesh.normals[first + 2] ?? 0 });
    });
    return unitVector(own.reduce((p, q) => ({ x: p.x + q.x, y: p.y + q.y, z: p.z + q.z })));
  };
  const found: MeshEdge[] = [];
  for (const { a, b, triangles } of sides.values()) {
    const kind = kindOf(mesh, triangles, groupOf, normal);
    const [from, to] = [corners[a], corners[b]];
    if (kind !== undefined && from !== undefined && to !== undefined) found.push({ a: from, b: to, kind });
  }
  return found;
};

const kindOf = (
  mesh: Mesh,
  triangles: readonly number[],
  groupOf: readonly number[],
  normal: (t: number) => Vector,
): SeenLine['kind'] | undefined => {
  const [first, second] = triangles;
  if (first === undefined || second === undefined || triangles.length > 2) return 'edge';
  const [n, m] = [normal(first), normal(second)];
  if (dotProduct(n, m) < SHARP) return 'edge';
  const turned = dotProduct(n, m) < 1 - 1e-9;
  if (turned && n.z > 1e-9 !== m.z > 1e-9) return 'edge';
  const [p, q] = [mesh.groups[groupOf[first] ?? 0], mesh.groups[groupOf[second] ?? 0]];
  return p !== undefined && q !== undefined && p.feature !== q.feature && p.side !== 'rim' && q.side !== 'rim' ? 'tangent' : undefined;
};
