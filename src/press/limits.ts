/** How large a file may be that is read or written here: what cannot be read back is not written either. */
import { MAX_BYTES } from '../machine/json-text.ts';

export interface Limits {
  /** Largest zip, bytes. */
  readonly zip: number;
  /** Largest sum of what is in it once unpacked, bytes. */
  readonly unpacked: number;
  /** Most files in it, count. */
  readonly entries: number;
}

/** One job. Its photographs make up nearly all of it: some five hundred as the app makes them. */
export const JOB_LIMITS: Limits = { zip: 200_000_000, unpacked: 250_000_000, entries: 1000 };
/** Largest sum of a job's files besides its photographs once unpacked, bytes: some two hundred thousand events. */
export const JOB_TEXT_BYTES = 60_000_000;
/** A whole garage: its jobs lie in it as they are, so it is hardly larger unpacked. */
export const GARAGE_LIMITS: Limits = { zip: 600_000_000, unpacked: 610_000_000, entries: 20_000 };
/** Largest sum of all jobs of a garage once unpacked, bytes. */
export const GARAGE_JOBS_UNPACKED = 900_000_000;
/** Largest machine file, bytes: what the machine room reads. */
export const MACHINE_BYTES = MAX_BYTES;

/** "20 MB". */
export function megabytes(bytes: number): string {
  return `${Math.floor(bytes / 1e6)} MB`;
}
