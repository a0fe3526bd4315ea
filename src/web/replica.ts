/**
 * One job's log in this page, kept level with the laptop's: recalled from the browser, read from the laptop, and
 * followed as others write. Where the laptop has lost what this browser still holds (a store put back from a
 * backup), it is sent again: nothing that was once entered may be lost.
 */
import type { JobEvent } from '../job/event.ts';
import { missingFrom } from '../log/merge.ts';
import { later } from './browser.ts';
import { type Listening, listen } from './listening.ts';
import { fetchJob, type Got, type Rows, readRows, streamOf } from './server.ts';
import { kept, settled } from './state/kept.ts';

export interface ReplicaPorts {
  /** Events that the laptop has; `fresh` where this browser has yet to keep them. */
  readonly taken: (job: string, events: readonly JobEvent[], fresh: boolean) => void;
  /** What the page holds of the laptop's log. */
  readonly held: (job: string) => ReadonlyMap<string, JobEvent>;
  /** Events that the laptop had and has no more. */
  readonly lost: (job: string, events: readonly JobEvent[]) => void;
  /** Nothing is heard of the laptop any more, though a connection stood: time to ask. */
  readonly silent: (job: string) => Promise<unknown>;
}

export interface Replica {
  /** Takes up what this browser kept of a job. */
  readonly recall: (job: string) => Promise<void>;
  readonly read: (job: string) => Promise<Got<unknown>>;
  /** Listens to a job from now on; to one that is listened to already, nothing changes. */
  readonly follow: (job: string) => void;
  readonly leave: () => void;
}

export function openReplica({ taken, held, lost, silent }: ReplicaPorts): Replica {
  /** How far the laptop's log was read, by job: its own places. */
  const places = new Map<string, number>();
  const strange = new Map<string, number>();
  const recalled = new Set<string>();
  let stream: { readonly job: string; readonly listening: Listening } | null = null;

  const take = (job: string, rows: Rows): void => {
    taken(job, rows.events, true);
    strange.set(job, (strange.get(job) ?? 0) + rows.strange);
    if (rows.last === null || rows.last <= (places.get(job) ?? 0)) return;
    const { last } = rows;
    places.set(job, last);
    // The place is kept after the events: the other way round a page killed between them would never ask again.
    void settled()
      .then(() => kept.setPlace(job, last))
      .catch(() => undefined);
  };

  /** Reads the whole log: the laptop's store is not the one that was read before, or something is missing. */
  const readAll = async (job: string): Promise<Got<unknown>> => {
    strange.set(job, 0);
    const got = await fetchJob(job, 0);
    if (!got.ok) return got;
    places.set(job, 0);
    take(job, got.body);
    const gone = missingFrom(got.body.events, [...held(job).values()]);
    if (gone.length > 0) lost(job, gone);
    return got;
  };

  return {
    recall: async (job) => {
      if (recalled.has(job)) return;
      recalled.add(job);
      try {
        const [rows, place] = await Promise.all([kept.since(job, 0), kept.place(job)]);
        taken(
          job,
          rows.map(({ event }) => event),
          false,
        );
        // Without its events a place would skip what is not here.
        if (rows.length > 0) places.set(job, place);
      } catch {
        // A browser that keeps nothing: the laptop has it all.
      }
    },
    read: async (job) => {
      const got = await fetchJob(job, places.get(job) ?? 0);
      if (!got.ok) {
        // The laptop has never heard of a job that it had: its store was emptied or changed.
        if (got.kind === 'missing' && held(job).size > 0) lost(job, missingFrom([], [...held(job).values()]));
        return got;
      }
      take(job, got.body);
      const here = held(job).size + (strange.get(job) ?? 0);
      return here === got.body.count ? got : readAll(job);
    },
    follow: (job) => {
      if (stream?.job === job) return stream.listening.look();
      stream?.listening.end();
      stream = {
        job,
        listening: listen({
          open: () => new EventSource(streamOf(job, places.get(job) ?? 0)),
          took: (data) => take(job, readRows(JSON.parse(data))),
          silent: () => silent(job),
          later,
          now: () => Date.now(),
        }),
      };
    },
    leave: () => {
      stream?.listening.end();
      stream = null;
    },
  };
}
