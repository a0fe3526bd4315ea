import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readLegs, readLoad } from '../../src/circuit/read-ride.ts';
import { adviseRide, changesFor } from '../../src/circuit/ride-advice.ts';
import { balanceRide, monthOf, rideMachine } from '../../src/circuit/ride-balance.ts';
import { type Leg, LIGHTS, type RideLife, usualLife } from '../../src/circuit/ride-legs.ts';
import type { Books, RideMonth } from '../../src/circuit/ride-month.ts';
import { legWords, loadWords } from '../../src/circuit/ride-words.ts';
import { SHIPPED, specOf } from '../machine/shipped.ts';

const machines = SHIPPED.map((name) => rideMachine(specOf(name)));

const leg: fc.Arbitrary<Leg> = fc.record({
  name: fc.constantFrom('town', 'ferry queue', 'home'),
  rpm: fc.oneof(
    fc.constant(0),
    fc.integer({ min: 80, max: 700 }).map((n) => n * 10),
  ),
  minutes: fc.integer({ min: 1, max: 90 }),
  lights: fc.constantFrom(...LIGHTS),
});
const life: fc.Arbitrary<RideLife> = fc.record({
  legs: fc.array(leg, { minLength: 1, maxLength: 4 }),
  loads: fc.array(
    fc.record({
      name: fc.constantFrom('jacket', 'grips'),
      watts: fc.integer({ min: 0, max: 90 }),
      when: fc.constantFrom('riding' as const, 'always' as const),
    }),
    { maxLength: 1 },
  ),
  celsius: fc.integer({ min: -20, max: 40 }),
  days: fc.integer({ min: 1, max: 8 }),
  everyDays: fc.integer({ min: 1, max: 4 }),
  startCharge: fc.integer({ min: 20, max: 100 }).map((n) => n / 100),
});
const machine = fc.constantFrom(...machines);

/** What is missing in the books, of charge (Ah) and of energy (Wh). */
function missing(b: Books): readonly [number, number] {
  const gained = b.stored + b.mains - b.drawn - b.started - b.drained - b.leaked;
  return [b.first + gained - b.last, b.alternatorWh - b.loadWh - b.batteryWh];
}

/** How far it came: days without trouble, then the charge that was left. */
const came = (month: RideMonth): number => (month.flat ? month.flat.day * 1440 + month.flat.minute : 1e9);

describe('a month on the road', () => {
  it('closes its books to 1e-6', () => {
    fc.assert(
      fc.property(machine, life, fc.constantFrom('worn', 'likely', 'fresh'), (bike, ridden, which) => {
        for (const gap of missing(monthOf(bike, ridden, which).books))
          expect(Math.abs(gap)).toBeLessThan(1e-6);
      }),
      { numRuns: 150 },
    );
  });

  it('never has more charge for one more load', () => {
    fc.assert(
      fc.property(machine, life, fc.integer({ min: 1, max: 120 }), (bike, ridden, watts) => {
        const without = monthOf(bike, ridden, 'likely');
        const loads = [...ridden.loads, { name: 'one more', watts, when: 'riding' as const }];
        const more = monthOf(bike, { ...ridden, loads }, 'likely');
        expect(came(more)).toBeLessThanOrEqual(came(without));
        expect(more.lowest).toBeLessThanOrEqual(without.lowest + 1e-6);
        if (!more.flat) expect(more.days.at(-1)!.last).toBeLessThanOrEqual(without.days.at(-1)!.last + 1e-6);
      }),
      { numRuns: 100 },
    );
  });

  it('never has less charge for more engine speed', () => {
    fc.assert(
      fc.property(machine, life, fc.integer({ min: 1, max: 3000 }), (bike, ridden, faster) => {
        const slow = monthOf(bike, ridden, 'likely');
        const legs = ridden.legs.map((one) => (one.rpm > 0 ? { ...one, rpm: one.rpm + faster } : one));
        const fast = monthOf(bike, { ...ridden, legs }, 'likely');
        expect(came(fast)).toBeGreaterThanOrEqual(came(slow));
        expect(fast.lowest).toBeGreaterThanOrEqual(slow.lowest - 1e-6);
        if (!slow.flat) expect(fast.days.at(-1)!.last).toBeGreaterThanOrEqual(slow.days.at(-1)!.last - 1e-6);
      }),
      { numRuns: 100 },
    );
  });

  it('keeps the charge between empty and full', () => {
    fc.assert(
      fc.property(machine, life, (bike, ridden) => {
        for (const day of monthOf(bike, ridden, 'fresh').days) {
          expect(day.lowest).toBeGreaterThanOrEqual(-1e-9);
          expect(Math.max(day.first, day.last)).toBeLessThanOrEqual(1 + 1e-9);
        }
      }),
      { numRuns: 60 },
    );
  });
});

const ardmoor = machines[0]!;
const usual = usualLife(ardmoor.spec);
const crawl: RideLife = {
  ...usual,
  legs: [{ name: 'crawl', rpm: 1000, minutes: 60, lights: 'low' }],
  loads: [...usual.loads, { name: 'jacket', watts: 90, when: 'riding' }],
};

describe('the balance', () => {
  it('holds for the usual way to work and fails for a crawl in a heated jacket', () => {
    expect(balanceRide(ardmoor, usual)).toMatchObject({ verdict: 'holds', reasons: [] });
    const found = balanceRide(ardmoor, crawl);
    expect(found.verdict).toBe('fails');
    expect(found.reasons[0]).toMatchObject({ in: 'likely', leg: 'crawl' });
  });

  it('tells the speed from which the alternator gives what is on', () => {
    const { worst } = balanceRide(ardmoor, crawl);
    const { worn, likely, fresh } = worst!.evenRpm;
    expect(fresh!).toBeLessThan(likely!);
    expect(likely!).toBeLessThan(worn!);
    // Ridden at the worn one's break-even and a little more, the same life loses nothing.
    const legs = crawl.legs.map((one) => ({ ...one, rpm: worn! + 150 }));
    expect(balanceRide(ardmoor, { ...crawl, legs }).verdict).toBe('holds');
    const below = crawl.legs.map((one) => ({ ...one, rpm: fresh! - 60 }));
    expect(balanceRide(ardmoor, { ...crawl, legs: below }).months.fresh.lowest).toBeLessThan(0.8);
  });

  it('ranks what helps by riding it again', () => {
    const now = balanceRide(ardmoor, crawl);
    const { single } = adviseRide(ardmoor, crawl, now);
    expect(single.length).toBeGreaterThan(2);
    const off = single.find(({ change }) => change.is === 'load-off' && change.load === 'jacket')!;
    const ridden = balanceRide(ardmoor, { ...crawl, loads: usual.loads });
    expect(off.verdict).toBe(ridden.verdict);
    expect(off.after).toBeCloseTo(ridden.months.likely.days.at(-1)!.lowest, 12);
    const rank = { holds: 2, doubtful: 1, fails: 0 };
    const ranks = single.map(({ verdict }) => rank[verdict]);
    expect(ranks).toEqual(ranks.toSorted((a, b) => b - a));
    // Every change that was worth a try and is not told of made no difference.
    expect(changesFor(ardmoor, crawl, now).length).toBeGreaterThanOrEqual(single.length);
  });

  it('says together what one change alone cannot do', () => {
    const read = readLegs(
      'town 950 rpm 25 min; road 4500 rpm 15 min; parked engine off 8 h; queue engine off 30 min parking lights; town 1000 rpm 30 min high beam',
    );
    if (!read.ok) throw new Error(read.whys[0]);
    const tracker = { name: 'tracker', watts: 0.27, when: 'always' as const };
    const jacket = { name: 'jacket', watts: 65, when: 'riding' as const };
    const hard: RideLife = {
      ...usual,
      legs: read.legs,
      loads: [...usual.loads, jacket, tracker],
      celsius: -2,
    };
    const now = balanceRide(ardmoor, hard);
    const { single, together } = adviseRide(ardmoor, hard, now);
    expect(now.verdict).toBe('fails');
    expect(single.every(({ verdict }) => verdict !== 'holds')).toBe(true);
    expect(together?.changes.length).toBeGreaterThan(1);
  });
});

describe('legs and loads in words', () => {
  it('come back as they were written', () => {
    fc.assert(
      fc.property(fc.array(leg, { minLength: 1, maxLength: 6 }), (legs) => {
        expect(readLegs(legs.map(legWords).join('; '))).toEqual({ ok: true, legs });
      }),
    );
    for (const load of [
      { name: 'jacket', watts: 65, when: 'riding' as const },
      { name: 'tracker', watts: 0.27, when: 'always' as const },
      { name: 'phone', watts: 10, when: ['town', 'ferry queue'] },
    ]) {
      const legs = ['town', 'ferry queue'].map((name) => ({
        name,
        rpm: 0,
        minutes: 5,
        lights: 'off' as const,
      }));
      expect(readLoad(loadWords(load), legs)).toEqual({ ok: true, load });
    }
  });
});
