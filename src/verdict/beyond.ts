/**
 * How likely more than three faults at once are. Sets of four are not gone through; but how much room the readings leave
 * for one fault more than the likeliest number is known from the sets that are, and a fourth fault finds no more room
 * than that. Where three faults are likeliest themselves, nothing is known of the room and all of it is granted.
 */
import type { Ranked } from './rank.ts';
import { COUNT } from './sets.ts';

/** Chance of more than three faults on a bike that somebody complains of (guess), dimensionless. */
export const MORE = 0.01;

/** Chance of each number of faults, more than three last, dimensionless. */
const CHANCE = [...COUNT, MORE];

/** Upper bound on the probability of more than three faults at once, 0–1. */
export function beyondThree(best: readonly Ranked[]): number {
  const shares = [0, 0, 0, 0];
  for (const { member, share } of best) shares[member.base.faults.length]! += share;
  const likeliest = shares.indexOf(Math.max(...shares));
  // A given set of n faults lies in (n + 1) times as many sets of n + 1 as the chances of the numbers alone say.
  const prior = (n: number) => (n * CHANCE[n]!) / CHANCE[n - 1]!;
  const room =
    likeliest === 3 ? 1 : Math.min(1, shares[likeliest + 1]! / shares[likeliest]! / prior(likeliest + 1));
  return Math.min(1, (shares[3] ?? 0) * room * prior(4));
}
