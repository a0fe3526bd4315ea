/** When to begin for a ride at an hour, as the station Way in asks it for one number of hands. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { WayChoice, WayState } from '../../src/job/way-fold.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { planMemory, wayReporter } from '../../src/web/way-report.ts';
import { type StartQuestion, tellStart } from '../../src/web/way-start.ts';

const read = readMachine(readFileSync('machines/pemburrow-900-carillon.json', 'utf8'), 'pemburrow');
if (!read.ok) throw new Error('the machine file must read');
const { machine } = read;
/** A Thursday, six in the evening by the garage's clock. */
const START = Date.UTC(2026, 10, 26, 18, 0);
const HOUR = 3_600_000;
const SATURDAY_NINE = START + 39 * HOUR;
const iso = (ms: number) => new Date(ms).toISOString();
const CHOICE: WayChoice = {
  targets: ['stator'],
  people: 1,
  startsAt: iso(START),
  nights: true,
  aim: 'least',
  leave: [],
  km: null,
};
const question = (
  more: Partial<StartQuestion> = {},
  choice: Partial<WayChoice> = {},
  way: Partial<WayState> = {},
): StartQuestion => ({
  id: 3,
  people: 1,
  rideByMs: SATURDAY_NINE,
  machine,
  choice: { ...CHOICE, ...choice },
  way: { ticks: [], troubles: [], here: [], ...way },
  nowMs: START,
  wall: { startsAt: 18 * 60, weekday: 4 },
  year: 2026,
  shape: 'narrow',
  ...more,
});
const planned = planMemory();
const tell = (...asked: Parameters<typeof question>) => tellStart(question(...asked), planned);

describe('when to begin, on the station', () => {
  it('names the latest start and how often it still comes late; planned for then, it keeps the hour', () => {
    const told = tell();
    expect(told).toMatchObject({ id: 3, people: 1 });
    expect(told.says).toMatch(
      /^With one person start by Fri \d\d:\d\d to ride at Sat 09:00: 9\d in 100 runs keep it, \d still comes? late/,
    );
    const start = Date.parse(told.start!);
    expect(start).toBeGreaterThan(START);
    // Outside view: the station's own plan for a start then has its nine in ten before Saturday, nine o'clock.
    const at = new Date(start);
    const wall = {
      startsAt: 60 * at.getUTCHours() + at.getUTCMinutes(),
      weekday: at.getUTCDay(),
    };
    const { rideByMs: _, people: __, ...ask } = question({ nowMs: START, wall }, { startsAt: told.start! });
    expect(wayReporter()(ask).plan!.p90).toMatch(/^(Fri|Sat 0[0-8])/);
  });

  it('does not depend on the hour that the job was planned to begin at', () => {
    const later = tell({ wall: { startsAt: 8 * 60, weekday: 5 } }, { startsAt: iso(START + 14 * HOUR) });
    expect(later).toEqual(tell());
  });

  it('is for as many as are asked for, whoever the plan is for', () => {
    const [one, two] = [tell(), tell({ people: 2 })];
    expect(two.says).toMatch(/^With two people start by /);
    expect(Date.parse(two.start!)).toBeGreaterThanOrEqual(Date.parse(one.start!));
    expect(tell({ people: 2 }, { people: 2 }).start).toBe(two.start);
  });

  it('says when it can be ridden where it is too late, and what is past', () => {
    const late = tell({ rideByMs: START + 3 * HOUR });
    expect(late.start).toBeNull();
    expect(late.says).toMatch(/even begun now: it can be ridden at .* one time in two, .* too late\.$/);
    expect(tell({ rideByMs: START - HOUR }).says).toBe('Thu 17:00 is past already.');
    // Hours after it was to begin nothing is done yet: it begins now at the earliest.
    const now = tell({ nowMs: SATURDAY_NINE - HOUR });
    expect(now.says).toContain('even begun now');
  });

  it('goes on from what is done, and has no start to choose then', () => {
    const ticks = [{ step: 'seat', begun: null, done: iso(START + HOUR / 12) }];
    const told = tell({ nowMs: START + HOUR / 6 }, {}, { ticks });
    expect(told.start).toBeNull();
    expect(told.says).toMatch(
      /^Gone on with now, with one person, a ride at Sat 09:00 is kept \d+ times in 100: /,
    );
  });

  it('says what it cannot plan', () => {
    expect(tellStart(question({ machine: { ...machine, work: null } as never }), planned).says).toContain(
      'no section "work"',
    );
    const stuck = { event: 'e', what: 'seized' as const, of: '', minutes: null, until: null, at: iso(START) };
    const never = Object.keys(machine.work!.actions).map((of, i) => ({ ...stuck, event: `e${i}`, of }));
    expect(tell({}, {}, { troubles: never }).says).toMatch(/^With one person there is no plan: /);
  });
});
