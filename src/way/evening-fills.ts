/**
 * What one person can get done before the first shut hours. Nothing is begun that would last into them, and of what comes
 * off only what is free can: of the sets of steps that can be finished by then, those to which no further step can be
 * added. They are some hundred for a bike, and none may fill the evening to the minute. To learn that from conflicts
 * took the search thousands of them.
 */
import type { Project } from './project.ts';

/** Choices gone through before it is given up, count: a few milliseconds. */
const MOST_CHOICES = 60_000;

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
  const fills: number[][] = [];
  const inside = new Uint8Array(some.length);
  let choices = 0;
  const free = (k: number, at: number) =>
    at + tasks[some[k]!]!.duration <= dusk && before[k]!.every((p) => inside[p] === 1);
  const choose = (k: number, at: number): void => {
    if (++choices > MOST_CHOICES) return;
    if (k === some.length) {
      for (let other = 0; other < some.length; other++) if (!inside[other] && free(other, at)) return;
      fills.push(some.filter((_, other) => inside[other] === 1));
      return;
    }
    if (free(k, at)) {
      inside[k] = 1;
      choose(k + 1, at + tasks[some[k]!]!.duration);
      inside[k] = 0;
    }
    choose(k + 1, at);
  };
  choose(0, 0);
  return choices > MOST_CHOICES ? null : fills;
}
