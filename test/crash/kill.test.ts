import { beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from './built.ts';
import { killWriters } from './kill.mjs';

beforeAll(() => ensureBuilt('disk', ['job', 'log']));

describe('SPEC 4, 5: kill -9', () => {
  it('loses no event that was answered, and tears no batch', async () => {
    const result = await killWriters({ rounds: 5 });
    expect(result.answered).toBeGreaterThan(5);
    expect(result.kept).toBeGreaterThanOrEqual(result.answered);
    expect(result.lost).toEqual([]);
    expect(result.torn).toEqual([]);
  });

  it('would find a loss: a writer that answers too early is caught', async () => {
    const result = await killWriters({ rounds: 3, manner: 'early', seed: 7 });
    expect(result.lost.length).toBeGreaterThan(0);
  });
});
