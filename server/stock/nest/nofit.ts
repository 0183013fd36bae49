/**
 * No-fit polygons: where the corner of one shape may not lie without its overlapping another. Whole numbers of grid units throughout.
 *
 * The forbidden region is the Minkowski sum of one shape with the other turned half round. Its boundary is traced as the convolution of the two
 * outlines, every edge carried along the corners in whose turn its direction lies; where the trace winds round a point at least once, the shapes
 * overlap there. Source: Guibas, Ramshaw, Stolfi, "A kinetic framework for computational geometry", 24th FOCS (1983), 100-111.
 */
import { type Bands, bandAt, bandsOf, ON_LINE, turnedBands } from './lines.js';

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

/** The forbidden region: lines through it, and the edges round it. */
export interface NoFit {
  readonly count: number;
  readonly ax: Float64Array;
  readonly ay: Float64Array;
  readonly bx: Float64Array;
  readonly by: Float64Array;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** Corners of the free places inside holes. */
  readonly inHoles: readonly { readonly x: number; readonly y: number }[];
  /** Cut by lines along x, and along y. */
  readonly rows: Bands;
  readonly columns: Bands;
}

const turnedHalf = (ring: Ring): Ring => ({ xs: ring.xs.map((x) => 0 - x), ys: ring.ys.map((y) => 0 - y) });

/** Whether direction d lies in the turn from p to q, of less than half a turn; `left` says which way it turns. Of its two ends the clockwise one counts as inside for `lowerCloses`, else the other. */
const inTurn = (px: number, py: number, qx: number, qy: number, left: boolean, dx: number, dy: number, lowerCloses: boolean): boolean => {
  const lowX = left ? px : qx;
  const lowY = left ? py : qy;
  const highX = left ? qx : px;
  const highY = left ? qy : py;
  const fromLow = lowX * dy - lowY * dx;
  const toHigh = dx * highY - dy * highX;
  return lowerCloses ? fromLow >= 0 && toHigh > 0 : fromLow > 0 && toHigh >= 0;
};

interface Corner {
  readonly x: number;
  readonly y: number;
}
/** A step of a closed trace. */
interface Trace {
  readonly from: Corner;
  readonly to: Corner;
}

/**
 * Boundary of the Minkowski sum of two rings as closed traces, their steps in no order.
 *
 * Edges of both that run the same way are told apart by turning the second ring by less than any number.
 */
const convolution = (a: Ring, b: Ring): Trace[] => {
  const n = a.xs.length;
  const m = b.xs.length;
  const stepX = (ring: Ring, i: number, count: number): number => (ring.xs[(i + 1) % count] as number) - (ring.xs[i] as number);
  const stepY = (ring: Ring, i: number, count: number): number => (ring.ys[(i + 1) % count] as number) - (ring.ys[i] as number);
  const adx = a.xs.map((_, i) => stepX(a, i, n));
  const ady = a.ys.map((_, i) => stepY(a, i, n));
  const bdx = b.xs.map((_, i) => stepX(b, i, m));
  const bdy = b.ys.map((_, i) => stepY(b, i, m));
  const traces: Trace[] = [];
  const step = (i: number, j: number, toI: number, toJ: number, forward: boolean): void => {
    const from = { x: (a.xs[i] as number) + (b.xs[j] as number), y: (a.ys[i] as number) + (b.ys[j] as number) };
    const to = { x: (a.xs[toI] as number) + (b.xs[toJ] as number), y: (a.ys[toI] as number) + (b.ys[toJ] as number) };
    traces.push(forward ? { from, to } : { from: to, to: from });
  };
  for (let j = 0; j < m; j++) {
    const k = (j + m - 1) % m;
    const [px, py, qx, qy] = [bdx[k] as number, bdy[k] as number, bdx[j] as number, bdy[j] as number];
    const left = px * qy - py * qx > 0;
    for (let i = 0; i < n; i++) {
      if (!inTurn(px, py, qx, qy, left, adx[i] as number, ady[i] as number, false)) continue;
      step(i, j, (i + 1) % n, j, left);
    }
  }
  for (let i = 0; i < n; i++) {
    const k = (i + n - 1) % n;
    const [px, py, qx, qy] = [adx[k] as number, ady[k] as number, adx[i] as number, ady[i] as number];
    const left = px * qy - py * qx > 0;
    for (let j = 0; j < m; j++) {
      if (!inTurn(px, py, qx, qy, left, bdx[j] as number, bdy[j] as number, true)) continue;
      step(i, j, i, (j + 1) % m, left);
    }
  }
  return traces;
};

/** A frame round a hole, joined to it by a cut of no width, so that it is one ring. */
const framed = (hole: Ring, around: Shape, reachX: number, reachY: number): Ring => {
  let leftmost = 0;
  for (let i = 1; i < hole.xs.length; i++) if ((hole.xs[i] as number) < (hole.xs[leftmost] as number)) leftmost = i;
  const [x0, x1, y0, y1] = [0 - reachX, around.width + reachX, 0 - reachY, around.height + reachY];
  const cutX = hole.xs[leftmost] as number;
  const cutY = hole.ys[leftmost] as number;
  // Down the left side to the cut, in to the hole, round it clockwise, back out.
  const round = hole.xs.map((_, i) => (leftmost - i + hole.xs.length) % hole.xs.length);
  return {
    xs: [x0, x1, x1, x0, x0, ...round.map((i) => hole.xs[i] as number), cutX, x0],
    ys: [y0, y0, y1, y1, cutY, ...round.map((i) => hole.ys[i] as number), cutY, cutY],
  };
};

/** Traces round the places where a shape without holes meets the rim of a hole of `around`, which stretches beyond its outline; none when it is too large. */
const rimOf = (hole: Ring, around: Shape, inner: Shape): Trace[] => {
  const holeWidth = Math.max(...hole.xs) - Math.min(...hole.xs);
  const holeHeight = Math.max(...hole.ys) - Math.min(...hole.ys);
  if (holeWidth < inner.width || holeHeight < inner.height) return [];
  return convolution(framed(hole, around, 2 * inner.width + 10, 2 * inner.height + 10), turnedHalf(inner.outer));
};

const turnedTraces = (traces: readonly Trace[]): Trace[] =>
  traces.map(({ from, to }) => ({ from: { x: 0 - from.x, y: 0 - from.y }, to: { x: 0 - to.x, y: 0 - to.y } }));

/** Forbidden places of `moving`'s lower left box corner while `fixed`'s is at (0, 0). */
export const noFit = (fixed: Shape, moving: Shape): NoFit => {
  // Forbidden where the outlines overlap, unless one lies wholly in a hole of the other: off its rim.
  const groups = [
    convolution(fixed.outer, turnedHalf(moving.outer)),
    ...fixed.holes.map((hole) => rimOf(hole, fixed, moving)),
    ...moving.holes.map((hole) => turnedTraces(rimOf(hole, moving, fixed))),
  ].filter((group) => group.length > 0);
  const traces = groups.flat();
  const group = groups.flatMap((steps, g) => steps.map(() => g));
  const given = {
    ax: traces.map((t) => t.from.x),
    ay: traces.map((t) => t.from.y),
    bx: traces.map((t) => t.to.x),
    by: traces.map((t) => t.to.y),
    group,
    groups: groups.length,
  };
  const across = bandsOf(given, true);
  const up = bandsOf(given, false);
  const slanted = across.edges.map((e) => ({ ax: e.fromU, ay: e.fromV, bx: e.toU, by: e.toV, group: e.group }));
  const level = up.edges.filter((e) => e.fromU === e.toU).map((e) => ({ ax: e.fromV, ay: e.fromU, bx: e.toV, by: e.toU, group: e.group }));
  const edges = [...slanted, ...level];
  const inHoles = edges
    .filter((e) => e.group > 0)
    .flatMap((e) => [
      { x: e.ax, y: e.ay },
      { x: e.bx, y: e.by },
    ]);
  return {
    count: edges.length,
    ax: Float64Array.from(edges, (e) => e.ax),
    ay: Float64Array.from(edges, (e) => e.ay),
    bx: Float64Array.from(edges, (e) => e.bx),
    by: Float64Array.from(edges, (e) => e.by),
    inHoles,
    rows: across.bands,
    columns: up.bands,
    ...boundsOf(across.bands, up.bands),
  };
};

const boundsOf = (rows: Bands, columns: Bands): Pick<NoFit, 'minX' | 'maxX' | 'minY' | 'maxY'> => ({
  minX: columns.cuts[0] ?? 0,
  maxX: columns.cuts[columns.cuts.length - 1] ?? 0,
  minY: rows.cuts[0] ?? 0,
  maxY: rows.cuts[rows.cuts.length - 1] ?? 0,
});

/** The same pair with the roles exchanged. */
export const exchanged = (of: NoFit): NoFit => {
  const rows = turnedBands(of.rows);
  const columns = turnedBands(of.columns);
  return {
    count: of.count,
    ax: of.ax.map((v) => 0 - v),
    ay: of.ay.map((v) => 0 - v),
    bx: of.bx.map((v) => 0 - v),
    by: of.by.map((v) => 0 - v),
    inHoles: of.inHoles.map(({ x, y }) => ({ x: 0 - x, y: 0 - y })),
    rows,
    columns,
    ...boundsOf(rows, columns),
  };
};

const isInside = (region: NoFit, px: number, py: number): boolean => {
  if (px <= region.minX || px >= region.maxX || py <= region.minY || py >= region.maxY) return false;
  const { cuts, first, met, slope } = region.rows;
  const low = bandAt(cuts, py);
  const into = py - (cuts[low] as number);
  const end = first[low + 1] as number;
  let inside = false;
  for (let k = first[low] as number; k < end; k++) if ((met[k] as number) + (slope[k] as number) * into > px) inside = !inside;
  return inside;
};

/** The shortest move that brings a point out of a region. */
export interface WayOut {
  x: number;
  y: number;
}

/**
 * How far a point inside the region is from its boundary, 0 outside: the shortest move that parts the two shapes.
 *
 * @param out receives that move
 */
export const depthAt = (region: NoFit, px: number, py: number, out?: WayOut): number => {
  if (!isInside(region, px, py)) return 0;
  const { ax, ay, bx, by, count } = region;
  let nearest = Number.POSITIVE_INFINITY;
  let outX = 0;
  let outY = 0;
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
    if (squared < nearest) {
      nearest = squared;
      outX = nearX;
      outY = nearY;
    }
  }
  if (nearest <= ON_LINE * ON_LINE) return 0;
  if (out !== undefined) {
    out.x = outX;
    out.y = outY;
  }
  return Math.sqrt(nearest);
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
