/**
 * How often the store flushes: 200 commits under strace, its count of fsync and fdatasync. By hand: `npm run fsyncs`.
 * One flush a commit is what rule 5 of src/log/SPEC.md asks of a journal that is written ahead.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const COMMITS = 200;

if (process.argv[2] === 'write') {
  const { openSqliteStore } = await import(pathToFileURL(here('../../dist/disk/sqlite-store.js')).href);
  const { writeEvent } = await import(pathToFileURL(here('../../dist/job/stamp.js')).href);
  const store = openSqliteStore(process.argv[3]);
  let last = null;
  for (let n = 0; n < COMMITS; n += 1) {
    const event = writeEvent(
      { job: 'flush', who: '', device: 'one' },
      { type: 'noteAdded', text: `${n}` },
      last,
      Date.now(),
    );
    last = event.id;
    await store.append([event]);
  }
  await store.close();
} else {
  const folder = mkdtempSync(join(tmpdir(), 'chargewright-fsyncs-'));
  const { status, stderr, error } = spawnSync(
    'strace',
    [
      '-f',
      '-c',
      '-e',
      'trace=fsync,fdatasync',
      process.execPath,
      here('./fsyncs.mjs'),
      'write',
      join(folder, 'garage.sqlite'),
    ],
    { encoding: 'utf8' },
  );
  rmSync(folder, { recursive: true, force: true });
  if (error || status !== 0) {
    console.error(error ? 'strace is not installed: install it to count flushes.' : stderr);
    process.exit(2);
  }
  const calls = [...stderr.matchAll(/^\s*[\d.]+\s+[\d.]+\s+\d+\s+(\d+)\s+(?:\d+\s+)?(fsync|fdatasync)$/gm)];
  const sum = calls.reduce((all, [, count]) => all + Number(count), 0);
  console.log(
    `${COMMITS} commits: ${calls.map(([, count, name]) => `${count} ${name}`).join(', ')}, ${sum} flushes`,
  );
  process.exitCode = sum >= COMMITS ? 0 : 1;
}
