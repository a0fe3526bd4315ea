/** Tables of the PostgreSQL store, the steps that lead from one version to the next, and what its server must promise. */
import type pg from 'pg';
import { StoreFault } from './fault.ts';
import { tornSentence } from './postgres-fault.ts';

/** The version of the tables this program writes and the greatest it reads. */
const VERSION = 1;
/** How long a step may take, ms: it may have a whole club's log to go through. */
const STEP_MS = 3_600_000;

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
export const LOCK = 0x43686777;

/** What rules 1 and 5 need of the server, and what to do where it is otherwise. */
const PROMISES: readonly (readonly [name: string, wanted: readonly string[], remedy: string])[] = [
  ['fsync', ['on'], 'Set it to on there, or use another server.'],
  ['full_page_writes', ['on'], 'Set it to on there, or use another server.'],
  [
    'synchronous_commit',
    ['on', 'local', 'remote_write', 'remote_apply'],
    'Set it to on there, or use another server.',
  ],
  // Another one has no sign for much of what people write, and would refuse the entry in the middle of an evening.
  ['server_encoding', ['UTF8'], "Make a new database there with ENCODING 'UTF8' and name that one."],
];

/** Looks whether the server keeps what rule 5 promises (rule 12), and brings the tables to the present version. */
export async function prepare(client: pg.PoolClient, place: string): Promise<void> {
  for (const [name, wanted, remedy] of PROMISES) {
    const { rows } = await client.query(`SHOW ${name}`);
    const value = (rows[0] as Readonly<Record<string, string>>)[name] ?? '';
    if (!wanted.includes(value))
      throw new StoreFault(
        place,
        `The store ${place} cannot promise to keep what it is given: its server has ${name} = ${value}. ${remedy}`,
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
  if (version < VERSION) await climb(client, version);
  if (found.length === 0) await client.query('INSERT INTO chargewright (version) VALUES ($1)', [VERSION]);
  else if (version < VERSION) await client.query('UPDATE chargewright SET version = $1', [VERSION]);
  await checkPlaces(client, place);
}

async function climb(client: pg.PoolClient, version: number): Promise<void> {
  await client.query(`SET LOCAL statement_timeout = ${STEP_MS}`);
  for (const step of STEPS.slice(version)) {
    const patient = { text: step, query_timeout: STEP_MS };
    await client.query(patient);
  }
}

/** The one row that counts places must be there and lie at or above every place given. */
async function checkPlaces(client: pg.PoolClient, place: string): Promise<void> {
  // One statement, so that no other program's batch comes between the two looks.
  const { rows } = await client.query(
    'SELECT count(*) AS counts, coalesce(max(last), 0) >= coalesce((SELECT max(seq) FROM event), 0) AS above FROM place',
  );
  const { counts, above } = rows[0] as { readonly counts: string; readonly above: boolean };
  if (counts !== '1' || !above) throw new StoreFault(place, tornSentence(place));
}
