import { describe, expect, test } from 'vitest';
import { armFor, handForce, judgePush, torqueOf } from '../../src/joint/hand-force.ts';
import { adapterFor, handSpread, lengthFor, torqueAtScrew, wrenchSetting } from '../../src/joint/wrench.ts';

describe('lever', () => {
  test('setting and its inverse undo each other', () => {
    for (const angle of [0, 0.4, Math.PI / 2, 2, Math.PI]) {
      const lever = { length: 0.4, adapter: 0.08, angle };
      const there = wrenchSetting(30, lever);
      if (!there.ok) throw new Error(there.why);
      const back = torqueAtScrew(there.set, lever);
      expect(back.ok && back.torque).toBeCloseTo(30, 12);
      expect(there.set).toBeCloseTo((30 * 0.4) / (0.4 + 0.08 * Math.cos(angle)), 12);
    }
  });

  test('adapter and length are found back from torque and setting', () => {
    for (const [angle, sets] of [
      [0, 25],
      [0.5, 25.9],
      [Math.PI, 37.5],
    ] as const) {
      const adapter = adapterFor(30, sets, 0.4, angle);
      if (!adapter.ok) throw new Error(adapter.why);
      const set = wrenchSetting(30, { length: 0.4, adapter: adapter.adapter, angle });
      expect(set.ok && set.set).toBeCloseTo(sets, 9);
      const length = lengthFor(30, sets, adapter.adapter, angle);
      expect(length.ok && length.length).toBeCloseTo(0.4, 9);
    }
    expect(adapterFor(30, 30, 0.4)).toEqual({ ok: true, adapter: 0 });
  });

  test('what no adapter and no length can do is refused', () => {
    expect(adapterFor(30, 25, 0.4, Math.PI)).toMatchObject({ ok: false });
    expect(adapterFor(30, 25, 0.4, Math.PI / 2)).toMatchObject({ ok: false });
    expect(lengthFor(30, 35, 0.05)).toMatchObject({ ok: false });
    expect(lengthFor(30, 30, 0.05)).toMatchObject({ ok: false });
    // Would need an adapter longer than the wrench.
    expect(adapterFor(90, 30, 0.4)).toMatchObject({ ok: false, why: expect.stringContaining('longer') });
  });

  test('a hand off the grip matters with an adapter only', () => {
    const straight = handSpread(30, { length: 0.4, adapter: 0.1 }, 0.05);
    expect(straight).toEqual({
      low: expect.closeTo((30 * 0.55) / 0.45, 9),
      high: expect.closeTo((30 * 0.45) / 0.35, 9),
    });
    expect(handSpread(30, { length: 0.4 }, 0.05)).toEqual({
      low: expect.closeTo(30, 9),
      high: expect.closeTo(30, 9),
    });
  });
});

describe('levers that cannot be', () => {
  test('an adapter longer than the wrench', () => {
    expect(wrenchSetting(30, { length: 0.2, adapter: 0.25 })).toMatchObject({
      ok: false,
      why: expect.stringMatching(
        /^The adapter, 250 mm \(9\.84 in\), is longer than the wrench, .*shorter adapter/,
      ),
    });
  });

  test('an adapter that leaves no lever', () => {
    expect(wrenchSetting(30, { length: 0.25, adapter: 0.25, angle: Math.PI })).toMatchObject({
      ok: false,
      why: expect.stringContaining('leaves no lever'),
    });
  });

  test('lengths and torques not above 0 are the caller’s mistake', () => {
    expect(() => wrenchSetting(0, { length: 0.4 })).toThrow('torque must be a finite number above 0, got 0');
    expect(() => wrenchSetting(10, { length: -0.4 })).toThrow(
      'length must be a finite number above 0, got -0.4',
    );
    expect(() => wrenchSetting(10, { length: 0.4, adapter: -0.1 })).toThrow('adapter must be');
    expect(() => wrenchSetting(10, { length: 0.4, angle: 45 })).toThrow('angle must be');
    expect(() => handSpread(10, { length: 0.4 }, 0.4)).toThrow('off must be below');
  });
});

describe('hand force', () => {
  test('force, lever and torque solve for each other', () => {
    expect(torqueOf(handForce(60, 0.4), 0.4)).toBeCloseTo(60, 12);
    expect(armFor(60, handForce(60, 0.4))).toBeCloseTo(0.4, 12);
  });

  test('more than the guide is told, with the lever that would do', () => {
    expect(judgePush(90, 0.4)).toMatchObject({ easy: true });
    expect(judgePush(225, 0.6)).toMatchObject({
      easy: false,
      words: expect.stringContaining('lever of 1 m'),
    });
  });
});
