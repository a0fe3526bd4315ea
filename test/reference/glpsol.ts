/**
 * glpsol (Debian package `glpk-utils`; linear and integer programming): the cheapest strip-down as an integer program
 * of its own, with a number for each fact that says when it comes, so that nothing is freed by what it frees.
 * `node scripts/run-ts.mjs test/reference/glpsol-answers.ts` asks it and writes the fixture; the test compares with
 * that and, where the program is on the PATH, asks it again.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { StripDown } from '../../src/way/strip-down.ts';

/** The integer program in CPLEX LP format, which glpsol reads. */
export function programOf({ facts, start, goals, moves }: StripDown): string {
  const holds = new Set(start);
  const late = facts.length + 1;
  const rows: string[] = [];
  const binary = new Set<string>(moves.map((_, a) => `x${a}`));
  const giving = (a: number) => moves[a]!.gives.filter((g) => !holds.has(g) && !moves[a]!.needs.includes(g));
  facts.forEach((_, g) => {
    if (holds.has(g)) return;
    const by = moves.flatMap((_, a) => (giving(a).includes(g) ? [a] : []));
    rows.push(`z${g} ${by.map((a) => `- y${a}_${g}`).join(' ')} <= 0`);
    for (const a of new Set(by)) {
      binary.add(`y${a}_${g}`);
      rows.push(`y${a}_${g} - x${a} <= 0`);
      for (const f of new Set(moves[a]!.needs))
        if (!holds.has(f)) rows.push(`t${g} - t${f} - ${late} y${a}_${g} >= ${1 - late}`);
    }
  });
  moves.forEach(({ needs }, a) => {
    for (const f of new Set(needs)) if (!holds.has(f)) rows.push(`x${a} - z${f} <= 0`);
  });
  for (const g of new Set(goals)) if (!holds.has(g)) rows.push(`z${g} >= 1`);
  return [
    'minimize',
    `cost: ${moves.map(({ cost }, a) => `${cost} x${a}`).join('\n + ')}`,
    'subject to',
    ...rows,
    'bounds',
    ...facts.map((_, g) => `0 <= t${g} <= ${late}`),
    'binary',
    ...binary,
    'end',
    '',
  ].join('\n');
}

/** Version line of glpsol; null where it is not on the PATH. */
export function versionOfGlpsol(): string | null {
  const { error, stdout } = spawnSync('glpsol', ['--version'], { encoding: 'utf8' });
  return error ? null : (stdout.split('\n')[0] ?? '');
}

/** Its least cost, whether it proved it, and its own time, seconds; null when it says that there is no way. */
export function askGlpsol(
  problem: StripDown,
  seconds: number,
): { readonly cost: number | null; readonly proved: boolean; readonly seconds: number } {
  const folder = mkdtempSync(join(tmpdir(), 'strip-'));
  try {
    const [program, answer] = [join(folder, 'strip.lp'), join(folder, 'strip.txt')];
    writeFileSync(program, programOf(problem));
    const args = ['--lp', program, '--cuts', '--tmlim', String(seconds), '-w', answer];
    const { stdout, error } = spawnSync('glpsol', args, { encoding: 'utf8', maxBuffer: 2 ** 26 });
    if (error) throw error;
    const used = Number(/Time used:\s*([\d.]+)/.exec(stdout)?.[1] ?? Number.NaN);
    if (/NO (?:PRIMAL |INTEGER )?FEASIBLE SOLUTION/.test(stdout))
      return { cost: null, proved: true, seconds: used };
    const line = /^s mip \d+ \d+ (\w) (\S+)$/m.exec(readFileSync(answer, 'utf8'));
    if (line === null) throw new Error(`glpsol gave no answer: ${stdout.slice(-300)}`);
    const [, status, cost] = line;
    return { cost: Number(cost), proved: status === 'o', seconds: used };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
