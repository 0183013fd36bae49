/**
 * A region cut into bands by lines along an axis, so that where a line runs inside it is looked up, not worked out. The hot part of the search.
 *
 * The region is given by closed traces in groups: a point is inside when every group winds round it at least once.
 */

/** Below this a corner lies on a line, in grid units. */
export const ON_LINE = 0.01;

/** Straight steps of closed traces. */
export interface Traces {
  readonly ax: readonly number[];
  readonly ay: readonly number[];
  readonly bx: readonly number[];
  readonly by: readonly number[];
  readonly group: readonly number[];
  readonly groups: number;
}

export interface Bands {
  /** Where corners of the boundary lie, ascending: a band runs from one to the next. */
  readonly cuts: Float64Array;
  /** Boundary in band `m`: from index `first[m]` to before `first[m + 1]`, where it is met at the band's start and how far that moves per unit. */
  readonly first: Int32Array;
  readonly met: Float64Array;
  readonly slope: Float64Array;
  /** Stretches of the line exactly through cut `m`, start and end in turn: inside only where both sides of the line are. */
  readonly firstOnCut: Int32Array;
  readonly onCut: Float64Array;
}

/** A straight part of the boundary, `v` across the bands and `u` along them. */
export interface BoundaryEdge {
  readonly fromU: number;
  readonly fromV: number;
  readonly toU: number;
  readonly toV: number;
  readonly group: number;
}

/** A step that runs across the bands, with v0 < v1. */
interface Step {
  readonly v0: number;
  readonly v1: number;
  readonly u0: number;
  readonly rate: number;
  /** What the winding gains when it is crossed in the direction of u. */
  readonly sign: number;
  readonly group: number;
}

const stepsOf = (traces: Traces, alongX: boolean): Step[] => {
  const steps: Step[] = [];
  const [us, vs, ue, ve] = alongX ? [traces.ax, traces.ay, traces.bx, traces.by] : [traces.ay, traces.ax, traces.by, traces.bx];
  traces.group.forEach((group, k) => {
    const [u0, v0, u1, v1] = [us[k] as number, vs[k] as number, ue[k] as number, ve[k] as number];
    if (v0 === v1) return;
    const rate = (u1 - u0) / (v1 - v0);
    // Of an anticlockwise trace the left side runs down; seen with the axes exchanged, up.
    const sign = v1 < v0 === alongX ? 1 : -1;
    steps.push(v0 < v1 ? { v0, v1, u0, rate, sign, group } : { v0: v1, v1: v0, u0: u1, rate, sign, group });
  });
  return steps.sort((p, q) => p.v0 - q.v0);
};

const at = (step: Step, v: number): number => step.u0 + step.rate * (v - step.v0);

/** All v at which a step begins, ends or crosses another; closer than a hair counts as one. */
const cutsOf = (steps: readonly Step[]): number[] => {
  const corners = new Set<number>();
  for (const { v0, v1 } of steps) {
    corners.add(v0);
    corners.add(v1);
  }
  const crossings: number[] = [];
  for (let i = 0; i < steps.length; i++) {
    const p = steps[i] as Step;
    for (let j = i + 1; j < steps.length; j++) {
      const q = steps[j] as Step;
      if (q.v0 >= p.v1) break;
      if (p.rate === q.rate) continue;
      const low = q.v0;
      const high = Math.min(p.v1, q.v1);
      const below = at(p, low) - at(q, low);
      const above = at(p, high) - at(q, high);
      if (below > 0 === above > 0 && below !== 0 && above !== 0) continue;
      const v = low + below / (q.rate - p.rate);
      if (v > low && v < high) crossings.push(v);
    }
  }
  const all = [...[...corners].map((v) => ({ v, corner: true })), ...crossings.map((v) => ({ v, corner: false }))];
  all.sort((p, q) => p.v - q.v);
  const cuts: { v: number; corner: boolean }[] = [];
  for (const cut of all) {
    const last = cuts[cuts.length - 1];
    if (last === undefined || cut.v - last.v > 2 * ON_LINE) cuts.push(cut);
    else if (cut.corner && !last.corner) cuts[cuts.length - 1] = cut;
  }
  return cuts.map(({ v }) => v);
};

/** Steps that bound the region in a band, two for each stretch. */
const boundaryIn = (active: readonly Step[], low: number, high: number, groups: number): Step[] => {
  const middle = (low + high) / 2;
  const sorted = [...active].sort((p, q) => at(p, middle) - at(q, middle));
  const winding = new Int32Array(groups);
  let open = groups;
  const found: Step[] = [];
  for (const step of sorted) {
    const before = winding[step.group] as number;
    const after = before + step.sign;
    winding[step.group] = after;
    const wasInside = open === 0;
    if (before <= 0 && after > 0) open--;
    else if (before > 0 && after <= 0) open++;
    const isInside = open === 0;
    if (wasInside === isInside) continue;
    const last = found[found.length - 1];
    // A stretch or a gap of no width is none.
    if (last !== undefined && Math.abs(at(last, low) - at(step, low)) < ON_LINE && Math.abs(at(last, high) - at(step, high)) < ON_LINE)
      found.pop();
    else found.push(step);
  }
  return found;
};

/** Stretches common to two sorted lists of starts and ends. */
const inBoth = (above: readonly number[], below: readonly number[]): number[] => {
  const found: number[] = [];
  let i = 0;
  let j = 0;
  while (i + 1 < above.length && j + 1 < below.length) {
    const start = Math.max(above[i] as number, below[j] as number);
    const end = Math.min(above[i + 1] as number, below[j + 1] as number);
    if (end - start > ON_LINE) {
      const last = found.length - 1;
      if (last > 0 && start - (found[last] as number) < ON_LINE) found[last] = end;
      else found.push(start, end);
    }
    if ((above[i + 1] as number) < (below[j + 1] as number)) i += 2;
    else j += 2;
  }
  return found;
};

const isSame = (a: readonly Step[], b: readonly Step[]): boolean => a.length === b.length && a.every((step, i) => step === b[i]);

/**
 * @param alongX for lines along x (bands over y), else along y
 * @returns the bands, and the boundary as far as it runs across them
 */
export const bandsOf = (traces: Traces, alongX: boolean): { readonly bands: Bands; readonly edges: readonly BoundaryEdge[] } => {
  const steps = stepsOf(traces, alongX);
  const all = cutsOf(steps);
  const [cuts, first, met, slope]: [number[], number[], number[], number[]] = [[], [], [], []];
  const [firstOnCut, onCut]: [number[], number[]] = [[], []];
  const edges: BoundaryEdge[] = [];
  const begun = new Map<Step, number>();
  let active: Step[] = [];
  let waiting = 0;
  let bounding: Step[] = [];
  const turnTo = (v: number, next: Step[]): void => {
    for (const step of bounding) {
      if (next.includes(step)) continue;
      const from = begun.get(step) as number;
      begun.delete(step);
      edges.push({ fromU: at(step, from), fromV: from, toU: at(step, v), toV: v, group: step.group });
    }
    for (const step of next) if (!begun.has(step)) begun.set(step, v);
    const starts = next.map((step) => at(step, v));
    cuts.push(v);
    first.push(met.length);
    firstOnCut.push(onCut.length);
    onCut.push(
      ...inBoth(
        starts,
        bounding.map((step) => at(step, v)),
      ),
    );
    met.push(...starts);
    slope.push(...next.map((step) => step.rate));
    bounding = next;
  };
  for (let m = 0; m < all.length; m++) {
    const low = all[m] as number;
    const high = all[m + 1] ?? low;
    while (waiting < steps.length && (steps[waiting] as Step).v0 < high - ON_LINE) active.push(steps[waiting++] as Step);
    active = active.filter((step) => step.v1 > low + ON_LINE);
    const next = m + 1 < all.length ? boundaryIn(active, low, high, traces.groups) : [];
    if (!isSame(next, bounding)) turnTo(low, next);
  }
  first.push(met.length);
  firstOnCut.push(onCut.length);
  const bands: Bands = {
    cuts: Float64Array.from(cuts),
    first: Int32Array.from(first),
    met: Float64Array.from(met),
    slope: Float64Array.from(slope),
    firstOnCut: Int32Array.from(firstOnCut),
    onCut: Float64Array.from(onCut),
  };
  return { bands, edges };
};

/** The bands of the region turned half round. */
export const turnedBands = (of: Bands): Bands => {
  const count = of.cuts.length;
  const negated = (from: Float64Array): Float64Array => from.map((v) => 0 - v).reverse();
  const [first, met, slope, firstOnCut, onCut]: [number[], number[], number[], number[], number[]] = [[], [], [], [], []];
  for (let m = count - 1; m >= 0; m--) {
    // The band that begins at this cut when turned is the one that ended there.
    first.push(met.length);
    firstOnCut.push(onCut.length);
    const band = m - 1;
    if (band >= 0) {
      const height = (of.cuts[m] as number) - (of.cuts[band] as number);
      for (let k = (of.first[band + 1] as number) - 1; k >= (of.first[band] as number); k--) {
        met.push(0 - ((of.met[k] as number) + (of.slope[k] as number) * height));
        slope.push(of.slope[k] as number);
      }
    }
    for (let k = (of.firstOnCut[m + 1] as number) - 1; k >= (of.firstOnCut[m] as number); k--) onCut.push(0 - (of.onCut[k] as number));
  }
  first.push(met.length);
  firstOnCut.push(onCut.length);
  return {
    cuts: negated(of.cuts),
    first: Int32Array.from(first),
    met: Float64Array.from(met),
    slope: Float64Array.from(slope),
    firstOnCut: Int32Array.from(firstOnCut),
    onCut: Float64Array.from(onCut),
  };
};

/** The band that holds a line, for one between the first cut and the last. */
export const bandAt = (cuts: Float64Array, line: number): number => {
  let low = 0;
  let high = cuts.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((cuts[middle] as number) <= line) low = middle;
    else high = middle;
  }
  return low;
};

/**
 * Stretches in which a line runs inside the region.
 *
 * @param out receives starts and ends in turn, ascending, from index 0
 * @returns how many numbers of `out` count
 */
export const stretchesAt = (bands: Bands, line: number, out: number[]): number => {
  const { cuts } = bands;
  const last = cuts.length - 1;
  if (last < 1 || line <= (cuts[0] as number) + ON_LINE || line >= (cuts[last] as number) - ON_LINE) return 0;
  const band = bandAt(cuts, line);
  const into = line - (cuts[band] as number);
  const cut = into < ON_LINE ? band : (cuts[band + 1] as number) - line < ON_LINE ? band + 1 : -1;
  if (cut >= 0) {
    const { firstOnCut, onCut } = bands;
    const from = firstOnCut[cut] as number;
    const count = (firstOnCut[cut + 1] as number) - from;
    for (let k = 0; k < count; k++) out[k] = onCut[from + k] as number;
    return count;
  }
  const { first, met, slope } = bands;
  const from = first[band] as number;
  const count = (first[band + 1] as number) - from;
  for (let k = 0; k < count; k++) out[k] = (met[from + k] as number) + (slope[from + k] as number) * into;
  return count;
};
