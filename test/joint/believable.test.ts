/** Torques that can be meant, torques that cannot, and the unit that was. */
import { describe, expect, test } from 'vitest';
import { type EnteredTorque, judgeTorque, judgingNutFactor } from '../../src/joint/believable.ts';
import { FRICTIONS, frictionById } from '../../src/joint/friction.ts';
import { gradeById, type Strength, strengthOf } from '../../src/joint/grade.ts';
import { materialById } from '../../src/joint/material.ts';
import { readThread } from '../../src/joint/read-thread.ts';
import { stressArea, type Thread } from '../../src/joint/thread.ts';
import { THREADS } from '../../src/joint/thread-table.ts';
import type { TorqueUnit } from '../../src/joint/unit-hint.ts';
import { quantity } from '../../src/units/quantity.ts';

function thread(text: string): Thread {
  const read = readThread(text);
  if (!read.ok) throw new Error(read.why);
  return read.thread;
}

function strength(id: string, of: Thread): Strength {
  const found = strengthOf(gradeById(id), of.diameter);
  if (!found.ok) throw new Error(found.why);
  return found.strength;
}

function enter(
  value: number | readonly [number, number],
  unit: TorqueUnit,
  size: string,
  grade: string | null,
  more: Partial<EnteredTorque> = {},
): EnteredTorque {
  const [low, high] = typeof value === 'number' ? [value, value] : value;
  const of = thread(size);
  return {
    torque: { low: quantity('torque', low, unit).si, high: quantity('torque', high, unit).si },
    unit,
    thread: of,
    strength: grade === null ? null : strength(grade, of),
    material: null,
    engaged: null,
    ...more,
  };
}

const INTO_CAST = { material: materialById('die-cast-380'), engaged: 0.009 };

describe('verdicts', () => {
  test.each([
    [enter(25, 'N·m', 'M8', '8.8'), 'fits', []],
    [enter([7, 9], 'lbf·ft', '1/4-20', 'a574'), 'fits', []],
    [enter(90, 'lbf·ft', 'M8', '8.8'), 'impossible', ['proof']],
    [enter(30, 'N·m', 'M8', '8.8'), 'danger', ['proof']],
    [enter(1, 'N·m', 'M8', '8.8'), 'low', ['proof']],
    // Strong screw, little thread in aluminium: the thread is what gives way.
    [
      enter(16, 'N·m', 'M6', '12.9', { material: INTO_CAST.material, engaged: 0.003 }),
      'impossible',
      ['strip'],
    ],
    [enter(10, 'N·m', 'M6', '12.9', { ...INTO_CAST, engaged: 0.006 }), 'danger', ['strip']],
    [enter(10, 'N·m', 'M6', '12.9', { ...INTO_CAST, engaged: 0.014 }), 'fits', []],
  ] as const)('%# is %s', (entry, verdict, because) => {
    const found = judgeTorque(entry);
    expect(found.verdict).toBe(verdict);
    expect(found.because).toEqual(because);
    expect(found.says).not.toMatch(/NaN|undefined|null|Infinity/);
  });

  test('thresholds stand where they are said to stand', () => {
    const m8 = thread('M8');
    const screw = strength('8.8', m8);
    const proof = 0.008 * stressArea(m8) * screw.proof;
    const at = (torque: number) =>
      judgeTorque({
        ...enter(1, 'N·m', 'M8', '8.8'),
        torque: { low: torque, high: torque },
        k: { low: 0.1, high: 0.2 },
      }).verdict;
    expect(at(0.2 * proof * 1.001)).toBe('impossible');
    expect(at(0.2 * proof * 0.999)).toBe('danger');
    expect(at(0.1 * proof * 0.901)).toBe('danger');
    expect(at(0.1 * proof * 0.899)).toBe('fits');
    expect(at(0.1 * proof * 0.101)).toBe('fits');
    expect(at(0.1 * proof * 0.099)).toBe('low');
  });

  test('more torque is never judged milder', () => {
    const order = ['low', 'fits', 'danger', 'impossible'];
    for (const each of THREADS) {
      let last = 0;
      for (let torque = 0.05; torque < 40_000; torque *= 1.3) {
        const { verdict } = judgeTorque({
          torque: { low: torque, high: torque },
          unit: 'N·m',
          thread: each,
          strength: null,
          material: INTO_CAST.material,
          engaged: 1.5 * each.diameter,
        });
        expect(order.indexOf(verdict)).toBeGreaterThanOrEqual(last);
        last = order.indexOf(verdict);
      }
      expect(order[last]).toBe('impossible');
    }
  });

  test('book torques of three quarters of the proof load fit in whatever condition', () => {
    for (const { id } of FRICTIONS) {
      const k = judgingNutFactor(frictionById(id));
      expect(k.low).toBeLessThanOrEqual(k.high);
      expect(judgeTorque(enter(25, 'N·m', 'M8', '8.8', { k })).verdict, id).toBe('fits');
    }
  });

  test('a range is judged by its high end', () => {
    expect(judgeTorque(enter([10, 90], 'N·m', 'M8', '8.8')).verdict).toBe('impossible');
  });

  test('with no grade known only what no screw bears is too much', () => {
    const found = judgeTorque(enter(30, 'N·m', 'M8', null));
    expect(found).toMatchObject({ verdict: 'fits', gradeKnown: false, hints: [] });
    const over = judgeTorque(enter(90, 'lbf·ft', 'M8', null));
    expect(over.verdict).toBe('impossible');
    expect(over.says).toContain('even the strongest screw (ISO 898-1 class 12.9)');
  });
});

describe('unit hints', () => {
  test.each([
    [enter(35, 'lbf·ft', '1/4-20', 'a574'), ['lbf·in']],
    [enter(35, 'N·m', '1/4-20', 'a574'), ['lbf·in']],
    [enter(9, 'lbf·in', '1/4-20', 'a574'), ['lbf·ft', 'N·m']],
    [enter(25, 'lbf·in', 'M8', '8.8'), ['N·m']],
    [enter(25, 'N·m', 'M8', '8.8'), []],
  ] as const)('%# names %j', (entry, meant) => {
    const found = judgeTorque(entry);
    expect(found.hints.map((hint) => hint.meant)).toEqual(meant);
    for (const hint of found.hints) {
      expect(hint.proof).toBeGreaterThanOrEqual(0.15);
      expect(hint.proof).toBeLessThanOrEqual(0.75);
      expect(found.says).toContain(`Is ${hint.meant} meant?`);
      expect(hint.entered).toBe(entry.unit);
    }
  });

  test('the same figure in the other unit, never a corrected one', () => {
    const entry = enter(35, 'lbf·ft', '1/4-20', 'a574');
    const [hint] = judgeTorque(entry).hints;
    expect(hint!.torque.high).toBeCloseTo(quantity('torque', 35, 'lbf·in').si, 12);
    expect(entry.torque.high / hint!.torque.high).toBeCloseTo(12, 12);
    expect(hint!.says).toBe('Is lbf·in meant? 35 lbf·in would take up 15.7 % of the proof load at K = 0.2.');
  });

  test('factors are 12, 8.851 and 1.356', () => {
    const figures = Array.from({ length: 60 }, (_, index) => 0.1 * 1.2 ** index);
    const factors = (['lbf·ft', 'lbf·in', 'N·m'] as const).flatMap((unit) =>
      figures.flatMap((value) => {
        const entry = enter(value, unit, 'M8', '8.8');
        return judgeTorque(entry).hints.map((hint) => entry.torque.high / hint.torque.high);
      }),
    );
    // All three, either way round.
    expect(new Set(factors.map((factor) => factor.toFixed(3))).size).toBe(6);
    for (const factor of factors) {
      const big = Math.max(factor, 1 / factor);
      expect(Math.min(...[12, 8.851, 1.356].map((each) => Math.abs(big - each)))).toBeLessThan(0.0005);
    }
  });

  test('none for the common torque of exactly three quarters of the proof load', () => {
    for (const each of THREADS.filter(({ series }) => /^(?:coarse|UNC|UNF)$/.test(series))) {
      const screw = strength(each.system === 'inch' ? 'a574' : '10.9', each);
      const torque = 0.75 * screw.proof * stressArea(each) * 0.2 * each.diameter;
      const found = judgeTorque({
        ...enter(1, 'N·m', 'M8', '8.8'),
        thread: each,
        strength: screw,
        torque: { low: torque, high: torque },
      });
      expect(found).toMatchObject({ verdict: 'fits', hints: [] });
    }
  });

  test('none for an entry in another unit', () => {
    expect(judgeTorque({ ...enter(35, 'lbf·ft', '1/4-20', 'a574'), unit: null }).hints).toEqual([]);
  });
});

describe('what cannot be throws', () => {
  const good = enter(25, 'N·m', 'M8', '8.8');
  test.each([
    [{ torque: { low: 0, high: 0 } }, /torque.low must be a finite number above 0, got 0/],
    [{ torque: { low: 1, high: Number.NaN } }, /torque.high/],
    [{ torque: { low: 2, high: 1 } }, /torque.low must not be above/],
    [{ engaged: 0 }, /engaged must be/],
    [{ engaged: -0.01 }, /engaged must be/],
    [{ k: { low: 0, high: 0.3 } }, /k.low/],
  ])('%j', (wrong, message) => {
    expect(() => judgeTorque({ ...good, ...wrong })).toThrow(RangeError);
    expect(() => judgeTorque({ ...good, ...wrong })).toThrow(message);
  });
});
