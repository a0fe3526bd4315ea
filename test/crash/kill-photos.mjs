/**
 * Kills a writer of photographs with SIGKILL again and again, and counts pictures that the shelf had answered for and then lacks,
 * files that are not whole, and drafts that are still there after the next start.
 * More of them, by hand: `KILLS=100 npx vitest run test/crash/kill-photos.test.ts`.
 */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const SHELF = here('../../dist/disk/photo-shelf.js');

/**
 * @param {{ rounds: number, square: Uint8Array, manner?: 'honest' | 'torn', seed?: number }} options
 * @returns {Promise<{ answered: number, kept: number, lost: string[], torn: string[], drafts: number, left: string[] }>}
 *   `drafts`: how many a kill left behind; `left`: those of them that the next start did not clear away.
 */
export async function killPhotoWriters({ rounds, square, manner = 'honest', seed = 1 }) {
  if (!existsSync(SHELF)) throw new Error(`${SHELF} is missing: run "npx tsc -b src/disk" first`);
  const { openPhotoShelf } = await import(pathToFileURL(SHELF).href);
  const home = mkdtempSync(join(tmpdir(), 'chargewright-crash-photos-'));
  const folder = join(home, 'photos');
  const file = join(home, 'square.jpg');
  writeFileSync(file, square);
  const files = () =>
    readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const [answered, lost, torn, left] = [[], [], new Set(), []];
  let [random, drafts, kept] = [seed, 0, 0];
  try {
    for (let round = 0; round < rounds; round += 1) {
      random = (random * 48271) % 2147483647;
      answered.push(...(await writeAndKill(folder, file, round, manner, random % 120)));
      drafts += files().filter(({ name }) => name.endsWith('.part')).length;
      const shelf = await openPhotoShelf(folder);
      const names = files();
      left.push(...names.filter(({ name }) => name.endsWith('.part')).map(({ name }) => name));
      const photos = names.filter(({ name }) => name.endsWith('.jpg'));
      kept = photos.length;
      for (const { parentPath, name } of photos) {
        const sum = createHash('sha256')
          .update(readFileSync(join(parentPath, name)))
          .digest('hex');
        if (`${sum}.jpg` !== name) torn.add(name);
      }
      for (const photo of answered) if (!(await shelf.get(photo)).ok) lost.push(photo);
    }
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
  return { answered: answered.length, kept, lost, torn: [...torn], drafts, left };
}

/** One writer, killed `delay` ms after its first answer; the pictures it was answered for. */
function writeAndKill(folder, file, round, manner, delay) {
  return new Promise((done, fail) => {
    const args = [here('./photo-writer.mjs'), SHELF, folder, file, String(round), manner];
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
    let text = '';
    let timer = null;
    child.stdout.setEncoding('utf8').on('data', (chunk) => {
      text += chunk;
      timer ??= setTimeout(() => child.kill('SIGKILL'), delay);
    });
    child.on('error', fail);
    child.on('close', (code, signal) => {
      clearTimeout(timer);
      if (signal !== 'SIGKILL') return fail(new Error(`the writer ended by itself with code ${code}`));
      done(
        text
          .slice(0, text.lastIndexOf('\n') + 1)
          .split('\n')
          .filter((line) => line !== ''),
      );
    });
  });
}
