/** Chain geometry: inverses, what is refused, and how many links to fit. */
import { describe, expect, it } from 'vitest';
import {
  centreDistance,
  type Drive,
  freeSpan,
  leastCentre,
  leastLength,
  pitchDiameter,
  pitchFromDiameter,
  tangentLength,
  teethFromDiameter,
  tipDiameter,
  tipGap,
  usualLength,
  wraps,
} from '../../src/drive/chain.ts';
import { chooseLength, lengthForFixedCentre } from '../../src/drive/length.ts';
import { polygonEffect, teethForEffect } from '../../src/drive/polygon.ts';
import { chainNamed, chainsOfPitch } from '../../src/drive/standard.ts';

const PRIMARY: Drive = { pitch: 0.0127, teeth: [24, 36], centre: 0.33 };

describe('geometry', () => {
  it('finds pitch and teeth again from the pitch diameter', () => {
    for (const teeth of [6, 17, 24, 55]) {
      const diameter = pitchDiameter(0.0127, teeth);
      expect(pitchFromDiameter(diameter, teeth)).toBeCloseTo(0.0127, 15);
      expect(teethFromDiameter(0.0127, diameter)).toBeCloseTo(teeth, 10);
    }
  });

  it('has runs and wraps that add up to the length', () => {
    const [small, large] = wraps(PRIMARY);
    expect(small + large).toBeCloseTo(2 * Math.PI, 12);
    expect(small).toBeLessThan(Math.PI);
    const length =
      (2 * freeSpan(PRIMARY)) / PRIMARY.pitch +
      (PRIMARY.teeth[0] * small) / (2 * Math.PI) +
      (PRIMARY.teeth[1] * large) / (2 * Math.PI);
    expect(tangentLength(PRIMARY)).toBeCloseTo(length, 12);
  });

  it('is 2C/p + z for two equal sprockets', () => {
    const equal: Drive = { pitch: 0.01, teeth: [20, 20], centre: 0.25 };
    expect(tangentLength(equal)).toBeCloseTo(70, 12);
    expect(usualLength(equal)).toBeCloseTo(70, 12);
  });

  it('knows when the tips touch before the pitch circles do', () => {
    const close = { ...PRIMARY, centre: leastCentre(0.0127, [24, 36]) + 0.001 };
    expect(tipDiameter(0.0127, 24)).toBeGreaterThan(pitchDiameter(0.0127, 24));
    expect(tipGap(close)).toBeLessThan(0);
    expect(tipGap(PRIMARY)).toBeGreaterThan(0.19);
  });

  it.each([
    [{ ...PRIMARY, pitch: 0 }, /^pitch must be a finite number above 0, got 0$/],
    [{ ...PRIMARY, pitch: -0.0127 }, /^pitch must .*got -0\.0127$/],
    [{ ...PRIMARY, pitch: Number.NaN }, /^pitch must .*got NaN$/],
    [{ ...PRIMARY, centre: -1 }, /^centre must be a finite number above 0, got -1$/],
    [{ ...PRIMARY, centre: 0.1 }, /^centre must be above the sum of the pitch radii, 0\.12\d* m .*got 0\.1$/],
    [{ ...PRIMARY, teeth: [5, 36] as const }, /^teeth\[0\] must be a whole number from 6 to 400, got 5$/],
    [{ ...PRIMARY, teeth: [24, 36.5] as const }, /^teeth\[1\] must .*got 36\.5$/],
  ])('throws for a drive that cannot be (%#)', (drive, rule) => {
    for (const call of [tangentLength, usualLength, freeSpan, tipGap]) {
      expect(() => call(drive)).toThrow(RangeError);
      expect(() => call(drive)).toThrow(rule);
    }
  });

  it('refuses a chain that is too short to go round, in one sentence with the figure', () => {
    const short = centreDistance(0.0127, [24, 36], 40);
    expect(short).toEqual({
      ok: false,
      why: expect.stringMatching(/40 pitches .* too short .*49\.5 pitches/),
    });
    expect(leastLength(0.0127, [24, 36])).toBeCloseTo(49.5, 1);
    const just = centreDistance(0.0127, [24, 36], 49.6);
    expect(just.ok && just.centre).toBeGreaterThan(leastCentre(0.0127, [24, 36]));
    expect(() => centreDistance(0.0127, [24, 36], 0)).toThrow(
      /length must be a finite number above 0, got 0/,
    );
    expect(() => teethFromDiameter(0.0127, 0.01)).toThrow(
      /diameter must be above the pitch, 0.0127, got 0.01/,
    );
  });
});

describe('how many links', () => {
  const wish = { pitch: 0.0127, teeth: [24, 36] as const, halfLink: false };

  it('takes even before half link, then the nearest to the wanted centre distance', () => {
    const chosen = chooseLength({ ...wish, reach: { low: 0.32, high: 0.35 }, wanted: 0.338, halfLink: true });
    if (!chosen.ok) throw new Error(chosen.why);
    expect(chosen.all.map(({ links }) => links)).toEqual([84, 82, 83, 85, 81]);
    expect(chosen.best.halfLink).toBe(false);
    for (const { links, centre, halfLink } of chosen.all) {
      expect(tangentLength({ ...PRIMARY, centre })).toBeCloseTo(links, 9);
      expect(halfLink).toBe(links % 2 === 1);
    }
  });

  it('takes a half link only where it may, and says the nearest two when none fits', () => {
    const reach = { low: 0.335, high: 0.3365 };
    const without = chooseLength({ ...wish, reach });
    expect(without.ok).toBe(false);
    expect(!without.ok && without.why).toMatch(
      /82 pitches are taut at 329\.3 mm.*84 pitches.*use a half link/,
    );
    const half = chooseLength({ ...wish, reach, halfLink: true });
    expect(half.ok && half.best).toMatchObject({ links: 83, halfLink: true });
  });

  it('finds its own chain again for a reach of one point', () => {
    const solved = centreDistance(0.0127, [24, 36], 82);
    if (!solved.ok) throw new Error(solved.why);
    const chosen = chooseLength({ ...wish, reach: { low: solved.centre, high: solved.centre } });
    expect(chosen.ok && chosen.best.links).toBe(82);
  });

  it('throws for a reach upside down, overlapping sprockets or a wish out of reach', () => {
    expect(() => chooseLength({ ...wish, reach: { low: 0.34, high: 0.33 } })).toThrow(
      /reach\.low must not be above/,
    );
    expect(() => chooseLength({ ...wish, reach: { low: 0.1, high: 0.33 } })).toThrow(/overlap/);
    expect(() => chooseLength({ ...wish, reach: { low: 0.3, high: 0.33 }, wanted: 0.4 })).toThrow(
      /wanted must be within reach, 0\.3 to 0\.33, got 0\.4/,
    );
  });

  it('takes the next chain up at a fixed centre distance and says what is over', () => {
    const even = lengthForFixedCentre(PRIMARY, false);
    expect(even.links).toBe(84);
    expect(even.excess).toBeCloseTo((84 - tangentLength(PRIMARY)) * 0.0127, 12);
    expect(lengthForFixedCentre(PRIMARY, true)).toMatchObject({ links: 83, halfLink: true });
  });
});

describe('names and unevenness', () => {
  it.each(['#40', '40', ' 08a ', '08A-1', 'ANSI 40', 'iso 08A'])('knows "%s"', (name) => {
    const found = chainNamed(name);
    expect(found.ok && found.chain.ansi).toBe('40');
  });

  it('asks for the pitch when a name is not in the table', () => {
    for (const name of ['41', '', '08B', '40-2']) {
      const found = chainNamed(name);
      expect(found.ok).toBe(false);
      expect(!found.ok && found.why).toMatch(/#40 \(08A\).*give the pitch/);
    }
  });

  it('finds a worn chain by its pitch, and none between two', () => {
    expect(chainsOfPitch(0.0127 * 1.02).map(({ ansi }) => ansi)).toEqual(['40']);
    expect(chainsOfPitch(0.014)).toEqual([]);
  });

  it('finds the fewest teeth for a speed swing', () => {
    const found = teethForEffect(0.0193);
    expect(found).toEqual({ ok: true, teeth: 17 });
    expect(teethForEffect(polygonEffect(24))).toEqual({ ok: true, teeth: 24 });
    expect(teethForEffect(1e-9).ok).toBe(false);
    expect(() => polygonEffect(3)).toThrow(/teeth must be a whole number from 6 to 400, got 3/);
  });
});
