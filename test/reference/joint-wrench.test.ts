/** The wrench, against handbooks of the US Army and Navy. */
import { describe, expect, test } from 'vitest';
import { handForce, PUSH_GUIDE } from '../../src/joint/hand-force.ts';
import { torqueAtScrew, wrenchSetting } from '../../src/joint/wrench.ts';
import { planWrench } from '../../src/joint/wrench-plan.ts';
import { rangePlace, wrenchAccuracy } from '../../src/joint/wrench-scale.ts';
import { inUnit, type Quantity, quantity } from '../../src/units/quantity.ts';
import type { UnitOf } from '../../src/units/table.ts';

function si(value: number, unit: UnitOf<'torque'>): number {
  return quantity('torque', value, unit).si;
}

function inch(value: number): number {
  return quantity('length', value, 'in').si;
}

function set(torque: number, unit: UnitOf<'torque'>, length: number, adapter: number, degrees = 0): number {
  const lever = { length: inch(length), adapter: inch(adapter), angle: (degrees * Math.PI) / 180 };
  const found = wrenchSetting(si(torque, unit), lever);
  if (!found.ok) throw new Error(found.why);
  const of: Quantity<'torque'> = { kind: 'torque', si: found.set };
  return inUnit(of, unit);
}

describe('setting with an adapter', () => {
  test('US Army TM 1-1500-204-23-9: 300 lbf·in, 10 in and 4 in: 214.3', () => {
    expect(set(300, 'lbf·in', 10, 4)).toBeCloseTo(214.3, 1);
  });

  test('US Navy training text: 100 lbf·in, 12 in and 6 in: 66.7', () => {
    expect(set(100, 'lbf·in', 12, 6)).toBeCloseTo(66.7, 1);
  });

  test('US Army TM 5-3805-274-13&P: 19 lbf·ft, 22 in and 3 in: 16.72, printed 17', () => {
    expect(set(19, 'lbf·ft', 22, 3)).toBeCloseTo(16.72, 2);
    expect(Math.round(set(19, 'lbf·ft', 22, 3))).toBe(17);
  });

  test('computed from the formula: 100, 18 in and 2 in at 45°: 92.72', () => {
    expect(set(100, 'lbf·ft', 18, 2, 45)).toBeCloseTo(92.72, 2);
  });

  test('US Army TM 9-254, the inverse: set 60 lbf·in, 12 in and 2 in: the screw gets 70', () => {
    const found = torqueAtScrew(si(60, 'lbf·in'), { length: inch(12), adapter: inch(2) });
    if (!found.ok) throw new Error(found.why);
    expect(inUnit({ kind: 'torque', si: found.torque }, 'lbf·in')).toBeCloseTo(70, 9);
  });

  test('at 90° no correction, at 180° the adapter is taken off the wrench (the formula)', () => {
    expect(set(50, 'N·m', 12, 3, 90)).toBeCloseTo(50, 9);
    expect(set(50, 'N·m', 12, 3, 180)).toBeCloseTo((50 * 12) / 9, 9);
  });
});

describe('range and accuracy', () => {
  test('US Army TM 1-1500-204-23-9: usable from 20 to 100 % of full scale, best from 30 to 80 %', () => {
    const at = (percent: number) => {
      const found = rangePlace(percent, 100);
      return found.ok ? found.place : 'refused';
    };
    expect([19.9, 20, 29.9, 30, 80, 80.1, 100, 100.1].map(at)).toEqual([
      'refused',
      'usable',
      'usable',
      'best',
      'best',
      'usable',
      'usable',
      'refused',
    ]);
  });

  test('ISO 6789:2003 (from memory): ±6 % to 10 N·m full scale, ±4 % above', () => {
    expect([5, 10, 10.1, 200].map(wrenchAccuracy)).toEqual([0.06, 0.06, 0.04, 0.04]);
  });

  test('FAA AC 43.13-1B §7-40: running torque is added to the target', () => {
    const plan = planWrench(
      { torque: si(50, 'lbf·in'), drag: si(8, 'lbf·in') },
      { name: 'small', fullScale: si(150, 'lbf·in'), length: inch(10) },
    );
    if (!plan.ok) throw new Error(plan.why);
    expect(inUnit({ kind: 'torque', si: plan.set }, 'lbf·in')).toBeCloseTo(58, 9);
  });
});

describe('hand force', () => {
  test('computed: 165 lbf·ft on 24 in takes 82.5 lbf', () => {
    const force: Quantity<'force'> = { kind: 'force', si: handForce(si(165, 'lbf·ft'), inch(24)) };
    expect(inUnit(force, 'lbf')).toBeCloseTo(82.5, 9);
  });

  test('guide for a level push, a secondary source: 225 N, about 50 lbf', () => {
    expect(PUSH_GUIDE).toBe(225);
    expect(Math.abs(inUnit({ kind: 'force', si: PUSH_GUIDE }, 'lbf') - 50)).toBeLessThan(1);
  });
});
