/**
 * The least time in which a project can be done, with proof: a search that learns. Bounds of the starts are lifted by
 * lags, resources and hours (propagate-starts.ts); a conflict is turned into a clause over bounds that forbids it and all
 * like it (nogoods.ts); after each schedule a shorter one is asked for, until there is none. This is lazy clause
 * generation for RCPSP/max (Schutt, Feydy, Stuckey and Wallace 2013).
 */
import { energyBound } from './energy-bound.ts';
import { earliestStarts, horizonOf, lagCircle } from './longest-paths.ts';
import { Nogoods } from './nogoods.ts';
import { openOrders, type Pair } from './open-orders.ts';
import type { Project, Schedule } from './project.ts';
import { Propagation } from './propagate-starts.ts';
import { StartBounds } from './start-bounds.ts';

export interface ScheduleOptions {
  /** Only what ends before this counts, min: where nothing does, that is the answer. */
  readonly below?: number;
  /** One that ends no later than this after the bound will do, min; 0, the shortest, when left out. */
  readonly near?: number;
  /** Conflicts after which the best found is given with its bound, count; a million when left out. */
  readonly steps?: number;
  /** Asked now and then; false stops the search. A pure room knows no clock. */
  readonly tick?: () => boolean;
  /** Told the conflicts met, count. */
  readonly tell?: (conflicts: number) => void;
}

/** Conflicts between restarts, times Luby's sequence, and clauses kept at first. */
const RESTART = 120;
const KEPT = 4000;
/** Conflicts between two questions whether to go on. */
const ASKED = 32;

/**
 * The shortest schedule of a project, or why there is none; why 'time' also where none ends before `below`. Throws RangeError for
 * a project that is no project, and a `below` that is no whole number.
 */
export function scheduleProject(project: Project, options: ScheduleOptions = {}): Schedule {
  requireProject(project);
  const { below = Number.POSITIVE_INFINITY } = options;
  if (!(Number.isSafeInteger(below) || below === Number.POSITIVE_INFINITY))
    throw new RangeError(`below must be a whole number, got ${below}`);
  const n = project.tasks.length;
  if (n === 0) return { ok: true, starts: [], makespan: 0, bound: 0, proved: true };
  const circle = lagCircle(project);
  if (circle) return { ok: false, why: 'lags', fight: circle, bound: Number.POSITIVE_INFINITY };
  const alone = neverFits(project);
  if (alone.length > 0) return { ok: false, why: 'resources', fight: alone, bound: Number.POSITIVE_INFINITY };
  const found = search(withEnd(project), options);
  if (found.starts) {
    const makespan = found.best;
    return {
      ok: true,
      starts: found.starts.slice(0, n),
      makespan,
      bound: found.proved ? makespan : Math.min(found.bound, makespan),
      proved: found.proved,
    };
  }
  const why = found.proved && below === Number.POSITIVE_INFINITY ? 'resources' : 'time';
  return { ok: false, why, fight: [], bound: found.bound };
}

/** The project with one more task that begins when all others have ended. */
function withEnd(project: Project): Project {
  const n = project.tasks.length;
  const end = { id: '', name: '', duration: 0, demand: project.capacity.map(() => 0), attended: false };
  return {
    ...project,
    tasks: [...project.tasks, end],
    lags: [...project.lags, ...project.tasks.map(({ duration }, i) => ({ from: i, to: n, least: duration }))],
  };
}

interface Found {
  readonly starts: number[] | null;
  readonly best: number;
  readonly bound: number;
  /** Whether the best is proved best, or that there is none. */
  readonly proved: boolean;
}

function search(
  asked: Project,
  { steps = 1e6, tick, tell, below = Number.POSITIVE_INFINITY, near = 0 }: ScheduleOptions,
): Found {
  const n = asked.tasks.length;
  const end = n - 1;
  const none: Found = { starts: null, best: Number.POSITIVE_INFINITY, bound: 0, proved: true };
  // Half of the ways that are asked for a sooner ride cannot give one, as lags, hours and work alone say: an eighth of the time.
  const early = below < Number.POSITIVE_INFINITY ? earliestStarts(asked) : [];
  if (early.length > 0 && energyBound(asked, early, null) >= below) return none;
  const orders = openOrders(asked);
  if (orders === null) return none;
  if (early.length > 0 && energyBound(asked, early, orders.longest) >= below) return none;
  const { pairs } = orders;
  const project = { ...asked, lags: [...asked.lags, ...orders.forced] };
  const state = new StartBounds(n, horizonOf(project), pairs.length);
  const nogoods = new Nogoods(state);
  const propagation = new Propagation(project, orders, state, nogoods);
  let best = Number.POSITIVE_INFINITY;
  let starts: number[] | null = null;
  let conflicts = 0;
  let kept = KEPT;
  let restart = 0;
  let until = RESTART;
  let rootBound = 0;
  let weighed = false;
  const result = (proved: boolean): Found => {
    tell?.(conflicts);
    return { starts, best, bound: rootBound, proved };
  };
  // No schedule worth having goes beyond the horizon.
  if (below < horizonOf(project) && !state.raise(2 * end + 1, 1 - below, [])) return result(true);
  propagation.wake();
  for (;;) {
    if (!propagation.run()) {
      conflicts++;
      const learned = nogoods.analyse();
      if (!learned) return result(true);
      state.backTo(learned.level);
      propagation.settle();
      if (!nogoods.learn(learned.literals)) {
        // Forced against what stands at that level: the next round finds the conflict there.
        if (state.level === 0) return result(true);
      }
      if (conflicts >= steps || (tick && conflicts % ASKED === 0 && !tick())) return result(false);
      continue;
    }
    if (state.level === 0) {
      if (!weighed) {
        weighed = true;
        const heads = project.tasks.map((_, i) => state.bound[2 * i]!);
        if (!state.raise(2 * end, energyBound(project, heads, orders.longest), [])) return result(true);
        continue;
      }
      rootBound = state.bound[2 * end]!;
    }
    if (conflicts >= until) {
      restart++;
      until = conflicts + RESTART * luby(restart);
      state.backTo(0);
      propagation.settle();
      if (nogoods.size > kept) {
        if (!nogoods.forget()) return result(true);
        kept *= 1.1;
      }
      continue;
    }
    const chosen = choose(project, pairs, state, nogoods, restart, starts);
    if (chosen === null) {
      starts = Array.from({ length: n }, (_, i) => state.bound[2 * i]!);
      best = starts[end]!;
      state.backTo(0);
      propagation.settle();
      if (best > rootBound && best - rootBound <= near) return result(false);
      if (rootBound >= best || !state.raise(2 * end + 1, 1 - best, [])) return result(true);
      continue;
    }
    state.decide(chosen[0], chosen[1]);
  }
}

/**
 * The next decision: a start set to its earliest, by what was met in conflicts lately or by who comes first, turn about;
 * every third time near the best schedule known.
 */
function choose(
  project: Project,
  pairs: readonly Pair[],
  state: StartBounds,
  nogoods: Nogoods,
  restart: number,
  best: readonly number[] | null,
): readonly [number, number] | null {
  const { bound } = state;
  const n = project.tasks.length;
  const byConflict = restart % 2 === 1;
  let chosen = -1;
  let score = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const early = bound[2 * i]!;
    const late = -bound[2 * i + 1]!;
    if (early === late) continue;
    const own = byConflict ? nogoods.activity[i]! : -early - 1e-7 * late;
    if (own > score) {
      score = own;
      chosen = i;
    }
  }
  if (chosen < 0) return null;
  if (byConflict) {
    let order = -1;
    for (let p = 0; p < pairs.length; p++) {
      const k = 2 * (n + p);
      if (bound[k]! + bound[k + 1]! === 0 || nogoods.activity[n + p]! <= score) continue;
      score = nogoods.activity[n + p]!;
      order = p;
    }
    if (order >= 0) {
      const { a, b } = pairs[order]!;
      const k = 2 * (n + order);
      const first = best
        ? best[a]! <= best[b]!
        : bound[2 * a]! - bound[2 * a + 1]! <= bound[2 * b]! - bound[2 * b + 1]!;
      return first ? [k, 1] : [k + 1, 0];
    }
  }
  const early = bound[2 * chosen]!;
  if (best && restart % 3 === 2) {
    const known = best[chosen]!;
    if (known > early && known <= -bound[2 * chosen + 1]!) return [2 * chosen, known];
  }
  return [2 * chosen + 1, -early];
}

/** Luby's sequence 1 1 2 1 1 2 4 … (Luby, Sinclair and Zuckerman 1993), from 1. */
function luby(n: number): number {
  let k = 1;
  while (2 ** k - 1 < n) k++;
  return 2 ** k - 1 === n ? 2 ** (k - 1) : luby(n - 2 ** (k - 1) + 1);
}

/** Tasks that need more of a resource than there is. */
function neverFits({ tasks, capacity }: Project): number[] {
  return tasks.flatMap((task, i) =>
    task.duration > 0 && task.demand.some((need, r) => need > capacity[r]!) ? [i] : [],
  );
}

const MOST_TIME = 2 ** 29;

function requireProject({ tasks, lags, capacity, shut }: Project): void {
  const whole = (name: string, value: number, least: number): void => {
    if (!Number.isSafeInteger(value) || value < least || value > MOST_TIME)
      throw new RangeError(`${name} must be a whole number from ${least} to ${MOST_TIME}, got ${value}`);
  };
  tasks.forEach((task, i) => {
    whole(`duration of task ${i}`, task.duration, 0);
    for (const need of task.demand) whole(`demand of task ${i}`, need, 0);
  });
  for (const [n, { from, to, least }] of lags.entries()) {
    if (!tasks[from] || !tasks[to])
      throw new RangeError(`lag ${n} must join two tasks of 0 to ${tasks.length - 1}, got ${from} and ${to}`);
    whole(`lag ${n}`, least, -MOST_TIME);
  }
  for (const most of capacity) whole('capacity', most, 0);
  let last = -1;
  for (const { from, to } of shut) {
    if (!(from > last && to > from))
      throw new RangeError(`shut hours must be ascending and disjoint, got ${from} to ${to} after ${last}`);
    whole('shut hours', to, 0);
    last = to;
  }
}
