import { defineConfig } from 'vitest/config';

// One file after the other: each starts a whole workbench and a browser.
export default defineConfig({
  test: { include: ['tests/editor/*.test.ts'], testTimeout: 240_000, hookTimeout: 240_000, fileParallelism: false, pool: 'forks' },
});
