/**
 * Schedules against the world outside.
 *
 * - Own projects whose least times were proved by MiniZinc with Gecode (test/fixtures/schedule/README.md).
 * - The public set UBO10 of RCPSP/max (Schwindt 1998; Franck, Neumann and Schwindt 2001), 90 instances with re-proved
 *   optima. Its files are not ours and not in this project: they are looked for in CHARGEWRIGHT_RCPSP_MAX, or in a folder
 *   `data/rcpsp-max` beside the project. Where there are none, that is said and not run.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/way/check-schedule.ts';
import { readSch } from '../../src/way/sch-file.ts';
import { scheduleProject } from '../../src/way/schedule.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const OWN = join(ROOT, 'test/fixtures/schedule');

function beside(): string | null {
  const given = process.env.CHARGEWRIGHT_RCPSP_MAX;
  const places = given
    ? [given]
    : readdirSync(join(ROOT, '..'), { withFileTypes: true })
        .filter((entry) => entry.isDirectory())
        .map((entry) => join(ROOT, '..', entry.name, 'data/rcpsp-max'));
  return (
    places.map((place) => join(place, 'ubo10')).find((place) => existsSync(join(place, 'optimum.csv'))) ??
    null
  );
}

function optima(folder: string): readonly (readonly [file: string, least: string])[] {
  const lines = readFileSync(join(folder, 'optimum.csv'), 'utf8').trim().split(/\r?\n/).slice(1);
  return lines.map((line) => line.split(',') as [string, string]);
}

function decided(folder: string, file: string): string {
  const read = readSch(readFileSync(join(folder, file), 'utf8'));
  if (!read.ok) return read.why;
  const found = scheduleProject(read.project, { steps: 50_000 });
  if (!found.ok) return found.why === 'time' ? 'not decided' : 'infeasible';
  const wrong = checkSchedule(read.project, found.starts);
  if (wrong.length > 0) return wrong[0]!;
  return found.proved ? String(found.makespan) : `not proved, ${found.makespan}`;
}

describe('own projects, proved by MiniZinc with Gecode', () => {
  it.each(optima(OWN))('%s: %s', (file, least) => {
    expect(decided(OWN, file)).toBe(least);
  });
});

const ubo10 = beside();
describe.skipIf(ubo10 === null)(`UBO10${ubo10 === null ? ' (not run: its files are not here)' : ''}`, () => {
  it('all 90 instances are decided right, within 20 seconds together', () => {
    const all = optima(ubo10!);
    expect(all).toHaveLength(90);
    const start = performance.now();
    const wrong = all.flatMap(([file, least]) => {
      const got = decided(ubo10!, file);
      return got === least ? [] : [`${file}: ${least}, got ${got}`];
    });
    expect(wrong).toEqual([]);
    expect(performance.now() - start).toBeLessThan(20_000);
  });
});
