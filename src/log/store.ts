/**
 * Room `log`: what a store of job events must do, whatever it is made of, and how two logs become one. A store
 * keeps events and hands them out again; it never changes or drops one. Its rules are numbered in SPEC.md beside
 * this file, and the tests of every store cite them. The room is pure; the stores themselves live elsewhere.
 *
 * This file: the port that a store offers.
 */
import type { JobEvent } from '../job/event.ts';

/** An event with the place this store gave it. */
export interface StoredEvent {
  /** Place in this store's order of arrival, 1 upwards with gaps allowed. It means nothing in another store. */
  readonly seq: number;
  readonly event: JobEvent;
}

/** One job in the list of jobs. */
export interface JobHead {
  readonly job: string;
  readonly machine: string;
  readonly title: string;
  readonly invented: boolean;
  /** When it was opened, ISO 8601 UTC. */
  readonly openedAt: string;
  /** How many events the store holds for it. */
  readonly events: number;
  /** Greatest place among them. */
  readonly last: number;
}

export type Appended =
  | {
      readonly ok: true;
      /** Ids that are new to this store. */
      readonly accepted: readonly string[];
      /** Ids that it held already, with the same content. */
      readonly duplicate: readonly string[];
      /** Greatest place in the store after this append; 0 when it is empty. */
      readonly last: number;
    }
  /** Nothing of the batch was kept: `event` is an id that the store, or the batch itself, holds with other content. */
  | { readonly ok: false; readonly why: string; readonly event: string };

export interface JobStore {
  /**
   * Keeps events, all or none, each id once. When it has answered `ok`, they survive a kill and a loss of power.
   * The events must have passed `checkEvent`. A fault of the environment (disk full, file damaged) is thrown, and then
   * nothing of the batch was kept; only where the way to a server broke in the last moment may all of it be, which the
   * fault says. Either way the batch may be sent again. Throws RangeError where an id, a job or a type cannot be kept.
   */
  readonly append: (events: readonly JobEvent[]) => Promise<Appended>;
  /** Events of one job placed after `seq` (0 = all), in order of place. Throws RangeError unless `seq` is a whole number from 0. */
  readonly since: (job: string, seq: number) => Promise<readonly StoredEvent[]>;
  /**
   * Every event of every job as the store stood at one moment, in order of place: what a backup is made from. A batch is in
   * it whole or not at all, also while others write.
   */
  readonly all: () => Promise<readonly StoredEvent[]>;
  /** How many events of one job the store holds. */
  readonly count: (job: string) => Promise<number>;
  /** Jobs whose opening event is here, the one last written to first. */
  readonly jobs: () => Promise<readonly JobHead[]>;
  /** Gives back what it holds. Afterwards every call throws. Closing twice is allowed. */
  readonly close: () => Promise<void>;
}

/** The one check of `since` that every store shares. */
export function checkSeq(seq: number): void {
  if (!Number.isSafeInteger(seq) || seq < 0)
    throw new RangeError(`seq must be a whole number from 0, got ${seq}`);
}

/** Whether every store can keep a text as a name: PostgreSQL takes no NUL, and UTF-8 no half of a surrogate pair. */
export function isKeepable(name: string): boolean {
  return !name.includes('\0') && !/\p{Cs}/u.test(name);
}

/** The one check of `append` that every store shares. Texts inside an event need none: they are kept as JSON. */
export function checkNames(events: readonly JobEvent[]): void {
  for (const event of events)
    for (const field of ['id', 'job', 'type'] as const)
      if (!isKeepable(event[field]))
        throw new RangeError(
          `event.${field} must be text without NUL and half surrogate pairs, got ${JSON.stringify(event[field])}`,
        );
}
