/**
 * Times the scheduler: the public set UBO10 where it is, own projects by size, jobs of forty steps on a bike, and a general
 * constraint solver (MiniZinc with Gecode, where Debian's package is installed) on the same files in the same run.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { checkSchedule } from '../../src/way/check-schedule.ts';
import type { Project } from '../../src/way/project.ts';
import { readSch } from '../../src/way/sch-file.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { randomJob, randomProject } from '../way/random-project.ts';

const OWN = 'test/fixtures/schedule';
const quantile = (list: readonly number[], share: number): number =>
  list.toSorted((a, b) => a - b)[Math.min(list.length - 1, Math.floor(share * list.length))]!;

function row(name: string, projects: readonly Project[], steps: number, milliseconds: number): number {
  const times: number[] = [];
  let proved = 0;
  let none = 0;
  for (const project of projects) {
    const start = performance.now();
    const until = start + milliseconds;
    const found = scheduleProject(project, { steps, tick: () => performance.now() < until });
    times.push(performance.now() - start);
    if (found.ok && found.proved) proved++;
    if (!found.ok && found.why !== 'time') none++;
    if (found.ok && checkSchedule(project, found.starts).length > 0)
      throw new Error(`${name}: a schedule is wrong`);
  }
  const ms = (value: number) => value.toFixed(value < 10 ? 1 : 0).padStart(7);
  console.log(
    `${name.padEnd(44)} ${ms(quantile(times, 0.5))} ${ms(quantile(times, 0.99))} ${ms(Math.max(...times))}  ${proved} proved, ${none} impossible, ${projects.length - proved - none} open`,
  );
  return times.reduce((a, b) => a + b, 0);
}

function files(folder: string): readonly Project[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.sch'))
    .map((name) => {
      const read = readSch(readFileSync(join(folder, name), 'utf8'));
      if (!read.ok) throw new Error(`${name}: ${read.why}`);
      return read.project;
    });
}

function dataOf({ tasks, lags, capacity }: Project): string {
  const horizon =
    tasks.reduce((sum, t) => sum + t.duration, 0) + lags.reduce((sum, l) => sum + Math.max(0, l.least), 0);
  const need = tasks.map((t) => t.demand.join(',')).join('|');
  const list = (of: readonly number[]) => `[${of.join(',')}]`;
  return `n=${tasks.length};R=${capacity.length};d=${list(tasks.map((t) => t.duration))};need=[|${need}|];cap=${list(capacity)};L=${lags.length};f=${list(lags.map((l) => l.from + 1))};t=${list(lags.map((l) => l.to + 1))};w=${list(lags.map((l) => l.least))};H=${horizon};`;
}

console.log(
  `${'schedules, ms on one core'.padEnd(44)} ${'p50'.padStart(7)} ${'p99'.padStart(7)} ${'max'.padStart(7)}`,
);
const beside = process.env.CHARGEWRIGHT_RCPSP_MAX
  ? [process.env.CHARGEWRIGHT_RCPSP_MAX]
  : readdirSync('..').map((name) => join('..', name, 'data/rcpsp-max'));
const ubo10 = beside.map((place) => join(place, 'ubo10')).find((place) => existsSync(place));
if (ubo10) console.log(`  together ${row('UBO10, 90 instances', files(ubo10), 1e9, 20_000).toFixed(0)} ms`);
else console.log('UBO10: not run, its files are not here');
for (const [size, count] of [
  [20, 60],
  [50, 40],
  [100, 20],
] as const) {
  const projects = Array.from({ length: count }, (_, seed) =>
    randomProject(seed, {
      activities: size,
      resources: 5,
      windows: [0.05, 0.1, 0.2][seed % 3]!,
      strength: [0, 0.25, 0.5][Math.floor(seed / 3) % 3]!,
    }),
  );
  row(`own projects of ${size}, at most 2 s each`, projects, 1e9, 2000);
}
for (const people of [1, 2] as const)
  row(
    `jobs of 40 steps, ${people} ${people === 1 ? 'person' : 'people'}, nights`,
    Array.from({ length: 200 }, (_, seed) => randomJob(seed, 40, people)),
    5000,
    1e9,
  );
const own = files(OWN);
const ours = row('own files', own, 1e9, 20_000);
if (spawnSync('minizinc', ['--version']).status === 0) {
  const folder = mkdtempSync(join(tmpdir(), 'chargewright-'));
  const start = performance.now();
  for (const project of own) {
    const data = join(folder, 'data.dzn');
    writeFileSync(data, dataOf(project));
    spawnSync('minizinc', ['--solver', 'gecode', '--time-limit', '20000', join(OWN, 'project.mzn'), data]);
  }
  const theirs = performance.now() - start;
  rmSync(folder, { recursive: true });
  console.log(
    `${'the same by MiniZinc with Gecode'.padEnd(44)} ${(theirs / ours).toFixed(0)} times as long, starting it counted in`,
  );
} else console.log('MiniZinc: not run, it is not installed');
