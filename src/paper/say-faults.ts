/** Faults and repairs of the log in words; words of a later version are shown as they are. */
import type { FaultId, RepairId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { REPAIRS } from '../fault/repairs.ts';
import { sayList } from '../way/plan-words.ts';

export function faultWords(fault: string): string {
  return Object.hasOwn(FAULTS, fault) ? FAULTS[fault as FaultId].title : `${fault} (unknown to this version)`;
}

export function repairWords(repair: string): string {
  return Object.hasOwn(REPAIRS, repair)
    ? REPAIRS[repair as RepairId].title
    : `${repair} (unknown to this version)`;
}

/** A set of faults: "stator open and battery worn". */
export function setWords(faults: readonly string[]): string {
  return faults.length === 0 ? 'nothing is wrong' : sayList(faults.map(faultWords));
}
