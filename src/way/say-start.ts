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

/** Rounding must not make a promise of what is none. */
const inHundred = (kept: number) => Math.min(kept < 1 ? 99 : 100, Math.round(100 * kept));
const times = (kept: number) => `${inHundred(kept)} times in 100`;
const runs = (kept: number) => `${inHundred(kept)} in 100 runs`;

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
    return `Gone on with now, with ${who}, a ride at ${ride} is kept ${times(fromNow.kept)}: ${rides}${sayMiss(sureAt - of.deadline)}.`;
  const [even, sure] = found.latest as [LatestStart, LatestStart];
  if (even.start === null)
    return `With ${who} a ride at ${ride} is kept only ${times(fromNow.kept)}, even begun now: ${rides}${sayMiss(sureAt - of.deadline)}.`;
  const hour = `With ${who} start by ${sayTime(sure.start ?? even.start, wall)} to ride at ${ride}`;
  if (sure.start === null)
    return `${hour}: ${runs(even.kept)} keep it, no more than an even chance; nine in ten can no longer be had, begun now that is ${sayTime(sureAt, wall)}${sayMiss(sureAt - of.deadline)}.`;
  const late = 100 - inHundred(sure.kept);
  const rest = late === 0 ? '' : `, ${late} still come${late === 1 ? 's' : ''} late`;
  const later =
    even.start === sure.start
      ? ''
      : `; begun as late as ${sayTime(even.start, wall)}, ${inHundred(even.kept)} do`;
  return `${hour}: ${runs(sure.kept)} keep it${rest}${later}.`;
}

function sayMiss(late: number): string {
  return late > 0 ? `, ${sayMinutes(Math.max(1, Math.round(late)))} too late` : '';
}
