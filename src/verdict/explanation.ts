/** The shape of an explanation: why each suspect is suspected, what would change it, what stays in doubt. */
import type { FaultId, RepairId } from '../fault/catalogue.ts';

/** What one reading says about one suspect, all other readings given. */
export interface Effect {
  readonly key: string;
  /**
   * How many times likelier the reading makes the suspect, all other readings given, as a logarithm to base two, bit.
   * Positive speaks for, negative against.
   */
  readonly bits: number;
}

/** One part that may be dead. */
export interface Suspect {
  readonly repair: RepairId;
  /** The faults behind it, likeliest first, with their probability. */
  readonly faults: readonly { readonly fault: FaultId; readonly probability: number }[];
  readonly probability: number;
  /** Probability before any reading, with the owner's words heard, 0–1. */
  readonly before: number;
  /** Readings that speak for and against it, greatest effect first; those under a tenth of a bit left out. */
  readonly supports: readonly Effect[];
  readonly opposes: readonly Effect[];
  /**
   * Factor on the suspect's prior odds at which the advice on it would turn round; null when no factor from a
   * twentieth to twenty does. Between a third and three, the verdict leans on a guess and must say so.
   */
  readonly flipsAt: number | null;
}

export interface Explanation {
  readonly suspects: readonly Suspect[];
  /** Pairs of likely repair lists that no reading on offer tells apart without opening something. */
  readonly alike: readonly { readonly one: readonly RepairId[]; readonly other: readonly RepairId[] }[];
}
