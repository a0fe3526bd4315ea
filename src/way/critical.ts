/**
 * Which steps the ride waits for, and how much later the others can start: a backward pass over the lags, over the
 * hours nobody works, and over who hands what to whom. The handing over is one resource flow (Artigues and Roubellat
 * 2000): in order of start each task takes its units from those that were free first, so a float keeps this order of
 * people and tools; with another order there can be more.
 */
import type { Project, StartLag } from './project.ts';

/** Arcs of units handed from task to task. */
export function handOvers({ tasks, capacity }: Project, starts: readonly number[]): StartLag[] {
  const order = tasks
    .map((_, i) => i)
    .sort((a, b) => starts[a]! - starts[b]! || tasks[a]!.duration - tasks[b]!.duration);
  const arcs: StartLag[] = [];
  capacity.forEach((units, r) => {
    const last: number[] = Array.from({ length: units }, () => -1);
    const freeAt = (task: number) =>
      task === -1 ? Number.NEGATIVE_INFINITY : starts[task]! + tasks[task]!.duration;
    for (const i of order) {
      let want = tasks[i]!.demand[r] ?? 0;
      if (want === 0 || tasks[i]!.duration === 0) continue;
      last.sort((a, b) => freeAt(a) - freeAt(b));
      for (let u = 0; u < units && want > 0; u++) {
        const from = last[u]!;
        if (freeAt(from) > starts[i]!) continue;
        if (from !== -1) arcs.push({ from, to: i, least: tasks[from]!.duration });
        last[u] = i;
        want -= 1;
      }
    }
  });
  return arcs;
}

/** The latest start ≤ `start` at which an attended task overlaps no shut hours. */
function pulled(project: Project, task: number, start: number): number {
  const { attended, duration } = project.tasks[task]!;
  if (!attended || duration === 0) return start;
  let at = start;
  for (let i = project.shut.length - 1; i >= 0; i--) {
    const { from, to } = project.shut[i]!;
    if (at < to && at + duration > from) at = from - duration;
  }
  return at;
}

/** How much later each task can start without a later end of the whole, min; 0 for a critical one. */
export function floats(project: Project, starts: readonly number[], makespan: number): number[] {
  const { tasks } = project;
  // From the last to the first, so that most of it is done in one round.
  const lags = [...project.lags, ...handOvers(project, starts)].sort((a, b) => starts[b.to]! - starts[a.to]!);
  const latest = tasks.map((t, i) => pulled(project, i, makespan - t.duration));
  latest[0] = starts[0]!;
  // Latest starts only fall, and never below the starts themselves, which keep every bound.
  for (let round = 0; ; round++) {
    let fell = false;
    for (const { from, to, least } of lags) {
      // A latest start is pulled already: what allows as late a one changes nothing.
      if (latest[to]! - least >= latest[from]!) continue;
      const limit = Math.max(starts[from]!, pulled(project, from, latest[to]! - least));
      if (limit < latest[from]!) {
        latest[from] = limit;
        fell = true;
      }
    }
    if (!fell) break;
    if (round > makespan * tasks.length + 1) throw new Error('the backward pass does not end');
  }
  return latest.map((late, i) => Math.max(0, late - starts[i]!));
}

/** End of the longest chain of lags, people and hours aside, min: no schedule is shorter. Infinite when lags fight. */
export function chainEnd({ tasks, lags }: Project): number {
  const starts = tasks.map(() => 0);
  for (let round = 0; round <= tasks.length; round++) {
    let moved = false;
    for (const { from, to, least } of lags)
      if (starts[from]! + least > starts[to]!) {
        starts[to] = starts[from]! + least;
        moved = true;
      }
    if (!moved) return starts.reduce((end, s, i) => Math.max(end, s + tasks[i]!.duration), 0);
  }
  return Number.POSITIVE_INFINITY;
}
