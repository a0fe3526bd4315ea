/**
 * Photographs as files in a folder beside the database, each under its sum: `ab/abcdef….jpg`. Files rather than rows:
 * anything can open and copy them, and a backup of the database stays small. A picture is written to a draft, made safe on
 * the disk, and only then given its name, so that a kill at any moment leaves all of it or nothing. Several processes may
 * share the folder. The rules it keeps are 19 to 21 of the log room's SPEC.md.
 */
import { createHash } from 'node:crypto';
import { open, readdir, readFile, rename, rm, stat, statfs } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { checkPhoto, isPhotoName, PHOTO_BYTES } from '../job/photo-file.ts';
import { damagedPhoto, missingPhoto, type PhotoGot, type PhotoShelf } from '../log/photo-shelf.ts';
import { StoreFault } from './fault.ts';
import { makeFolder, makeFolders, syncFolder } from './make-folder.ts';
import { explainPhoto, noRoomForPhoto } from './photo-fault.ts';

/** Room left to the log whatever comes, bytes. */
const RESERVE = 50_000_000;
/** A draft older than this is nobody's, ms: the number of its process may have gone to another. */
const ABANDONED_MS = 3_600_000;
const DRAFT = /^[0-9a-f]{64}\.(\d+)-\d+\.part$/;

let drafts = 0;

/** The shelf in `folder`, which is made when the first picture comes. What killed writers left is cleared away. */
export async function openPhotoShelf(
  folder: string,
  /** Room on the disk that holds a folder, bytes. */
  room: (folder: string) => Promise<number> = roomAt,
): Promise<PhotoShelf> {
  await clearDrafts(folder);
  const fileOf = (photo: string) => join(folder, photo.slice(0, 2), `${photo}.jpg`);
  const guarded = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      throw explainPhoto(folder, error);
    }
  };

  const get = async (photo: string): Promise<PhotoGot> => {
    // The name is checked against the pattern first, so no path can be built out of the folder.
    if (!isPhotoName(photo))
      throw new RangeError(`photo must be 64 small hexadecimal digits, got ${JSON.stringify(photo)}`);
    const file = fileOf(photo);
    const bytes = await readWhole(file);
    if (bytes === null) return { ok: false, is: 'missing', why: missingPhoto(photo) };
    // Also one that was put there by hand must be a picture.
    if (sha256(bytes) === photo && checkPhoto(bytes).ok) return { ok: true, bytes };
    return { ok: false, is: 'damaged', why: damagedPhoto(photo, file) };
  };

  const write = async (photo: string, bytes: Uint8Array): Promise<void> => {
    // With PostgreSQL nothing else may have made this computer's own folder yet.
    await makeFolders(dirname(folder), folder);
    if ((await room(folder)) < RESERVE + bytes.length) throw new StoreFault(folder, noRoomForPhoto(folder));
    const file = fileOf(photo);
    await makeFolder(dirname(file));
    drafts += 1;
    const draft = join(folder, `${photo}.${process.pid}-${drafts}.part`);
    try {
      const handle = await open(draft, 'wx');
      try {
        await handle.writeFile(bytes);
        await handle.sync();
      } finally {
        await handle.close();
      }
      await rename(draft, file);
    } catch (error) {
      await rm(draft, { force: true }).catch(() => undefined);
      throw error;
    }
    await syncFolder(dirname(file));
  };

  return {
    get: (photo) => guarded(() => get(photo)),
    put: (bytes) =>
      guarded(async () => {
        const checked = checkPhoto(bytes);
        if (!checked.ok) return { ok: false, why: `The photograph ${checked.why}.` };
        const photo = sha256(bytes);
        if ((await get(photo)).ok) {
          // Whoever wrote it may have been killed before its name was safe on the disk.
          await syncFolder(dirname(fileOf(photo)));
          return { ok: true, photo, fresh: false };
        }
        await write(photo, bytes);
        return { ok: true, photo, fresh: true };
      }),
  };
}

function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** The bytes of a file; null when there is none. One too large to be a photograph is not read to its end. */
async function readWhole(file: string): Promise<Uint8Array<ArrayBuffer> | null> {
  try {
    const { size } = await stat(file);
    if (size > PHOTO_BYTES) return new Uint8Array(0);
    return new Uint8Array(await readFile(file));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

async function roomAt(folder: string): Promise<number> {
  const { bavail, bsize } = await statfs(folder);
  return bavail * bsize;
}

/** Takes away drafts whose writer is gone. One that cannot be taken away harms nothing. */
async function clearDrafts(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names) {
    const pid = DRAFT.exec(name)?.[1];
    if (pid === undefined) continue;
    const draft = join(folder, name);
    const since = await stat(draft).catch(() => null);
    if (since && (!isWriting(Number(pid), since.mtimeMs) || Date.now() - since.mtimeMs > ABANDONED_MS))
      await rm(draft, { force: true }).catch(() => undefined);
  }
}

/** Whether the process that began a draft at `since`, ms since 1970, may still write it. */
function isWriting(pid: number, since: number): boolean {
  // In a container every program may have the number of the one before it.
  if (pid === process.pid) return since >= Date.now() - process.uptime() * 1000;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // One that belongs to somebody else may not be asked, but it is there.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
