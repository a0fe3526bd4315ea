/**
 * Kills a writer with SIGKILL again and again, and counts events that the store had answered for and then lacks, and
 * batches of which only a part is there. By hand: `npm run crash -- 200`. What it cannot try is a loss of power: that
 * rests on the flush that the store sets and reads back when it opens.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const STORE = here('../../dist/disk/sqlite-store.js');
const STAMP = here('../../dist/job/stamp.js');

/**
 * @param {{ rounds: number, manner?: 'honest' | 'early', seed?: number, say?: (line: string) => void }} options
 * @returns {Promise<{ rounds: number, answered: number, kept: number, lost: string[], torn: string[] }>}
 */
export async function killWriters({ rounds, manner = 'honest', seed = 1, say = () => {} }) {
  if (!existsSync(STORE)) throw new Error(`${STORE} is missing: run "npx tsc -b src/disk" first`);
  const { openSqliteStore } = await import(pathToFileURL(STORE).href);
  const folder = mkdtempSync(join(tmpdir(), 'chargewright-crash-'));
  const file = join(folder, 'garage.sqlite');
  const answered = [];
  let kept = new Map();
  let random = seed;
  try {
    for (let round = 0; round < rounds; round += 1) {
      random = (random * 48271) % 2147483647;
      answered.push(...(await writeAndKill(file, round, manner, random % 250)));
      // Opening checks the whole file and throws when the kill has damaged it.
      const store = openSqliteStore(file);
      kept = new Map((await store.since('crash', 0)).map(({ event }) => [event.id, event.text]));
      await store.close();
      say(`round ${round + 1}: ${answered.length} answered so far, ${kept.size} in the store`);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return {
    rounds,
    answered: answered.length,
    kept: kept.size,
    lost: answered.filter((id) => !kept.has(id)),
    torn: tornBatches([...kept.values()]),
  };
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

/** One writer, killed `delay` ms after its first answer; the ids it was answered for. */
function writeAndKill(file, round, manner, delay) {
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, [here('./writer.mjs'), STORE, STAMP, file, String(round), manner], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let text = '';
    let timer = null;
    child.stdout.setEncoding('utf8');
    child.stdout.on('data', (chunk) => {
      text += chunk;
      timer ??= setTimeout(() => child.kill('SIGKILL'), delay);
    });
    child.on('error', fail);
    child.on('close', (code, signal) => {
      clearTimeout(timer);
      if (signal !== 'SIGKILL') return fail(new Error(`the writer ended by itself with code ${code}`));
      // A line that was cut off was not said to the end, so nobody can have relied on it.
      const lines = text.slice(0, text.lastIndexOf('\n') + 1).split('\n');
      done(lines.flatMap((line) => line.split(' ')).filter((id) => id !== ''));
    });
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const rounds = Number(process.argv[2] ?? 100);
  if (!Number.isInteger(rounds) || rounds < 1) {
    console.error('How often to kill must be a whole number from 1, as in: npm run crash -- 200');
    process.exit(2);
  }
  const result = await killWriters({ rounds, say: (line) => console.log(line) });
  const { answered, kept, lost, torn } = result;
  console.log(
    `${rounds} kills, ${answered} events answered, ${kept} kept, ${lost.length} lost, ${torn.length} batches torn`,
  );
  process.exitCode = lost.length + torn.length > 0 ? 1 : 0;
}
