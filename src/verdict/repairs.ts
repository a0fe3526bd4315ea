/** Which repairs are worth doing now, at least expected cost, and what would change that. */
import type { RepairId } from '../fault/catalogue.ts';
import { COVER_IDS, COVERS, coversOf, REPAIR_IDS, REPAIRS } from '../fault/repairs.ts';
import type { RepairLine } from './answer.ts';
import {
  type Bill,
  COMEBACK,
  costOf,
  HOUR_WORTH,
  MISSED,
  openRepairChoice,
  type RepairChoice,
  WRONGLY_ACCUSED,
  workCost,
} from './repair-choice.ts';

/** What one repair costs. */
export interface Cost {
  /** Parts, in the currency of the job. */
  readonly parts: number;
  /** Work beyond opening the cover, min. */
  readonly minutes: number;
}

/** Costs said better than the catalogue's guesses. */
export type Costs = Readonly<Partial<Record<RepairId, Partial<Cost>>>>;

/** A repair less likely than this is not done even with its cover off: it would only lengthen the list, 0–1. */
const LEAST_WHILE_OPEN = 0.01;

/** "None of these" beyond which nothing is advised: the readings are not of any bike the catalogue knows, 0–1. */
const UNEXPLAINED = 0.5;

/** What a repair costs once its covers are off. */
export function costOfRepair(id: RepairId, costs: Costs = {}): Cost {
  const { partCost, minutes } = REPAIRS[id];
  const cost = { parts: partCost, minutes, ...costs[id] };
  for (const [name, value] of Object.entries(cost))
    if (!(value >= 0 && value < Infinity))
      throw new RangeError(`costs of ${id}: ${name} must be 0 or more, got ${value}`);
  return cost;
}

/** Parts and minutes of a list of repairs done in one go, each cover opened once. */
export function costTogether(repairs: readonly RepairId[], costs: Costs = {}): Cost {
  let parts = 0;
  let minutes = 0;
  for (const id of new Set(repairs)) {
    const cost = costOfRepair(id, costs);
    parts += cost.parts;
    minutes += cost.minutes;
  }
  for (const cover of coversOf(repairs)) minutes += COVERS[cover].minutes;
  return { parts, minutes };
}

/** The catalogue as a bill: repairs in the order of `REPAIR_IDS`, covers in that of `COVER_IDS`. */
export function billOf(costs: Costs = {}): Bill {
  return {
    work: REPAIR_IDS.map((id) => {
      const { parts, minutes } = costOfRepair(id, costs);
      return minutes + (parts / HOUR_WORTH) * 60;
    }),
    covers: REPAIR_IDS.map((id) =>
      REPAIRS[id].covers.reduce((bits, cover) => bits | (1 << COVER_IDS.indexOf(cover)), 0),
    ),
    coverMinutes: COVER_IDS.map((cover) => COVERS[cover].minutes),
    wronglyAccused: WRONGLY_ACCUSED,
    missed: MISSED,
    comeback: COMEBACK,
  };
}

/** Repairs as bits in the order of `REPAIR_IDS`, dimensionless. */
export function bitsOfRepairs(repairs: readonly RepairId[]): number {
  return repairs.reduce((bits, id) => bits | (1 << REPAIR_IDS.indexOf(id)), 0);
}

/** The choice for bikes that need these lists of repairs: for asking many times with other weights. */
export function openChoiceOf(lists: readonly (readonly RepairId[])[], costs: Costs = {}): RepairChoice {
  return openRepairChoice(billOf(costs), Uint32Array.from(lists, bitsOfRepairs));
}

/** One list of repairs that may be what the bike needs. */
export interface Need {
  readonly repairs: readonly RepairId[];
  /** Its share among the sets of the catalogue, 0–1. */
  readonly share: number;
}

/**
 * Opens the lines of the verdict for a bike with these costs. Shares are among the sets of the catalogue: what none of
 * them explains cannot be repaired from the list, costs the same whatever is done, and does not move the choice.
 *
 * Two choices are made. What is called dead carries the cost of accusing a sound part. What is done besides, because
 * its cover is off anyway, is not called dead: it must only pay for its parts and minutes.
 */
export function openRepairLines(
  costs: Costs = {},
): (list: readonly Need[], noneOfThese: number) => RepairLine[] {
  const bill = billOf(costs);
  const insurance: Bill = { ...bill, wronglyAccused: 0 };
  return (list, noneOfThese) => {
    const explained = noneOfThese <= UNEXPLAINED;
    const byNeed = new Map<number, number>();
    for (const { repairs, share } of list) {
      const bits = bitsOfRepairs(repairs);
      byNeed.set(bits, (byNeed.get(bits) ?? 0) + share);
    }
    const needs = Uint32Array.from(byNeed.keys());
    const weights = Float64Array.from(byNeed.values());
    const shares = REPAIR_IDS.map((_, r) =>
      weights.reduce((sum, weight, h) => ((needs[h]! >> r) & 1 ? sum + weight : sum), 0),
    );
    const dead = openRepairChoice(bill, needs).choose(weights).set;
    const off = bill.covers.reduce((bits, covers, r) => ((dead >> r) & 1 ? bits | covers : bits), 0);
    const beside = bill.covers.reduce(
      (bits, covers, r) =>
        (covers & off) !== 0 && ((dead >> r) & 1) === 0 && shares[r]! > LEAST_WHILE_OPEN
          ? bits | (1 << r)
          : bits,
      0,
    );
    const doing = beside ? openRepairChoice(insurance, needs).extend(weights, dead, beside).set : dead;
    return REPAIR_IDS.map((repair, r) => {
      const bit = 1 << r;
      const asInsurance = (dead & bit) === 0 && (bill.covers[r]! & off) !== 0;
      const turn = asInsurance
        ? turnOf(insurance, needs, weights, doing & ~bit, bit)
        : turnOf(bill, needs, weights, dead & ~bit, bit);
      return {
        repair,
        probability: Math.min(1, shares[r]!) * (1 - noneOfThese),
        worthDoing: explained && (dead & bit) !== 0,
        whileOpen: explained && (doing & ~dead & bit) !== 0,
        saves: turn.saves * (1 - noneOfThese),
        turnsAt: (asInsurance ? Math.max(LEAST_WHILE_OPEN, turn.at) : turn.at) * (1 - noneOfThese),
      };
    }).sort((a, b) => b.probability - a.probability);
  };
}

/**
 * What the repair `bit` is worth beside `rest`, and from which share on. With the bikes that need it kept in proportion
 * among themselves, the gain is a straight line in its share: q·gain − (1 − q)·loss.
 */
function turnOf(
  bill: Bill,
  needs: Uint32Array,
  weights: Float64Array,
  rest: number,
  bit: number,
): { readonly saves: number; readonly at: number } {
  const now = workCost(bill, rest | bit) - workCost(bill, rest);
  const loss = now + bill.wronglyAccused;
  const gainOn = (need: number) => costOf(bill, 0, need & ~rest) - costOf(bill, 0, need & ~rest & ~bit) - now;
  let gain = 0;
  let having = 0;
  let total = 0;
  for (let h = 0; h < needs.length; h++) {
    const weight = weights[h]!;
    total += weight;
    if ((needs[h]! & bit) === 0) continue;
    gain += weight * gainOn(needs[h]!);
    having += weight;
  }
  const saves = Math.abs(gain - (total - having) * loss);
  // Where no bike that needs it was looked at, one that needs nothing else stands for them.
  const mean = having > 0 ? gain / having : gainOn(bit);
  return { saves, at: mean + loss > 0 ? Math.min(1, Math.max(0, loss / (mean + loss))) : 1 };
}
