/**
 * The clocks of the jobs that are not on screen: who reckons a torque or looks for a file must see that a bead skins on
 * the bike behind. The list of jobs tells which were written to lately; only those are read.
 */
import { computed, effect, signal } from '@preact/signals';
import { type BenchClock, clocksOf } from '../../bench/clocks.ts';
import { placesOf, type StepPlace } from '../../bench/place.ts';
import { dueSteps, progressOf } from '../../bench/progress.ts';
import type { BenchState } from '../../job/bench-fold.ts';
import type { JobEvent } from '../../job/event.ts';
import { foldJob } from '../../job/fold.ts';
import { inOrder } from '../../job/stamp.ts';
import type { WayState } from '../../job/way-fold.ts';
import type { Machine } from '../../machine/definition.ts';
import { fetchJob, fetchJobs, type JobLine, readJobLines } from '../server.ts';
import { now, places, slow } from './clocks.ts';
import { job, jobId, waiting } from './job.ts';
import { kept, remembered } from './kept.ts';
import { machine, openMachine } from './machine.ts';

/** A job that nobody wrote to for so long has no clock that anybody waits for, ms. */
const LATELY_MS = 4 * 24 * 3_600_000;
/** Most jobs that are read, count. */
const MOST = 12;
/** How often the laptop is asked whether one of them was written to, ms. */
const EVERY_MS = 30_000;

interface Watched {
  /** What it was read from: the same text, the same entries. */
  readonly from: string;
  readonly title: string;
  /** Null where nothing is ticked: no clock can run then. */
  readonly work: {
    readonly machine: Machine;
    readonly places: ReadonlyMap<string, StepPlace>;
    readonly bench: BenchState;
    readonly way: WayState;
  } | null;
}
const watched = signal<ReadonlyMap<string, Watched>>(new Map());

/** A clock of a job. */
export interface OtherClock {
  readonly job: string;
  readonly title: string;
  readonly clock: BenchClock;
}

const progresses = computed(() =>
  [...watched.value].flatMap(([id, { title, work }]) => {
    if (work === null) return [];
    const progress = progressOf(work.machine, work.way, slow.value, new Date().getFullYear());
    return [{ id, title, work, progress, due: dueSteps(work.places, progress.done) }];
  }),
);

/** Every clock that runs in a job that is not on screen. */
export const otherClocks = computed<readonly OtherClock[]>(() =>
  progresses.value
    .filter(({ id }) => id !== jobId.value)
    .flatMap(({ id, title, work, progress, due }) =>
      clocksOf(work.bench, progress, work.places, due, now.value).map((clock) => ({ job: id, title, clock })),
    ),
);

// The job on screen as this page has it: its clocks go on when one leaves it.
effect(() => {
  const id = jobId.value;
  const known = machine.value;
  const { opened, way, bench } = job.value;
  if (id === null || known === null || opened === null || way.ticks.length === 0) return;
  const work = { machine: known.machine, places: places.value, bench, way };
  watched.value = new Map(watched.peek()).set(id, { from: 'on screen', title: opened.title, work });
});

/** Looks now and then while somebody may see it; gives the way to stop. */
export function watchOthers(): () => void {
  let looking = false;
  const look = (): void => {
    if (looking || document.visibilityState !== 'visible') return;
    looking = true;
    void lookOnce().finally(() => {
      looking = false;
    });
  };
  look();
  const timer = setInterval(look, EVERY_MS);
  const stop = jobId.subscribe(look);
  document.addEventListener('visibilitychange', look);
  return () => {
    clearInterval(timer);
    stop();
    document.removeEventListener('visibilitychange', look);
  };
}

async function lookOnce(): Promise<void> {
  const got = await remembered('jobs', fetchJobs);
  if (!got.ok) return;
  const oldest = Date.now() - LATELY_MS;
  const lines = readJobLines(got.body)
    .filter(({ lastAt }) => Date.parse(lastAt) >= oldest)
    .slice(0, MOST);
  const next = new Map<string, Watched>();
  for (const line of lines) {
    const before = watched.peek().get(line.job);
    // The page itself has the one on screen.
    const found = line.job === jobId.peek() ? before : await watchedOf(line, before);
    if (found) next.set(line.job, found);
  }
  watched.value = next;
}

async function watchedOf(line: JobLine, before: Watched | undefined): Promise<Watched | undefined> {
  const own = waiting.peek().flatMap((entry) => (entry.job === line.job ? [entry.event] : []));
  const from = `${line.last} ${own.map(({ id }) => id).join(' ')}`;
  if (before?.from === from) return before;
  const { way, bench, opened } = foldJob(inOrder([...(await eventsOf(line.job)), ...own]));
  if (opened === null || way.ticks.length === 0) return { from, title: line.title, work: null };
  const file = await openMachine(opened.machine);
  // Without its file nothing can be said; the next look tries again.
  if (!file.ok) return before;
  const known = file.known.machine;
  return { from, title: line.title, work: { machine: known, places: placesOf(known), bench, way } };
}

async function eventsOf(id: string): Promise<readonly JobEvent[]> {
  const got = await fetchJob(id, 0);
  if (got.ok) return got.body.events;
  const rows = await kept.since(id, 0).catch(() => []);
  return rows.map(({ event }) => event);
}
