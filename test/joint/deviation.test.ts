import { describe, expect, test } from 'vitest';
import { type HeldScrew, lockerDeviation, torqueDeviation, undoStrength } from '../../src/joint/deviation.ts';

// An M6 of property class 8.8 in a cast case: breaks at about 13–17 N·m (from memory), 9 mm engaged.
const SMALL: HeldScrew = {
  undo: { fitted: { low: 9, high: 11 }, locker: 'high', diameter: 0.006, engagement: 0.009 },
  breaking: { low: 13, high: 17 },
  inAluminium: true,
};

function withLocker(locker: HeldScrew['undo']['locker'], screw = SMALL): HeldScrew {
  return { ...screw, undo: { ...screw.undo, locker } };
}

describe('torque to undo against the strength of the screw', () => {
  test('high strength on a small screw in aluminium may break it; heat is needed', () => {
    const found = undoStrength(SMALL);
    expect(found.outcome).toBe('may-break');
    expect(found.share.high).toBeCloseTo(found.undo.torque.high / 13, 12);
    expect(found.share.low).toBeCloseTo(found.undo.torque.low / 17, 12);
    expect(found.heat).toEqual({ low: 230, high: 315 });
    expect(found.heated!.undo.torque.high).toBeLessThan(found.undo.torque.high);
    expect(found.words).toMatch(/may break off in the aluminium.*230–315 °C.*carries the heat away/);
  });

  test('without locker, or with a weak one, it comes off cold', () => {
    for (const locker of [null, 'low'] as const) {
      const found = undoStrength(withLocker(locker));
      expect(found).toMatchObject({ outcome: 'safe', heat: null });
      expect(found.words).toContain('comes off cold');
    }
  });

  test('a long thread with high strength breaks for sure', () => {
    const found = undoStrength({
      ...SMALL,
      undo: { ...SMALL.undo, engagement: 0.06 },
      nearMagnetOrSeal: true,
    });
    expect(found.outcome).toBe('breaks');
    expect(found.words).toMatch(/will break off.*magnet or a seal/);
  });
});

describe('wrong or forgotten locker', () => {
  test('too strong: what it means next time, with figures', () => {
    const found = lockerDeviation(SMALL, 'medium');
    expect(found.severity).toBe('next-time');
    expect(found.words).toMatch(
      /high-strength locker, and medium-strength locker is wanted, which would come off at .*N·m.*To undo it takes about/,
    );
  });

  test('forgotten or too weak: do it again', () => {
    expect(lockerDeviation(withLocker(null), 'medium')).toMatchObject({
      severity: 'redo',
      words: expect.stringMatching(/^The locker was forgotten, .*clean both threads/),
    });
    expect(lockerDeviation(withLocker('low'), 'high').severity).toBe('redo');
  });

  test('as wanted', () => {
    expect(lockerDeviation(withLocker('medium'), 'medium').severity).toBe('none');
    expect(lockerDeviation(withLocker(null), null).severity).toBe('none');
  });

  test('so strong that it must break: now, before it sets', () => {
    const long = { ...SMALL, undo: { ...SMALL.undo, engagement: 0.06 } };
    expect(lockerDeviation(long, null)).toMatchObject({
      severity: 'redo',
      words: expect.stringContaining('before the locker sets'),
    });
  });
});

describe('wrong torque', () => {
  test('inside the limits of the book, or near enough without', () => {
    expect(torqueDeviation({ used: 10.8, wanted: 10 }).severity).toBe('none');
    expect(torqueDeviation({ used: 12.2, wanted: 11, allowed: { low: 9.5, high: 12.2 } }).severity).toBe(
      'none',
    );
    expect(torqueDeviation({ used: 10.8, wanted: 10, allowed: { low: 9.5, high: 10.5 } }).severity).toBe(
      'redo',
    );
  });

  test('too little: clamps less, in its share', () => {
    expect(torqueDeviation({ used: 6, wanted: 12 })).toMatchObject({
      severity: 'redo',
      words: expect.stringMatching(/about 50 % .* work loose.*before a locker sets/),
    });
  });

  test('too much: the screw and the hole are judged', () => {
    const limits = { breaking: { low: 30, high: 40 }, stripping: { low: 31, high: 45 } };
    const foot = torqueDeviation({ used: 47.5, wanted: 4, ...limits });
    expect(foot.words).toMatch(
      /158 % of the torque that may break it.*new screw; that is 153 % .*strip the hole/,
    );
    const mild = torqueDeviation({ used: 12, wanted: 10, ...limits });
    expect(mild.words).toMatch(/120 % .* does not yet hurt the screw or the hole/);
    expect(torqueDeviation({ used: 12, wanted: 10 }).words).toContain('not known here');
  });

  test('figures that cannot be', () => {
    expect(() => torqueDeviation({ used: 0, wanted: 10 })).toThrow(
      'used must be a finite number above 0, got 0',
    );
    expect(() => undoStrength({ ...SMALL, breaking: { low: 0, high: 1 } })).toThrow('breaking.low must be');
  });
});
