/** Which repairs are worth doing now, at least expected cost. */
import type { RepairId } from '../fault/catalogue.ts';
import { REPAIRS } from '../fault/faults.ts';
import type { RepairLine } from './answer.ts';

/** What one repair costs. */
export interface Cost {
  /** Parts, in the currency of the job. */
  readonly parts: number;
  /** Work beyond opening the cover, min. */
  readonly minutes: number;
}

/**
 * Shares are among the sets of the catalogue: what none of them explains cannot be repaired from the list.
 * A repair is worth doing when leaving a fault in costs more, on average, than doing the work for nothing. The
 * likeliest repair list decides what it names; beyond it a repair must pay for itself.
 */
export function repairLines(
  shares: Readonly<Record<RepairId, number>>,
  sets: ReadonlyMap<string, number>,
  noneOfThese: number,
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
      const share = Math.min(1, shares[repair]);
      return {
        repair,
        probability: share * (1 - noneOfThese),
        worthDoing: share > (inLikely.has(repair) ? 0.35 : 0.5),
        whileOpen: false,
        saves: 0,
        turnsAt: 0.5,
      };
    })
    .sort((a, b) => b.probability - a.probability);
}
