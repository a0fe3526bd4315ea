/**
 * The store of events in PostgreSQL, for a club or a shop that shares one garage among several computers. The same rules
 * as the SQLite store's, held by the same tests. Every batch takes the one row that counts places, so batches come to an
 * end in the order of their places: a reader who asks for what came after the last place never misses one (rule 6).
 */
import {
  type CompiledQuery,
  DummyDriver,
  Kysely,
  PostgresAdapter,
  PostgresIntrospector,
  PostgresQueryCompiler,
} from 'kysely';
import pg from 'pg';
import type { EventOf, JobEvent } from '../job/event.ts';
import { canonical } from '../job/stamp.ts';
import { sortOut } from '../log/merge.ts';
import { type Appended, checkSeq, type JobHead, type JobStore, type StoredEvent } from '../log/store.ts';
import { StoreFault } from './fault.ts';
import { explainPostgres, placeOf } from './postgres-fault.ts';

/** Values a statement may carry are 65535: five a row stay far below. */
const CHUNK = 1000;
/** How long a connection, and a statement, may take, ms. */
const PATIENCE_MS = 10_000;
/** The version of the tables this program writes and the greatest it reads. */
const VERSION = 1;

interface Tables {
  readonly event: {
    readonly seq: number;
    readonly id: string;
    readonly job: string;
    readonly type: string;
    readonly body: string;
  };
}

const query = new Kysely<Tables>({
  dialect: {
    createAdapter: () => new PostgresAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db) => new PostgresIntrospector(db),
    createQueryCompiler: () => new PostgresQueryCompiler(),
  },
});

/** Step n leads from version n to n + 1; a step that has been released is never edited again. */
const STEPS: readonly string[] = [
  `CREATE TABLE event (
     seq bigint PRIMARY KEY,
     id text NOT NULL UNIQUE COLLATE "C",
     job text NOT NULL COLLATE "C",
     type text NOT NULL COLLATE "C",
     body text NOT NULL
   );
   CREATE INDEX event_by_job ON event (job, seq);
   CREATE INDEX event_by_type ON event (type, job);
   CREATE TABLE place (last bigint NOT NULL);
   INSERT INTO place (last) VALUES (0);
   CREATE FUNCTION event_stays() RETURNS trigger LANGUAGE plpgsql AS
     $$ BEGIN RAISE EXCEPTION 'events are never changed or removed: append another'; END $$;
   CREATE TRIGGER event_is_not_changed BEFORE UPDATE OR DELETE ON event
     FOR EACH ROW EXECUTE FUNCTION event_stays();
   CREATE TRIGGER event_is_not_emptied BEFORE TRUNCATE ON event
     FOR EACH STATEMENT EXECUTE FUNCTION event_stays();`,
];

/** Marks the tables as ours, no unit: any number, the same in every program that shares the store. */
const LOCK = 0x43686777;

/** Opens the store at a `postgres://` address, making its tables where there are none. Throws StoreFault. */
export async function openPostgresStore(url: string): Promise<JobStore> {
  const place = placeOf(url);
  const pool = new pg.Pool({
    connectionString: url,
    max: 4,
    connectionTimeoutMillis: PATIENCE_MS,
    statement_timeout: PATIENCE_MS,
  });
  // A connection that breaks while nobody uses it is replaced at the next call.
  pool.on('error', () => undefined);
  let closed = false;
  // In the order of the calls: on connections of their own two batches of one writer could change places.
  let writing: Promise<unknown> = Promise.resolve();
  const guarded = async <T>(work: () => Promise<T>): Promise<T> => {
    if (closed) throw new Error('the store is closed');
    try {
      return await work();
    } catch (error) {
      throw explainPostgres(place, error);
    }
  };
  try {
    await guarded(() => within(pool, (client) => prepare(client, place)));
  } catch (error) {
    await pool.end().catch(() => undefined);
    throw error;
  }
  return {
    append: (events) => {
      const done = writing.then(() => guarded(() => within(pool, (client) => appendIn(client, events))));
      writing = done.catch(() => undefined);
      return done;
    },
    since: (job, seq) => guarded(() => sinceIn(pool, job, seq)),
    count: (job) => guarded(() => countIn(pool, job)),
    jobs: () => guarded(() => jobsIn(pool)),
    close: async () => {
      if (closed) return;
      closed = true;
      await pool.end();
    },
  };
}

type Runs = Pick<pg.Pool, 'query'>;

async function rows<O>(db: Runs, { sql, parameters }: CompiledQuery<O>): Promise<O[]> {
  const { rows: found } = await db.query(sql, [...parameters]);
  return found as O[];
}

/** One transaction: all or none. */
async function within<T>(pool: pg.Pool, work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect();
  let broken: Error | undefined;
  try {
    await client.query('BEGIN');
    const done = await work(client);
    await client.query('COMMIT');
    return done;
  } catch (error) {
    await client.query('ROLLBACK').catch((fault: Error) => {
      broken = fault;
    });
    throw error;
  } finally {
    client.release(broken);
  }
}

/** Looks whether the server keeps what rule 5 promises (rule 12), and brings the tables to the present version. */
async function prepare(client: pg.PoolClient, place: string): Promise<void> {
  for (const [name, wanted] of [
    ['fsync', ['on']],
    ['full_page_writes', ['on']],
    ['synchronous_commit', ['on', 'local', 'remote_write', 'remote_apply']],
  ] as const) {
    const { rows: found } = await client.query(`SHOW ${name}`);
    const value = (found[0] as Readonly<Record<string, string>>)[name] ?? '';
    if (!(wanted as readonly string[]).includes(value))
      throw new StoreFault(
        place,
        `The store ${place} cannot promise to keep what it is given: its server has ${name} = ${value}. Set it to on there, or use another server.`,
      );
  }
  // Two programs that start at once must not both make the tables.
  await client.query('SELECT pg_advisory_xact_lock($1)', [LOCK]);
  await client.query('CREATE TABLE IF NOT EXISTS chargewright (version integer NOT NULL)');
  const { rows: found } = await client.query('SELECT version FROM chargewright');
  const version = Number((found[0] as { readonly version?: number } | undefined)?.version ?? 0);
  if (version > VERSION)
    throw new StoreFault(
      place,
      `The store ${place} was written by a later version of Chargewright (its tables are version ${version}, this program knows up to ${VERSION}). Nothing was changed. Update Chargewright.`,
    );
  for (let at = version; at < VERSION; at++) await client.query(STEPS[at]!);
  if (found.length === 0) await client.query('INSERT INTO chargewright (version) VALUES ($1)', [VERSION]);
  else if (version < VERSION) await client.query('UPDATE chargewright SET version = $1', [VERSION]);
}

async function appendIn(client: pg.PoolClient, events: readonly JobEvent[]): Promise<Appended> {
  // Taken before anything is looked at: until this batch ends, no other gets places or adds ids.
  const { rows: counted } = await client.query('SELECT last FROM place FOR UPDATE');
  let last = Number((counted[0] as { readonly last: string }).last);
  const held = new Map<string, string>();
  for (const chunk of chunks(events)) {
    const ids = chunk.map(({ id }) => id);
    const known = query.selectFrom('event').select(['id', 'body']).where('id', 'in', ids).compile();
    for (const row of await rows(client, known)) held.set(row.id, row.body);
  }
  const sorted = sortOut(events, held);
  if (!sorted.ok) return sorted;
  for (const chunk of chunks(sorted.fresh)) {
    const values = chunk.map((event) => {
      last += 1;
      return { seq: last, id: event.id, job: event.job, type: event.type, body: canonical(event) };
    });
    await rows(client, query.insertInto('event').values(values).compile());
  }
  if (sorted.fresh.length > 0) await client.query('UPDATE place SET last = $1', [last]);
  return { ok: true, accepted: sorted.fresh.map(({ id }) => id), duplicate: sorted.duplicate, last };
}

async function sinceIn(db: Runs, job: string, seq: number): Promise<readonly StoredEvent[]> {
  checkSeq(seq);
  const later = query
    .selectFrom('event')
    .select(['seq', 'body'])
    .where('job', '=', job)
    .where('seq', '>', seq)
    .orderBy('seq')
    .compile();
  return (await rows(db, later)).map((row) => ({
    // PostgreSQL hands a bigint over as text.
    seq: Number(row.seq),
    event: JSON.parse(row.body) as JobEvent,
  }));
}

async function countIn(db: Runs, job: string): Promise<number> {
  const held = query
    .selectFrom('event')
    .select(({ fn }) => fn.countAll<string>().as('events'))
    .where('job', '=', job)
    .compile();
  return Number((await rows(db, held))[0]?.events ?? 0);
}

async function jobsIn(db: Runs): Promise<readonly JobHead[]> {
  const openings = query
    .selectFrom('event')
    .select(['job', 'body'])
    .where('type', '=', 'jobOpened')
    .orderBy('id', 'desc')
    .compile();
  const totals = query
    .selectFrom('event')
    .select(({ fn }) => ['job', fn.countAll<string>().as('events'), fn.max('seq').as('last')])
    .groupBy('job')
    .orderBy('last', 'desc')
    .compile();
  // Least id last, so that it is the one that stays.
  const opened = new Map(
    (await rows(db, openings)).map((row) => [row.job, JSON.parse(row.body) as EventOf<'jobOpened'>]),
  );
  return (await rows(db, totals)).flatMap(({ job, events, last }) => {
    const opening = opened.get(job);
    if (!opening) return [];
    const { machine, title, invented, at } = opening;
    return [{ job, machine, title, invented, openedAt: at, events: Number(events), last: Number(last) }];
  });
}

function* chunks<T>(items: readonly T[]): Generator<readonly T[]> {
  for (let from = 0; from < items.length; from += CHUNK) yield items.slice(from, from + CHUNK);
}
