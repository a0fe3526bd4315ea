/** Writes a file so that it is there whole or not at all, for this user only. */
import { open, rename, rm } from 'node:fs/promises';

/** What the disk objects to is thrown as it is; the file is then as it was. */
export async function writeWhole(path: string, text: string): Promise<void> {
  const draft = `${path}.draft`;
  try {
    const file = await open(draft, 'w', 0o600);
    try {
      await file.writeFile(text, 'utf8');
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(draft, path);
  } catch (error) {
    // On a full disk it would hold the room that is needed.
    await rm(draft, { force: true }).catch(() => undefined);
    throw error;
  }
}
