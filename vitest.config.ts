import { configDefaults, defineConfig } from 'vitest/config';

/** What measures times of a page: each runs when everything else is done. */
const ALONE = [
  'test/e2e/smooth.test.ts',
  'test/e2e/bench-pace.test.ts',
  'test/e2e/pace.test.ts',
  'test/e2e/form-pace.test.ts',
];

/**
 * Three workers also on two cores: what plays in a browser waits most of its time, as a hand does. More, and tests that start
 * servers and browsers of their own stand in each other's way.
 */
export default defineConfig({
  test: {
    environment: 'node',
    pool: 'forks',
    maxWorkers: 3,
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
