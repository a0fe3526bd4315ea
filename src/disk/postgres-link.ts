/**
 * The way to a PostgreSQL server: a few connections, each of which may be cut at any moment. A cut connection is thrown
 * away; what was asked over it is asked again on another, since keeping an event twice keeps it once (rule 2). So a
 * server that starts anew is a pause, and no lost entry. Where it stays away, one sentence says what became of the entry.
 */
import pg from 'pg';
import { explainPostgres, isCut, isUnreachable, type Kept, mayGoWell } from './postgres-fault.ts';

/** How long a connection, and a statement, may take, ms. */
const PATIENCE_MS = 10_000;
/** The server ends a statement itself; where the network swallows that answer, we do a little later, ms. */
const SILENCE_MS = PATIENCE_MS + 2000;
/** Pauses before asking again, ms: together long enough for a small server to recover from a crash. */
const PAUSES_MS = [50, 250, 1000, 2500] as const;
/** How long running work may take after the store was closed, ms. */
const FAREWELL_MS = 3000;

export type Runs = Pick<pg.Pool, 'query'>;

export interface Link {
  /**
   * Work in one transaction: all or none. It may be done again, so it must look anew at what is there. Where it is given
   * up without knowing what the server did, `doubt` is told.
   */
  readonly transact: <T>(
    kept: Kept,
    work: (client: pg.PoolClient) => Promise<T>,
    doubt?: () => void,
  ) => Promise<T>;
  /** Work that only reads. */
  readonly read: <T>(work: (db: Runs) => Promise<T>) => Promise<T>;
  /** Lets `last` and running work end, for a while, and gives the connections back. */
  readonly close: (last: Promise<unknown>) => Promise<void>;
}

export function openLink(url: string, place: string): Link {
  const pool = new pg.Pool({
    connectionString: url,
    max: 4,
    connectionTimeoutMillis: PATIENCE_MS,
    statement_timeout: PATIENCE_MS,
    query_timeout: SILENCE_MS,
    // A laptop that is shut in mid-transaction must not keep the others waiting for the row that counts places.
    idle_in_transaction_session_timeout: PATIENCE_MS,
    keepAlive: true,
  });
  // A connection that breaks while nobody uses it is replaced at the next call.
  pool.on('error', () => undefined);
  // The pool hears one error of a connection in use, and none of one it has thrown away; a cut comes as two (the server's
  // word, then the end of the line), and one that nobody hears ends the whole program.
  pool.on('connect', (client) => client.on('error', () => undefined));
  const used = new Set<pg.PoolClient>();
  pool.on('acquire', (client) => used.add(client));
  pool.on('release', (_error, client) => used.delete(client));
  let cutOff = false;

  const repeat = async <T>(attempt: () => Promise<T>): Promise<T> => {
    const from = performance.now();
    for (let n = 0; ; n += 1) {
      if (cutOff) throw new Error('the store is closed');
      try {
        return await attempt();
      } catch (error) {
        const pause = PAUSES_MS[n];
        const late = performance.now() - from > PATIENCE_MS;
        const away = n === 0 && isUnreachable(error);
        if (pause === undefined || late || away || cutOff || !mayGoWell(error)) throw error;
        await new Promise((done) => setTimeout(done, pause));
      }
    }
  };

  return {
    transact: async (kept, work, doubt = () => undefined) => {
      let unknown = false;
      try {
        return await repeat(() =>
          once(pool, work, () => {
            unknown = true;
          }),
        );
      } catch (error) {
        if (unknown) doubt();
        throw explainPostgres(place, error, unknown && kept === 'nothing' ? 'unknown' : kept);
      }
    },
    read: async (work) => {
      try {
        return await repeat(() => work(pool));
      } catch (error) {
        throw explainPostgres(place, error, 'none');
      }
    },
    close: async (last) => {
      const impatience = setTimeout(() => {
        cutOff = true;
        for (const client of used) void client.end();
      }, FAREWELL_MS);
      await last.catch(() => undefined);
      await pool.end();
      clearTimeout(impatience);
    },
  };
}

/** `cutAtCommit` is told when nobody can know whether the server still made the work last. */
async function once<T>(
  pool: pg.Pool,
  work: (client: pg.PoolClient) => Promise<T>,
  cutAtCommit: () => void,
): Promise<T> {
  const client = await pool.connect();
  let broken: Error | undefined;
  // The pool listens to its idle connections only: one that is cut while in use would end the whole program.
  const notice = (error: Error): void => {
    broken ??= error;
  };
  client.on('error', notice);
  let committing = false;
  try {
    await client.query('BEGIN');
    const done = await work(client);
    committing = true;
    const { command } = await client.query('COMMIT');
    // So it answers for a transaction that had failed before.
    if (command !== 'COMMIT') throw new Error(`the server answered COMMIT with ${command}`);
    return done;
  } catch (error) {
    if (isCut(error)) {
      notice(error as Error);
      if (committing) cutAtCommit();
    } else {
      await client.query('ROLLBACK').catch(notice);
    }
    throw error;
  } finally {
    client.release(broken);
    client.off('error', notice);
  }
}
