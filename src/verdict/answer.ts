/**
 * Room `verdict`: from readings to what is dead. Exact posterior over every set of up to three faults by
 * particles of what is not known (tolerances, speed, severity), the next reading worth its minutes, the repairs
 * worth doing, and readings that do not fit.
 *
 * This file: the shape of the answer.
 */
import type { FaultId, Member, RepairId } from '../fault/catalogue.ts';
import type { Value } from '../reading/key.ts';

/** Symptom words the complaint may carry. */
export type Symptom =
  | 'weak_battery'
  | 'headlight_dims_idle'
  | 'slow_crank'
  | 'runs_flat_riding'
  | 'flat_after_standing'
  | 'accessories_added'
  | 'overcharge_signs'
  | 'bad_after_long_ride'
  | 'short_trips'
  | 'intermittent';

/** Everything the verdict looks at. `readings` maps reading keys to values; `again` lists keys taken twice. */
export interface Evidence {
  readonly symptoms: readonly string[];
  readonly readings: Readonly<Record<string, Value>>;
  readonly again: readonly string[];
  readonly tools: {
    readonly clamp: boolean;
    readonly loadTester: boolean;
    readonly hydrometer: boolean;
    readonly supply: boolean;
  };
}

export interface FaultSet {
  /** Empty = sound. */
  readonly faults: readonly FaultId[];
  readonly probability: number;
}

export interface RepairLine {
  readonly repair: RepairId;
  /** Probability that at least one fault this repair cures is present. */
  readonly probability: number;
  /** Whether the choice of least expected cost does it: the verdict, which a reading could still change. */
  readonly worthDoing: boolean;
  /** Not called dead, but cheap enough to do while the same cover is off for another repair in the choice. */
  readonly whileOpen: boolean;
  /**
   * What following this line's advice saves on average against the opposite, with the rest of the choice kept:
   * minutes of work, parts counted as minutes (see repair-choice.ts), min.
   */
  readonly saves: number;
  /** Probability above which the choice would do it, the rest kept: what would change the advice, 0–1. */
  readonly turnsAt: number;
}

/** What one answer to the next reading would change. */
export interface Branch {
  /** In words: "under 12.4 V", "sound band", "OL". */
  readonly answer: string;
  readonly probability: number;
  /** Members whose suspicion would move most, with the new probability. */
  readonly moves: readonly { readonly member: Member; readonly from: number; readonly to: number }[];
}

export interface NextReading {
  readonly key: string;
  /** Minutes with the set-up it still needs. */
  readonly minutes: number;
  /** Expected information on the repairs, bits. */
  readonly bits: number;
  readonly why: string;
  readonly branches: readonly Branch[];
}

export interface Doubt {
  readonly key: string;
  /** Probability that this reading was taken or typed wrongly. */
  readonly probability: number;
  /** In words: "ten times out", "AC and DC mixed up", "poor contact", "leads reversed". */
  readonly mistake: string;
  /** The value that was probably meant, in the kind's unit; null when nothing can be said. */
  readonly meant: number | null;
}

export interface Answer {
  /** Most probable first. */
  readonly sets: readonly FaultSet[];
  readonly suspicion: Readonly<Record<Member, number>>;
  readonly repairs: readonly RepairLine[];
  readonly next: NextReading | null;
  /** Other good readings, best first, without branches. */
  readonly alternatives: readonly { readonly key: string; readonly minutes: number; readonly bits: number }[];
  readonly doubtful: readonly Doubt[];
  /** Probability that no set of faults in the catalogue explains the readings. */
  readonly noneOfThese: number;
  /** Upper bound on the probability of more than three faults at once, which are not gone through one by one, 0–1. */
  readonly beyondThree: number;
  /** Keys of numeric readings that nothing else would show to be wrong: a mistake in them would pass unseen. */
  readonly unchecked: readonly string[];
  /** The readings together contradict the machine file or the set-up, and no single mistake puts that right. */
  readonly misfit: boolean;
}

/** Band of a sound bike for one reading, in the kind's unit; null where a sound bike shows OL or a thing seen. */
export interface Band {
  readonly low: number;
  readonly high: number;
}

/** One reading's band and the chance that a sound bike shows no reading ("OL"). */
export interface SoundShows {
  readonly band: Band | null;
  readonly openShare: number;
}
