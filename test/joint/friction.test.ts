/** Nut factors and coefficients, one turned into the other. */
import { describe, expect, test } from 'vitest';
import { conditionChange } from '../../src/joint/condition-change.ts';
import {
  FRICTIONS,
  frictionById,
  frictionFromNutFactor,
  headRadius,
  nutFactor,
  readFriction,
  torqueArm,
  usualSeat,
} from '../../src/joint/friction.ts';
import { makeThread } from '../../src/joint/thread.ts';
import { THREADS } from '../../src/joint/thread-table.ts';

const M8 = makeThread(0.008, 0.00125);
const SEAT = { outer: 0.01163, hole: 0.009 };

describe('from coefficients to K and back', () => {
  test.each(THREADS.map((thread) => [thread.name, thread] as const))('%s', (_, thread) => {
    const seat = usualSeat(thread);
    const mu = { low: 0.08, high: 0.2 };
    const k = nutFactor(thread, seat, { thread: mu, head: mu });
    const back = frictionFromNutFactor(thread, seat, k);
    if (!back.ok) throw new Error(back.why);
    expect(back.mu.low).toBeCloseTo(0.08, 12);
    expect(back.mu.high).toBeCloseTo(0.2, 12);
    // Rule of the trade, no source: K is about 1.33 times the coefficient and a little more than that.
    expect(k.low).toBeGreaterThan(0.08 * 1.2);
    expect(k.high).toBeLessThan(0.2 * 1.6);
  });

  test('K = 0.2 on M8 is a coefficient of 0.15', () => {
    const found = frictionFromNutFactor(M8, SEAT, { low: 0.2, high: 0.2 });
    expect(found.ok && found.mu.low).toBeCloseTo(0.15, 2);
  });

  test('a K without friction left in it is refused', () => {
    const found = frictionFromNutFactor(M8, SEAT, { low: 0.02, high: 0.2 });
    expect(found.ok ? '' : found.why).toBe(
      'K = 0.02 is not above 0.025, which M8 × 1.25 takes without any friction: check K.',
    );
  });
});

describe('conditions', () => {
  test.each(FRICTIONS.map((friction) => [friction.name, friction] as const))(
    '%s: K and the coefficients tell the same story',
    (_, friction) => {
      const k = nutFactor(M8, SEAT, friction);
      expect(friction.k.low).toBeLessThan(friction.k.high);
      expect(k.low).toBeLessThan(friction.k.high);
      expect(k.high).toBeGreaterThan(friction.k.low);
      // Both ends within a third of the table's: two sources, one friction.
      expect(k.low / friction.k.low).toBeGreaterThan(2 / 3);
      expect(k.low / friction.k.low).toBeLessThan(3 / 2);
      expect(k.high / friction.k.high).toBeGreaterThan(2 / 3);
      expect(k.high / friction.k.high).toBeLessThan(3 / 2);
    },
  );

  test.each([
    ['dry', 'dry'],
    ['clean and dry', 'dry'],
    ['oiled', 'oiled'],
    ['engine oil', 'oiled'],
    ['unlubricated', 'dry'],
    ['not oiled', 'dry'],
    ['zinc plated, no oil', 'zinc'],
    ['new zinc plated', 'zinc'],
    ['anti-seize', 'anti-seize'],
    ['high-strength locker', 'wet-locker'],
    ['oil, no locker', 'oiled'],
    ['stainless on stainless', 'stainless'],
    ['not known', 'unknown'],
  ])('%s', (text, id) => {
    const read = readFriction(text);
    expect(read.ok ? read.friction.id : read.why).toBe(id);
  });

  test.each(FRICTIONS.map(({ name, id }) => [name, id]))('%s by its own name', (name, id) => {
    const read = readFriction(name);
    expect(read.ok ? read.friction.id : read.why).toBe(id);
  });

  test.each([
    ['', 'No condition of the threads'],
    ['honey', '"honey" is no known condition'],
    ['no locker', '"no locker" is no known condition'],
  ])('%j is refused', (text, part) => {
    const read = readFriction(text);
    expect(read.ok ? '' : read.why).toContain(part);
  });

  test('an id that is none throws', () => expect(() => frictionById('wet')).toThrow(/id must be one of/));
});

test('a dry torque on oiled threads stretches the screw further, and the reverse less', () => {
  const more = conditionChange(frictionById('dry'), frictionById('oiled'));
  const less = conditionChange(frictionById('oiled'), frictionById('dry'));
  expect(more.usual).toBeCloseTo(Math.sqrt((0.18 * 0.27) / (0.1 * 0.26)), 12);
  expect(more.usual * less.usual).toBeCloseTo(1, 12);
  expect(more.range.low).toBeCloseTo(0.18 / 0.26, 12);
  expect(more.range.high).toBeCloseTo(2.7, 12);
});

describe('what cannot be throws', () => {
  test.each([
    [{ outer: 0, hole: 0.009 }, /seat.outer must be a finite number above 0, got 0/],
    [{ outer: 0.012, hole: -1 }, /seat.hole/],
    [{ outer: 0.009, hole: 0.009 }, /seat.outer must be above seat.hole/],
    [{ outer: Number.NaN, hole: 0.009 }, /seat.outer/],
  ])('%j', (seat, message) => expect(() => headRadius(seat)).toThrow(message));

  test('a coefficient or K of nought', () => {
    expect(() => torqueArm(M8, SEAT, 0, 0.1)).toThrow(/muThread must be/);
    expect(() => torqueArm(M8, SEAT, 0.1, Number.NaN)).toThrow(/muHead must be/);
    expect(() => frictionFromNutFactor(M8, SEAT, { low: 0, high: 0.2 })).toThrow(/k.low must be/);
    expect(() => frictionFromNutFactor(M8, SEAT, { low: 0.3, high: 0.2 })).toThrow(/k.low must not be above/);
  });
});
