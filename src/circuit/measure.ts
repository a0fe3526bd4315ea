/** From what a run of the stepper summed up to what the meters would show. */
import type { Bike, OperatingPoint } from './bike.ts';
import { batteryAmps, type DcSide } from './network.ts';
import type { Waveform } from './stepper.ts';

/** Sums of the measured cycles. */
export interface Run {
  readonly branches: number;
  /** Steps measured. */
  readonly kept: number;
  /** Battery volts of every step measured, but for a constant, V. */
  readonly record: Float64Array;
  /** Sum of the squares of each phase current over the steps, A². */
  readonly squares: Float64Array;
  /** Means over the steps: regulator volts, V, output amps, A, battery's inner volts, V. */
  readonly regulatorVolts: number;
  readonly amps: number;
  readonly inner: number;
  /** Mean of the amps that the slow part of the battery lets through, A. */
  readonly held: number;
  /** Mean amps from a touching winding into the frame, which come back to the regulator through its ground, A. */
  readonly touch: number;
  /** Whether the regulator was at work. */
  readonly chopped: boolean;
}

/** What the meters would show. */
export function measure(bike: Bike, side: DcSide, run: Run): OperatingPoint {
  let mid = 0;
  for (let n = 0; n < run.kept; n++) mid += run.record[n]! / run.kept;
  let absolute = 0;
  let square = 0;
  for (let n = 0; n < run.kept; n++) {
    const d = run.record[n]! - mid;
    absolute += Math.abs(d);
    square += d * d;
  }
  // Chopping leaves the mean current of a few cycles run.amps (a cycle conducts or it does not), while the slow volts
  // have integrated it since the start: the current that holds them steady is the better mean.
  let mean = run.amps;
  if (run.chopped) mean = Math.max(0, (run.held + run.inner * side.siemensShare) / side.ampShare);
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
    rippleRms: Math.sqrt(square / run.kept),
    rippleMeter: (1.11 * absolute) / run.kept,
    dropPositive:
      mean * (bike.outputJointOhm + bike.outputWireOhm) +
      breakerAmps * bike.breakerOhm +
      ib * bike.positivePostOhm,
    dropNegative: ib * bike.negativePostOhm + (mean + run.touch) * bike.groundOhm,
    dropBreaker: breakerAmps * bike.breakerOhm,
    dropOutputJoint: mean * bike.outputJointOhm,
    pinVolts: pins,
  };
}

/** Adds one step to a waveform. */
export function sampleWave(
  wave: Waveform,
  seconds: number,
  amps: Float64Array,
  branches: number,
  regulatorVolts: number,
  batteryVolts: number,
): void {
  wave.time.push(seconds);
  for (let k = 0; k < 3; k++) wave.phaseAmps[k]!.push(k < branches ? amps[k]! : 0);
  wave.regulatorVolts.push(regulatorVolts);
  wave.batteryVolts.push(batteryVolts);
}
