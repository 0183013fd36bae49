/**
 * Functions along one side of a plate that meet what its two ends ask, orthonormal over the side taken as 1: the mass matrix is then the unit matrix and
 * the stiffness matrix stays well-conditioned.
 */
import type { Shapes } from './plate-field.js';
import type { EdgeHold } from './plates.js';

export interface EdgeShapes extends Shapes {
  /** Even and odd about the middle, 0 and 1, by function; meaningless where the ends differ. */
  readonly parity: readonly (0 | 1)[];
  /** Gauss nodes and weights on 0…1, enough for products of two functions between breaks. */
  readonly nodes: readonly (readonly [number, number])[];
  /** Ends of the pieces that are smooth, 0 and the length among them. */
  readonly breaks: readonly number[];
}

const ORDER: Readonly<Record<EdgeHold, number>> = { free: 0, simply: 1, clamped: 2 };

/** Nodes and weights of Gauss–Legendre on 0…1, by Newton's method on the Legendre recurrence. */
const gauss = (count: number): readonly (readonly [number, number])[] =>
  Array.from({ length: count }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let turn = 0; turn < 50; turn++) {
      let [p, before] = [1, 0];
      for (let k = 1; k <= count; k++) [p, before] = [((2 * k - 1) * x * p - (k - 1) * before) / k, p];
      slope = (count * (x * p - before)) / (x * x - 1);
      const step = p / slope;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    return [(1 + x) / 2, 1 / ((1 - x * x) * slope * slope)] as const;
  });

interface Values {
  readonly value: Float64Array;
  readonly slope: Float64Array;
  readonly curve: Float64Array;
}
const power = (base: number, n: number): number => (n < 0 ? 0 : base ** n);

/** u^p (1 − u)^q with two derivatives. */
const ends = (u: number, p: number, q: number): readonly [number, number, number] => [
  power(u, p) * power(1 - u, q),
  p * power(u, p - 1) * power(1 - u, q) - q * power(u, p) * power(1 - u, q - 1),
  p * (p - 1) * power(u, p - 2) * power(1 - u, q) -
    2 * p * q * power(u, p - 1) * power(1 - u, q - 1) +
    q * (q - 1) * power(u, p) * power(1 - u, q - 2),
];

/** u^p (1 − u)^q times Jacobi polynomials of the weight that makes the products orthogonal on 0…1. */
const putPolynomials = (at: Values, u: number, p: number, q: number, count: number): void => {
  const [alpha, beta] = [2 * q, 2 * p];
  const z = 2 * u - 1;
  const [e0, e1, e2] = ends(u, p, q);
  let [f, f1, f2] = [1, 0, 0];
  let [g, g1, g2] = [0, 0, 0];
  for (let n = 0; n < count; n++) {
    at.value[n] = e0 * f;
    at.slope[n] = e1 * f + e0 * f1;
    at.curve[n] = e2 * f + 2 * e1 * f1 + e0 * f2;
    // Three-term recurrence to degree n + 1; derivatives are by u, and dz/du = 2.
    const s = 2 * n + alpha + beta;
    const lead = n === 0 ? 2 : 2 * (n + 1) * (n + alpha + beta + 1) * s;
    const a = n === 0 ? alpha + beta + 2 : (s + 1) * (s + 2) * s;
    const b = n === 0 ? alpha - beta : (s + 1) * (alpha * alpha - beta * beta);
    const c = n === 0 ? 0 : 2 * (n + alpha) * (n + beta) * (s + 2);
    const line = a * z + b;
    const next = [(line * f - c * g) / lead, (line * f1 + 2 * a * f - c * g1) / lead, (line * f2 + 4 * a * f1 - c * g2) / lead] as const;
    [g, g1, g2] = [f, f1, f2];
    [f, f1, f2] = next;
  }
};

/** Powers that live on a margin only, where the sheet's curvature jumps at its inner end. */
const KINKS = [2, 3, 4] as const;
/** On the margin 0…c: (1 − u/c)^k (u/c)^p, none beyond. */
const kink = (u: number, c: number, p: number, k: number): readonly [number, number, number] => {
  const v = u / c;
  if (v >= 1) return [0, 0, 0];
  const [e0, e1, e2] = ends(v, p, k);
  return [e0, e1 / c, e2 / (c * c)];
};

/**
 * @param count   polynomials
 * @param margins where stiffness jumps, from either end; 0 where it does not
 */
export const edgeShapes = (
  length: number,
  from: EdgeHold,
  to: EdgeHold,
  count: number,
  margins: readonly [number, number] = [0, 0],
): EdgeShapes => {
  const [p, q] = [ORDER[from], ORDER[to]];
  const [left, right] = [margins[0] / length, margins[1] / length];
  const alike = p === q && Math.abs(left - right) < 1e-9;
  const sides = (left > 1e-6 ? 1 : 0) + (right > 1e-6 ? 1 : 0);
  const total = count + sides * KINKS.length;
  const empty = (): Values => ({ value: new Float64Array(total), slope: new Float64Array(total), curve: new Float64Array(total) });
  const raw = (u: number): Values => {
    const at = empty();
    putPolynomials(at, u, p, q, count);
    let n = count;
    for (const k of KINKS) {
      const near = left > 1e-6 ? kink(u, left, p, k) : undefined;
      const mirror = right > 1e-6 ? kink(1 - u, right, q, k) : undefined;
      const far = mirror === undefined ? undefined : ([mirror[0], -mirror[1], mirror[2]] as const);
      // Alike ends: their sum and difference, even and odd.
      const pair = near !== undefined && far !== undefined && alike ? [plus(near, far, 1), plus(near, far, -1)] : [near, far];
      for (const one of pair) {
        if (one === undefined) continue;
        [at.value[n], at.slope[n], at.curve[n]] = one;
        n++;
      }
    }
    return at;
  };
  const parity = Array.from({ length: total }, (_, n): 0 | 1 => ((n < count ? n : n - count) % 2 === 0 ? 0 : 1));
  const breaks = [0, ...(left > 1e-6 ? [left] : []), ...(right > 1e-6 ? [1 - right] : []), 1];
  // n nodes are exact up to degree 2 n − 1.
  const nodes = gauss(count <= 14 ? 20 : count <= 22 ? 28 : 42);
  const change = orthonormal(raw, count, total, breaks, nodes);
  const mix = (values: Float64Array, scale: number): Float64Array => {
    const mixed = new Float64Array(total);
    for (let n = 0; n < total; n++) {
      let sum = 0;
      // The polynomials are orthogonal already, so only what was added takes from the others.
      if (n < count) sum = (change[n * total + n] as number) * (values[n] as number);
      else for (let m = 0; m <= n; m++) sum += (change[n * total + m] as number) * (values[m] as number);
      mixed[n] = sum * scale;
    }
    return mixed;
  };
  return {
    count: total,
    parity,
    nodes,
    breaks: breaks.map((u) => u * length),
    at: (place) => {
      const at = raw(place / length);
      return { value: mix(at.value, 1), slope: mix(at.slope, 1 / length), curve: mix(at.curve, 1 / (length * length)) };
    },
  };
};

const plus = (
  a: readonly [number, number, number],
  b: readonly [number, number, number],
  sign: number,
): readonly [number, number, number] => [a[0] + sign * b[0], a[1] + sign * b[1], a[2] + sign * b[2]];

/** Rows that make the raw functions orthonormal: the polynomials need their size only, the kinks Gram and Schmidt, twice for the sake of rounding. */
const orthonormal = (
  raw: (u: number) => Values,
  count: number,
  total: number,
  breaks: readonly number[],
  nodes: readonly (readonly [number, number])[],
): Float64Array => {
  const mass = new Float64Array(total * total);
  for (let piece = 1; piece < breaks.length; piece++) {
    const [from, to] = [breaks[piece - 1] as number, breaks[piece] as number];
    for (const [u, weight] of nodes) {
      const { value } = raw(from + u * (to - from));
      for (let i = 0; i < total; i++) {
        const v = weight * (to - from) * (value[i] as number);
        for (let j = 0; j <= i; j++) mass[i * total + j] = (mass[i * total + j] as number) + v * (value[j] as number);
      }
    }
  }
  const product = (a: Float64Array, b: Float64Array, upTo: number): number => {
    let sum = 0;
    for (let i = 0; i <= upTo; i++)
      for (let j = 0; j <= upTo; j++)
        sum += (a[i] as number) * (b[j] as number) * (mass[Math.max(i, j) * total + Math.min(i, j)] as number);
    return sum;
  };
  const rows = new Float64Array(total * total);
  for (let n = 0; n < total; n++) {
    const row = rows.subarray(n * total, (n + 1) * total);
    row[n] = 1 / Math.sqrt(mass[n * total + n] as number);
    if (n < count) continue;
    for (let again = 0; again < 2; again++) {
      for (let m = 0; m < n; m++) {
        const before = rows.subarray(m * total, (m + 1) * total);
        const share = product(row, before, n);
        if (Math.abs(share) < 1e-15) continue;
        for (let i = 0; i <= m; i++) row[i] = (row[i] as number) - share * (before[i] as number);
      }
    }
    const size = Math.sqrt(product(row, row, n));
    for (let i = 0; i <= n; i++) row[i] = (row[i] as number) / size;
  }
  return rows;
};
