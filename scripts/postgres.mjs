/**
 * A PostgreSQL server of the tests' own, from Debian's package: a cluster in a folder that is thrown away, reached by a
 * socket in it, with its promises as in earnest. Installed where it is missing and this user may.
 */
import { spawnSync } from 'node:child_process';
import { chmodSync, chownSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ask, installDebian, say } from './run.mjs';

const HOME = '/usr/lib/postgresql';

function programs() {
  if (!existsSync(HOME)) return null;
  const versions = readdirSync(HOME).sort((a, b) => Number(b) - Number(a));
  return (
    versions.map((version) => join(HOME, version, 'bin')).find((bin) => existsSync(join(bin, 'initdb'))) ??
    null
  );
}

/**
 * Starts it; `{ url, stop, kill, start }`, or null with the reason said where it cannot be had. `kill` ends it as the loss
 * of its computer would, by SIGKILL: the postmaster alone, or all its processes; `start` starts it anew.
 */
export function startPostgres() {
  let bin = programs();
  if (bin === null && process.platform === 'linux' && installDebian(['postgresql'], { sudo: true }))
    bin = programs();
  if (bin === null) return null;
  const folder = mkdtempSync(join(tmpdir(), 'chargewright-pg-'));
  const data = join(folder, 'data');
  const root = process.getuid?.() === 0;
  // The server refuses to run as root: the package brings a user for it.
  const as = (program, args) => {
    const command = root ? 'runuser' : join(bin, program);
    const all = root ? ['-u', 'postgres', '--', join(bin, program), ...args] : args;
    const { status, stderr } = spawnSync(command, all, {
      cwd: folder,
      encoding: 'utf8',
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    if (status !== 0) say(`postgres: ${program} ended with ${status}: ${stderr}`);
    return status === 0;
  };
  if (root) {
    chownSync(folder, Number(ask('id', ['-u', 'postgres'])), Number(ask('id', ['-g', 'postgres'])));
  }
  chmodSync(folder, 0o755);
  const stop = () => {
    if (existsSync(join(data, 'postmaster.pid'))) as('pg_ctl', ['-D', data, '-m', 'immediate', 'stop']);
    rmSync(folder, { recursive: true, force: true });
  };
  const made = as('initdb', ['-D', data, '-U', 'postgres', '--auth=trust', '--encoding=UTF8', '--locale=C']);
  const start = () =>
    as('pg_ctl', [
      '-D',
      data,
      '-w',
      '-l',
      join(folder, 'log'),
      '-o',
      `-k ${folder} -c listen_addresses=''`,
      'start',
    ]);
  const kill = (all) => {
    const postmaster = Number(readFileSync(join(data, 'postmaster.pid'), 'utf8').split('\n')[0]);
    const children = childrenOf(postmaster);
    process.kill(postmaster, 'SIGKILL');
    if (all) for (const child of children) endNow(child);
    // What survives its postmaster notices and goes; only then may another be started on the same files.
    const patience = Date.now() + 30_000;
    while ([postmaster, ...children].some(runs)) {
      if (Date.now() > patience) for (const child of children) endNow(child);
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
    }
    // In a container nobody may fetch the dead, and the next one would take this number for a server that runs.
    for (const lock of [join(data, 'postmaster.pid'), join(folder, '.s.PGSQL.5432.lock')])
      rmSync(lock, { force: true });
  };
  if (!made || !start()) {
    stop();
    return null;
  }
  const url = `postgres://postgres@localhost/postgres?host=${encodeURIComponent(folder)}`;
  return { url, stop, kill, start };
}

/** Its own processes, by the number of their parent. */
function childrenOf(parent) {
  const found = ask('ps', ['-o', 'pid=', '--ppid', String(parent)]) ?? '';
  return found.split('\n').map(Number).filter(Boolean);
}

function endNow(pid) {
  try {
    process.kill(pid, 'SIGKILL');
  } catch (error) {
    if (error.code !== 'ESRCH') throw error;
  }
}

/** Whether it runs still; one that ended and waits to be fetched by its parent does not. */
function runs(pid) {
  const state = ask('ps', ['-o', 'stat=', '-p', String(pid)]);
  return state !== null && !state.trim().startsWith('Z');
}
