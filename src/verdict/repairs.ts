/** Which repairs are worth doing now, at least expected cost. */
import type { RepairId } from '../fault/catalogue.ts';
import { REPAIRS } from '../fault/faults.ts';
import type { RepairLine } from './answer.ts';

/** What an hour at the lift is worth and what a comeback costs, in the catalogue's invented currency (guesses). */
export const HOUR = 30;
export const COMEBACK = 220;

/**
 * Shares are among the sets of the catalogue: what none of them explains cannot be repaired from the list.
 * A repair is worth doing when leaving a fault in costs more, on average, than doing the work for nothing. The
 * likeliest repair list decides what it names; beyond it a repair must pay for itself.
 */
export function repairLines(
  shares: Readonly<Record<RepairId, number>>,
  sets: ReadonlyMap<string, number>,
  known: number,
): RepairLine[] {
  let likely = '';
  let top = -1;
  for (const [name, share] of sets) {
    if (share > top) {
      top = share;
      likely = name;
    }
  }
  const inLikely = new Set(likely.split('+'));
  return (Object.keys(REPAIRS) as RepairId[])
    .map((repair) => {
      const probability = Math.min(1, shares[repair]);
      return {
        repair,
        probability,
        worthDoing: probability > (inLikely.has(repair) ? 0.35 : 0.5) * known,
      };
    })
    .sort((a, b) => b.probability - a.probability);
}
