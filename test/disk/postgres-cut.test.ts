/**
 * Connections to PostgreSQL cut in mid-work: the program goes on, nothing that was answered is lost, nothing is held twice.
 * A real server, its backends ended by `pg_terminate_backend` again and again (PostgreSQL's documentation, "Server Signaling
 * Functions"). CUTS is the number of batches, PACE the least time between two cuts, ms.
 */
import pg from 'pg';
import { describe, expect, test } from 'vitest';
import { openPostgresStore } from '../../src/disk/postgres-store.ts';
import type { JobEvent } from '../../src/job/event.ts';
import { writeEvent } from '../../src/job/stamp.ts';

const server = process.env.TEST_POSTGRES ?? '';
const BATCHES = Number(process.env.CUTS ?? 300);
const EACH = 5;
/** Least time between two cuts, ms. */
const PACE_MS = Number(process.env.PACE ?? 5);

describe.skipIf(server === '')('connections cut in mid-append', { timeout: 60_000 + 500 * BATCHES }, () => {
  test('end no program, lose nothing answered, and hold nothing twice', async () => {
    const uncaught: unknown[] = [];
    const note = (fault: unknown): void => {
      uncaught.push(fault);
    };
    process.on('uncaughtException', note);
    // A database of its own: other tests' connections to this server are theirs.
    const name = `cut_${process.pid}`;
    const admin = new pg.Client({ connectionString: server });
    await admin.connect();
    await admin.query(`CREATE DATABASE ${name} TEMPLATE template0`);
    const url = server.replace('/postgres?', `/${name}?`);
    const store = await openPostgresStore(url);
    const killer = new pg.Client({ connectionString: url });
    await killer.connect();
    let [open, cuts] = [true, 0];
    const cutting = (async () => {
      for (let n = 0; open; n++) {
        const { rowCount } = await killer.query(
          'SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE pid <> pg_backend_pid() AND datname = current_database()',
        );
        cuts += rowCount ?? 0;
        await new Promise((done) => setTimeout(done, PACE_MS + ((37 * n) % 90)));
      }
    })();
    const job = `cut-${Date.now().toString(36)}`;
    let last: string | null = null;
    const events: JobEvent[] = [];
    let refused = 0;
    for (let n = 0; n < BATCHES; n++) {
      const batch = Array.from({ length: EACH }, (_, k) => {
        const event = writeEvent(
          { job, who: '', device: 'cut' },
          { type: 'noteAdded', text: `${n} ${k}` },
          last,
          Date.UTC(2026, 0, 17) + n,
        );
        last = event.id;
        return event;
      });
      events.push(...batch);
      // Refused in a sentence, it is sent again, as a device does; what was kept after all is then a duplicate.
      for (let tries = 0; ; tries++) {
        if (tries > 200) throw new Error('the store takes nothing any more');
        const answer = await store.append(batch).catch((fault: Error) => fault);
        if (!(answer instanceof Error)) break;
        expect(answer.message).toMatch(/store/);
        refused += 1;
      }
      // Reads take connections too, and are cut as writes are.
      await store.count(job).catch((fault: Error) => expect(fault.message).toMatch(/store/));
    }
    open = false;
    await cutting;
    await killer.end();
    const held = (await store.since(job, 0)).map(({ event }) => event);
    await store.close();
    await admin.query(`DROP DATABASE ${name} WITH (FORCE)`);
    await admin.end();
    process.off('uncaughtException', note);
    console.log(`${cuts} connections cut, ${BATCHES} batches answered, ${refused} refused and sent again`);
    expect(uncaught).toEqual([]);
    expect(cuts).toBeGreaterThan(5);
    expect(held).toEqual(events);
  });
});
