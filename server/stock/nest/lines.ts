/**
 * Straight lines along an axis through a region: which stretches of them are inside. The hot part of the search, so the region is cut into bands
 * between its corners once: within a band the same edges are met in the same order.
 */

/** Below this a corner lies on the line, in grid units. */
export const ON_LINE = 0.01;

export interface Edges {
  readonly count: number;
  readonly ax: Float64Array;
  readonly ay: Float64Array;
  readonly bx: Float64Array;
  readonly by: Float64Array;
}

/** A region cut across by lines along one axis. */
export interface Bands {
  /** Where corners lie, ascending: a band runs from one to the next. */
  readonly cuts: Float64Array;
  /** Edges of band `m` are those from `first[m]` to before `first[m + 1]`: where they are met at the band's start, and how far that moves per unit. */
  readonly first: Int32Array;
  readonly met: Float64Array;
  readonly slope: Float64Array;
  /** Stretches of the line exactly through cut `m`, start and end in turn: inside only where both sides of the line are. */
  readonly firstOnCut: Int32Array;
  readonly onCut: Float64Array;
}

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

/**
 * @param edges round the region, which holds the points from which a ray meets an odd number of them
 * @param alongX for lines along x (bands over y), else along y
 */
export const bandsOf = ({ count, ax, ay, bx, by }: Edges, alongX: boolean): Bands => {
  const [va, vb] = alongX ? [ay, by] : [ax, bx];
  const [ua, ub] = alongX ? [ax, bx] : [ay, by];
  const cuts = [...new Set(va)].sort((a, b) => a - b);
  const indexOf = new Map(cuts.map((cut, m) => [cut, m]));
  const members: number[][] = cuts.map(() => []);
  for (let k = 0; k < count; k++) {
    const from = indexOf.get(va[k] as number) as number;
    const to = indexOf.get(vb[k] as number) as number;
    for (let m = Math.min(from, to); m < Math.max(from, to); m++) (members[m] as number[]).push(k);
  }
  const first: number[] = [];
  const [met, slope]: [number[], number[]] = [[], []];
  const firstOnCut: number[] = [];
  const onCut: number[] = [];
  let endsBefore: number[] = [];
  cuts.forEach((cut, m) => {
    first.push(met.length);
    const next = cuts[m + 1] ?? cut;
    const slopes = (members[m] as number[]).map((k) => {
      const rate = ((ub[k] as number) - (ua[k] as number)) / ((vb[k] as number) - (va[k] as number));
      return { rate, start: (ua[k] as number) + rate * (cut - (va[k] as number)) };
    });
    const middle = (next - cut) / 2;
    slopes.sort((p, q) => p.start + p.rate * middle - (q.start + q.rate * middle));
    const starts = slopes.map(({ start }) => start);
    firstOnCut.push(onCut.length);
    onCut.push(...inBoth(starts, endsBefore));
    for (const { rate, start } of slopes) {
      met.push(start);
      slope.push(rate);
    }
    endsBefore = slopes.map(({ rate, start }) => start + rate * (next - cut));
  });
  first.push(met.length);
  firstOnCut.push(onCut.length);
  return {
    cuts: Float64Array.from(cuts),
    first: Int32Array.from(first),
    met: Float64Array.from(met),
    slope: Float64Array.from(slope),
    firstOnCut: Int32Array.from(firstOnCut),
    onCut: Float64Array.from(onCut),
  };
};

/**
 * Stretches in which the line at `at` runs inside the region.
 *
 * @param out receives starts and ends in turn, ascending, from index 0
 * @returns how many numbers of `out` count
 */
export const stretchesAt = (bands: Bands, at: number, out: number[]): number => {
  const { cuts } = bands;
  let low = 0;
  let high = cuts.length - 1;
  if (at <= (cuts[low] as number) + ON_LINE || at >= (cuts[high] as number) - ON_LINE) return 0;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((cuts[middle] as number) <= at) low = middle;
    else high = middle;
  }
  const into = at - (cuts[low] as number);
  const onCut = into < ON_LINE ? low : (cuts[high] as number) - at < ON_LINE ? high : -1;
  if (onCut >= 0) {
    const { firstOnCut, onCut: stretches } = bands;
    const from = firstOnCut[onCut] as number;
    const count = (firstOnCut[onCut + 1] as number) - from;
    for (let k = 0; k < count; k++) out[k] = stretches[from + k] as number;
    return count;
  }
  const { first, met, slope } = bands;
  const from = first[low] as number;
  const count = (first[low + 1] as number) - from;
  for (let k = 0; k < count; k++) out[k] = (met[from + k] as number) + (slope[from + k] as number) * into;
  return count;
};
