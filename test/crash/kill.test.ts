import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { killWriters } from './kill.mjs';

const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** The writers are processes of their own and run the built store: build it where it is missing or old. */
beforeAll(() => {
  const built = at('dist/disk/sqlite-store.js');
  const newest = ['src/job', 'src/log', 'src/disk'].flatMap((room) =>
    readdirSync(at(room)).map((name) => statSync(at(`${room}/${name}`)).mtimeMs),
  );
  if (existsSync(built) && statSync(at('dist/disk/.tsbuildinfo')).mtimeMs >= Math.max(...newest)) return;
  try {
    execFileSync(process.execPath, [at('node_modules/typescript/bin/tsc'), '-b', at('src/disk')], {
      stdio: 'pipe',
    });
  } catch (error) {
    // Another room that does not compile is another test's business, as long as this one was built.
    if (!existsSync(built)) throw error;
  }
});

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
