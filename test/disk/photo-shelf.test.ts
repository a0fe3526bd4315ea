/** The shelf's folder: what lies in it, what a damaged disk or a killed writer leaves, and what it says of faults. */
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { StoreFault } from '../../src/disk/fault.ts';
import { explainPhoto } from '../../src/disk/photo-fault.ts';
import { openPhotoShelf } from '../../src/disk/photo-shelf.ts';
import { picture, SQUARE, sumOf } from '../job/pictures.ts';

let home: string;
let folder: string;
const NAME = sumOf(SQUARE);
const file = () => join(folder, NAME.slice(0, 2), `${NAME}.jpg`);
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'chargewright-photos-'));
  folder = join(home, 'garage.sqlite.photos');
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

/** Every file under the folder. */
const files = () =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ name }) => name);
/** Number of a process that has ended. */
const ended = () => spawnSync(process.execPath, ['-e', '']).pid;

describe('the folder of photographs', () => {
  it('is made with the first one, which lies in it under its sum and nothing beside it', async () => {
    const shelf = await openPhotoShelf(folder);
    await shelf.get(NAME);
    expect(existsSync(folder)).toBe(false);
    await shelf.put(SQUARE);
    await shelf.put(SQUARE);
    expect(existsSync(file())).toBe(true);
    expect(files()).toEqual([`${NAME}.jpg`]);
    // Another process finds it.
    expect((await (await openPhotoShelf(folder)).get(NAME)).ok).toBe(true);
  });

  it.each([
    ['other bytes', () => writeFileSync(file(), picture(5))],
    ['cut off', () => truncateSync(file(), 100)],
    ['emptied', () => truncateSync(file(), 0)],
    ['grown', () => writeFileSync(file(), Buffer.alloc(3_000_000))],
  ])(
    '19: a picture damaged there (%s) is told and never given out, and mended when it comes again',
    async (_how, spoil) => {
      const shelf = await openPhotoShelf(folder);
      await shelf.put(SQUARE);
      spoil();
      const got = await shelf.get(NAME);
      expect(got).toMatchObject({ ok: false, is: 'damaged' });
      expect(got.ok ? '' : got.why).toContain(file());
      expect(await shelf.put(SQUARE)).toMatchObject({ ok: true, fresh: true });
      expect((await shelf.get(NAME)).ok).toBe(true);
      expect(files()).toEqual([`${NAME}.jpg`]);
    },
  );

  it('20: what killed writers left is cleared away at the start, what others are writing is not', async () => {
    mkdirSync(folder);
    const left = (pid: number, what = NAME) => {
      const name = `${what}.${pid}-1.part`;
      writeFileSync(join(folder, name), 'half');
      return name;
    };
    left(ended());
    const running = left(process.ppid);
    // In a container the next program has the number of the last one.
    const before = left(process.pid, sumOf(picture(1)));
    utimesSync(join(folder, before), 1, 1);
    const now = left(process.pid, sumOf(picture(2)));
    writeFileSync(join(folder, 'mine.part'), 'of the mechanic');
    await openPhotoShelf(folder);
    expect(files().sort()).toEqual(['mine.part', now, running].sort());
    utimesSync(join(folder, running), 1, 1);
    await openPhotoShelf(folder);
    expect(files().sort()).toEqual(['mine.part', now].sort());
  });

  it('leaves the last room on the disk to the log, and says so', async () => {
    const shelf = await openPhotoShelf(folder, async () => 50_000_000);
    await expect(shelf.put(SQUARE)).rejects.toThrow(
      /^There is too little room left on the disk .*Free some space/,
    );
    await expect(shelf.put(SQUARE)).rejects.toBeInstanceOf(StoreFault);
    expect(files()).toEqual([]);
    expect(await (await openPhotoShelf(folder, async () => 51_000_000)).put(SQUARE)).toMatchObject({
      ok: true,
    });
  });

  it('is not made where more than its own place is missing: the drive may not be plugged in', async () => {
    const shelf = await openPhotoShelf(join(home, 'stick', 'garage', 'photos'));
    await expect(shelf.put(SQUARE)).rejects.toThrow(/does not exist and cannot be made; .*Plug in the drive/);
    expect(existsSync(join(home, 'stick'))).toBe(false);
    // One step is made: with PostgreSQL this computer's own folder may not be there yet.
    expect(await (await openPhotoShelf(join(home, 'own', 'photos'))).put(SQUARE)).toMatchObject({ ok: true });
  });

  it('says what is in its way', async () => {
    writeFileSync(folder, 'a file');
    await expect((await openPhotoShelf(folder)).put(SQUARE)).rejects.toThrow(/in each other's way/);
    rmSync(folder);
    mkdirSync(file(), { recursive: true });
    await expect((await openPhotoShelf(folder)).put(SQUARE)).rejects.toThrow(/in each other's way/);
    expect(files()).toEqual([]);
  });

  it.each([
    ['ENOSPC', /too little room/],
    ['EROFS', /is read-only; .*Make it writable again/],
    ['EACCES', /Allow that, or set CHARGEWRIGHT_PHOTOS/],
    ['EIO', /reports a fault/],
    ['EMFILE', /too many files open/],
  ])('says in one sentence what %s means, and where the picture still is', (code, words) => {
    const told = explainPhoto('/garage/photos', Object.assign(new Error('x'), { code }));
    expect(told).toBeInstanceOf(StoreFault);
    expect((told as Error).message).toMatch(words);
    expect((told as Error).message).toMatch(/stays where it came from/);
  });
});
