import { defineConfig } from 'vitest/config';
// One worker keeps its modules from file to file, which halves the time: no module has state, so no test can see another's.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/editor/**', 'node_modules/**'],
    pool: 'threads',
    isolate: false,
    testTimeout: 30000,
  },
});
