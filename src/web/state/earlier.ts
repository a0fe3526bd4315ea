/** What earlier jobs on this bike left for the next time: deviations with what they mean, from the laptop or this browser. */
import { computed, effect, signal } from '@preact/signals';
import type { Asking } from '../../bench/ask.ts';
import { type Deviation, deviationsOf } from '../../bench/deviations.ts';
import { fastenerOf } from '../../bench/fastener-of.ts';
import { placesOf } from '../../bench/place.ts';
import type { JobEvent } from '../../job/event.ts';
import { foldJob } from '../../job/fold.ts';
import type { Machine } from '../../machine/definition.ts';
import { newParts } from '../../machine/new-parts.ts';
import { fetchJob, fetchJobs, readJobLines } from '../server.ts';
import { job, jobId } from './job.ts';
import { kept, remembered } from './kept.ts';
import { machine } from './machine.ts';

/** Jobs looked into, the newest first: a bike that is opened more often has been read by then. */
const MOST_JOBS = 5;

export interface Earlier {
  readonly job: string;
  readonly title: string;
  readonly openedAt: string;
  readonly deviations: readonly (Deviation & { readonly does: string })[];
}

const found = signal<{ readonly of: string; readonly jobs: readonly Earlier[] } | null>(null);

/** Earlier jobs on this bike that left something, the newest first. */
export const earlier = computed<readonly Earlier[]>(() =>
  found.value !== null && found.value.of === jobId.value ? found.value.jobs : [],
);

/** What a log of another job on this machine file says was done otherwise. */
export function leftBy(known: Machine, events: readonly JobEvent[]): Earlier['deviations'] {
  const { bench, way } = foldJob(events);
  const places = placesOf(known);
  const targets = Object.entries(known.work?.targets ?? {}).map(([id, { repairs }]) => ({
    id,
    repairs: repairs ?? [],
  }));
  const fresh = newParts(targets, way.chosen?.targets ?? []);
  const askingOf = (step: string): Asking | null => {
    const place = places.get(step);
    return place
      ? { machine: known, place, fastener: fastenerOf(known, place), fresh, bench, done: new Map() }
      : null;
  };
  return deviationsOf(bench, askingOf).map((one) => ({
    ...one,
    does: places.get(one.step)?.step?.does ?? places.get(one.step)?.action?.entry.does ?? one.step,
  }));
}

async function eventsOf(id: string): Promise<readonly JobEvent[]> {
  const got = await fetchJob(id, 0);
  if (got.ok) return got.body.events;
  return (await kept.since(id, 0).catch(() => [])).map(({ event }) => event);
}

/** Looks while somebody is at this job; gives the way to stop. */
export function lookEarlier(): () => void {
  const here = computed(() => job.value.opened?.at ?? null);
  return effect(() => {
    const known = machine.value;
    const [id, openedAt] = [jobId.value, here.value];
    if (known === null || id === null || openedAt === null || found.peek()?.of === id) return;
    void look(id, openedAt, known.id, known.machine);
  });
}

async function look(id: string, openedAt: string, file: string, known: Machine): Promise<void> {
  const list = await remembered('jobs', fetchJobs);
  if (!list.ok) return;
  const before = readJobLines(list.body)
    .filter((line) => line.job !== id && line.machine === file && line.openedAt < openedAt)
    .sort((a, b) => (a.openedAt < b.openedAt ? 1 : -1))
    .slice(0, MOST_JOBS);
  const jobs: Earlier[] = [];
  for (const line of before) {
    const deviations = leftBy(known, await eventsOf(line.job));
    if (deviations.length > 0)
      jobs.push({ job: line.job, title: line.title, openedAt: line.openedAt, deviations });
  }
  if (jobId.peek() === id) found.value = { of: id, jobs };
}
