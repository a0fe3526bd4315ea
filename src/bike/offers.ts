/** Everything that the jobs of one bike offer for its machine file, and that nobody has turned down. */
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import type { Json } from '../machine/json-value.ts';
import { nameOf, type Offer } from './offer.ts';
import { offeredFromBench } from './offer-bench.ts';
import { offeredFitted } from './offer-fitted.ts';
import { offeredMinutes, sayMinutesOf } from './offer-minutes.ts';
import { offeredOrder } from './offer-order.ts';
import { offeredReadings } from './offer-readings.ts';

/**
 * Offers of the jobs of one machine; `file` is its file as a value, `machine` the same file read. Made-up jobs say nothing
 * of a bike that exists. An offer goes when the file says the same, or when it was turned down in any of the jobs.
 */
export function offersOf(jobs: readonly JobState[], machine: Machine, file: Json): readonly Offer[] {
  const real = jobs.filter(({ opened }) => opened !== null && (machine.about.invented || !opened.invented));
  const answered = jobs.flatMap((job) => job.answered);
  const down = new Set(answered.flatMap(({ offer, taken }) => (taken ? [] : [offer])));
  // What counts as a pause goes by the file's own times: minutes that were taken would let longer gaps count, and so on.
  // Once they are taken back out of the file they may be offered again.
  const isNews = ({ kind, path, seenAt }: Offer): boolean => {
    if (kind !== 'minutes') return true;
    const stands = nameOf(path, sayMinutesOf(file, path));
    return !answered.some(
      ({ offer, taken, at }) => taken && offer === stands && Date.parse(at) >= Date.parse(seenAt),
    );
  };
  return [
    ...offeredReadings(real, machine, file),
    ...offeredFitted(real, machine),
    ...offeredFromBench(real, machine, file),
    ...offeredMinutes(real, machine, file),
    ...offeredOrder(real, machine, file),
  ].filter((offer) => !down.has(offer.id) && isNews(offer));
}
