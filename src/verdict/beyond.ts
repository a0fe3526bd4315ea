/**
 * How likely more than three faults at once are. Sets of four are not gone through one by one, but how much room the
 * readings leave for one fault more is known. Where fewer than three faults are likeliest, from the sets of one more
 * than those: a fourth fault finds no more room than that. Where three are likeliest, from the likeliest set of three
 * with every further fault put to it in turn. (That room was granted whole before: "at most 33 in 100" stood beside a
 * set of three that 99 in 100 spoke for.)
 */

import type { Taken } from './evidence.ts';
import type { Field } from './field.ts';
import { fourthRoom, type Ranked } from './rank.ts';
import { COUNT, MORE } from './sets.ts';

/** Chance of each number of faults, more than three last, dimensionless. */
const CHANCE = [...COUNT, MORE];

/** Upper bound on the probability of more than three faults at once, 0–1. */
export function beyondThree(field: Field, best: readonly Ranked[], taken: readonly Taken[]): number {
  const shares = [0, 0, 0, 0];
  for (const { member, share } of best) shares[member.base.faults.length]! += share;
  const likeliest = shares.indexOf(Math.max(...shares));
  // A given set of n faults lies in (n + 1) times as many sets of n + 1 as the chances of the numbers alone say.
  const prior = (n: number) => (n * CHANCE[n]!) / CHANCE[n - 1]!;
  if (likeliest === 3) {
    const top = best.find(({ member }) => member.base.faults.length === 3)!;
    return Math.min(1, shares[3]! * fourthRoom(field, top, taken));
  }
  const room = Math.min(1, shares[likeliest + 1]! / shares[likeliest]! / prior(likeliest + 1));
  // With fewer than three readings no set of three is gone through either.
  const threes = shares[3]! || shares[2]! * room * prior(3);
  return Math.min(1, threes * room * prior(4));
}
