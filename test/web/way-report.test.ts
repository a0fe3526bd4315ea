/** The way in as the station shows it: from the log to steps with their figures, and what a trouble changes. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { WayChoice, WayState } from '../../src/job/way-fold.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { planMemory, type WayAsk, type WayReply, wayReporter } from '../../src/web/way-report.ts';
import { tellStart } from '../../src/web/way-start.ts';

const read = readMachine(readFileSync('machines/ardmoor-650-pathway.json', 'utf8'), 'ardmoor');
if (!read.ok) throw new Error('the machine file must read');
const { machine } = read;
/** A Friday, six in the evening by the garage's clock. */
const START = Date.UTC(2026, 10, 27, 18, 0);
const CHOICE: WayChoice = {
  targets: ['stator'],
  people: 1,
  startsAt: new Date(START).toISOString(),
  nights: true,
  aim: 'least',
  leave: [],
  km: null,
};
const iso = (minute: number) => new Date(START + minute * 60_000).toISOString();
const report = wayReporter();

function ask(way: Partial<WayState> = {}, choice: Partial<WayChoice> = {}, minute = 0): WayReply {
  const question: WayAsk = {
    id: 7,
    machine,
    choice: { ...CHOICE, ...choice },
    way: { ticks: [], troubles: [], here: [], ...way },
    nowMs: START + minute * 60_000,
    wall: { startsAt: 18 * 60, weekday: 5 },
    year: 2026,
    shape: 'narrow',
  };
  return report(question);
}

const step = (got: WayReply, id: string) => got.plan!.steps.find((one) => one.id === id);
const seized = {
  event: 'e1',
  what: 'seized' as const,
  of: 'adjuster-slack',
  minutes: null,
  until: null,
  at: iso(0),
};

describe('the way in of a job', () => {
  let plain: WayReply;
  beforeAll(() => {
    plain = ask();
  });

  it('works through the night that a window does not outlast, and no other', () => {
    // The whole way in and the new stator, then the locker on its screws two minutes before the night's hour.
    const before = plain.plan!.steps;
    const at = before.findIndex(({ id }) => id === 'stator-stage-1');
    const ids = before.slice(0, at + 1).map(({ id }) => id);
    const ticks = ids.map((id, n) => {
      const done = iso(238 - (ids.length - 1 - n));
      return { step: id, begun: null, done };
    });
    const got = ask({ ticks }, {}, 238);
    expect(got.why).toBe(null);
    expect(step(got, 'stator-stage-2')!.time).toMatch(/^Fri 2[12]:\d\d$/);
    expect(got.plan!.says[0]).toMatch(/this night is worked through/);
    // When it can be ridden is told of the same plan.
    const told = tellStart(
      {
        id: 1,
        people: 1,
        rideByMs: START + 60 * 3_600_000,
        machine,
        choice: CHOICE,
        way: { ticks, troubles: [], here: [] },
        nowMs: START + 238 * 60_000,
        wall: { startsAt: 18 * 60, weekday: 5 },
        year: 2026,
        shape: 'narrow',
      },
      planMemory(),
    );
    expect(told.says).toMatch(/^Gone on with now, with one person, a ride at Mon 06:00 is kept \d+ times/);
    // With no window open it is left for the morning.
    const calm = ask({ ticks: ticks.slice(0, -1) }, {}, 238);
    expect(calm.plan!.says.join()).not.toMatch(/worked through/);
    expect(step(calm, 'stator-stage-1')!.time).toMatch(/^Sat 0[7-9]/);
    // Missed is missed, at night too.
    expect(ask({ ticks }, {}, 300).why).toMatch(/window of what has been done closes/);
  });

  it('answers with days of the week, the list and what could stay on', () => {
    const { plan, why, id } = plain;
    expect([id, why]).toEqual([7, null]);
    expect(plan!.begun).toBe(false);
    expect(plan!.p50).toMatch(/^(Sat|Sun) \d\d:\d\d$/);
    expect(plan!.steps[0]!.time).toBe('Fri 18:00');
    expect(plan!.list.map(({ says }) => says).join()).toContain('primary cover gasket');
    expect(plan!.couldLeave).toContain('primary-chain off');
    expect(plan!.open!.lines.map(({ id: part }) => part)).toContain('primary-chain');
  });

  it('gives each step its tools, and going back its torque by the sheet of the part that is new', () => {
    const torque = step(plain, 'stator-stage-1')!;
    expect(torque.fastener!.torque).toBe('4.52–5.08 N·m (40–45 lbf·in)');
    expect(torque.fastener!.source).toContain('rewound stator');
    expect(torque.tools.length).toBeGreaterThan(0);
    expect(torque.hold).toBe('sign');
  });

  it('says a window where one is open', () => {
    expect(plain.plan!.steps.some(({ window }) => window?.startsWith('must begin by '))).toBe(true);
  });

  it('keeps what is done in the list, and marks what runs', () => {
    const ticks = [
      { step: 'seat', begun: null, done: iso(5) },
      { step: 'cool', begun: iso(2), done: null },
    ];
    const got = ask({ ticks }, {}, 10);
    expect(got.plan!.begun).toBe(true);
    expect(step(got, 'seat')!.state).toBe('done');
    expect(step(got, 'cool')!.state).toBe('runs');
    expect(step(got, 'seat-on')!.state).toBe('ahead');
  });

  it('tells what the last trouble changed, and names all of them', () => {
    const got = ask({ troubles: [seized] });
    expect(got.troubles).toEqual([{ event: 'e1', says: expect.stringContaining('will not come') }]);
    expect(got.plan!.changed!.happened).toContain('will not come');
    expect(got.plan!.changed!.added).toContain(step(got, 'tensioner-off')!.does);
    expect(got.plan!.changed!.dropped.join()).toContain('Slacken the tensioner');
    expect(got.plan!.changed!.says).toMatch(/The ride is|work is left/);
  });

  it('says why there is no plan, with the troubles beside it', () => {
    const both = [seized, { ...seized, event: 'e2', of: 'tensioner-off' }];
    const got = ask({ troubles: [...both, { ...seized, event: 'e3', of: 'cover-off' }] });
    expect(got.plan).toBeNull();
    expect(got.why).toMatch(/\.$/);
    expect(got.troubles).toHaveLength(3);
  });

  it('asks for nothing where nothing is chosen, and for a section where there is none', () => {
    expect(ask({}, { targets: [] })).toMatchObject({ plan: null, why: null });
    expect(
      report({
        id: 1,
        machine: { ...machine, work: null } as never,
        choice: CHOICE,
        way: { ticks: [], troubles: [], here: [] },
        nowMs: START,
        wall: { startsAt: 0, weekday: 0 },
        year: 2026,
        shape: 'wide',
      }).why,
    ).toContain('no section "work"');
  });

  it('is the same answer to the same question', () => {
    expect(ask()).toEqual(plain);
  });
});
