/**
 * The clock: when a plan is really finished. The plan's order is kept, the times are drawn: each step from its low, likely
 * and high; what may be seized comes loose late in some runs, more often where something else of the same cause does;
 * who works fast today works fast at every step. Steps start as soon as what comes before, people, tools and hours let
 * them. PERT's sum along the critical path was passed over: where paths are parallel its "90 %" is met in some six of ten
 * (planning literature; measured again in test/way/clock.test.ts).
 */
import { normalBelow } from '../numbers/normal.ts';
import { drawNormal, openStream } from '../numbers/random.ts';
import type { Project } from './project.ts';
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

/** What holds up the end. */
export interface Driver {
  /** Index of the task. */
  readonly task: number;
  /** How much of the end's variance goes with this task's time, 0–1; squared correlation, so the shares need not add up. */
  readonly share: number;
}

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

/** Spread of a person's pace from day to day (guess), 1. */
const PACE = 0.12;
/** Correlation of two seizings of one cause (guess), 1: rust that holds one screw holds its neighbour. */
const SHARED = 0.5;

interface Wait {
  readonly from: number;
  /** Whether it counts from the end, and the gap after it, min. */
  readonly fromEnd: boolean;
  readonly gap: number;
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

/**
 * Runs a scheduled project with drawn times. `starts` are those of the schedule: they say the order. `uncertain` has one
 * entry a task. Throws RangeError for lists of another length, times that are none, runs not from 1 to a million.
 */
export function runClock(
  project: Project,
  starts: readonly number[],
  uncertain: readonly Uncertain[],
  { runs = 10_000, seed = 1, pace = PACE }: ClockOptions = {},
): Clock {
  const { tasks, lags, capacity, shut } = project;
  const n = tasks.length;
  if (starts.length !== n || uncertain.length !== n)
    throw new RangeError(
      `starts and uncertain must have ${n} entries, got ${starts.length} and ${uncertain.length}`,
    );
  if (!(Number.isInteger(runs) && runs >= 1 && runs <= 1e6))
    throw new RangeError(`runs must be a whole number from 1 to 1000000, got ${runs}`);
  uncertain.forEach(({ minutes, seizes }, i) => {
    requireSpread(`minutes of task ${i}`, minutes);
    if (!seizes) return;
    requireSpread(`time that seizing adds to task ${i}`, seizes.adds);
    if (!(seizes.chance >= 0 && seizes.chance <= 1))
      throw new RangeError(`chance that task ${i} is seized must be from 0 to 1, got ${seizes.chance}`);
  });
  const order = orderOf(starts, lags);
  const waits: Wait[][] = tasks.map(() => []);
  const windows: {
    readonly lag: number;
    readonly from: number;
    readonly to: number;
    readonly fromEnd: boolean;
    readonly room: number;
  }[] = [];
  lags.forEach(({ from, to, least }, lag) => {
    if (least >= 0) {
      // A wait at least as long as the planned step counts from its end: a longer step makes the rest later.
      const fromEnd = tasks[from]!.duration > 0 && least >= tasks[from]!.duration;
      waits[to]!.push({ from, fromEnd, gap: fromEnd ? least - tasks[from]!.duration : least });
    } else {
      // start(from) ≤ start(to) + (−least): `from` is the later step, `to` the one that opened the window.
      const most = -least;
      const fromEnd = tasks[to]!.duration > 0 && most >= tasks[to]!.duration;
      windows.push({ lag, from: to, to: from, fromEnd, room: fromEnd ? most - tasks[to]!.duration : most });
    }
  });
  const causes = [...new Set(uncertain.flatMap(({ seizes }) => (seizes?.cause ? [seizes.cause] : [])))];
  const causeOf = uncertain.map(({ seizes }) => (seizes?.cause ? causes.indexOf(seizes.cause) : -1));
  const limit = uncertain.map(({ seizes }) => (seizes && seizes.chance > 0 ? normalAt(seizes.chance) : -99));
  const stream = openStream(seed);
  const free = capacity.map((most) => new Float64Array(Math.max(1, most)));
  const start = new Float64Array(n);
  const long = new Float64Array(n);
  const shared = new Float64Array(causes.length);
  const ends = new Float64Array(runs);
  const missed = new Int32Array(windows.length);
  // Sums for the correlation of each task's time with the end.
  const sum = new Float64Array(n);
  const squares = new Float64Array(n);
  const products = new Float64Array(n);
  let endSum = 0;
  let endSquares = 0;
  const own = Math.sqrt(1 - SHARED);
  const common = Math.sqrt(SHARED);
  for (let run = 0; run < runs; run++) {
    const speed = pace > 0 ? Math.exp(pace * drawNormal(stream) - (pace * pace) / 2) : 1;
    for (let c = 0; c < shared.length; c++) shared[c] = drawNormal(stream);
    for (const units of free) units.fill(0);
    let end = 0;
    for (const i of order) {
      const task = tasks[i]!;
      const { minutes, seizes } = uncertain[i]!;
      let time = minutes.high > minutes.low ? timeAt(minutes, stream()) : minutes.low;
      if (limit[i]! > -99) {
        const cause = causeOf[i]!;
        const z = cause < 0 ? drawNormal(stream) : common * shared[cause]! + own * drawNormal(stream);
        if (z < limit[i]!) time += timeAt(seizes!.adds, stream());
      }
      if (task.attended) time *= speed;
      let at = 0;
      for (const { from, fromEnd, gap } of waits[i]!) {
        const ready = start[from]! + (fromEnd ? long[from]! : 0) + gap;
        if (ready > at) at = ready;
      }
      for (let r = 0; r < capacity.length; r++) {
        const need = task.demand[r]!;
        if (need <= 0) continue;
        const units = free[r]!;
        // The units are kept ascending: the last of those needed says when all are free.
        if (units[need - 1]! > at) at = units[need - 1]!;
      }
      if (task.attended && time > 0) at = intoHours(at, time, shut);
      start[i] = at;
      long[i] = time;
      const done = at + time;
      for (let r = 0; r < capacity.length; r++) {
        const need = task.demand[r]!;
        if (need <= 0) continue;
        hold(free[r]!, need, done);
      }
      if (done > end) end = done;
    }
    for (let w = 0; w < windows.length; w++) {
      const { from, to, fromEnd, room } = windows[w]!;
      if (start[to]! > start[from]! + (fromEnd ? long[from]! : 0) + room + 1e-9) missed[w]!++;
    }
    ends[run] = end;
    endSum += end;
    endSquares += end * end;
    for (let i = 0; i < n; i++) {
      const time = long[i]!;
      sum[i]! += time;
      squares[i]! += time * time;
      products[i]! += time * end;
    }
  }
  const endVariance = endSquares / runs - (endSum / runs) ** 2;
  const drivers: Driver[] = [];
  for (let i = 0; i < n; i++) {
    const variance = squares[i]! / runs - (sum[i]! / runs) ** 2;
    const together = products[i]! / runs - (sum[i]! / runs) * (endSum / runs);
    if (variance > 1e-9 && endVariance > 1e-9)
      drivers.push({ task: i, share: Math.min(1, together ** 2 / (variance * endVariance)) });
  }
  drivers.sort((a, b) => b.share - a.share);
  ends.sort();
  const p90 = quantileOf(ends, 0.9);
  // Order statistics: a quantile's error from those a deviation of its rank above and below.
  const rank = Math.sqrt(0.09 / runs);
  return {
    ends,
    p50: quantileOf(ends, 0.5),
    p90,
    p90Error: (quantileOf(ends, Math.min(1, 0.9 + rank)) - quantileOf(ends, 0.9 - rank)) / 2,
    drivers,
    missed: windows.map(({ lag }, w) => ({ lag, chance: missed[w]! / runs })),
  };
}

/**
 * Tasks in the order of their planned starts; of those that start together, one that waits for another comes after it,
 * or its start would be read from the run before. Steps tied to one moment, each to the other, keep their numbers' order.
 */
function orderOf(starts: readonly number[], lags: Project['lags']): number[] {
  const left = starts.map((_, i) => i).sort((a, b) => starts[a]! - starts[b]! || a - b);
  const order: number[] = [];
  while (left.length > 0) {
    const first = starts[left[0]!]!;
    const level = left.filter((i) => starts[i] === first);
    const waiting = new Set(
      lags.filter(({ from, least }) => least >= 0 && level.includes(from)).map(({ to }) => to),
    );
    const next = level.find((i) => !waiting.has(i)) ?? level[0]!;
    order.push(next);
    left.splice(left.indexOf(next), 1);
  }
  return order;
}

/** The value at a share 0–1 of an ascending list, in the list's unit. */
export function quantileOf(ascending: Float64Array, share: number): number {
  const at = share * (ascending.length - 1);
  const low = Math.floor(at);
  const next = ascending[Math.min(low + 1, ascending.length - 1)]!;
  return ascending[low]! + (at - low) * (next - ascending[low]!);
}

/** Takes the earliest `need` units until `done`, and keeps the rest ascending. */
function hold(units: Float64Array, need: number, done: number): void {
  const many = Math.min(need, units.length);
  for (let u = 0; u < many; u++) units[u] = done;
  // Few units: an insertion sort is the quickest.
  for (let u = many; u < units.length; u++) {
    const value = units[u]!;
    let place = u - 1;
    while (place >= 0 && units[place]! > value) {
      units[place + 1] = units[place]!;
      place--;
    }
    units[place + 1] = value;
  }
}

/** The first time from `at` on at which work of `time` fits outside the shut hours; work longer than any opening just begins. */
function intoHours(at: number, time: number, shut: Project['shut']): number {
  let from = at;
  for (let n = 0; n < shut.length; n++) {
    const hours = shut[n]!;
    if (hours.to <= from) continue;
    if (hours.from >= from + time) break;
    // A job longer than the day is started in the morning and runs over: better late than never.
    const next = shut[n + 1];
    if (from < hours.from && next && next.from - hours.to < time) return from;
    from = hours.to;
  }
  return from;
}
