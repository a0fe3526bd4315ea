/** The clock of a plan: what is known to be seized, a helper who leaves, and windows counted as the file says. */
import { describe, expect, it } from 'vitest';
import { planJob } from '../../src/way/plan.ts';
import { planClock, uncertainOf } from '../../src/way/plan-clock.ts';
import type { PlanRequest } from '../../src/way/plan-shape.ts';
import { SMALL, step } from './small-work.ts';

const request: PlanRequest = { work: SMALL, targets: ['stator'], people: 1 };
const planOf = (more: Partial<PlanRequest>) => {
  const made = planJob({ ...request, ...more });
  if (!made.ok) throw new Error(made.says);
  return made.least;
};

describe('the clock of a plan', () => {
  it('reckons with what was found seized, as the plan does, and no longer with its chance', () => {
    // With the clutch and the chain left on there is no way round the seized adjuster: else the plan would go round it.
    const onlyWay = { leave: ['clutch off', 'chain off'] };
    const free = planOf({ ...onlyWay, stuck: [{ action: 'chain-loose', adds: 0 }] });
    const stuck = planOf({ ...onlyWay, stuck: [{ action: 'chain-loose', adds: 25 }] });
    const times = (plan: typeof stuck) => uncertainOf(plan, SMALL)[1 + plan.order.indexOf('chain-loose')]!;
    expect(times(stuck)).toEqual({ minutes: { low: 31, likely: 31, high: 31 } });
    expect(times(free)).toEqual({ minutes: { low: 6, likely: 6, high: 6 } });
    const ride = (plan: typeof stuck) => planClock(plan, SMALL, { pace: 0 }).p50;
    // Every time is sure, so the clock has what the plan has, whatever comes first.
    expect(ride(stuck)).toBe(stuck.ride.at);
    expect(ride(free)).toBe(free.ride.at);
    expect(stuck.ride.at).toBeGreaterThan(free.ride.at);
  });

  it('has one pair of hands less once the helper is gone', () => {
    // To the stator alone the bike has nothing for a second pair of hands that the drain and the cure do not hide.
    const targets = ['stator', 'clutch'];
    const both = planOf({ targets, people: 2 });
    const left = planOf({ targets, people: 2, helperGone: 30 });
    expect(both.ride.at).toBeLessThan(left.ride.at);
    expect([both.gone, left.gone]).toEqual([null, 30]);
    const sure = { ...SMALL, actions: SMALL.actions.map(({ seizes: _, ...action }) => action) };
    const ride = (plan: typeof both) => planClock(plan, sure, { pace: 0 }).p50;
    // As near as the plan's whole minutes, and the seizing it has in its mean, let it be.
    expect(Math.abs(ride(left) - left.ride.at)).toBeLessThanOrEqual(5);
    expect(ride(left)).toBeGreaterThan(ride(both));
  });

  it('misses a window that counts from the start as soon as the start is too far back', () => {
    const work = (from: 'start' | 'end') => ({
      ...SMALL,
      actions: SMALL.actions.map((action) =>
        action.id !== 'cover'
          ? action
          : {
              ...action,
              back: [
                step('cover-bead', 10, { minutes: { low: 10, likely: 10, high: 40 } }),
                step('cover-close', 5, { lags: [{ after: 'cover-bead', from, least: 0, most: 25 }] }),
              ],
            },
      ),
    });
    const chance = (from: 'start' | 'end') => {
      const made = planJob({ ...request, work: work(from) });
      if (!made.ok) throw new Error(made.says);
      return planClock(made.least, work(from), { pace: 0 }).missed[0]?.chance ?? 0;
    };
    // The bead is longer than 25 min in ((40 − 25)/30)² of the runs.
    expect(chance('start')).toBeCloseTo(0.25, 1);
    expect(chance('end')).toBe(0);
  });
});
