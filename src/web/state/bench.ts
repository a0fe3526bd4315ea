/** The bench of the job on screen: where each step stands now, which step is in hand, what may be taken back. */
import { computed, effect, signal } from '@preact/signals';
import type { Asking } from '../../bench/ask.ts';
import { lastDeed, sayDeed } from '../../bench/deed.ts';
import { fastenerOf } from '../../bench/fastener-of.ts';
import type { StepPlace } from '../../bench/place.ts';
import { type Standing, standingOf } from '../../bench/standing.ts';
import type { EventBody } from '../../job/event.ts';
import type { Machine } from '../../machine/definition.ts';
import { newParts } from '../../machine/new-parts.ts';
import { due, hour, places, progress } from './clocks.ts';
import { device, happened, job, jobId, live } from './job.ts';
import { machine } from './machine.ts';
import { showUndo } from './undo.ts';
import { asking, choice, holdChoice, reply, settled, targets } from './way.ts';

const file = computed(() => machine.value?.machine ?? null);
const fresh = computed(() => newParts(targets.value, choice.value.targets));

/** Fasteners of this file as worked out before, by the step: each entry asks for those of all steps that have records. */
const fasteners = computed(() => {
  void file.value;
  void fresh.value;
  return new WeakMap<StepPlace, Asking['fastener']>();
});
function fastenerAt(machine: Machine, place: StepPlace): Asking['fastener'] {
  const known = fasteners.value;
  let found = known.get(place);
  if (found === undefined) {
    found = fastenerOf(machine, place, fresh.value);
    known.set(place, found);
  }
  return found;
}

/** What a step of the file is asked; null for a step it does not have, such as one that a trouble brought. */
export function askingOf(step: string): Asking | null {
  const place = places.value.get(step);
  if (!place || !file.value || !progress.value) return null;
  return {
    machine: file.value,
    place,
    fastener: fastenerAt(file.value, place),
    fresh: fresh.value,
    bench: job.value.bench,
    done: progress.value.done,
  };
}

const FREE: Standing = { asks: [], waits: [], overridden: null, free: true };

/** How a step stands now. */
export function standing(step: string): Standing {
  const asking = askingOf(step);
  if (!asking || !progress.value) return FREE;
  return standingOf(asking, progress.value, places.value, due.value, hour());
}

/** The steps of the plan in their order, those done among them. */
export const steps = computed(() => reply.value?.plan?.steps ?? []);
const done = computed(() => new Set(progress.value?.done.keys() ?? []));
export function isDone(step: string): boolean {
  return done.value.has(step);
}
/** The first step that is neither done nor runs; null when all are. */
const left = computed(() => steps.value.find(({ id, state }) => !isDone(id) && state !== 'runs')?.id ?? null);
/** What was next when the hands came to it. */
interface Taken {
  readonly job: string | null;
  readonly step: string;
  /** What the plan was asked for then, and how many steps were done. */
  readonly asked: string;
  readonly done: number;
}
const taken = signal<Taken | null>(null);
const stays = (was: Taken): boolean =>
  was.job === jobId.value &&
  was.asked === asking.value &&
  was.done <= done.value.size &&
  steps.value.some(({ id, state }) => id === was.step && !isDone(id) && state !== 'runs');
/**
 * The step that is next. A plan laid out anew, as it is every minute, may begin with another one: that must not change the
 * screen under the hands. So what was next, once the plan knows of the last tick or a hand is on it, stays so until it is
 * done or runs, jams, is planned for otherwise, or something before it is taken back. Held at once, it was the old plan's
 * next step, and a window of the new one's could close meanwhile.
 */
const next = computed(() => (taken.value !== null && stays(taken.value) ? taken.value.step : left.value));
effect(() => {
  if (settled.value) holdStep();
});

/** A hand is on the step: it stays. */
export function holdStep(): void {
  const was = taken.peek();
  const step = next.value;
  if (was !== null && stays(was)) return;
  taken.value = step === null ? null : { job: jobId.value, step, asked: asking.value, done: done.value.size };
}
/** The step somebody turned to; null while the next one is in hand. */
const turnedTo = signal<{ readonly job: string | null; readonly step: string } | null>(null);
/** The step in hand; null without a plan, or when all is done. */
export const inHand = computed(() => {
  const chosen = turnedTo.value;
  const known = chosen?.job === jobId.value && steps.value.some(({ id }) => id === chosen.step);
  return known ? chosen.step : next.value;
});

/** True while the screen is wiped: no key, pedal or voice counts. */
export const locked = signal(false);

/** Turns to a step, or with null to the next that is to be done. */
export function turnTo(step: string | null): void {
  turnedTo.value = step === null ? null : { job: jobId.peek(), step };
}

/** Turns `by` steps on or back in the order of work. */
export function turn(by: 1 | -1): void {
  const at = steps.value.findIndex(({ id }) => id === inHand.value);
  const to = steps.value[(at < 0 ? steps.value.length : at) + by];
  if (to) turnTo(to.id === next.value ? null : to.id);
}

/** Ticks a step, and puts the way to take it back on the bar. */
export function tick(step: string, type: 'stepDone' | 'stepBegun' | 'stepUndone'): void {
  const seen = job.peek().way.undone.get(step) ?? null;
  holdChoice();
  deed(type === 'stepUndone' ? { type, step } : { type, step, seen });
  if (type !== 'stepUndone') turnTo(null);
}

/** Writes something down that the bar can take back. */
export function deed(body: EventBody): void {
  const event = happened(body);
  if (event === null) return;
  showUndo(`${sayDeed(event, places.value)}.`, () => strike(event.id));
}

function strike(event: string): void {
  happened({ type: 'entryStruck', event });
}

/** Takes back the last thing this device did in this job, and offers to put it back. */
export function takeBack(): void {
  const last = lastDeed(live.value, device);
  if (last === null) {
    showUndo('This device has done nothing more that can be taken back.', null);
    return;
  }
  const struck = happened({ type: 'entryStruck', event: last.id });
  showUndo(`Taken back: ${sayDeed(last, places.value)}.`, () => struck && strike(struck.id));
}
