/**
 * Another way to run a plan with drawn times, written apart from src/way/clock.ts: another stream (xorshift128), triangular
 * times by throwing away what lies above the triangle, resources by looking at every interval, hours by walking on.
 */

import type { Uncertain } from '../../src/way/clock.ts';
import type { Project } from '../../src/way/project.ts';
import type { Spread } from '../../src/way/work.ts';

function xorshift(seed: number): () => number {
  let [x, y, z, w] = [123456789 ^ seed, 362436069, 521288629, 88675123 + seed];
  return () => {
    const t = x ^ (x << 11);
    [x, y, z] = [y, z, w];
    w = w ^ (w >>> 19) ^ (t ^ (t >>> 8));
    return (w >>> 0) / 2 ** 32;
  };
}

export function otherEnds(
  project: Project,
  starts: readonly number[],
  uncertain: readonly Uncertain[],
  runs: number,
  seed: number,
  pace: number,
  correlation: number,
): number[] {
  const random = xorshift(seed);
  for (let n = 0; n < 50; n++) random();
  // Twelve uniforms make a normal near enough for a spread of a tenth (central limit).
  const normal = () => Array.from({ length: 12 }, random).reduce((a, b) => a + b, -6);
  const draw = ({ low, likely, high }: Spread): number => {
    if (high === low) return low;
    for (;;) {
      const at = low + (high - low) * random();
      const height =
        at < likely ? (at - low) / (likely - low) : high === likely ? 1 : (high - at) / (high - likely);
      if (random() <= height) return at;
    }
  };
  const order = starts.map((_, i) => i).sort((a, b) => starts[a]! - starts[b]! || a - b);
  return Array.from({ length: runs }, () => {
    const speed = Math.exp(pace * normal() - (pace * pace) / 2);
    const causes = new Map<string, number>();
    const done: { task: number; from: number; to: number }[] = [];
    const at = (task: number) => done.find((one) => one.task === task)!;
    for (const i of order) {
      const task = project.tasks[i]!;
      const { minutes, seizes } = uncertain[i]!;
      let long = draw(minutes);
      if (seizes) {
        // Seized when a normal number is among the lowest `chance` of its kind; two of one cause share half its variance.
        const cause = seizes.cause ?? `only ${i}`;
        if (!causes.has(cause)) causes.set(cause, normal());
        const z = seizes.cause
          ? Math.sqrt(correlation) * causes.get(cause)! + Math.sqrt(1 - correlation) * normal()
          : normal();
        if (shareBelow(z) < seizes.chance) long += draw(seizes.adds);
      }
      if (task.attended) long *= speed;
      let from = 0;
      for (const lag of project.lags) {
        if (lag.to !== i || lag.least < 0) continue;
        const before = at(lag.from);
        const planned = project.tasks[lag.from]!.duration;
        from = Math.max(
          from,
          planned > 0 && lag.least >= planned ? before.to + lag.least - planned : before.from + lag.least,
        );
      }
      // A step waits until as much of each resource is free as it holds, now and later: those before it come first.
      const ends = [0, ...done.map((one) => one.to)].sort((a, b) => a - b);
      for (const candidate of [from, ...ends.filter((end) => end > from)]) {
        const free = project.capacity.every((most, r) => {
          const need = task.demand[r]!;
          if (need === 0) return true;
          const held = done
            .filter((one) => one.to > candidate)
            .reduce((sum, one) => sum + project.tasks[one.task]!.demand[r]!, 0);
          return held + need <= most;
        });
        if (free) {
          from = candidate;
          break;
        }
      }
      if (task.attended && long > 0)
        for (const { from: shut, to } of project.shut) if (from < to && from + long > shut) from = to;
      done.push({ task: i, from, to: from + long });
    }
    return Math.max(...done.map((one) => one.to));
  });
}

function shareBelow(z: number): number {
  // Abramowitz and Stegun 26.2.17, good to 7.5e-8.
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z > 0 ? 1 - tail : tail;
}
