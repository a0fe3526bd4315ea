/** A bike's readings over the years: the same reading in several jobs, oldest first. */
import type { JobState } from '../job/fold.ts';
import type { Reading } from '../job/readings-fold.ts';
import { checkKey, completeKey } from '../reading/catalogue.ts';
import { type ReadingKey, writeKey } from '../reading/key.ts';

export interface SeriesPoint {
  /** ms since 1970. */
  readonly at: number;
  /** In the unit of the reading's kind. */
  readonly value: number;
  /** The job it was read in. */
  readonly job: string;
  /** Whether the bike had been repaired in that job before it was read. */
  readonly repaired: boolean;
}

export interface Series {
  readonly key: ReadingKey;
  readonly points: readonly SeriesPoint[];
}

/** Readings fewer than this make no series. */
const LEAST_POINTS = 2;

/** Every reading that was taken in two jobs or more, or before and after a repair; most often taken first. */
export function seriesOf(jobs: readonly JobState[]): readonly Series[] {
  const found = new Map<string, { key: ReadingKey; points: SeriesPoint[] }>();
  const put = (job: string, readings: readonly Reading[], repaired: boolean): void => {
    for (const { key: text, value, at } of readings) {
      const checked = checkKey(text);
      if (!checked.ok || typeof value !== 'number') continue;
      const key = completeKey(checked.key);
      const name = writeKey(key);
      const series = found.get(name) ?? { key, points: [] };
      series.points.push({ at: Date.parse(at), value, job, repaired });
      found.set(name, series);
    }
  };
  for (const state of jobs) {
    if (state.job === null) continue;
    put(state.job, state.readings, false);
    for (const round of state.proof.before) put(state.job, round.readings, true);
    put(state.job, state.proof.readings, true);
  }
  return [...found.values()]
    .filter(({ points }) => points.length >= LEAST_POINTS)
    .map(({ key, points }) => ({ key, points: points.sort((a, b) => a.at - b.at) }))
    .sort((a, b) => b.points.length - a.points.length);
}
