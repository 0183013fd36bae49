/** Convex polygons of the plane: hulls, cutting a polygon into convex pieces, how deep two overlap, and what one meets while it turns about a point. */
import earcut from 'earcut';
import type { Point } from './path.js';

/** Corners anticlockwise, no two alike, none on a line with its neighbours. */
export type Convex = readonly Point[];

const turnsLeft = (a: Point, b: Point, c: Point): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

/** The hull of some points; fewer than three corners when they lie on a line. */
export const hullOf = (points: readonly Point[]): Convex => {
  if (points.length < 3) return points;
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const chain: Point[] = [];
  const grow = (p: Point, floor: number): void => {
    while (chain.length >= floor) {
      const [a, b] = [chain[chain.length - 2], chain[chain.length - 1]];
      if (a === undefined || b === undefined || turnsLeft(a, b, p) > 1e-12) break;
      chain.pop();
    }
    chain.push(p);
  };
  for (const p of sorted) grow(p, 2);
  const floor = chain.length + 1;
  for (let i = sorted.length - 2; i >= 0; i--) {
    const p = sorted[i];
    if (p !== undefined) grow(p, floor);
  }
  chain.pop();
  return chain;
};

/** A polygon, either way round, as convex pieces: triangles joined while they stay convex. */
export const convexPieces = (polygon: readonly Point[]): readonly Convex[] => {
  const hull = hullOf(polygon);
  if (Math.abs(areaOf(hull) - Math.abs(areaOf(polygon))) <= 1e-9 * (1 + areaOf(hull))) return areaOf(hull) > 0 ? [hull] : [];
  const cut = earcut(polygon.flatMap((p) => [p.x, p.y]));
  const pieces: Convex[] = [];
  for (let i = 0; i + 2 < cut.length; i += 3) {
    const corners = [cut[i], cut[i + 1], cut[i + 2]].flatMap((index) => polygon[index ?? -1] ?? []);
    if (Math.abs(areaOf(corners)) > 1e-12) pieces.push(hullOf(corners));
  }
  return joined(pieces);
};

const areaOf = (polygon: readonly Point[]): number => {
  let twice = 0;
  for (const [i, p] of polygon.entries()) {
    const q = polygon[(i + 1) % polygon.length] ?? p;
    twice += p.x * q.y - q.x * p.y;
  }
  return twice / 2;
};

const joined = (pieces: readonly Convex[]): readonly Convex[] => {
  const left = [...pieces];
  for (let i = 0; i < left.length; i++) {
    for (let j = i + 1; j < left.length; j++) {
      const [a, b] = [left[i], left[j]];
      if (a === undefined || b === undefined) continue;
      const hull = hullOf([...a, ...b]);
      const [whole, parts] = [areaOf(hull), areaOf(a) + areaOf(b)];
      if (whole > parts + 1e-9 * (1 + whole)) continue;
      left[i] = hull;
      left.splice(j, 1);
      j = i;
    }
  }
  return left;
};

/**
 * How far one would have to move to be clear of the other, mm: positive when they overlap, else minus a lower bound of the distance between them.
 * The least overlap over the directions square to their edges (separating axes).
 */
export const overlapDepth = (a: Convex, b: Convex): number => Math.min(depthAlongEdges(a, b), depthAlongEdges(b, a));

const depthAlongEdges = (a: Convex, b: Convex): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < a.length; i++) {
    const p = a[i];
    const q = a[i + 1 === a.length ? 0 : i + 1];
    if (p === undefined || q === undefined) continue;
    const [dx, dy] = [q.x - p.x, q.y - p.y];
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length < 1e-12) continue;
    // How far b reaches behind this edge; a lies to its left.
    let nearest = Number.POSITIVE_INFINITY;
    for (const r of b) {
      const out = dy * (r.x - p.x) - dx * (r.y - p.y);
      if (out < nearest) nearest = out;
    }
    const depth = -nearest / length;
    if (depth < least) least = depth;
    if (least < 0) return least;
  }
  return least;
};

/** Turned about a point, then moved. */
export const turned = (polygon: Convex, about: Point, angle: number, dx = 0, dy = 0): Convex => {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return polygon.map((p) => {
    const [x, y] = [p.x + dx - about.x, p.y + dy - about.y];
    return { x: about.x + cos * x - sin * y, y: about.y + sin * x + cos * y };
  });
};

/** All places that the polygon passes when it slides by (dx, 0). */
export const slid = (polygon: Convex, dx: number): Convex => {
  if (dx === 0) return polygon;
  const swept: Point[] = [];
  const count = polygon.length;
  for (let i = 0; i < count; i++) {
    const [before, p, after] = [polygon[i === 0 ? count - 1 : i - 1], polygon[i], polygon[i + 1 === count ? 0 : i + 1]];
    if (before === undefined || p === undefined || after === undefined) continue;
    // An edge that looks the way of the slide goes along; where the two edges at a corner differ, the corner leaves its track.
    const [came, goes] = [(p.y - before.y) * dx > 0, (after.y - p.y) * dx > 0];
    if (!came) swept.push(p);
    if (came || goes) swept.push({ x: p.x + dx, y: p.y });
    if (came && !goes) swept.push(p);
  }
  return swept;
};

/** A polygon as it lies around a point: its least and greatest distance, and the angles it takes up; `width` is a full turn where it holds the point. */
export interface Around {
  readonly polygon: Convex;
  readonly near: number;
  readonly far: number;
  /** From this angle, anticlockwise, over `width`; rad. */
  readonly start: number;
  readonly width: number;
}
const FULL = 2 * Math.PI;

export const around = (polygon: Convex, about: Point): Around => {
  let far = 0;
  let near = Number.POSITIVE_INFINITY;
  let outside = false;
  let low = 0;
  let high = 0;
  const base = polygon[0] === undefined ? 0 : Math.atan2(polygon[0].y - about.y, polygon[0].x - about.x);
  for (let i = 0; i < polygon.length; i++) {
    const p = polygon[i];
    const q = polygon[i + 1 === polygon.length ? 0 : i + 1];
    if (p === undefined || q === undefined) continue;
    const [px, py] = [p.x - about.x, p.y - about.y];
    const [dx, dy] = [q.x - p.x, q.y - p.y];
    const out = px * px + py * py;
    if (out > far) far = out;
    const square = dx * dx + dy * dy;
    const share = square < 1e-24 ? 0 : Math.min(1, Math.max(0, -(px * dx + py * dy) / square));
    const [nx, ny] = [px + share * dx, py + share * dy];
    const close = nx * nx + ny * ny;
    if (close < near) near = close;
    if (dx * py - dy * px > 0) outside = true;
    let angle = Math.atan2(py, px) - base;
    if (angle > Math.PI) angle -= FULL;
    else if (angle < -Math.PI) angle += FULL;
    if (angle < low) low = angle;
    if (angle > high) high = angle;
  }
  if (!outside) return { polygon, near: 0, far: Math.sqrt(far), start: 0, width: FULL };
  return { polygon, near: Math.sqrt(near), far: Math.sqrt(far), start: base + low, width: high - low };
};

/** Whether two stretches of angle share any. */
export const anglesMeet = (startA: number, widthA: number, startB: number, widthB: number): boolean =>
  whole(startB - startA) <= widthA + 1e-9 || whole(startA - startB) <= widthB + 1e-9;
const whole = (angle: number): number => angle - FULL * Math.floor(angle / FULL);

/**
 * The first angle at which a convex polygon, turned anticlockwise about a point from `from` to `to` (rad, to ≥ from, less than one turn apart), meets
 * another that stands still; undefined when it never does. Exact: either they overlap at the start, or first touch where a corner of one meets an edge
 * of the other, and a corner runs on a circle.
 */
export const firstMeeting = (moving: Around, still: Around, about: Point, from: number, to: number): number | undefined => {
  if (moving.far < still.near || still.far < moving.near) return undefined;
  const room = to - from;
  if (!anglesMeet(moving.start + from, moving.width + room, still.start, still.width)) return undefined;
  const start = from === 0 ? moving.polygon : turned(moving.polygon, about, from);
  if (overlapDepth(start, still.polygon) > 0) return from;
  let first = Number.POSITIVE_INFINITY;
  first = meetingsOfCorners(start, still.polygon, about, 1, room, first);
  first = meetingsOfCorners(still.polygon, start, about, -1, room, first);
  return first <= room ? from + first : undefined;
};

/** Corners of one polygon on their circles against the edges of the other; `sense` −1 when it is really the edges that turn. */
const meetingsOfCorners = (corners: Convex, edges: Convex, about: Point, sense: 1 | -1, room: number, known: number): number => {
  let first = known;
  for (let i = 0; i < edges.length; i++) {
    const p = edges[i];
    const q = edges[i + 1 === edges.length ? 0 : i + 1];
    if (p === undefined || q === undefined) continue;
    const [dx, dy] = [q.x - p.x, q.y - p.y];
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length < 1e-12) continue;
    const [ex, ey] = [dx / length, dy / length];
    const [px, py] = [p.x - about.x, p.y - about.y];
    const foot = -(px * ex + py * ey);
    const away = px * ey - py * ex;
    const awaySquare = away * away;
    for (const corner of corners) {
      const [cx, cy] = [corner.x - about.x, corner.y - about.y];
      const rest = cx * cx + cy * cy - awaySquare;
      if (rest < 0) continue;
      const half = Math.sqrt(rest);
      for (const along of [foot - half, foot + half]) {
        if (along < 0 || along > length) continue;
        const [x, y] = [px + along * ex, py + along * ey];
        let angle = sense * Math.atan2(cx * y - cy * x, cx * x + cy * y);
        if (angle < 0) angle += FULL;
        if (angle < first && angle <= room) first = angle;
      }
    }
  }
  return first;
};
