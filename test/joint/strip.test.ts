/** What gives way first. */
import { describe, expect, test } from 'vitest';
import { gradeById, type Strength, strengthOf } from '../../src/joint/grade.ts';
import { materialById } from '../../src/joint/material.ts';
import {
  equalStrengthLength,
  externalShearArea,
  failure,
  failureTorque,
  internalShearArea,
  lengthToBreakScrew,
  strengthRatio,
} from '../../src/joint/strip.ts';
import { makeThread, type Thread } from '../../src/joint/thread.ts';
import { THREADS } from '../../src/joint/thread-table.ts';

const M6 = makeThread(0.006, 0.001);
const CAST = materialById('die-cast-380');

function strength(id: string, thread: Thread = M6): Strength {
  const found = strengthOf(gradeById(id), thread.diameter);
  if (!found.ok) throw new Error(found.why);
  return found.strength;
}

describe('shear areas', () => {
  test.each(THREADS.map((thread) => [thread.name, thread] as const))('%s', (_, thread) => {
    const d = thread.diameter;
    const external = externalShearArea(thread, d);
    const internal = internalShearArea(thread, d);
    // Between half and all of the cylinder on which the thread would shear: no thread is thicker than its pitch.
    const cylinder = Math.PI * d * d;
    expect(external / cylinder).toBeGreaterThan(0.3);
    expect(internal / cylinder).toBeLessThan(0.9);
    // The tapped thread shears further out, so on more.
    expect(internal).toBeGreaterThan(external);
    expect(internalShearArea(thread, 2 * d)).toBeCloseTo(2 * internal, 12);
  });
});

describe('the weaker side', () => {
  test('goes from the tapped thread to the screw as the engagement grows', () => {
    const screw = strength('12.9');
    expect(failure(M6, screw, CAST, 0.006).weaker).toBe('internal');
    expect(failure(M6, screw, CAST, 0.018).weaker).toBe('screw');
  });

  test('is the thread of a soft screw in a hard part', () => {
    const soft = strength('4.6');
    expect(failure(M6, soft, materialById('nut-class-10'), 0.002).weaker).toBe('external');
  });

  test.each(['12.9', '8.8', 'A2-70'])('%s: at the length to break the screw, both sides are equal', (id) => {
    const screw = strength(id);
    const { low, high } = lengthToBreakScrew(M6, screw, CAST);
    expect(low).toBeLessThanOrEqual(high);
    const cautious = failure(M6, screw, CAST, high);
    expect(cautious.internal.low / cautious.screw).toBeCloseTo(1, 9);
    const less = failure(M6, screw, CAST, high * 0.99);
    expect(less.internal.low).toBeLessThan(less.screw);
    expect(less.load.low).toBe(less.internal.low);
  });
});

describe('FED-STD-H28 length', () => {
  test('grows with J, and J with the strength of the screw', () => {
    const screw = strength('12.9');
    const j = strengthRatio(M6, screw.tensile, CAST.tensile);
    expect(j).toBeGreaterThan(1);
    const matched = equalStrengthLength(M6, screw.tensile, screw.tensile);
    expect(equalStrengthLength(M6, screw.tensile, CAST.tensile) / matched).toBeCloseTo(j, 12);
    // In a part as strong as itself a screw needs less than a diameter: nuts are 0.8 d high.
    expect(matched / M6.diameter).toBeGreaterThan(0.5);
    expect(matched / M6.diameter).toBeLessThan(0.8);
  });

  test('aluminium asks for one and a half to two diameters under a socket screw (common practice)', () => {
    const coarse = THREADS.filter(
      ({ diameter, series }) => diameter >= 0.005 && diameter <= 0.0127 && /^(?:coarse|UNC)$/.test(series),
    );
    expect(coarse.length).toBeGreaterThan(10);
    for (const thread of coarse) {
      const inch = thread.system === 'inch';
      const { low, high } = lengthToBreakScrew(thread, strength(inch ? 'a574' : '12.9', thread), CAST);
      expect(low / thread.diameter).toBeGreaterThan(1.4);
      expect(low / thread.diameter).toBeLessThan(2);
      // Half of the tensile strength for the shear is the cautious end: 23 instead of 28 ksi.
      expect(high / low).toBeCloseTo(28 / 23, 9);
    }
  });
});

describe('torque at which it gives way', () => {
  test('is an interval around the usual figure', () => {
    const { torque, usual, weaker } = failureTorque(M6, strength('8.8'), CAST, 0.006, {
      low: 0.12,
      high: 0.3,
    });
    expect(weaker).toBe('internal');
    expect(torque.low).toBeLessThan(usual);
    expect(torque.high).toBeGreaterThan(usual);
    const { load } = failure(M6, strength('8.8'), CAST, 0.006);
    expect(torque.low).toBeCloseTo(load.low * 0.12 * 0.006, 12);
    expect(torque.high).toBeCloseTo(load.high * 0.3 * 0.006, 12);
  });
});

describe('what cannot be throws', () => {
  const screw = strength('8.8');
  test.each([
    ['no engagement', () => internalShearArea(M6, 0), /engaged must be .* above 0, got 0/],
    ['negative engagement', () => externalShearArea(M6, -0.006), /engaged/],
    ['NaN', () => failure(M6, screw, CAST, Number.NaN), /engaged/],
    ['K of nought', () => failureTorque(M6, screw, CAST, 0.006, { low: 0, high: 0.3 }), /k.low/],
    ['no strength', () => strengthRatio(M6, 0, 46), /externalTensile/],
    ['negative strength', () => equalStrengthLength(M6, 180, -1), /internalTensile/],
  ])('%s', (_, call, message) => {
    expect(call).toThrow(RangeError);
    expect(call).toThrow(message);
  });
});
