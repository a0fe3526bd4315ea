/** A backup of the whole garage while another program writes into it, and of jobs that were never opened (SPEC 22). */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../src/disk/sqlite-store.ts';
import type { JobStore } from '../../src/log/store.ts';
import { jobsOf } from '../../src/press/collect.ts';
import { packGarage } from '../../src/press/garage-file.ts';
import { keep } from '../../src/press/keep.ts';
import type { MachineShelf } from '../../src/press/machine-shelf.ts';
import { readFileToImport } from '../../src/press/read-file.ts';
import { openMemoryPhotos } from '../contract/memory-photos.ts';
import { openMemoryStore } from '../contract/memory-store.ts';
import { ensureBuilt } from '../crash/built.ts';
import { opening, story, take } from '../job/stories.ts';
import { PACKAGE } from '../package-folder.ts';
import { PICTURES, SHOT } from './samples.ts';

const folder = mkdtempSync(join(tmpdir(), 'press-backup-'));
beforeAll(() => ensureBuilt('disk', ['job', 'log']), 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const shelf: MachineShelf = {
  shipped: async () => null,
  ids: async () => [],
  versions: async () => [],
  text: async () => null,
  save: async () => ({ ok: true }),
};

async function backupOf(store: JobStore, photos = openMemoryPhotos()): Promise<Uint8Array> {
  const made = packGarage(await jobsOf(store, shelf, photos), new Map());
  if (!made.ok) throw new Error(made.why);
  return made.bytes;
}

async function putBack(bytes: Uint8Array, photos = openMemoryPhotos()): Promise<JobStore> {
  const read = readFileToImport(bytes, 'backup.zip');
  if (!read.ok) throw new Error(read.why);
  const store = openMemoryStore();
  const answer = await keep(read.jobs, read.machines, { store, shelf, photos }, 'backup.zip', true);
  if (!answer.ok) throw new Error(answer.why);
  return store;
}

/** How many backups are made while the writer writes, count. */
const BACKUPS = Number(process.env.BACKUPS ?? 6);

describe('a backup while another program writes', { timeout: 60_000 + BACKUPS * 2000 }, () => {
  it('holds each batch of several jobs whole or not at all, all that was answered before it, and goes back as it was', async () => {
    const file = join(folder, 'garage.sqlite');
    const store = openSqliteStore(file);
    const writer = spawn(
      process.execPath,
      ['test/press/two-jobs-writer.mjs', 'dist/disk/sqlite-store.js', 'dist/job/stamp.js', file],
      { cwd: PACKAGE, stdio: ['ignore', 'pipe', 'inherit'] },
    );
    let answered = 0;
    const begun = new Promise<void>((go) => {
      writer.stdout.on('data', (dots: Buffer) => {
        answered += dots.length;
        go();
      });
    });
    const ended = new Promise<number | null>((done) => writer.on('close', done));
    await begun;
    const sizes: number[] = [];
    for (let n = 0; n < BACKUPS; n++) {
      const before = answered;
      const bytes = await backupOf(store);
      const back = await putBack(bytes);
      const [left, right] = [await back.count('left'), await back.count('right')];
      expect(left).toBe(right);
      expect(left % 10).toBe(0);
      expect(left).toBeGreaterThanOrEqual(before * 10);
      expect(Buffer.from(await backupOf(back)).equals(bytes)).toBe(true);
      sizes.push(left);
      await new Promise((done) => setTimeout(done, 30));
    }
    writer.kill('SIGTERM');
    expect(await ended).toBe(0);
    // It really wrote meanwhile.
    expect(sizes.at(-1)).toBeGreaterThan(sizes[0]!);
    expect(await store.count('left')).toBe(answered * 10);
    await store.close();
  });
});

describe('a job whose opening event has not arrived', () => {
  it('is in the backup with its photographs, and comes back; the opening may follow', async () => {
    const [opened, ...rest] = SHOT;
    const photos = openMemoryPhotos();
    for (const bytes of PICTURES) await photos.put(bytes);
    const store = openMemoryStore();
    const other = story([opening, take('rest_volts', 12.4)], { job: 'other', device: 'd2' });
    await store.append([...rest, ...other]);
    const bytes = await backupOf(store, photos);
    const back = openMemoryPhotos();
    const restored = await putBack(bytes, back);
    expect(await restored.count(opened!.job)).toBe(rest.length);
    expect((await restored.jobs()).map(({ job }) => job)).toEqual(['other']);
    expect(Buffer.from(await backupOf(restored, back)).equals(bytes)).toBe(true);
    await restored.append([opened!]);
    expect((await restored.jobs()).map(({ job }) => job).sort()).toEqual(['other', opened!.job].sort());
  });

  it('alone is no job that could be taken in from its own file', async () => {
    const store = openMemoryStore();
    await store.append(story([take('rest_volts', 12.4)], { job: 'lone' }));
    const { unzipSync } = await import('fflate');
    const inner = unzipSync(await backupOf(store))['unopened/lone.zip']!;
    const read = readFileToImport(inner, 'lone.zip');
    expect(read.ok ? '' : read.why).toMatch(/has no opening event of its job/);
  });
});
