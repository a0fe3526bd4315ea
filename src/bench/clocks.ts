/**
 * The clocks that run at the bench: windows that close (a bead that skins, a locker that sets, magnets wiped), cures and
 * other things that run by themselves. All of them follow from the log, so that a reload or a night does not stop them.
 */

import type { BenchRecord, BenchState } from '../job/bench-fold.ts';
import { lockerClock, type Surface } from '../joint/locker.ts';
import { sealantClock } from '../joint/sealant.ts';
import { lastRecord } from './last-record.ts';
import type { StepPlace } from './place.ts';
import type { Progress } from './progress.ts';

const MINUTE = 60_000;
const KELVIN = 273.15;
/** So long before a window closes it is told loudly, ms; or in its last third where it is short. */
const HURRY_MS = 5 * MINUTE;
/** A thing that has run off is told for so long, ms. */
const TOLD_MS = 10 * MINUTE;

export interface BenchClock {
  /** The same for the same clock at each look. */
  readonly id: string;
  /** `window`: something must be begun before it ends. `cure`: something must wait until it ends. */
  readonly what: 'window' | 'cure';
  /** What to do or to wait for, in words. */
  readonly says: string;
  /** Step to be done in the window, or that runs. */
  readonly step: string;
  /** Step that opened the window, to be done again when it has closed; null for what only runs. */
  readonly after: string | null;
  /** ms since 1970. */
  readonly startMs: number;
  readonly endMs: number;
  /** `hurry`: a window closes soon. `late`: it has closed. `over`: a cure has ended. */
  readonly state: 'runs' | 'hurry' | 'late' | 'over';
}

/** The first bead has gone on: the window counts from there, not from the tick. Not a record that a step asks for. */
export const BEAD_BEGUN = 'bead-begun';

/** Every clock that runs or has just run off at `nowMs`, ms since 1970, the most pressing first. */
export function clocksOf(
  bench: BenchState,
  progress: Progress,
  places: ReadonlyMap<string, StepPlace>,
  planned: ReadonlySet<string>,
  nowMs: number,
): readonly BenchClock[] {
  const clocks = [
    ...windowsOf(bench, progress, places, planned, nowMs),
    ...lockersOf(bench, progress, places, nowMs),
    ...curesOf(progress, places, nowMs),
  ];
  return (
    clocks
      .sort(byPressure)
      // Of two windows for one step the one that closes first is the clock.
      .filter(
        (clock, n, all) =>
          clock.what === 'cure' ||
          all.findIndex((other) => other.what === 'window' && other.step === clock.step) === n,
      )
  );
}

/** Order of two clocks, dimensionless: below 0 when the first presses more. */
export function byPressure(a: BenchClock, b: BenchClock): number {
  return rank(a) - rank(b) || a.endMs - b.endMs;
}

function rank({ state, what }: BenchClock): number {
  if (state === 'late') return 0;
  if (state === 'hurry') return 1;
  if (what === 'window') return 2;
  return state === 'over' ? 3 : 4;
}

const doesOf = (place: StepPlace | undefined): string => place?.step?.does ?? place?.action?.entry.does ?? '';

function windowState(startMs: number, endMs: number, nowMs: number): BenchClock['state'] {
  if (nowMs > endMs) return 'late';
  return nowMs >= endMs - Math.min(HURRY_MS, (endMs - startMs) / 3) ? 'hurry' : 'runs';
}

/** What must be begun within a time of another step: by the file, and by the bead's own skin. */
function windowsOf(
  bench: BenchState,
  { done, runs }: Progress,
  places: ReadonlyMap<string, StepPlace>,
  planned: ReadonlySet<string>,
  nowMs: number,
): BenchClock[] {
  const out: BenchClock[] = [];
  for (const place of places.values()) {
    if (done.has(place.id) || runs.some(({ id }) => id === place.id) || !planned.has(place.id)) continue;
    for (const { after, from, most } of place.step?.lags ?? []) {
      if (!most) continue;
      const first = from === 'start' ? beadAt(bench, after) : null;
      const startMs = first ?? done.get(after);
      if (startMs === undefined) continue;
      const skin = skinOf(lastRecord(bench.records, after, 'bead'));
      const endMs = startMs + Math.min((most.low / 60) * MINUTE, skin ?? Number.POSITIVE_INFINITY);
      out.push({
        id: `${after} ${place.id}`,
        what: 'window',
        says: place.step!.does,
        step: place.id,
        after,
        startMs,
        endMs,
        state: windowState(startMs, endMs, nowMs),
      });
    }
  }
  return out;
}

/** When the first bead of a step went on, ms since 1970; null where nobody said. */
function beadAt({ records }: BenchState, step: string): number | null {
  const record = records.find((one) => one.step === step && (one.ask === BEAD_BEGUN || one.ask === 'bead'));
  return record ? Date.parse(record.at) : null;
}

/** How long until a bead as recorded may skin, ms; null where the record does not tell. */
function skinOf(record: BenchRecord | null): number | null {
  const { temperatureK, humidity, depthM } = record?.figures ?? {};
  if (typeof temperatureK !== 'number' || typeof humidity !== 'number' || typeof depthM !== 'number')
    return null;
  const clock = sealantClock({
    temperature: temperatureK - KELVIN,
    humidity,
    depth: depthM,
    cure: 'neutral',
  });
  return clock.ok ? clock.skin.low * 1000 : null;
}

/** Lockers as recorded: turned until they set, then left until they bear. */
function lockersOf(
  { records }: BenchState,
  { done }: Progress,
  places: ReadonlyMap<string, StepPlace>,
  nowMs: number,
): BenchClock[] {
  return records
    .filter((one) => one.ask === 'locker' && lastRecord(records, one.step, 'locker')?.event === one.event)
    .flatMap((one): BenchClock[] => {
      const { temperatureK } = one.figures;
      const used = one.words.used ?? 'none';
      const place = places.get(one.step);
      if (used === 'none' || typeof temperatureK !== 'number' || !place) return [];
      const clock = lockerClock({
        temperature: temperatureK - KELVIN,
        surface: (one.words.surface || 'steel') as Surface,
        primer: one.words.primer === 'yes',
      });
      if (!clock.ok) return [];
      const startMs = Date.parse(one.at);
      const turns = place.list.filter(({ kind }) => kind === 'torque');
      const left = turns.find(({ id }) => !done.has(id));
      const endMs = startMs + clock.handling.low * 1000;
      if (left)
        return [
          {
            id: `locker ${one.step}`,
            what: 'window',
            says: `${left.does}, before the locker sets`,
            step: left.id,
            after: one.step,
            startMs,
            endMs,
            state: windowState(startMs, endMs, nowMs),
          },
        ];
      // The file's own cure is the clock where it has one.
      if (place.list.some(({ kind }) => kind === 'cure')) return [];
      return cure(
        `locker ${one.step}`,
        `Locker of “${doesOf(place)}”`,
        one.step,
        startMs,
        startMs + clock.full.high * 1000,
        nowMs,
      );
    });
}

function cure(
  id: string,
  says: string,
  step: string,
  startMs: number,
  endMs: number,
  nowMs: number,
): BenchClock[] {
  if (nowMs > endMs + TOLD_MS) return [];
  return [
    { id, what: 'cure', says, step, after: null, startMs, endMs, state: nowMs >= endMs ? 'over' : 'runs' },
  ];
}

/** What runs by itself, and what of that has just run off. */
function curesOf(
  { runs, done }: Progress,
  places: ReadonlyMap<string, StepPlace>,
  nowMs: number,
): BenchClock[] {
  const running = runs.flatMap(({ id, does, startMs, endMs }) =>
    cure(`runs ${id}`, does, id, startMs, endMs, nowMs),
  );
  const over = [...places.values()].flatMap((place) => {
    const at = done.get(place.id);
    const alone = (place.step ?? place.action?.entry)?.hands === 0;
    return alone && at !== undefined && at <= nowMs
      ? cure(`runs ${place.id}`, doesOf(place), place.id, at, at, nowMs)
      : [];
  });
  return [...running, ...over];
}
