/**
 * A plain scheduler for tests of plans: earliest starts by the lags, then, at the first time at which too much is
 * held, one task after another (De Reyck and Herroelen 1998, without their bounds). Slow, short, and kept apart from
 * the product's own.
 */
import type { Project, Schedule, StartLag } from '../../src/way/project.ts';

/** The least starts that keep all lags and shut hours, or null; the horizon ends what never settles. */
function earliest(project: Project, extra: readonly StartLag[], horizon: number): number[] | null {
  const starts = project.tasks.map(() => 0);
  const lags = [...project.lags, ...extra];
  for (;;) {
    let moved = false;
    project.tasks.forEach(({ attended, duration }, i) => {
      if (!attended || duration === 0) return;
      for (const { from, to } of project.shut)
        if (starts[i]! < to && starts[i]! + duration > from) {
          starts[i] = to;
          moved = true;
        }
    });
    for (const { from, to, least } of lags)
      if (starts[from]! + least > starts[to]!) {
        starts[to] = starts[from]! + least;
        moved = true;
        if (starts[to] > horizon) return null;
      }
    if (!moved) return starts;
  }
}

/** Tasks of a cycle of lags that asks for more than it allows, from predecessors of longest paths; empty when none. */
function fighting({ tasks, lags }: Project): number[] {
  const far = tasks.map(() => 0);
  const from = tasks.map(() => -1);
  let last = -1;
  for (let round = 0; round <= tasks.length; round++) {
    last = -1;
    for (const lag of lags)
      if (far[lag.from]! + lag.least > far[lag.to]!) {
        far[lag.to] = far[lag.from]! + lag.least;
        from[lag.to] = lag.from;
        last = lag.to;
      }
    if (last === -1) return [];
  }
  for (let i = 0; i < tasks.length; i++) last = from[last]!;
  const cycle = [last];
  for (let at = from[last]!; at !== last; at = from[at]!) cycle.unshift(at);
  return cycle;
}

/** The shortest schedule, or the best within some thousand nodes. */
export function plainSchedule(project: Project, most = 3000): Schedule {
  const { tasks, capacity } = project;
  const horizon =
    tasks.reduce((sum, t) => sum + t.duration, 0) +
    project.lags.reduce((sum, l) => sum + Math.max(0, l.least), 0) +
    (project.shut.at(-1)?.to ?? 0);
  const root = earliest(project, [], horizon);
  const end = (starts: readonly number[]) =>
    starts.reduce((last, s, i) => Math.max(last, s + tasks[i]!.duration), 0);
  if (root === null) {
    const fight = fighting(project);
    return { ok: false, why: fight.length > 0 ? 'lags' : 'resources', fight, bound: 0 };
  }
  let best: number[] | null = null;
  let upper = Number.POSITIVE_INFINITY;
  let nodes = 0;
  const below = (extra: StartLag[]): void => {
    if (nodes++ > most) return;
    const starts = earliest(project, extra, Math.min(horizon, upper));
    if (starts === null || end(starts) >= upper) return;
    const times = [...new Set(starts)].sort((a, b) => a - b);
    for (const t of times)
      for (let r = 0; r < capacity.length; r++) {
        const runs = tasks.flatMap((task, i) =>
          (task.demand[r] ?? 0) > 0 && starts[i]! <= t && t < starts[i]! + task.duration ? [i] : [],
        );
        if (runs.reduce((sum, i) => sum + tasks[i]!.demand[r]!, 0) <= capacity[r]!) continue;
        for (const later of runs)
          for (const first of runs)
            if (first !== later) below([...extra, { from: first, to: later, least: tasks[first]!.duration }]);
        return;
      }
    best = starts;
    upper = end(starts);
  };
  below([]);
  const proved = nodes <= most;
  if (best === null) return { ok: false, why: proved ? 'resources' : 'time', fight: [], bound: end(root) };
  return { ok: true, starts: best, makespan: upper, bound: proved ? upper : end(root), proved };
}
