/**
 * Room `bike`: what several jobs of one bike say together: hours and money against what the plan said, minutes learnt
 * for the next plan, readings over the years. Every job keeps its own log; nothing here is stored twice.
 *
 * This file: how long the steps of one job really took.
 */
import { placesOf, type StepPlace } from '../bench/place.ts';
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { middle } from '../machine/figure.ts';

export interface StepHours {
  readonly step: string;
  readonly does: string;
  /** As the machine file says: least, likely, most, min. */
  readonly planned: { readonly low: number; readonly likely: number; readonly high: number };
  /** From the tick before it to its own, min; null where a pause lies between, or nothing was ticked before it. */
  readonly taken: number | null;
}

export interface Hours {
  /** Hands-on steps that were ticked, in the order in which they were done. */
  readonly steps: readonly StepHours[];
  /** Sum of what the steps that were timed took, min. */
  readonly taken: number;
  /** What the machine file says of the same steps, the likely times, min. */
  readonly plannedOfTaken: number;
  /** What the machine file says of all steps done, min. */
  readonly planned: number;
  /** Steps whose time is not known. */
  readonly untimed: number;
}

/** A gap this many times the longest planned time, and this much beyond it, is a pause: a meal, a night, a missing part. */
const PAUSE_TIMES = 3;
const PAUSE_BEYOND_MINUTES = 20;
/** Ticks closer together were ticked together afterwards: that is no time of a step, min. */
const TOGETHER_MINUTES = 0.25;
const MINUTE = 60_000;

/** The hands-on minutes of each step of a job, from its ticks. */
export function hoursOf(state: JobState, machine: Machine): Hours {
  const places = placesOf(machine);
  const done = state.way.ticks
    .flatMap(({ step, done: at }) => (at === null ? [] : [{ step, at: Date.parse(at) }]))
    .sort((a, b) => a.at - b.at);
  const steps: StepHours[] = [];
  let before: number | null = null;
  for (const { step, at } of done) {
    const place = places.get(step);
    if (place && isHandsOn(place)) {
      const planned = plannedOf(place);
      steps.push({ step, does: doesOf(place), planned, taken: takenOf(before, at, planned.high) });
    }
    before = at;
  }
  const timed = steps.filter(({ taken }) => taken !== null);
  const sum = (list: readonly StepHours[], of: (one: StepHours) => number) =>
    list.reduce((total, one) => total + of(one), 0);
  return {
    steps,
    taken: sum(timed, ({ taken }) => taken ?? 0),
    plannedOfTaken: sum(timed, ({ planned }) => planned.likely),
    planned: sum(steps, ({ planned }) => planned.likely),
    untimed: steps.length - timed.length,
  };
}

function takenOf(before: number | null, at: number, high: number): number | null {
  if (before === null) return null;
  const minutes = (at - before) / MINUTE;
  const pause = minutes > Math.max(PAUSE_TIMES * high, high + PAUSE_BEYOND_MINUTES);
  return minutes < TOGETHER_MINUTES || pause ? null : minutes;
}

function isHandsOn({ step, action }: StepPlace): boolean {
  return (step ? step.hands : action?.entry.hands) !== 0;
}

function doesOf({ id, step, action }: StepPlace): string {
  return step?.does ?? action?.entry.does ?? id;
}

function plannedOf({ step, action }: StepPlace): StepHours['planned'] {
  const entry = step ?? action?.entry;
  if (!entry) throw new RangeError('a place must be a step or an action');
  const likely = entry.likely ? middle(entry.likely) : middle(entry.minutes);
  return { low: entry.minutes.low / 60, likely: likely / 60, high: entry.minutes.high / 60 };
}
