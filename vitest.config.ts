import { defineConfig } from 'vitest/config';

/** Few workers: the suite must also run on two cores, and some tests start servers and browsers of their own. */
export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    environment: 'node',
    pool: 'forks',
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
