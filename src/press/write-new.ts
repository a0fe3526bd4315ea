/** Writes a file that is not there yet. */
import { open, rm } from 'node:fs/promises';

export type Written = { readonly ok: true } | { readonly ok: false; readonly why: string };

const REASONS: Readonly<Record<string, string>> = {
  EEXIST: 'is there already and was left as it is: name a new file',
  ENOENT: 'cannot be written, for its folder does not exist: make the folder, or name another',
  ENOTDIR: 'cannot be written, for its folder is none: name another',
  EACCES: 'may not be written: name a place where this user may write',
  EPERM: 'may not be written: name a place where this user may write',
  EROFS: 'cannot be written, for the disk is read-only: name another place',
  EDQUOT: 'was not written, for this user may write no more there: free some space, or name another',
  EFBIG: 'was not written, for its disk takes no file of that size: name another place',
  EIO: 'was not written, for its disk reports a fault: name another place',
  ENOSPC: 'was not written, for there is no room left on its disk: free some space, or name another',
};

/**
 * Writes the bytes and waits until the disk has them. Straight to the name: the way over a draft and a link needs a
 * file system with links, which the stick a backup goes to mostly has not. What was cut off by the loss of power is
 * told as cut off when it is read.
 */
export async function writeNew(path: string, bytes: Uint8Array): Promise<Written> {
  let made = false;
  try {
    const file = await open(path, 'wx');
    made = true;
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    return { ok: true };
  } catch (error) {
    // Half a file would be taken for a backup; on a disk that turned read-only it cannot be taken away.
    if (made) await rm(path, { force: true }).catch(() => undefined);
    const { code, message } = error as NodeJS.ErrnoException;
    const why = REASONS[code ?? ''] ?? `cannot be written (${message}): name another place`;
    return { ok: false, why: `${path} ${why}.` };
  }
}
