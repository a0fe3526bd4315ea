/** What lies beyond three faults: bounded, and not by a third of everything where three faults explain all there is. */
import { describe, expect, it } from 'vitest';
import { drawBike } from '../../src/cases/drawn-bike.ts';
import type { Instance } from '../../src/fault/build.ts';
import type { FaultId } from '../../src/fault/catalogue.ts';
import { offeredKeys } from '../../src/reading/offers.ts';
import type { Answer } from '../../src/verdict/answer.ts';
import { openAssessor } from '../../src/verdict/assess.ts';
import { MORE } from '../../src/verdict/sets.ts';

function fault(id: FaultId, severity: number): Instance {
  return { id, severity, second: 0.5, place: { phase: 0, variant: 0 } };
}

function verdictOn(faults: readonly Instance[], share: number): Answer {
  const bike = drawBike(7, { faults, wider: 1 });
  const keys = offeredKeys({
    phases: bike.spec.alternator.phases,
    senses: bike.spec.regulator.senses,
    flooded: bike.spec.battery.chemistry === 'flooded',
  });
  const some = keys.filter((_, n) => n % share === 0).slice(0, 40);
  return openAssessor(bike.spec).assess({
    symptoms: [],
    readings: Object.fromEntries(some.map((key) => [key, bike.read(key)])),
    again: [],
    tools: { clamp: true, loadTester: true, hydrometer: true, supply: true },
  });
}

describe('more than three faults', () => {
  it('with nothing read: no more than was believed before', () => {
    const { beyondThree } = verdictOn([], 1000);
    expect(beyondThree).toBeGreaterThan(0);
    expect(beyondThree).toBeLessThan(3 * MORE);
  });

  it('with three faults found: every further fault is put to them, and little room is left', () => {
    const found = verdictOn(
      [fault('plug-pin', 0.6), fault('battery-worn', 0.8), fault('output-joint', 0.9)],
      1,
    );
    expect(found.sets[0]!.faults).toHaveLength(3);
    expect(found.beyondThree).toBeGreaterThan(1e-4);
    expect(found.beyondThree).toBeLessThan(0.05);
  });

  it('with two faults found and much read: less than one in a hundred', () => {
    const found = verdictOn([fault('plug-pin', 0.6), fault('drain', 0.6)], 1);
    expect(found.beyondThree).toBeLessThan(0.01);
  });
});
