/** The state of a job: a fold over its events, the same whatever order they arrived in and however often. */
import { checkKey, completeKey } from '../reading/catalogue.ts';
import { readKey, type Value, writeKey } from '../reading/key.ts';
import type { Evidence, FaultSet } from '../verdict/answer.ts';
import { type BenchState, foldBench } from './bench-fold.ts';
import type { AcceptedLine, EventOf, EventType, JobEvent, Tools } from './event.ts';
import { inOrder } from './stamp.ts';
import { liveEvents } from './struck.ts';
import { foldWay, type WayState } from './way-fold.ts';

export interface Taken {
  /** Id of the `readingTaken` event. */
  readonly event: string;
  readonly key: string;
  readonly value: Value;
  readonly entered: string;
  readonly at: string;
  readonly who: string;
}

/** A key's value that counts, with the ones it replaced, oldest first. */
export interface Reading extends Taken {
  readonly earlier: readonly Taken[];
  /** Takes with another value that did not know of this one, nor this of them: a person is to pick. Mostly empty. */
  readonly disputed: readonly Taken[];
}

export interface Withdrawn extends Taken {
  readonly why: string;
  readonly withdrawnAt: string;
  readonly withdrawnBy: string;
}

export interface Accepted {
  readonly event: string;
  readonly at: string;
  readonly who: string;
  readonly repairs: readonly AcceptedLine[];
  readonly sets: readonly FaultSet[];
  readonly noneOfThese: number;
  /** How many readings were taken or withdrawn, or chances set, after it: above 0 it rests on less than is known now. */
  readonly changesSince: number;
}

/** A fault's chance before any reading as this job has it. */
export interface OwnPrior {
  readonly fault: string;
  /** Share of bikes that somebody complains of, 0.001–0.5. */
  readonly chance: number;
  readonly why: string;
  readonly at: string;
  readonly who: string;
}

export interface JobState {
  /** Null when there are no events. */
  readonly job: string | null;
  /** Null while the opening event has not arrived. */
  readonly opened: {
    readonly machine: string;
    readonly title: string;
    readonly invented: boolean;
    readonly at: string;
    readonly who: string;
  } | null;
  /** The latest telling; null when none was heard. */
  readonly complaint: {
    readonly words: string;
    readonly symptoms: readonly string[];
    readonly at: string;
    readonly who: string;
  } | null;
  /** As last declared; null when nobody has said. */
  readonly tools: Tools | null;
  /** In the order in which the values that count were taken. */
  readonly readings: readonly Reading[];
  /** Keys taken twice or more, withdrawn ones not counted, in the order of `readings`. */
  readonly again: readonly string[];
  readonly withdrawn: readonly Withdrawn[];
  /** The last acceptance, unless it was reopened since. */
  readonly accepted: Accepted | null;
  /** When the last acceptance was reopened; null when it stands or there is none. */
  readonly reopened: { readonly why: string; readonly at: string; readonly who: string } | null;
  /** Chances that differ from the catalogue's, in the order in which they were set. */
  readonly priors: readonly OwnPrior[];
  readonly notes: readonly {
    readonly event: string;
    readonly text: string;
    /** Id of the step it was written at; null for none. */
    readonly step: string | null;
    readonly at: string;
    readonly who: string;
  }[];
  /** The work at the bench: records, overrides, deviations, clips. */
  readonly bench: BenchState;
  /** The way in: choices, ticks, troubles, stock. */
  readonly way: WayState;
  /** Greatest event id: hand it to `writeEvent` as `last`. Null when there are no events. */
  readonly last: string | null;
}

/** The tools of a mechanic who has said nothing: a multimeter only. */
export const MULTIMETER_ONLY: Tools = { clamp: false, loadTester: false, hydrometer: false, supply: false };

/** State of one job from its events, in any order, with repeats. Throws RangeError when they are of two jobs. */
export function foldJob(events: readonly JobEvent[]): JobState {
  const all = inOrder(events);
  const job = all[0]?.job ?? null;
  const stray = all.find((event) => event.job !== job);
  if (stray) throw new RangeError(`events must be of one job, got ${job} and ${stray.job}`);
  const ordered = liveEvents(all);

  const withdrawals = new Map<string, EventOf<'readingWithdrawn'>>();
  for (const event of ordered) {
    // Gathered first: clocks may sort a withdrawal before the reading it names. The first one gives the reason.
    if (event.type === 'readingWithdrawn' && !withdrawals.has(event.event))
      withdrawals.set(event.event, event);
  }

  let opened: JobState['opened'] = null;
  let complaint: JobState['complaint'] = null;
  let tools: Tools | null = null;
  let accepted: EventOf<'verdictAccepted'> | null = null;
  let reopened: JobState['reopened'] = null;
  const priors = new Map<string, OwnPrior>();
  const byKey = new Map<string, (Taken & { readonly over: string | null | undefined })[]>();
  const picks: { readonly id: string; readonly event: string }[] = [];
  const withdrawn: Withdrawn[] = [];
  const notes: JobState['notes'][number][] = [];

  for (const event of ordered) {
    const { at, who } = event;
    switch (event.type) {
      case 'jobOpened':
        // A job is opened once; a second opening could otherwise swap the machine under its readings.
        opened ??= { machine: event.machine, title: event.title, invented: event.invented, at, who };
        break;
      case 'complaintHeard':
        complaint = { words: event.words, symptoms: event.symptoms, at, who };
        break;
      case 'toolsDeclared':
        tools = {
          clamp: event.clamp,
          loadTester: event.loadTester,
          hydrometer: event.hydrometer,
          supply: event.supply,
        };
        break;
      case 'readingTaken': {
        const taken = {
          event: event.id,
          key: event.key,
          value: event.value,
          entered: event.entered,
          at,
          who,
          over: event.over,
        };
        const gone = withdrawals.get(event.id);
        if (gone) {
          const { over: _over, ...what } = taken;
          withdrawn.push({ ...what, why: gone.why, withdrawnAt: gone.at, withdrawnBy: gone.who });
          break;
        }
        const same = sameReading(event.key);
        const before = byKey.get(same) ?? [];
        // Taken out and put back, so that the map's order is that of the values that count.
        byKey.delete(same);
        byKey.set(same, [...before, taken]);
        break;
      }
      case 'readingPicked':
        picks.push({ id: event.id, event: event.event });
        break;
      case 'verdictAccepted':
        accepted = event;
        reopened = null;
        break;
      case 'verdictReopened':
        // Also over an acceptance that the reopening device had not heard of: somebody wants to look again.
        if (accepted) reopened = { why: event.why, at, who };
        accepted = null;
        break;
      case 'priorSet': {
        const { fault, chance, why } = event;
        priors.delete(fault);
        if (chance !== null) priors.set(fault, { fault, chance, why, at, who });
        break;
      }
      case 'noteAdded':
        notes.push({ event: event.id, text: event.text, step: event.step ?? null, at, who });
        break;
    }
  }

  const readings = [...byKey.values()].map((takes) => settle(takes, picks));
  return {
    job,
    opened,
    complaint,
    tools,
    readings,
    again: readings.filter((reading) => reading.earlier.length > 0).map((reading) => reading.key),
    withdrawn,
    accepted: accepted && describeAccepted(accepted, ordered),
    reopened,
    priors: [...priors.values()],
    notes,
    bench: foldBench(ordered),
    way: foldWay(ordered),
    last: all.at(-1)?.id ?? null,
  };
}

/** Which of a key's takes counts, and which others stand against it. A pick settles what was there when it was made. */
function settle(
  takes: readonly (Taken & { readonly over: string | null | undefined })[],
  picks: readonly { readonly id: string; readonly event: string }[],
): Reading {
  const plain = takes.map(({ over: _over, ...taken }) => taken);
  const pick = picks.findLast(({ event }) => takes.some((take) => take.event === event));
  const last = takes.at(-1)!;
  const earlier = (counts: string) => plain.filter(({ event }) => event !== counts);
  if (pick && last.event < pick.id) {
    const picked = plain.find(({ event }) => event === pick.event)!;
    return { ...picked, earlier: earlier(picked.event), disputed: [] };
  }
  // A log of an earlier version does not say what was seen: then all of it was.
  const seen = last.over === undefined ? last.event : (last.over ?? '');
  const stands = ({ event, value }: Taken): boolean => {
    if (value === last.value) return false;
    if (pick && event < pick.id) return event === pick.event && last.over !== event;
    return event > seen;
  };
  const others = earlier(last.event);
  return { ...plain.at(-1)!, earlier: others, disputed: others.filter(stands) };
}

/** One text for every way to write a key: `batt_volts` and `batt_volts lights=low rpm=3000` are the same reading. */
function sameReading(text: string): string {
  const key = readKey(text);
  return key ? writeKey(completeKey(key)) : text;
}

/** What can change a verdict after it was accepted. */
const CHANGES: ReadonlySet<EventType> = new Set([
  'readingTaken',
  'readingWithdrawn',
  'readingPicked',
  'priorSet',
]);

function describeAccepted(event: EventOf<'verdictAccepted'>, ordered: readonly JobEvent[]): Accepted {
  const { id, at, who, repairs, sets, noneOfThese } = event;
  const changes = ordered.filter((other) => other.id > id && CHANGES.has(other.type));
  return { event: id, at, who, repairs, sets, noneOfThese, changesSince: changes.length };
}

/**
 * What the verdict looks at. Undeclared tools are a multimeter only. Readings that the catalogue does not know (a log
 * of a later version) stay in the state but not in the evidence, where they could only stop the verdict.
 */
export function evidenceOf(state: JobState): Evidence {
  const { clamp, loadTester, hydrometer, supply } = state.tools ?? MULTIMETER_ONLY;
  const known = state.readings.filter((reading) => checkKey(reading.key).ok);
  return {
    symptoms: state.complaint?.symptoms ?? [],
    readings: Object.fromEntries(known.map(({ key, value }) => [key, value])),
    again: known.filter((reading) => reading.earlier.length > 0).map((reading) => reading.key),
    tools: { clamp, loadTester, hydrometer, supply },
  };
}
