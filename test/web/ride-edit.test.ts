import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkRideLife, type Leg, LIGHTS, type RideLife } from '../../src/circuit/ride-legs.ts';
import { freeName, minutesLeft, withLeg, withLoad, withMore, withoutLeg } from '../../src/web/ride-edit.ts';
import { keepRide, keptRide } from '../../src/web/ride-kept.ts';

const LIFE: RideLife = {
  legs: [
    { name: 'town', rpm: 1800, minutes: 20, lights: 'low' },
    { name: 'parked', rpm: 0, minutes: 480, lights: 'off' },
    { name: 'home', rpm: 1800, minutes: 20, lights: 'low' },
  ],
  loads: [
    { name: 'jacket', watts: 65, when: ['town', 'home'] },
    { name: 'phone', watts: 10, when: ['home'] },
  ],
  celsius: 10,
  days: 30,
  everyDays: 1,
  startCharge: 0.9,
};

const leg: fc.Arbitrary<Leg> = fc.record({
  name: fc.constantFrom('town', 'home', 'road', 'queue'),
  rpm: fc.constantFrom(0, 900, 4000),
  minutes: fc.integer({ min: 1, max: 700 }),
  lights: fc.constantFrom(...LIGHTS),
});
const edit: fc.Arbitrary<(life: RideLife) => RideLife> = fc.oneof(
  leg.map((one) => (life: RideLife) => withMore(life, one)),
  fc.tuple(fc.nat(5), leg).map(
    ([at, one]) =>
      (life: RideLife) =>
        withLeg(life, at, one),
  ),
  fc.nat(5).map((at) => (life: RideLife) => withoutLeg(life, at)),
  fc.tuple(fc.nat(3), fc.nat(100)).map(
    ([at, watts]) =>
      (life: RideLife) =>
        withLoad(life, at, { watts }),
  ),
);

describe('edits of a life', () => {
  it('leave it one that can be kept, whatever is pressed', () => {
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 12 }), (edits) => {
        const life = edits.reduce((now, each) => each(now), LIFE);
        expect(checkRideLife(life)).toMatchObject({ ok: true });
        expect(minutesLeft(life, null)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('take loads along when a leg is renamed or taken out', () => {
    expect(withLeg(LIFE, 0, { name: 'city' }).loads[0]!.when).toEqual(['city', 'home']);
    const without = withoutLeg(LIFE, 2);
    expect(without.loads.map(({ when }) => when)).toEqual([['town'], 'riding']);
    // Two legs of one name: the load stays with the one that keeps it.
    const twice = withMore(LIFE, { ...LIFE.legs[0]!, minutes: 5 });
    expect(withLeg(twice, 0, { name: 'city' }).loads[0]!.when).toEqual(['town', 'home']);
  });

  it('give a second load of a name another name', () => {
    expect(freeName(LIFE, 'jacket')).toBe('jacket 2');
    expect(freeName(LIFE, 'lamp')).toBe('lamp');
  });
});

describe('what is kept', () => {
  const shelf = () => {
    const kept = new Map<string, string>();
    return {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => void kept.set(key, text),
      removeItem: (key: string) => void kept.delete(key),
    };
  };

  it('comes back as it was, per machine, and goes when it is dropped', () => {
    const place = shelf();
    expect(keptRide('a', place)).toBeNull();
    expect(keepRide('a', LIFE, place)).toBe(true);
    expect(keptRide('a', place)).toEqual(LIFE);
    expect(keptRide('b', place)).toBeNull();
    keepRide('a', null, place);
    expect(keptRide('a', place)).toBeNull();
  });

  it('is passed over when it is none of ours, and a shelf that takes nothing is told of', () => {
    const place = shelf();
    for (const text of ['', '{', '{"legs":[]}', '[]', '"ride"']) {
      place.setItem('ride a', text);
      expect(keptRide('a', place)).toBeNull();
    }
    const full = {
      ...place,
      setItem: () => {
        throw new Error('full');
      },
    };
    expect(keepRide('a', LIFE, full)).toBe(false);
  });
});
