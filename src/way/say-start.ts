/** When to begin for a ride at an hour, in words. */
import type { PlanRefusal } from './plan-shape.ts';
import { sayMinutes, sayTime, type WallStart } from './plan-words.ts';
import type { StartBy } from './start-by.ts';

/** Chances a start is told for: even, and nine in ten. */
export const START_CHANCES: readonly number[] = [0.5, 0.9];

export interface StartOf {
  readonly people: 1 | 2;
  /** When it must be ridden, and now, min from the start of the job. */
  readonly deadline: number;
  readonly now: number;
}

/** "one time in two", "nine times in ten". */
export function sayOften(chance: number): string {
  if (chance === 0.5) return 'one time in two';
  return chance === 0.9 ? 'nine times in ten' : `${Math.round(100 * chance)} times in 100`;
}

const inHundred = (kept: number) => {
  // Rounding must not make a promise of what is none.
  const times = Math.round(100 * kept);
  return `${kept < 1 ? Math.min(99, times) : times} times in 100`;
};

/** A line for each chance: the latest start, or by how much it is missed. */
export function sayStart(found: StartBy | PlanRefusal, of: StartOf, wall: WallStart): string[] {
  const who = of.people === 1 ? 'one person' : 'two people';
  if (!found.ok) return [`With ${who} there is no plan: ${found.says}`];
  const ride = sayTime(of.deadline, wall);
  if (of.deadline <= of.now) return [`${ride} is past already.`];
  const { fromNow } = found;
  if (found.latest.length === 0) {
    const late = fromNow.rides.map((at, i) => `${sayTime(at, wall)} ${sayOften(START_CHANCES[i]!)}`);
    return [
      `Gone on with now, with ${who}, a ride at ${ride} is kept ${inHundred(fromNow.kept)}: it can be ridden at ${late.join(', ')}${sayMiss(fromNow.rides.at(-1)! - of.deadline)}.`,
    ];
  }
  return found.latest.map(({ chance, start, kept }, i) => {
    const at = fromNow.rides[i]!;
    return start === null
      ? `With ${who} a ride at ${ride} can no longer be kept ${sayOften(chance)}: begun now it can be ridden at ${sayTime(at, wall)}${sayMiss(at - of.deadline)}.`
      : `For a ride at ${ride} start by ${sayTime(start, wall)} with ${who} (kept ${inHundred(kept)}, ${sayMinutes(of.deadline - start)} before).`;
  });
}

function sayMiss(late: number): string {
  return late > 0 ? `, ${sayMinutes(Math.max(1, Math.round(late)))} too late` : '';
}
