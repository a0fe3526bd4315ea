/** Makes folders and their names safe, one step at a time. */
import { mkdir, open, stat } from 'node:fs/promises';
import { dirname } from 'node:path';

/**
 * Makes a folder; one that is there is left alone. A parent that is missing mostly means a drive that is not plugged in, and
 * is thrown as it is. Not node's own way of making all of a path: on a read-only disk that says "no such folder".
 */
export async function makeFolder(folder: string, mode = 0o777): Promise<void> {
  try {
    await mkdir(folder, mode);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    if (!(await stat(folder)).isDirectory()) throw error;
    return;
  }
  await syncFolder(dirname(folder));
}

/** Makes one folder after the other, the outermost only where the next one asks for it. */
export async function makeFolders(...steps: readonly string[]): Promise<void> {
  const last = steps.at(-1);
  if (last === undefined) return;
  try {
    await makeFolder(last);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT' || steps.length === 1) throw error;
    await makeFolders(...steps.slice(0, -1));
    await makeFolder(last);
  }
}

/** Waits until the disk has the names in a folder. */
export async function syncFolder(folder: string): Promise<void> {
  // Windows opens no folders; its file system keeps names by itself.
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
