/** The alternator from little: EMF from one AC reading, inductance from rated amps and EMF, rated amps from the winding. */
import { bridgeAmps } from '../circuit/closed-form.ts';
import { about, between, type Estimated, type Input, propagate } from './estimate.ts';

/** How the engine speed of a reading is known. */
export type SpeedBy = 'tachometer' | 'ear';

/** Engine speed behind a reading, rpm: a rev counter within 20, by ear within 120 nineteen times in twenty (guesses, no source). */
export function speedOf(rpm: number, by: SpeedBy): Input {
  if (!(rpm >= 300 && rpm <= 15000)) throw new RangeError(`rpm must be from 300 to 15000, got ${rpm}`);
  return about(
    by === 'ear' ? 'engine speed by ear' : 'engine speed by the rev counter',
    rpm,
    by === 'ear' ? 120 : 20,
  );
}

/** A cheap meter's AC range: one deviation is 0.35 V and 0.8 % (from memory of their leaflets). */
const AC_VOLTS = 0.35;
const AC_SHARE = 0.008;
/** Where a cheap meter's AC range has lost 3 dB, Hz: specified to 400 Hz only (leaflets); the corner is a guess. */
const AC_CORNER = 1750;
/** Most pole pairs where nobody has counted, count: 8 to 18 poles are met with. */
const MOST_PAIRS = 9;
/** Magnets at running heat against cold ones, 1 (common practice, no source). */
const HOT_MAGNET = 0.94;

export interface AcReading {
  /** AC between two pins, stator unplugged, V. */
  readonly volts: number;
  /** From `speedOf`, or any range. */
  readonly rpm: Input;
  readonly engine: 'cold' | 'hot' | 'unknown';
}

/** AC volts rms between two pins at 1000 rpm, cold, V. */
export function openVoltsFrom({ volts, rpm, engine }: AcReading): Estimated {
  if (!(volts > 0 && volts <= 400))
    throw new RangeError(`volts must be above 0 and at most 400, got ${volts}`);
  const loss = Math.hypot(1, ((rpm.middle / 60) * MOST_PAIRS) / AC_CORNER);
  const heat = engine === 'cold' ? 1 : HOT_MAGNET;
  return propagate(
    ([read, speed, bend, magnet]) => ((read! * bend!) / magnet! / speed!) * 1000,
    [
      about('the meter on AC', volts, Math.min(0.9 * volts, 1.96 * (AC_VOLTS + AC_SHARE * volts))),
      rpm,
      between('the meter at so high a frequency', 1, loss),
      engine === 'unknown' ? between('heat of the magnets', heat, 1) : about('heat of the magnets', heat, 0),
    ],
    {
      unit: 'V',
      formula: 'volts at 1000 rpm = reading ÷ engine speed × 1000',
      source: 'e = k·rpm (docs/physics.md, "winding"; common practice)',
      holds: 'the stator is unplugged, every coil is sound and the meter is on AC',
    },
    'These figures give no EMF: read the volts again with the stator unplugged.',
  );
}

/** What is known of a winding and its rating. */
export interface Winding {
  readonly phases: 1 | 3;
  /** AC volts rms between two pins at 1000 rpm, V. */
  readonly openVolts: Input;
  /** Resistance between two pins, Ω. */
  readonly pairOhms: Input;
  /** Speed at which the amps are rated, rpm, and battery side volts they are rated into, V. */
  readonly rpm: number;
  readonly volts?: number;
  /** Pole pairs of the rotor. */
  readonly polePairs: Input;
}

/** Straight-line diode, as in the circuit: threshold, V, and slope, Ω. */
const DIODE_VOLTS = 0.84;
const DIODE_OHM = 0.007;
const RATED_VOLTS = 14;

/** DC amps of this winding into its rated volts, A: the exact closed form, pulses included. */
function ampsOf(winding: Winding, open: number, ohms: number, pairs: number, henry: number): number {
  const { phases, rpm, volts = RATED_VOLTS } = winding;
  const peak = (open * Math.SQRT2 * rpm) / 1000 / (phases === 3 ? Math.sqrt(3) : 1);
  const ohm = phases === 3 ? ohms / 2 + DIODE_OHM : ohms + 2 * DIODE_OHM;
  return bridgeAmps(phases, peak, 2 * Math.PI * pairs * (rpm / 60) * henry, ohm, volts + 2 * DIODE_VOLTS);
}

const EXACT = 'exact continuous and pulsed bridge current (src/circuit/closed-form.ts, held against ngspice)';

/** Inductance of a phase, H: what lets a winding of this EMF give its rated amps. */
export function henryFrom(winding: Winding, rated: Input): Estimated {
  const { openVolts, pairOhms, polePairs } = winding;
  return propagate(
    ([amps, open, ohms, pairs]) => {
      // More inductance, fewer amps: halving in ratios between 1 µH and 0.1 H.
      let [low, high] = [1e-6, 0.1];
      if (
        !(ampsOf(winding, open!, ohms!, pairs!, low) > amps!) ||
        !(ampsOf(winding, open!, ohms!, pairs!, high) < amps!)
      )
        return null;
      for (let n = 0; n < 60; n++) {
        const half = Math.sqrt(low * high);
        if (ampsOf(winding, open!, ohms!, pairs!, half) > amps!) low = half;
        else high = half;
      }
      return Math.sqrt(low * high);
    },
    [rated, openVolts, pairOhms, polePairs],
    {
      unit: 'H',
      formula:
        'the inductance at which Idc(EMF, ωL, R, V) is the rated amps; without R: ωL = (3/π)√(Vs² − (2πV/9)²)/I, one phase (2/π)√(Vs² − (πV/2)²)/I',
      source: EXACT,
      holds: 'magnets and iron are far from saturation and the phases do not couple',
    },
    'No winding of this EMF and resistance gives so many amps: look at both figures and their engine speeds again.',
  );
}

/** Rated DC amps where EMF, winding and inductance are known, A. */
export function ratedFrom(winding: Winding, henry: Input): Estimated {
  const { openVolts, pairOhms, polePairs } = winding;
  return propagate(
    ([inductance, open, ohms, pairs]) => ampsOf(winding, open!, ohms!, pairs!, inductance!),
    [henry, openVolts, pairOhms, polePairs],
    {
      unit: 'A',
      formula: 'Idc(EMF, ωL, R, V); without R: (3/π)√(Vs² − (2πV/9)²)/ωL, one phase (2/π)√(Vs² − (πV/2)²)/ωL',
      source: EXACT,
      holds: 'magnets and iron are far from saturation and the phases do not couple',
    },
    'A winding of so little EMF gives no amps into a 12 V battery at this speed: look at the AC volts again.',
  );
}

/**
 * Volts that a winding loses in its own copper at rated amps, pair resistance times DC amps, V: 3 to 12 are met with. Nothing but
 * the habit of those who wind stators (heat and room); from memory, no source.
 */
const COPPER_VOLTS = [3, 12] as const;

/** Rated DC amps where only EMF and resistance are known, A: wide, for the inductance decides and nobody knows it. */
export function ratedFromOhms(winding: Winding): Estimated {
  const { openVolts, pairOhms, polePairs } = winding;
  const [low, high] = COPPER_VOLTS;
  return propagate(
    ([volts, open, ohms]) => {
      // A winding without inductance would give these amps: no winding gives more.
      const most = ampsOf(winding, open!, ohms!, polePairs.middle, 1e-7);
      return most > 0 ? Math.min(volts! / ohms!, most) : null;
    },
    [{ what: 'how stators are wound', low, middle: Math.sqrt(low * high), high }, openVolts, pairOhms],
    {
      unit: 'A',
      formula: 'amps = 3 to 12 V ÷ ohms between two pins, at most what the resistance alone lets through',
      source: 'common practice, no source; the bound: (peak EMF − V)/R',
      holds: 'it is taken as the size of it: the book or a clamp meter knows better',
    },
    'A winding of so little EMF gives no amps into a 12 V battery at this speed: look at the AC volts again.',
  );
}
