/**
 * One bike of our own, drawn from our own physics: an invented book, wear and hands somewhat wider than the verdict
 * believes, faults from the catalogue, and a cheap meter. Every reading is made when it is asked for and is the same
 * whenever it is asked again, whatever was asked before.
 */

import type { ChargingSpec } from '../circuit/spec.ts';
import type { Fidelity } from '../circuit/stepper.ts';
import { type Built, buildBike, type Instance } from '../fault/build.ts';
import type { FaultId } from '../fault/catalogue.ts';
import { drawNormal } from '../numbers/random.ts';
import { checkKey, completeKey } from '../reading/catalogue.ts';
import { type ReadingKey, type Value, writeKey } from '../reading/key.ts';
import { meterScatter } from '../reading/noise.ts';
import { chanceSeen } from '../reading/seen.ts';
import { newSubject, POINT_KINDS, type Subject, show, stateWords } from '../reading/show.ts';
import type { Symptom } from '../verdict/answer.ts';
import { AT, chargeTopOf, FLAT_BELOW, handsOf, spreadsOf, UNKNOWNS, wearOf } from '../verdict/latent.ts';
import { drawFaults, drawSymptoms } from './draw-faults.ts';
import { drawPlate, type Nameplate } from './draw-plate.ts';
import { openNamed } from './draw-stream.ts';
import { specOfNameplate } from './nameplate.ts';

export interface DrawnBike {
  readonly seed: number;
  /** The book; null where the caller gave a circuit of its own. */
  readonly plate: Nameplate | null;
  readonly spec: ChargingSpec;
  readonly faults: readonly Instance[];
  readonly built: Built;
  readonly symptoms: readonly Symptom[];
  /** What the meter and the eyes give for a reading key, in the kind's unit: error and rounding are in it. */
  readonly read: (key: string) => Value;
  /** What a meter without error would show, in the kind's unit; NaN = "OL" or no reading. `left` leaves a fault out. */
  readonly truly: (key: string, left?: FaultId) => number;
}

export interface DrawOptions {
  /** A circuit to use instead of a drawn one. */
  readonly spec?: ChargingSpec;
  readonly faults?: readonly Instance[];
  readonly count?: 0 | 1 | 2 | 3;
  /** How much wider than the verdict believes wear and hands are, 1. */
  readonly wider?: number;
  /** Meter error against what noise.ts says, 1; 0 is a perfect meter. */
  readonly meter?: number;
  readonly fidelity?: Fidelity;
}

/** How finely drawn bikes are computed: against FINE 0.007 V off on average, 0.2 V at worst while the regulator chops. */
export const DRAWN: Fidelity = { steps: 120, settle: 16, measure: 10 };

/** Wear and hands against what the verdict believes, 1: nobody's belief is quite right. */
export const WIDER = 1.2;

/** Last digit that a cheap meter shows, in the kind's unit; a second figure is for values from 2 on. */
const LAST_DIGIT: Readonly<Record<string, readonly [number, number]>> = {
  keyoff_mA: [0.1, 0.1],
  capacity_minutes: [1, 1],
  sg: [0.005, 0.005],
  drop_term_pos: [0.001, 0.01],
  drop_term_neg: [0.001, 0.01],
  drop_pos: [0.001, 0.01],
  drop_neg: [0.001, 0.01],
  drop_breaker: [0.001, 0.01],
  drop_dcplug: [0.001, 0.01],
  drop_sense: [0.001, 0.01],
  plug_drop_ac: [0.1, 0.1],
  batt_amps: [0.1, 0.1],
  alt_amps: [0.1, 0.1],
  phase_amps: [0.1, 0.1],
  stator_ac: [0.1, 0.1],
  pin_case_ac: [0.1, 0.1],
  ohms_pair: [0.1, 0.1],
  ohms_case: [0.1, 0.1],
  mv_pair: [0.1, 0.1],
  diode: [0.001, 0.001],
};
const VOLTS = [0.01, 0.01] as const;

/** Kinds whose display has a sign. */
const SIGNED: ReadonlySet<string> = new Set([
  ...['rest_volts', 'keyon_volts', 'load_test_volts', 'crank_volts', 'batt_volts', 'reg_volts', 'drop_pos'],
  ...['drop_neg', 'drop_breaker', 'drop_dcplug', 'drop_sense', 'drop_term_pos', 'drop_term_neg'],
  ...['batt_amps', 'alt_amps'],
]);

/** A value as the display shows it, in the kind's unit. */
export function displayed(kind: string, value: number): number {
  const [fine, rough] = LAST_DIGIT[kind] ?? VOLTS;
  const step = Math.abs(value) < 2 ? fine : rough;
  const shown = Number((Math.round(value / step) * step).toFixed(3));
  return shown > 0 || SIGNED.has(kind) ? shown : 0;
}

/** Draws bike `seed`. */
export function drawBike(seed: number, options: DrawOptions = {}): DrawnBike {
  const { wider = WIDER, meter = 1, fidelity = DRAWN } = options;
  const plate = options.spec ? null : drawPlate(seed);
  const spec = options.spec ?? specOfNameplate(plate);
  const build = { phases: spec.alternator.phases, senses: spec.regulator.senses };
  const faults = options.faults ?? drawFaults(seed, build, options.count);
  const ids = faults.map((fault) => fault.id);
  const stream = openNamed(seed, 'wear');
  const z = Float64Array.from({ length: UNKNOWNS }, () => wider * drawNormal(stream));
  // A bike with nothing wrong is not flat: that would be a finding, and its truth would not say so.
  if (faults.length === 0 && z[AT.charge]! < FLAT_BELOW) z[AT.charge] = 2 * FLAT_BELOW - z[AT.charge]!;
  const spreads = spreadsOf(spec);
  const builtOf = (list: readonly Instance[]) => buildBike(spec, wearOf(z, spreads), chargeTopOf(z), list);
  const built = builtOf(faults);

  // Engine speed is set anew for every engine state, and for every reading on the unplugged stator.
  const subjects = new Map<string, Subject>();
  const subjectFor = (key: ReadingKey, left?: FaultId): Subject => {
    const moment = POINT_KINDS.has(key.kind) ? stateWords(key) : writeKey(key);
    const name = `${moment} without ${left}`;
    let subject = subjects.get(name);
    if (!subject) {
      const speed = Float64Array.from(z);
      // Evenly spread over ±√3 deviations: a hand on the throttle aims, and stops where it is near enough.
      speed[AT.rpmShift] = wider * Math.sqrt(3) * (2 * openNamed(seed, `speed ${moment}`)() - 1);
      const whole = left ? builtOf(faults.filter((fault) => fault.id !== left)) : built;
      subject = newSubject(spec, whole, handsOf(spec, speed), fidelity);
      subjects.set(name, subject);
    }
    return subject;
  };
  const keyOf = (text: string): ReadingKey => {
    const checked = checkKey(text);
    if (!checked.ok) throw new RangeError(`reading key: ${checked.why}`);
    return completeKey(checked.key);
  };
  const truly = (text: string, left?: FaultId): number => {
    const key = keyOf(text);
    return show(subjectFor(key, left), key);
  };
  const read = (text: string): Value => {
    const key = keyOf(text);
    const luck = openNamed(seed, `meter ${writeKey(key)}`);
    if (key.kind === 'visual') return luck() < chanceSeen(key.state.what!, ids, built.condition.fuseBlown);
    const value = show(subjectFor(key), key);
    if (Number.isNaN(value)) return null;
    return displayed(key.kind, value + meter * meterScatter(key, value) * drawNormal(luck));
  };
  return { seed, plate, spec, faults, built, symptoms: drawSymptoms(seed, ids), read, truly };
}
