/**
 * Room `bench`: the work itself, step by step. What a step asks to have written down before it may be ticked, what such a
 * record must hold to count, how it stands with the rest of the job (what was found on the way in, which clock runs, what
 * stands in the way), and what follows when something else was done than the book wants. Pure: the hour is passed in.
 *
 * This file: the shape of an ask and of what a record is judged to be.
 */
import type { BenchState } from '../job/bench-fold.ts';
import type { Machine, Part } from '../machine/definition.ts';
import type { KnownFastener } from '../machine/fastener-known.ts';
import type { Fault, Field, Texts } from '../sum/sum.ts';
import type { StepPlace } from './place.ts';

export const ASK_IDS = [
  'direction',
  'lengths',
  'stack-found',
  'run',
  'plug',
  'new',
  'dry',
  'locker',
  'torque',
  'slack',
  'slack-again',
  'magnets',
  'bead',
  'gap',
  'retained',
  'clear',
  'insulation',
  'fill',
  'stack-back',
  'count',
] as const;
export type AskId = (typeof ASK_IDS)[number];

/** A thing to look at, ticked when it was found so. */
export interface Look {
  /** A word for the log. */
  readonly id: string;
  readonly words: string;
}

/** What a step wants written down. */
export interface Ask {
  readonly id: AskId;
  readonly title: string;
  /** Why it is asked: what goes wrong without it, one sentence. */
  readonly why: string;
  readonly looks: readonly Look[];
  readonly fields: readonly Field[];
}

/** What an ask is judged against. */
export interface Asking {
  readonly machine: Machine;
  readonly place: StepPlace;
  /** The fastener of the step, read; null for none. */
  readonly fastener: KnownFastener | null;
  /** Parts that this job brings new: their own sheets count. */
  readonly fresh: readonly Part[];
  readonly bench: BenchState;
  /** When each step was done, ms since 1970, by its id. */
  readonly done: ReadonlyMap<string, number>;
}

/** A record that counts. Figures are in SI units, their names end in the unit. */
export interface Sound {
  readonly ok: true;
  readonly figures: Readonly<Record<string, number | readonly number[]>>;
  /** What follows from it, one sentence each. */
  readonly says: readonly string[];
  /** What is not as the book wants: it can be signed with a reason only, and is a deviation. */
  readonly stops: readonly string[];
}

/** What cannot be a record yet: a field that cannot be read or is empty, a thing not looked at. */
export interface Lacking {
  readonly ok: false;
  readonly faults: readonly Fault[];
}

export type Judged = Sound | Lacking;

/** One kind of record: what it asks at a step, and what it makes of the answer. */
export interface AskKind {
  /** The ask at this step; null where the step has no use for it. */
  readonly ask: (asking: Asking) => Ask | null;
  readonly judge: (asking: Asking, texts: Texts, yes: readonly string[]) => Judged;
}

/** A sound record without anything to tell. */
export function sound(
  figures: Sound['figures'] = {},
  says: readonly string[] = [],
  stops: readonly string[] = [],
): Sound {
  return { ok: true, figures, says, stops };
}

/** Faults for the looks that are not ticked, in the field named as the look. */
export function missedLooks(looks: readonly Look[], yes: readonly string[]): readonly Fault[] {
  return looks
    .filter(({ id }) => !yes.includes(id))
    .map(({ id, words }) => ({ field: id, why: `Not ticked yet: ${words.toLowerCase()}.` }));
}

/** Joins what fields lack and what was not looked at. */
export function lacking(
  looks: readonly Look[],
  yes: readonly string[],
  refused: { readonly faults: readonly Fault[] } | null,
): Lacking | null {
  const faults = [...(refused?.faults ?? []), ...missedLooks(looks, yes)];
  return faults.length === 0 ? null : { ok: false, faults };
}
