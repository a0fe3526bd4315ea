/**
 * toulbar2 (Debian package `toulbar2`; cost function networks, branch and bound): lists every assignment of a network
 * with its cost at twelve digits, and brackets the log of the evidence. `node scripts/run-ts.mjs
 * test/reference/toulbar2-answers.ts` asks it and writes the fixtures; the tests compare with these and, where the
 * program is installed, ask it again.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { evidenceTextOf, type Network, uaiOf } from './diagnosis-networks.ts';

export interface Answers {
  readonly network: string;
  readonly version: string;
  /** As typed, in a folder with the two files. */
  readonly commands: readonly string[];
  /** Each assignment and its cost: −log of its weight against that of the largest entries of all tables, 1e-12 nats. */
  readonly solutions: readonly (readonly [values: string, cost: number])[];
  /** Log of the evidence as printed, nats, three digits. */
  readonly logEvidence: readonly [number, number];
}

function run(folder: string, args: readonly string[]): string {
  const { stdout, error, status } = spawnSync('toulbar2', args, {
    cwd: folder,
    encoding: 'utf8',
    timeout: 60_000,
  });
  if (error) throw error;
  if (status !== 0 && status !== null && stdout === '') throw new Error(`toulbar2 ended with ${status}`);
  return stdout;
}

/** Whether the program is on the PATH. */
export function hasToulbar2(): boolean {
  return !spawnSync('toulbar2', ['--help'], { encoding: 'utf8' }).error;
}

/** Asks the program about a network. */
export function askToulbar2(network: Network): Answers {
  const folder = mkdtempSync(join(tmpdir(), 'network-'));
  try {
    const name = `${network.name}.uai`;
    writeFileSync(join(folder, name), uaiOf(network));
    writeFileSync(join(folder, `${name}.evid`), evidenceTextOf(network));
    const every = [name, `${name}.evid`, '-precision=12', '-a', '-s=1'];
    const sum = [name, `${name}.evid`, '-precision=12', '-logz'];
    const listed = run(folder, every);
    const solutions = [...listed.matchAll(/solution\((\d+)\):\s+([\d ]+)/g)].map(
      ([, cost, values]) => [values!.trim(), Number(cost) * 1e-12] as const,
    );
    const counted = /Number of solutions\s*: =\s+(\d+)/.exec(listed)?.[1];
    if (Number(counted) !== solutions.length)
      throw new Error(`toulbar2 counted ${counted} solutions and showed ${solutions.length}`);
    const bounds = /(\S+) <= Log\(Z\) <= (\S+)/.exec(run(folder, sum));
    if (!bounds) throw new Error('toulbar2 printed no Log(Z)');
    return {
      network: network.name,
      version: /version : (\S+)/.exec(listed)?.[1] ?? 'unknown',
      commands: [every, sum].map((args) => `toulbar2 ${args.join(' ')}`),
      solutions: solutions.toSorted(([a], [b]) => a.localeCompare(b)),
      logEvidence: [Number(bounds[1]), Number(bounds[2])],
    };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
