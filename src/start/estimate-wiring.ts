/** Resistance of a run of wire and joints from one drop reading. */
import { about, between, type Estimated, type Input, propagate } from './estimate.ts';

/** A cheap meter on millivolts of a running bike, one deviation: 4 mV and 2 % (its digits, contact, a needle that will not stand; as src/reading/noise.ts). */
const DROP_VOLTS = 0.004;
const DROP_SHARE = 0.02;
/** A clamp meter on DC: one deviation is 0.35 A and 2.5 % (from memory). */
const CLAMP_AMPS = 0.35;
const CLAMP_SHARE = 0.025;

/** Amps read with a clamp around the same wire, A. */
export function clampAmps(amps: number): Input {
  if (!(amps > 0)) throw new RangeError(`amps must be above 0, got ${amps}`);
  return about('the clamp meter', amps, Math.min(0.9 * amps, 1.96 * (CLAMP_AMPS + CLAMP_SHARE * amps)));
}

/**
 * Amps through the output lead of a running bike where nobody has a clamp, A: what is switched on, and up to
 * `fillAmps` into the battery beside; never more than the alternator's rating.
 */
export function runningAmps(loadAmps: Input, fillAmps: number, ratedAmps: number): Input {
  if (!(fillAmps >= 0)) throw new RangeError(`fillAmps must be 0 or more, got ${fillAmps}`);
  const high = Math.max(loadAmps.high, Math.min(loadAmps.high + fillAmps, ratedAmps));
  return between('amps guessed from what is switched on', Math.min(loadAmps.low, high), high);
}

export interface DropReading {
  /** Volts lost over the run while the amps flow, V. */
  readonly volts: number;
  /** From `clampAmps`, `runningAmps`, or any range. */
  readonly amps: Input;
}

/** Resistance of the run with its joints, Ω. */
export function ohmsFromDrop({ volts, amps }: DropReading): Estimated {
  if (!(volts > 0 && volts <= 20)) throw new RangeError(`volts must be above 0 and at most 20, got ${volts}`);
  return propagate(
    ([drop, through]) => drop! / through!,
    [
      about(
        'the meter on millivolts',
        volts,
        Math.min(0.9 * volts, 1.96 * (DROP_VOLTS + DROP_SHARE * volts)),
      ),
      amps,
    ],
    {
      unit: 'Ω',
      formula: 'ohms = volts lost ÷ amps',
      source: "Ohm's law; meter errors from memory, as in src/reading/noise.ts",
      holds:
        'both are read in the same minute at one steady engine speed, as means; the wire is as warm as it then is',
    },
    'These figures give no resistance: read drop and amps again, the engine steady.',
  );
}
