/** The symptom words, with what they mean. */
import type { Symptom } from '../verdict/answer.ts';

export const SYMPTOMS: Readonly<Record<Symptom, string>> = {
  weak_battery: 'the battery seems weak',
  headlight_dims_idle: 'the headlight dims at idle',
  slow_crank: 'it cranks slowly',
  runs_flat_riding: 'it runs flat while riding',
  flat_after_standing: 'it is flat after standing',
  accessories_added: 'things were added that draw current',
  overcharge_signs: 'bulbs blow, the battery smells or is hot',
  bad_after_long_ride: 'worse after a long ride',
  short_trips: 'only short trips',
  intermittent: 'it comes and goes',
};
