/**
 * How many random cases a test tries: a few every day, always the same ones, so that a run can be repeated; PLANISH_FUZZ_TIMES as many when it is set, and
 * then others every time (`npm run fuzz`).
 */
import fc from 'fast-check';

const times = Number(process.env.PLANISH_FUZZ_TIMES ?? 0);
const seed = process.env.PLANISH_FUZZ_SEED;

export const runs = (everyday: number): number => (times > 0 ? Math.ceil(everyday * times) : everyday);

if (seed !== undefined) fc.configureGlobal({ seed: Number(seed) });
else if (times <= 0) fc.configureGlobal({ seed: 20_260 });

/** The seed of a test that draws its own numbers: as told every day, another on each longer run, which is printed. */
export const drawnFrom = (everyday: number): number => {
  if (seed !== undefined) return Number(seed);
  if (times <= 0) return everyday;
  const other = 1 + Math.floor(Math.random() * 2_000_000_000);
  console.log(`PLANISH_FUZZ_SEED=${other}`);
  return other;
};
