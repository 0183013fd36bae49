/**
 * No-fit polygons: where the corner of one shape may not lie without its overlapping another. Whole numbers of grid units throughout.
 *
 * The forbidden region is the Minkowski sum of one shape with the other turned half round. Its boundary is traced as the convolution of the two
 * outlines, every edge carried along the corners in whose turn its direction lies; where the trace winds round a point at least once, the shapes
 * overlap there. Source: Guibas, Ramshaw, Stolfi, "A kinetic framework for computational geometry", 24th FOCS (1983), 100-111.
 */
import { Clipper, FillRule, type Path64, type Paths64 } from 'clipper2-ts';
import { type Bands, bandsOf, type Edges, ON_LINE } from './lines.js';

/** A closed ring of whole numbers, anticlockwise, no three neighbours in line. */
export interface Ring {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
}

/** A shape with its box's lower left corner at (0, 0). */
export interface Shape {
  readonly outer: Ring;
  /** Anticlockwise too. Only those in which some piece may lie. */
  readonly holes: readonly Ring[];
  readonly width: number;
  readonly height: number;
}

/** The forbidden region as the edges round it; a point is inside when a ray from it meets an odd number of them. */
export interface NoFit extends Edges {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** From this edge on the edges bound places inside holes. */
  readonly firstHoleEdge: number;
  /** Cut by lines along x, and along y. */
  readonly rows: Bands;
  readonly columns: Bands;
}

const turnedHalf = (ring: Ring): Ring => ({ xs: ring.xs.map((x) => 0 - x), ys: ring.ys.map((y) => 0 - y) });

/** Whether direction d lies in the turn from p to q, of less than half a turn; `left` says which way it turns. Ends: p's for `closedAtFirst`, else q's. */
const inTurn = (px: number, py: number, qx: number, qy: number, left: boolean, dx: number, dy: number, lowerCloses: boolean): boolean => {
  const lowX = left ? px : qx;
  const lowY = left ? py : qy;
  const highX = left ? qx : px;
  const highY = left ? qy : py;
  const fromLow = lowX * dy - lowY * dx;
  const toHigh = dx * highY - dy * highX;
  return lowerCloses ? fromLow >= 0 && toHigh > 0 : fromLow > 0 && toHigh >= 0;
};

/**
 * Boundary of the Minkowski sum of two rings as closed traces.
 *
 * Edges of both that run the same way are told apart by turning the second ring by less than any number.
 */
const convolution = (a: Ring, b: Ring): Paths64 => {
  const n = a.xs.length;
  const m = b.xs.length;
  const stepX = (ring: Ring, i: number, count: number): number => (ring.xs[(i + 1) % count] as number) - (ring.xs[i] as number);
  const stepY = (ring: Ring, i: number, count: number): number => (ring.ys[(i + 1) % count] as number) - (ring.ys[i] as number);
  const adx = a.xs.map((_, i) => stepX(a, i, n));
  const ady = a.ys.map((_, i) => stepY(a, i, n));
  const bdx = b.xs.map((_, i) => stepX(b, i, m));
  const bdy = b.ys.map((_, i) => stepY(b, i, m));
  // Outgoing steps of each pair of corners, as linked lists.
  const head = new Int32Array(n * m).fill(-1);
  const target: number[] = [];
  const following: number[] = [];
  const step = (from: number, to: number): void => {
    target.push(to);
    following.push(head[from] as number);
    head[from] = target.length - 1;
  };
  for (let j = 0; j < m; j++) {
    const k = (j + m - 1) % m;
    const [px, py, qx, qy] = [bdx[k] as number, bdy[k] as number, bdx[j] as number, bdy[j] as number];
    const left = px * qy - py * qx > 0;
    for (let i = 0; i < n; i++) {
      if (!inTurn(px, py, qx, qy, left, adx[i] as number, ady[i] as number, false)) continue;
      const from = i * m + j;
      const to = ((i + 1) % n) * m + j;
      if (left) step(from, to);
      else step(to, from);
    }
  }
  for (let i = 0; i < n; i++) {
    const k = (i + n - 1) % n;
    const [px, py, qx, qy] = [adx[k] as number, ady[k] as number, adx[i] as number, ady[i] as number];
    const left = px * qy - py * qx > 0;
    for (let j = 0; j < m; j++) {
      if (!inTurn(px, py, qx, qy, left, bdx[j] as number, bdy[j] as number, true)) continue;
      const from = i * m + j;
      const to = i * m + ((j + 1) % m);
      if (left) step(from, to);
      else step(to, from);
    }
  }
  const paths: Paths64 = [];
  for (let start = 0; start < n * m; start++) {
    while ((head[start] as number) >= 0) {
      const path: Path64 = [];
      let at = start;
      for (let out = head[at] as number; out >= 0; out = head[at] as number) {
        const i = Math.floor(at / m);
        const j = at - i * m;
        path.push({ x: (a.xs[i] as number) + (b.xs[j] as number), y: (a.ys[i] as number) + (b.ys[j] as number) });
        head[at] = following[out] as number;
        at = target[out] as number;
      }
      paths.push(path);
    }
  }
  return paths;
};

/** Where `moving` overlaps `fixed`, both without holes: outer rings anticlockwise, free pockets clockwise. */
const overlapPlaces = (fixed: Ring, moving: Ring): Paths64 => Clipper.union(convolution(fixed, turnedHalf(moving)), FillRule.Positive);

/** A frame far enough round a hole, joined to it by a cut of no width, so that it is one ring. */
const framed = (hole: Ring, reachX: number, reachY: number): Ring => {
  let leftmost = 0;
  for (let i = 1; i < hole.xs.length; i++) if ((hole.xs[i] as number) < (hole.xs[leftmost] as number)) leftmost = i;
  const minX = hole.xs[leftmost] as number;
  const maxX = Math.max(...hole.xs);
  const minY = Math.min(...hole.ys);
  const maxY = Math.max(...hole.ys);
  const [x0, x1, y0, y1] = [minX - reachX, maxX + reachX, minY - reachY, maxY + reachY];
  const cutY = hole.ys[leftmost] as number;
  // Down the left side to the cut, in to the hole, round it clockwise, back out.
  const round = hole.xs.map((_, i) => (leftmost - i + hole.xs.length) % hole.xs.length);
  return {
    xs: [x0, x1, x1, x0, x0, ...round.map((i) => hole.xs[i] as number), minX, x0],
    ys: [y0, y0, y1, y1, cutY, ...round.map((i) => hole.ys[i] as number), cutY, cutY],
  };
};

/** Where `moving` lies wholly inside `hole`. */
const placesInside = (hole: Ring, moving: Ring, width: number, height: number): Paths64 => {
  const holeWidth = Math.max(...hole.xs) - Math.min(...hole.xs);
  const holeHeight = Math.max(...hole.ys) - Math.min(...hole.ys);
  if (holeWidth < width || holeHeight < height) return [];
  const around = overlapPlaces(framed(hole, 2 * width + 10, 2 * height + 10), moving);
  return around.filter((path) => Clipper.area(path) < 0);
};

const negated = (paths: Paths64): Paths64 => paths.map((path) => path.map((p) => ({ x: 0 - p.x, y: 0 - p.y })));

/** Forbidden places of `moving`'s lower left box corner while `fixed`'s is at (0, 0). */
export const noFit = (fixed: Shape, moving: Shape): NoFit => {
  const around = overlapPlaces(fixed.outer, moving.outer);
  const inHoles = [
    ...fixed.holes.flatMap((hole) => placesInside(hole, moving.outer, moving.width, moving.height)),
    ...moving.holes.flatMap((hole) => negated(placesInside(hole, fixed.outer, fixed.width, fixed.height))),
  ];
  const count = around.reduce((sum, path) => sum + path.length, 0);
  return asEdges([...around, ...inHoles], count);
};

const asEdges = (paths: Paths64, firstHoleEdge: number): NoFit => {
  const starts = paths.flat();
  const ends = paths.flatMap((path) => [...path.slice(1), ...path.slice(0, 1)]);
  return regionOf(
    {
      count: starts.length,
      ax: Float64Array.from(starts, (p) => p.x),
      ay: Float64Array.from(starts, (p) => p.y),
      bx: Float64Array.from(ends, (p) => p.x),
      by: Float64Array.from(ends, (p) => p.y),
    },
    firstHoleEdge,
  );
};

const regionOf = (edges: Edges, firstHoleEdge: number): NoFit => {
  const rows = bandsOf(edges, true);
  const columns = bandsOf(edges, false);
  return {
    ...edges,
    firstHoleEdge,
    rows,
    columns,
    minX: columns.cuts[0] ?? 0,
    maxX: columns.cuts[columns.cuts.length - 1] ?? 0,
    minY: rows.cuts[0] ?? 0,
    maxY: rows.cuts[rows.cuts.length - 1] ?? 0,
  };
};

/** The same pair with the roles exchanged. */
export const exchanged = (of: NoFit): NoFit =>
  regionOf(
    {
      count: of.count,
      ax: of.ax.map((v) => 0 - v),
      ay: of.ay.map((v) => 0 - v),
      bx: of.bx.map((v) => 0 - v),
      by: of.by.map((v) => 0 - v),
    },
    of.firstHoleEdge,
  );

/** How far a point inside the region is from its boundary, 0 outside: the shortest move that parts the two shapes. */
export const depthAt = (region: NoFit, px: number, py: number): number => {
  if (px <= region.minX || px >= region.maxX || py <= region.minY || py >= region.maxY) return 0;
  const { cuts, first, met, slope } = region.rows;
  let low = 0;
  let high = cuts.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((cuts[middle] as number) <= py) low = middle;
    else high = middle;
  }
  const into = py - (cuts[low] as number);
  const end = first[low + 1] as number;
  let inside = false;
  for (let k = first[low] as number; k < end; k++) if ((met[k] as number) + (slope[k] as number) * into > px) inside = !inside;
  if (!inside) return 0;
  const { ax, ay, bx, by, count } = region;
  let nearest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < count; k++) {
    const fromX = (ax[k] as number) - px;
    const fromY = (ay[k] as number) - py;
    const alongX = (bx[k] as number) - px - fromX;
    const alongY = (by[k] as number) - py - fromY;
    let t = -(fromX * alongX + fromY * alongY) / (alongX * alongX + alongY * alongY);
    if (t < 0) t = 0;
    else if (t > 1) t = 1;
    const nearX = fromX + t * alongX;
    const nearY = fromY + t * alongY;
    const squared = nearX * nearX + nearY * nearY;
    if (squared < nearest) nearest = squared;
  }
  return nearest > ON_LINE * ON_LINE ? Math.sqrt(nearest) : 0;
};

export interface NoFits {
  readonly shapes: readonly Shape[];
  /** By index of the lying and of the moving shape; kept once worked out. */
  readonly of: (fixed: number, moving: number) => NoFit;
  /** Least and greatest x, then y, of each pair's region, once it is known: four numbers from 4 · (fixed · shapes + moving) on; NaN before. */
  readonly bounds: Float64Array;
}

/** Works out each pair of shapes when it is first asked for. */
export const noFitsOf = (shapes: readonly Shape[]): NoFits => {
  const known: (NoFit | undefined)[] = new Array(shapes.length * shapes.length).fill(undefined);
  const bounds = new Float64Array(4 * shapes.length * shapes.length).fill(Number.NaN);
  const keep = (at: number, region: NoFit): void => {
    known[at] = region;
    bounds.set([region.minX, region.maxX, region.minY, region.maxY], 4 * at);
  };
  const of = (fixed: number, moving: number): NoFit => {
    const at = fixed * shapes.length + moving;
    const found = known[at];
    if (found !== undefined) return found;
    const made = noFit(shapes[fixed] as Shape, shapes[moving] as Shape);
    keep(at, made);
    if (fixed !== moving) keep(moving * shapes.length + fixed, exchanged(made));
    return made;
  };
  return { shapes, of, bounds };
};
