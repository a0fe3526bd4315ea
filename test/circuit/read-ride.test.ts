/** Legs and loads that cannot be read, and lives that cannot be lived: one sentence each, with the remedy. */
import { describe, expect, it } from 'vitest';
import { readLegs, readLoad } from '../../src/circuit/read-ride.ts';
import { checkRideLife, type RideLife } from '../../src/circuit/ride-legs.ts';

describe('legs', () => {
  it('are read as people write them', () => {
    const text = `# Monday
      town 1800 rpm 20 min
      motorway: 4500 rpm, 1 h 10 min, main beam

      ferry queue engine off ½ h parking lights`;
    expect(readLegs(text)).toEqual({
      ok: true,
      legs: [
        { name: 'town', rpm: 1800, minutes: 20, lights: 'low' },
        { name: 'motorway', rpm: 4500, minutes: 70, lights: 'high' },
        { name: 'ferry queue', rpm: 0, minutes: 30, lights: 'park' },
      ],
    });
    expect(readLegs('1200 rpm 5 minutes; engine off 2 hours')).toMatchObject({
      legs: [{ name: 'ride' }, { name: 'parked', minutes: 120, lights: 'off' }],
    });
  });

  it.each([
    ['', 'There is no leg: write e.g. "town 1800 rpm 20 min; motorway 4500 rpm 1 h".'],
    [
      'town 20 min',
      'Leg 1, "town 20 min": it has no engine speed: write e.g. "town 1800 rpm 20 min", or "engine off".',
    ],
    [
      'town 1800 rpm',
      'Leg 1, "town 1800 rpm": it does not say how long: write e.g. "20 min" or "1 h 30 min".',
    ],
    ['a 1800 rpm 5 min; b 40 rpm 5 min', 'must lie between 300 and 15000 rpm'],
    ['a 1800 rpm engine off 5 min', 'leave one of them out'],
    ['a 1800 rpm 5 min low beam lights off', 'two kinds of light'],
    ['a 1800 rpm 30 h', 'its time must lie between 1 min and 24 h'],
    ['a 1800 rpm -5 min', 'min'],
    ['a 1,800 rpm 5 min', '"1,800" in "1,800 rpm" can be 1.800 or 1800'],
    ['a 1800 rpm 5 min b 2000 rpm 7 min', 'two figures of one kind'],
    [`${'long '.repeat(12)}1800 rpm 5 min`, 'longer than 40 characters'],
    ['x 900 rpm 1 min;'.repeat(30), 'There are 30 legs and a day may have 24'],
    ['x'.repeat(5000), 'at most 4000 are read'],
  ])('%# are refused in one sentence', (text, words) => {
    const read = readLegs(text);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.whys.join(' ')).toContain(words);
    for (const why of read.whys) expect(why).toMatch(/[.]$/);
  });

  it('are all looked at, not only the first that fails', () => {
    const read = readLegs('a 5 min; b 1000 rpm 5 min; c 1000 rpm');
    expect(read).toMatchObject({ ok: false });
    if (!read.ok) expect(read.whys.map((why) => why.slice(0, 5))).toEqual(['Leg 1', 'Leg 3']);
  });
});

const LEGS = [{ name: 'town', rpm: 1800, minutes: 20, lights: 'low' as const }];

describe('loads', () => {
  it('are read as people write them', () => {
    expect(readLoad('heated jacket, 65 watts', LEGS)).toEqual({
      ok: true,
      load: { name: 'heated jacket', watts: 65, when: 'riding' },
    });
    expect(readLoad('grips 3 A in Town', LEGS)).toEqual({
      ok: true,
      load: { name: 'grips', watts: 40.5, when: ['town'] },
    });
    expect(readLoad('tracker 20 mA always', LEGS)).toEqual({
      ok: true,
      load: { name: 'tracker', watts: 0.27, when: 'always' },
    });
  });

  it.each([
    ['jacket', 'it does not say what it draws'],
    ['65 W', 'it needs a name'],
    ['jacket 65 kW', 'between 0 and 1000 W'],
    ['jacket 65 W in space', 'there is no leg "space": the legs are town.'],
    ['jacket 65 W always in town', 'leave one of them out'],
    ['jacket 1,5.2 W', 'is not a number that can be read'],
    ['j'.repeat(300), 'longer than 200'],
  ])('%s is refused', (text, words) => {
    const read = readLoad(text, LEGS);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.why).toContain(words);
  });
});

const LIFE: RideLife = {
  legs: LEGS,
  loads: [{ name: 'jacket', watts: 65, when: ['town'] }],
  celsius: 10,
  days: 30,
  everyDays: 1,
  startCharge: 0.9,
};

describe('a life from outside', () => {
  it('passes when it is whole', () => {
    expect(checkRideLife(JSON.parse(JSON.stringify(LIFE)))).toEqual({ ok: true, life: LIFE });
  });

  it.each([
    [null, 'The ride must be an object'],
    [{ ...LIFE, legs: [] }, 'There must be a list of 1 to 24 legs, not 0.'],
    [{ ...LIFE, more: 1 }, 'a field "more" that is not known'],
    [{ ...LIFE, legs: [{ ...LEGS[0], rpm: 20 }] }, 'Leg 1 (town): the engine speed must lie between 300'],
    [
      {
        ...LIFE,
        legs: [
          { ...LEGS[0], minutes: 1000 },
          { ...LEGS[0], minutes: 600 },
        ],
      },
      'a day has 1440',
    ],
    [{ ...LIFE, legs: [{ ...LEGS[0], lights: 'on' }] }, 'its lights may be off, park, low, high'],
    [{ ...LIFE, loads: [{ name: '', watts: 1, when: 'riding' }] }, 'Load 1 needs a name'],
    [{ ...LIFE, loads: [{ name: 'x', watts: Number.NaN, when: 'riding' }] }, 'between 0 and 1000 W'],
    [
      { ...LIFE, loads: [{ name: 'x', watts: 1, when: ['sea'] }] },
      'there is no leg "sea"; there is only "town"',
    ],
    [
      { ...LIFE, loads: [{ name: 'x', watts: 1, when: 'often' }] },
      '"riding", "always", or in a list of legs',
    ],
    [{ ...LIFE, loads: [LIFE.loads[0], LIFE.loads[0]] }, 'Two loads are called "jacket"'],
    [{ ...LIFE, celsius: 80 }, 'The temperature must lie between -30 and 50 °C, not 80.'],
    [{ ...LIFE, days: 1.5 }, 'must be a whole number'],
    [{ ...LIFE, startCharge: undefined }, 'not nothing'],
  ])('%# is refused in one sentence', (value, words) => {
    const checked = checkRideLife(value);
    expect(checked.ok).toBe(false);
    if (!checked.ok) expect(checked.why).toContain(words);
  });
});
