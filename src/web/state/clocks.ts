/** The clocks of the job on screen, and how far its work has come: little enough to stand on every page. */
import { computed, signal } from '@preact/signals';
import { type BenchClock, clocksOf } from '../../bench/clocks.ts';
import { placesOf, type StepPlace } from '../../bench/place.ts';
import { dueSteps, progressOf } from '../../bench/progress.ts';
import { job } from './job.ts';
import { machine } from './machine.ts';

/** How often what depends on the hour is looked at, ms. */
export const TICK_MS = 1000;
/** The hour as the bench sees it, ms since 1970; moved on by who looks. */
export const now = signal(Date.now());
/** Whole quarters of a minute: what need not follow every second hangs on this. */
export const slow = computed(() => Math.floor(now.value / 15_000) * 15_000);

export const places = computed<ReadonlyMap<string, StepPlace>>(() =>
  machine.value ? placesOf(machine.value.machine) : new Map(),
);

/** The hour that the job is looked at, ms. Since 1970; what was just entered lies after the last quarter of a minute. */
export function hour(): number {
  return Math.max(slow.value, job.value.last === null ? 0 : Date.now());
}

export const progress = computed(() =>
  machine.value === null
    ? null
    : progressOf(machine.value.machine, job.value.way, hour(), new Date().getFullYear()),
);
export const due = computed(() => dueSteps(places.value, progress.value?.done ?? new Map()));

/** Every clock that runs in this job. */
export const clocks = computed<readonly BenchClock[]>(() =>
  progress.value === null
    ? []
    : clocksOf(job.value.bench, progress.value, places.value, due.value, now.value),
);
