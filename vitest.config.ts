import { configDefaults, defineConfig } from 'vitest/config';
import { LongestFirst } from './scripts/longest-first.mjs';

/** What measures times of a page: each runs when everything else is done. */
const ALONE = [
  'test/e2e/smooth.test.ts',
  'test/e2e/bench-pace.test.ts',
  'test/e2e/pace.test.ts',
  'test/e2e/form-pace.test.ts',
];

/** Rooms without a world: nothing of one file is left for the next, so that a worker loads the rooms once for all of them. */
const PURE =
  'bench,bike,circuit,draft,draw,drive,fault,job,joint,log,machine,proof,reading,reference,start,units,verdict,way';
const PURE_TESTS = `test/{${PURE}}/**/*.test.ts`;

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
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        extends: true,
        test: {
          name: 'together',
          include: ['test/**/*.test.ts'],
          exclude: [...configDefaults.exclude, PURE_TESTS, ...ALONE],
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: { name: 'pure', include: [PURE_TESTS], isolate: false, sequence: { groupOrder: 0 } },
      },
      ...ALONE.map((file, n) => ({
        extends: true as const,
        test: { name: `alone ${n + 1}`, include: [file], sequence: { groupOrder: n + 1 } },
      })),
    ],
  },
});
