/** How near the project's solver must come to ngspice, and the shape of the fixtures that hold what ngspice said. */
import type { Bike, OperatingPoint } from '../../src/circuit/bike.ts';
import type { Measured } from './ngspice-measure.ts';

export const TOLERANCE = {
  /** V, when the regulator does nothing. */
  batteryVolts: 0.05,
  /** V, while the regulator is at work. */
  batteryVoltsRegulating: 0.15,
  /** Alternator amps: 3 % or 0.3 A, whichever is more. */
  ampsShare: 0.03,
  amps: 0.3,
} as const;

/**
 * Points, as `machine fault rpm`, where ngspice was only ever seen in another limit cycle than the one our solver shows, by how
 * far the battery volts may then lie apart, V. Our solver reaches ngspice's cycle as well (2.96 A against 4.21 A), from
 * another start.
 */
export const OTHER_CYCLE: Readonly<Record<string, number>> = { 'a-shunt output-joint-0.3 900': 0.05 };

export interface FixturePoint {
  readonly fault: string;
  readonly rpm: number;
  /** Whether the sensed volts came near enough to the set point for the gates to act. */
  readonly regulating: boolean;
  /**
   * Steady states that ngspice settled into, by the start of the regulator's filter. A shunt regulator has more than one
   * limit cycle: further starts were tried only where the first did not agree with the project's solver.
   */
  readonly states: readonly { readonly senseStart: number; readonly measured: Measured }[];
}

export interface Fixture {
  readonly generator: string;
  readonly simulator: string;
  readonly tolerance: typeof TOLERANCE;
  readonly machine: string;
  readonly bike: Bike;
  readonly points: readonly FixturePoint[];
}

/** Whether the regulator has anything to do with this steady state. */
export function isRegulating(bike: Bike, measured: Measured): boolean {
  if (!Number.isFinite(bike.setVolts) || bike.gate === 'dead') return false;
  const sensed =
    bike.senses === 'output'
      ? measured.regulatorVolts
      : measured.batteryVolts + measured.dropNegative - bike.senseLossVolts;
  return sensed > bike.setVolts - 1.5;
}

/** Misses of one comparison in words; empty when the solver agrees. */
export function misses(point: OperatingPoint, measured: Measured, regulating: boolean): string[] {
  const found: string[] = [];
  const volts = regulating ? TOLERANCE.batteryVoltsRegulating : TOLERANCE.batteryVolts;
  const compare = (name: string, ours: number, theirs: number, allowed: number) => {
    if (!(Math.abs(ours - theirs) <= allowed))
      found.push(`${name} ${ours.toFixed(3)} against ${theirs.toFixed(3)}, allowed ±${allowed.toFixed(3)}`);
  };
  compare('batteryVolts', point.batteryVolts, measured.batteryVolts, volts);
  const amps = Math.max(TOLERANCE.amps, TOLERANCE.ampsShare * Math.abs(measured.alternatorAmps));
  compare('alternatorAmps', point.alternatorAmps, measured.alternatorAmps, amps);
  return found;
}
