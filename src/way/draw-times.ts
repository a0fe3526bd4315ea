/**
 * The times of a clock's runs, a block of runs at a time: of ten thousand runs no list is ever whole, so that nothing
 * leaves the processor's cache and no list of megabytes is made. Each loop is a function that is called for each block and
 * each step: the engine compiles it after a few, where a loop over all runs was compiled while it ran and once more for
 * the next. The same seed gives each step the same times whatever the hour at which the work begins, so that two starts
 * can be told apart by fewer runs.
 */
import { fillHalves, fillUniform, seedAfter } from '../numbers/random.ts';
import { addSeizing, fillNormal, fillShares, limitOf, shapeOf, toPaces } from './draw-rows.ts';
import { requireSpread } from './spread.ts';
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

/**
 * Runs gone through together, count: with forty steps their times, starts and ends take 480 kB. With 256 the engine took the
 * loops over the steps for busy and compiled them as well, with 1,024 the first blocks were run before anything was.
 */
export const BLOCK = 512;

/** Times that can be drawn, any block of them by itself. */
export interface Drawing {
  readonly runs: number;
  readonly tasks: number;
  /** Tasks whose own time is not the same in all runs. */
  readonly vague: readonly number[];
  /** Lists of tasks that one cause can seize. */
  readonly together: readonly (readonly number[])[];
  /**
   * Draws `many` runs, at most a block, from `run` on, an even one: to `own` from `at` on a row of a block's length for each task,
   * the time it takes by itself at the usual pace, min; to `slowness` from `slowAt` on how much longer what people do takes.
   */
  readonly draw: (
    run: number,
    many: number,
    own: Float64Array,
    at: number,
    slowness: Float64Array,
    slowAt: number,
  ) => void;
}

/** Times drawn and kept, for who runs them more than once. */
export interface DrawnTimes {
  readonly runs: number;
  readonly tasks: number;
  /** Block after block, in each a row of a block's length for each task: its own time at the usual pace, min. */
  readonly own: Float64Array;
  /** How much longer what people do takes in each run: the pace of the day, 1. */
  readonly slowness: Float64Array;
}

/** Most runs, count: every end is kept, and where they are asked for every time, eight bytes each. */
export const MOST_RUNS = 100_000;
/** Spread of a person's pace from day to day (guess), 1. */
const PACE = 0.12;
/** Draws all times and keeps them; throws RangeError as `openDraws` does. */
export function drawTimes(uncertain: readonly Uncertain[], options: ClockOptions = {}): DrawnTimes {
  const { runs, tasks, draw } = openDraws(uncertain, options);
  const blocks = Math.ceil(runs / BLOCK);
  const own = new Float64Array(blocks * tasks * BLOCK);
  const slowness = new Float64Array(blocks * BLOCK);
  for (let run = 0; run < runs; run += BLOCK)
    draw(run, Math.min(BLOCK, runs - run), own, run * tasks, slowness, run);
  return { runs, tasks, own, slowness };
}

/** Where in the one stream of numbers a list of draws is, by run. */
interface Lists {
  /** Of the times of each task, of its seizing: the first number's place in the stream, −1 for none. */
  readonly times: Int32Array;
  readonly seizings: Int32Array;
  readonly pace: number;
  readonly causes: readonly number[];
}

/** How many of the tasks with one chance a cause seizes in a run. */
interface Share {
  /** Index of the cause, −1 for a task that seizes for itself. */
  readonly cause: number;
  readonly chance: number;
}

/**
 * The times of all runs, to be drawn block by block. Throws RangeError for times that are none, a chance outside 0–1, runs
 * not from 1 to 100,000, a seed that is no whole number, a pace below 0 or above 2.
 */
export function openDraws(
  uncertain: readonly Uncertain[],
  { runs = 10_000, seed = 1, pace = PACE }: ClockOptions = {},
): Drawing {
  requireDraws(uncertain, runs, seed, pace);
  const tasks = uncertain.length;
  const { lists, shares, shareOf, together } = listsOf(uncertain, runs, pace);
  const shapes = new Float64Array(3 * tasks);
  uncertain.forEach(({ minutes }, task) => {
    shapes.set(shapeOf(minutes), 3 * task);
  });
  const uniform = new Float64Array(BLOCK);
  const normals = new Float64Array(lists.causes.length * BLOCK);
  const share = new Float64Array(shares.length * BLOCK);
  shares.forEach(({ cause, chance }, s) => {
    if (cause < 0) share.fill(chance, s * BLOCK, (s + 1) * BLOCK);
  });
  const limits = Float64Array.from(shares, ({ cause, chance }) => (cause < 0 ? 0 : limitOf(chance)));
  const seedOf = (list: number, run: number) => seedAfter(seed, list + run);
  return {
    runs,
    tasks,
    vague: uncertain.flatMap((_, i) => (lists.times[i]! >= 0 || lists.seizings[i]! >= 0 ? [i] : [])),
    together,
    draw: (run, many, own, at, slowness, slowAt) => {
      if (pace > 0) {
        fillNormal(slowness, slowAt, many, uniform, seedOf(lists.pace, run));
        toPaces(slowness, slowAt, many, pace);
      } else slowness.fill(1, slowAt, slowAt + many);
      lists.causes.forEach((list, c) => {
        fillNormal(normals, c * BLOCK, many, uniform, seedOf(list, run));
      });
      shares.forEach(({ cause }, s) => {
        if (cause >= 0) fillShares(share, s * BLOCK, normals, cause * BLOCK, many, limits[s]!);
      });
      for (let task = 0; task < tasks; task++) {
        const row = at + task * BLOCK;
        const [list, seizing] = [lists.times[task]!, lists.seizings[task]!];
        if (list >= 0) fillHalves(own, row, many, shapes, 3 * task, seedOf(list, run));
        else own.fill(shapes[3 * task]!, row, row + many);
        if (seizing < 0) continue;
        fillUniform(uniform, many, seedOf(seizing, run));
        addSeizing(own, row, many, uniform, share, shareOf[task]! * BLOCK, uncertain[task]!.seizes!.adds);
      }
    },
  };
}

function requireDraws(uncertain: readonly Uncertain[], runs: number, seed: number, pace: number): void {
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
}

/** The lists of draws one after the other, and which tasks share what. */
function listsOf(
  uncertain: readonly Uncertain[],
  runs: number,
  pace: number,
): { lists: Lists; shares: Share[]; shareOf: Int32Array; together: number[][] } {
  let drawn = 0;
  const take = (many: number): number => {
    drawn += many;
    return drawn - many;
  };
  // Normals come in pairs.
  const even = runs + (runs % 2);
  const times = new Int32Array(uncertain.length).fill(-1);
  const seizings = times.slice();
  const shareOf = times.slice();
  const first = pace > 0 ? take(even) : 0;
  const causes: number[] = [];
  const names = new Map<string, number>();
  const seized: number[][] = [];
  const shares: Share[] = [];
  uncertain.forEach(({ minutes, seizes }, task) => {
    if (minutes.low < minutes.high) times[task] = take(runs);
    if (!seizes || seizes.chance === 0) return;
    let cause = -1;
    if (seizes.cause !== undefined) {
      cause = names.get(seizes.cause) ?? causes.length;
      if (cause === causes.length) {
        names.set(seizes.cause, cause);
        causes.push(take(even));
        seized.push([]);
      }
      seized[cause]!.push(task);
    }
    seizings[task] = take(even);
    const known = shares.findIndex((share) => share.cause === cause && share.chance === seizes.chance);
    shareOf[task] = known < 0 ? shares.push({ cause, chance: seizes.chance }) - 1 : known;
  });
  const together = seized.filter((list) => list.length > 1);
  return { lists: { times, seizings, pace: first, causes }, shares, shareOf, together };
}
