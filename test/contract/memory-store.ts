import type { JobEvent } from '../../src/job/event.ts';
import { canonical } from '../../src/job/stamp.ts';
import { sortOut } from '../../src/log/merge.ts';
import { checkNames, checkSeq, type JobStore, type StoredEvent } from '../../src/log/store.ts';

/** The plainest store that keeps the rules: what the others are compared with. It forgets when the process ends. */
export function openMemoryStore(): JobStore {
  const rows: StoredEvent[] = [];
  let open = true;
  const whenOpen = async <T>(work: () => T): Promise<T> => {
    if (!open) throw new Error('the store is closed');
    return work();
  };
  const of = (job: string) => rows.filter((row) => row.event.job === job);
  return {
    append: (events) =>
      whenOpen(() => {
        checkNames(events);
        const sorted = sortOut(events, new Map(rows.map(({ event }) => [event.id, canonical(event)])));
        if (!sorted.ok) return sorted;
        for (const event of sorted.fresh) rows.push({ seq: rows.length + 1, event: structuredClone(event) });
        const accepted = sorted.fresh.map((event) => event.id);
        return { ok: true, accepted, duplicate: sorted.duplicate, last: rows.length };
      }),
    since: (job, seq) =>
      whenOpen(() => {
        checkSeq(seq);
        return structuredClone(of(job).filter((row) => row.seq > seq));
      }),
    all: () => whenOpen(() => structuredClone(rows)),
    count: (job) => whenOpen(() => of(job).length),
    jobs: () =>
      whenOpen(() => {
        const heads = [...new Set(rows.map((row) => row.event.job))].flatMap((job) => {
          const own = of(job);
          const openings = own.flatMap(({ event }) => (event.type === 'jobOpened' ? [event] : []));
          const first = openings.sort((a: JobEvent, b: JobEvent) => (a.id < b.id ? -1 : 1))[0];
          if (!first) return [];
          const { machine, title, invented, at } = first;
          return [{ job, machine, title, invented, openedAt: at, events: own.length, last: own.at(-1)!.seq }];
        });
        return heads.sort((a, b) => b.last - a.last);
      }),
    close: async () => {
      open = false;
    },
  };
}
