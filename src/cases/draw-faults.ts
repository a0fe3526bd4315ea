/** Draws what is wrong with a bike, and what its owner says of it. */

import type { Instance } from '../fault/build.ts';
import type { FaultId } from '../fault/catalogue.ts';
import { FAULT_IDS, FAULTS, faultPossible } from '../fault/faults.ts';
import type { Stream } from '../numbers/random.ts';
import type { Symptom } from '../verdict/answer.ts';
import { complaintWeight } from '../verdict/complaint.ts';
import { openNamed, pickWeighted } from './draw-stream.ts';

/** Chance of 0, 1, 2 and 3 faults on a bike that somebody complains of, dimensionless (guess). */
export const FAULT_COUNTS = [0.1, 0.46, 0.3, 0.14] as const;

/** Chance of each variant of a fault, in the order of `Place.variant` (guess); faults left out have one. */
const VARIANTS: Partial<Readonly<Record<FaultId, readonly number[]>>> = {
  'output-joint': [0.94, 0, 0.06],
  'ground-joint': [0.76, 0.18, 0.06],
  'breaker-joint': [0.7, 0, 0.3],
  'plug-pin': [0.6, 0.4],
  'plug-pins': [0.9, 0.05, 0.05],
  'diode-open': [0.5, 0.5],
  'diode-shorted': [0.75, 0.25],
  'regulator-dead': [0.75, 0.25],
};

interface Build {
  readonly phases: 1 | 3;
  readonly senses: 'output' | 'wire';
}

/** Places a fault can sit in: pins and legs are three or two, a single-phase winding is one. */
function places(id: FaultId, phases: 1 | 3): number {
  if (phases === 3) return 3;
  return id === 'plug-pin' || id.startsWith('diode') ? 2 : 1;
}

/** One fault with how bad and where, drawn evenly over its own range. */
function drawInstance(stream: Stream, id: FaultId, phases: 1 | 3): Instance {
  const variants = VARIANTS[id] ?? [1];
  return {
    id,
    severity: stream(),
    second: stream(),
    place: {
      phase: Math.floor(stream() * places(id, phases)) as 0 | 1 | 2,
      variant: pickWeighted(stream, [...variants.keys()], (n) => variants[n]!),
    },
  };
}

/** Whether faults can be told and repaired apart: one a repair, one in the battery, a flat battery only alone. */
function stands(ids: readonly FaultId[]): boolean {
  const repairs = new Set(ids.map((id) => FAULTS[id].repair));
  const inBattery = ids.filter((id) => FAULTS[id].member === 'battery').length;
  return repairs.size === ids.length && inBattery <= 1 && (ids.length === 1 || !ids.includes('battery-flat'));
}

/** The faults of drawn bike `seed`, by the catalogue's weights; `count` fixes how many. */
export function drawFaults(seed: number, build: Build, count?: 0 | 1 | 2 | 3): Instance[] {
  const stream = openNamed(seed, 'faults');
  const many = count ?? pickWeighted(stream, [0, 1, 2, 3], (n) => FAULT_COUNTS[n as 0 | 1 | 2 | 3]);
  const possible = FAULT_IDS.filter((id) => faultPossible(id, build));
  for (;;) {
    const ids = Array.from({ length: many }, () => pickWeighted(stream, possible, (id) => FAULTS[id].prior));
    if (stands(ids)) return ids.map((id) => drawInstance(stream, id, build.phases));
  }
}

const SAID: Readonly<Record<Symptom, string>> = {
  weak_battery: 'The battery seems weak.',
  headlight_dims_idle: 'The headlight goes dim at idle.',
  slow_crank: 'It cranks slowly.',
  runs_flat_riding: 'It runs flat while riding.',
  flat_after_standing: 'It is flat after standing for some days.',
  accessories_added: 'I have added accessories.',
  overcharge_signs: 'Bulbs blow and the battery smells.',
  bad_after_long_ride: 'It is fine at first and weak after a long ride.',
  short_trips: 'I only ride short trips.',
  intermittent: 'It comes and goes.',
};

/** Symptoms a complaint may carry. */
export const SYMPTOMS = Object.keys(SAID) as readonly Symptom[];

/** What the owner of drawn bike `seed` says: each symptom with the odds that the verdict gives it. */
export function drawSymptoms(seed: number, faults: readonly FaultId[]): Symptom[] {
  const stream = openNamed(seed, 'complaint');
  const silent = complaintWeight([], faults);
  const said = SYMPTOMS.filter((symptom) => {
    const odds = Math.exp(complaintWeight([symptom], faults) - silent);
    // A symptom that the verdict knows nothing of has even odds there; here it is left for those who say no other.
    return symptom !== 'weak_battery' && stream() < odds / (1 + odds);
  });
  return said.length > 0 ? said : ['weak_battery'];
}

/** The owner's words for symptoms. */
export function ownersWords(symptoms: readonly Symptom[]): string {
  return symptoms.map((symptom) => SAID[symptom]).join(' ');
}
