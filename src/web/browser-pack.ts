/**
 * Packs: a job's events once more, many in one text, beside the rows they are kept in. Reading twenty thousand rows takes the
 * browser far longer than reading a few long texts, and a long job must open at once. The rows stay what counts: they
 * hold each id once, and a pack that does not agree with them is passed over.
 */
import type { DBSchema } from 'idb';
import type { JobEvent } from '../job/event.ts';
import type { StoredEvent } from '../log/store.ts';

export interface Row {
  readonly seq?: number;
  readonly id: string;
  readonly job: string;
  /** The event in its canonical text. */
  readonly body: string;
}

export interface Pack {
  readonly job: string;
  /** Place of the last event in it. */
  readonly last: number;
  /** A list of [place, event] as JSON. */
  readonly text: string;
}

/** What packing needs of the tables. */
export interface PackedTables extends DBSchema {
  event: {
    key: number;
    value: Row;
    indexes: { id: string; job: string; place: [string, number] };
  };
  pack: { key: [string, number]; value: Pack };
}

/** So many events of a job stay in rows alone before they are packed, count: few enough to be read at once. */
const LOOSE = 500;
/** Most events in one pack, count: a text of about a megabyte. */
const MOST = 5000;

/** Places of a job after one. */
export function placesAfter(job: string, seq: number): IDBKeyRange {
  return IDBKeyRange.bound([job, seq + 1], [job, Number.POSITIVE_INFINITY]);
}

/** Packs what a job has in rows alone once that is much; answers how many of its events are in packs then. */
export async function packLoose(
  { job, events, packed = 0 }: { readonly job: string; readonly events: number; readonly packed?: number },
  table: { readonly index: (name: 'place') => { readonly getAll: (of: IDBKeyRange) => Promise<Row[]> } },
  packs: {
    readonly getAllKeys: (of: IDBKeyRange) => Promise<[string, number][]>;
    readonly put: (pack: Pack) => Promise<unknown>;
  },
): Promise<number> {
  if (events - packed < LOOSE) return packed;
  const last = (await packs.getAllKeys(placesAfter(job, 0))).at(-1)?.[1] ?? 0;
  const rows = await table.index('place').getAll(placesAfter(job, last));
  for (let from = 0; from < rows.length; from += MOST) {
    const some = rows.slice(from, from + MOST);
    const text = `[${some.map(({ seq, body }) => `[${seq},${body}]`).join(',')}]`;
    await packs.put({ job, last: some.at(-1)!.seq!, text });
  }
  return packed + rows.length;
}

/** The events of a pack. */
export function opened({ text }: Pack): readonly StoredEvent[] {
  return (JSON.parse(text) as [number, JobEvent][]).map(([seq, event]) => ({ seq, event }));
}
