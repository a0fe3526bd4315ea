import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planJob } from '../../src/way/plan.ts';
import type { PlanRequest } from '../../src/way/plan-shape.ts';
import type { Project } from '../../src/way/project.ts';
import { replan } from '../../src/way/replan.ts';
import { givesAll } from '../../src/way/strip-problem.ts';
import { plainSchedule } from './plain-schedule.ts';
import { randomWork } from './random-work.ts';
import { replayPlan } from './replay-plan.ts';

const schedule = (project: Project) => plainSchedule(project, 150);

const request = fc.record({
  seed: fc.integer({ min: 1, max: 1e6 }),
  people: fc.constantFrom<1 | 2>(1, 2),
  night: fc.boolean(),
  late: fc.boolean(),
});

function asked({
  seed,
  people,
  night,
  late,
}: {
  seed: number;
  people: 1 | 2;
  night: boolean;
  late: boolean;
}) {
  const work = randomWork(seed);
  const all: PlanRequest = {
    work,
    targets: work.targets.map((t) => t.id),
    people,
    ways: 3,
    engine: { stoppedAt: -10, coolsIn: 60 },
    shut: night
      ? [
          { from: 100, to: 400 },
          { from: 700, to: 1000 },
        ]
      : [],
    arrivals: late ? [{ supply: 'part', at: 90 }] : [],
  };
  return all;
}

describe('plans of random works', () => {
  it('can be carried out', () => {
    let plans = 0;
    fc.assert(
      fc.property(request, (each) => {
        const ask = asked(each);
        const answer = planJob(ask, schedule);
        if (!answer.ok) {
          expect(['lags', 'resources', 'time']).toContain(answer.why);
          return;
        }
        plans += 1;
        expect(replayPlan(answer.least, ask)).toEqual([]);
        expect(replayPlan(answer.earliest, ask)).toEqual([]);
        expect(answer.earliest.ride.at).toBeLessThanOrEqual(answer.least.ride.at);
        expect(answer.earliest.work.minutes).toBeGreaterThanOrEqual(answer.least.work.bound);
      }),
      { numRuns: 120 },
    );
    expect(plans).toBeGreaterThan(60);
  });

  it('never finish later with more hands', () => {
    let compared = 0;
    fc.assert(
      fc.property(request, (each) => {
        const one = planJob({ ...asked({ ...each, people: 1 }), ways: 1 }, schedule);
        if (!one.ok || !one.least.ride.proved) return;
        const two = planJob({ ...asked({ ...each, people: 2 }), ways: 1 }, schedule);
        expect(two.ok || two.why === 'time').toBe(true);
        if (!two.ok || !two.least.ride.proved) return;
        compared += 1;
        expect(two.least.ride.at).toBeLessThanOrEqual(one.least.ride.at);
      }),
      { numRuns: 80 },
    );
    expect(compared).toBeGreaterThan(15);
  });

  it('take no more work when one action takes less', () => {
    fc.assert(
      fc.property(request, fc.nat(30), fc.double({ min: 0, max: 1, noNaN: true }), (each, which, part) => {
        const ask = { ...asked(each), ways: 1 };
        const { work } = ask;
        const actions = work.actions.map((a, i) =>
          i === which % work.actions.length
            ? {
                ...a,
                minutes: {
                  low: a.minutes.low * part,
                  likely: a.minutes.likely * part,
                  high: a.minutes.high * part,
                },
              }
            : a,
        );
        const [dear, cheap] = [
          planJob(ask, schedule),
          planJob({ ...ask, work: { ...work, actions } }, schedule),
        ];
        if (!dear.ok || !cheap.ok) return;
        expect(cheap.least.work.minutes).toBeLessThanOrEqual(dear.least.work.minutes);
      }),
      { numRuns: 60 },
    );
  });

  it('go on from any moment, with one pair of hands gone or a thing seized', () => {
    let made = 0;
    fc.assert(
      fc.property(request, fc.nat(1000), fc.nat(2), (each, when, kind) => {
        const ask = asked(each);
        const first = planJob(ask, schedule);
        if (!first.ok) return;
        const { steps, actions } = first.least;
        const at = steps[when % steps.length]!.end;
        const did = steps.filter((s) => s.start < at).map(({ id, start, end }) => ({ id, start, end }));
        const todo = actions.filter((a) => !did.some((d) => d.id === a));
        const event =
          kind === 0 || todo.length === 0
            ? ({ what: 'went on' } as const)
            : kind === 1
              ? ({ what: 'helper gone', at: at + 20 } as const)
              : ({ what: 'seized', action: todo[0]!, adds: 'never' } as const);
        const { answer, request: next } = replan(ask, first.least, { at, did, facts: [] }, event, schedule);
        if (!answer.ok) {
          expect(answer.says).not.toMatch(/undefined|NaN/);
          return;
        }
        made += 1;
        expect(replayPlan(answer.least, next)).toEqual([]);
        // Where two give one fact, which of them holds it can change with what was done first, and the ride with it.
        const given = ask.work.actions.filter((a) => actions.includes(a.id)).flatMap(givesAll);
        const single = new Set(given).size === given.length;
        if (event.what === 'went on' && single && first.least.ride.proved && answer.least.ride.proved)
          expect(answer.least.ride.at).toBe(first.least.ride.at);
      }),
      { numRuns: 120 },
    );
    expect(made).toBeGreaterThan(50);
  });

  it('have floats that are true: a step put off by its float still fits without a later ride', () => {
    fc.assert(
      fc.property(request, fc.nat(50), (each, which) => {
        const answer = planJob({ ...asked(each), ways: 1 }, schedule);
        if (!answer.ok) return;
        const { least } = answer;
        const i = which % least.order.length;
        const step = least.steps.find((s) => s.id === least.order[i])!;
        const { project } = least;
        const later = { from: 0, to: i + 1, least: step.start + step.float };
        const put = plainSchedule({ ...project, lags: [...project.lags, later] }, 400);
        if (put.ok) expect(put.bound).toBeLessThanOrEqual(least.ride.at);
        if (!put.ok) expect(put.why).toBe('time');
        expect(least.steps.some((s) => s.critical)).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});
