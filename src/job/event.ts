/**
 * Room `job`: one job as a log of events in the past tense, and its state as a fold over them. Nothing is ever
 * overwritten: a reading that was wrong is withdrawn by a later event and stays in the log. Events carry ids that
 * sort and merge without a server, so two devices can work on one job apart and agree afterwards. The room is
 * pure: whoever writes an event passes in what the clock says.
 *
 * This file: the shapes of the events.
 */
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
}

export type EventBody =
  | JobOpened
  | ComplaintHeard
  | ToolsDeclared
  | ReadingTaken
  | ReadingWithdrawn
  | VerdictAccepted
  | VerdictReopened
  | PriorSet
  | NoteAdded;

export type JobEvent = Envelope & EventBody;
export type EventType = EventBody['type'];

/** The event of one type, e.g. `EventOf<'readingTaken'>`. */
export type EventOf<T extends EventType> = Envelope & Extract<EventBody, { readonly type: T }>;
