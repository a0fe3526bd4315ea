/** Minutes that steps really took, offered for the file; reckoned from the jobs alone, not from them and the file. */
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { getAt, isObject, type Json, type Path } from '../machine/json-value.ts';
import { hoursOf, type StepHours } from './hours.ts';
import { type Offer, plainOffer, type Seen } from './offer.ts';

/** From so many times on the range is one that was seen, count; before it is a guess about them. */
export const SEEN_WELL = 3;
/** Least spread of a hand's minutes, log scale: a step takes a quarter more one day than another; a guess, no source. */
const LEAST_SPREAD = 0.25;
/** A likely time that differs by less is not worth a change, share: a guess, no source. */
const WORTH = 0.15;

interface Timed {
  readonly minutes: number;
  readonly seen: Seen;
  readonly hours: StepHours;
}

/** Where every action and build step stands in the file, by id. Of two with one id the first counts. */
export function placesInFile(file: Json): ReadonlyMap<string, Path> {
  const found = new Map<string, Path>();
  const put = (id: string, path: Path): void => {
    if (!found.has(id)) found.set(id, path);
  };
  const steps = (path: Path): void => {
    const list = getAt(file, path);
    for (const [n, step] of (Array.isArray(list) ? (list as readonly Json[]) : []).entries())
      if (isObject(step) && typeof step.id === 'string') put(step.id, [...path, n]);
  };
  const keys = (path: Path): readonly string[] => {
    const object = getAt(file, path);
    return isObject(object) ? Object.keys(object) : [];
  };
  for (const id of keys(['work', 'actions'])) {
    put(id, ['work', 'actions', id]);
    steps(['work', 'actions', id, 'back']);
  }
  for (const id of keys(['work', 'targets'])) steps(['work', 'targets', id, 'work']);
  steps(['work', 'closing']);
  return found;
}

/** Low, likely and high of times that were seen, min. */
export function timesSeen(minutes: readonly number[]): {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
} {
  const logs = minutes.map(Math.log);
  const mean = logs.reduce((sum, one) => sum + one, 0) / logs.length;
  const square = logs.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const spread = Math.max(LEAST_SPREAD, logs.length > 1 ? Math.sqrt(square / (logs.length - 1)) : 0);
  return {
    low: Math.min(Math.exp(mean - spread), ...minutes),
    likely: Math.exp(mean),
    high: Math.max(Math.exp(mean + spread), ...minutes),
  };
}

export function offeredMinutes(jobs: readonly JobState[], machine: Machine, file: Json): readonly Offer[] {
  const times = new Map<string, Timed[]>();
  for (const state of jobs) {
    if (state.job === null) continue;
    const at = new Map(state.way.ticks.map(({ step, done }) => [step, done ?? '']));
    for (const hours of hoursOf(state, machine).steps) {
      if (hours.taken === null || hours.taken <= 0) continue;
      const seen = { job: state.job, at: at.get(hours.step) ?? '' };
      times.set(hours.step, [...(times.get(hours.step) ?? []), { minutes: hours.taken, seen, hours }]);
    }
  }
  const places = placesInFile(file);
  return [...times].flatMap(([step, list]) => {
    const path = places.get(step);
    return path ? (offerOf(path, list) ?? []) : [];
  });
}

/** What the file says of the minutes of a step, in the words of an offer. */
export function sayMinutesOf(file: Json, path: Path): string {
  return `${String(getAt(file, [...path, 'minutes']))}, likely ${String(getAt(file, [...path, 'likely']))}`;
}

function offerOf(path: Path, list: readonly Timed[]): Offer | null {
  const minutes = list.map((one) => one.minutes);
  const { low, likely, high } = timesSeen(minutes);
  const last = list.toSorted((a, b) => a.seen.at.localeCompare(b.seen.at)).at(-1)!;
  const { planned, does } = last.hours;
  const inside = minutes.every(
    (one) => one >= planned.low * (1 - WORTH) && one <= planned.high * (1 + WORTH),
  );
  if (inside && Math.abs(Math.log(likely / planned.likely)) <= Math.log(1 + WORTH)) return null;
  const range = `${sayMinutes(low, Math.floor)}–${sayMinutes(high, Math.ceil)} min`;
  const usual = `${sayMinutes(likely, Math.round)} min`;
  const times = list.length === 1 ? 'once' : list.length === 2 ? 'twice' : `${list.length} times`;
  return plainOffer(
    {
      kind: 'minutes',
      path,
      label: `Minutes: ${does}`,
      puts: [
        { path: [...path, 'minutes'], is: range },
        { path: [...path, 'likely'], is: usual },
      ],
      says: `${range}, likely ${usual}`,
      was: `${sayMinutes(planned.low, Math.round)}–${sayMinutes(planned.high, Math.round)} min, likely ${sayMinutes(planned.likely, Math.round)} min`,
      why:
        list.length >= SEEN_WELL
          ? `Timed by the ticks ${times}: ${minutes.map((one) => sayMinutes(one, Math.round)).join(', ')} min.`
          : `Timed by the ticks ${times} only: ${minutes.map((one) => sayMinutes(one, Math.round)).join(' and ')} min; the range about it is a guess.`,
    },
    last.seen,
  );
}

/** Minutes with two digits that mean something: 3.5, 12, 110. */
function sayMinutes(minutes: number, round: (value: number) => number): string {
  const step = minutes < 10 ? 0.5 : minutes < 60 ? 1 : 5;
  return String(Math.max(0.5, round(minutes / step) * step));
}
