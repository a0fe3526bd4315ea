/** Installs what package-lock.json names, when it is not there already, and makes sure that SQLite's native part was built. */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ask, installDebian, ROOT, runNpm, Stop, say } from './run.mjs';

const LOCK = join(ROOT, 'package-lock.json');
const STAMP = join(ROOT, 'node_modules', '.chargewright-installed');
/** What node-gyp needs to build better-sqlite3 where no ready-made build can be fetched. */
const COMPILERS = ['python3', 'make', 'g++'];

/** Brings node_modules up to date. Throws Stop with what to do. */
export function ensureInstalled() {
  const wanted = fingerprint();
  if (existsSync(STAMP) && readFileSync(STAMP, 'utf8') === wanted && nativeWorks()) return;
  if (!(matchesLock() && nativeWorks())) install();
  writeFileSync(STAMP, wanted);
}

/** The lock file, and what a native module depends on. */
function fingerprint() {
  const lock = createHash('sha256').update(readFileSync(LOCK)).digest('hex');
  return `${lock} ${process.platform} ${process.arch} modules ${process.versions.modules}\n`;
}

/** Whether somebody has installed exactly these versions by hand; npm writes down what it put where. */
function matchesLock() {
  const installed = join(ROOT, 'node_modules', '.package-lock.json');
  if (!existsSync(installed)) return false;
  const wanted = JSON.parse(readFileSync(LOCK, 'utf8')).packages;
  const there = JSON.parse(readFileSync(installed, 'utf8')).packages;
  return Object.entries(wanted).every(([path, { version, optional }]) => {
    if (path === '') return true;
    return there[path] ? there[path].version === version && existsSync(join(ROOT, path)) : optional === true;
  });
}

/** Tried in a process of its own: a module built for another node can take the whole process down. */
function nativeWorks() {
  return ask(process.execPath, ['-e', "new (require('better-sqlite3'))(':memory:').close()"]) !== null;
}

function install() {
  say('Installing the packages Chargewright is built from; the first time this takes a few minutes …');
  const installed = runNpm(['ci', '--no-fund', '--no-audit', '--loglevel=error']);
  if (installed && nativeWorks()) return;
  // npm may be set not to run install scripts; asked for by name, it does.
  if (installed && rebuild()) return;
  if (installDebian(COMPILERS, { sudo: false })) {
    const again = installed || runNpm(['ci', '--no-fund', '--no-audit', '--loglevel=error']);
    if (again && (nativeWorks() || rebuild())) return;
  }
  throw new Stop(
    installed
      ? 'The native part of better-sqlite3 could not be built. It needs python3, make and a C++ compiler (on Debian or Ubuntu: apt-get install python3 make g++; on macOS: xcode-select --install). Install them, then try again.'
      : 'npm could not install the packages; its own words are above. If it is the network, try again later; if it is a compiler, install python3, make and g++, then try again.',
  );
}

function rebuild() {
  return runNpm(['rebuild', 'better-sqlite3', '--ignore-scripts=false', '--loglevel=error']) && nativeWorks();
}
