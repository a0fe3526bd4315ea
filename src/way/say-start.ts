/** When to begin for a ride at an hour, in words. */
import type { PlanRefusal } from './plan-shape.ts';
import { sayMinutes, sayTime, type WallStart } from './plan-words.ts';
import type { LatestStart, StartBy } from './start-by.ts';

/** Chances a start is told for and `sayStart` speaks of: even, and nine in ten. */
export const START_CHANCES: readonly number[] = [0.5, 0.9];

export interface StartOf {
  readonly people: 1 | 2;
  /** When it must be ridden, and now, min from the start of the job. */
  readonly deadline: number;
  readonly now: number;
}

const inHundred = (kept: number) => {
  // Rounding must not make a promise of what is none.
  const times = Math.round(100 * kept);
  return `${kept < 1 ? Math.min(99, times) : times} times in 100`;
};

/**
 * One sentence: the latest start that keeps the hour nine times in ten, and that for an even chance; or by how much it
 * is missed.
 */
export function sayStart(found: StartBy | PlanRefusal, of: StartOf, wall: WallStart): string {
  const who = of.people === 1 ? 'one person' : 'two people';
  if (!found.ok) return `With ${who} there is no plan: ${found.says}`;
  const ride = sayTime(of.deadline, wall);
  if (of.deadline <= of.now) return `${ride} is past already.`;
  const { fromNow } = found;
  const [evenAt, sureAt] = fromNow.rides as [number, number];
  const rides = `it can be ridden at ${sayTime(evenAt, wall)} one time in two, at ${sayTime(sureAt, wall)} nine times in ten`;
  if (found.latest.length === 0)
    return `Gone on with now, with ${who}, a ride at ${ride} is kept ${inHundred(fromNow.kept)}: ${rides}${sayMiss(sureAt - of.deadline)}.`;
  const [even, sure] = found.latest as [LatestStart, LatestStart];
  if (even.start === null)
    return `With ${who} a ride at ${ride} is kept only ${inHundred(fromNow.kept)}, even begun now: ${rides}${sayMiss(sureAt - of.deadline)}.`;
  if (sure.start === null)
    return `With ${who} start by ${sayTime(even.start, wall)} to ride at ${ride}, and it is an even chance (kept ${inHundred(even.kept)}); nine times in ten can no longer be had: begun now that is ${sayTime(sureAt, wall)}${sayMiss(sureAt - of.deadline)}.`;
  const later =
    even.start === sure.start
      ? ''
      : `; begun as late as ${sayTime(even.start, wall)} it is an even chance (kept ${inHundred(even.kept)})`;
  return `With ${who} start by ${sayTime(sure.start, wall)} to ride at ${ride}, ${sayMinutes(of.deadline - sure.start)} before: kept ${inHundred(sure.kept)}${sayRest(sure.kept)}${later}.`;
}

/** What a promise of nine in ten leaves. */
function sayRest(kept: number): string {
  const late = Math.round(100 * (1 - kept));
  return kept === 1
    ? ''
    : late < 1
      ? ', less than one run in 100 still comes late'
      : `, ${late} in 100 still come late`;
}

function sayMiss(late: number): string {
  return late > 0 ? `, ${sayMinutes(Math.max(1, Math.round(late)))} too late` : '';
}
