/** What the owner's words say: how often each symptom is named when a fault is there. Guesses, no source. */
import type { FaultId } from '../fault/catalogue.ts';
import { normalBelow } from '../numbers/normal.ts';
import { FLAT_BELOW } from './latent.ts';

const NAMED: Readonly<
  Record<string, { readonly without: number; readonly with: Partial<Readonly<Record<FaultId, number>>> }>
> = {
  headlight_dims_idle: {
    without: 0.2,
    with: {
      overload: 0.6,
      'stator-core-midway': 0.5,
      'stator-core-terminal': 0.5,
      'stator-open': 0.5,
      'stator-shorted-turns': 0.4,
      'plug-pins': 0.5,
      'plug-pin': 0.35,
      'regulator-dead': 0.5,
      'diode-shorted': 0.5,
      'output-joint': 0.4,
      'rotor-weak': 0.5,
    },
  },
  slow_crank: {
    without: 0.12,
    with: {
      'battery-sulphated': 0.4,
      'battery-shorted-cell': 0.5,
      'battery-worn': 0.3,
      'positive-post-joint': 0.6,
      'negative-post-joint': 0.6,
      'battery-flat': 0.3,
    },
  },
  runs_flat_riding: {
    without: 0.12,
    with: {
      'regulator-dead': 0.5,
      'diode-shorted': 0.45,
      'stator-core-terminal': 0.45,
      'stator-core-midway': 0.4,
      'stator-open': 0.3,
      'output-joint': 0.35,
      'ground-joint': 0.35,
      overload: 0.35,
      'regulator-set-low': 0.3,
      'rotor-weak': 0.35,
    },
  },
  flat_after_standing: {
    without: 0.06,
    with: { drain: 0.6, 'battery-shorted-cell': 0.5, 'battery-worn': 0.35, 'battery-flat': 0.3 },
  },
  accessories_added: { without: 0.03, with: { overload: 0.5 } },
  overcharge_signs: { without: 0.02, with: { 'regulator-runaway': 0.8, 'sense-drop': 0.7 } },
  bad_after_long_ride: { without: 0.03, with: { 'stator-hot-short': 0.6 } },
  short_trips: { without: 0.03, with: { 'battery-flat': 0.5 } },
  intermittent: {
    without: 0.03,
    with: {
      'positive-post-joint': 0.2,
      'negative-post-joint': 0.2,
      'breaker-joint': 0.25,
      'plug-pin': 0.1,
      'ground-joint': 0.1,
      'output-joint': 0.1,
    },
  },
};

/** Share of bikes with nothing wrong whose battery is only flat: the lights were left on, or it stood long (see latent.ts). */
const FLAT_SHARE = normalBelow(FLAT_BELOW);

/** Log chance of exactly these symptoms being named on a bike with these faults, nats. Unknown symptoms say nothing. */
export function complaintWeight(symptoms: readonly string[], faults: readonly FaultId[]): number {
  if (faults.length > 0) return chanceNamed(symptoms, faults);
  const fine = Math.exp(chanceNamed(symptoms, []));
  return Math.log((1 - FLAT_SHARE) * fine + FLAT_SHARE * Math.exp(chanceNamed(symptoms, ['battery-flat'])));
}

/** How many times likelier the owner's words are on a bike with nothing but a flat battery than on a sound one, 1. */
export function flatterBy(symptoms: readonly string[]): number {
  return Math.exp(chanceNamed(symptoms, ['battery-flat']) - chanceNamed(symptoms, []));
}

function chanceNamed(symptoms: readonly string[], faults: readonly FaultId[]): number {
  let log = 0;
  for (const [symptom, row] of Object.entries(NAMED)) {
    let missed = 1 - row.without;
    for (const fault of faults) missed *= 1 - (row.with[fault] ?? 0);
    log += Math.log(symptoms.includes(symptom) ? 1 - missed : missed);
  }
  // Words of an owner are taken at two thirds: they name what they noticed, not what is there.
  return 0.67 * log;
}
