/** When to begin for a ride at an hour: against every start planned from nothing, and what is said. */
import { describe, expect, it } from 'vitest';
import { planJob } from '../../src/way/plan.ts';
import { planClock } from '../../src/way/plan-clock.ts';
import type { PlanRequest } from '../../src/way/plan-shape.ts';
import { sayStart } from '../../src/way/say-start.ts';
import { type StartAsk, startBy } from '../../src/way/start-by.ts';
import { shutNights } from '../../src/way/to-project.ts';
import type { Spread, Work } from '../../src/way/work.ts';
import { SMALL } from './small-work.ts';

const wider = ({ likely }: Spread): Spread => ({ low: 0.8 * likely, likely, high: 1.6 * likely });
/** The small work with times that are not sure. */
const work: Work = {
  ...SMALL,
  actions: SMALL.actions.map((action) => ({
    ...action,
    minutes: wider(action.minutes),
    back: action.back.map((step) => (step.hands > 0 ? { ...step, minutes: wider(step.minutes) } : step)),
  })),
};
const request: PlanRequest = { work, targets: ['stator'], people: 1 };
/** From Thursday, six in the evening, to Saturday at nine. */
const ask: StartAsk = {
  deadline: 39 * 60,
  now: 0,
  chances: [0.5, 0.9],
  startsAt: 18 * 60,
  nights: { from: 22 * 60, to: 7 * 60 },
  aim: 'least',
};
const found = (of: PlanRequest, more: Partial<StartAsk> = {}) => {
  const answer = startBy(of, { ...ask, ...more });
  if (!answer.ok) throw new Error(answer.says);
  return answer;
};

/** Chance that a start keeps the deadline, by the plan and the clock that the station would show for it. */
function keptFrom(of: PlanRequest, start: number): number {
  const hour = (((ask.startsAt + start) % 1440) + 1440) % 1440;
  const { arrivals } = of;
  const made = planJob({
    ...of,
    shut: shutNights(hour, 22 * 60, 7 * 60),
    ...(arrivals ? { arrivals: arrivals.map(({ supply, at }) => ({ supply, at: at - start })) } : {}),
  });
  if (!made.ok) return 0;
  const { ends } = planClock(made.least, work).clock;
  return ends.filter((end) => start + end <= ask.deadline).length / ends.length;
}

const byHand = (of: PlanRequest, chance: number) => {
  for (let start = ask.deadline - 30; start >= 0; start -= 30) {
    const hour = (ask.startsAt + start) % 1440;
    if (hour >= 22 * 60 || hour < 7 * 60) continue;
    const kept = keptFrom(of, start);
    if (kept >= chance) return { chance, start, kept };
  }
  return { chance, start: null, kept: 0 };
};

describe('when must I begin', () => {
  it.each([
    ['alone', request],
    ['with a helper', { ...request, people: 2 } as const],
    [
      'for a part that comes on Friday at noon',
      { ...request, arrivals: [{ supply: 'stator', at: 18 * 60 }] },
    ],
  ])('is the latest of all half hours that keeps it, each planned from nothing: %s', (_, of) => {
    const { latest } = found(of);
    expect(latest).toEqual([byHand(of, 0.5), byHand(of, 0.9)]);
    expect(latest[0]!.start).not.toBeNull();
    expect(latest[1]!.start!).toBeLessThanOrEqual(latest[0]!.start!);
    expect(latest[1]!.kept).toBeGreaterThanOrEqual(0.9);
  });

  it('is earlier for who wants to be surer, and later with two', () => {
    const [one, two] = [found(request), found({ ...request, people: 2 })];
    one.latest.forEach(({ start }, i) => {
      expect(two.latest[i]!.start!).toBeGreaterThanOrEqual(start!);
    });
    const sure = found(request, { chances: [0.5, 0.99] }).latest;
    expect(sure[1]!.start!).toBeLessThan(sure[0]!.start!);
  });

  it('can be too late: by how much is told from the clock begun now', () => {
    const deadline = 10 * 60;
    const { latest, fromNow } = found(request, { deadline });
    expect(latest.map(({ start }) => start)).toEqual([null, null]);
    expect(fromNow.kept).toBe(0);
    const made = planJob({ ...request, shut: shutNights(18 * 60, 22 * 60, 7 * 60) });
    if (!made.ok) throw new Error(made.says);
    const { p50, p90 } = planClock(made.least, work);
    expect(fromNow.rides).toEqual([p50, p90]);
    expect(sayStart(startBy(request, { ...ask, deadline }), { people: 1, deadline, now: 0 }, 1080)).toMatch(
      /^With one person a ride at 04:00 on day 2 is kept only 0 times in 100, even begun now: it can be ridden at .* nine times in ten, .* too late\.$/,
    );
  });

  it('is now, where only now does; and never before now', () => {
    const { start } = found(request).latest[1]!;
    const late = found(request, { now: start! - 10 });
    expect(late.latest[1]!.start).toBe(start);
    // A start that is neither a full nor a half hour is tried where it is now.
    const odd = found(request, { now: start! - 40, deadline: ask.deadline - 15 });
    expect(odd.latest[1]!.start!).toBeGreaterThanOrEqual(start! - 40);
    const over = found(request, { now: start! + 1 });
    expect(over.latest[1]!.start === null || over.latest[1]!.start > start!).toBe(true);
  });

  it('has no start to choose once something is done: it tells how the rest will go', () => {
    const made = planJob(request);
    if (!made.ok) throw new Error(made.says);
    const first = made.least.steps[0]!;
    const did = [{ id: first.id, start: 0, end: 5 }];
    const begun = { ...request, now: { at: 5, did, facts: [] } };
    const answer = found(begun, { now: 5 });
    expect(answer.latest).toEqual([]);
    expect(answer.fromNow.kept).toBe(1);
    const line = sayStart(answer, { people: 1, deadline: ask.deadline, now: 5 }, 1080);
    expect(line).toMatch(
      /^Gone on with now, with one person, a ride at 09:00 on day 3 is kept 100 times in 100/,
    );
  });

  it('is told in one sentence: when to begin, for how sure a ride, and how often it still comes late', () => {
    const of = { people: 2, deadline: ask.deadline, now: 0 } as const;
    const wall = { startsAt: 1080, weekday: 4 };
    const start = (at: number | null, kept: number, chance: number) => ({ start: at, kept, chance });
    const say = (even: number | null, sure: number | null) =>
      sayStart(
        {
          ok: true,
          latest: [start(even, 0.62, 0.5), start(sure, 0.904, 0.9)],
          fromNow: { kept: 0.7, rides: [2300, 2400] },
        },
        of,
        wall,
      );
    expect(say(1410, 1380)).toBe(
      'With two people start by Fri 17:00 to ride at Sat 09:00: 90 in 100 runs keep it, 10 still come late; begun as late as Fri 17:30, 62 do.',
    );
    expect(say(1380, 1380)).toMatch(/10 still come late\.$/);
    expect(say(1380, null)).toMatch(
      /^With two people start by Fri 17:00 to ride at Sat 09:00: 62 in 100 runs keep it, .* begun now that is Sat 10:00, 1 h too late\.$/,
    );
  });

  it('says an hour that is past, and why there is no plan', () => {
    expect(sayStart(found(request, { deadline: -5 }), { people: 1, deadline: -5, now: 0 }, 1080)).toBe(
      '17:55 is past already.',
    );
    const heavy = { ...work, closing: work.closing.map((step) => ({ ...step, hands: 2 })) };
    const none = startBy({ ...request, work: heavy }, ask);
    expect(sayStart(none, { people: 1, deadline: ask.deadline, now: 0 }, 1080)).toMatch(
      /^With one person there is no plan: .*takes 2 pairs of hands/,
    );
  });

  it.each([
    [{ deadline: Number.NaN }, 'deadline must be a finite number of min, got NaN'],
    [{ now: Number.POSITIVE_INFINITY }, 'now must be a finite number of min, got Infinity'],
    [{ chances: [1] }, 'chance must be between 0 and 1, got 1'],
    [{ chances: [Number.NaN] }, 'got NaN'],
    [{ nights: { from: 1500, to: 3 } }, 'from must be from 0 to 1440 min, got 1500'],
    [{ startsAt: -1 }, 'startsAt must be from 0 to 1440 min, got -1'],
  ])('refuses %j', (more, words) => {
    expect(() => startBy(request, { ...ask, ...more })).toThrow(RangeError);
    expect(() => startBy(request, { ...ask, ...more })).toThrow(words);
  });
});
