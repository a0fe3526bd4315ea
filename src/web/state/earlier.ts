/** What earlier jobs on this bike left for the next time: deviations with what they mean. */
import { computed } from '@preact/signals';
import type { Asking } from '../../bench/ask.ts';
import { type Deviation, deviationsOf } from '../../bench/deviations.ts';
import { fastenerOf } from '../../bench/fastener-of.ts';
import { placesOf } from '../../bench/place.ts';
import type { JobState } from '../../job/fold.ts';
import type { Machine } from '../../machine/definition.ts';
import { newParts } from '../../machine/new-parts.ts';
import { earlierJobs } from './bike.ts';
import { machine } from './machine.ts';

export interface Earlier {
  readonly job: string;
  readonly title: string;
  readonly openedAt: string;
  readonly deviations: readonly (Deviation & { readonly does: string })[];
}

/** Earlier jobs on this bike that left something, the newest first. */
export const earlier = computed<readonly Earlier[]>(() => {
  const known = machine.value?.machine;
  if (!known) return [];
  return earlierJobs.value
    .map(({ job, title, openedAt, state }) => ({ job, title, openedAt, deviations: leftBy(known, state) }))
    .filter(({ deviations }) => deviations.length > 0);
});

/** What another job on this machine file says was done otherwise. */
function leftBy(known: Machine, { bench, way }: JobState): Earlier['deviations'] {
  const places = placesOf(known);
  const targets = Object.entries(known.work?.targets ?? {}).map(([id, { repairs }]) => ({
    id,
    repairs: repairs ?? [],
  }));
  const fresh = newParts(targets, way.chosen?.targets ?? []);
  const askingOf = (step: string): Asking | null => {
    const place = places.get(step);
    return place
      ? { machine: known, place, fastener: fastenerOf(known, place, fresh), fresh, bench, done: new Map() }
      : null;
  };
  return deviationsOf(bench, askingOf).map((one) => ({
    ...one,
    does: places.get(one.step)?.step?.does ?? places.get(one.step)?.action?.entry.does ?? one.step,
  }));
}
