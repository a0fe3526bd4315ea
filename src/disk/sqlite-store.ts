/**
 * Room `disk`: stores of job events, in a file on this computer's disk or in PostgreSQL. Nothing above it knows which.
 *
 * This file: the SQLite store. Several processes may share the file. The rules it keeps are in the log room's SPEC.md.
 *
 * Kysely writes the statements and knows the columns' types; better-sqlite3 runs them, a whole transaction at one
 * go. Rejected: Kysely's own driver, whose transactions give way to other work between statements, so that a second
 * connection of the same process waits for a lock that only it keeps from being let go (found by a test: 5 s, then
 * "database is locked").
 */
import type { Database } from 'better-sqlite3';
import {
  type CompiledQuery,
  DummyDriver,
  Kysely,
  SqliteAdapter,
  SqliteIntrospector,
  SqliteQueryCompiler,
} from 'kysely';
import type { EventOf, JobEvent } from '../job/event.ts';
import { canonical } from '../job/stamp.ts';
import { sortOut } from '../log/merge.ts';
import {
  type Appended,
  checkNames,
  checkSeq,
  isKeepable,
  type JobHead,
  type JobStore,
  type StoredEvent,
} from '../log/store.ts';
import { requireWritable } from './disk-state.ts';
import { explain } from './fault.ts';
import { openFile } from './open.ts';
import type { Tables } from './schema.ts';

/** Rows a statement: four values each stay far below SQLite's limit of 32766. */
const CHUNK = 1000;

const query = new Kysely<Tables>({
  dialect: {
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  },
});

/** Opens the store in `file`, creating it when there is none. Throws StoreFault with a message for the mechanic. */
export function openSqliteStore(file: string): JobStore {
  const db = openFile(file);
  const guarded = async <T>(work: () => T): Promise<T> => {
    try {
      return work();
    } catch (error) {
      throw explain(file, error);
    }
  };
  // IMMEDIATE: a transaction that begins by reading and then writes could be refused midway.
  const append = db.transaction((events: readonly JobEvent[]) => appendIn(db, events)).immediate;
  return {
    append: (events) =>
      guarded(() => {
        const answer = append(events);
        if (answer.ok) requireWritable(file);
        return answer;
      }),
    since: (job, seq) => guarded(() => since(db, job, seq)),
    all: () => guarded(() => everything(db)),
    count: (job) => guarded(() => count(db, job)),
    jobs: () => guarded(() => jobs(db)),
    close: () => guarded(() => void db.close()),
  };
}

/** Rows of a select. */
function rows<O>(db: Database, { sql, parameters }: CompiledQuery<O>): O[] {
  return db.prepare<unknown[], O>(sql).all(...parameters);
}

function appendIn(db: Database, events: readonly JobEvent[]): Appended {
  checkNames(events);
  const sorted = sortOut(events, textsOf(db, events));
  if (!sorted.ok) return sorted;
  for (const chunk of chunks(sorted.fresh)) {
    const values = chunk.map((event) => ({
      id: event.id,
      job: event.job,
      type: event.type,
      body: canonical(event),
    }));
    const { sql, parameters } = query.insertInto('event').values(values).compile();
    db.prepare(sql).run(...parameters);
  }
  const [greatest] = rows(
    db,
    query
      .selectFrom('event')
      .select(({ fn }) => fn.max('seq').as('last'))
      .compile(),
  );
  return {
    ok: true,
    accepted: sorted.fresh.map((event) => event.id),
    duplicate: sorted.duplicate,
    last: greatest?.last ?? 0,
  };
}

function textsOf(db: Database, events: readonly JobEvent[]): ReadonlyMap<string, string> {
  const texts = new Map<string, string>();
  for (const chunk of chunks(events)) {
    const ids = chunk.map((event) => event.id);
    const known = query.selectFrom('event').select(['id', 'body']).where('id', 'in', ids).compile();
    for (const row of rows(db, known)) texts.set(row.id, row.body);
  }
  return texts;
}

function since(db: Database, job: string, seq: number): readonly StoredEvent[] {
  checkSeq(seq);
  if (!isKeepable(job)) return [];
  const later = query
    .selectFrom('event')
    .select(['seq', 'body'])
    .where('job', '=', job)
    .where('seq', '>', seq)
    .orderBy('seq')
    .compile();
  return rows(db, later).map((row) => ({ seq: row.seq, event: JSON.parse(row.body) as JobEvent }));
}

/** One statement: what is kept meanwhile by another program is in it whole or not at all. */
function everything(db: Database): readonly StoredEvent[] {
  const all = query.selectFrom('event').select(['seq', 'body']).orderBy('seq').compile();
  return rows(db, all).map((row) => ({ seq: row.seq, event: JSON.parse(row.body) as JobEvent }));
}

function count(db: Database, job: string): number {
  if (!isKeepable(job)) return 0;
  const held = query
    .selectFrom('event')
    .select(({ fn }) => fn.countAll<number>().as('events'))
    .where('job', '=', job)
    .compile();
  return rows(db, held)[0]?.events ?? 0;
}

function jobs(db: Database): readonly JobHead[] {
  const openings = query
    .selectFrom('event')
    .select(['job', 'body'])
    .where('type', '=', 'jobOpened')
    .orderBy('id', 'desc')
    .compile();
  const totals = query
    .selectFrom('event')
    .select(({ fn }) => ['job', fn.countAll<number>().as('events'), fn.max('seq').as('last')])
    .groupBy('job')
    .orderBy('last', 'desc')
    .compile();
  // Least id last, so that it is the one that stays.
  const opened = new Map(
    rows(db, openings).map((row) => [row.job, JSON.parse(row.body) as EventOf<'jobOpened'>]),
  );
  return rows(db, totals).flatMap(({ job, events, last }) => {
    const opening = opened.get(job);
    if (!opening) return [];
    const { machine, title, invented, at } = opening;
    return [{ job, machine, title, invented, openedAt: at, events, last }];
  });
}

function* chunks<T>(items: readonly T[]): Generator<readonly T[]> {
  for (let from = 0; from < items.length; from += CHUNK) yield items.slice(from, from + CHUNK);
}
