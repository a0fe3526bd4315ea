/** From what a run of the stepper summed up to what the meters would show. */
import type { Bike, OperatingPoint } from './bike.ts';
import { ampsFor, batteryAmps, type DcSide } from './network.ts';

/** Sums of the measured cycles. */
export interface Run {
  readonly branches: number;
  /** Steps measured. */
  readonly kept: number;
  /** Output amps of every step measured, A. */
  readonly record: Float64Array;
  /** Sum of the squares of each phase current over the steps, A². */
  readonly squares: Float64Array;
  /** Means over the steps: regulator volts, V, output amps, A, battery's inner volts, V. */
  readonly regulatorVolts: number;
  readonly amps: number;
  readonly inner: number;
  /** Whether the regulator was at work. */
  readonly chopped: boolean;
}

/** What the meters would show. */
export function measure(bike: Bike, side: DcSide, run: Run): OperatingPoint {
  let absolute = 0;
  let square = 0;
  for (let n = 0; n < run.kept; n++) {
    const d = run.record[n]! - run.amps;
    absolute += Math.abs(d);
    square += d * d;
  }
  const perAmp = bike.batteryOhm * side.ampShare;
  // Chopping leaves the mean current of a few cycles run.amps (a cycle conducts or it does not), while the slow volts
  // have integrated it since the start: the current that holds them steady is the better mean.
  let mean = run.amps;
  if (run.chopped)
    mean = Math.max(0, (ampsFor(bike, run.inner) + run.inner * side.siemensShare) / side.ampShare);
  const ib = batteryAmps(side, mean, run.inner);
  const breakerAmps = bike.loadsFedFrom === 'battery' ? mean : ib;
  const rms: [number, number, number] = [0, 0, 0];
  const pins: [number, number, number] = [0, 0, 0];
  for (let k = 0; k < run.branches; k++) {
    rms[k] = Math.sqrt(run.squares[k]! / run.kept);
    pins[k] = rms[k]! * bike.pinOhm[k]!;
  }
  return {
    batteryVolts: run.inner + bike.batteryOhm * ib,
    regulatorVolts: run.regulatorVolts + (mean - run.amps) * (side.ohm + side.groundOhm),
    alternatorAmps: mean,
    batteryAmps: ib,
    phaseAmps: rms,
    rippleRms: perAmp * Math.sqrt(square / run.kept),
    rippleMeter: (1.11 * perAmp * absolute) / run.kept,
    dropPositive:
      mean * (bike.outputJointOhm + bike.outputWireOhm) +
      breakerAmps * bike.breakerOhm +
      ib * bike.positivePostOhm,
    dropNegative: ib * bike.negativePostOhm + mean * bike.groundOhm,
    dropBreaker: breakerAmps * bike.breakerOhm,
    dropOutputJoint: mean * bike.outputJointOhm,
    pinVolts: pins,
  };
}
