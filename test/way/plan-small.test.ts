import { describe, expect, it } from 'vitest';
import { planJob } from '../../src/way/plan.ts';
import type { PlanAnswer, PlanRequest } from '../../src/way/plan-shape.ts';
import { sayAnswer, sayPlan } from '../../src/way/say-plan.ts';
import { shutNights } from '../../src/way/to-project.ts';
import { plainSchedule } from './plain-schedule.ts';
import { replayPlan } from './replay-plan.ts';
import { action, SMALL, step } from './small-work.ts';

const ask = (more: Partial<PlanRequest> = {}): PlanRequest => ({
  work: SMALL,
  targets: ['stator'],
  people: 1,
  ...more,
});

function planned(request: PlanRequest): PlanAnswer {
  const answer = planJob(request, plainSchedule);
  if (!answer.ok) throw new Error(answer.says);
  for (const plan of [answer.least, answer.earliest]) expect(replayPlan(plan, request)).toEqual([]);
  return answer;
}

describe('a plan of a small bike', () => {
  it('takes the loosened chain rather than the chain or the clutch', () => {
    const { least } = planned(ask());
    expect([...least.actions].sort()).toEqual(['chain-loose', 'cover', 'drain', 'guard', 'rotor']);
    // By hand: guard 5+4, drain 15+2, cover 14+28, chain 6+4+8, rotor 20+15.
    expect(least.work).toEqual({ minutes: 121, bound: 121, proved: true });
    expect(least.ride.proved).toBe(true);
  });

  it('finishes at the sum of what one person does and the cure', () => {
    const { least } = planned(ask());
    // One person, by hand: the 15 min drain runs beside guard (5) and chain (10), then cover 14, rotor 20, stator 30,
    // rotor back 15, plug, cover 28, and the cure of 600 runs beside chain and guard back; then 16 of closing.
    const before = 15 + 14 + 20 + 30 + 15 + 28;
    expect(least.ride.at).toBe(before + 600 + 16);
  });

  it('keeps the window of the bead and shows it', () => {
    const { least } = planned(ask());
    const close = least.steps.find((s) => s.id === 'cover-close')!;
    const bead = least.steps.find((s) => s.id === 'cover-bead')!;
    expect(close.window).toEqual({ from: bead.end, to: bead.end + 10, after: 'cover-bead' });
  });

  it('marks what the ride waits for', () => {
    const { least } = planned(ask());
    const critical = new Set(least.steps.filter((s) => s.critical).map((s) => s.id));
    expect(critical).toContain('cover-cure');
    expect(critical).not.toContain('guard-on');
    expect(least.steps.find((s) => s.id === 'guard-on')!.float).toBeGreaterThan(100);
  });

  it('cures through the night, and closes in the morning', () => {
    const shut = shutNights(18 * 60, 22 * 60, 8 * 60);
    const { least } = planned(ask({ shut }));
    const fill = least.steps.find((s) => s.id === 'fill')!;
    expect(fill.start).toBe(14 * 60);
  });

  it('leaves the chain slack alone when asked, and says what that costs', () => {
    const { left, least } = planned(ask({ leave: ['chain slack'] }));
    expect([...least.actions].sort()).toEqual(['clutch', 'cover', 'drain', 'guard', 'rotor-by-clutch']);
    // By hand: 30 + 24 instead of 18 + 35.
    expect(left!.dearer).toBe(1);
    expect(left!.says).toBe(
      'Without "chain slack" it takes "Take clutch" (30 min) and "Take rotor-by-clutch" (24 min) in place of ' +
        '"Take chain-loose" (18 min) and "Take rotor" (35 min): 1 min more work.',
    );
  });

  it('says so when what is left is not needed anyway', () => {
    expect(planned(ask({ leave: ['clutch off'] })).left!.says).toContain('not needed');
  });

  it('offers an earlier ride where a dearer way does not cure', () => {
    const work = {
      ...SMALL,
      actions: [...SMALL.actions, action('side', 90, ['guard off'], ['rotor off'], [step('side-on', 60)])],
    };
    const { least, earliest, differ } = planned(ask({ work }));
    expect(least.actions).toContain('cover');
    expect(earliest.actions).toContain('side');
    expect(earliest.ride.at).toBeLessThan(least.ride.at);
    expect(differ).toContain('sooner with "Take side" instead of');
  });

  it('goes round what one person cannot do alone, and with two does not', () => {
    const heavy = SMALL.actions.map((a) =>
      a.id === 'rotor' ? { ...a, back: a.back.map((each) => ({ ...each, hands: 2 })) } : a,
    );
    const loose = heavy.map((a) =>
      a.id === 'clutch' ? { ...a, minutes: { low: 60, likely: 60, high: 60 } } : a,
    );
    const work = { ...SMALL, actions: loose };
    expect(planned(ask({ work })).least.actions).toContain('rotor-by-clutch');
    expect(planned(ask({ work, people: 2 })).least.actions).toContain('rotor');
  });

  it('is told in words with hours', () => {
    const answer = planned(ask());
    const lines = sayPlan(answer.least, 18 * 60);
    expect(lines[0]).toBe(
      '2 h 1 min of work, the least there is; at usual times it can be ridden at 06:18 on day 2, as soon as these steps allow.',
    );
    expect(lines.some((l) => l.startsWith('18:00 Take'))).toBe(true);
    expect(sayAnswer(answer, 0).join(' ')).not.toMatch(/NaN|undefined/);
  });
});

describe('the project of a plan', () => {
  it('has shut hours in order and joined, whatever order they come in', () => {
    const shut = [
      { from: 300, to: 400 },
      { from: 100, to: 200 },
      { from: 150, to: 250 },
    ];
    expect(planned(ask({ shut })).least.project.shut).toEqual([
      { from: 100, to: 250 },
      { from: 300, to: 400 },
    ]);
  });
  it('has every night', () => {
    // 18:00 start, shut 22:00 to 08:00.
    expect(shutNights(18 * 60, 22 * 60, 8 * 60, 2)).toEqual([
      { from: 240, to: 840 },
      { from: 1680, to: 2280 },
    ]);
    // Started at 23:00, in shut hours.
    expect(shutNights(23 * 60, 22 * 60, 8 * 60, 1)[0]).toEqual({ from: -60, to: 540 });
  });
});

describe('a refusal', () => {
  const says = (more: Partial<PlanRequest>) => {
    const answer = planJob(ask(more), plainSchedule);
    return answer.ok ? '' : answer.says;
  };
  it('names the nearest known id', () => {
    expect(says({ targets: ['statr'] })).toBe('There is no target "statr"; the nearest is "stator".');
    expect(says({ leave: ['clutch of'] })).toContain('nearest is "clutch off"');
  });
  it('names what blocks a target', () => {
    expect(says({ stuck: [{ action: 'cover', adds: 'never' }] })).toBe(
      'the stator cannot be reached: "Take cover" will not come, and there is no other way round.',
    );
  });
  it('refuses to leave what is asked for', () => {
    expect(says({ leave: ['cover off'] })).toBe('Without "cover off" there is no way to "rotor off".');
    expect(says({ leave: ['rotor off'] })).toContain('cannot be left');
  });
  it('names a step longer than any open hours', () => {
    const work = {
      ...SMALL,
      closing: [step('prove', 900)],
    };
    expect(says({ work, shut: shutNights(18 * 60, 22 * 60, 8 * 60) })).toBe(
      '"Do prove" takes 900 min at a stretch, longer than any open hours (840 min).',
    );
  });
  it('names a tool nobody lists', () => {
    const work = { ...SMALL, tools: SMALL.tools.filter((t) => t.id !== 'puller') };
    expect(says({ work })).toBe('There is no tool "puller"; the nearest is "wrench".');
  });
  it('names a step that takes more hands than there are', () => {
    const work = { ...SMALL, actions: SMALL.actions.map((a) => (a.id === 'cover' ? { ...a, hands: 2 } : a)) };
    expect(says({ work })).toBe('"Take cover" takes 2 pairs of hands and there is 1.');
  });
});
