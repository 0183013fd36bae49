import { defineConfig } from 'vitest/config';
// One worker keeps its modules from file to file, which halves the time: no module has state, so no test can see another's.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/editor/**', 'node_modules/**'],
    pool: 'threads',
    isolate: false,
    setupFiles: ['tests/runs.ts'],
    // Longer fuzzing takes as long as it takes.
    testTimeout: process.env.PLANISH_FUZZ_TIMES === undefined ? 30_000 : 3_600_000,
  },
});
