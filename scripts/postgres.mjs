/**
 * A PostgreSQL server of the tests' own, from Debian's package: a cluster in a folder that is thrown away, reached by a
 * socket in it, with its promises as in earnest. Installed where it is missing and this user may.
 */
import { spawnSync } from 'node:child_process';
import { chmodSync, chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
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

/** Starts it; `{ url, stop }`, or null with the reason said where it cannot be had. */
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
  const up =
    made &&
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
  if (!up) {
    stop();
    return null;
  }
  return { url: `postgres://postgres@localhost/postgres?host=${encodeURIComponent(folder)}`, stop };
}
