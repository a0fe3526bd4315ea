/** A job as one zip file, written. What is in it is told in docs/files.md. */

import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import { checkPhoto, photosNamed } from '../job/photo-file.ts';
import { canonical, inOrder } from '../job/stamp.ts';
import { JOB_LIMITS, JOB_TEXT_BYTES, MACHINE_BYTES, megabytes } from './limits.ts';
import { writeReadings, writeReadingsSchema } from './readings-table.ts';
import { sha256, withSums } from './sums.ts';
import { type Files, isPhoto, utf8, writeZip } from './zip-write.ts';

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

/** All that a job file carries; the rest of it is made from this. */
export interface JobContent {
  /** In any order, with the opening event among them. */
  readonly events: readonly JobEvent[];
  /** Text of the machine file as it is; null where there is none. */
  readonly machine: string | null;
  /** Those of the photographs its events name that are here; each a plain JPEG. */
  readonly photos: readonly Uint8Array[];
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

/** The head of a job whose opening event has not arrived: nobody can say yet what it is called. */
export function headWithout(job: string): JobHeadFile {
  return { format: JOB_FORMAT, version: JOB_VERSION, job, title: '', machine: '', invented: false };
}

/** The zip of a job: the same content makes the same bytes. */
export function packJob(content: JobContent): Packed {
  const head = headOf(content.events);
  if (head === null)
    return { ok: false, why: 'The job has no opening event: there is nothing to export yet.' };
  return packUnder(head, content);
}

/** The same of a job whose opening event has not arrived: it goes out only as a part of a whole garage. */
export function packUnopened(job: string, content: JobContent): Packed {
  return packUnder(headWithout(job), content);
}

function packUnder(head: JobHeadFile, { events, machine, photos }: JobContent): Packed {
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
  const named = new Set(photosNamed(events));
  for (const bytes of photos) {
    const photo = sha256(bytes);
    if (!named.has(photo) || !checkPhoto(bytes).ok)
      throw new RangeError(`photos must be pictures that the events name, got ${photo}`);
    files.set(`photos/${photo}.jpg`, bytes);
  }
  return within(head.job, withSums(files));
}

/** What could not be read back is not written: somebody would rely on it. */
function within(job: string, files: Files): Packed {
  const sizes = [...files].map(([name, { length }]) => ({ name, size: length }));
  const unpacked = sizes.reduce((sum, { size }) => sum + size, 0);
  const bytes = writeZip(files, 'pack');
  if (
    bytes.length > JOB_LIMITS.zip ||
    unpacked > JOB_LIMITS.unpacked ||
    files.size > JOB_LIMITS.entries ||
    textBytes(sizes) > JOB_TEXT_BYTES
  )
    return {
      ok: false,
      why: `The job ${job} is larger than an export may be (${megabytes(JOB_LIMITS.zip)}): stop Chargewright and copy its folder instead.`,
    };
  return { ok: true, bytes };
}

/** Sum of what is no photograph, bytes. */
export function textBytes(files: readonly { readonly name: string; readonly size: number }[]): number {
  return files.reduce((sum, { name, size }) => (isPhoto(name) ? sum : sum + size), 0);
}
