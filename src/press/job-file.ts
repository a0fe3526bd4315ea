/** A job as one zip file, written. What is in it is told in docs/files.md. */

import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import { canonical, inOrder } from '../job/stamp.ts';
import { JOB_LIMITS, MACHINE_BYTES, megabytes } from './limits.ts';
import { writeReadings, writeReadingsSchema } from './readings-table.ts';
import { sha256, withSums } from './sums.ts';
import { type Files, utf8, writeZip } from './zip-write.ts';

/** Version of the format that is written and the highest that is read, no unit. */
export const JOB_VERSION = 1;
export const JOB_FORMAT = 'chargewright-job';

/** `job.json`: what the file is, without reading on. */
export interface JobHeadFile {
  readonly format: typeof JOB_FORMAT;
  readonly version: number;
  readonly job: string;
  readonly title: string;
  /** Machine file without its ending. */
  readonly machine: string;
  /** True when the whole job is made up. */
  readonly invented: boolean;
}

export const PHOTO_ENDINGS = ['jpg', 'png', 'webp', 'heic', 'avif'] as const;
export type PhotoEnding = (typeof PHOTO_ENDINGS)[number];

export interface Photo {
  readonly ending: PhotoEnding;
  readonly bytes: Uint8Array;
}

/** All that a job file carries; the rest of it is made from this. */
export interface JobContent {
  /** In any order, with the opening event among them. */
  readonly events: readonly JobEvent[];
  /** Text of the machine file as it is; null where there is none. */
  readonly machine: string | null;
  /** No event speaks of photos yet; the place for them is kept. */
  readonly photos: readonly Photo[];
}

export type Packed =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly why: string };

/** The head of a job's events; null while the opening event is not among them. Throws RangeError for two jobs. */
export function headOf(events: readonly JobEvent[]): JobHeadFile | null {
  const { job, opened } = foldJob(events);
  if (job === null || opened === null) return null;
  const { title, machine, invented } = opened;
  return { format: JOB_FORMAT, version: JOB_VERSION, job, title, machine, invented };
}

/** The zip of a job: the same content makes the same bytes. */
export function packJob({ events, machine, photos }: JobContent): Packed {
  const head = headOf(events);
  if (head === null)
    return { ok: false, why: 'The job has no opening event: there is nothing to export yet.' };
  const lines = inOrder(events).map((event) => `${canonical(event)}\n`);
  const files = new Map<string, Uint8Array>([
    ['job.json', utf8(`${JSON.stringify(head, null, 2)}\n`)],
    ['events.ndjson', utf8(lines.join(''))],
    ['readings.csv', utf8(writeReadings(events))],
    ['readings.schema.json', utf8(writeReadingsSchema())],
  ]);
  if (machine !== null) {
    const text = utf8(machine);
    if (text.length > MACHINE_BYTES)
      return {
        ok: false,
        why: `The machine file ${head.machine} is larger than ${megabytes(MACHINE_BYTES)}: make it smaller, then export again.`,
      };
    files.set('machine.json', text);
  }
  for (const { ending, bytes } of photos) files.set(`photos/${sha256(bytes)}.${ending}`, bytes);
  return within(head.job, withSums(files));
}

/** What could not be read back is not written: somebody would rely on it. */
function within(job: string, files: Files): Packed {
  const unpacked = [...files.values()].reduce((sum, { length }) => sum + length, 0);
  const bytes = writeZip(files, 'pack');
  if (bytes.length > JOB_LIMITS.zip || unpacked > JOB_LIMITS.unpacked || files.size > JOB_LIMITS.entries)
    return {
      ok: false,
      why: `The job ${job} is larger than an export may be (${megabytes(JOB_LIMITS.zip)}): copy the folder of the store instead.`,
    };
  return { ok: true, bytes };
}
