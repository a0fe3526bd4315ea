/** The way in as the log tells it: choices, ticks, troubles, stock; and the request that room `way` gets from them. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkEvent } from '../../src/job/check.ts';
import type { EventBody } from '../../src/job/event.ts';
import { foldJob } from '../../src/job/fold.ts';
import type { WayChoice } from '../../src/job/way-fold.ts';
import { askWay } from '../../src/job/way-request.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { workOf } from '../../src/machine/work.ts';
import { piecesOf } from '../../src/way/did-from.ts';
import { planJob } from '../../src/way/plan.ts';
import { afterEvent, replan } from '../../src/way/replan.ts';
import { opening, START, shuffled, story } from './stories.ts';

const file = readMachine(readFileSync('machines/ardmoor-650-pathway.json', 'utf8'), 'ardmoor');
if (!file.ok) throw new Error('the machine file must read');
const WORK = workOf(file.machine, 2026)!;

const CHOICE: WayChoice = {
  targets: ['stator'],
  people: 2,
  startsAt: new Date(START).toISOString(),
  nights: true,
  aim: 'least',
  leave: [],
  km: null,
};
const chosen: EventBody = { type: 'wayChosen', ...CHOICE };
const iso = (minute: number) => new Date(START + minute * 60_000).toISOString();
const at = (minute: number) => ({ nowMs: START + minute * 60_000, startsAt: 20 * 60 });
const wayOf = (bodies: readonly EventBody[]) => foldJob(story([opening, ...bodies])).way;

describe('the way in as a fold', () => {
  it('keeps the last choice, the first tick of each step, and what is at hand', () => {
    const way = wayOf([
      chosen,
      { type: 'wayChosen', ...CHOICE, people: 1 },
      { type: 'stepDone', step: 'seat' },
      { type: 'stepDone', step: 'seat' },
      { type: 'stepBegun', step: 'cool' },
      { type: 'stepDone', step: 'side-cover' },
      { type: 'stepUndone', step: 'side-cover' },
      { type: 'stockNoted', supply: 'cover-gasket', here: true },
      { type: 'stockNoted', supply: 'locker-high', here: true },
      { type: 'stockNoted', supply: 'cover-gasket', here: false },
    ]);
    expect(way.chosen).toEqual({ ...CHOICE, people: 1 });
    expect(way.ticks).toEqual([
      { step: 'seat', begun: null, done: iso(3) },
      { step: 'cool', begun: iso(5), done: null },
    ]);
    expect(way.here).toEqual(['locker-high']);
  });

  it('forgets a trouble that was cleared, also when the clearing sorts first', () => {
    const events = story([
      opening,
      { type: 'wayTroubled', what: 'seized', of: 'adjuster-slack', minutes: null, until: null },
    ]);
    const trouble = events[1]!;
    const [early] = story([{ type: 'wayCleared', event: trouble.id }], {
      device: 'phone',
      start: START - 60_000,
    });
    expect(foldJob(events).way.troubles).toHaveLength(1);
    expect(foldJob([...events, early!]).way.troubles).toEqual([]);
  });

  it('is the same in whatever order the events arrive', () => {
    const body: fc.Arbitrary<EventBody> = fc.oneof(
      fc.record({ type: fc.constant('stepDone' as const), step: fc.constantFrom('seat', 'cool') }),
      fc.record({ type: fc.constant('stepBegun' as const), step: fc.constantFrom('seat', 'cool') }),
      fc.record({ type: fc.constant('stepUndone' as const), step: fc.constantFrom('seat', 'cool') }),
      fc.constant(chosen),
    );
    fc.assert(
      fc.property(fc.array(body, { maxLength: 12 }), fc.array(fc.nat(), { minLength: 1 }), (bodies, seed) => {
        const events = story([opening, ...bodies]);
        for (const event of events) expect(checkEvent(event)).toEqual({ ok: true, event });
        expect(foldJob(shuffled(events, seed)).way).toEqual(foldJob(events).way);
      }),
    );
  });

  it.each<[string, EventBody, string]>([
    ['three people', { ...chosen, people: 3 } as unknown as EventBody, 'people'],
    ['a start that is no time', { ...chosen, startsAt: 'tonight' } as EventBody, 'startsAt'],
    ['an aim of its own', { ...chosen, aim: 'cheapest' } as unknown as EventBody, 'aim'],
    ['an unnamed step', { type: 'stepDone', step: ' ' }, 'step'],
    [
      'a trouble of no kind',
      { type: 'wayTroubled', what: 'lost', of: 'seat', minutes: 1, until: null } as unknown as EventBody,
      'what',
    ],
    [
      'less than no time',
      { type: 'wayTroubled', what: 'seized', of: 'seat', minutes: -1, until: null },
      'minutes',
    ],
  ])('refuses %s', (_, body, field) => {
    expect(checkEvent(story([body])[0])).toMatchObject({ ok: false, field });
  });
});

describe('the request of a job', () => {
  it('plans from the ticks: what is done is no longer in the plan, and the clock is where it is', () => {
    const asked = askWay(
      WORK,
      CHOICE,
      wayOf([chosen, { type: 'stepDone', step: 'seat' }, { type: 'stepDone', step: 'side-cover' }]),
      at(20),
    );
    if ('ok' in asked) throw new Error(asked.says);
    expect(asked.begun).toBe(true);
    expect(asked.now.did.map(({ id, end }) => [id, end])).toEqual([
      ['seat', 2],
      ['side-cover', 3],
    ]);
    const answer = planJob(asked.before);
    if (!answer.ok) throw new Error(answer.says);
    expect(answer.least.at).toBe(20);
    const ids = answer.least.steps.map(({ id }) => id);
    expect(ids).not.toContain('seat');
    expect(ids).toContain('seat-on');
    expect(Math.min(...answer.least.steps.map(({ start }) => start))).toBeGreaterThanOrEqual(20);
  });

  it('has not begun before its hour', () => {
    const asked = askWay(WORK, CHOICE, wayOf([chosen]), at(-300));
    expect(asked).toMatchObject({ begun: false, now: { at: 0, did: [] } });
  });

  it('names what the machine file no longer has, and leaves it out', () => {
    const way = wayOf([
      chosen,
      { type: 'stepDone', step: 'fairing' },
      { type: 'wayTroubled', what: 'seized', of: 'fairing', minutes: null, until: null },
    ]);
    const asked = askWay(WORK, { ...CHOICE, targets: ['stator', 'supercharger'] }, way, at(5));
    if ('ok' in asked) throw new Error(asked.says);
    expect(asked.strays).toEqual(['supercharger', 'fairing', 'fairing']);
    expect(asked.event).toBeNull();
    expect(planJob(asked.before).ok).toBe(true);
  });

  it('keeps the last trouble apart, so that what it changes can be told', () => {
    const way = wayOf([
      chosen,
      { type: 'wayTroubled', what: 'helper-gone', of: '', minutes: null, until: null },
      { type: 'wayTroubled', what: 'seized', of: 'adjuster-slack', minutes: null, until: null },
    ]);
    const asked = askWay(WORK, CHOICE, way, at(30));
    if ('ok' in asked) throw new Error(asked.says);
    expect(asked.before.helperGone).toBe(2);
    expect(asked.before.stuck).toBeUndefined();
    const before = planJob(asked.before);
    if (!before.ok) throw new Error(before.says);
    const { answer, change } = replan(asked.before, before.least, asked.now, asked.event!);
    expect(answer.ok).toBe(true);
    expect(change?.added.map(({ id }) => id)).toContain('tensioner-off');
  });

  it('answers any ticks and troubles with a plan or with one sentence', () => {
    const ids = [...piecesOf(WORK).keys()];
    const supplies = WORK.supplies.map(({ id }) => id);
    const body: fc.Arbitrary<EventBody> = fc.oneof(
      {
        weight: 6,
        arbitrary: fc.record({ type: fc.constant('stepDone' as const), step: fc.constantFrom(...ids) }),
      },
      fc.record({ type: fc.constant('stepBegun' as const), step: fc.constantFrom(...ids) }),
      fc.record({ type: fc.constant('stepUndone' as const), step: fc.constantFrom(...ids) }),
      fc.record({
        type: fc.constant('wayTroubled' as const),
        what: fc.constantFrom('seized', 'stripped', 'not-here', 'helper-gone'),
        of: fc.constantFrom(...ids, ...supplies),
        minutes: fc.constantFrom(null, 0, 25),
        until: fc.constantFrom(null, iso(600)),
      }),
    );
    fc.assert(
      fc.property(fc.array(body, { maxLength: 14 }), fc.nat(3000), (bodies, now) => {
        const asked = askWay(WORK, CHOICE, wayOf([chosen, ...bodies]), at(now));
        const next = 'ok' in asked || asked.event === null ? asked : afterEvent(asked.before, asked.event);
        const answer =
          'ok' in next ? next : planJob('before' in next ? next.before : { ...next, now: next.now! });
        if (!answer.ok) expect(answer.says).toMatch(/^[^\n]+[.]$/);
        else expect(answer.least.steps.every(({ start, end }) => end >= start)).toBe(true);
      }),
      { numRuns: 25 },
    );
  });
});
