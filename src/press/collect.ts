/** Gathers from the store and the shelves what an export carries. */
import type { JobEvent } from '../job/event.ts';
import { photosNamed } from '../job/photo-file.ts';
import { inOrder } from '../job/stamp.ts';
import type { PhotoShelf } from '../log/photo-shelf.ts';
import type { JobStore } from '../log/store.ts';
import type { OwnTexts } from './garage-file.ts';
import { headOf, type JobContent } from './job-file.ts';
import { type MachineShelf, textsOf } from './machine-shelf.ts';

/** What an export carries, and what it had to go without. */
export interface Collected extends JobContent {
  /** Whole sentences, one a photograph that its events name and that is not here or damaged. */
  readonly lacking: readonly string[];
}

/** Events of a job in the order of ids; none when the store has no such job. */
export async function eventsOf(store: JobStore, job: string): Promise<readonly JobEvent[]> {
  return inOrder((await store.since(job, 0)).map(({ event }) => event));
}

/**
 * A job's events with the machine file it uses now (the shipped one of that name, or the newest written here) and the
 * photographs that they name.
 */
export async function contentOf(
  events: readonly JobEvent[],
  shelf: MachineShelf,
  shelfOfPhotos: PhotoShelf,
): Promise<Collected> {
  const id = headOf(events)?.machine;
  const machine = id === undefined ? null : ((await shelf.shipped(id)) ?? (await shelf.text(id)));
  const [photos, lacking]: [Uint8Array[], string[]] = [[], []];
  for (const photo of photosNamed(events)) {
    const got = await shelfOfPhotos.get(photo);
    if (got.ok) photos.push(got.bytes);
    else lacking.push(got.why);
  }
  return { events, machine, photos, lacking };
}

/** Every job of the store as it stood at one moment, by id; those whose opening event has not arrived too. */
export async function jobsOf(
  store: JobStore,
  shelf: MachineShelf,
  photos: PhotoShelf,
): Promise<ReadonlyMap<string, Collected>> {
  const logs = new Map<string, JobEvent[]>();
  for (const { event } of await store.all()) {
    const log = logs.get(event.job);
    if (log) log.push(event);
    else logs.set(event.job, [event]);
  }
  const jobs = new Map<string, Collected>();
  for (const [job, events] of logs) jobs.set(job, await contentOf(inOrder(events), shelf, photos));
  return jobs;
}

/** Every version of every machine file written here. */
export async function ownTexts(shelf: MachineShelf): Promise<OwnTexts> {
  const machines = new Map<string, readonly string[]>();
  for (const id of await shelf.ids()) {
    const texts = await textsOf(shelf, id);
    if (texts.length > 0) machines.set(id, texts);
  }
  return machines;
}
