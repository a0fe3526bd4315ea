/**
 * Lags between starts as a network of longest paths: what they alone say of each start, and the circle of steps that ask
 * more of each other than there is time (Bellman 1958, Ford 1956; a positive circle has no schedule: Bartusch, Möhring
 * and Radermacher 1988).
 */
import type { Project } from './project.ts';

/** Tasks of a positive circle of lags in order, by index; null where the lags can be kept. */
export function lagCircle({ tasks, lags }: Project): readonly number[] | null {
  const n = tasks.length;
  const start = new Float64Array(n);
  const from = new Int32Array(n).fill(-1);
  let changed = -1;
  for (let round = 0; round <= n; round++) {
    changed = -1;
    for (const { from: i, to: j, least } of lags) {
      if (start[i]! + least > start[j]!) {
        start[j] = start[i]! + least;
        from[j] = i;
        changed = j;
      }
    }
    if (changed < 0) return null;
  }
  // After n rounds whoever still moves hangs on the circle: walk back n steps to be on it, then once round.
  let at = changed;
  for (let step = 0; step < n; step++) at = from[at]!;
  const circle = [at];
  for (let next = from[at]!; next !== at; next = from[next]!) circle.push(next);
  return circle.reverse();
}

/**
 * Time by which every project that can be done can be done, in its unit: all tasks and waits one after another, past the
 * last shut hours.
 */
export function horizonOf({ tasks, lags, shut }: Project): number {
  const longest = tasks.map(({ duration }) => duration);
  for (const { from, least } of lags) longest[from] = Math.max(longest[from]!, least);
  let sum = 0;
  for (const each of longest) sum += each;
  return sum + (shut.at(-1)?.to ?? 0);
}

/**
 * Earliest starts by lags and shut hours alone, whole units: no schedule has an earlier one. So many rounds at most as there are
 * tasks: where waits and hours chase each other what is known by then holds as well.
 */
export function earliestStarts({ tasks, lags, shut }: Project): number[] {
  const starts = tasks.map(() => 0);
  for (let round = 0, changed = true; changed && round < tasks.length; round++) {
    changed = false;
    for (const [i, { attended, duration }] of tasks.entries()) {
      if (!attended || duration === 0) continue;
      for (const { from, to } of shut) {
        if (starts[i]! <= from - duration) break;
        if (starts[i]! < to) starts[i] = to;
      }
    }
    for (const { from, to, least } of lags) {
      if (starts[from]! + least <= starts[to]!) continue;
      starts[to] = starts[from]! + least;
      changed = true;
    }
  }
  return starts;
}
