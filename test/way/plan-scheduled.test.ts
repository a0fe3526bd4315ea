import { expect, it } from 'vitest';
import { planJob } from '../../src/way/plan.ts';
import type { PlanRequest } from '../../src/way/plan-shape.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { plainSchedule } from './plain-schedule.ts';
import { randomWork } from './random-work.ts';
import { replayPlan } from './replay-plan.ts';
import { SMALL } from './small-work.ts';

it('plans laid out by the search that learns hold when replayed, and end when the plain search proves they can', () => {
  let same = 0;
  for (let seed = 0; seed < 60; seed++) {
    const work = seed === 0 ? SMALL : randomWork(seed);
    const shut = [
      { from: 100, to: 400 },
      { from: 700, to: 1000 },
    ];
    const targets = work.targets.map((t) => t.id);
    const ask: PlanRequest = { work, targets, people: 2, ways: 1, shut: seed % 2 ? shut : [] };
    const learned = planJob(ask, (project) => scheduleProject(project, { steps: 3000 }));
    const plain = planJob(ask, (project) => plainSchedule(project, 300));
    if (learned.ok) expect(replayPlan(learned.least, ask), `seed ${seed}`).toEqual([]);
    if (plain.ok) expect(learned.ok, `seed ${seed}`).toBe(true);
    if (!learned.ok || !plain.ok || !learned.least.ride.proved || !plain.least.ride.proved) continue;
    expect(learned.least.ride.at, `seed ${seed}`).toBe(plain.least.ride.at);
    same += 1;
  }
  expect(same).toBeGreaterThan(30);
});
