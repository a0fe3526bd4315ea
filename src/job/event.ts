/**
 * Room `job`: one job as a log of events in the past tense, and its state as a fold over them. Nothing is ever
 * overwritten: a reading that was wrong is withdrawn by a later event and stays in the log. Events carry ids that
 * sort and merge without a server, so two devices can work on one job apart and agree afterwards. The room is
 * pure: whoever writes an event passes in what the clock says.
 *
 * This file: the shapes of the events.
 */
import type { RideLife } from '../circuit/ride-legs.ts';
import type { Value } from '../reading/key.ts';
import type { FaultSet, RepairLine } from '../verdict/answer.ts';

/** What every event carries. */
export interface Envelope {
  /** Stamp that sorts by time, then counter, then device; see stamp.ts. It is the event's identity everywhere. */
  readonly id: string;
  /** The job it belongs to: 1–64 of `a`–`z`, `0`–`9`, `-`. */
  readonly job: string;
  /** When the writer's own clock says it happened, ISO 8601 in UTC, `2026-01-17T21:04:05.000Z`. */
  readonly at: string;
  /** Who did it, in the words they call themselves by; may be empty. */
  readonly who: string;
  /** The device that wrote it: 1–16 of `a`–`z`, `0`–`9`. */
  readonly device: string;
}

export interface JobOpened {
  readonly type: 'jobOpened';
  /** Machine file without its ending, e.g. `ardmoor-650-pathway`. */
  readonly machine: string;
  readonly title: string;
  /** True when the whole job is made up (the demo): every screen and paper must say so. */
  readonly invented: boolean;
}

export interface ComplaintHeard {
  readonly type: 'complaintHeard';
  /** The owner's words. */
  readonly words: string;
  /** Symptom words, see `Symptom` in the verdict room. Words of a later version are kept as they are. */
  readonly symptoms: readonly string[];
}

/** What lies in the drawer beyond a multimeter. */
export interface Tools {
  readonly clamp: boolean;
  readonly loadTester: boolean;
  readonly hydrometer: boolean;
  readonly supply: boolean;
}

export interface ToolsDeclared extends Tools {
  readonly type: 'toolsDeclared';
}

export interface ReadingTaken {
  readonly type: 'readingTaken';
  /** Reading key in its canonical form, e.g. `batt_volts lights=low rpm=3000`. */
  readonly key: string;
  /** In the unit of the key's kind; null for "OL" or no reading; true/false for a thing seen. */
  readonly value: Value;
  /** The entry as it was typed, so that a misreading can be told from a mistyping. */
  readonly entered: string;
  /**
   * Id of the take of the same reading that its writer had before their eyes; null for none. Left out by an earlier
   * version. Two takes that did not know of each other are both shown until somebody picks.
   */
  readonly over?: string | null;
  /** Id of the `repairsMade` event that it was taken after; null or left out for the bike as it came. */
  readonly after?: string | null;
}

/** Of takes that did not know of each other this one counts. */
export interface ReadingPicked {
  readonly type: 'readingPicked';
  /** Id of the `readingTaken` event. */
  readonly event: string;
}

export interface ReadingWithdrawn {
  readonly type: 'readingWithdrawn';
  /** Id of the `readingTaken` event that no longer counts. */
  readonly event: string;
  readonly why: string;
}

/** A line of the verdict as it was accepted; logs of an earlier version lack the last three fields. */
export type AcceptedLine = Pick<RepairLine, 'repair' | 'probability' | 'worthDoing'> &
  Partial<Pick<RepairLine, 'whileOpen' | 'saves' | 'turnsAt'>>;

/** The mechanic acts on the verdict: what it said at that moment, kept word for word. */
export interface VerdictAccepted {
  readonly type: 'verdictAccepted';
  readonly repairs: readonly AcceptedLine[];
  readonly sets: readonly FaultSet[];
  /** Probability that no set of faults in the catalogue explains the readings, 0–1. */
  readonly noneOfThese: number;
}

/** The last acceptance no longer stands: the mechanic wants to look again. It stays in the log. */
export interface VerdictReopened {
  readonly type: 'verdictReopened';
  readonly why: string;
}

/** The mechanic knows better than the catalogue how often a fault turns up on bikes like this one. */
export interface PriorSet {
  readonly type: 'priorSet';
  /** The fault's word, see `FaultId`. Words of a later version are kept as they are. */
  readonly fault: string;
  /** How often, among bikes that somebody complains of, 0.001–0.5; null goes back to the catalogue. */
  readonly chance: number | null;
  readonly why: string;
}

export interface NoteAdded {
  readonly type: 'noteAdded';
  readonly text: string;
  /** Id of the step it was written at; left out for none, and by an earlier version. */
  readonly step?: string;
}

/** How the way in is to be planned; the whole of it, the last one counts. */
export interface WayChosen {
  readonly type: 'wayChosen';
  /** Ids of targets in the machine file. */
  readonly targets: readonly string[];
  readonly people: 1 | 2;
  /** When the work begins, ISO 8601 in UTC. */
  readonly startsAt: string;
  /** Whether nobody works from 22:00 to 07:00 of the garage's own clock. */
  readonly nights: boolean;
  /** Which of the two plans is followed where they differ. */
  readonly aim: 'least' | 'earliest';
  /** Facts that are to stay as they are, such as "clutch off". */
  readonly leave: readonly string[];
  /** How far the parts have gone since they were new, km; null where nobody has said. */
  readonly km: number | null;
}

/** An action or build step that runs by itself (a cure, a drain, a charger) runs from now on. */
export interface StepBegun {
  readonly type: 'stepBegun';
  /** Its id in the machine file. */
  readonly step: string;
  /** Id of the last `stepUndone` of this step that its writer had seen; null or left out for none. */
  readonly seen?: string | null;
}

/** An action or build step is done. */
export interface StepDone {
  readonly type: 'stepDone';
  /** Its id in the machine file. */
  readonly step: string;
  /** Id of the last `stepUndone` of this step that its writer had seen; null or left out for none. */
  readonly seen?: string | null;
}

/** It is not done after all, nor has it begun. */
export interface StepUndone {
  readonly type: 'stepUndone';
  readonly step: string;
}

/** Something jams, and the plan changes. */
export interface WayTroubled {
  readonly type: 'wayTroubled';
  /** `seized`: will not let go; `stripped`: a thread came out; `not-here`: a supply is missing; `helper-gone`. */
  readonly what: WayTrouble;
  /** Id of the action, step or supply; empty for a helper. */
  readonly of: string;
  /** What it takes more, min; null where it will not go at all, or where time is not the trouble. */
  readonly minutes: number | null;
  /** When the supply comes, or from when the helper is away, ISO 8601 in UTC; null where it does not apply. */
  readonly until: string | null;
}

/** It came after all. */
export interface WayCleared {
  readonly type: 'wayCleared';
  /** Id of the `wayTroubled` event that no longer holds. */
  readonly event: string;
}

/** Whether a supply is at hand. */
export interface StockNoted {
  readonly type: 'stockNoted';
  /** Its id in the machine file. */
  readonly supply: string;
  readonly here: boolean;
}

/**
 * What was written down at a step before it may be ticked: a torque signed, a stack of shims as found, a look taken.
 * Which records a step asks for, and what they must hold, is room `bench`'s to say; the log keeps what was said.
 */
export interface RecordMade {
  readonly type: 'recordMade';
  /** Id of the step in the machine file. */
  readonly step: string;
  /** What it answers, a word of room `bench` such as `torque`. Words of a later version are kept as they are. */
  readonly ask: string;
  /** Words of the things that were looked at and found so. */
  readonly yes: readonly string[];
  /** Figures by name, each name ending in its SI unit where it has one: `torqueNm`, `slackM`. */
  readonly figures: Readonly<Record<string, number | readonly number[]>>;
  /** What was typed, by field: the entry as it was written, so that a misreading can be told from a mistyping. */
  readonly words: Readonly<Record<string, string>>;
}

/** A step may be ticked though a record of it is missing: somebody answers for it. */
export interface HoldOverridden {
  readonly type: 'holdOverridden';
  readonly step: string;
  /** The record that is missing, or `wait` for what stands in the way of the step. */
  readonly ask: string;
  readonly why: string;
}

/** Something else was used than the book or the plan wants. */
export interface DeviationNoted {
  readonly type: 'deviationNoted';
  readonly step: string;
  readonly what: DeviationKind;
  /** What was used: a locker's strength, a sealant's cure, the supply that went on again; free words for `other`. */
  readonly used: string;
  readonly why: string;
}

/** A photograph. The picture itself is kept beside the log, once for each content. */
export interface PhotoAdded {
  readonly type: 'photoAdded';
  /** SHA-256 of the picture's bytes, 64 small hexadecimal digits. */
  readonly photo: string;
  /** Id of the step it was taken at; empty for none. */
  readonly step: string;
  /** What it shows, in words; may be empty. */
  readonly about: string;
}

/** A mark of the one who films. */
export interface ClipMarked {
  readonly type: 'clipMarked';
  readonly what: 'start' | 'stop' | 'clap';
  /** Number of the clip, or of the clap, counted from 1. */
  readonly number: number;
  /** The step on screen; empty for none. */
  readonly step: string;
}

/** Chance of a fault, 0–1, words of a later version kept as they are. */
export interface ChanceLeft {
  readonly fault: string;
  readonly chance: number;
}

/** The bike is repaired: what is read from here on, with this event's id as `after`, is the repaired bike. */
export interface RepairsMade {
  readonly type: 'repairsMade';
  /** What was done, words of the catalogue of repairs. Words of a later version are kept as they are. */
  readonly repairs: readonly string[];
  /** What was believed at that moment of faults left (room `verdict`, after-repair.ts), kept word for word. */
  readonly left: readonly ChanceLeft[];
  /** Chance that no fault of the catalogue explained the readings, 0–1. */
  readonly noneOfThese: number;
}

/** A look at the repaired bike that no meter takes: does it leak, does the wire run clear. */
export interface ProofLooked {
  readonly type: 'proofLooked';
  /** Id of the `repairsMade` event. */
  readonly after: string;
  /** What was looked at, a word of room `proof` such as `leak`. Words of a later version are kept as they are. */
  readonly check: string;
  readonly ok: boolean;
  /** What was found, or a figure as it was typed; may be empty. */
  readonly words: string;
}

/** What the mechanic says of the repaired bike in the end, with what was known at that moment, kept word for word. */
export interface ProofSaid {
  readonly type: 'proofSaid';
  /** Id of the `repairsMade` event. */
  readonly after: string;
  readonly proven: boolean;
  /** Chance that any fault is left, 0–1. */
  readonly faultLeft: number;
  readonly sets: readonly FaultSet[];
  /** Why it was said though the readings do not say it; may be empty. */
  readonly why: string;
}

/** How the owner rides, for the question whether the battery stays charged; the last one counts. */
export interface LifeTold {
  readonly type: 'lifeTold';
  readonly life: RideLife;
}

/** Money that went into the job. */
export interface CostNoted {
  readonly type: 'costNoted';
  readonly what: CostKind;
  /** Id of the repair or supply it went into; empty for none. */
  readonly of: string;
  /** What was bought, in words; may be empty. */
  readonly words: string;
  /** In the money of the garage, 0 or more. */
  readonly amount: number;
}

/** Later plans for this bike may go by the minutes that the steps of this job really took. */
export interface MinutesLearned {
  readonly type: 'minutesLearned';
  /** Hands-on minutes by step, min. */
  readonly steps: readonly { readonly step: string; readonly minutes: number }[];
}

/** A figure offered for the machine file was taken into it, or is not wanted: then it does not come again. */
export interface OfferAnswered {
  readonly type: 'offerAnswered';
  /** What was offered, as room `bike` names it: its place in the file and what was to stand there. */
  readonly offer: string;
  readonly taken: boolean;
}

/** An earlier entry does not count, as if it never was; it stays in the log. Struck itself, the entry counts again. */
export interface EntryStruck {
  readonly type: 'entryStruck';
  /** Id of the entry. */
  readonly event: string;
}

export const COST_KINDS = ['part', 'supply', 'other'] as const;
export type CostKind = (typeof COST_KINDS)[number];

export const DEVIATION_KINDS = ['locker', 'sealant', 'used-again', 'torque', 'other'] as const;
export type DeviationKind = (typeof DEVIATION_KINDS)[number];

export const WAY_TROUBLES = ['seized', 'stripped', 'not-here', 'helper-gone'] as const;
export type WayTrouble = (typeof WAY_TROUBLES)[number];

export type EventBody =
  | JobOpened
  | ComplaintHeard
  | ToolsDeclared
  | ReadingTaken
  | ReadingWithdrawn
  | ReadingPicked
  | VerdictAccepted
  | VerdictReopened
  | PriorSet
  | WayChosen
  | StepBegun
  | StepDone
  | StepUndone
  | WayTroubled
  | WayCleared
  | StockNoted
  | RecordMade
  | HoldOverridden
  | DeviationNoted
  | PhotoAdded
  | ClipMarked
  | EntryStruck
  | RepairsMade
  | ProofLooked
  | ProofSaid
  | LifeTold
  | CostNoted
  | MinutesLearned
  | OfferAnswered
  | NoteAdded;

export type JobEvent = Envelope & EventBody;
export type EventType = EventBody['type'];

/** The event of one type, e.g. `EventOf<'readingTaken'>`. */
export type EventOf<T extends EventType> = Envelope & Extract<EventBody, { readonly type: T }>;
