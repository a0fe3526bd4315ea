/**
 * Room `serve`: the laptop's side of Chargewright. It keeps the jobs in a store, hands out the machine files and the built
 * app, and speaks only to this computer, and to devices that were let in while the door for them is open. It reads
 * the machine files and computes nothing else: the app does.
 *
 * This file: the program that `npm start` runs. Exit 0 after Ctrl+C, 2 when it cannot begin, with one sentence why.
 */
import { fileURLToPath } from 'node:url';
import { StoreFault } from '../disk/fault.ts';
import { openPhotoShelf } from '../disk/photo-shelf.ts';
import { placeOf } from '../disk/postgres-fault.ts';
import { openPostgresStore } from '../disk/postgres-store.ts';
import { openSqliteStore } from '../disk/sqlite-store.ts';
import { demoJob } from '../job/demo.ts';
import type { JobHead, JobStore } from '../log/store.ts';
import { openDevices } from './devices.ts';
import { openDoors } from './doors.ts';
import { type Listening, listen, PortFault } from './listen.ts';
import { readSettings } from './settings.ts';

/** Path of a thing in the package, seen from dist/serve. */
function inPackage(path: string): string {
  return fileURLToPath(new URL(`../../${path}`, import.meta.url));
}

/** Loads the demo job into a store with nothing in it, so that there is something to look at. */
async function ensureJobs(store: JobStore): Promise<readonly JobHead[]> {
  const jobs = await store.jobs();
  if (jobs.length > 0) return jobs;
  await store.append(demoJob());
  return store.jobs();
}

/** Within this time a second signal is the same Ctrl+C: the terminal and npm each pass it on, ms. */
const ECHO_MS = 500;

function stopOnSignal(listening: Listening, store: JobStore, letGo: () => Promise<void>): void {
  let asked: number | null = null;
  const stop = async (): Promise<void> => {
    if (asked !== null) {
      // Asked twice means now; the store is safe either way.
      if (performance.now() - asked > ECHO_MS) process.exit(0);
      return;
    }
    asked = performance.now();
    await letGo();
    await listening.close();
    await store.close();
    process.exit(0);
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void stop());
}

async function main(): Promise<void> {
  const read = readSettings(process.env, process.cwd());
  if (!read.ok) return giveUp(read.why);
  const {
    port,
    storeFile,
    databaseUrl,
    ownMachinesFolder,
    photosFolder,
    devicesFile,
    certificatesFolder,
    sharePort,
    offline,
  } = read.settings;
  let store: JobStore | null = null;
  try {
    store = databaseUrl === null ? openSqliteStore(storeFile) : await openPostgresStore(databaseUrl);
    const jobs = await ensureJobs(store);
    const doors = openDoors({
      store,
      photos: await openPhotoShelf(photosFolder),
      machinesFolder: inPackage('machines'),
      ownMachinesFolder,
      appFolder: inPackage('dist/app'),
      offline,
      devices: await openDevices(devicesFile, Date.now),
      certificatesFolder,
      sharePort,
      report: (fault) => console.error(fault instanceof StoreFault ? fault.message : fault),
    });
    const listening = await listen(doors.here, port);
    stopOnSignal(listening, store, doors.close);
    greet(listening.port, databaseUrl === null ? storeFile : placeOf(databaseUrl), jobs);
  } catch (error) {
    await store?.close();
    if (error instanceof StoreFault || error instanceof PortFault) return giveUp(error.message);
    throw error;
  }
}

function greet(port: number, place: string, jobs: readonly JobHead[]): void {
  const newest = jobs[0];
  console.log(`Chargewright is open at http://127.0.0.1:${port}`);
  console.log(`${jobs.length === 1 ? '1 job' : `${jobs.length} jobs`} in ${place}`);
  if (newest) {
    const invented = newest.invented ? ' (invented, to try things on)' : '';
    console.log(
      `Next: open that address in a browser on this computer and go on with "${newest.title}"${invented}, or open a job of your own.`,
    );
  }
  console.log('Stop with Ctrl+C; everything entered is kept.');
}

function giveUp(why: string): void {
  console.error(why);
  process.exitCode = 2;
}

await main();
