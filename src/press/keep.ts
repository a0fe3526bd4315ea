/**
 * Keeps what was read: the photographs, then all events at one go, all or none, then the machine files that are not here yet.
 * Nothing that is here already is changed: where a machine file differs, the one here stays and a note says so.
 */
import { photosNamed } from '../job/photo-file.ts';
import { canonical } from '../job/stamp.ts';
import { sortOut } from '../log/merge.ts';
import type { PhotoShelf } from '../log/photo-shelf.ts';
import type { JobStore } from '../log/store.ts';
import type { GarageJob, OwnTexts } from './garage-file.ts';
import { type MachineShelf, textsOf } from './machine-shelf.ts';
import { sha256 } from './sums.ts';

/** What came, or would come, of an import. */
export interface Kept {
  /** Events new here, and known already, of each job, count. */
  readonly jobs: readonly { readonly job: string; readonly fresh: number; readonly known: number }[];
  /** Photographs that were not here, count. */
  readonly photos: number;
  /** Machine files that were not here, by id. */
  readonly machines: readonly string[];
  /** What else there is to know, whole sentences. */
  readonly notes: readonly string[];
}

export type KeptOrNot =
  | { readonly ok: true; readonly kept: Kept }
  | { readonly ok: false; readonly why: string };

/** The garage that something is taken into. */
export interface Into {
  /** Null where there is no store yet: then one can only look. */
  readonly store: JobStore | null;
  readonly shelf: MachineShelf;
  readonly photos: PhotoShelf;
}

interface MachinePlan {
  readonly id: string;
  /** To be saved, oldest first. */
  readonly texts: readonly string[];
}

/**
 * Keeps jobs and machine files; with `really` false it only says what would come of it.
 * `name` is the file they came from, for the messages. A fault of the disk is thrown.
 */
export async function keep(
  jobs: readonly GarageJob[],
  machines: OwnTexts,
  { store, shelf, photos }: Into,
  name: string,
  really: boolean,
): Promise<KeptOrNot> {
  const told: Kept['jobs'][number][] = [];
  const clash = (event: string): KeptOrNot => ({
    ok: false,
    why: `${name} holds the event ${event}, which is here already with other content; nothing was kept. One of the two was changed by hand: to look at it, set CHARGEWRIGHT_HOME to another folder and import it there.`,
  });
  for (const { head, content } of jobs) {
    const held = await heldBy(store, head.job);
    const sorted = sortOut(content.events, held);
    if (!sorted.ok) return clash(sorted.event);
    told.push({ job: head.job, fresh: sorted.fresh.length, known: sorted.duplicate.length });
  }
  const notes: string[] = [];
  const pictures = await planPhotos(jobs, photos, notes);
  const plans = await planMachines(jobs, machines, shelf, notes);
  const saved: string[] = [];
  if (really && store) {
    // Photographs first: an event whose picture was in the zip must not stand without it, and a picture without its
    // event harms nothing.
    for (const bytes of pictures) {
      const taken = await photos.put(bytes);
      if (!taken.ok) return { ok: false, why: `${name}: ${taken.why} Nothing else was kept.` };
    }
    const appended = await store.append(jobs.flatMap(({ content }) => content.events));
    if (!appended.ok) return clash(appended.event);
    // Events first: a machine file without its job would be clutter, and a second import brings what is lacking.
    for (const plan of plans) if (await saveAll(plan, shelf, notes)) saved.push(plan.id);
  }
  return {
    ok: true,
    kept: {
      jobs: told,
      photos: pictures.length,
      machines: really ? saved : plans.map(({ id }) => id),
      notes,
    },
  };
}

/** Saves the versions of one in their order; false, with a note, when one is refused. */
async function saveAll({ id, texts }: MachinePlan, shelf: MachineShelf, notes: string[]): Promise<boolean> {
  for (const text of texts) {
    const saved = await shelf.save(id, text);
    if (saved.ok) continue;
    notes.push(`The machine file ${id} was not kept: ${saved.why}`);
    return false;
  }
  return true;
}

async function heldBy(store: JobStore | null, job: string): Promise<ReadonlyMap<string, string>> {
  const rows = (await store?.since(job, 0)) ?? [];
  return new Map(rows.map(({ event }) => [event.id, canonical(event)]));
}

/** Which photographs are lacking here; those that are lacking in the zip as well are noted. */
async function planPhotos(
  jobs: readonly GarageJob[],
  photos: PhotoShelf,
  notes: string[],
): Promise<readonly Uint8Array[]> {
  const plans = new Map<string, Uint8Array>();
  for (const { head, content } of jobs) {
    const brought = new Map(content.photos.map((bytes) => [sha256(bytes), bytes]));
    const nowhere: string[] = [];
    for (const photo of photosNamed(content.events)) {
      if ((await photos.get(photo)).ok) continue;
      const bytes = brought.get(photo);
      if (bytes) plans.set(photo, bytes);
      else nowhere.push(`${photo.slice(0, 12)}…`);
    }
    if (nowhere.length > 0)
      notes.push(
        `${nowhere.length === 1 ? 'A photograph' : `${nowhere.length} photographs`} of the job ${head.job} (${nowhere.join(', ')}) ${nowhere.length === 1 ? 'is' : 'are'} neither here nor in the zip: open the job on the device that took ${nowhere.length === 1 ? 'it' : 'them'}.`,
      );
  }
  return [...plans.values()];
}

/** Which machine files are lacking here. What differs is left alone and noted. */
async function planMachines(
  jobs: readonly GarageJob[],
  machines: OwnTexts,
  shelf: MachineShelf,
  notes: string[],
): Promise<readonly MachinePlan[]> {
  const plans = new Map<string, readonly string[]>();
  for (const [id, texts] of machines) {
    if ((await shelf.shipped(id)) !== null) {
      notes.push(
        `A machine file ${id} is shipped with this version and is used; the one in the zip was left there.`,
      );
      continue;
    }
    const here = await textsOf(shelf, id);
    if (texts.every((text) => here.includes(text))) continue;
    // Versions written after the ones here follow on; two that went their own ways cannot be put in one row.
    if (here.every((text, index) => text === texts[index])) plans.set(id, texts.slice(here.length));
    else notes.push(differs(id));
  }
  for (const { head, content } of jobs) {
    const { machine: id } = head;
    // Its opening event, which would name its machine, has not arrived.
    if (id === '') continue;
    const text = content.machine;
    const shipped = await shelf.shipped(id);
    const here = shipped === null ? await textsOf(shelf, id) : [shipped];
    const all = [...here, ...(plans.get(id) ?? [])];
    if (text === null) {
      if (all.length === 0)
        notes.push(
          `There is no machine file ${id} here or in the zip: the job ${head.job} has no verdict until it is written.`,
        );
    } else if (all.length === 0) plans.set(id, [text]);
    else if (all.at(-1) !== text) notes.push(all.includes(text) ? later(id) : differs(id));
  }
  return [...plans].map(([id, texts]) => ({ id, texts }));
}

function differs(id: string): string {
  return `The machine file ${id} here differs from the one in the zip, and the one here stays: to use the other, take it out of the zip and save it as a new version.`;
}

function later(id: string): string {
  return `There is a later version of the machine file ${id} than the one in the zip, and it is used.`;
}
