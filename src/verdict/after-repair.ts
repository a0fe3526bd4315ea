/**
 * What may still be wrong once repairs were made, before anything was read again: the verdict that was accepted with
 * the repaired faults taken out of it, and what repairing itself can spoil. From there on faults count one by one:
 * which of them are left says nothing about each other any more, as it does on a bike that came in with a complaint.
 */
import type { FaultId, RepairId } from '../fault/catalogue.ts';
import { FAULT_IDS, FAULTS, faultPossible } from '../fault/faults.ts';
import type { FaultSet } from './answer.ts';
import type { Base } from './sets.ts';

/** Chance of a fault for each that is not as good as out of the question, 0–1. */
export type ChancesLeft = Readonly<Partial<Record<FaultId, number>>>;

/** What is expected of a repaired bike. */
export interface AfterRepair {
  readonly left: ChancesLeft;
  /** Chance that no fault of the catalogue explained the readings, before anything was read again, 0–1. */
  readonly noneOfThese: number;
}

/** Chance that a repair did not take: the new part bad out of its box, a pin not home in its plug, 1. A guess, no source. */
export const NOT_TAKEN = 0.015;
/** Chance that the work itself spoilt a thing nobody was at, each fault by itself, 1. A guess, no source. */
export const SPOILT = 0.001;
/**
 * Chance of a fault left at which a bike is called proven, 0–1 (guess: the twentieth part, as elsewhere in this house).
 * While more than that would
 * pass a plan of readings unseen, the plan goes on though a comeback would cost less.
 */
export const PROVEN = 0.05;
/** No fault that was left alone is held for certain, however sure the verdict was, 1: readings must be able to clear it. */
const MOST = 0.9;
const LEAST_NONE = 0.005;
const MOST_NONE = 0.5;

/**
 * Chance of each fault after `made`, from the sets of faults as they were believed when the repairs were decided on.
 * A flat battery is no fault of a repaired bike: it is charged before anything is read.
 */
export function afterRepair(
  sets: readonly FaultSet[],
  noneOfThese: number,
  made: readonly RepairId[],
  build: Parameters<typeof faultPossible>[1],
): AfterRepair {
  const total = sets.reduce((sum, { probability }) => sum + probability, 0);
  const left: Partial<Record<FaultId, number>> = {};
  for (const id of FAULT_IDS) {
    if (id === 'battery-flat' || !faultPossible(id, build)) continue;
    const { repair, prior } = FAULTS[id];
    if (made.includes(repair)) {
      const alike = FAULT_IDS.filter((other) => other !== 'battery-flat' && FAULTS[other].repair === repair);
      left[id] = (NOT_TAKEN * prior) / alike.reduce((sum, other) => sum + FAULTS[other].prior, 0);
      continue;
    }
    const believed = sets.reduce((sum, s) => sum + (s.faults.includes(id) ? s.probability : 0), 0);
    left[id] = Math.min(MOST, Math.max(SPOILT, total > 0 ? believed / total : 0));
  }
  return { left, noneOfThese: Math.min(MOST_NONE, Math.max(LEAST_NONE, noneOfThese)) };
}

/**
 * Log prior of a set after repairs, nats: every fault is there or not by its own chance. Faults that are not among
 * those left cannot be there.
 */
export function logPriorLeft({ left }: AfterRepair): (base: Pick<Base, 'atoms'>) => number {
  let sound = 0;
  for (const chance of Object.values(left)) sound += Math.log1p(-chance);
  return ({ atoms }) => {
    let log = sound;
    for (const { fault, share } of atoms) {
      const chance = left[fault];
      if (chance === undefined) return Number.NEGATIVE_INFINITY;
      log += Math.log((share * chance) / (1 - chance));
    }
    return log;
  };
}
