/**
 * What a sound bike of a file shows on the main readings, how the unknowns scatter it, and how far the usual faults move it:
 * the numbers behind "which figure is worth finding out". Lines and unknowns are the verdict's own (src/verdict/line.ts); a
 * fault is taken in the middle of its severity, by one run of the physics.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { Fidelity } from '../circuit/stepper.ts';
import { buildBike, type Instance } from '../fault/build.ts';
import type { FaultId } from '../fault/catalogue.ts';
import { normalBelow } from '../numbers/normal.ts';
import { completeKey } from '../reading/catalogue.ts';
import { readKey } from '../reading/key.ts';
import { meterScatter } from '../reading/noise.ts';
import { newSubject, show } from '../reading/show.ts';
import { askedOf } from '../verdict/asked.ts';
import { atomsOf } from '../verdict/atoms.ts';
import { AT, chargeTopOf, handsOf, type Spreads, spreadsOf, UNKNOWNS, wearOf } from '../verdict/latent.ts';
import { fitLine, openBench, subjectsOf } from '../verdict/line.ts';

/** The main readings of a charging circuit, by the key for three and for one phase. */
const READINGS = [
  ['batt_volts lights=low rpm=idle'],
  ['batt_volts lights=low rpm=3000'],
  ['stator_ac rpm=3000 pair=ab', 'stator_ac rpm=3000'],
  ['drop_pos lights=low rpm=3000'],
  ['drop_neg lights=low rpm=3000'],
  ['alt_amps lights=low rpm=3000'],
  ['ohms_pair pair=ab', 'ohms_pair'],
  ['rest_volts charged=True'],
  ['crank_volts probe=post'],
] as const;

const asked = (text: string) => {
  const key = readKey(text);
  if (key === null) throw new RangeError(`text must be a reading key, got "${text}"`);
  return askedOf(completeKey(key));
};

/** Keys of the main readings on a bike with so many phases. */
export function mainReadings(phases: 1 | 3): readonly string[] {
  return READINGS.map(([three, one]) => (phases === 1 ? (one ?? three) : three));
}

/** Fine enough for a mean without the scatter of chopping. */
const STEADY: Fidelity = { steps: 24, settle: 4, measure: 4 };
const MIDDLE = new Float64Array(UNKNOWNS);

/** What the main readings show on the middle bike of a file, with these faults; NaN = "OL". */
export function shownBy(spec: ChargingSpec, faults: readonly Instance[], z = MIDDLE): Float64Array {
  const built = buildBike(spec, wearOf(z, spreadsOf(spec)), chargeTopOf(z), faults);
  const subject = newSubject(spec, built, handsOf(spec, z), STEADY);
  return Float64Array.from(mainReadings(spec.alternator.phases), (text) => {
    const { key, words } = asked(text);
    return show(subject, key, words);
  });
}

/** A sound bike: middles, what one deviation of each unknown does, and what is left, variance in the unit squared. */
export interface SoundLines {
  readonly middles: Float64Array;
  /** [unknown][reading]. */
  readonly slopes: readonly Float64Array[];
  readonly rest: Float64Array;
  readonly spreads: Spreads;
}

export function soundLines(spec: ChargingSpec): SoundLines {
  const bench = openBench(spec, 1);
  const subjects = subjectsOf(bench, []);
  const fits = mainReadings(spec.alternator.phases).map((text) => {
    const one = asked(text);
    return { key: one.key, fit: fitLine(bench, subjects, one, 0) };
  });
  return {
    middles: Float64Array.from(fits, ({ fit }) => fit.middle),
    slopes: Array.from({ length: UNKNOWNS }, (_, k) => Float64Array.from(fits, ({ fit }) => fit.slope[k]!)),
    rest: Float64Array.from(fits, ({ key, fit }) => fit.residual + meterScatter(key, fit.middle) ** 2),
    spreads: spreadsOf(spec),
  };
}

/** Covariance of the readings of sound bikes; `scale` says by how much the deviation of an unknown shrinks, 1 unless named. */
export function covarianceOf(
  { slopes, rest }: SoundLines,
  scale: Readonly<Partial<Record<keyof Spreads, number>>>,
  apart: readonly Float64Array[],
): Float64Array[] {
  const n = rest.length;
  const rows = Array.from({ length: n }, (_, i) => {
    const row = new Float64Array(n);
    row[i] = rest[i]!;
    return row;
  });
  const add = (vector: Float64Array, times: number) => {
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) rows[i]![j]! += times * vector[i]! * vector[j]!;
  };
  for (let k = 0; k < UNKNOWNS; k++) add(slopes[k]!, factorOf(k, scale) ** 2);
  for (const vector of apart) add(vector, 1);
  return rows;
}

const NAMES = Object.entries(AT).reduce<(string | undefined)[]>((names, [name, at]) => {
  names[at] = name;
  return names;
}, []);

function factorOf(k: number, scale: Readonly<Partial<Record<keyof Spreads, number>>>): number {
  return scale[NAMES[k] as keyof Spreads] ?? 1;
}

/** By how much the deviations of the unknowns shrink from one file to another, ratios. */
export function shrinkage(from: Spreads, to: Spreads): Partial<Record<keyof Spreads, number>> {
  const out: Partial<Record<keyof Spreads, number>> = {};
  for (const name of Object.keys(from) as (keyof Spreads)[])
    if (to[name] < from[name]) out[name] = to[name] / from[name];
  return out;
}

/** A usual fault in the middle of its severity, and what it shows. */
export interface Usual {
  readonly fault: FaultId;
  readonly shows: Float64Array;
}

/** Every fault of the catalogue that this bike can have, once; faults that no main reading feels are left out. */
export function usualFaults(spec: ChargingSpec): readonly Usual[] {
  const seen = new Set<FaultId>();
  const out: Usual[] = [];
  const sound = shownBy(spec, []);
  for (const { fault, phase, variant, span, second } of atomsOf(spec)) {
    if (seen.has(fault)) continue;
    seen.add(fault);
    const severity = (span[0] + span[1]) / 2;
    const shows = shownBy(spec, [{ fault, phase, variant, severity, second }].map(instance));
    // A parted lead shows "OL", which nothing can be mistaken for.
    if (shows.some(Number.isNaN)) continue;
    if (shows.some((value, n) => Math.abs(value - sound[n]!) > 1e-3 * Math.abs(sound[n]!)))
      out.push({ fault, shows });
  }
  return out;
}

function instance(one: {
  fault: FaultId;
  phase: 0 | 1 | 2;
  variant: number;
  severity: number;
  second: readonly [number, number];
}): Instance {
  const { fault, phase, variant, severity, second } = one;
  return { id: fault, severity, second: (second[0] + second[1]) / 2, place: { phase, variant } };
}

/** Lower triangle L of a positive definite matrix, A = L·Lᵀ. */
function triangle(a: readonly Float64Array[]): Float64Array[] {
  const n = a.length;
  const l = a.map(() => new Float64Array(n));
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = a[i]![j]!;
      for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!;
      l[i]![j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / l[j]![j]!;
    }
  return l;
}

/** Each list of readings in deviations that are independent of one another, so that distances count what is known. */
export function whitened(
  covariance: readonly Float64Array[],
  shown: readonly Float64Array[],
): Float64Array[] {
  const l = triangle(covariance);
  return shown.map((values) => {
    const out = new Float64Array(values.length);
    for (let i = 0; i < out.length; i++) {
      let sum = values[i]!;
      for (let k = 0; k < i; k++) sum -= l[i]![k]! * out[k]!;
      out[i] = sum / l[i]![i]!;
    }
    return out;
  });
}

/** Chance of calling the one the other where all readings are taken and both are as likely: Φ(−d/2) for normal scatter, 0–1. */
export function mistakeChance(a: Float64Array, b: Float64Array): number {
  let square = 0;
  for (let n = 0; n < a.length; n++) square += (a[n]! - b[n]!) ** 2;
  return normalBelow(-Math.sqrt(square) / 2);
}
