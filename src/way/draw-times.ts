/**
 * The times of a clock's runs, drawn before any is run: one list a step. The same seed gives each step the same times
 * whatever the hour at which the work begins, so that two starts can be told apart by fewer runs.
 */
import { normalBelow } from '../numbers/normal.ts';
import { fillHalves, fillUniform } from '../numbers/random.ts';
import { requireSpread, timeAt } from './spread.ts';
import type { Seizing, Spread } from './work.ts';

/** What is uncertain of one task. */
export interface Uncertain {
  readonly minutes: Spread;
  readonly seizes?: Seizing;
}

export interface ClockOptions {
  /** Runs, count; 10,000 when left out. */
  readonly runs?: number;
  readonly seed?: number;
  /** Spread of how fast this person works today, natural log of the ratio at one deviation, 1. */
  readonly pace?: number;
}

export interface DrawnTimes {
  readonly runs: number;
  /** Time that each task takes by itself at the usual pace, a list of runs a task, min. */
  readonly own: readonly Float64Array[];
  /** How much longer what people do takes in each run: the pace of the day, 1. */
  readonly slowness: Float64Array;
  /** Lists of tasks that one cause can seize. */
  readonly together: readonly (readonly number[])[];
}

/** Most runs, count: every time is kept, eight bytes each. */
export const MOST_RUNS = 100_000;
/** Spread of a person's pace from day to day (guess), 1. */
const PACE = 0.12;
/** Correlation of two seizings of one cause (guess), 1: rust that holds one screw holds its neighbour. */
const SHARED = 0.5;

/**
 * Draws the times of all runs. Throws RangeError for times that are none, a chance outside 0–1, runs not from 1 to
 * 100,000, a seed that is no whole number, a pace below 0 or above 2.
 */
export function drawTimes(
  uncertain: readonly Uncertain[],
  { runs = 10_000, seed = 1, pace = PACE }: ClockOptions = {},
): DrawnTimes {
  if (!(Number.isInteger(runs) && runs >= 1 && runs <= MOST_RUNS))
    throw new RangeError(`runs must be a whole number from 1 to ${MOST_RUNS}, got ${runs}`);
  if (!Number.isSafeInteger(seed)) throw new RangeError(`seed must be a whole number, got ${seed}`);
  if (!(pace >= 0 && pace <= 2)) throw new RangeError(`pace must be from 0 to 2, got ${pace}`);
  uncertain.forEach(({ minutes, seizes }, i) => {
    requireSpread(`minutes of task ${i}`, minutes);
    if (!seizes) return;
    requireSpread(`time that seizing adds to task ${i}`, seizes.adds);
    if (!(seizes.chance >= 0 && seizes.chance <= 1))
      throw new RangeError(`chance that task ${i} is seized must be from 0 to 1, got ${seizes.chance}`);
  });
  const pool: Pool = { seed, uniform: new Float64Array(runs + (runs % 2)) };
  const slowness = new Float64Array(runs).fill(1);
  if (pace > 0) {
    fillNormal(slowness, pool);
    for (let run = 0; run < runs; run++) slowness[run] = Math.exp(pace * slowness[run]! - (pace * pace) / 2);
  }
  const causes = new Map<string, Cause>();
  const own = uncertain.map(({ minutes, seizes }, task) => {
    const times = new Float64Array(runs);
    if (minutes.low === minutes.high) times.fill(minutes.low);
    else fillTimes(times, minutes, pool);
    if (!seizes || seizes.chance === 0) return times;
    if (seizes.cause === undefined) {
      addSeizing(times, seizes, null, pool);
      return times;
    }
    const cause: Cause = causes.get(seizes.cause) ?? {
      normal: new Float64Array(runs),
      tasks: [],
      shares: new Map(),
    };
    if (cause.tasks.length === 0) fillNormal(cause.normal, pool);
    causes.set(seizes.cause, cause);
    cause.tasks.push(task);
    addSeizing(times, seizes, sharesOf(cause, seizes.chance), pool);
    return times;
  });
  const together = [...causes.values()].map(({ tasks }) => tasks).filter((tasks) => tasks.length > 1);
  return { runs, own, slowness, together };
}

/** Uniform numbers, one a run at a time, and the seed of the next. */
interface Pool {
  seed: number;
  readonly uniform: Float64Array;
}

/** What can seize several tasks. */
interface Cause {
  /** How strong it is in each run, a standard normal. */
  readonly normal: Float64Array;
  readonly tasks: number[];
  /** In each run the share of tasks that it seizes, by their chance over all runs, 0–1. */
  readonly shares: Map<number, Float64Array>;
}

/**
 * How many of the tasks with a chance a cause seizes in each run: two normals, the cause's and the task's own, are summed and
 * held against the chance; with the cause's known, a share of the own is left (one-factor model, Vasicek 1987). Drawing
 * the own normals took four times as long.
 */
function sharesOf({ normal, shares }: Cause, chance: number): Float64Array {
  const known = shares.get(chance);
  if (known) return known;
  const limit = normalAt(chance);
  const share = normal.map((z) => normalBelow((limit - Math.sqrt(SHARED) * z) / Math.sqrt(1 - SHARED)));
  shares.set(chance, share);
  return share;
}

/** Adds what seizing takes, in the runs in which it comes to it; `shares`: how often it does in each, where not always `chance`. */
function addSeizing(
  times: Float64Array,
  { chance, adds }: Seizing,
  shares: Float64Array | null,
  pool: Pool,
): void {
  const { uniform } = pool;
  pool.seed = fillUniform(uniform, pool.seed);
  for (let run = 0; run < times.length; run++) {
    const share = shares === null ? chance : shares[run]!;
    // Below the share it is as uniform as ever, and says how long it takes.
    if (uniform[run]! < share) times[run]! += timeAt(adds, uniform[run]! / share);
  }
}

/**
 * Fills a list with draws of a spread, min: of two uniforms the lesser and the greater, mixed as the likely time lies
 * between low and high, make a triangular number (Stein and Keblis 2009). Its inverse has a branch that a processor
 * guesses wrong one time in three, and took twice as long. Both uniforms are halves of one number of 32 bits: they are
 * fine to a 65,536th of the spread.
 */
function fillTimes(into: Float64Array, { low, likely, high }: Spread, pool: Pool): void {
  const [lesser, greater] = [(high - likely) / 65_536, (likely - low) / 65_536];
  // Both are taken from the middle of their step.
  const base = low + (lesser + greater) / 2;
  pool.seed = fillHalves(into, base, lesser, greater, pool.seed);
}

/** Fills a list with standard normals, two from each pair of uniforms (Box and Muller 1958), 1. */
function fillNormal(into: Float64Array, pool: Pool): void {
  const { uniform } = pool;
  pool.seed = fillUniform(uniform, pool.seed);
  for (let run = 0; run < into.length; run += 2) {
    const far = Math.sqrt(-2 * Math.log(1 - uniform[run]!));
    const angle = 2 * Math.PI * uniform[run + 1]!;
    into[run] = far * Math.cos(angle);
    if (run + 1 < into.length) into[run + 1] = far * Math.sin(angle);
  }
}

/** The normal number below which a share 0–1 of a standard normal lies, by bisection. */
function normalAt(share: number): number {
  let [low, high] = [-8, 8];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
