/** Small symmetric systems, row by row in one array. */

/** Cholesky factor of a symmetric positive matrix, in place in its lower half. @returns false when it is not positive */
export const factorise = (a: Float64Array, n: number): boolean => {
  for (let j = 0; j < n; j++) {
    const rowJ = j * n;
    for (let i = j; i < n; i++) {
      const rowI = i * n;
      let sum = a[rowI + j] as number;
      for (let k = 0; k < j; k++) sum -= (a[rowI + k] as number) * (a[rowJ + k] as number);
      if (i === j) {
        if (!(sum > 0)) return false;
        a[rowI + j] = Math.sqrt(sum);
      } else a[rowI + j] = sum / (a[rowJ + j] as number);
    }
  }
  return true;
};

/** Solves with a factor made by `factorise`; the right side is not changed. */
export const solveFactored = (l: Float64Array, n: number, right: Float64Array): Float64Array => {
  const x = Float64Array.from(right);
  for (let i = 0; i < n; i++) {
    let sum = x[i] as number;
    for (let k = 0; k < i; k++) sum -= (l[i * n + k] as number) * (x[k] as number);
    x[i] = sum / (l[i * n + i] as number);
  }
  for (let i = n - 1; i >= 0; i--) {
    // Column by column from the end, so that the factor is read along its rows.
    const value = (x[i] as number) / (l[i * n + i] as number);
    x[i] = value;
    for (let k = 0; k < i; k++) x[k] = (x[k] as number) - (l[i * n + k] as number) * value;
  }
  return x;
};

/** Least eigenvalue of a factored matrix by inverse iteration with a Rayleigh quotient. */
export const leastEigenvalue = (l: Float64Array, n: number): number => {
  let x: Float64Array = Float64Array.from({ length: n }, (_, i) => 1 / (1 + i));
  let value = 0;
  for (let turn = 0; turn < 200; turn++) {
    const next = solveFactored(l, n, x);
    let [xx, xn, nn] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      const [p, q] = [x[i] as number, next[i] as number];
      xx += p * p;
      xn += p * q;
      nn += q * q;
    }
    // Quotient of the new vector: (next · A next) / (next · next), and A next is x.
    const now = xn / nn;
    const scale = 1 / Math.sqrt(nn);
    x = next.map((v) => v * scale);
    if (xx > 0 && Math.abs(now - value) <= 1e-9 * now) return now;
    value = now;
  }
  return value;
};
