/**
 * The clock: when a plan is really finished. The plan's order is kept, the times are drawn: each step from its low, likely
 * and high; what may be seized comes loose late in some runs, more often where something else of the same cause does;
 * who works fast today works fast at every step. Steps start as soon as what comes before, people, tools and hours let
 * them. PERT's sum along the critical path was passed over: where paths are parallel its "90 %" is met in some six of ten
 * (planning literature; measured again in test/way/clock-coverage.test.ts).
 */
import { courseOf } from './clock-course.ts';
import { BLOCK, type ClockOptions, type DrawnTimes, openDraws, type Uncertain } from './draw-times.ts';
import { type Driver, DriverSums } from './drivers.ts';
import type { Project } from './project.ts';
import { CourseRuns } from './run-course.ts';

export interface Clock {
  /** Ends, min from the project's start, ascending: one a run. */
  readonly ends: Float64Array;
  /** End that half and nine tenths of the runs keep, min. */
  readonly p50: number;
  readonly p90: number;
  /** Standard error of p90 from the number of runs, min. */
  readonly p90Error: number;
  readonly drivers: readonly Driver[];
  /** How often each upper bound between starts is not kept, by index of the project's lags with a negative bound, 0–1. */
  readonly missed: readonly { readonly lag: number; readonly chance: number }[];
}

/**
 * Runs in the first block, count; each after it is as many as all before it until they are whole blocks. The first rows are gone
 * through by the engine's interpreter while it compiles the loops: short ones take all loops to be compiled there at
 * once, where in whole blocks it waited for those of drawing, then of running, then of summing. With one loop for
 * what had four (run-course.ts, drivers.ts) the first clock of a program takes 0.71 to 0.95 of the time in five trials; from 32 on, no less.
 */
const FIRST = 64;

/**
 * Runs a scheduled project with drawn times. `starts` are those of the schedule: they say the order. `uncertain` has one
 * entry a task. `gone`: when one of two people leaves, min. Throws RangeError for lists of another length, times and
 * starts that are none, and what `openDraws` refuses.
 */
export function runClock(
  project: Project,
  starts: readonly number[],
  uncertain: readonly Uncertain[],
  options: ClockOptions = {},
  gone: number | null = null,
): Clock {
  requireStarts(project, starts, uncertain.length, gone);
  const drawing = openDraws(uncertain, options);
  const course = courseOf(project, starts);
  const courseRuns = new CourseRuns(project, course, gone);
  const { runs, tasks, draw } = drawing;
  const sums = new DriverSums(drawing);
  const ends = new Float64Array(runs);
  const own = new Float64Array(tasks * BLOCK);
  const slowness = new Float64Array(BLOCK);
  for (let run = 0, many = 0; run < runs; run += many) {
    many = Math.min(BLOCK, Math.max(FIRST, run), runs - run);
    draw(run, many, own, 0, slowness, 0);
    courseRuns.block(own, 0, slowness, 0, ends, run, many);
    sums.add(own, ends, run, many);
  }
  ends.sort();
  // Order statistics: a quantile's error from those a deviation of its rank above and below.
  const rank = Math.sqrt(0.09 / runs);
  return {
    ends,
    p50: quantileOf(ends, 0.5),
    p90: quantileOf(ends, 0.9),
    p90Error: (quantileOf(ends, Math.min(1, 0.9 + rank)) - quantileOf(ends, Math.max(0, 0.9 - rank))) / 2,
    drivers: sums.drivers(),
    missed: course.windows.map(({ lag }, w) => ({ lag, chance: courseRuns.missed[w]! / runs })),
  };
}

/**
 * A run of a scheduled project for the ends alone, ascending, min from the project's start: made ready once for all lists of
 * times drawn before. It and what it gives throw RangeError as `runClock` does.
 */
export function endsOf(
  project: Project,
  starts: readonly number[],
  gone: number | null = null,
): (drawn: DrawnTimes) => Float64Array {
  requireStarts(project, starts, project.tasks.length, gone);
  const course = courseOf(project, starts);
  return ({ runs, tasks, own, slowness }) => {
    requireStarts(project, starts, tasks, gone);
    const courseRuns = new CourseRuns(project, course, gone);
    const ends = new Float64Array(runs);
    for (let run = 0; run < runs; run += BLOCK)
      courseRuns.block(own, run * tasks, slowness, run, ends, run, Math.min(BLOCK, runs - run));
    return ends.sort();
  };
}

function requireStarts(
  { tasks, shut }: Project,
  starts: readonly number[],
  uncertain: number,
  gone: number | null,
): void {
  const n = tasks.length;
  if (starts.length !== n || uncertain !== n)
    throw new RangeError(
      `starts and uncertain must have ${n} entries, got ${starts.length} and ${uncertain}`,
    );
  starts.forEach((start, i) => {
    if (!(start >= 0 && Number.isFinite(start)))
      throw new RangeError(`start of task ${i} must be a finite number ≥ 0, got ${start}`);
  });
  if (Number.isNaN(gone)) throw new RangeError('gone must be minutes or null, got NaN');
  let last = Number.NEGATIVE_INFINITY;
  for (const { from, to } of shut) {
    if (!(from >= last && to > from && Number.isFinite(to)))
      throw new RangeError(`shut hours must be ascending and disjoint, got ${from} to ${to} after ${last}`);
    last = to;
  }
}

/** The value at a share 0–1 of an ascending list, in the list's unit. Throws RangeError for another share or an empty list. */
export function quantileOf(ascending: Float64Array, share: number): number {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`share must be from 0 to 1, got ${share}`);
  if (ascending.length === 0) throw new RangeError('a quantile wants at least 1 value, got 0');
  const at = share * (ascending.length - 1);
  const low = Math.floor(at);
  const next = ascending[Math.min(low + 1, ascending.length - 1)]!;
  return ascending[low]! + (at - low) * (next - ascending[low]!);
}
