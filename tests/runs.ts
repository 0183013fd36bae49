/** How many random cases a test tries: few every day, as many as PLANISH_FUZZ_RUNS says when it is set. */
const asked = Number(process.env.PLANISH_FUZZ_RUNS ?? 0);
export const runs = (everyday: number): number => (asked > 0 ? asked : everyday);
/** Longer runs take as long as they take. */
export const patience = asked > 0 ? 3_600_000 : undefined;
