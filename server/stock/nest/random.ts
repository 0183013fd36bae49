/** A seeded generator of even numbers: the same seed gives the same run on every machine. */

export interface Random {
  /** 0 ≤ value < 1. */
  readonly next: () => number;
  /** Whole number, 0 ≤ value < count. */
  readonly below: (count: number) => number;
}

/** 32-bit multiply and shift, after the public-domain "mulberry32". */
export const seededRandom = (seed: number): Random => {
  let state = (Math.imul(seed, 0x9e3779b1) ^ 0x51ab3f27) >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return { next, below: (count) => Math.floor(next() * count) };
};

/** A new list with the same things in random order. */
export const shuffled = <T>(list: readonly T[], random: Random): T[] => {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    const held = out[i] as T;
    out[i] = out[j] as T;
    out[j] = held;
  }
  return out;
};
