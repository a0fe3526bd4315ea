/** The symptom words as a mechanic ticks them. */
import type { Symptom } from './answer.ts';

export const SYMPTOM_TITLES: Readonly<Record<Symptom, string>> = {
  weak_battery: 'Battery weak or flat',
  slow_crank: 'Starter turns slowly',
  runs_flat_riding: 'Goes flat while riding',
  flat_after_standing: 'Flat after standing a few days',
  headlight_dims_idle: 'Headlight dims at idle',
  bad_after_long_ride: 'Bad after a long ride, when hot',
  intermittent: 'Comes and goes',
  accessories_added: 'Accessories were added',
  short_trips: 'Short trips only',
  overcharge_signs: 'Boiled battery or blown lamps',
};

export const SYMPTOMS: readonly Symptom[] = Object.keys(SYMPTOM_TITLES) as Symptom[];

/** A symptom word of a later version is shown as it is. */
export function symptomTitle(word: string): string {
  return Object.hasOwn(SYMPTOM_TITLES, word) ? SYMPTOM_TITLES[word as Symptom] : word.replaceAll('_', ' ');
}
