/** Orders of work at once, held against the full search, a checker and the trial of both orders of each pair. */
import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/way/check-schedule.ts';
import { openOrders } from '../../src/way/open-orders.ts';
import { promptly } from '../../src/way/prompt-schedule.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { randomJob, randomProject } from './random-project.ts';

describe('an order of work at once', () => {
  it('is one that works, and the shortest lies between its bound and it', () => {
    for (let seed = 0; seed < 12; seed++) {
      const project = randomJob(seed, 30, seed % 2 ? 2 : 1);
      const prompt = promptly()(project);
      const full = scheduleProject(project, { steps: 3000 });
      expect(prompt.ok && full.ok).toBe(true);
      if (!prompt.ok || !full.ok) continue;
      expect(checkSchedule(project, prompt.starts)).toEqual([]);
      expect(prompt.bound).toBeLessThanOrEqual(full.makespan);
      expect(prompt.makespan).toBeGreaterThanOrEqual(full.bound);
      if (prompt.proved) expect(prompt.makespan).toBe(full.makespan);
    }
  });
});

describe('orders that are open', () => {
  it('leaves out and forces none that a schedule could have', () => {
    let closed = 0;
    for (let seed = 0; seed < 40; seed++) {
      const project = randomProject(seed, { activities: 8, resources: 2, windows: 0.2, strength: 0.25 });
      const orders = openOrders(project);
      const found = scheduleProject(project);
      if (orders === null) {
        expect(found.ok).toBe(false);
        continue;
      }
      const open = new Set(orders.pairs.map(({ a, b }) => `${a} ${b}`));
      for (const { from, to } of orders.forced) {
        closed += 1;
        // The order that is not open, asked for all the same: no schedule has it.
        const { duration } = project.tasks[to]!;
        const other = { ...project, lags: [...project.lags, { from: to, to: from, least: duration }] };
        expect(scheduleProject(other).ok).toBe(false);
        expect(open.has(`${Math.min(from, to)} ${Math.max(from, to)}`)).toBe(false);
      }
    }
    expect(closed).toBeGreaterThan(10);
  });
});
