/** Opens the store and the machine files of this computer, where the server keeps them (CHARGEWRIGHT_HOME). */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { StoreFault } from '../disk/fault.ts';
import { openPhotoShelf } from '../disk/photo-shelf.ts';
import type { PhotoShelf } from '../log/photo-shelf.ts';
import type { JobStore } from '../log/store.ts';
import type { MachineShelf } from '../press/machine-shelf.ts';
import { machineText } from '../serve/machines.ts';
import { openOwnMachines } from '../serve/own-machines.ts';
import { readSettings } from '../serve/settings.ts';
import { Refusal } from './refusal.ts';

export interface Garage {
  /** Null when there is no store yet and none was to be made. */
  readonly store: JobStore | null;
  readonly storeFile: string;
  readonly shelf: MachineShelf;
  readonly photos: PhotoShelf;
}

/** Does something with the garage and closes it. With `make`, a store that is not there is made. */
export async function inGarage<T>(make: boolean, work: (garage: Garage) => Promise<T>): Promise<T> {
  // A wrong PORT is no matter here.
  const { CHARGEWRIGHT_HOME, CHARGEWRIGHT_PHOTOS } = process.env;
  const read = readSettings({ CHARGEWRIGHT_HOME, CHARGEWRIGHT_PHOTOS }, process.cwd());
  if (!read.ok) throw new Refusal(read.why);
  const { storeFile, ownMachinesFolder, photosFolder } = read.settings;
  const machines = fileURLToPath(new URL('../../machines', import.meta.url));
  const shelf: MachineShelf = {
    ...openOwnMachines(ownMachinesFolder),
    shipped: (id) => machineText(machines, id),
  };
  let store: JobStore | null = null;
  try {
    if (make || existsSync(storeFile)) {
      // Loaded here only: the other commands run without SQLite.
      const { openSqliteStore } = await import('../disk/sqlite-store.ts');
      store = openSqliteStore(storeFile);
    }
    return await work({ store, storeFile, shelf, photos: await openPhotoShelf(photosFolder) });
  } catch (error) {
    if (error instanceof StoreFault) throw new Refusal(error.message);
    throw error;
  } finally {
    await store?.close();
  }
}
