/** Starts other programs, and installs Debian packages where this user may. Only node's own modules: nothing is installed yet. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Folder of the package. */
export const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** Something that a person has to put right; its message is shown without a stack. */
export class Stop extends Error {}

let stdio = 'inherit';

/** From now on what is said while installing and building goes to standard error. */
export function toStderr() {
  stdio = ['inherit', 2, 2];
  say = console.error;
}

/** Tells the person at the keyboard what takes long. */
export let say = console.log;

/** Runs a program with its output passed on; true when it ended with 0. */
export function run(command, args, options = {}) {
  return spawnSync(command, args, { cwd: ROOT, stdio, ...options }).status === 0;
}

/** Runs a program silently; its output, or null when it did not end with 0. */
export function ask(command, args, options = {}) {
  const { status, stdout } = spawnSync(command, args, {
    cwd: ROOT,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
    ...options,
  });
  return status === 0 ? stdout : null;
}

/** Runs a script of an installed package with this very node. */
export function runTool(script, args, options) {
  return run(process.execPath, [join(ROOT, 'node_modules', script), ...args], options);
}

export function runNpm(args) {
  // Inside "npm start" npm says where it lies; that also spares Windows its npm.cmd.
  const npm = process.env.npm_execpath;
  return npm?.endsWith('.js')
    ? run(process.execPath, [npm, ...args])
    : run('npm', args, { shell: process.platform === 'win32' });
}

/** Path of the first of these programs that is on PATH, or null. */
export function onPath(names) {
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  for (const name of names) {
    const found = folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
    if (found) return found;
  }
  return null;
}

/** Whether we run where no person watches; CI systems set CI. */
export const inCi = !['', '0', 'false', undefined].includes(process.env.CI?.toLowerCase());

/** How to become root without asking anybody: nothing to put before, `sudo -n`, or null when there is no way. */
function rootPrefix() {
  if (process.getuid?.() === 0) return [];
  return onPath(['sudo']) && ask('sudo', ['-n', 'true']) !== null ? ['sudo', '-n'] : null;
}

/**
 * Installs Debian packages where that needs no password; true when it was done.
 * @param {string[]} packages
 * @param {{ sudo: boolean }} how `sudo: false` = only where we are root already
 */
export function installDebian(packages, { sudo }) {
  const prefix = onPath(['apt-get']) ? rootPrefix() : null;
  if (prefix === null || (prefix.length > 0 && !sudo)) return false;
  say(`Installing ${packages.join(', ')} with apt-get …`);
  const apt = (args) => {
    const [command, ...rest] = [
      ...prefix,
      'env',
      'DEBIAN_FRONTEND=noninteractive',
      'apt-get',
      '-qq',
      ...args,
    ];
    // Their talk goes to stderr: on stdout the last line of a test run is read by programs.
    return run(command, rest, { stdio: ['ignore', 2, 2] });
  };
  // Where the lists are fresh already, a failing update need not stop us.
  apt(['update']);
  return apt(['install', '-y', '--no-install-recommends', ...packages]);
}
