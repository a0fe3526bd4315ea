import { describe, expect, it } from 'vitest';
import type { Bike, PerPhase } from '../../src/circuit/bike.ts';
import { continuousAmps } from '../../src/circuit/closed-form.ts';
import { stepPoint } from '../../src/circuit/stepper.ts';
import type { Phase } from '../../src/circuit/unbalanced.ts';
import { unbalancedAmps } from '../../src/circuit/unbalanced.ts';
import { MACHINE_A, running } from '../reference/ngspice-machines.ts';

const VOLTS = 13.8;

/** Machine A on a battery of constant volts with nothing in between. */
function onConstantVolts(emf: PerPhase, ohm: PerPhase, henry: PerPhase): Bike {
  return {
    ...MACHINE_A,
    emfPerRpm: emf,
    ohm,
    henry,
    setVolts: Number.POSITIVE_INFINITY,
    restVolts: VOLTS,
    batteryOhm: 1e-9,
    chargeOhm: 1e-9,
    dischargeOhm: 1e-9,
    slowFarad: 1e9,
    outputWireOhm: 0,
    groundOhm: 0,
    ignitionSiemens: 0,
  };
}

function phases(bike: Bike, rpm: number): [Phase, Phase, Phase] {
  const omega = (2 * Math.PI * bike.polePairs * rpm) / 60;
  const phase = (k: 0 | 1 | 2): Phase => ({
    emf: bike.emfPerRpm[k] * rpm,
    reactance: omega * bike.henry[k],
    ohm: bike.ohm[k] + bike.diodeOhm,
  });
  return [phase(0), phase(1), phase(2)];
}

const E = MACHINE_A.emfPerRpm[0];
const FAULTY: Record<string, Bike> = {
  'one pin 0.5 Ω': onConstantVolts([E, E, E], [0.6, 0.1, 0.1], [6e-4, 6e-4, 6e-4]),
  'half of a shorted': onConstantVolts([E / 2, E, E], [0.05, 0.1, 0.1], [3e-4, 6e-4, 6e-4]),
  'all unequal': onConstantVolts([0.9 * E, E, 1.05 * E], [0.6, 0.4, 0.25], [5e-4, 6e-4, 7e-4]),
  'no resistance': onConstantVolts([E, 0.9 * E, E], [-0.007, -0.007, -0.007], [6e-4, 5e-4, 6e-4]),
};

describe('unbalancedAmps', () => {
  it('is the closed form when the phases are equal', () => {
    for (const rpm of [1000, 1500, 3000, 5000]) {
      const [a, b, c] = phases(onConstantVolts([E, E, E], [0.1, 0.1, 0.1], [6e-4, 6e-4, 6e-4]), rpm);
      const found = unbalancedAmps(a, b, c, VOLTS + 1.68);
      expect(found.continuous).toBe(true);
      expect(Math.abs(found.amps - continuousAmps(3, a.emf, a.reactance, a.ohm, VOLTS + 1.68))).toBeLessThan(
        1e-6,
      );
    }
  });

  it.each(Object.keys(FAULTY))('agrees with time-stepping: %s', (name) => {
    const bike = FAULTY[name]!;
    for (const rpm of [1500, 3000, 5000]) {
      const [a, b, c] = phases(bike, rpm);
      const found = unbalancedAmps(a, b, c, VOLTS + 1.68);
      const stepped = stepPoint(bike, running(rpm), { steps: 960, settle: 40, measure: 2 });
      expect(found.continuous).toBe(true);
      expect(Math.abs(found.amps - stepped.alternatorAmps)).toBeLessThan(0.03);
    }
  });

  it('does not care which phase comes first', () => {
    const [a, b, c] = phases(FAULTY['all unequal']!, 3000);
    const one = unbalancedAmps(a, b, c, 15.48);
    const two = unbalancedAmps(b, c, a, 15.48);
    expect(Math.abs(one.amps - two.amps)).toBeLessThan(1e-6);
    expect(Math.abs(one.phases[1] - two.phases[0])).toBeLessThan(1e-6);
  });

  it('says so where a current rests for part of the cycle', () => {
    const [a, b, c] = phases(FAULTY['half of a shorted']!, 1000);
    expect(unbalancedAmps(a, b, c, 15.48).continuous).toBe(false);
    const [d, e, f] = phases(onConstantVolts([E, E, E], [0.1, 0.1, 0.1], [6e-4, 6e-4, 6e-4]), 900);
    expect(unbalancedAmps(d, e, f, 15.48).continuous).toBe(false);
  });

  it('never claims continuity where the answer is wrong', () => {
    let claimed = 0;
    for (let n = 0; n < 60; n++) {
      // A spread of machines without a random source: irrational strides.
      const at = (k: number) =>
        (n * [0.618034, 0.414214, 0.732051, 0.236068, 0.645751, 0.316625, 0.872983][k]!) % 1;
      const bike = onConstantVolts(
        [E * (0.5 + 0.5 * at(0)), E, E * (0.8 + 0.2 * at(1))],
        [0.05 + 0.6 * at(2), 0.1, 0.05 + 0.3 * at(3)],
        [4e-4 + 2e-4 * at(4), 6e-4, 6e-4],
      );
      const rpm = 800 + 2400 * at(5);
      const [a, b, c] = phases(bike, rpm);
      const found = unbalancedAmps(a, b, c, VOLTS + 1.68);
      if (!found.continuous) continue;
      claimed++;
      const stepped = stepPoint(bike, running(rpm), { steps: 480, settle: 40, measure: 2 });
      expect(Math.abs(found.amps - stepped.alternatorAmps)).toBeLessThan(0.06);
    }
    expect(claimed).toBeGreaterThan(20);
  });

  it('refuses values that mean nothing', () => {
    const [a, b, c] = phases(FAULTY['all unequal']!, 3000);
    expect(() => unbalancedAmps({ ...a, reactance: 0 }, b, c, 15)).toThrow(
      /reactance must be above 0 Ω, got 0/,
    );
    expect(() => unbalancedAmps(a, { ...b, ohm: -1 }, c, 15)).toThrow(RangeError);
    expect(() => unbalancedAmps(a, b, c, 0)).toThrow(RangeError);
  });
});
