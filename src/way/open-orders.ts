/**
 * Pairs of tasks that cannot run at once and whose order is open. Most of a bike's are not: what comes off last goes back
 * first, the lags say so already along some path (longest paths over all lags: Bartusch, Möhring and Radermacher 1988),
 * or a window leaves room for one order only. To carry those along as unknowns took the search twice as long.
 */
import type { Project, StartLag } from './project.ts';

export interface Pair {
  readonly a: number;
  readonly b: number;
}

export interface OpenOrders {
  readonly pairs: readonly Pair[];
  /** Orders that only one way round can be kept, as lags beside the project's own. */
  readonly forced: readonly StartLag[];
  /** Whether all pairs are here or kept by lags; not where there were too many. */
  readonly complete: boolean;
  /** Longest path from each start to each other, forced orders included: from i to j at i × tasks + j; null for too many tasks. */
  readonly longest: Float64Array | null;
}

/** Most pairs that are kept: they grow with the square of the tasks. */
const MOST_PAIRS = 40_000;
/** Most tasks whose longest paths are all reckoned: those grow with the cube. */
const MOST_PATHS = 250;
const NONE = -(2 ** 40);

/** The open orders of a project, by its demands and lags; null where some pair fits no way round. */
export function openOrders(project: Project): OpenOrders | null {
  const all = rivals(project);
  const complete = all.length < MOST_PAIRS;
  const n = project.tasks.length;
  const longest = longestPaths(project);
  if (longest === null) return { pairs: all, forced: [], complete, longest };
  const { tasks } = project;
  const forced: StartLag[] = [];
  let pairs: readonly Pair[] = all;
  for (let changed = true; changed; ) {
    changed = false;
    const open: Pair[] = [];
    for (const pair of pairs) {
      const { a, b } = pair;
      const [there, back] = [longest[a * n + b]!, longest[b * n + a]!];
      const [longA, longB] = [tasks[a]!.duration, tasks[b]!.duration];
      if (there >= longA || back >= longB) continue;
      // Where b starts less than its own time before a at most, it is not over before a.
      const [notB, notA] = [there > -longB, back > -longA];
      if (notA && notB) return null;
      if (!notA && !notB) {
        open.push(pair);
        continue;
      }
      const lag = notB ? { from: a, to: b, least: longA } : { from: b, to: a, least: longB };
      forced.push(lag);
      addPath(longest, n, lag);
      changed = true;
    }
    pairs = open;
  }
  return { pairs, forced, complete, longest };
}

/** Pairs of tasks that cannot run at once, by their demands. */
function rivals({ tasks, capacity }: Project): Pair[] {
  const pairs: Pair[] = [];
  tasks.forEach((one, a) => {
    for (let b = a + 1; b < tasks.length && pairs.length < MOST_PAIRS; b++) {
      const other = tasks[b]!;
      if (one.duration === 0 || other.duration === 0) continue;
      if (capacity.some((most, r) => (one.demand[r] ?? 0) + (other.demand[r] ?? 0) > most))
        pairs.push({ a, b });
    }
  });
  return pairs;
}

/**
 * Longest path from each start to each other, in the project's unit (Floyd 1962, Warshall 1962), far below 0 for none: from
 * i to j at i × tasks + j. Null for more tasks than that can be reckoned for.
 */
function longestPaths({ tasks, lags }: Project): Float64Array | null {
  const n = tasks.length;
  if (n > MOST_PATHS) return null;
  const longest = new Float64Array(n * n).fill(NONE);
  for (let i = 0; i < n; i++) longest[i * n + i] = 0;
  for (const { from, to, least } of lags) longest[from * n + to] = Math.max(longest[from * n + to]!, least);
  for (let by = 0; by < n; by++)
    for (let i = 0; i < n; i++) {
      const first = longest[i * n + by]!;
      if (first <= NONE) continue;
      for (let j = 0; j < n; j++) {
        const both = first + longest[by * n + j]!;
        if (both > longest[i * n + j]!) longest[i * n + j] = both;
      }
    }
  return longest;
}

/** The paths with one lag more. */
function addPath(longest: Float64Array, n: number, { from, to, least }: StartLag): void {
  for (let i = 0; i < n; i++) {
    const first = longest[i * n + from]! + least;
    if (first <= NONE) continue;
    for (let j = 0; j < n; j++) {
      const both = first + longest[to * n + j]!;
      if (both > longest[i * n + j]!) longest[i * n + j] = both;
    }
  }
}
