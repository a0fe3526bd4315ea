/** Waits that others imply are left out and nothing starts sooner for it; a schedule below a time, or near the shortest. */
import { describe, expect, it } from 'vitest';
import { openStream } from '../../src/numbers/random.ts';
import { earliestStarts } from '../../src/way/longest-paths.ts';
import { neededLags, neededWaits, type Wait } from '../../src/way/needed-waits.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { randomJob, randomProject } from './random-project.ts';

/** Waits among tasks 0 … 11 in a shuffled order, some from the end, some from the start. */
function randomWaits(seed: number): { order: number[]; waits: Wait[] } {
  const random = openStream(seed);
  const order = Array.from({ length: 12 }, (_, i) => i);
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  const waits: Wait[] = [];
  order.forEach((from, a) => {
    for (const to of order.slice(a + 1))
      if (random() < 0.5)
        waits.push({ from, to, fromEnd: random() < 0.6, gap: random() < 0.7 ? 0 : Math.floor(9 * random()) });
  });
  return { order, waits };
}

function starts(order: readonly number[], waits: readonly Wait[], times: readonly number[]): number[] {
  const at = order.map(() => 0);
  for (const task of order)
    for (const { from, to, fromEnd, gap } of waits)
      if (to === task) at[task] = Math.max(at[task]!, at[from]! + (fromEnd ? times[from]! : 0) + gap);
  return at;
}

describe('needed waits', () => {
  it('start everything when all waits do, whatever each task takes', () => {
    let [all, kept] = [0, 0];
    for (let seed = 1; seed <= 200; seed++) {
      const { order, waits } = randomWaits(seed);
      const needed = neededWaits(order, waits);
      all += waits.length;
      kept += needed.length;
      const random = openStream(seed + 1000);
      for (let n = 0; n < 5; n++) {
        const times = order.map(() => (random() < 0.3 ? 0 : Math.floor(20 * random())));
        expect(starts(order, needed, times)).toEqual(starts(order, waits, times));
      }
    }
    expect(kept).toBeLessThan(0.6 * all);
  });

  it('are both kept where two tasks are tied to one moment, and so is what leads to them', () => {
    const lag = (from: number, to: number, least: number) => ({ from, to, least });
    const tied = [lag(1, 2, 0), lag(2, 1, 0), lag(0, 1, 5), lag(0, 2, 5)];
    const kept = neededLags(3, tied);
    expect(kept).toContainEqual(lag(1, 2, 0));
    expect(kept).toContainEqual(lag(2, 1, 0));
    expect(kept.some(({ from, least }) => from === 0 && least === 5)).toBe(true);
    expect(neededLags(2, [lag(0, 1, 3), lag(0, 1, 7), lag(1, 0, -9)])).toEqual([lag(0, 1, 7), lag(1, 0, -9)]);
  });
});

describe('a schedule that need not be the shortest', () => {
  it('ends below the time asked for, or there is none; and near enough will do', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const project = randomJob(seed, 20, seed % 2 ? 2 : 1);
      const best = scheduleProject(project);
      if (!best.ok) continue;
      expect(best.proved).toBe(true);
      const same = scheduleProject(project, { below: best.makespan + 1 });
      expect(same.ok && same.proved && same.makespan).toBe(best.makespan);
      expect(scheduleProject(project, { below: best.makespan })).toMatchObject({ ok: false, why: 'time' });
      const near = scheduleProject(project, { near: 10 });
      expect(near.ok && near.makespan - best.makespan).toBeLessThanOrEqual(10);
    }
    expect(() => scheduleProject(randomJob(1, 5, 1), { below: 0.5 })).toThrow('below must be a whole number');
  });

  it('is not denied where resources, windows and nights leave room for it, and begins nothing before its earliest start', () => {
    let tight = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const shape = { activities: 9, resources: 2, windows: 0.2, strength: 0.25 };
      const bare = randomProject(seed, shape);
      const tasks = bare.tasks.map((task, i) => ({ ...task, attended: i % 3 > 0 }));
      const shut = seed % 2 ? [12, 60, 108].map((from) => ({ from, to: from + 30 })) : [];
      const project = { ...bare, tasks, shut };
      const best = scheduleProject(project);
      if (!best.ok) continue;
      const early = earliestStarts(project);
      best.starts.forEach((start, i) => {
        expect(start).toBeGreaterThanOrEqual(early[i]!);
      });
      if (early.some((start, i) => start > 0 && start === best.starts[i])) tight += 1;
      const same = scheduleProject(project, { below: best.makespan + 1 });
      expect(same.ok && same.makespan).toBe(best.makespan);
      expect(scheduleProject(project, { below: best.makespan })).toMatchObject({ ok: false, why: 'time' });
    }
    expect(tight).toBeGreaterThan(20);
  });
});
