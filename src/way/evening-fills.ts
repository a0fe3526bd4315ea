/**
 * What one person can get done before the first shut hours. Nothing is begun that would last into them, and of what comes
 * off only what is free can: of the sets of steps that can be finished by then, those to which no further step can be
 * added. They are a handful for a bike, and none may fill the evening to the minute. To learn that from conflicts took the
 * search thousands of them.
 */
import type { Project } from './project.ts';

/** Choices gone through before it is given up, count: a millisecond or two. A bike's evening takes some hundred. */
const MOST_CHOICES = 5000;

/**
 * The fullest sets of these tasks that end before the first shut hours, each a list of tasks; null where there are too many.
 * `users` need all of one resource, one at a time, and people. `heads`: the earliest starts; `longest`: the longest path from
 * each start to each other, from i to j at i × tasks + j.
 */
export function eveningFills(
  project: Project,
  users: readonly number[],
  heads: readonly number[],
  longest: Float64Array,
): number[][] | null {
  const dusk = project.shut[0]?.from ?? 0;
  const { tasks } = project;
  const n = tasks.length;
  // What must be over before another begins comes before it: its earliest start is less.
  const some = users
    .filter((i) => heads[i]! + tasks[i]!.duration <= dusk)
    .sort((a, b) => heads[a]! - heads[b]! || a - b);
  const place = new Int32Array(n).fill(-1);
  some.forEach((i, k) => {
    place[i] = k;
  });
  const before = some.map((j) =>
    users.filter((i) => i !== j && longest[i * n + j]! >= tasks[i]!.duration).map((i) => place[i]!),
  );
  const long = some.map((i) => tasks[i]!.duration);
  const together = long.reduce((sum, each) => sum + each, 0);
  // All that can be begun fits: the evening decides nothing.
  if (together <= dusk) return null;
  const fills: number[][] = [];
  /** 1 for what is in, −1 for what is left out. */
  const chosen = new Int8Array(some.length);
  let choices = 0;
  const free = (k: number, at: number): boolean => {
    if (at + long[k]! > dusk) return false;
    for (const p of before[k]!) if (p < 0 || chosen[p] !== 1) return false;
    return true;
  };
  /** Goes on from the k-th, with what is in ending at `at` and what is not left out adding up to `most`. */
  const choose = (k: number, at: number, most: number): void => {
    let next = k;
    while (next < some.length && !free(next, at)) next++;
    if (next === some.length) {
      for (let other = 0; other < some.length; other++) if (chosen[other] === -1 && free(other, at)) return;
      fills.push(some.filter((_, other) => chosen[other] === 1));
      return;
    }
    if (++choices > MOST_CHOICES) return;
    chosen[next] = 1;
    choose(next + 1, at + long[next]!, most);
    // Left out it must not fit in the end.
    if (most > dusk) {
      chosen[next] = -1;
      choose(next + 1, at, most - long[next]!);
    }
    chosen[next] = 0;
  };
  choose(0, 0, together);
  return choices > MOST_CHOICES ? null : fills;
}
