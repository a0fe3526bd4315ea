/**
 * Kills a PostgreSQL server with SIGKILL in mid-write and starts it again, over and over, while one store that is never
 * opened anew writes to it; then counts events that were answered and are lacking, events held twice, and torn batches.
 * By hand: `npm run crash-postgres -- 50`. Every second time the postmaster alone is killed, else all its processes.
 */
import { existsSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { startPostgres } from '../../scripts/postgres.mjs';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const STORE = here('../../dist/disk/postgres-store.js');
const STAMP = here('../../dist/job/stamp.js');
const FAULT = here('../../dist/disk/fault.js');

/**
 * `early`: answers before the store has; such a writer must be caught, to show that the count can find a loss.
 * @param {{ rounds: number, manner?: 'honest' | 'early', seed?: number, say?: (line: string) => void }} options
 * @returns {Promise<null | { rounds: number, answered: number, kept: number, refused: number, again: number, lost: string[], twice: number, torn: string[], faults: string[] }>} null where no server can be had
 */
export async function killServers({ rounds, manner = 'honest', seed = 1, say = () => {} }) {
  if (!existsSync(STORE)) throw new Error(`${STORE} is missing: run "npx tsc -b src/disk" first`);
  const { openPostgresStore } = await import(pathToFileURL(STORE).href);
  const { StoreFault } = await import(pathToFileURL(FAULT).href);
  const { writeEvent } = await import(pathToFileURL(STAMP).href);
  const server = startPostgres();
  if (server === null) return null;
  const answered = [];
  const faults = [];
  let [refused, again, random] = [0, 0, seed];
  let [writing, over] = [true, false];
  let writer = Promise.resolve();
  try {
    const store = await openPostgresStore(server.url);
    const write = async () => {
      let last = null;
      for (let batch = 0; writing; batch += 1) {
        const size = 1 + (batch % 5);
        const events = [];
        for (let n = 0; n < size; n += 1) {
          const text = `${batch} ${n + 1} of ${size}`;
          const event = writeEvent(
            { job: 'crash', who: 'writer', device: 'one' },
            { type: 'noteAdded', text },
            last,
            Date.now(),
          );
          last = event.id;
          events.push(event);
        }
        const ids = events.map(({ id }) => id);
        if (manner === 'early') answered.push(...ids);
        for (let sent = 0; ; sent += 1) {
          try {
            const answer = await store.append(events);
            if (!answer.ok) throw new Error(answer.why);
            if (manner !== 'early') answered.push(...ids);
            break;
          } catch (error) {
            if (!(error instanceof StoreFault)) throw error;
            refused += 1;
            if (sent === 0) again += 1;
            if (!faults.includes(error.message)) faults.push(error.message);
            if (manner === 'early' || over) break;
            await new Promise((done) => setTimeout(done, 50));
          }
        }
      }
    };
    writer = write();
    // Looked at when it is awaited below.
    writer.catch(() => undefined);
    for (let round = 0; round < rounds; round += 1) {
      random = (random * 48271) % 2147483647;
      const before = answered.length;
      while (answered.length === before && writing) {
        await new Promise((done) => setTimeout(done, random % 150));
        await Promise.race([writer, new Promise((done) => setTimeout(done, 5))]);
      }
      server.kill(round % 2 === 1);
      // Now and then away for longer than the store asks again by itself.
      if (manner === 'early' || round % 4 === 2) await new Promise((done) => setTimeout(done, 4500));
      else await new Promise((done) => setTimeout(done, random % 100));
      if (!server.start()) throw new Error('the server did not start again');
      say(`round ${round + 1}: ${answered.length} answered, ${refused} refused so far`);
    }
    await new Promise((done) => setTimeout(done, 100));
    writing = false;
    await writer;
    await store.close();
    const look = await openPostgresStore(server.url);
    const rows = (await look.since('crash', 0)).map(({ event }) => event);
    await look.close();
    const kept = new Set(rows.map(({ id }) => id));
    const lost = answered.filter((id) => !kept.has(id));
    const twice = rows.length - kept.size;
    const torn = tornBatches(rows.map(({ text }) => text));
    return {
      rounds,
      answered: answered.length,
      kept: kept.size,
      refused,
      again,
      lost,
      twice,
      torn,
      faults,
    };
  } finally {
    writing = false;
    over = true;
    await writer.catch(() => undefined);
    server.stop();
  }
}

/** Batches that are neither wholly there nor wholly absent, by the count each note carries. */
function tornBatches(notes) {
  const found = new Map();
  for (const note of notes) {
    const [batch, , , size] = note.split(' ');
    const key = `${batch} of ${size}`;
    found.set(key, (found.get(key) ?? 0) + 1);
  }
  return [...found].filter(([key, count]) => count !== Number(key.split(' ').at(-1))).map(([key]) => key);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const rounds = Number(process.argv[2] ?? 20);
  if (!Number.isInteger(rounds) || rounds < 1) {
    console.error('How often to kill must be a whole number from 1, as in: npm run crash-postgres -- 50');
    process.exit(2);
  }
  const result = await killServers({ rounds, say: (line) => console.log(line) });
  if (result === null) {
    console.error("No PostgreSQL server could be started; install Debian's package postgresql.");
    process.exit(2);
  }
  const { answered, kept, refused, again, lost, twice, torn, faults } = result;
  for (const sentence of faults) console.log(`said: ${sentence}`);
  console.log(
    `${rounds} kills, ${answered} events answered, ${kept} kept, ${lost.length} lost, ${twice} twice, ${torn.length} batches torn; ${again} batches refused, sent again ${refused} times`,
  );
  process.exitCode = lost.length + twice + torn.length > 0 ? 1 : 0;
}
