import { configDefaults, defineConfig } from 'vitest/config';

/** What measures times of a page: each runs when everything else is done. */
const ALONE = [
  'test/e2e/smooth.test.ts',
  'test/e2e/bench-pace.test.ts',
  'test/e2e/pace.test.ts',
  'test/e2e/form-pace.test.ts',
];

/** Few workers: the suite must also run on two cores, and some tests start servers and browsers of their own. */
export default defineConfig({
  test: {
    environment: 'node',
    pool: 'forks',
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 60_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'together',
          include: ['test/**/*.test.ts'],
          exclude: [...configDefaults.exclude, ...ALONE],
          sequence: { groupOrder: 0 },
        },
      },
      ...ALONE.map((file, n) => ({
        extends: true as const,
        test: { name: `alone ${n + 1}`, include: [file], sequence: { groupOrder: n + 1 } },
      })),
    ],
  },
});
