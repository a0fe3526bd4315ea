/** What a job cost against what the plan said: money and hours. */
import type { RepairId } from '../fault/catalogue.ts';
import { REPAIR_IDS, REPAIRS } from '../fault/repairs.ts';
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { type Hours, hoursOf } from './hours.ts';

export interface CostLine {
  readonly repair: RepairId;
  /** What the verdict reckoned its part at, in the money of the garage; guesses. */
  readonly reckoned: number;
  /** What was paid for it; null where nothing was noted. */
  readonly paid: number | null;
}

export interface JobCost {
  readonly lines: readonly CostLine[];
  /** Money that went into no repair of the list. */
  readonly besides: number;
  readonly reckoned: number;
  readonly paid: number;
  /** Null while the machine file is not known. */
  readonly hours: Hours | null;
}

/** The repairs made, or while nothing is repaired those that the accepted verdict calls for. */
function repairsOf(state: JobState): readonly RepairId[] {
  const { made, before } = state.proof;
  const named = made
    ? [...before.flatMap((round) => round.made.repairs), ...made.repairs]
    : (state.accepted?.repairs ?? [])
        .filter((line) => line.worthDoing || line.whileOpen)
        .map((line) => line.repair);
  return REPAIR_IDS.filter((id) => (named as readonly string[]).includes(id));
}

export function costOf(state: JobState, machine: Machine | null): JobCost {
  const repairs = repairsOf(state);
  const lines = repairs.map((repair): CostLine => {
    const paid = state.costs.filter(({ of }) => of === repair);
    return {
      repair,
      reckoned: REPAIRS[repair].partCost,
      paid: paid.length === 0 ? null : paid.reduce((sum, { amount }) => sum + amount, 0),
    };
  });
  const paid = state.costs.reduce((sum, { amount }) => sum + amount, 0);
  return {
    lines,
    besides: paid - lines.reduce((sum, line) => sum + (line.paid ?? 0), 0),
    reckoned: lines.reduce((sum, line) => sum + line.reckoned, 0),
    paid,
    hours: machine && hoursOf(state, machine),
  };
}
