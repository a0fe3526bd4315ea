/**
 * The shape of a plan: what is asked, and what comes back. Times are minutes from the start of the job, so that a
 * plan made anew in the middle of a job can be laid beside the one before.
 */
import type { Project, Schedule } from './project.ts';
import type { BuildStep, Fact, StepKind, Work } from './work.ts';

/** What has been done, and when. */
export interface Did {
  /** Id of an action or of a build step. */
  readonly id: string;
  /** min from the start of the job. */
  readonly start: number;
  /** min from the start of the job; later than now for what still runs (a cure, a drain, a charger). */
  readonly end: number;
}

/** Time in which nobody works, [from, to), min from the start of the job. */
export interface ShutHours {
  readonly from: number;
  readonly to: number;
}

/** Where the bike is. */
export interface BikeNow {
  /** min from the start of the job. */
  readonly at: number;
  /** Actions and build steps done or running, in the order in which they were done. */
  readonly did: readonly Did[];
  /** Facts that hold for another reason: the bike came in without its seat. Nothing puts these back. */
  readonly facts: readonly Fact[];
}

/** An action found to be seized: what it takes more, min; or that it will not go at all. */
export interface Stuck {
  readonly action: string;
  readonly adds: number | 'never';
}

/** What is asked. */
export interface PlanRequest {
  readonly work: Work;
  /** Ids of targets. */
  readonly targets: readonly string[];
  /** Pairs of hands. */
  readonly people: 1 | 2;
  /** From when one of two is gone, min from the start of the job. */
  readonly helperGone?: number;
  readonly now?: BikeNow;
  readonly shut?: readonly ShutHours[];
  /** When the engine was stopped (≤ now), min from the start of the job, and how long it takes to be cold, min. */
  readonly engine?: { readonly stoppedAt: number; readonly coolsIn: number };
  /** Facts that are not to be made true: "clutch off". */
  readonly leave?: readonly Fact[];
  readonly stuck?: readonly Stuck[];
  /** Supplies that are not here yet, min from the start of the job. */
  readonly arrivals?: readonly { readonly supply: string; readonly at: number }[];
  /** Ways laid out in time while the earliest ride is looked for, count; 6 when left out. */
  readonly ways?: number;
}

/** Lays a project out in time; `below`: only what ends before this is asked for, min. */
export type Scheduler = (project: Project, below?: number) => Schedule;

export type Phase = 'in' | 'bottom' | 'out' | 'closing';

/** Why one must stop and look before the next step: a figure to sign, a measure to take, a thing to look at, a wait. */
export type HoldKind = 'sign' | 'measure' | 'look' | 'wait';

/** One step of a plan. */
export interface PlanStep {
  readonly id: string;
  readonly does: string;
  readonly phase: Phase;
  /** The action that it carries out or puts back; null at the bottom and in closing. */
  readonly action: string | null;
  /** The build step; null on the way in. */
  readonly step: BuildStep | null;
  readonly kind: StepKind | 'take off';
  /** min from the start of the job. */
  readonly start: number;
  /** min from the start of the job. */
  readonly end: number;
  /** Pairs of hands, count. */
  readonly people: number;
  readonly tools: readonly string[];
  /** Index in the work's levels, 0 is the bike whole. */
  readonly depth: number;
  readonly unattended: boolean;
  /** True when the ride waits for it: put off, it makes the ride later in this order of people and tools. */
  readonly critical: boolean;
  /** How much later it can start without making the ride later or missing its window, min. */
  readonly float: number;
  /** Between when it must start because another step's window is open, min from the start of the job. */
  readonly window: { readonly from: number; readonly to: number; readonly after: string } | null;
  readonly caution: string | null;
  readonly fastener: string | null;
  readonly hold: HoldKind | null;
}

export interface Plan {
  readonly steps: readonly PlanStep[];
  /** Actions still to be carried out, in an order that works. */
  readonly actions: readonly string[];
  /** Work of going in and putting that back, hand-min, with its bound: no way is less. */
  readonly work: { readonly minutes: number; readonly bound: number; readonly proved: boolean };
  /**
   * When it can be ridden, min from the start of the job, for these actions; no order of them is sooner than the bound.
   * Where two of the actions give one fact, it is the first in `actions` that holds it until what needs it is back:
   * with the other holding it the ride can be sooner.
   */
  readonly ride: { readonly at: number; readonly bound: number; readonly proved: boolean };
  /** When this plan was made, min from the start of the job. */
  readonly at: number;
  /** The tasks behind the steps, in min from `at`: task 0 is now, task i + 1 is step i in the order of `order`. */
  readonly project: Project;
  /** Ids of the steps in the order of the project's tasks 1 …. */
  readonly order: readonly string[];
  /** When one of two people leaves, min from `at`; null where nobody does, or is gone already. */
  readonly gone: number | null;
  /** What was known to be seized when the plan was made. */
  readonly stuck: readonly Stuck[];
}

/** Why there is no plan. `names` are the ids or facts that the sentence speaks of. */
export interface PlanRefusal {
  readonly ok: false;
  readonly why:
    | 'unknown'
    | 'unreachable'
    | 'left'
    | 'hands'
    | 'hours'
    | 'lags'
    | 'resources'
    | 'time'
    | 'window';
  readonly says: string;
  readonly names: readonly string[];
}

/** What leaving things on costs beside the free way. */
export interface LeftComparison {
  readonly leave: readonly Fact[];
  /** hand-min; what leaving them on costs more, 0 when nothing. */
  readonly dearer: number;
  readonly proved: boolean;
  /** Actions that only the way with nothing left has, with their hand-min. */
  readonly onlyFree: readonly { readonly action: string; readonly minutes: number }[];
  readonly onlyLeft: readonly { readonly action: string; readonly minutes: number }[];
  readonly says: string;
}

export interface PlanAnswer {
  readonly ok: true;
  /** The plan of least work. */
  readonly least: Plan;
  /** The plan with the earliest ride of the ways that were tried; the same object as `least` when none is sooner. */
  readonly earliest: Plan;
  /** Ways laid out in time, count. */
  readonly tried: number;
  /** How the two differ in words; null when they are one. */
  readonly differ: string | null;
  readonly left: LeftComparison | null;
}

/** What a refused request says. */
export function refuse(why: PlanRefusal['why'], says: string, names: readonly string[] = []): PlanRefusal {
  return { ok: false, why, says, names };
}
