/**
 * Another clock, written apart from the room's: nothing of it is imported but the shapes. It lets time pass: at every
 * moment at which something ends, opens or falls due it looks, in the plan's order, for what can be begun. Numbers are
 * Park and Miller's (1988), normals by Marsaglia's polar method, triangular times by throwing darts at the triangle.
 */
import type { Uncertain } from '../../src/way/draw-times.ts';
import type { Project } from '../../src/way/project.ts';
import type { Spread } from '../../src/way/work.ts';

/** What the other clock guesses as the room's does. */
export interface Guesses {
  readonly pace: number;
  readonly correlation: number;
}

class Dice {
  private state: number;
  constructor(seed: number) {
    this.state = (seed % 2147483646) + 1;
    for (let n = 0; n < 20; n++) this.uniform();
  }
  uniform(): number {
    this.state = (this.state * 16807) % 2147483647;
    return this.state / 2147483647;
  }
  normal(): number {
    for (;;) {
      const [x, y] = [2 * this.uniform() - 1, 2 * this.uniform() - 1];
      const s = x * x + y * y;
      if (s > 0 && s < 1) return x * Math.sqrt((-2 * Math.log(s)) / s);
    }
  }
  triangle({ low, likely, high }: Spread): number {
    if (high === low) return low;
    for (;;) {
      const at = low + (high - low) * this.uniform();
      const height =
        at < likely ? (at - low) / (likely - low) : high === likely ? 1 : (high - at) / (high - likely);
      if (this.uniform() <= height) return at;
    }
  }
}

/** Ends of many runs of a plan, in no order. Lags are read as their `fromEnd` says. */
export function otherEnds(
  project: Project,
  starts: readonly number[],
  uncertain: readonly Uncertain[],
  runs: number,
  seed: number,
  { pace, correlation }: Guesses,
): number[] {
  const dice = new Dice(seed);
  const ahead = project.tasks.map((_, i) => mustFit(project, starts, i));
  const ends: number[] = [];
  for (let run = 0; run < runs; run++) {
    const speed = Math.exp(pace * dice.normal() - (pace * pace) / 2);
    const causes = new Map<string, number>();
    const times = uncertain.map(({ minutes, seizes }, i) => {
      let time = dice.triangle(minutes);
      if (seizes) {
        const name = seizes.cause ?? `only ${i}`;
        const cause = causes.get(name) ?? dice.normal();
        causes.set(name, cause);
        const z = Math.sqrt(correlation) * cause + Math.sqrt(1 - correlation) * dice.normal();
        if (shareBelow(z) < seizes.chance) time += dice.triangle(seizes.adds);
      }
      return project.tasks[i]!.attended ? time * speed : time;
    });
    ends.push(lastEnd(project, starts, times, ahead));
  }
  return ends;
}

/** Lets one evening after another pass until everything is done. */
function lastEnd(
  project: Project,
  starts: readonly number[],
  times: readonly number[],
  ahead: readonly number[],
): number {
  const { tasks, lags, capacity, shut } = project;
  const waiting = starts.map((_, i) => i).sort((a, b) => starts[a]! - starts[b]! || a - b);
  const begun = new Map<number, { readonly from: number; readonly to: number }>();
  const moments = new Set<number>([0]);
  for (const { to } of shut) moments.add(to);
  while (waiting.length > 0) {
    const now = Math.min(...moments);
    moments.delete(now);
    for (let again = true; again; ) {
      again = false;
      // Hands and tools taken: by what runs, and by what comes before in the plan and has not begun.
      const taken = capacity.map(() => 0);
      const take = (i: number) => {
        for (let r = 0; r < taken.length; r++) taken[r]! += tasks[i]!.demand[r]!;
      };
      for (const [i, { to }] of begun) if (to > now) take(i);
      for (const i of waiting) {
        const due = lags
          .filter(({ to, least }) => to === i && least >= 0)
          .map(({ from, least, fromEnd }) => {
            const before = begun.get(from);
            if (!before) return Number.POSITIVE_INFINITY;
            return fromEnd ? before.to + least - tasks[from]!.duration : before.from + least;
          });
        const ready = Math.max(0, ...due);
        if (Number.isFinite(ready) && ready > now) moments.add(ready);
        const free = capacity.every(
          (most, r) => tasks[i]!.demand[r]! === 0 || taken[r]! + tasks[i]!.demand[r]! <= most,
        );
        const people = tasks[i]!.attended;
        const dark = people && shut.some(({ from, to }) => now < to && now + ahead[i]! > from);
        if (ready <= now && free && !dark) {
          const to = people ? workedThrough(now, times[i]!, shut) : now + times[i]!;
          begun.set(i, { from: now, to });
          moments.add(to);
          waiting.splice(waiting.indexOf(i), 1);
          again = true;
          break;
        }
        take(i);
      }
    }
  }
  return Math.max(...[...begun.values()].map(({ to }) => to));
}

/** When so much work is done that rests in every shut hour. */
function workedThrough(from: number, work: number, shut: Project['shut']): number {
  let [at, left] = [from, work];
  for (const night of shut) {
    if (night.to <= at) continue;
    const evening = Math.max(0, night.from - at);
    if (left <= evening) break;
    left -= evening;
    at = night.to;
  }
  return at + left;
}

/** By the plan: how long what must be followed up in one evening lasts from its start on. */
function mustFit(project: Project, starts: readonly number[], i: number): number {
  const { tasks, lags, shut } = project;
  const shortest = Math.min(...shut.map(({ from, to }) => to - from));
  const end = (at: number): number => {
    const follow = lags
      .filter(({ to, least }) => to === at && least < 0)
      .filter(({ least }) => -least < shortest)
      .filter(({ from }) => tasks[from]!.attended && tasks[from]!.duration > 0)
      .map(({ from }) => end(from))
      .filter((last) => !shut.some((night) => night.from < last && night.to > starts[at]!));
    return Math.max(starts[at]! + tasks[at]!.duration, ...follow);
  };
  return end(i) - starts[i]!;
}

/** Abramowitz and Stegun 26.2.17, good to 7.5e-8. */
function shareBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z > 0 ? 1 - tail : tail;
}
