/**
 * What a disk says when it is asked to keep a little. SQLite calls a disk that turned read-only under it, and one with no
 * room for its index, a fault of reading and writing; the remedy is another. Asking is the only sure way: a disk that the
 * system made read-only after a fault does not say so of itself.
 */
import { rmSync, utimesSync, writeFileSync } from 'node:fs';

/** With less than this a store can write nothing worth the name, bytes: two of its pages and their frames. */
const LITTLE_BYTES = 16_384;

export type DiskState = 'full' | 'read-only' | 'unknown';

/** State of the disk beside a file. Leaves nothing there; never throws. */
export function stateOfDisk(file: string): DiskState {
  const trial = `${file}.${process.pid}.trial`;
  try {
    writeFileSync(trial, Buffer.alloc(LITTLE_BYTES), { flush: true });
    return 'unknown';
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EROFS') return 'read-only';
    return code === 'ENOSPC' || code === 'EDQUOT' ? 'full' : 'unknown';
  } finally {
    removeIfThere(trial);
  }
}

function removeIfThere(file: string): void {
  try {
    rmSync(file, { force: true });
  } catch {
    // What cannot be written has no trial on it either.
  }
}

/**
 * Throws where the disk turned read-only. Linux may answer a flush with "done" on a file system that it has made read-only
 * after a fault, though nothing reached the disk (entries answered so were seen missing, 6.18). Whoever relies on a
 * flush therefore asks after it; setting a time is refused there at once, and elsewhere costs no flush of its own. What is left
 * is the very moment in which the kernel gives the disk up (`npm run full-disk` counts it).
 */
export function requireWritable(file: string): void {
  try {
    const now = new Date();
    utimesSync(file, now, now);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    // A file that belongs to somebody else may be written and yet not be given a time.
    if (code === 'EROFS' || code === 'EIO') throw error;
  }
}
