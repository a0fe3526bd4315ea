/** The other jobs on the bike of the job on screen, from the laptop or this browser, read when somebody wants them. */
import { computed, effect, signal } from '@preact/signals';
import { learnedSteps, withLearned } from '../../bike/learn.ts';
import type { JobEvent } from '../../job/event.ts';
import { foldJob, type JobState } from '../../job/fold.ts';
import { fetchJob, fetchJobs, readJobLines } from '../server.ts';
import { job, jobId } from './job.ts';
import { kept, remembered } from './kept.ts';
import { machine } from './machine.ts';
import { taught } from './taught.ts';

/** Jobs looked into, the newest first: a bike that is opened more often has been read by then. */
const MOST_JOBS = 12;

export interface OtherJob {
  readonly job: string;
  readonly title: string;
  readonly openedAt: string;
  readonly events: readonly JobEvent[];
  readonly state: JobState;
}

const found = signal<{ readonly of: string; readonly jobs: readonly OtherJob[] } | null>(null);

/** Jobs on this bike that were opened before this one, the newest first; empty until they are read. */
export const earlierJobs = computed<readonly OtherJob[]>(() =>
  found.value !== null && found.value.of === jobId.value ? found.value.jobs : [],
);

/** What the steps of this bike are known to take, from every job that was let teach, this one among them. */
export const learned = computed(() => {
  const known = machine.value;
  if (known === null) return new Map() as ReturnType<typeof learnedSteps>;
  const taught = [job.value, ...earlierJobs.value.map(({ state }) => state)].flatMap((state) =>
    state.learned ? [state.learned.steps] : [],
  );
  return learnedSteps(known.machine, taught);
});

effect(() => {
  const steps = learned.value;
  taught.value = (known) => withLearned(known, steps);
});

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
    void look(id, openedAt, known.id);
  });
}

async function look(id: string, openedAt: string, file: string): Promise<void> {
  const list = await remembered('jobs', fetchJobs);
  if (!list.ok) return;
  const before = readJobLines(list.body)
    .filter((line) => line.job !== id && line.machine === file && line.openedAt < openedAt)
    .sort((a, b) => (a.openedAt < b.openedAt ? 1 : -1))
    .slice(0, MOST_JOBS);
  const jobs: OtherJob[] = [];
  for (const { job: name, title, openedAt: at } of before) {
    const events = await eventsOf(name);
    if (events.length > 0) jobs.push({ job: name, title, openedAt: at, events, state: foldJob(events) });
  }
  if (jobId.peek() === id) found.value = { of: id, jobs };
}
