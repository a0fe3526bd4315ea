import { describe, expect, it } from 'vitest';
import { comparePlans } from '../../src/way/compare-plans.ts';
import { chainEnd, floats, handOvers } from '../../src/way/critical.ts';
import { planJob } from '../../src/way/plan.ts';
import type { Plan, PlanRequest } from '../../src/way/plan-shape.ts';
import { sayMinutes, sayTime } from '../../src/way/plan-words.ts';
import type { Project } from '../../src/way/project.ts';
import { layOut } from '../../src/way/to-project.ts';
import { plainSchedule } from './plain-schedule.ts';
import { replayPlan } from './replay-plan.ts';
import { SMALL } from './small-work.ts';

const ASK: PlanRequest = { work: SMALL, targets: ['stator'], people: 1 };

function planned(request: PlanRequest): Plan {
  const answer = planJob(request, plainSchedule);
  if (!answer.ok) throw new Error(answer.says);
  expect(replayPlan(answer.least, request)).toEqual([]);
  return answer.least;
}

describe('what changed', () => {
  it('is nothing between a plan and itself', () => {
    const plan = planned(ASK);
    const change = comparePlans(plan, plan);
    expect(change).toMatchObject({ added: [], dropped: [], moved: [], says: 'Nothing changes.' });
  });

  it('is what a second target adds, and reads backwards as what it drops', () => {
    const [one, two] = [planned(ASK), planned({ ...ASK, targets: ['stator', 'plug'] })];
    const there = comparePlans(one, two);
    const back = comparePlans(two, one);
    expect(there.added.map((s) => s.id)).toEqual(['plug-clean']);
    expect(back.dropped.map((s) => s.id)).toEqual(['plug-clean']);
    expect(there.work.after - there.work.before).toBe(7);
    expect(there.says).toContain('New: "Do plug-clean".');
    expect(there.says).toContain('7 min more work is left than planned.');
  });

  it('does not miss what is done', () => {
    const plan = planned(ASK);
    const none = { ...plan, steps: plan.steps.filter((s) => s.id !== 'guard') };
    expect(comparePlans(plan, none, new Set(['guard'])).dropped).toEqual([]);
    expect(comparePlans(plan, none).dropped.map((s) => s.id)).toEqual(['guard']);
  });
});

describe('several targets at once', () => {
  it('share what they have in common', () => {
    const [stator, clutch, both] = [['stator'], ['clutch'], ['stator', 'clutch']].map((targets) =>
      planned({ ...ASK, targets }),
    );
    // By hand: guard 9, drain 17, cover 42, clutch 30; with the clutch off the rotor comes by it for 24, not 53.
    expect(clutch!.work.minutes).toBe(98);
    expect(both!.work.minutes).toBe(122);
    expect(both!.work.minutes).toBeLessThan(stator!.work.minutes + clutch!.work.minutes);
  });
});

describe('a target more when all is half put back', () => {
  it('opens again what has been begun to be closed, and closes it afterwards', () => {
    const before = planned(ASK);
    const bead = before.steps.find((s) => s.id === 'cover-bead')!;
    const did = before.steps
      .filter((s) => s.end <= bead.end)
      .map(({ id, start, end }) => ({ id, start, end }));
    const request = { ...ASK, targets: ['stator', 'clutch'], now: { at: bead.end, did, facts: [] } };
    const plan = planned(request);
    expect(plan.actions).toContain('cover');
    expect(plan.actions).not.toContain('rotor');
    expect(plan.steps.filter((s) => s.id === 'cover-bead')).toHaveLength(1);
    expect(plan.steps.find((s) => s.id === 'cover-bead')!.start).toBeGreaterThan(bead.end);
  });
});

describe('floats', () => {
  const project: Project = {
    // Two chains of 10 + 5 and 4 with one pair of hands for a and c, the hand-over a → c or c → a decides.
    tasks: [
      { id: 'now', name: 'now', duration: 0, demand: [0], attended: false },
      { id: 'a', name: 'a', duration: 10, demand: [1], attended: true },
      { id: 'b', name: 'b', duration: 5, demand: [0], attended: false },
      { id: 'c', name: 'c', duration: 4, demand: [1], attended: true },
    ],
    lags: [{ from: 1, to: 2, least: 10 }],
    capacity: [1],
    resources: ['hands'],
    shut: [],
  };

  it('come from lags and hand-overs, worked by hand', () => {
    expect(handOvers(project, [0, 0, 10, 10])).toEqual([{ from: 1, to: 3, least: 10 }]);
    expect(floats(project, [0, 0, 10, 10], 15)).toEqual([0, 0, 0, 1]);
    expect(chainEnd(project)).toBe(15);
  });

  it('keep out of shut hours', () => {
    // c just fits before [14, 50), and after it would end at 54, later than 53; b needs nobody.
    const night = { ...project, shut: [{ from: 14, to: 50 }] };
    expect(floats(night, [0, 0, 10, 10], 53)).toEqual([0, 0, 38, 0]);
  });

  it('keep a window: what must follow within it cannot be left behind', () => {
    const tasks = project.tasks.map((t) => (t.id === 'c' ? { ...t, duration: 30 } : t));
    const windowed = { ...project, tasks, lags: [...project.lags, { from: 2, to: 1, least: -12 }] };
    // The end is 100: c starts by 70, a hands over by then and so starts by 60, b at most 12 after a by 72, not 95.
    expect(floats(windowed, [0, 0, 10, 10], 100)).toEqual([0, 60, 62, 60]);
  });
});

describe('a helper who leaves', () => {
  const task = (id: string, duration: number, hands: number) => ({
    id,
    name: id,
    duration,
    demand: [hands],
    attended: hands > 0,
  });
  const job = (...tasks: ReturnType<typeof task>[]): Project => ({
    tasks: [task('now', 0, 0), ...tasks],
    lags: [],
    capacity: [2],
    resources: ['hands'],
    shut: [],
  });

  it('is used for what takes two before going', () => {
    // Two hands for 10, then 20 and 20 alone: the helper's minutes from 10 to 15 are no use to a whole task of 20.
    const laid = layOut(job(task('pair', 10, 2), task('a', 20, 1), task('b', 20, 1)), 15, plainSchedule);
    expect(laid).toMatchObject({ ok: true, makespan: 50, bound: 50, proved: true });
  });

  it('does one task beside the other when there is time for it', () => {
    const laid = layOut(job(task('a', 20, 1), task('b', 20, 1), task('c', 20, 1)), 25, plainSchedule);
    expect(laid).toMatchObject({ ok: true, makespan: 40, proved: true });
  });

  it('does not help after that: a pair that comes too late has no order', () => {
    const late = { ...job(task('pair', 10, 2)), lags: [{ from: 0, to: 1, least: 30 }] };
    expect(layOut(late, 15, plainSchedule)).toMatchObject({ ok: false, why: 'resources' });
  });
});

describe('words', () => {
  it('tell hours and minutes', () => {
    expect([sayTime(0, 1080), sayTime(400, 1080), sayTime(-30, 0)]).toEqual([
      '18:00',
      '00:40 on day 2',
      '23:30 on day 0',
    ]);
    expect([sayMinutes(0.5), sayMinutes(9.96), sayMinutes(59.6), sayMinutes(125)]).toEqual([
      '0.5 min',
      '10 min',
      '1 h',
      '2 h 5 min',
    ]);
  });
});
