/** Which guesses the advice leans on: by what factor a prior must be wrong for the advice to turn round. */
import type { RepairId } from '../fault/catalogue.ts';
import type { RepairLine } from './answer.ts';
import type { Need } from './repairs.ts';
import type { Told } from './told.ts';

/** The greatest factor tried, each way. */
const MOST = 20;
/** Halvings of the range of factors, on a scale of logarithms: the factor is right to 20^(1/2^9) or 0.6 %. */
const HALVINGS = 9;

/** The lines of the verdict for lists of repairs with their shares among the sets of the catalogue. */
export type Lines = (list: readonly Need[], noneOfThese: number) => readonly RepairLine[];

export interface Flips {
  /** Whether the repair is advised now. */
  readonly advised: boolean;
  /** Factor on the repair's prior odds, from a twentieth to twenty; null when none turns the advice. */
  readonly flipsAt: number | null;
  /** Factor on the chance of each fault beyond the first; null alike. */
  readonly companyFlipsAt: number | null;
}

export function flipsOf(repair: RepairId, list: readonly Told[], noneOfThese: number, lines: Lines): Flips {
  const done = (power: (told: Told) => number) => (factor: number) =>
    advised(repair, list, noneOfThese, lines, (told) => factor ** power(told));
  return {
    advised: advised(repair, list, noneOfThese, lines, () => 1),
    flipsAt: turning(done((told) => (told.repairs.includes(repair) ? 1 : 0))),
    companyFlipsAt: turning(done((told) => Math.max(0, told.faults.length - 1))),
  };
}

/** Whether the repair is advised when every set's weight is multiplied. */
function advised(
  repair: RepairId,
  list: readonly Told[],
  noneOfThese: number,
  lines: Lines,
  factorOf: (told: Told) => number,
): boolean {
  let total = 0;
  const needs = list.map((told) => {
    const share = told.share * factorOf(told);
    total += share;
    return { repairs: told.repairs, share };
  });
  if (!(total > 0)) return false;
  // What no set explains keeps its weight while theirs changes.
  const none = noneOfThese / (noneOfThese + (1 - noneOfThese) * total);
  const line = lines(
    needs.map((need) => ({ ...need, share: need.share / total })),
    none,
  ).find((one) => one.repair === repair);
  return line !== undefined && (line.worthDoing || line.whileOpen);
}

/** The factor nearest to one at which `does` turns round, from a twentieth to twenty. */
function turning(does: (factor: number) => boolean): number | null {
  const now = does(1);
  const ways = [MOST, 1 / MOST].filter((end) => does(end) !== now);
  const found = ways.map((end) => {
    let same = 0;
    let other = Math.log(end);
    for (let n = 0; n < HALVINGS; n++) {
      const middle = (same + other) / 2;
      if (does(Math.exp(middle)) === now) same = middle;
      else other = middle;
    }
    return (same + other) / 2;
  });
  if (found.length === 0) return null;
  return Math.exp(found.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a)));
}
