import { describe, expect, it } from 'vitest';
import { planJob } from '../../src/way/plan.ts';
import type { BikeNow, PlanAnswer, PlanRequest } from '../../src/way/plan-shape.ts';
import { type PlanEvent, replan } from '../../src/way/replan.ts';
import { plainSchedule } from './plain-schedule.ts';
import { replayPlan } from './replay-plan.ts';
import { SMALL } from './small-work.ts';

const ASK: PlanRequest = { work: SMALL, targets: ['stator'], people: 1 };

function planned(request: PlanRequest): PlanAnswer {
  const answer = planJob(request, plainSchedule);
  if (!answer.ok) throw new Error(answer.says);
  return answer;
}

/** The bike as the plan leaves it at a time: what has ended is done, what runs by itself runs. */
function stateAt(answer: PlanAnswer, at: number): BikeNow {
  const did = answer.least.steps
    .filter((s) => s.end <= at || (s.start < at && s.unattended))
    .map(({ id, start, end }) => ({ id, start, end }));
  return { at, did, facts: [] };
}

function again(at: number, event: PlanEvent, request = ASK) {
  const before = planned(request);
  const now = stateAt(before, at);
  const made = replan(request, before.least, now, event, plainSchedule);
  if (made.answer.ok) {
    expect(replayPlan(made.answer.least, made.request)).toEqual([]);
    expect(replayPlan(made.answer.earliest, made.request)).toEqual([]);
  }
  return { before, now, ...made };
}

const ids = (answer: PlanAnswer) => answer.least.steps.map((s) => s.id);

function good(answer: ReturnType<typeof again>['answer']): PlanAnswer {
  if (!answer.ok) throw new Error(answer.says);
  return answer;
}

describe('a plan from the middle of a job', () => {
  it('changes nothing when all went as planned, at every step', () => {
    const before = planned(ASK);
    for (const { end } of before.least.steps) {
      const { answer } = again(end, { what: 'went on' });
      expect(good(answer).least.ride.at).toBe(before.least.ride.at);
    }
  });

  it('counts what is done as done and puts it back', () => {
    const { answer } = again(15, { what: 'went on' });
    expect(ids(good(answer))).not.toContain('guard');
    expect(ids(good(answer))).toContain('guard-on');
  });

  it('waits for a cure that runs', () => {
    const before = planned(ASK);
    const cure = before.least.steps.find((s) => s.id === 'cover-cure')!;
    const { answer } = again(cure.start + 100, { what: 'went on' });
    expect(good(answer).least.steps.find((s) => s.id === 'cover-cure')).toMatchObject({
      start: cure.start,
      end: cure.end,
    });
    expect(good(answer).least.steps.find((s) => s.id === 'fill')!.start).toBe(cure.end);
  });

  it('refuses a window that is missed', () => {
    const before = planned(ASK);
    const bead = before.least.steps.find((s) => s.id === 'cover-bead')!;
    const now = { ...stateAt(before, bead.end), at: bead.end + 30 };
    const { answer } = replan(ASK, before.least, now, { what: 'went on' }, plainSchedule);
    expect(answer).toMatchObject({ ok: false, why: 'window' });
    expect((answer as { says: string }).says).toContain('Do cover-close');
  });
});

describe('an event', () => {
  it('seized: goes another way when the other is cheaper', () => {
    const { answer, change, says } = again(5, { what: 'seized', action: 'chain-loose', adds: 40 });
    // By hand: clutch 30 and rotor by it 24 are 54; the chain off 21 and the rotor 35 are 56; chain loosened 93.
    expect(ids(good(answer))).toContain('rotor-by-clutch');
    expect(change!.dropped.map((s) => s.id)).toContain('chain-loose');
    expect(says).toContain('"Take chain-loose" is seized: 40 min more.');
  });

  it('seized for good, and no way round: a refusal that names it', () => {
    const { answer } = again(20, { what: 'seized', action: 'cover', adds: 'never' });
    expect(answer).toMatchObject({ ok: false, why: 'unreachable' });
  });

  it('stripped: repairs the thread before it goes back, when the insert is here', () => {
    const { answer, says } = again(60, {
      what: 'stripped',
      at: 'guard',
      minutes: 25,
      supply: { id: 'insert', name: 'thread insert', at: 2000 },
    });
    const steps = good(answer).least.steps;
    const repair = steps.find((s) => s.id === 'guard-thread')!;
    expect(repair.start).toBe(2000);
    expect(steps.find((s) => s.id === 'guard-on')!.start).toBeGreaterThanOrEqual(2025);
    expect(says).toMatch(/^A thread is stripped at "Take guard": 25 min to repair it\. New: .* later\./);
  });

  it('stripped while tightening: repairs before that step, and the ride waits for it', () => {
    const before = planned(ASK);
    const torque = before.least.steps.find((s) => s.id === 'cover-torque')!;
    const { answer } = again(torque.start, { what: 'stripped', at: 'cover-torque', minutes: 30 });
    const steps = good(answer).least.steps;
    expect(steps.find((s) => s.id === 'cover-torque')!.start).toBe(torque.start + 30);
    expect(good(answer).least.ride.at).toBe(before.least.ride.at + 30);
  });

  it('part not here yet: the work at the bottom waits, the strip-down does not', () => {
    const { answer } = again(5, { what: 'not here yet', supply: 'stator', at: 1000 });
    const steps = good(answer).least.steps;
    expect(steps.find((s) => s.id === 'stator-fit')!.start).toBe(1000);
  });

  it('helper gone: never two at once after that, and never sooner', () => {
    const request: PlanRequest = { ...ASK, targets: ['stator', 'clutch', 'plug'], people: 2 };
    const two = planned(request).least.ride.at;
    const one = planned({ ...request, people: 1 }).least.ride.at;
    const { answer } = again(10, { what: 'helper gone', at: 40 }, request);
    const { ride } = good(answer).least;
    expect(ride.at).toBeGreaterThanOrEqual(two);
    expect(ride.at).toBeLessThanOrEqual(one);
  });

  it('an unknown action gets a sentence', () => {
    const { says } = again(5, { what: 'stripped', at: 'gard', minutes: 5 });
    expect(says).toBe('There is no action or step "gard"; the nearest is "guard".');
  });
});

describe('a recipe that cannot be kept', () => {
  it('names the steps whose lags fight', () => {
    const work = {
      ...SMALL,
      actions: SMALL.actions.map((a) => ({
        ...a,
        back: a.back.map((s) =>
          s.id === 'cover-torque'
            ? { ...s, lags: [{ after: 'cover-bead', from: 'start' as const, least: 0, most: 3 }] }
            : s,
        ),
      })),
    };
    const answer = planJob({ ...ASK, work }, plainSchedule);
    expect(answer).toMatchObject({ ok: false, why: 'lags' });
    const names = (answer as { names: string[] }).names;
    expect(names).toContain('cover-torque');
    expect(names).toContain('cover-bead');
  });
});
