/** Preload from torque and back, drag, the twist of tightening. */
import { describe, expect, test } from 'vitest';
import { frictionById, nutFactor, usualSeat } from '../../src/joint/friction.ts';
import { gradeById, type Strength, strengthOf } from '../../src/joint/grade.ts';
import {
  clampingTorque,
  combinedShare,
  looseningShare,
  looseningTorque,
  preloadAtShare,
  preloadByParts,
  preloadFromTorque,
  shareOfProof,
  tightenToYieldShare,
  torqueForPreload,
  torqueForShare,
  torqueSplit,
  twistFactor,
} from '../../src/joint/preload.ts';
import { makeThread, stressArea } from '../../src/joint/thread.ts';
import { THREADS } from '../../src/joint/thread-table.ts';

const M8 = makeThread(0.008, 0.00125);
const SEAT = { outer: 0.01163, hole: 0.009 };
const K = { low: 0.1, high: 0.25 };
const one = (value: number) => ({ low: value, high: value });

function strength(id: string, diameter = 0.008): Strength {
  const found = strengthOf(gradeById(id), diameter);
  if (!found.ok) throw new Error(found.why);
  return found.strength;
}

describe('preload from torque', () => {
  test('is an interval: the weakest pull at most friction, the strongest at least', () => {
    // 20 N·m on 8 mm: 20/(0.25·0.008) and 20/(0.1·0.008).
    const found = preloadFromTorque({ torque: one(20), wrenchError: 0 }, M8, K);
    expect(found.low).toBeCloseTo(10_000, 6);
    expect(found.high).toBeCloseTo(25_000, 6);
  });

  test('the wrench widens it, four per cent when nothing is said', () => {
    const found = preloadFromTorque({ torque: { low: 19, high: 21 } }, M8, K);
    expect(found.low).toBeCloseTo((19 * 0.96) / 0.002, 6);
    expect(found.high).toBeCloseTo((21 * 1.04) / 0.0008, 6);
  });

  test('drag comes off, and never leaves less than nothing', () => {
    expect(clampingTorque({ torque: one(10), wrenchError: 0, drag: { low: 2, high: 3 } })).toEqual({
      low: 7,
      high: 8,
    });
    expect(clampingTorque({ torque: one(2), wrenchError: 0, drag: { low: 1, high: 3 } })).toEqual({
      low: 0,
      high: 1,
    });
  });

  test.each(THREADS.map((thread) => [thread.name, thread] as const))(
    '%s: torque for a preload gives it back, with drag and without',
    (_, thread) => {
      const k = { low: 0.17, high: 0.17 };
      for (const drag of [one(0), one(1.5)]) {
        const torque = torqueForPreload(5000, thread, k, drag);
        const back = preloadFromTorque({ torque, wrenchError: 0, drag }, thread, k);
        expect(back.low).toBeCloseTo(5000, 6);
        expect(back.high).toBeCloseTo(5000, 6);
      }
    },
  );

  test('the long formula agrees with the short one at the K it amounts to', () => {
    const { thread, head } = frictionById('oiled');
    const k = nutFactor(M8, SEAT, { thread, head });
    const long = preloadByParts({ torque: one(20) }, M8, SEAT, { thread, head });
    const short = preloadFromTorque({ torque: one(20) }, M8, k);
    expect(long.low).toBeCloseTo(short.low, 6);
    expect(long.high).toBeCloseTo(short.high, 6);
  });
});

describe('share of proof', () => {
  const screw = strength('8.8');

  test('three quarters of proof and back', () => {
    const torque = torqueForShare(0.75, M8, screw, one(0.2));
    const preload = preloadFromTorque({ torque, wrenchError: 0 }, M8, one(0.2));
    const share = shareOfProof(preload, M8, screw);
    expect(share.low).toBeCloseTo(0.75, 12);
    expect(share.high).toBeCloseTo(0.75, 12);
    expect(preloadAtShare(1, M8, screw)).toBeCloseTo(580e6 * stressArea(M8), 6);
  });
});

describe('the split of the torque', () => {
  test.each(THREADS.map((thread) => [thread.name, thread] as const))('%s adds up to one', (_, thread) => {
    const seat = usualSeat(thread);
    const split = torqueSplit(thread, seat, 0.12, 0.14);
    expect(split.stretch + split.thread + split.head).toBeCloseTo(1, 12);
    expect(looseningShare(thread, seat, 0.12, 0.14)).toBeCloseTo(1 - 2 * split.stretch, 12);
  });

  test('more friction undoes harder, hardly any undoes itself', () => {
    expect(looseningShare(M8, SEAT, 0.2, 0.2)).toBeGreaterThan(looseningShare(M8, SEAT, 0.1, 0.1));
    expect(looseningShare(M8, SEAT, 0.01, 0.01)).toBeLessThan(0);
  });

  test('loosening torque is that share of the tightening torque', () => {
    const friction = { thread: one(0.12), head: one(0.12) };
    const found = looseningTorque(one(10_000), M8, SEAT, friction);
    const [k] = [nutFactor(M8, SEAT, friction).low];
    const tightened = 10_000 * k * M8.diameter;
    expect(found.low / tightened).toBeCloseTo(looseningShare(M8, SEAT, 0.12, 0.12), 12);
    expect(looseningTorque(one(10_000), M8, SEAT, { thread: one(0.01), head: one(0.01) })).toEqual(one(0));
  });
});

describe('tension and torsion together', () => {
  const screw = strength('8.8');

  test('a share of yield and back', () => {
    for (const share of [0.5, 0.9, 1]) {
      const { preload } = tightenToYieldShare(M8, screw, SEAT, 0.12, 0.14, share);
      expect(combinedShare(preload, M8, screw, 0.12)).toBeCloseTo(share, 12);
    }
  });

  test('the twist adds 10 to 15 % at usual friction, and more with more', () => {
    expect(twistFactor(M8, 0.12)).toBeGreaterThan(1.1);
    expect(twistFactor(M8, 0.12)).toBeLessThan(1.15);
    expect(twistFactor(M8, 0.2)).toBeGreaterThan(twistFactor(M8, 0.12));
  });

  test('head friction takes torque, not preload', () => {
    const smooth = tightenToYieldShare(M8, screw, SEAT, 0.12, 0.08);
    const rough = tightenToYieldShare(M8, screw, SEAT, 0.12, 0.16);
    expect(smooth.preload).toBe(rough.preload);
    expect(smooth.torque).toBeLessThan(rough.torque);
  });
});

describe('what cannot be throws', () => {
  const screw = strength('8.8');
  test.each([
    ['a negative torque', () => clampingTorque({ torque: one(-1) }), /torque.low must be .* from 0, got -1/],
    ['NaN', () => clampingTorque({ torque: one(Number.NaN) }), /torque.low/],
    [
      'ends turned round',
      () => clampingTorque({ torque: { low: 2, high: 1 } }),
      /torque.low must not be above/,
    ],
    [
      'a wrench off by 80 %',
      () => clampingTorque({ torque: one(1), wrenchError: 0.8 }),
      /wrenchError must be from/,
    ],
    ['negative drag', () => clampingTorque({ torque: one(1), drag: one(-1) }), /drag.low/],
    ['K of nought', () => preloadFromTorque({ torque: one(1) }, M8, one(0)), /k.low/],
    ['no preload', () => torqueForPreload(0, M8, K), /preload must be/],
    ['twice the proof', () => preloadAtShare(2, M8, screw), /share must be from 0 to 1.5, got 2/],
    ['more than yield', () => tightenToYieldShare(M8, screw, SEAT, 0.12, 0.12, 1.1), /share must be/],
    ['no friction', () => twistFactor(M8, 0), /muThread/],
  ])('%s', (_, call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});
