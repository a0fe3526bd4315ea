/** Gathers from the store and the shelf what an export carries. */
import type { JobEvent } from '../job/event.ts';
import { inOrder } from '../job/stamp.ts';
import type { JobStore } from '../log/store.ts';
import type { OwnTexts } from './garage-file.ts';
import { headOf, type JobContent } from './job-file.ts';
import { type MachineShelf, textsOf } from './machine-shelf.ts';

/** Events of a job in the order of ids; none when the store has no such job. */
export async function eventsOf(store: JobStore, job: string): Promise<readonly JobEvent[]> {
  return inOrder((await store.since(job, 0)).map(({ event }) => event));
}

/** A job's events with the machine file it uses now: the shipped one of that name, or the newest written here. */
export async function contentOf(events: readonly JobEvent[], shelf: MachineShelf): Promise<JobContent> {
  const id = headOf(events)?.machine;
  const machine = id === undefined ? null : ((await shelf.shipped(id)) ?? (await shelf.text(id)));
  return { events, machine, photos: [] };
}

/** Every job of the store, by id. */
export async function jobsOf(store: JobStore, shelf: MachineShelf): Promise<ReadonlyMap<string, JobContent>> {
  const jobs = new Map<string, JobContent>();
  for (const { job } of await store.jobs()) jobs.set(job, await contentOf(await eventsOf(store, job), shelf));
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
