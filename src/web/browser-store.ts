/**
 * The store of job events in the browser: what the laptop has acknowledged, kept so that a job opens with the laptop
 * switched off. It keeps the rules of the log room's SPEC.md like every other store, and remembers beside them how far
 * each job was read from the laptop, and texts (machine files, the list of jobs) as they were last seen.
 */
import { type IDBPDatabase, type IDBPObjectStore, openDB } from 'idb';
import type { JobEvent } from '../job/event.ts';
import { canonical } from '../job/stamp.ts';
import { sortOut } from '../log/merge.ts';
import {
  type Appended,
  checkNames,
  checkSeq,
  type JobHead,
  type JobStore,
  type StoredEvent,
} from '../log/store.ts';
import { opened, type PackedTables, packLoose, placesAfter, type Row } from './browser-pack.ts';
import { givingWay, reopening } from './reopening.ts';

/** A job's head as it is kept: `openedBy` is the id of the opening event, null while none has come. */
interface HeadRow extends JobHead {
  readonly openedBy: string | null;
  /** How many of its events are in packs; absent in a row of an earlier version, which had none. */
  readonly packed?: number;
}

interface Tables extends PackedTables {
  head: { key: string; value: HeadRow };
  place: { key: string; value: number };
  text: { key: string; value: string };
}

export interface BrowserStore extends JobStore {
  /** How far the laptop's log of a job was read; 0 when never. */
  readonly place: (job: string) => Promise<number>;
  readonly setPlace: (job: string, place: number) => Promise<void>;
  readonly text: (name: string) => Promise<string | null>;
  readonly setText: (name: string, text: string) => Promise<void>;
}

/** Raised when the tables change; each step only adds. */
const VERSION = 2;

function openTables(name: string, lost: () => void): Promise<IDBPDatabase<Tables>> {
  return openDB<Tables>(name, VERSION, {
    upgrade: (db, before, _now, tx) => {
      if (before < 1) {
        const events = db.createObjectStore('event', { keyPath: 'seq', autoIncrement: true });
        events.createIndex('id', 'id', { unique: true });
        events.createIndex('job', 'job');
        db.createObjectStore('head', { keyPath: 'job' });
        db.createObjectStore('place');
        db.createObjectStore('text');
      }
      tx.objectStore('event').createIndex('place', ['job', 'seq']);
      db.createObjectStore('pack', { keyPath: ['job', 'last'] });
    },
    ...givingWay(lost),
  });
}

/** Opens the browser's store. Nothing is opened until the first call; a browser without storage makes that call fail. */
export function openBrowserStore(name: string): BrowserStore {
  const { use: withDb, close } = reopening<Tables>((lost) => openTables(name, lost));
  return {
    append: (events) => withDb((db) => appendIn(db, events)),
    since: (job, seq) => withDb((db) => sinceIn(db, job, seq)),
    all: () => withDb(async (db) => (await db.getAll('event')).map(stored)),
    count: (job) => withDb(async (db) => (await db.get('head', job))?.events ?? 0),
    jobs: () => withDb(jobsIn),
    place: (job) => withDb(async (db) => (await db.get('place', job)) ?? 0),
    setPlace: (job, place) => withDb(async (db) => void (await db.put('place', place, job))),
    text: (key) => withDb(async (db) => (await db.get('text', key)) ?? null),
    setText: (key, text) => withDb(async (db) => void (await db.put('text', text, key))),
    close,
  };
}

async function appendIn(db: IDBPDatabase<Tables>, events: readonly JobEvent[]): Promise<Appended> {
  checkNames(events);
  // Strict: answered means flushed (rule 5), as far as the browser honours it.
  const tx = db.transaction(['event', 'head', 'pack'], 'readwrite', { durability: 'strict' });
  const table = tx.objectStore('event');
  const heads = tx.objectStore('head');
  const held = await heldIn(table, events);
  const sorted = sortOut(events, held);
  if (!sorted.ok) {
    tx.abort();
    await tx.done.catch(() => undefined);
    return sorted;
  }
  // All at once: a wait for each of twenty thousand would take longer than the writes.
  const places = await Promise.all(
    sorted.fresh.map((event) => table.add({ id: event.id, job: event.job, body: canonical(event) })),
  );
  const changed = new Map<string, HeadRow>();
  for (const [n, event] of sorted.fresh.entries()) {
    const before = changed.get(event.job) ?? (await heads.get(event.job)) ?? null;
    changed.set(event.job, headWith(before, event, places[n]!));
  }
  for (const head of changed.values())
    await heads.put({ ...head, packed: await packLoose(head, table, tx.objectStore('pack')) });
  const last = await table.openKeyCursor(null, 'prev');
  const greatest = last?.key ?? 0;
  await tx.done;
  return {
    ok: true,
    accepted: sorted.fresh.map(({ id }) => id),
    duplicate: sorted.duplicate,
    last: greatest,
  };
}

/** A batch larger than this is held against its jobs' whole logs in place of one look an id, count. */
const MANY = 200;

/** What the store holds of these events, canonical text by id. */
async function heldIn(
  table: IDBPObjectStore<Tables, ('event' | 'head' | 'pack')[], 'event', 'readwrite'>,
  events: readonly JobEvent[],
): Promise<ReadonlyMap<string, string>> {
  const held = new Map<string, string>();
  const byId = table.index('id');
  const look = async (id: string): Promise<void> => {
    const row = await byId.get(id);
    if (row) held.set(id, row.body);
  };
  if (events.length <= MANY) {
    await Promise.all([...new Set(events.map(({ id }) => id))].map(look));
    return held;
  }
  for (const job of new Set(events.map((event) => event.job)))
    for (const { id, body } of await table.index('job').getAll(job)) held.set(id, body);
  // An id that stands under another job is not found so: the index refuses it, and the batch with it.
  return held;
}

function headWith(before: HeadRow | null, event: JobEvent, seq: number): HeadRow {
  const head = before ?? {
    job: event.job,
    machine: '',
    title: '',
    invented: false,
    openedAt: '',
    events: 0,
    last: 0,
    openedBy: null,
  };
  const counted = { ...head, events: head.events + 1, last: seq };
  // The opening with the least id names the job (rule 10).
  if (event.type !== 'jobOpened' || (head.openedBy !== null && head.openedBy < event.id)) return counted;
  const { machine, title, invented, at } = event;
  return { ...counted, machine, title, invented, openedAt: at, openedBy: event.id };
}

async function sinceIn(db: IDBPDatabase<Tables>, job: string, seq: number): Promise<readonly StoredEvent[]> {
  checkSeq(seq);
  const tx = db.transaction(['event', 'head', 'pack']);
  const [packs, head] = await Promise.all([
    tx.objectStore('pack').getAll(IDBKeyRange.bound([job, seq + 1], [job, Number.POSITIVE_INFINITY])),
    tx.objectStore('head').get(job),
  ]);
  const events = tx.objectStore('event');
  const rows = await events.index('place').getAll(placesAfter(job, packs.at(-1)?.last ?? seq));
  const found = [...packs.flatMap(opened).filter((row) => row.seq > seq), ...rows.map(stored)];
  // Packs are a quicker way to the same rows; where the two do not agree, the rows count.
  if (seq > 0 || found.length === (head?.events ?? 0)) return found;
  return (await events.index('place').getAll(placesAfter(job, seq))).map(stored);
}

function stored({ seq, body }: Row): StoredEvent {
  return { seq: seq!, event: JSON.parse(body) as JobEvent };
}

async function jobsIn(db: IDBPDatabase<Tables>): Promise<readonly JobHead[]> {
  const heads = await db.getAll('head');
  return heads
    .filter(({ openedBy }) => openedBy !== null)
    .map(({ openedBy: _openedBy, packed: _packed, ...head }) => head)
    .sort((a, b) => b.last - a.last);
}
