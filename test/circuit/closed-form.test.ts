import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/circuit/bike.ts';
import { balancedPoint, bridgeAmps, continuousAmps, isBalanced } from '../../src/circuit/closed-form.ts';
import { stepPoint } from '../../src/circuit/stepper.ts';
import { MACHINE_A, MACHINE_B, running } from '../reference/ngspice-machines.ts';

const PI = Math.PI;

/** Fine enough that the stepper's own error is a tenth of what is asked here. */
const VERY_FINE = { steps: 960, settle: 60, measure: 6 };

function unregulated(bike: Bike): Bike {
  return { ...bike, setVolts: Number.POSITIVE_INFINITY };
}

describe('continuousAmps', () => {
  it.each([
    [0, 1e-12],
    [1e-9, 1e-6],
    [1e-6, 1e-5],
    [1e-5, 1e-4],
  ])('falls to the lossless limit as R → 0 (R/X = %d)', (ratio, relative) => {
    const [emf, x, v] = [40, 1.1, 15.5];
    const three = (3 / (PI * x)) * Math.sqrt(emf ** 2 - ((2 * PI * v) / 9) ** 2);
    const one = (2 / (PI * x)) * Math.sqrt(emf ** 2 - ((PI * v) / 2) ** 2);
    expect(Math.abs(continuousAmps(3, emf, x, ratio * x, v) / three - 1)).toBeLessThanOrEqual(relative);
    expect(Math.abs(continuousAmps(1, emf, x, ratio * x, v) / one - 1)).toBeLessThanOrEqual(relative);
  });

  it('is smooth where the series of γ takes over', () => {
    for (const phases of [1, 3] as const) {
      // u = πR/3X or πR/X crosses 1e-3 here.
      const at = phases === 3 ? 3e-3 / PI : 1e-3 / PI;
      const below = continuousAmps(phases, 40, 1, at * (1 - 1e-9), 15);
      const above = continuousAmps(phases, 40, 1, at * (1 + 1e-9), 15);
      expect(Math.abs(above / below - 1)).toBeLessThan(1e-7);
    }
  });

  it('gives nothing while the EMF stays under the DC volts', () => {
    expect(continuousAmps(3, 10 / Math.sqrt(3), 1, 0.1, 10.0001)).toBe(0);
    expect(continuousAmps(1, 10, 1, 0.1, 10.0001)).toBe(0);
    expect(bridgeAmps(1, 0, 1, 0.1, 10)).toBe(0);
  });

  it('does not speak where the current comes in pulses', () => {
    expect(continuousAmps(3, 6, 0.3, 0.1, 10)).toBeNaN();
    expect(continuousAmps(1, 11, 0.3, 0.1, 10)).toBeNaN();
  });

  it('refuses values that mean nothing', () => {
    expect(() => continuousAmps(3, 10, 0, 0.1, 10)).toThrow(/reactance must be above 0 Ω, got 0/);
    expect(() => continuousAmps(3, 10, 1, -0.1, 10)).toThrow(RangeError);
    expect(() => continuousAmps(3, 10, 1, 0.1, 0)).toThrow(RangeError);
    expect(() => continuousAmps(3, Number.NaN, 1, 0.1, 10)).toThrow(RangeError);
  });
});

describe('bridgeAmps', () => {
  it('joins its pieces: no current, pulses, two and three phases, continuous', () => {
    for (const phases of [1, 3] as const) {
      let last = 0;
      let biggest = 0;
      for (let emf = 5; emf < 30; emf += 0.002) {
        const amps = bridgeAmps(phases, emf, 0.3, 0.1, 10);
        expect(amps).toBeGreaterThanOrEqual(last - 1e-9);
        biggest = Math.max(biggest, amps - last);
        last = amps;
      }
      // 2 mV more of EMF are worth 2 mV over the impedance at the most, times the form of the current.
      expect(biggest).toBeLessThan(0.03);
    }
  });
});

describe('balancedPoint', () => {
  it.each([500, 650, 700, 800, 900, 1000, 1500, 3000, 5000])('agrees with time-stepping at %d rpm', (rpm) => {
    for (const bike of [unregulated(MACHINE_A), unregulated(MACHINE_B)]) {
      const exact = balancedPoint(bike, running(rpm));
      const stepped = stepPoint(bike, running(rpm), VERY_FINE);
      expect(exact.ok).toBe(true);
      if (!exact.ok) continue;
      expect(Math.abs(exact.batteryVolts - stepped.batteryVolts)).toBeLessThan(0.02);
      expect(Math.abs(exact.alternatorAmps - stepped.alternatorAmps)).toBeLessThan(0.08);
      expect(Math.abs(exact.batteryAmps - stepped.batteryAmps)).toBeLessThan(0.08);
      expect(Math.abs(exact.regulatorVolts - stepped.regulatorVolts)).toBeLessThan(0.02);
    }
  });

  it('keeps its own books: loads, battery and alternator balance on every slope of the battery', () => {
    const gassing = { ...unregulated(MACHINE_A), gasVolts: 14.4, gasOhm: 0.07 };
    for (const bike of [
      gassing,
      { ...gassing, restVolts: 11 },
      { ...gassing, loadsFedFrom: 'regulator' as const, breakerOhm: 0.05 },
    ]) {
      for (let rpm = 300; rpm <= 6000; rpm += 100) {
        const p = balancedPoint(bike, running(rpm));
        if (!p.ok) throw new Error(p.why);
        const slow = p.batteryVolts - bike.batteryOhm * p.batteryAmps - bike.restVolts;
        const span = bike.gasVolts - bike.restVolts;
        const held =
          slow < 0
            ? slow / bike.dischargeOhm
            : slow < span
              ? slow / bike.chargeOhm
              : span / bike.chargeOhm + (slow - span) / bike.gasOhm;
        expect(Math.abs(held - p.batteryAmps)).toBeLessThan(1e-6);
        const loads = p.alternatorAmps - p.batteryAmps;
        const atLoads = loads / bike.ignitionSiemens;
        expect(Math.abs(atLoads - p.batteryVolts)).toBeLessThan(
          bike.breakerOhm * Math.abs(p.batteryAmps) + 1e-9,
        );
      }
    }
  });

  it('leaves a working regulator and unequal phases to the stepper', () => {
    expect(balancedPoint(MACHINE_A, running(3000))).toEqual({ ok: false, why: 'regulating' });
    expect(balancedPoint({ ...MACHINE_A, pinOhm: [0.2, 0, 0] }, running(900))).toEqual({
      ok: false,
      why: 'unbalanced',
    });
    expect(isBalanced({ ...MACHINE_A, upper: ['open', 'sound', 'sound'] })).toBe(false);
    expect(isBalanced({ ...MACHINE_A, coreShort: { phase: 0, fraction: 1, ohm: 0 } })).toBe(false);
    expect(isBalanced({ ...MACHINE_A, gate: 'dead' })).toBe(false);
    expect(isBalanced(MACHINE_B)).toBe(true);
  });

  it('never speaks at a point where the stepped regulator acts', () => {
    for (const bike of [MACHINE_A, MACHINE_B]) {
      for (let rpm = 800; rpm <= 1800; rpm += 100) {
        const exact = balancedPoint(bike, running(rpm));
        if (!exact.ok) continue;
        const free = stepPoint(bike, running(rpm), { steps: 120, settle: 24, measure: 16 });
        expect(Math.abs(exact.batteryVolts - free.batteryVolts)).toBeLessThan(0.05);
      }
    }
  });
});
