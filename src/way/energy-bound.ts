/**
 * What a resource's work alone says of the end: tasks that cannot start before h and leave at least q to do after them
 * need their work's time between, at full capacity and outside shut hours (Carlier 1982 for one machine, Baptiste, Le
 * Pape and Nuijten 2001 for more). Search alone would try orders by the thousand before it knew that two evenings are
 * not enough. For one person before a night the fullest evenings are gone through (evening-fills.ts): of 16 evening starts on
 * the shipped machines, each proved after 1,500 conflicts and more or not at all, all are proved by the first 50.
 */
import { eveningFills } from './evening-fills.ts';
import type { Project } from './project.ts';

/** Longest lags from each task's start to the start of the last one, whole units; −Infinity where none leads there. */
function tailsOf({ tasks, lags }: Project): Float64Array {
  const n = tasks.length;
  const tail = new Float64Array(n).fill(Number.NEGATIVE_INFINITY);
  tail[n - 1] = 0;
  for (let round = 0; round < n; round++) {
    let changed = false;
    for (const { from, to, least } of lags)
      if (tail[to]! + least > tail[from]!) {
        tail[from] = tail[to]! + least;
        changed = true;
      }
    if (!changed) break;
  }
  return tail;
}

/** The time at which `work` open units have passed after `from`. */
function advance(from: number, work: number, shut: Project['shut']): number {
  let at = from;
  let left = work;
  for (const { from: a, to: b } of shut) {
    if (b <= at) continue;
    if (at < a) {
      if (at + left <= a) return at + left;
      left -= a - at;
    }
    at = b;
  }
  return at + left;
}

/**
 * Least time at which the project ends, in its unit: no schedule is shorter. The last task is the end; `heads` are the earliest
 * starts, `longest` the longest paths between all starts where they are known.
 */
export function energyBound(
  project: Project,
  heads: readonly number[],
  longest: Float64Array | null,
): number {
  const { tasks, capacity, shut } = project;
  const tails = tailsOf(project);
  let bound = 0;
  capacity.forEach((most, r) => {
    const users = tasks.flatMap((task, i) => (task.duration > 0 && (task.demand[r] ?? 0) > 0 ? [i] : []));
    if (users.length === 0 || most === 0) return;
    const attended = users.every((i) => tasks[i]!.attended);
    // What is left after a task's end.
    const after = (i: number) => tails[i]! - tasks[i]!.duration;
    const byTail = users.toSorted((a, b) => after(b) - after(a));
    const dusk = shut[0]?.from ?? 0;
    const alone = attended && users.every((i) => tasks[i]!.demand[r] === most);
    const fills = alone && dusk > 0 && longest ? eveningFills(project, users, heads, longest) : null;
    const fillsOf: number[][] = tasks.map(() => []);
    fills?.forEach((fill, n) => {
      for (const i of fill) fillsOf[i]!.push(n);
    });
    for (const head of new Set(users.map((i) => heads[i]!))) {
      let work = 0;
      // How much of these tasks fits before the first shut hours: the fullest of what can.
      let room = fills && head < dusk ? 0 : Number.POSITIVE_INFINITY;
      const part = new Float64Array(fills?.length ?? 0);
      for (const i of byTail) {
        if (heads[i]! < head) continue;
        const own = tasks[i]!.duration;
        work += own * tasks[i]!.demand[r]!;
        const time = Math.ceil(work / most);
        if (room < Number.POSITIVE_INFINITY)
          for (const n of fillsOf[i]!) {
            part[n]! += own;
            if (part[n]! > room) room = part[n]!;
          }
        const end =
          time > room
            ? advance(shut[0]!.to, time - Math.min(room, dusk - head), shut) + after(i)
            : advance(head, time, attended ? shut : []) + after(i);
        if (end > bound) bound = end;
      }
    }
  });
  return bound;
}
