/**
 * A scheduled project made ready to be run thousands of times: its tasks in the order of the plan, and for each what it
 * waits for, what it holds and what must fit before the night, in flat lists. An object a wait and a closure a task
 * took three times as long.
 */
import { neededWaits, type Wait } from './needed-waits.ts';
import type { Project, StartLag } from './project.ts';

/** An upper bound between two starts. */
export interface ClockWindow {
  /** Index in the project's lags. */
  readonly lag: number;
  /** Task that opens it, and the one that must begin within. */
  readonly from: number;
  readonly to: number;
  /** Whether it counts from the end of `from`, and how long it is open, min. */
  readonly fromEnd: boolean;
  readonly room: number;
}

export interface Course {
  /** Tasks in the order in which they are begun. */
  readonly order: Int32Array;
  /** Waits of the k-th in order: from `waitsFrom[k]` up to `waitsFrom[k + 1]`. */
  readonly waitsFrom: Int32Array;
  /** What each wait is for, whether it counts from the end (1) or the start (0), and the gap, min. */
  readonly waitOn: Int32Array;
  readonly waitEnd: Uint8Array;
  readonly waitGap: Float64Array;
  /** Resources of the k-th in order, but those of one unit: from `usesFrom[k]` up to `usesFrom[k + 1]`; which, and how many units. */
  readonly usesFrom: Int32Array;
  readonly useOf: Int32Array;
  readonly useMany: Int32Array;
  /** Where each resource's units begin in one list of units; one more at the end. */
  readonly unitsFrom: Int32Array;
  /** What must fit before the next shut hours when the k-th is begun, min; −1 for what hours do not bind. */
  readonly fits: Float64Array;
  readonly windows: readonly ClockWindow[];
  /** Tasks that may be the last to end: what others wait for to its end is not. */
  readonly last: Int32Array;
}

/** What runs of a project need of it and of its planned starts. */
export function courseOf(project: Project, starts: readonly number[]): Course {
  const { tasks, lags, capacity } = project;
  const order = orderOf(starts, lags);
  const all: Wait[] = [];
  const windows: ClockWindow[] = [];
  lags.forEach((each, lag) => {
    const { from, to, least } = each;
    if (least >= 0) {
      const fromEnd = countsFromEnd(each, tasks[from]!.duration);
      all.push({ from, to, fromEnd, gap: fromEnd ? least - tasks[from]!.duration : least });
    } else {
      // start(from) ≤ start(to) + (−least): `from` is the later step, `to` the one that opened the window.
      const fromEnd = countsFromEnd(each, tasks[to]!.duration);
      const room = fromEnd ? -least - tasks[to]!.duration : -least;
      windows.push({ lag, from: to, to: from, fromEnd, room });
    }
  });
  all.push(...turns(project, order));
  const place = new Int32Array(order.length);
  order.forEach((task, k) => {
    place[task] = k;
  });
  // Of steps tied to one moment the one begun first cannot wait for the other: that start is not known yet.
  const forward = all.filter(({ from, to }) => place[from]! < place[to]!);
  const waits: Wait[][] = tasks.map(() => []);
  for (const wait of neededWaits(order, forward)) waits[wait.to]!.push(wait);
  const followed = new Set(forward.flatMap(({ from, fromEnd, gap }) => (fromEnd && gap >= 0 ? [from] : [])));
  const waited = order.map((task) => waits[task]!);
  const uses = order.map((task) => {
    const { demand, duration } = tasks[task]!;
    return capacity.flatMap((most, of) =>
      duration > 0 && demand[of]! > 0 && most > 1 ? [{ of, many: Math.min(demand[of]!, most) }] : [],
    );
  });
  const fits = fitting(project, starts, windows);
  return {
    order: Int32Array.from(order),
    waitsFrom: offsets(waited.map(({ length }) => length)),
    waitOn: Int32Array.from(waited.flat(), ({ from }) => from),
    waitEnd: Uint8Array.from(waited.flat(), ({ fromEnd }) => Number(fromEnd)),
    waitGap: Float64Array.from(waited.flat(), ({ gap }) => gap),
    usesFrom: offsets(uses.map(({ length }) => length)),
    useOf: Int32Array.from(uses.flat(), ({ of }) => of),
    useMany: Int32Array.from(uses.flat(), ({ many }) => many),
    unitsFrom: offsets(capacity),
    fits: Float64Array.from(order, (task) => fits[task]!),
    windows,
    last: Int32Array.from(order.filter((task) => !followed.has(task))),
  };
}

/** Who takes the only one of something waits for the one before to be done with it: most of that the lags say already. */
function turns({ tasks, capacity }: Project, order: readonly number[]): Wait[] {
  return capacity.flatMap((most, of) => {
    if (most !== 1) return [];
    const users = order.filter((task) => tasks[task]!.duration > 0 && tasks[task]!.demand[of]! > 0);
    return users.slice(1).map((to, k) => ({ from: users[k]!, to, fromEnd: true, gap: 0 }));
  });
}

/**
 * Whether a lag counts from the end of the step before, so that a longer step makes what follows later. Where nobody
 * has said, one at least as long as that step does.
 */
function countsFromEnd({ fromEnd, least }: StartLag, duration: number): boolean {
  return fromEnd ?? (duration > 0 && Math.abs(least) >= duration);
}

function offsets(lengths: readonly number[]): Int32Array {
  const from = new Int32Array(lengths.length + 1);
  lengths.forEach((length, i) => {
    from[i + 1] = from[i]! + length;
  });
  return from;
}

/**
 * What must fit before the hours in which nobody works when a task is begun, min, by task. That is its own usual time, as
 * in the order of work; for what opens a window shorter than the night also all that must follow within it: nobody
 * lays a bead at a quarter to ten to find it skinned in the morning.
 */
function fitting(
  { tasks, shut }: Project,
  starts: readonly number[],
  windows: readonly ClockWindow[],
): number[] {
  const fits = tasks.map(({ attended, duration }) => (attended && duration > 0 ? duration : -1));
  const night = shut.reduce((least, { from, to }) => Math.min(least, to - from), Number.POSITIVE_INFINITY);
  const late = [...windows].sort((a, b) => starts[b.from]! - starts[a.from]!);
  for (const { from, to, fromEnd, room } of late) {
    if (fits[from]! < 0 || fits[to]! < 0) continue;
    if (room + (fromEnd ? tasks[from]!.duration : 0) >= night) continue;
    const span = starts[to]! - starts[from]! + fits[to]!;
    const begun = starts[from]!;
    // What is planned across shut hours all the same was not to be had otherwise.
    if (shut.some((hours) => hours.from < begun + span && hours.to > begun)) continue;
    fits[from] = Math.max(fits[from]!, span);
  }
  return fits;
}

/**
 * Tasks in the order of their planned starts; of those that start together, one that waits for another comes after it,
 * or its start would be read from the run before. Steps tied to one moment, each to the other, keep their numbers' order.
 */
function orderOf(starts: readonly number[], lags: Project['lags']): number[] {
  // Who waits for whom among those that start together.
  const ties: StartLag[] = lags.filter(({ from, to, least }) => least >= 0 && starts[from] === starts[to]);
  const left = starts.map((_, i) => i).sort((a, b) => starts[a]! - starts[b]! || a - b);
  const order: number[] = [];
  while (left.length > 0) {
    const first = starts[left[0]!]!;
    const after = left.findIndex((i) => starts[i] !== first);
    const level = left.slice(0, after === -1 ? left.length : after);
    const waiting = new Set(
      level.length > 1 ? ties.flatMap(({ from, to }) => (level.includes(from) ? [to] : [])) : [],
    );
    const next = level.find((i) => !waiting.has(i)) ?? level[0]!;
    order.push(next);
    left.splice(left.indexOf(next), 1);
  }
  return order;
}
