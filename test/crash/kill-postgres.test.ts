import { beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from './built.ts';
import { killServers } from './kill-postgres.mjs';

beforeAll(() => ensureBuilt('disk', ['job', 'log']));

// The servers are of this test's own; where `npm test` could start none, neither can this.
describe.skipIf(!process.env.TEST_POSTGRES)('SPEC 2, 4, 5: kill -9 of the PostgreSQL server', () => {
  it('loses no event that was answered, holds none twice, tears no batch, and the store goes on', async () => {
    const result = await killServers({ rounds: 4 });
    expect(result!.answered).toBeGreaterThan(10);
    expect(result!.kept).toBe(result!.answered);
    expect(result!.lost).toEqual([]);
    expect(result!.twice).toBe(0);
    expect(result!.torn).toEqual([]);
    for (const sentence of result!.faults) expect(sentence).toMatch(/^The (connection to the )?store .*\.$/);
  });

  it('would find a loss: a writer that answers too early is caught', async () => {
    expect((await killServers({ rounds: 1, manner: 'early', seed: 7 }))!.lost.length).toBeGreaterThan(0);
  });
});
