import { describe, expect, test } from 'vitest';
import { lockerHold, undoTorque } from '../../src/joint/undo-torque.ts';

const FITTED = { low: 9, high: 11 };

describe('torque to undo', () => {
  test('a stronger locker takes more, heat less, age and rust more', () => {
    const at = (change: object) => undoTorque({ fitted: FITTED, locker: null, ...change }).torque;
    const high = (change: object) => at(change).high;
    expect(high({ locker: 'low' })).toBeGreaterThan(high({}));
    expect(high({ locker: 'medium' })).toBeGreaterThan(high({ locker: 'low' }));
    expect(high({ locker: 'high' })).toBeGreaterThan(high({ locker: 'medium' }));
    expect(high({ locker: 'high', heated: true })).toBeLessThan(high({ locker: 'high' }));
    expect(high({ age: 10 })).toBeCloseTo(1.3 * high({}), 9);
    expect(high({ age: 60 })).toBeCloseTo(1.5 * high({}), 9);
    expect(high({ corroded: true })).toBeCloseTo(2 * high({}), 9);
    expect(at({ age: 10 }).low).toBe(at({}).low);
  });

  test('the film is its shear over the thread: a cylinder of the same area and lever', () => {
    const { low, high } = lockerHold('medium', 0.01, 0.012);
    const area = Math.PI * 0.01 * 0.012;
    expect(low).toBeCloseTo(0.3 * 5e6 * area * 0.005, 9);
    expect(high).toBeCloseTo(0.8 * 12e6 * area * 0.005, 9);
  });

  test('every figure names its source, estimates marked', () => {
    const { sources } = undoTorque({ fitted: FITTED, locker: 'high', age: 5 });
    expect(sources).toHaveLength(3);
    expect(sources.every(({ fromMemory }) => fromMemory)).toBe(true);
  });

  test('figures that cannot be', () => {
    expect(() => undoTorque({ fitted: { low: 11, high: 9 }, locker: null })).toThrow(
      'fitted.low must not be above',
    );
    expect(() => undoTorque({ fitted: FITTED, locker: 'high', diameter: 0.006 })).toThrow('given together');
    expect(() => undoTorque({ fitted: FITTED, locker: null, age: -1 })).toThrow(
      'age must be from 0 to 100, got -1',
    );
    expect(() => lockerHold('low', 0, 0.01)).toThrow('diameter must be');
  });
});
