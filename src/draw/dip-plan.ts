/**
 * The dip before it is drawn: where each minute of a plan lies across, where each depth lies down, and the line between.
 * Time runs right and is to scale, but for waits in which nobody works: these are cut to a fixed width, or a night's
 * cure would leave the work a smear at both ends.
 */
import type { PlanStep } from '../way/plan-shape.ts';

/** Waits longer than this are cut, min. */
const LONG_WAIT = 75;

/** A stretch of time that is drawn at one scale. */
export interface Stretch {
  /** min from the start of the job. */
  readonly from: number;
  readonly to: number;
  /** Whether it is a wait that is cut short. */
  readonly cut: boolean;
  /** px. */
  readonly x0: number;
  readonly x1: number;
}

export interface TimeScale {
  readonly stretches: readonly Stretch[];
  /** Place of a time, px from the left of the sheet. */
  readonly at: (minutes: number) => number;
  /** Width of it all, px. */
  readonly width: number;
}

/** Steps in which somebody works, in the order of their start. */
export function attendedSteps(steps: readonly PlanStep[]): readonly PlanStep[] {
  return steps
    .filter((step) => !step.unattended && step.end > step.start)
    .toSorted((a, b) => a.start - b.start || a.end - b.end);
}

/** Lays time out: `left` px of margin, `perMinute` px where somebody works, `cutWidth` px for a long wait. */
export function layTime(
  steps: readonly PlanStep[],
  from: number,
  to: number,
  left: number,
  perMinute: number,
  cutWidth: number,
): TimeScale {
  const busy: [number, number][] = [];
  for (const { start, end } of attendedSteps(steps)) {
    const last = busy.at(-1);
    if (last && start <= last[1] + LONG_WAIT) last[1] = Math.max(last[1], end);
    else busy.push([start, end]);
  }
  const stretches: Stretch[] = [];
  let x = left;
  const add = (a: number, b: number, cut: boolean): void => {
    if (b <= a) return;
    const width = cut ? cutWidth : (b - a) * perMinute;
    stretches.push({ from: a, to: b, cut, x0: x, x1: x + width });
    x += width;
  };
  let at = from;
  for (const [start, end] of busy) {
    add(at, Math.max(at, start), start - at > LONG_WAIT);
    add(Math.max(at, start), end, false);
    at = Math.max(at, end);
  }
  add(at, to, to - at > LONG_WAIT);
  if (stretches.length === 0) add(from, from + 1, false);
  return {
    stretches,
    width: x,
    at: (minutes) => {
      const first = stretches[0]!;
      const last = stretches.at(-1)!;
      if (minutes <= first.from) return first.x0;
      if (minutes >= last.to) return last.x1;
      const { from: a, to: b, x0, x1 } = stretches.find((one) => minutes <= one.to)!;
      return x0 + ((minutes - a) / (b - a)) * (x1 - x0);
    },
  };
}

/** A corner of the line: when, how deep (index of the level), px are for who draws. */
export interface Corner {
  readonly at: number;
  readonly depth: number;
}

/** One piece of the line: a step that somebody does, or a wait between two. */
export interface Run {
  readonly step: PlanStep | null;
  readonly corners: readonly Corner[];
}

/**
 * The line down and up: how deep the bike stands open. Going in that is the deepest step so far, coming out the deepest
 * that is still to be put back: a plug pulled at the surface while the rotor lies bare does not make the bike less open.
 * Of two people's steps at one time the line follows the one that started first; the other is marked on it.
 */
export function profileOf(steps: readonly PlanStep[], from: number, rideAt: number): readonly Run[] {
  const runs: Run[] = [];
  let at = from;
  let depth = 0;
  const wait = (until: number, to: number): void => {
    if (until > at)
      runs.push({
        step: null,
        corners: [
          { at, depth },
          { at: until, depth: to },
        ],
      });
    at = Math.max(at, until);
    depth = to;
  };
  const work = attendedSteps(steps);
  const left = work.map((_, n) => Math.max(0, ...work.slice(n + 1).map((later) => later.depth)));
  work.forEach((step, n) => {
    const start = Math.max(at, step.start);
    if (step.start > at) wait(step.start, depth);
    const end = Math.max(start, step.end);
    const after = step.phase === 'in' ? Math.max(depth, step.depth) : Math.min(depth, left[n]!);
    runs.push({
      step,
      corners: [
        { at: start, depth },
        { at: end, depth: after },
      ],
    });
    at = end;
    depth = after;
  });
  if (rideAt > at || depth > 0) wait(Math.max(rideAt, at + 1e-9), 0);
  return runs;
}

/** Whole hours of the clock within a stretch, min from the start of the job; every second one where they lie close. */
export function hoursIn({ from, to, cut }: Stretch, startsAt: number, perMinute: number): readonly number[] {
  if (cut) return [];
  const every = perMinute * 60 < 44 ? 120 : 60;
  const first = Math.ceil((from + startsAt) / every) * every - startsAt;
  const hours: number[] = [];
  for (let at = first; at <= to; at += every) hours.push(at);
  return hours;
}
