/** The state of a job: a fold over its events, the same whatever order they arrived in and however often. */
import type { RideLife } from '../circuit/ride-legs.ts';
import { checkKey } from '../reading/catalogue.ts';
import type { Evidence, FaultSet } from '../verdict/answer.ts';
import { type BenchState, foldBench } from './bench-fold.ts';
import type { AcceptedLine, CostKind, EventOf, JobEvent, Tools } from './event.ts';
import { foldProof, type ProofState } from './proof-fold.ts';
import { foldReadings, type Reading, takenAgain, type Withdrawn } from './readings-fold.ts';
import { inOrder } from './stamp.ts';
import { liveEvents } from './struck.ts';
import { foldWay, type WayState } from './way-fold.ts';

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
  /** The repaired bike: what was repaired, what was read and looked at since, what was said of it in the end. */
  readonly proof: ProofState;
  /** How the owner rides; null while nobody has told. */
  readonly life: RideLife | null;
  /** Money that went into it, in the order in which it was noted. */
  readonly costs: readonly NotedCost[];
  /** Minutes that later plans may go by, the last entry; null while nobody has let them. */
  readonly learned: NotedMinutes | null;
  /** Figures offered for the machine file that were taken or turned down, in the order of the answers. */
  readonly answered: readonly AnsweredOffer[];
  /** Greatest event id: hand it to `writeEvent` as `last`. Null when there are no events. */
  readonly last: string | null;
}

export interface NotedCost {
  readonly event: string;
  readonly what: CostKind;
  readonly of: string;
  readonly words: string;
  readonly amount: number;
  readonly at: string;
  readonly who: string;
}

export interface AnsweredOffer {
  readonly event: string;
  readonly offer: string;
  readonly taken: boolean;
  readonly at: string;
}

export interface NotedMinutes {
  readonly event: string;
  readonly steps: EventOf<'minutesLearned'>['steps'];
  readonly at: string;
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

  let opened: JobState['opened'] = null;
  let complaint: JobState['complaint'] = null;
  let tools: Tools | null = null;
  let accepted: EventOf<'verdictAccepted'> | null = null;
  let reopened: JobState['reopened'] = null;
  const priors = new Map<string, OwnPrior>();
  const notes: JobState['notes'][number][] = [];
  const costs: NotedCost[] = [];
  let learned: NotedMinutes | null = null;
  const answered: AnsweredOffer[] = [];
  let life: RideLife | null = null;

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
      case 'costNoted': {
        const { id, what, of, words, amount } = event;
        costs.push({ event: id, what, of, words, amount, at, who });
        break;
      }
      case 'lifeTold':
        life = event.life;
        break;
      case 'minutesLearned':
        learned = { event: event.id, steps: event.steps, at };
        break;
      case 'offerAnswered':
        answered.push({ event: event.id, offer: event.offer, taken: event.taken, at });
        break;
      case 'noteAdded':
        notes.push({ event: event.id, text: event.text, step: event.step ?? null, at, who });
        break;
    }
  }

  const { readings, withdrawn, takes } = foldReadings(ordered, null);
  return {
    job,
    opened,
    complaint,
    tools,
    readings,
    again: takenAgain(readings),
    withdrawn,
    accepted: accepted && describeAccepted(accepted, ordered, takes),
    reopened,
    priors: [...priors.values()],
    notes,
    bench: foldBench(ordered),
    way: foldWay(ordered),
    proof: foldProof(ordered),
    life,
    costs,
    learned,
    answered,
    last: all.at(-1)?.id ?? null,
  };
}

function describeAccepted(
  event: EventOf<'verdictAccepted'>,
  ordered: readonly JobEvent[],
  takes: ReadonlySet<string>,
): Accepted {
  const { id, at, who, repairs, sets, noneOfThese } = event;
  const changes = ordered.filter((other) => other.id > id && changesVerdict(other, takes));
  return { event: id, at, who, repairs, sets, noneOfThese, changesSince: changes.length };
}

/** Whether an event can change a verdict that was accepted before it: `takes` are the readings it rests on. */
function changesVerdict(event: JobEvent, takes: ReadonlySet<string>): boolean {
  if (event.type === 'priorSet') return true;
  if (event.type === 'readingTaken') return takes.has(event.id);
  return (event.type === 'readingWithdrawn' || event.type === 'readingPicked') && takes.has(event.event);
}

/**
 * What the verdict looks at. Undeclared tools are a multimeter only. Readings that the catalogue does not know (a log
 * of a later version) stay in the state but not in the evidence, where they could only stop the verdict.
 */
export function evidenceOf(state: JobState): Evidence {
  return evidenceFrom(state.readings, state.tools, state.complaint?.symptoms ?? []);
}

/** What the proof looks at: the repaired bike alone, and nothing of what the owner said of it before. */
export function proofEvidenceOf(state: JobState): Evidence {
  return evidenceFrom(state.proof.readings, state.tools, []);
}

function evidenceFrom(
  readings: readonly Reading[],
  tools: Tools | null,
  symptoms: readonly string[],
): Evidence {
  const { clamp, loadTester, hydrometer, supply } = tools ?? MULTIMETER_ONLY;
  const known = readings.filter((reading) => checkKey(reading.key).ok);
  return {
    symptoms,
    readings: Object.fromEntries(known.map(({ key, value }) => [key, value])),
    again: takenAgain(known),
    tools: { clamp, loadTester, hydrometer, supply },
  };
}
