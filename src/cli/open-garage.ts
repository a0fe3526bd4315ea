/** Opens the store and the machine files of this garage, where the server keeps them (CHARGEWRIGHT_HOME, DATABASE_URL). */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { StoreFault } from '../disk/fault.ts';
import { openPhotoShelf } from '../disk/photo-shelf.ts';
import { placeOf } from '../disk/postgres-fault.ts';
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
  /** Where the store is or would be, fit to be shown: a file, or a PostgreSQL server's database. */
  readonly storeName: string;
  readonly shelf: MachineShelf;
  readonly photos: PhotoShelf;
}

/** Does something with the garage and closes it. With `make`, a store that is not there is made. */
export async function inGarage<T>(make: boolean, work: (garage: Garage) => Promise<T>): Promise<T> {
  // A wrong PORT is no matter here.
  const { CHARGEWRIGHT_HOME, CHARGEWRIGHT_PHOTOS, DATABASE_URL } = process.env;
  const read = readSettings({ CHARGEWRIGHT_HOME, CHARGEWRIGHT_PHOTOS, DATABASE_URL }, process.cwd());
  if (!read.ok) throw new Refusal(read.why);
  const { storeFile, databaseUrl, ownMachinesFolder, photosFolder } = read.settings;
  const machines = fileURLToPath(new URL('../../machines', import.meta.url));
  const shelf: MachineShelf = {
    ...openOwnMachines(ownMachinesFolder),
    shipped: (id) => machineText(machines, id),
  };
  let store: JobStore | null = null;
  try {
    // Each loaded here only: the other commands run without a database.
    if (databaseUrl !== null) {
      const { openPostgresStore } = await import('../disk/postgres-store.ts');
      store = await openPostgresStore(databaseUrl);
    } else if (make || existsSync(storeFile)) {
      const { openSqliteStore } = await import('../disk/sqlite-store.ts');
      store = openSqliteStore(storeFile);
    }
    const storeName = databaseUrl === null ? storeFile : placeOf(databaseUrl);
    return await work({ store, storeName, shelf, photos: await openPhotoShelf(photosFolder) });
  } catch (error) {
    if (error instanceof StoreFault) throw new Refusal(error.message);
    throw error;
  } finally {
    await store?.close();
  }
}
