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
import type pg from 'pg';
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
import { StoreFault } from './fault.ts';
import { placeOf, tornSentence } from './postgres-fault.ts';
import { openLink, type Runs } from './postgres-link.ts';
import { prepare } from './postgres-tables.ts';

/** Values a statement may carry are 65535: five a row stay far below. */
const CHUNK = 1000;

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

/** Opens the store at a `postgres://` address, making its tables where there are none. Throws StoreFault. */
export async function openPostgresStore(url: string): Promise<JobStore> {
  const place = placeOf(url);
  const link = openLink(url, place);
  let closing: Promise<void> | null = null;
  // In the order of the calls: on connections of their own two batches of one writer could change places.
  let writing: Promise<unknown> = Promise.resolve();
  // Entries that were given up without knowing whether the server has them: also the next refusal must not deny them.
  const doubted = new Set<string>();
  const whenOpen = async <T>(work: () => Promise<T>): Promise<T> => {
    if (closing) throw new Error('the store is closed');
    return work();
  };
  try {
    await link.transact('none', (client) => prepare(client, place));
  } catch (error) {
    await link.close(Promise.resolve());
    throw error;
  }
  return {
    append: (events) =>
      whenOpen(() => {
        checkNames(events);
        const tried = new Set<string>();
        const done = writing.then(async () => {
          const kept = events.some(({ id }) => doubted.has(id)) ? 'unknown' : 'nothing';
          const answer = await link.transact(
            kept,
            (client) => appendAgain(client, place, events, tried),
            () => {
              for (const { id } of events) doubted.add(id);
            },
          );
          for (const { id } of events) doubted.delete(id);
          return answer;
        });
        writing = done.catch(() => undefined);
        return done;
      }),
    since: (job, seq) => whenOpen(() => link.read((db) => sinceIn(db, job, seq))),
    all: () => whenOpen(() => link.read(allIn)),
    count: (job) => whenOpen(() => link.read((db) => countIn(db, job))),
    jobs: () => whenOpen(() => link.read(jobsIn)),
    close: () => {
      closing ??= link.close(writing);
      return closing;
    },
  };
}

async function rows<O>(db: Runs, { sql, parameters }: CompiledQuery<O>): Promise<O[]> {
  const { rows: found } = await db.query(sql, [...parameters]);
  return found as O[];
}

/**
 * Appends, perhaps once more after a connection that was cut. What the earlier attempt did keep after all, its answer
 * lost, is new to whoever asked: `tried` are the ids that it found to be new.
 */
async function appendAgain(
  client: pg.PoolClient,
  place: string,
  events: readonly JobEvent[],
  tried: Set<string>,
): Promise<Appended> {
  const answer = await appendIn(client, place, events);
  if (!answer.ok) return answer;
  const kept = answer.duplicate.filter((id) => tried.has(id));
  for (const id of answer.accepted) tried.add(id);
  return {
    ...answer,
    accepted: [...kept, ...answer.accepted],
    duplicate: answer.duplicate.filter((id) => !tried.has(id)),
  };
}

async function appendIn(
  client: pg.PoolClient,
  place: string,
  events: readonly JobEvent[],
): Promise<Appended> {
  // Taken before anything is looked at: until this batch ends, no other gets places or adds ids.
  const { rows: counted } = await client.query('SELECT last FROM place FOR UPDATE');
  // Without the row nothing holds two writers apart.
  if (counted.length !== 1) throw new StoreFault(place, tornSentence(place));
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
  if (!isKeepable(job)) return [];
  const later = query
    .selectFrom('event')
    .select(['seq', 'body'])
    .where('job', '=', job)
    .where('seq', '>', seq)
    .orderBy('seq')
    .compile();
  return (await rows(db, later)).map(stored);
}

/** One statement, and so one moment. */
async function allIn(db: Runs): Promise<readonly StoredEvent[]> {
  const all = query.selectFrom('event').select(['seq', 'body']).orderBy('seq').compile();
  return (await rows(db, all)).map(stored);
}

function stored({ seq, body }: { readonly seq: number; readonly body: string }): StoredEvent {
  // PostgreSQL hands a bigint over as text.
  return { seq: Number(seq), event: JSON.parse(body) as JobEvent };
}

async function countIn(db: Runs, job: string): Promise<number> {
  if (!isKeepable(job)) return 0;
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
