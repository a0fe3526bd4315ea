/** Compiles the rooms and bundles the app into dist, when their sources have changed since the last time. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, runTool, Stop, say } from './run.mjs';

const STAMP = join(ROOT, 'dist', '.built');
/** What every start of the built program needs to find. */
const NEEDED = ['dist/serve/main.js', 'dist/app/index.html'];
const AROUND = ['package-lock.json', 'tsconfig.json', 'tsconfig.base.json', 'vite.config.ts'];

export function compile() {
  return runTool('typescript/bin/tsc', ['-b']);
}

export function bundle(options) {
  return runTool('vite/bin/vite.js', ['build', '--logLevel', 'warn'], options);
}

/** Throws Stop when something does not compile. */
export function ensureBuilt() {
  const wanted = fingerprint();
  const there = NEEDED.every((path) => existsSync(join(ROOT, path)));
  if (there && existsSync(STAMP) && readFileSync(STAMP, 'utf8') === wanted) return;
  say('Building …');
  if (!compile())
    throw new Stop(
      'The sources do not compile; what is above says where. Undo the last change, then try again.',
    );
  if (!bundle())
    throw new Stop(
      'The app could not be bundled; what is above says why. Undo the last change, then try again.',
    );
  mkdirSync(join(ROOT, 'dist'), { recursive: true });
  writeFileSync(STAMP, wanted);
}

/** Content, not times: a fresh clone has new times, and an undone change has the old content. */
function fingerprint() {
  const hash = createHash('sha256');
  const sources = readdirSync(join(ROOT, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name));
  for (const path of [...sources.sort(), ...AROUND.map((name) => join(ROOT, name))]) {
    if (existsSync(path)) hash.update(`${path}\0`).update(readFileSync(path)).update('\0');
  }
  return hash.digest('hex');
}
