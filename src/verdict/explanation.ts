/** The shape of an explanation: why each suspect is suspected, what would change it, what stays in doubt. */
import type { FaultId, RepairId } from '../fault/catalogue.ts';

/** What one reading says about one suspect. */
export interface Effect {
  readonly key: string;
  /**
   * How many times likelier the reading makes the suspect, its share in what all readings do together, as a logarithm
   * to base two, bit. Positive speaks for, negative against. Shares of one suspect add up (explain-effects.ts says how).
   */
  readonly bits: number;
  /**
   * The same, but what the reading adds when all the others are known already, bit. Much less than `bits` means that
   * other readings say the same: the verdict does not hang on this one.
   */
  readonly lastBits: number;
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
   * What the change from `before` holds beyond the readings named, bit: log of the odds to base two, among the sets of
   * the catalogue ("none of these" stands apart, in `doubt`), held within ten thousand to one either way.
   */
  readonly remainder: number;
  /** What evening out the shares takes from or gives to it after the readings (temper.ts), bit; the last part of the change. */
  readonly evened: number;
  /** Whether the advice is to do the repair: because the part is dead, or while its cover is off. */
  readonly advised: boolean;
  /**
   * Factor on the suspect's prior odds at which the advice on it would turn round; null when no factor from a
   * twentieth to twenty does. Between a third and three, the verdict leans on a guess and must say so.
   */
  readonly flipsAt: number | null;
  /**
   * The same for the guess how often faults come together: factor on the chance of each fault beyond the first at which
   * the advice on this suspect would turn round; null as above.
   */
  readonly companyFlipsAt: number | null;
}

/** One list of repairs with the probability that it, no more and no less, is what the bike needs, 0–1. */
export interface RepairList {
  /** Empty = nothing to repair. */
  readonly repairs: readonly RepairId[];
  readonly probability: number;
}

/** What is still open after the readings. */
export interface RemainingDoubt {
  readonly likeliest: RepairList;
  /** The strongest other list; null when there is none. */
  readonly rival: RepairList | null;
  /** All lists but the likeliest and its rival, 0–1. */
  readonly others: number;
  /** Probability that no set of faults in the catalogue explains the readings, 0–1. */
  readonly noneOfThese: number;
}

export interface Explanation {
  readonly suspects: readonly Suspect[];
  /** Pairs of likely repair lists that no reading on offer tells apart without opening something. */
  readonly alike: readonly { readonly one: readonly RepairId[]; readonly other: readonly RepairId[] }[];
  readonly doubt: RemainingDoubt;
}
